"""Who may sign, void, decide and open a station; every no has its reason and says who can."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest

from tests.kitchen.kitchen_for_tests import FIRST, Scribe, noon, technique
from tests.printed import english, in_english
from trainer.kitchen.book import Entry
from trainer.kitchen.entitlement import (
    YES,
    Entitlement,
    may_manage,
    may_open_station,
    may_sign,
    may_sign_at,
    may_sign_somewhere,
    may_void,
    who_may_sign,
)

D = date
ON = D(2026, 3, 2)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe with Ada a cook, Sous an assessor cleared on the cold side, Mara and Nils managers."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.joins("sous", FIRST, "cook", "assessor")
    scribe.joins("mara", FIRST, "manager")
    scribe.joins("nils", FIRST, "manager", "assessor")
    scribe.clears_for_cold_side("sous", FIRST)
    return scribe


def test_an_assessor_cleared_there_may_sign(scribe: Scribe) -> None:
    """The role and the clearance, and another person's work."""
    assert may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON)) == YES
    assert may_sign_at("sous", "ada", "cold_side", scribe.day(ON)) == YES


def test_a_clearance_due_again_still_signs(scribe: Scribe) -> None:
    """Good to 5 January 2027, the last day counted; on the 6th no more."""
    assert may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(D(2027, 1, 5))).may
    assert not may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(D(2027, 1, 6))).may


def test_nobody_signs_their_own_work(scribe: Scribe) -> None:
    """And who else could is named: nobody here."""
    found = may_sign("sous", "sous", "cold_sauces", "cold_side", scribe.day(ON))
    assert english(found.reason) == "Nobody signs their own work."
    assert english(found.who_can) == "Nobody today: a manager can open Cold side for an assessor."


def test_a_cook_may_not_sign(scribe: Scribe) -> None:
    """However well cleared; the one who can is named."""
    scribe.clears_for_cold_side("ada", FIRST)
    found = may_sign("ada", "mara", "cold_sauces", "cold_side", scribe.day(ON))
    assert in_english(found) == Entitlement(False, "Ada is no assessor.", "Sous can sign.")


def test_an_assessor_not_cleared_there_may_not_sign(scribe: Scribe) -> None:
    """Nils has the role and no clearance."""
    found = may_sign("nils", "ada", "cold_sauces", "cold_side", scribe.day(ON))
    assert in_english(found) == Entitlement(False, "Nils is not cleared today at Cold side.", "Sous can sign.")


def test_an_assessor_who_left_may_not_sign(scribe: Scribe) -> None:
    """From that day; past signatures stand."""
    scribe.leaves("sous", ON)
    found = may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON))
    assert english(found.reason) == "Sous is not on the roster."
    assert may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON - timedelta(days=1))).may


def test_a_role_taken_away_bites_the_same_day(scribe: Scribe) -> None:
    """OWASP ASVS 5.0.0, 8.3.2: changes to rights are applied at once."""
    scribe.write("cook_changed", "sous", ON, {"roles": ["cook"]})
    assert english(may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON)).reason) == "Sous is no assessor."


def test_an_assessor_stood_down_may_not_sign(scribe: Scribe) -> None:
    """Stood down from the one station, and not cleared on the other."""
    scribe.stands_down("sous", "cold_side", ON)
    assert not may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON)).may


def test_an_assessor_taken_off_a_station_does_not_sign_at_it(scribe: Scribe) -> None:
    """Cleared at the grill too, which asks for the same: there Sous signs, and not at the station taken away."""
    scribe.shows("sous", "first_aid", FIRST, FIRST, None)
    scribe.stands_down("sous", "cold_side", ON)
    day = scribe.day(ON)
    found = may_sign("sous", "ada", "cold_sauces", "cold_side", day)
    assert (found.may, english(found.reason)) == (False, "Sous is off the station today: Cold side.")
    assert may_sign("sous", "ada", "cold_sauces", "grill", day).may
    assert may_sign_somewhere("sous", "ada", "cold_sauces", day) == Entitlement(True, station="grill")
    assert who_may_sign("ada", [scribe.content.stations["cold_side"]], day) == ()


