"""Known from before: what a manager says of a cook stands for a while, and is never shown as watched.

How long it stands is the house's own: 28 days of being due after its end, 28 to answer questions about safety. The days
here are counted on a calendar.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content, with_technique
from tests.printed import english
from trainer.kitchen.clearance import Clearance, TechniqueStanding, technique_standing
from trainer.kitchen.next_change import next_change
from trainer.kitchen.tasks import TaskProgress, task_of
from trainer.kitchen.technique import CertificateAsked, Edition

D = date
SAID, UNTIL = D(2026, 3, 2), D(2026, 5, 31)


def says(scribe: Scribe, *techniques: str, until: date = UNTIL, on: date = SAID, asked: Sequence[str] = ()) -> str:
    """Write what a manager says a cook knows."""
    cell = {"cook": "ada", "station": "cold_side", "techniques": list(techniques), "until": f"{until}"}
    return scribe.write("known_before", "ada", on, {"cells": [{**cell, "asked": list(asked)}], "basis": "ten years"})


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe whose cook is said to know the one technique of the cold side, to 31 May 2026."""
    scribe = Scribe(content=small_content(cold_side={"warn_days": 5}))
    scribe.joins("ada", SAID)
    says(scribe, "cold_sauces")
    return scribe


def found(scribe: Scribe, on: date, station: str = "cold_side") -> Clearance:
    """Return the clearance on a day."""
    return scribe.clearance("ada", station, on)


def standing(scribe: Scribe, on: date, technique: str = "cold_sauces") -> TechniqueStanding:
    """Return where the cook stands with a technique."""
    return technique_standing("ada", scribe.content.techniques[technique], scribe.progress(), on)


def test_it_stands_for_reading_and_practical_and_is_marked(scribe: Scribe) -> None:
    """Cleared from the day it is said, and marked as known; what is held says that nobody watched it."""
    seen = found(scribe, SAID)
    assert (seen.state, seen.known) == ("cleared", True)
    practical = next(one for one in seen.held if one.what.startswith("practical"))
    assert (english(practical.text), practical.known) == ("Cold sauces: known, not watched.", True)


def test_it_is_due_again_after_its_day_for_twenty_eight_more_and_then_over(scribe: Scribe) -> None:
    """31 May is its last day: due from 1 June to 28 June, lapsed on the 29th."""
    states = {day: found(scribe, day).state for day in (UNTIL, D(2026, 6, 1), D(2026, 6, 28), D(2026, 6, 29))}
    assert [*states.values()] == ["cleared", "due again", "due again", "lapsed"]
    words = "Known from before to 31 May 2026; counts to 28 June 2026, and is to be watched by then."
    assert english(found(scribe, D(2026, 6, 1)).due) == words


def test_the_day_it_is_due_is_told_before(scribe: Scribe) -> None:
    """It is the next change."""
    station = scribe.content.stations["cold_side"]
    comes = next_change(scribe.people["ada"], station, scribe.progress(), scribe.content, SAID)
    assert comes is not None
    assert (comes.on, comes.before, comes.after) == (D(2026, 6, 1), "cleared", "due again")


def test_a_technique_known_is_never_shown_as_signed(scribe: Scribe) -> None:
    """It is ready to show, and the cook is asked to be watched."""
    where = standing(scribe, SAID)
    assert (where.state, where.is_signed, where.may_be_watched) == ("ready to show", False, True)
    task = task_of(scribe.content.techniques["cold_sauces"], where, TaskProgress())
    assert (task.act, task.is_done) == ("ask to be watched", False)


def test_a_sign_off_takes_its_place(scribe: Scribe) -> None:
    """Watched on 20 March: no mark is left, and it lasts its twelve months."""
    scribe.reads("ada", "cold_sauces", D(2026, 3, 20))
    scribe.watched("ada", "cold_sauces", D(2026, 3, 20))
    seen = found(scribe, D(2026, 3, 20))
    assert (seen.known, seen.until) == (False, D(2027, 3, 20))
    assert found(scribe, D(2026, 6, 29)).is_cleared


def test_a_void_takes_it_back(scribe: Scribe) -> None:
    """From its day on."""
    entry = scribe.entries[-1].id
    scribe.voids(entry, D(2026, 3, 10))
    assert found(scribe, D(2026, 3, 9)).is_cleared
    assert not found(scribe, D(2026, 3, 10)).is_cleared


def test_a_stop_ends_it(scribe: Scribe) -> None:
    """Off the station at once; released, it does not come back."""
    stop = scribe.watched("ada", "cold_sauces", D(2026, 3, 10), "stopped", started="2026-03-10T11:00:00+00:00")
    assert found(scribe, D(2026, 3, 10)).state == "stood down"
    scribe.releases(stop, D(2026, 3, 11))
    assert found(scribe, D(2026, 3, 12)).state == "lapsed"


