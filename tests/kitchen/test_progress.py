"""The fold of the book."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tests.kitchen.kitchen_for_tests import FIRST, Scribe
from trainer.kitchen.progress import Progress

D = date


def test_catching_up_gives_the_same_as_folding_at_once() -> None:
    """A fold fed in two parts, the second overlapping the first, holds each entry once."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.reads("ada", "cold_sauces", FIRST)
    scribe.watched("ada", "cold_sauces", FIRST)
    in_parts = Progress().with_entries(scribe.entries[:2]).with_entries(scribe.entries[1:])
    assert in_parts.record("ada") == scribe.progress().record("ada")
    assert in_parts.last_seq == 3


def test_a_fold_never_changes() -> None:
    """Catching up leaves the fold another thread is reading as it was."""
    scribe = Scribe()
    scribe.joins("ada")
    before = scribe.progress()
    scribe.reads("ada", "cold_sauces", FIRST)
    after = before.with_entries(scribe.entries)
    assert before.record("ada").read == ()
    assert len(after.record("ada").read) == 1


def test_somebody_the_book_does_not_know_has_an_empty_record() -> None:
    """Nothing done, no role, not on the roster."""
    progress = Progress()
    assert progress.record("nobody").read == ()
    assert progress.roles("nobody", FIRST) == frozenset()
    assert not progress.is_on_roster("nobody", FIRST)


def test_roles_are_the_last_ones_given_by_that_day() -> None:
    """A cook made assessor on Tuesday was a cook on Monday, and nothing after leaving."""
    scribe = Scribe()
    scribe.joins("ada", D(2026, 1, 5))
    scribe.write("cook_changed", "ada", D(2026, 2, 3), {"roles": ["cook", "assessor"]})
    scribe.leaves("ada", D(2026, 3, 1))
    progress = scribe.progress()
    assert progress.roles("ada", D(2026, 1, 4)) == frozenset()
    assert progress.roles("ada", D(2026, 2, 2)) == {"cook"}
    assert progress.roles("ada", D(2026, 2, 3)) == {"cook", "assessor"}
    assert progress.roles("ada", D(2026, 3, 1)) == frozenset()


def test_the_roster_of_a_day_is_who_has_joined_and_not_left() -> None:
    """In the order they joined; the day of leaving is off."""
    scribe = Scribe()
    scribe.joins("ada", D(2026, 1, 5))
    scribe.joins("ben", D(2026, 1, 6))
    scribe.leaves("ada", D(2026, 2, 1))
    progress = scribe.progress()
    assert progress.cooks_on(D(2026, 1, 5)) == ("ada",)
    assert progress.cooks_on(D(2026, 1, 31)) == ("ada", "ben")
    assert progress.cooks_on(D(2026, 2, 1)) == ("ben",)


def test_a_record_as_of_a_day_leaves_out_what_came_later() -> None:
    """A past day sees the entries recorded by then."""
    scribe = Scribe()
    scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    scribe.reads("ada", "fresh_pasta", D(2026, 1, 6))
    record = scribe.progress().record("ada")
    assert [line.technique for line in record.as_of(D(2026, 1, 5)).read] == ["cold_sauces"]
    assert len(record.as_of(D(2026, 1, 6)).read) == 2


def test_a_voided_entry_counts_until_the_day_before_the_void() -> None:
    """From the day of the void it is ignored; earlier days stay as they were."""
    scribe = Scribe()
    entry = scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    scribe.voids(entry, D(2026, 1, 9))
    progress = scribe.progress()
    assert len(progress.record("ada").as_of(D(2026, 1, 8)).read) == 1
    assert progress.record("ada").as_of(D(2026, 1, 9)).read == ()
    assert progress.voided_on(entry, "ada") == D(2026, 1, 9)


def test_the_first_void_of_an_entry_counts() -> None:
    """A second void, which no action writes, moves nothing."""
    scribe = Scribe()
    entry = scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    scribe.voids(entry, D(2026, 1, 9))
    scribe.voids(entry, D(2026, 1, 12))
    assert scribe.progress().voided_on(entry, "ada") == D(2026, 1, 9)


def test_a_void_finds_its_entry_whoever_it_names() -> None:
    """A void written under another cook still takes away the entry it names."""
    scribe = Scribe()
    entry = scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    scribe.joins("ben")
    scribe.voids(entry, D(2026, 1, 9), cook="ben")
    assert scribe.progress().voided_on(entry, "ada") == D(2026, 1, 9)


def test_a_void_of_nothing_is_passed_over() -> None:
    """A void of an entry that gives no line (a void) changes nothing."""
    scribe = Scribe()
    entry = scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    void = scribe.voids(entry, D(2026, 1, 6))
    scribe.voids(void, D(2026, 1, 7))
    assert scribe.progress().voided_on(entry, "ada") == D(2026, 1, 6)
    assert scribe.progress().last_seq == 3