def test_no_grant_lets_sign_where_somebody_is_taken_off(scribe: Scribe) -> None:
    """A grant stands in for a clearance, never for being put back."""
    scribe.opens("nils", "pasta_room", ON, D(2026, 3, 31))
    scribe.stands_down("nils", "pasta_room", ON)
    assert not may_sign("nils", "ada", "fresh_pasta", "pasta_room", scribe.day(ON)).may
    scribe.restores("nils", "pasta_room", ON)
    assert may_sign("nils", "ada", "fresh_pasta", "pasta_room", scribe.day(ON)).may
    scribe.watched("nils", "pasta_nesting", ON, "stopped")
    assert not may_sign("nils", "ada", "fresh_pasta", "pasta_room", scribe.day(ON)).may


def test_the_station_of_a_signature_asks_for_the_technique(scribe: Scribe) -> None:
    """Those that do are named."""
    found = may_sign("sous", "ada", "cold_sauces", "pasta_room", scribe.day(ON))
    assert english(found.reason).endswith("Stations that do: Cold side, Grill.")


def test_where_an_assessor_may_sign_nowhere_every_station_is_named(scribe: Scribe) -> None:
    """And who can."""
    found = may_sign_somewhere("nils", "ada", "cold_sauces", scribe.day(ON))
    assert in_english(found) == Entitlement(False, "Nils is not cleared today at Cold side or Grill.", "Sous can sign.")


def test_a_grant_signs_where_nobody_is_cleared_yet(scribe: Scribe) -> None:
    """To the end of its last day, at that station only, and only with the role."""
    scribe.opens("nils", "pasta_room", ON, D(2026, 3, 31))
    assert may_sign("nils", "ada", "fresh_pasta", "pasta_room", scribe.day(D(2026, 3, 31))).may
    assert may_sign_at("nils", "ada", "pasta_room", scribe.day(ON)).may
    assert not may_sign("nils", "ada", "fresh_pasta", "pasta_room", scribe.day(D(2026, 4, 1))).may
    assert not may_sign("nils", "ada", "fresh_pasta", "pasta_room", scribe.day(D(2026, 3, 1))).may
    assert not may_sign("nils", "ada", "cold_sauces", "cold_side", scribe.day(ON)).may


def test_a_grant_voided_signs_no_more(scribe: Scribe) -> None:
    """A grant given by mistake ends the day it is voided."""
    grant = scribe.opens("nils", "pasta_room", ON, D(2026, 3, 31))
    scribe.voids(grant, D(2026, 3, 5))
    assert not may_sign("nils", "ada", "fresh_pasta", "pasta_room", scribe.day(D(2026, 3, 5))).may


def test_an_assessor_whose_name_is_erased_is_cleared_nowhere(scribe: Scribe) -> None:
    """Without a person there is no age and no clearance; the id stands for the name."""
    del scribe.people["sous"]
    found = may_sign("sous", "ada", "cold_sauces", "cold_side", scribe.day(ON))
    assert english(found.reason) == "sous is not cleared today at Cold side."


def test_a_technique_no_station_asks_for_is_signed_by_nobody(scribe: Scribe) -> None:
    """There is no clearance that would entitle."""
    extra = technique("sharpening")
    scribe.content = scribe.content.__class__(
        {**scribe.content.techniques, extra.id: extra}, scribe.content.stations, scribe.content.code, {}, {}
    )
    assert "No station asks" in english(may_sign("sous", "ada", "sharpening", "cold_side", scribe.day(ON)).reason)
    assert "No station asks" in english(may_sign_somewhere("sous", "ada", "sharpening", scribe.day(ON)).reason)


def test_a_station_nobody_knows_is_refused_by_name(scribe: Scribe) -> None:
    """The value is named."""
    assert english(may_sign_at("sous", "ada", "fry", scribe.day(ON)).reason) == "There is no station “fry”."
    assert english(may_open_station("mara", "nils", "fry", scribe.day(ON)).reason) == "There is no station “fry”."


def test_all_who_may_sign_are_found(scribe: Scribe) -> None:
    """Not the cook themself."""
    stations = scribe.content.stations_asking_for("cold_sauces")
    assert who_may_sign("ada", stations, scribe.day(ON)) == ("sous",)
    assert who_may_sign("sous", stations, scribe.day(ON)) == ()


def test_a_manager_decides_about_others_only(scribe: Scribe) -> None:
    """Nobody grants themselves anything."""
    assert may_manage("mara", "ada", scribe.day(ON)) == YES
    assert english(may_manage("mara", "mara", scribe.day(ON)).who_can) == "Another manager can do this."
    assert in_english(may_manage("sous", "ada", scribe.day(ON))) == Entitlement(
        False, "Sous is no manager.", "A manager can do this."
    )