def test_said_while_a_stop_stands_it_counts_for_nothing() -> None:
    """No word of a manager's lifts a stop, not even later."""
    scribe = Scribe()
    scribe.joins("ada", SAID)
    stop = scribe.watched("ada", "cold_sauces", SAID, "stopped", started="2026-03-02T11:00:00+00:00")
    says(scribe, "cold_sauces", on=D(2026, 3, 3))
    assert found(scribe, D(2026, 3, 3)).state == "stood down"
    scribe.releases(stop, D(2026, 3, 4))
    assert not found(scribe, D(2026, 3, 5)).is_cleared


def test_age_papers_and_standing_down_hold_all_the_same() -> None:
    """16 years old at a station for adults (29 CFR 570.62), no paper, then stood down."""
    card = CertificateAsked("first_aid", "First aid", bars=True)
    for changes, state in (({"minimum_age": 18}, "not allowed"), ({"certificates": (card,)}, "not allowed")):
        scribe = Scribe(content=small_content(cold_side=changes))
        scribe.joins("ada", SAID, born=D(2010, 1, 1))
        says(scribe, "cold_sauces")
        assert found(scribe, SAID).state == state
    scribe = Scribe()
    scribe.joins("ada", SAID)
    says(scribe, "cold_sauces")
    scribe.stands_down("ada", "cold_side", D(2026, 3, 4))
    assert found(scribe, D(2026, 3, 4)).state == "stood down"


def test_supervised_shifts_are_asked_all_the_same() -> None:
    """It stands for what is learnt, and for no shift."""
    scribe = Scribe(content=small_content(cold_side={"supervised_shifts": 1}))
    scribe.joins("ada", SAID)
    says(scribe, "cold_sauces")
    assert found(scribe, SAID).state == "supervised"


def test_an_edition_that_asks_for_everything_anew_ends_it(scribe: Scribe) -> None:
    """As it ends a sign-off: edition 2 from 1 April."""
    first = scribe.content.techniques["cold_sauces"].editions[0]
    editions = (first, Edition(2, D(2026, 4, 1), "", sign_offs_hold=False))
    scribe.content = with_technique(scribe.content, "cold_sauces", editions=editions)
    assert found(scribe, D(2026, 3, 31)).is_cleared
    assert not found(scribe, D(2026, 4, 1)).is_cleared


def with_questions(asked: Sequence[str]) -> Scribe:
    """Return a scribe whose cook is said to know fresh pasta, which has a quiz, at the cold side."""
    scribe = Scribe(content=small_content(cold_side={"techniques": ("fresh_pasta",), "warn_days": 1}))
    scribe.joins("ada", SAID)
    says(scribe, "fresh_pasta", until=D(2026, 12, 31), asked=asked)
    return scribe


def test_questions_about_safety_are_asked_from_the_first_day() -> None:
    """The cook's next act is the quiz, though the station counts them as cleared; other questions wait."""
    for asked, act in ((["fresh_pasta"], "sit quiz"), ([], "ask to be watched")):
        scribe = with_questions(asked)
        task = task_of(scribe.content.techniques["fresh_pasta"], standing(scribe, SAID, "fresh_pasta"), TaskProgress())
        assert (task.act, found(scribe, SAID).state) == (act, "cleared")


def test_questions_about_safety_left_for_twenty_eight_days_are_due_for_twenty_eight_more() -> None:
    """Said on 2 March: 30 March is the 28th day after it, 27 April the 56th."""
    scribe = with_questions(["fresh_pasta"])
    days = (D(2026, 3, 30), D(2026, 3, 31), D(2026, 4, 27), D(2026, 4, 28))
    assert [found(scribe, day).state for day in days] == ["cleared", "due again", "due again", "lapsed"]
    words = "The questions were to be answered by 30 March 2026; known from before to 27 April 2026."
    assert english(found(scribe, D(2026, 3, 31)).due) == words


def test_answered_they_are_due_no_more() -> None:
    """The quiz passed on 20 March: cleared to the end of what was said."""
    scribe = with_questions(["fresh_pasta"])
    scribe.sits("ada", "fresh_pasta", D(2026, 3, 20))
    assert found(scribe, D(2026, 4, 28)).state == "cleared"


def test_other_questions_are_known_as_long_as_the_rest() -> None:
    """No question about safety: nothing is due before 31 December."""
    scribe = with_questions([])
    assert found(scribe, D(2026, 12, 31)).state == "cleared"
    assert found(scribe, D(2027, 1, 1)).state == "due again"
