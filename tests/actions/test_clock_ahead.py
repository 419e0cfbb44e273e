"""Entries of a clock that ran five years ahead: a later entry says from which day they count."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from tests.actions.crew import NOON, TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.clock_setting import RanAhead, correct_clock, entries_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome
from trainer.actions.releasing import Release, release_stop
from trainer.actions.watching import Look, Practical, Watch, start_practical
from trainer.kitchen.entitlement import is_lasting
from trainer.store.kitchen_file import KitchenFile

YEARS = timedelta(days=1826)


@pytest.fixture
def ahead(crew: Crew) -> Crew:
    """Return the crew after an evening with a clock five years ahead, set right again the next noon."""
    crew.clears("ben")
    crew.now += YEARS
    crew.clears("ada")
    crew.now = NOON + timedelta(days=1)
    return crew


def first_of(crew: Crew) -> int:
    """Return the number of the first entry of the clock that ran ahead."""
    return crew.k.file.book.end()[0] - 1


def corrects(crew: Crew, day: date = TODAY, first: int = 0, last: int = 0) -> Outcome:
    """Let the last two entries count from a day, unless others are named."""
    ran = RanAhead(first or first_of(crew), last or crew.k.file.book.end()[0], day)
    return correct_clock(crew.k, ran=ran, now=crew.now, key=crew.key())


def state(k: Kitchen, cook: str, on: date) -> str:
    """Return a cook's state on the cold side."""
    return next(row.clearances[1].state for row in k.board(on).rows if row.cook.id == cook)


def test_without_it_nothing_is_saved_by_the_clock_that_is_right(ahead: Crew) -> None:
    """Today is 2031 until somebody says so."""
    assert ahead.k.today(ahead.now) == TODAY + YEARS
    assert "trainer clock correct" in english(refused(ahead.reads("ada", "cold_sauces")).who_can)


def test_they_count_from_the_day_named_and_the_kitchen_goes_on(ahead: Crew) -> None:
    """The board of that day has them, today is today, and the next act is saved."""
    assert state(ahead.k, "ada", TODAY) == "not started"
    entry = saved(corrects(ahead))
    assert (entry.by, entry.day, entry.at) == ("local", TODAY + timedelta(days=1), ahead.now)
    assert state(ahead.k, "ada", TODAY) == "cleared"
    assert ahead.k.today(ahead.now) == TODAY + timedelta(days=1)
    saved(ahead.reads("ben", "fresh_pasta"))


def test_the_entries_stay_as_they_were_written(ahead: Crew) -> None:
    """The check of the whole book finds nothing, and another process reads the same."""
    book = ahead.k.file.book
    hashes = [entry.hash for entry in book.since(0)]
    saved(corrects(ahead))
    assert [entry.hash for entry in book.since(0)][:-1] == hashes
    assert book.verify().is_whole
    other = Kitchen(KitchenFile.open(ahead.k.file.folder), ahead.k.content)
    assert other.board(TODAY) == ahead.k.board(TODAY)
    assert [entry.day for entry in other.file.book.since(0)][-3:] == [TODAY, TODAY, TODAY + timedelta(days=1)]
    other.file.close()


def test_no_board_of_before_changes(ahead: Crew) -> None:
    """Fifty days up to the day before."""
    days = [TODAY - timedelta(days=number) for number in range(1, 51)]
    before = [ahead.k.board(on) for on in days]
    saved(corrects(ahead))
    assert [ahead.k.board(on) for on in days] == before


def test_a_fold_of_another_process_follows(ahead: Crew) -> None:
    """It had the entries under 2031 already."""
    other = Kitchen(KitchenFile.open(ahead.k.file.folder), ahead.k.content)
    assert state(other, "ada", TODAY) == "not started"
    saved(corrects(ahead))
    assert state(other, "ada", TODAY) == "cleared"
    other.file.close()


