"""Supervised shifts."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from tests.actions.crew import NOON, TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.outcome import Outcome
from trainer.actions.watching import SupervisedShift, work_shift
from trainer.store.shifts import PlannedShift

DINNER = SupervisedShift("ada", "cold_side", TODAY, "sous", 80, "dinner")


@pytest.fixture(autouse=True)
def _after_dinner(crew: Crew) -> None:
    """Let it be 22:00 in New York: a shift is signed once it is worked."""
    crew.later(hours=10)


def work(crew: Crew, by: str = "sous", **changes: Any) -> Outcome:
    """Write a shift down."""
    return work_shift(crew.k, by=by, shift=replace(DINNER, **changes), now=crew.now, key=crew.key())


def test_a_shift_is_written_by_an_assessor_cleared_there(crew: Crew) -> None:
    """Whom, where, when, beside whom, for how many guests."""
    entry = saved(work(crew))
    assert (entry.kind, entry.cook, entry.by) == ("shift_worked", "ada", "sous")
    assert entry.body == {
        "station": "cold_side",
        "worked_on": "2026-03-02",
        "beside": "sous",
        "guests": 80,
        "sitting": "dinner",
        "entitled_by": entry.body["entitled_by"],
    }


def test_the_cook_beside_may_be_another_than_the_writer(crew: Crew) -> None:
    """Ben is cleared there."""
    crew.clears("ben")
    saved(work(crew, beside="ben"))


@pytest.mark.parametrize(
    ("by", "changes", "reason"),
    [
        ("ben", {}, "Ben is no assessor."),
        ("nils", {}, "Nils is not cleared today at Cold side."),
        ("sous", {"cook": "sous"}, "Nobody signs their own work."),
        ("sous", {"station": "fry"}, "There is no station “fry”."),
        ("sous", {"cook": "ghost"}, "ghost is not on the roster."),
        (
            "sous",
            {"worked_on": TODAY + timedelta(days=1)},
            "3 March 2026 is still to come. A shift is signed once it is worked.",
        ),
        (
            "sous",
            {"worked_on": TODAY - timedelta(days=2)},
            "That was 2 days ago. A shift is signed by the end of the day after it.",
        ),
        ("sous", {"guests": -1}, "-1 guests: a shift has from 1 to 10000."),
        ("sous", {"guests": 0}, "0 guests: a shift has from 1 to 10000."),
        ("sous", {"guests": 10_001}, "10001 guests: a shift has from 1 to 10000."),
        ("sous", {"sitting": "tea"}, "“tea”: there are breakfast, lunch and dinner."),
        ("sous", {"beside": "ada"}, "Ada works the shift: somebody else stands beside."),
        ("sous", {"beside": "ben"}, "Ben was not cleared at Cold side that day."),
        ("sous", {"beside": "ghost"}, "ghost was not on the roster on 2 March 2026."),
    ],
)
def test_a_shift_is_refused_with_its_reason(crew: Crew, by: str, changes: dict[str, Any], reason: str) -> None:
    """Each rule by itself."""
    assert english(refused(work(crew, by, **changes)).reason) == reason


def test_yesterdays_shift_may_still_be_written(crew: Crew) -> None:
    """The cook beside was cleared yesterday as well."""
    crew.later(days=1)
    saved(work(crew))


def test_the_cook_beside_was_cleared_on_the_day_worked_not_today(crew: Crew) -> None:
    """Ben is cleared since today; yesterday he was not."""
    crew.later(days=1)
    crew.clears("ben")
    assert "not cleared" in english(refused(work(crew, beside="ben")).reason)
    saved(work(crew, beside="ben", worked_on=TODAY + timedelta(days=1)))


def test_an_older_shift_needs_an_assessor_who_is_a_manager(crew: Crew) -> None:
    """Back-dating by more than a day (house rule; record within a day is common practice)."""
    crew.clears("nils")
    crew.later(days=5)
    found = refused(work(crew))
    assert (english(found.who_can), found.field) == (
        "An assessor who is a manager too can still write it down.",
        "worked_on",
    )
    saved(work(crew, by="nils"))


def test_a_grant_stands_for_a_clearance(crew: Crew) -> None:
    """Nils holds the pasta room's grant: he writes, and may be the one beside."""
    crew.write("station_opened", "nils", {"station": "pasta_room", "until": "2026-03-31", "reason": "new"}, by="mara")
    saved(work(crew, by="nils", station="pasta_room", beside="nils"))