def test_every_kind_of_line_is_kept() -> None:
    """One entry of each kind gives one line in its place, with what it says."""
    scribe = Scribe()
    scribe.joins("ada")
    scribe.sits("ada", "fresh_pasta", FIRST)
    scribe.asks("ada", "fresh_pasta", FIRST)
    scribe.works("ada", "pasta_room", D(2026, 1, 6), D(2026, 1, 5))
    scribe.shows("ada", "food_handler", FIRST, D(2025, 1, 1), None)
    scribe.opens("ada", "grill", FIRST, D(2026, 2, 1))
    scribe.stands_down("ada", "grill", FIRST)
    scribe.restores("ada", "grill", FIRST)
    record = scribe.progress().record("ada")
    assert (record.sat[0].right, record.sat[0].passed) == (4, True)
    assert record.asked[0].seq == 3
    assert (record.shifts[0].worked_on, record.shifts[0].sitting) == (D(2026, 1, 5), "dinner")
    assert record.shown[0].expires is None
    assert record.opened[0].until == D(2026, 2, 1)
    assert [line.restored for line in record.stood_down] == [False, True]


def late(scribe: Scribe, happened: date, written: date) -> str:
    """Write a reading that happened on one day and was written on another."""
    entry = scribe.reads("ada", "cold_sauces", written)
    scribe.entries[-1] = replace(scribe.entries[-1], happened=happened)
    return entry


def test_what_was_written_late_counts_from_its_day_once_it_is_known() -> None:
    """Read on 5 January, written on the 9th: on the 8th nobody knew; now it is known of the 5th, and not of the 4th."""
    scribe = Scribe()
    late(scribe, D(2026, 1, 5), D(2026, 1, 9))
    record = scribe.progress().record("ada")
    assert record.as_of(D(2026, 1, 8)).read == ()
    assert record.as_of(D(2026, 1, 5), known=D(2026, 1, 8)).read == ()
    assert len(record.as_of(D(2026, 1, 5), known=D(2026, 1, 9)).read) == 1
    assert record.as_of(D(2026, 1, 4), known=D(2026, 1, 9)).read == ()


def test_what_was_written_by_a_day_is_known_of_it_and_no_later_entry_is() -> None:
    """A day asked about as it was known before sees only what was written by then."""
    scribe = Scribe()
    scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    record = scribe.progress().record("ada")
    assert record.as_of(D(2026, 1, 9), known=D(2026, 1, 4)).read == ()
    assert len(record.as_of(D(2026, 1, 9), known=D(2026, 1, 5)).read) == 1


@pytest.mark.parametrize(("counts", "before"), [("never", 0), ("from today", 1), (None, 1)])
def test_a_void_takes_an_entry_out_of_the_days_it_says(counts: str | None, before: int) -> None:
    """Voided on the 9th: of the days before, *never* takes it out too, from the day the void is known."""
    scribe = Scribe()
    entry = scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    body = {"entry": entry, "reason": "x"} | ({"counts": counts} if counts else {})
    scribe.write("entry_voided", "ada", D(2026, 1, 9), body)
    record = scribe.progress().record("ada")
    assert len(record.as_of(D(2026, 1, 8)).read) == 1
    assert len(record.as_of(D(2026, 1, 8), known=D(2026, 1, 9)).read) == before
    assert record.as_of(D(2026, 1, 9)).read == ()


def test_a_void_of_every_day_may_follow_one_from_a_day_on() -> None:
    """The second reaches further back."""
    scribe = Scribe()
    entry = scribe.reads("ada", "cold_sauces", D(2026, 1, 5))
    scribe.voids(entry, D(2026, 1, 9))
    scribe.write("entry_voided", "ada", D(2026, 1, 12), {"entry": entry, "reason": "x", "counts": "never"})
    record = scribe.progress().record("ada")
    assert len(record.as_of(D(2026, 1, 8), known=D(2026, 1, 11)).read) == 1
    assert record.as_of(D(2026, 1, 8), known=D(2026, 1, 12)).read == ()


def test_roles_are_asked_as_they_were_known() -> None:
    """Made assessor on the 9th by an entry that says the 5th: known of the 5th from the 9th on."""
    scribe = Scribe()
    scribe.joins("ada", D(2026, 1, 1))
    scribe.write("cook_changed", "ada", D(2026, 1, 9), {"roles": ["cook", "assessor"]})
    scribe.entries[-1] = replace(scribe.entries[-1], happened=D(2026, 1, 5))
    progress = scribe.progress()
    assert progress.roles("ada", D(2026, 1, 6)) == {"cook"}
    assert progress.roles("ada", D(2026, 1, 6), known=D(2026, 1, 9)) == {"cook", "assessor"}
