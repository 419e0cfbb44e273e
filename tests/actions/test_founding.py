"""The only manager or assessor signs on their own word, until somebody else is entitled."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.founding import Founding, stand_as_founder
from trainer.actions.outcome import Outcome
from trainer.kitchen.entitlement import may_sign, may_sign_at, signers

YEAR = date(2027, 3, 2)
WORDS = "Fourteen years on the line."


@pytest.fixture
def alone(crew: Crew) -> Crew:
    """Return the crew with Nils gone and Sous a cook: Mara is the only manager, and nobody assesses."""
    crew.write("cook_left", "nils", {"reason": "moved"})
    crew.write("cook_changed", "sous", {"roles": ["cook"]})
    return crew


def stands(crew: Crew, by: str = "mara", until: date = YEAR, *stations: str) -> Outcome:
    """Stand in on own word."""
    founding = Founding(stations or ("cold_side",), until, WORDS)
    return stand_as_founder(crew.k, by=by, founding=founding, now=crew.now, key=crew.key())


def test_the_only_manager_signs_on_own_word(alone: Crew) -> None:
    """At the stations named, practicals and shifts; the entry is what entitles, and each signature names it."""
    assert not may_sign("mara", "ada", "cold_sauces", "cold_side", alone.k.day(TODAY)).may
    word = saved(stands(alone))
    assert word.body["words"] == WORDS
    day = alone.k.day(TODAY)
    assert may_sign("mara", "ada", "cold_sauces", "cold_side", day).may
    assert may_sign_at("mara", "ada", "cold_side", day).may
    assert not may_sign("mara", "mara", "cold_sauces", "cold_side", day).may
    assert not may_sign("mara", "ada", "cold_sauces", "grill", day).may
    practical = alone.begins_practical("ada", by="mara")
    alone.sees(practical)
    assert word.seq in saved(alone.signs(practical)).body["entitled_by"]
    (one,) = signers(alone.k.content.stations["cold_side"], day)
    assert (one.cook, one.until, word.id in one.because) == ("mara", YEAR, True)


def test_it_ends_as_soon_as_somebody_else_is_entitled(alone: Crew) -> None:
    """Sous is made an assessor again, and is cleared there: the own word counts no more at that station."""
    saved(stands(alone, "mara", YEAR, "cold_side", "grill"))
    alone.write("cook_changed", "sous", {"roles": ["cook", "assessor"]})
    day = alone.k.day(TODAY)
    assert not may_sign("mara", "ada", "cold_sauces", "cold_side", day).may
    assert may_sign("mara", "ada", "cold_sauces", "grill", day).may


def test_it_ends_on_its_last_day(alone: Crew) -> None:
    """That day counted."""
    saved(stands(alone, until=TODAY + timedelta(days=9)))
    for days, may in ((9, True), (10, False)):
        assert may_sign("mara", "ada", "cold_sauces", "cold_side", alone.k.day(TODAY + timedelta(days=days))).may == may


def test_no_own_word_lifts_a_standing_down(alone: Crew) -> None:
    """What bars, bars."""
    saved(stands(alone))
    alone.write("stood_down", "mara", {"station": "cold_side", "reason": "x"})
    assert not may_sign("mara", "ada", "cold_sauces", "cold_side", alone.k.day(TODAY)).may


BOUNDS = (
    (
        "ada",
        Founding(("cold_side",), YEAR, WORDS),
        "Only the one manager or the one assessor of a kitchen signs on their own word.",
    ),
    (
        "mara",
        Founding(("cold_side",), YEAR + timedelta(1), WORDS),
        "3 March 2027: a last day from today to 2 March 2027 is taken. It may be renewed.",
    ),
    ("mara", Founding(("fry",), YEAR, WORDS), "There is no station “fry”."),
    ("mara", Founding((), YEAR, WORDS), "Choose the stations."),
    ("mara", Founding(("cold_side",), YEAR, " "), "The text is blank."),
)


@pytest.mark.parametrize(("by", "founding", "said"), BOUNDS)
def test_an_own_word_has_its_bounds(alone: Crew, by: str, founding: Founding, said: str) -> None:
    """Only one of a kind, twelve months, a station there is, words."""
    found = stand_as_founder(alone.k, by=by, founding=founding, now=alone.now, key=alone.key())
    assert english(refused(found).reason) == said


def test_where_there_are_two_nobody_stands_on_own_word(crew: Crew) -> None:
    """Mara and Nils manage, Sous and Nils assess."""
    for who in ("mara", "nils", "sous"):
        refused(stands(crew, who))