def test_nobody_taken_off_a_station_is_the_one_beside(crew: Crew) -> None:
    """Not under a grant either: Ines writes, and Nils stands there no more."""
    crew.joins("ines", "cook", "assessor")
    for assessor in ("nils", "ines"):
        body = {"station": "pasta_room", "until": "2026-03-31", "reason": "new"}
        crew.write("station_opened", assessor, body, by="mara")
    crew.write("stood_down", "nils", {"station": "pasta_room", "reason": "not safe today"})
    found = refused(work(crew, by="ines", station="pasta_room", beside="nils"))
    assert (english(found.reason), found.field) == ("Nils was not cleared at Pasta room that day.", "beside")
    saved(work(crew, by="ines", station="pasta_room", beside="ines"))


def test_a_shift_counts_once(crew: Crew) -> None:
    """The same day and sitting at the same station is refused; lunch, or another station's dinner, is another shift."""
    saved(work(crew))
    assert english(refused(work(crew)).reason) == "That shift is written down already."
    saved(work(crew, sitting="lunch"))


def test_who_may_not_stand_there_works_no_shift(crew: Crew) -> None:
    """29 CFR 570.62: under 18 nobody helps at a dough sheeter, supervised or not; stood down is stood down."""
    crew.write("station_opened", "nils", {"station": "pasta_room", "until": "2026-03-31", "reason": "new"}, by="mara")
    crew.joins("kit", "cook", born=date(2010, 1, 1))
    found = refused(work(crew, by="nils", cook="kit", station="pasta_room", beside="nils"))
    assert english(found.reason).startswith("Age: not 18 before 1 January 2028")
    crew.write("stood_down", "ada", {"station": "cold_side", "reason": "cut hand"})
    assert english(refused(work(crew)).reason) == "Stood down on 2 March 2026: cut hand"


def test_a_person_erased_works_no_shift(crew: Crew) -> None:
    """Whether they may stand there cannot be known."""
    crew.k.file.people.erase("ada")
    assert "erased" in english(refused(work(crew)).reason)


@pytest.mark.parametrize(
    ("sitting", "hour", "words"),
    [
        ("dinner", 12, "It is 12:00 here, and dinner begins no earlier than 15:00. Sign the shift once it is worked."),
        ("dinner", 15, ""),
        ("lunch", 9, "It is 09:00 here, and lunch begins no earlier than 10:00. Sign the shift once it is worked."),
        ("lunch", 12, ""),
    ],
)
def test_a_shift_that_cannot_have_begun_is_refused(crew: Crew, sitting: str, hour: int, words: str) -> None:
    """By the kitchen's own clock; that lunch begins about 11 and dinner about 17 is common practice."""
    crew.now = NOON + timedelta(days=1, hours=hour - 12)
    outcome = work(crew, sitting=sitting, worked_on=TODAY + timedelta(days=1))
    if words:
        assert (english(refused(outcome).reason), refused(outcome).field) == (words, "sitting")
    else:
        saved(outcome)


def test_yesterdays_dinner_is_signed_at_any_hour(crew: Crew) -> None:
    """After midnight, and at noon of the day after."""
    for hours in (3, 11):
        crew.later(hours=hours)
        saved(work(crew, sitting="dinner" if hours == 3 else "lunch", worked_on=TODAY))


def test_a_dinner_typed_with_the_day_after_midnight_is_told_its_day(crew: Crew) -> None:
    """At half past midnight of 3 March the dinner just worked is that of 2 March."""
    crew.later(hours=2, minutes=30)
    found = refused(work(crew, worked_on=TODAY + timedelta(days=1)))
    assert english(found.reason).startswith("It is 00:30 here, and dinner begins no earlier than 15:00.")
    assert english(found.who_can) == "A service that ends after midnight belongs to the day before: 2 March 2026."


def plan(crew: Crew, *cooks: str, sitting: str = "dinner") -> None:
    """Plan who is on."""
    crew.k.file.shifts.add(PlannedShift(TODAY, sitting, cook, "cold_side") for cook in cooks)


def test_whoever_is_beside_was_on_where_the_plan_is_known(crew: Crew) -> None:
    """Sous is cleared there and was at home: the names of those planned are said, and who puts the plan right."""
    crew.clears("ben")
    plan(crew, "ben", "ada")
    found = refused(work(crew))
    assert english(found.reason) == "Sous is not planned for dinner on 2 March 2026. Planned: Ada, Ben."
    assert (found.field, english(found.who_can)) == ("beside", "A manager puts the plan right with a shift file.")
    saved(work(crew, beside="ben"))


def test_without_a_plan_of_that_service_anybody_cleared_may_be_beside(crew: Crew) -> None:
    """Lunch is planned, dinner is not; the cook on trial need not be in the plan."""
    plan(crew, "ben", sitting="lunch")
    saved(work(crew))
    plan(crew, "sous", sitting="lunch")
    saved(work(crew, sitting="lunch"))