def test_a_correction_undone_with_its_transaction_is_forgotten(ahead: Crew) -> None:
    """What was read inside it counts for nothing afterwards."""
    try:
        with ahead.k.file.writing():
            saved(corrects(ahead))
            assert ahead.k.file.book.since(0)[-2].day == TODAY
            raise InterruptedError
    except InterruptedError:
        pass
    assert ahead.k.file.book.since(0)[-1].day == TODAY + YEARS
    assert state(ahead.k, "ada", TODAY) == "not started"


def test_a_stop_of_that_clock_stands_and_can_be_released(crew: Crew) -> None:
    """It bars on the day it counts from; a release after the correction ends it, and a run begun after that counts."""
    crew.clears("ada")
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe"))
    crew.now += YEARS
    stop = saved(crew.signs(practical))
    crew.now = NOON + timedelta(hours=3)
    saved(corrects(crew, first=stop.seq))
    assert state(crew.k, "ada", TODAY) == "stood down"
    release = Release(stop.id, "sous", "Shown again, slowly.", 20)
    saved(release_stop(crew.k, by="mara", release=release, now=crew.later(days=1), key=crew.key()))
    watch = Watch("ada", "cold_sauces", "cold_side")
    begun = start_practical(crew.k, by="sous", watch=watch, now=crew.later(days=1), key=crew.key())
    assert isinstance(begun, Practical)
    crew.sees(begun)
    saved(crew.signs(begun))
    assert state(crew.k, "ada", TODAY + timedelta(days=2)) == "cleared"


def test_what_it_would_move_is_shown_first(ahead: Crew) -> None:
    """The two entries of that evening and no others, though the range begins earlier."""
    found = entries_of(ahead.k, RanAhead(first_of(ahead) - 1, ahead.k.file.book.end()[0], TODAY), ahead.now)
    assert isinstance(found, tuple)
    assert [(entry.kind, entry.day) for entry in found] == [
        ("technique_read", TODAY + YEARS),
        ("practical_watched", TODAY + YEARS),
    ]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"day": TODAY + timedelta(days=2)}, "4 March 2026 is still to come: it is 3 March 2026."),
        ({"day": TODAY - timedelta(days=1)}, "Entry {before} before them stands on 2 March 2026."),
        ({"last": -1}, "Entry {end} after them stands on 2 March 2031."),
        ({"first": +1}, "Entry {first} before them stands on 2 March 2031."),
        ({"last": +1}, "Entries {first} to {beyond}: the book has entries 1 to {end}."),
        ({"first": +1, "last": -1}, "Entries {end} to {first}: the book has entries 1 to {end}."),
    ],
)
def test_a_correction_that_cannot_be_is_refused_by_name(ahead: Crew, change: dict[str, Any], said: str) -> None:
    """A day to come, days out of order, entries that are not there; nothing is written."""
    first, end = first_of(ahead), ahead.k.file.book.end()[0]
    first_asked, last_asked = first + change.get("first", 0), end + change.get("last", 0)
    found = refused(corrects(ahead, change.get("day", TODAY), first_asked, last_asked))
    assert english(found.reason) == said.format(before=first - 1, first=first, end=end, beyond=end + 1)
    assert ahead.k.file.book.end()[0] == end


def test_nothing_to_correct_is_said(crew: Crew) -> None:
    """A book whose clock was right."""
    crew.later(minutes=1)
    assert english(refused(corrects(crew)).reason) == "None of these entries stands on a later day than 2 March 2026."


def test_sent_twice_it_is_one_entry(ahead: Crew) -> None:
    """And no manager voids it."""
    ran = RanAhead(first_of(ahead), first_of(ahead) + 1, TODAY)
    once, twice = (saved(correct_clock(ahead.k, ran=ran, now=ahead.now, key="once")) for _ in range(2))
    assert once == twice
    assert is_lasting(once)
    assert once.body["at"] == datetime(2026, 3, 3, 17, tzinfo=UTC).isoformat(timespec="milliseconds")[:-6] + "Z"
