"""A service without somebody: worked out a second time by trying every seating, on random services."""

from __future__ import annotations

from datetime import date, datetime, time
from random import Random

import pytest

from tests.actions.crew import Crew
from tests.kitchen.naive_cover import best_seating
from trainer.actions.absences import absence, absences_of, not_replaced, services_ahead
from trainer.actions.covering import ServiceCover, services_of
from trainer.kitchen.cover import cover
from trainer.kitchen.planned import Judged, Planned
from trainer.kitchen.services import STANDARD
from trainer.store.shifts import PlannedShift

DINNER = STANDARD[-1]
DAY = date(2026, 3, 9)  # a Monday
OPENS, CLOSES = datetime.combine(DAY, time(17)), datetime.combine(DAY, time(23))
STATIONS = ("cold", "grill", "pasta", "sauce")


def random_service(dice: Random) -> ServiceCover:
    """Return a service of up to four places, with up to four cooks on and three at home."""
    needs = dict.fromkeys(STATIONS[: dice.randint(1, 4)], 1)
    may = {f"cook{n}": frozenset(s for s in needs if dice.random() < 0.45) for n in range(7)}
    on = [cook for cook in may if dice.random() < 0.6][:4]
    planned = {cook: dice.choice(list(needs)) for cook in on}
    judged = tuple(Judged(Planned(cook, station, "dinner"), "may stand") for cook, station in planned.items())
    here = {cook: may[cook] for cook in on}
    free = {place: tuple(cook for cook in may if cook not in here and place in may[cook]) for place in needs}
    return ServiceCover(DAY, DINNER, OPENS, CLOSES, judged, cover(needs, here, planned), here, free)


def naive(found: ServiceCover, gone: str) -> str:
    """Return what becomes of a service, by trying every seating of those on, then of everybody."""
    slots = [one.station for one in found.cover.stations]
    here = {cook: may for cook, may in found.can.items() if cook != gone}
    if best_seating(slots, here, {})[0] == len(slots):
        return "holds"
    at_home = {cook for cooks in found.free.values() for cook in cooks}
    everybody = here | {cook: {s for s in slots if cook in found.free[s]} for cook in at_home}
    return "with a call" if best_seating(slots, everybody, {})[0] == len(slots) else "does not hold"


@pytest.mark.parametrize("seed", range(60))
def test_an_absence_is_what_trying_every_seating_says(seed: int) -> None:
    """By itself, with a call, or not at all; those nobody replaces are those without whom it would not hold."""
    found = random_service(Random(seed))  # noqa: S311 - a kept seed
    told = {cook: naive(found, cook) for cook in found.can}
    assert {cook: absence(found, cook).outcome for cook in found.can} == told
    alone = [cook for cook, outcome in told.items() if outcome == "does not hold"]
    assert list(not_replaced(found)) == (alone if found.cover.holds else [])


def test_who_is_called_is_at_home_and_cleared() -> None:
    """A call names nobody who is on, and only a place the cook is cleared for."""
    for seed in range(60):
        found = random_service(Random(seed))  # noqa: S311 - a kept seed
        for cook in found.can:
            for called, place in absence(found, cook).calls:
                assert called not in found.can
                assert called in found.free[place]


def sets_needs(crew: Crew, *stations: str) -> None:
    monday = {"weekday": 1, "service": "dinner", "opens": "17:00", "closes": "22:00", "guests": 20}
    needs = [{"stations": list(stations), "hands": 1}]
    crew.write("services_set", "mara", {"since": "2026-01-01", "weekly": [{**monday, "needs": needs}], "days": []})


def test_one_hand_holds_two_stations_on_a_slow_monday(crew: Crew) -> None:
    """Cleared for both, one cook covers a need of both; planned at either, that is where they stand."""
    crew.clears("sous", station="grill")
    crew.write("certificate_shown", "sous", {"certificate": "first_aid", "issued": "2026-01-01", "expires": None})
    sets_needs(crew, "cold_side", "grill")
    crew.k.file.shifts.add([PlannedShift(DAY, "dinner", "sous", "cold_side")])
    (found,) = services_of(crew.k, DAY)
    assert [(one.stations, one.hands) for one in found.cover.stations] == [(("cold_side", "grill"), 1)]
    may_both = {"cold_side", "grill"} <= found.can["sous"]
    assert found.cover.holds == found.cover.holds_as_planned == may_both
    assert found.cover.at("grill") == found.cover.at("cold_side")


def test_cleared_for_one_of_two_is_no_hand_for_both(crew: Crew) -> None:
    """A need of two stations asks for both clearances."""
    sets_needs(crew, "cold_side", "pasta_room")
    crew.k.file.shifts.add([PlannedShift(DAY, "dinner", "sous", "cold_side")])
    (found,) = services_of(crew.k, DAY)
    assert "cold_side" in found.can["sous"]
    assert not found.cover.holds
    assert found.cover.no_one == ("cold_side+pasta_room",)


def test_a_service_without_a_cook_is_told_day_by_day(crew: Crew) -> None:
    """Only services the cook is on at are told; of a day with no plan nothing is."""
    crew.k.file.shifts.add([PlannedShift(DAY, "dinner", "sous", "cold_side")])
    services = services_ahead(crew.k, date(2026, 3, 2), 14)
    assert [one.on for one in services] == [DAY]
    assert [one.outcome for one in absences_of(services, "sous")] == ["does not hold"]
    assert absences_of(services, "ada") == ()
    (without,) = services_of(crew.k, DAY, without=["sous"])
    assert not without.cover.holds
