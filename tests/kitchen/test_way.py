"""A cook's way to a station: each thing done with its day, what is left, when it ends."""

from __future__ import annotations

from datetime import date

import pytest

from tests.kitchen.kitchen_for_tests import Scribe
from trainer.kitchen.spans import Span
from trainer.kitchen.way import Way, way_to

D = date
TODAY = D(2026, 6, 1)


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe with a cook on the roster."""
    scribe = Scribe()
    scribe.joins("ada")
    return scribe


def way(scribe: Scribe, station: str, on: date = TODAY) -> Way:
    """Return the cook's way to a station on a day."""
    return way_to(scribe.people["ada"], scribe.content.stations[station], scribe.day(on))


def test_a_way_tells_what_was_done_in_its_sequence(scribe: Scribe) -> None:
    """Read, passed, asked, not yet, signed: each on its day, with who watched."""
    scribe.reads("ada", "fresh_pasta", D(2026, 3, 1))
    scribe.sits("ada", "fresh_pasta", D(2026, 3, 4))
    scribe.asks("ada", "fresh_pasta", D(2026, 3, 5))
    scribe.watched("ada", "fresh_pasta", D(2026, 3, 6), "not yet")
    scribe.watched("ada", "fresh_pasta", D(2026, 3, 9))
    first = way(scribe, "pasta_room").techniques[0]
    assert [(step.on.day, step.kind, step.by) for step in first.steps] == [
        (1, "read", ""),
        (4, "questions", ""),
        (5, "asked", ""),
        (6, "not yet", "sous"),
        (9, "signed", "sous"),
    ]


def test_all_of_a_technique_counts_to_the_first_of_its_ends(scribe: Scribe) -> None:
    """The quiz of 4 March and the sign-off of 9 March count 12 months each: together to 4 March."""
    scribe.reads("ada", "fresh_pasta", D(2026, 3, 1))
    scribe.sits("ada", "fresh_pasta", D(2026, 3, 4))
    assert way(scribe, "pasta_room").techniques[0].until is None
    scribe.watched("ada", "fresh_pasta", D(2026, 3, 9))
    assert way(scribe, "pasta_room").techniques[0].until == D(2027, 3, 4)


def test_a_way_knows_when_its_cook_was_and_will_be_cleared(scribe: Scribe) -> None:
    """Signed 2 March 2025, to 2 March 2026, and again on 20 April 2026: two runs, the day after the first is none."""
    scribe.entries.clear()
    scribe.joins("ada", D(2025, 1, 5))
    scribe.clears_for_cold_side("ada", D(2025, 3, 2))
    scribe.watched("ada", "cold_sauces", D(2026, 4, 20))
    found = way(scribe, "cold_side").cleared
    assert found == (Span(D(2025, 3, 2), D(2026, 3, 2)), Span(D(2026, 4, 20), D(2027, 4, 20)))


def test_what_is_void_is_not_on_the_way(scribe: Scribe) -> None:
    """A sign-off taken back leaves the reading alone."""
    sign_off = scribe.clears_for_cold_side("ada", D(2026, 3, 2))
    scribe.voids(sign_off, D(2026, 3, 3))
    found = way(scribe, "cold_side")
    assert [step.kind for step in found.techniques[0].steps] == ["read"]
    assert found.cleared == ()


def test_nothing_done_is_an_empty_way(scribe: Scribe) -> None:
    """It has no path, no shift, no step; an earlier day shows nothing of a later one."""
    scribe.clears_for_cold_side("ada", D(2026, 3, 2))
    assert not way(scribe, "pasta_room").has_begun
    assert not way(scribe, "cold_side", D(2026, 3, 1)).has_begun
    assert way(scribe, "cold_side").has_begun


def test_a_path_and_shifts_are_on_the_way(scribe: Scribe) -> None:
    """The day to be ready by is the path's; shifts stand on the days they were worked."""
    scribe.write("path_opened", "ada", D(2026, 5, 1), {"station": "pasta_room", "by_day": "2026-07-01", "mentor": ""})
    scribe.works("ada", "pasta_room", D(2026, 5, 9), D(2026, 5, 8))
    found = way(scribe, "pasta_room")
    assert found.path is not None
    assert (found.path.by_day, found.shifts) == (D(2026, 7, 1), (D(2026, 5, 8),))
