"""What to do next, told act by act: the nearest first, and nothing that is missing left out."""

from __future__ import annotations

from datetime import date

import pytest

from tests.kitchen.kitchen_for_tests import Scribe
from tests.printed import all_english, english
from trainer.kitchen.next_acts import next_acts

SIGNED = date(2026, 3, 2)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe who has put Ada on the roster."""
    scribe = Scribe()
    scribe.joins("ada", born=date(1990, 5, 5))
    return scribe


def told(scribe: Scribe, station: str) -> list[tuple[str, tuple[str, ...]]]:
    """Return the acts Ada has before her at a station."""
    return [
        (english(one.act), tuple(all_english(one.things)))
        for one in next_acts(scribe.clearance("ada", station, SIGNED).missing)
    ]


def test_a_beginner_reads_one_line_a_technique_papers_first_shifts_last(scribe: Scribe) -> None:
    """Every technique to be read stands once under the same act, with all it wants."""
    assert told(scribe, "pasta_room") == [
        ("The cook shows a valid one to a manager, who writes it down.", ("Food handler card: none shown.",)),
        (
            "The cook reads it and says so.",
            (
                "Fresh pasta: edition 1 not read; quiz not passed; no sign-off.",
                "Pasta nesting: edition 1 not read; no sign-off.",
            ),
        ),
        (
            "The cook works 2 more beside a cleared cook; an assessor writes them down.",
            ("Supervised shifts: 0 of 2 worked.",),
        ),
    ]


def test_the_act_nearest_to_a_clearance_comes_first(scribe: Scribe) -> None:
    """What only wants a signature comes before what is still to be read, wherever the station names it."""
    scribe.reads("ada", "pasta_nesting", SIGNED)
    acts = told(scribe, "pasta_room")
    assert [things[0] for _, things in acts[1:3]] == [
        "Pasta nesting: no sign-off.",
        "Fresh pasta: edition 1 not read; quiz not passed; no sign-off.",
    ]


def test_a_quiz_comes_before_the_practical_it_opens(scribe: Scribe) -> None:
    """Read and nothing more: the quiz is the act, and the sign-off is told with it."""
    scribe.reads("ada", "fresh_pasta", SIGNED)
    (act,) = [act for act, things in told(scribe, "pasta_room") if things[0].startswith("Fresh pasta")]
    assert act.startswith("The cook sits the quiz")
    assert ("Fresh pasta: quiz not passed; no sign-off.",) in [things for _, things in told(scribe, "pasta_room")]


def test_nothing_missing_is_no_act(scribe: Scribe) -> None:
    """A cleared cook has nothing to do."""
    scribe.clears_for_pasta_room("ada", SIGNED)
    assert told(scribe, "pasta_room") == []
