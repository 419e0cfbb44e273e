"""A sign-off in which a point was missed that a later edition asks for always: to when it counts, and what is told."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content, with_technique
from tests.printed import english
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.technique import Edition

D = date
SIGNED, SINCE = D(2026, 9, 3), D(2026, 11, 29)
BEFORE = SINCE - timedelta(days=1)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe with Ada on the roster, and edition 2 of cold sauces, which lets boil and told pass no more."""
    scribe = Scribe()
    scribe.joins("ada", born=D(1990, 5, 5))
    later = Edition(2, SINCE, "Times are needed always.", True, unless_missed=("boil", "told"))
    editions = (*scribe.content.techniques["cold_sauces"].editions, later)
    scribe.content = with_technique(scribe.content, "cold_sauces", editions=editions)
    scribe.reads("ada", "cold_sauces", SIGNED)
    return scribe


def cold_side(scribe: Scribe, on: date) -> Clearance:
    """Return Ada's clearance at the cold side."""
    return scribe.clearance("ada", "cold_side", on)


def test_a_sign_off_with_such_a_point_missed_ends_the_day_before_the_edition(scribe: Scribe) -> None:
    """Cleared on 28 November, not on the 29th; the cell names the point in its own words, and what to do."""
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["boil"])
    assert cold_side(scribe, BEFORE).is_cleared
    found = cold_side(scribe, SINCE)
    assert (found.state, found.until) == ("lapsed", BEFORE)
    (missing,) = found.missing
    assert english(missing.text) == (
        "Cold sauces: sign-off of 3 September 2026 counted to 28 November 2026; "
        "what was missed in it is now needed always: boiled in time."
    )
    assert english(missing.next_act).startswith("The cook shows it again")
    assert found.reason == missing.text


def test_several_such_points_are_all_named(scribe: Scribe) -> None:
    """In the order the edition names them."""
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["told", "weights", "boil"])
    (missing,) = cold_side(scribe, SINCE).missing
    assert english(missing.text).endswith("always: boiled in time; allergens told.")


def test_every_other_sign_off_holds(scribe: Scribe) -> None:
    """Another scored point missed, or none: the sign-off counts its twelve months."""
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["weights"])
    found = cold_side(scribe, SINCE)
    assert (found.state, found.until) == ("cleared", D(2027, 9, 3))


def test_boards_before_that_day_stay_as_they_were(scribe: Scribe) -> None:
    """Every day from the sign-off to the day before the edition says all that it said before there was the edition."""
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["boil"])
    days = [SIGNED + timedelta(days=day) for day in range((SINCE - SIGNED).days)]
    with_edition = [cold_side(scribe, day) for day in days]
    scribe.content = small_content()
    assert with_edition == [cold_side(scribe, day) for day in days]
    assert {(found.state, found.until) for found in with_edition} == {("cleared", D(2027, 9, 3))}


def test_shown_again_it_counts_from_that_day(scribe: Scribe) -> None:
    """A practical by the new edition with everything met."""
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["boil"])
    scribe.watched("ada", "cold_sauces", D(2026, 12, 1), edition=2)
    assert not cold_side(scribe, D(2026, 11, 30)).is_cleared
    assert cold_side(scribe, D(2026, 12, 1)).is_cleared


def test_an_earlier_sign_off_with_everything_met_still_counts(scribe: Scribe) -> None:
    """The later one ends; the one before it does not."""
    scribe.watched("ada", "cold_sauces", D(2026, 6, 1))
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["boil"])
    found = cold_side(scribe, SINCE)
    assert found.is_cleared
    assert found.until == D(2027, 6, 1)


def test_a_practical_by_the_new_edition_itself_is_judged_by_its_own_verdict(scribe: Scribe) -> None:
    """The edition speaks of sign-offs before it, never of its own."""
    scribe.watched("ada", "cold_sauces", SINCE, edition=2, missed=["boil"])
    assert cold_side(scribe, SINCE).is_cleared


def test_a_sign_off_that_ran_out_or_was_stopped_is_told_as_that(scribe: Scribe) -> None:
    """What ended it first is what is told."""
    scribe.watched("ada", "cold_sauces", D(2025, 9, 3), missed=["boil"])
    assert "counted to 3 September 2026" in english(cold_side(scribe, SINCE).missing[0].text)
    assert "missed" not in english(cold_side(scribe, SINCE).missing[0].text)
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["boil"])
    scribe.watched("ada", "cold_sauces", D(2026, 12, 2), "stopped")
    assert "stopped for safety on 2 December 2026" in english(cold_side(scribe, D(2026, 12, 3)).missing[0].text)


@pytest.mark.parametrize("points", [None, [], [{"point": "boil", "seen": "meets it", "readings": ["700 s"]}]])
def test_what_an_entry_does_not_show_is_never_guessed(scribe: Scribe, points: list[dict[str, Any]] | None) -> None:
    """An entry without points, or with none missed, holds: nothing says that it was."""
    body = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", "verdict": "meets it", "reasons": []}
    scribe.write("practical_watched", "ada", SIGNED, {**body, **({} if points is None else {"points": points})}, "sous")
    assert cold_side(scribe, SINCE).is_cleared


def test_two_editions_end_it_at_the_first_that_asks(scribe: Scribe) -> None:
    """Edition 2 asks for boil, edition 3 for the weights: each ends what was missed, the earlier first."""
    third = Edition(3, D(2027, 1, 4), "Weights too.", True, unless_missed=("weights",))
    editions = (*scribe.content.techniques["cold_sauces"].editions, third)
    scribe.content = with_technique(scribe.content, "cold_sauces", editions=editions)
    scribe.watched("ada", "cold_sauces", SIGNED, missed=["weights"])
    found = cold_side(scribe, D(2027, 1, 4))
    assert found.until == D(2027, 1, 3)
    assert "nests weigh alike" in english(found.missing[0].text)