def test_a_station_is_opened_by_a_manager_for_an_assessor_while_nobody_is_cleared(scribe: Scribe) -> None:
    """The pasta room has nobody yet."""
    assert may_open_station("mara", "nils", "pasta_room", scribe.day(ON)) == YES


def test_no_manager_opens_a_station_for_themselves(scribe: Scribe) -> None:
    """Nils is manager and assessor; another manager does it."""
    found = may_open_station("nils", "nils", "pasta_room", scribe.day(ON))
    assert in_english(found) == Entitlement(
        False, "Nobody decides this about themselves.", "Another manager can do this."
    )


def test_a_station_is_not_opened_for_somebody_without_the_role(scribe: Scribe) -> None:
    """A grant is no role."""
    assert english(may_open_station("mara", "ada", "pasta_room", scribe.day(ON)).reason) == "Ada is no assessor."


def test_a_station_somebody_is_cleared_on_is_not_opened(scribe: Scribe) -> None:
    """Who is cleared is named."""
    found = may_open_station("mara", "nils", "cold_side", scribe.day(ON))
    assert english(found.reason) == "Sous is cleared there already: no grant is needed."


def entry_of(scribe: Scribe, name: str) -> Entry:
    """Return an entry by id."""
    return next(entry for entry in scribe.entries if entry.id == name)


def void(scribe: Scribe, by: str, name: str, at: datetime, reason: str = "slip") -> Entitlement:
    """Ask whether a person may void an entry."""
    return may_void(by, entry_of(scribe, name), reason, at, scribe.progress())


@pytest.mark.parametrize(("minutes", "may"), [(0, True), (10, True), (11, False), (-1, False)])
def test_its_writer_may_void_an_entry_for_ten_minutes(scribe: Scribe, minutes: int, may: bool) -> None:
    """The tenth minute counts; a clock put back gives no right."""
    entry = scribe.reads("ada", "cold_sauces", ON)
    found = void(scribe, "ada", entry, noon(ON) + timedelta(minutes=minutes), reason="")
    assert found.may is may
    if not may:
        assert english(found.who_can) == "A manager can do this."


def test_its_writer_does_not_take_a_stop_back(scribe: Scribe) -> None:
    """Not within the ten minutes either; a manager voids it with a reason, and any other practical is as before."""
    stopped = scribe.watched("ada", "cold_sauces", ON, "stopped")
    found = void(scribe, "sous", stopped, noon(ON))
    assert in_english(found) == Entitlement(
        False, "A stop is not taken back: a manager releases it or voids it.", "A manager can do this."
    )
    assert void(scribe, "mara", stopped, noon(ON), "wrong cook") == YES
    assert void(scribe, "sous", scribe.watched("ada", "cold_sauces", ON, "not yet"), noon(ON)) == YES


def test_a_manager_may_void_any_time_with_a_reason(scribe: Scribe) -> None:
    """Without one it is refused."""
    entry = scribe.reads("ada", "cold_sauces", ON)
    later = noon(D(2026, 9, 1))
    assert void(scribe, "mara", entry, later) == YES
    assert english(void(scribe, "mara", entry, later, " ").reason) == "A correction needs a reason."


def test_nobody_else_may_void(scribe: Scribe) -> None:
    """An assessor cannot void what another wrote."""
    entry = scribe.reads("ada", "cold_sauces", ON)
    assert not void(scribe, "sous", entry, noon(ON)).may


def test_a_manager_does_not_void_entries_about_themselves(scribe: Scribe) -> None:
    """Nils cannot take away the standing down another manager wrote about him."""
    entry = scribe.stands_down("nils", "grill", ON)
    assert english(void(scribe, "nils", entry, noon(ON)).who_can) == "Another manager can do this."


def test_a_void_is_never_voided(scribe: Scribe) -> None:
    """The entry is written again instead."""
    entry = scribe.voids(scribe.reads("ada", "cold_sauces", ON), ON)
    assert "never voided" in english(void(scribe, "mara", entry, noon(ON)).reason)


def test_nothing_is_voided_twice(scribe: Scribe) -> None:
    """Once is enough."""
    entry = scribe.reads("ada", "cold_sauces", ON)
    scribe.voids(entry, ON)
    assert english(void(scribe, "mara", entry, noon(ON)).reason) == "That entry is voided already."


def test_a_writer_who_left_voids_nothing(scribe: Scribe) -> None:
    """Not even within the ten minutes."""
    entry = scribe.reads("ada", "cold_sauces", ON)
    scribe.leaves("ada", ON)
    assert not void(scribe, "ada", entry, noon(ON)).may
