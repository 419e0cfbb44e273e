"""Papers from outside: their end, the days of grace after it, and papers that follow each other.

Grace and the longest time are the house's own, as no code names them; the days here are counted on a calendar.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content
from tests.printed import english
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.next_change import next_change
from trainer.kitchen.technique import CertificateAsked

D = date
SHOWN = D(2026, 1, 10)
CARD = CertificateAsked("food_handler", "Food handler card", bars=False)


def shown(asked: CertificateAsked, *papers: tuple[date, date, date | None]) -> Scribe:
    """Return a scribe whose cook holds all the cold side asks for but its paper, and showed these papers.

    Of a paper it takes when it was shown, issued, and when it ends.
    """
    scribe = Scribe(content=small_content(cold_side={"certificates": (asked,), "warn_days": 10}))
    scribe.joins("ada", SHOWN)
    scribe.clears_for_cold_side("ada", SHOWN)
    for day, issued, expires in papers:
        scribe.shows("ada", asked.id, day, issued, expires)
    return scribe


def found(scribe: Scribe, on: date) -> Clearance:
    """Return the clearance at the cold side."""
    return scribe.clearance("ada", "cold_side", on)


def asked(**changes: Any) -> CertificateAsked:
    """Return the paper asked for, with grace or a longest time."""
    return replace(CARD, **changes)


def test_a_paper_counts_on_the_last_day_of_grace_and_not_on_the_next() -> None:
    """Ended on 1 March with 20 days of grace: to the end of 21 March."""
    scribe = shown(asked(grace_days=20), (SHOWN, D(2025, 3, 2), D(2026, 3, 1)))
    assert found(scribe, D(2026, 3, 21)).is_cleared
    late = found(scribe, D(2026, 3, 22))
    assert (late.state, late.until) == ("lapsed", D(2026, 3, 21))
    assert english(late.reason) == "Food handler card: ended on 1 March 2026, counted to 21 March 2026."


def test_on_grace_it_is_due_again_and_says_which_paper_and_the_day() -> None:
    """From the day after its end, though its last good day is further off than the days of warning."""
    scribe = shown(asked(grace_days=20), (SHOWN, D(2025, 3, 2), D(2026, 3, 1)))
    before, on_grace = found(scribe, D(2026, 3, 1)), found(scribe, D(2026, 3, 2))
    assert (before.state, before.due) == ("cleared", "")
    assert (on_grace.state, on_grace.until) == ("due again", D(2026, 3, 21))
    words = "Food handler card: ended on 1 March 2026, counts to 21 March 2026."
    assert english(on_grace.due) == words
    assert [english(one.text) for one in on_grace.held if one.what == "certificate:food_handler"] == [words]


def test_the_first_day_of_grace_is_the_next_change() -> None:
    """The manager reads it before it comes, with its reason."""
    scribe = shown(asked(grace_days=20), (SHOWN, D(2025, 3, 2), D(2026, 3, 1)))
    place, progress = scribe.content.stations["cold_side"], scribe.progress()
    comes = next_change(scribe.people["ada"], place, progress, scribe.content, D(2026, 2, 1))
    assert comes is not None
    assert (comes.on, comes.before, comes.after) == (D(2026, 3, 2), "cleared", "due again")
    assert english(comes.because) == "Food handler card: ended on 1 March 2026, counts to 21 March 2026."


def test_without_grace_a_paper_ends_on_its_own_day() -> None:
    """As before: nothing is asked that a station does not say."""
    scribe = shown(CARD, (SHOWN, D(2025, 3, 2), D(2026, 3, 1)))
    assert found(scribe, D(2026, 3, 1)).is_cleared
    ended = found(scribe, D(2026, 3, 2))
    assert english(ended.reason) == "Food handler card: ended on 1 March 2026."


RENEWALS: Mapping[str, tuple[date, date]] = {
    "overlapping": (D(2026, 2, 20), D(2026, 2, 20)),
    "from the next day, shown early": (D(2026, 2, 20), D(2026, 3, 2)),
    "from the next day, shown on it": (D(2026, 3, 2), D(2026, 3, 2)),
}


@pytest.mark.parametrize(("day", "issued"), RENEWALS.values(), ids=RENEWALS)
def test_papers_that_touch_are_one_run_of_days(day: date, issued: date) -> None:
    """A renewal leaves no day between: from 25 February, or from when it is shown, the run goes to its end."""
    first = (SHOWN, D(2025, 3, 2), D(2026, 3, 1))
    scribe = shown(CARD, first, (day, issued, D(2026, 9, 1)))
    on = max(day, D(2026, 2, 25))
    run = found(scribe, on)
    assert (run.state, run.until) == ("cleared", D(2026, 9, 1))
    assert next(one.until for one in run.held if one.what == "certificate:food_handler") == D(2026, 9, 1)
    for later in (D(2026, 3, 1), D(2026, 3, 2), D(2026, 9, 1)):
        assert later < on or found(scribe, later).is_cleared


def test_one_day_between_two_papers_is_a_day_without() -> None:
    """Old to 1 March, new from 3 March: 2 March is missing, and the first run ends there."""
    scribe = shown(CARD, (SHOWN, D(2025, 3, 2), D(2026, 3, 1)), (D(2026, 2, 20), D(2026, 3, 3), D(2026, 9, 1)))
    assert found(scribe, D(2026, 2, 25)).until == D(2026, 3, 1)
    assert not found(scribe, D(2026, 3, 2)).is_cleared
    assert found(scribe, D(2026, 3, 3)).is_cleared


def test_grace_bridges_the_days_between_two_papers() -> None:
    """Old to 1 March, new shown on 10 March: due again from 2 to 9 March, then not."""
    papers = (SHOWN, D(2025, 3, 2), D(2026, 3, 1)), (D(2026, 3, 10), D(2026, 3, 5), D(2027, 3, 5))
    scribe = shown(asked(grace_days=20), *papers)
    assert [found(scribe, D(2026, 3, day)).state for day in (1, 2, 9, 10)] == [
        "cleared",
        "due again",
        "due again",
        "cleared",
    ]


@pytest.mark.parametrize("expires", [None, D(2030, 1, 1)])
def test_a_paper_counts_for_so_many_years_at_the_most(expires: date | None) -> None:
    """Issued on 2 March 2024, two years at the most: to 2 March 2026, whatever end it names."""
    scribe = shown(asked(most_years=2), (SHOWN, D(2024, 3, 2), expires))
    assert found(scribe, D(2026, 3, 2)).is_cleared
    assert not found(scribe, D(2026, 3, 3)).is_cleared


def test_a_sooner_end_of_its_own_counts() -> None:
    """The longest time adds nothing to a paper that ends before it."""
    scribe = shown(asked(most_years=9), (SHOWN, D(2024, 3, 2), D(2026, 2, 1)))
    assert found(scribe, D(2026, 2, 1)).until == D(2026, 2, 1)


def test_a_paper_without_an_end_is_never_on_grace() -> None:
    """No day is added to no end."""
    scribe = shown(asked(grace_days=20), (SHOWN, D(2024, 3, 2), None))
    assert found(scribe, D(2026, 1, 20)).due == ""


def test_who_joins_has_thirty_days_to_show_a_card_that_bars() -> None:
    """California Health and Safety Code, § 113948 (text of 2023-01-01): a food handler card within 30 days of hire.

    Joined on 10 January: to the end of 9 February. On that day all else counts; on the next nobody works without it.
    """
    scribe = shown(asked(bars=True, within_days=30))
    last = found(scribe, D(2026, 2, 9))
    assert (last.state, last.until) == ("due again", D(2026, 2, 9))
    assert english(last.due) == "Food handler card: to be shown by 9 February 2026."
    late = found(scribe, D(2026, 2, 10))
    assert late.state == "not allowed"
    assert "Food handler card: none shown." in [english(one.text) for one in late.missing]


def test_a_card_shown_in_the_first_days_ends_them() -> None:
    """Shown ten days after joining: in date from then on, and no longer due."""
    scribe = shown(asked(bars=True, within_days=30), (D(2026, 1, 20), D(2026, 1, 19), D(2029, 1, 18)))
    assert found(scribe, D(2026, 1, 19)).due
    assert not found(scribe, D(2026, 1, 20)).due
    assert found(scribe, D(2026, 3, 1)).is_cleared


def test_a_card_that_ends_bars_though_somebody_joined_long_ago() -> None:
    """The first days are for who joins, not for who lets a card run out."""
    scribe = shown(asked(bars=True, within_days=30), (SHOWN, D(2024, 3, 2), D(2026, 3, 1)))
    assert found(scribe, D(2026, 3, 1)).is_cleared
    assert found(scribe, D(2026, 3, 2)).state == "not allowed"
