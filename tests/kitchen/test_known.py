"""A past day as it was known then and as it is known later."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tests.kitchen.kitchen_for_tests import Scribe
from tests.printed import english
from trainer.kitchen.known import KnownTwice, known_twice
from trainer.kitchen.record import AsKnown

D = date
SIGNED, ASKED, VOIDED, TODAY = D(2026, 3, 2), D(2026, 3, 15), D(2026, 4, 10), D(2026, 5, 1)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe whose cook was cleared on the cold side on 2 March 2026."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.clears_for_cold_side("ada", SIGNED)
    return scribe


def twice(scribe: Scribe, on: date = ASKED, known: date = TODAY) -> KnownTwice | None:
    """Return the cook's day at the cold side as it was known then and later."""
    place = scribe.content.stations["cold_side"]
    return known_twice(scribe.people["ada"], place, scribe.progress(), scribe.content, AsKnown(on, known))


def words(found: KnownTwice | None, today: date = TODAY) -> list[str]:
    """Return both sentences."""
    assert found is not None
    return [english(found.then_words), english(found.now_words(today))]


def test_a_sign_off_that_never_counted_is_told_both_ways(scribe: Scribe) -> None:
    """The book said cleared on 15 March; a void of 10 April took the sign-off out of every day."""
    body = {"entry": "e3", "reason": "another cook", "counts": "never"}
    scribe.write("entry_voided", "ada", VOIDED, body)
    assert words(twice(scribe)) == [
        "As the book said on 15 March 2026: cleared.",
        "As known now: ready to show; practical of 2 March 2026 voided on 10 April 2026.",
    ]
    assert words(twice(scribe), today=D(2026, 6, 1))[1].startswith("As known on 1 May 2026: ready to show")


def test_before_the_void_was_known_both_say_the_same(scribe: Scribe) -> None:
    """On 9 April nobody knew."""
    body = {"entry": "e3", "reason": "another cook", "counts": "never"}
    scribe.write("entry_voided", "ada", VOIDED, body)
    assert twice(scribe, known=D(2026, 4, 9)) is None


def test_a_void_from_its_day_on_changes_no_day_before(scribe: Scribe) -> None:
    """What the book said on 15 March stays true of 15 March."""
    scribe.write("entry_voided", "ada", VOIDED, {"entry": "e3", "reason": "x", "counts": "from today"})
    assert twice(scribe) is None


def test_what_was_written_down_late_is_told_both_ways(scribe: Scribe) -> None:
    """Read on 1 March, written down on 20 March: on the 15th the book did not know."""
    scribe.entries[1] = replace(scribe.entries[1], day=D(2026, 3, 20), happened=D(2026, 3, 1))
    assert words(twice(scribe)) == [
        "As the book said on 15 March 2026: studying.",
        "As known now: cleared; reading of 1 March 2026 written down on 20 March 2026.",
    ]


def test_a_question_voided_for_every_day_is_told() -> None:
    """Nothing but the void of a question may change a past quiz: it counts from its own day, so nothing differs."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.voids_question("ada", VOIDED)
    assert twice(scribe) is None
