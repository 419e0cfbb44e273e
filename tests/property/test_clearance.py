"""Clearance against a second, naive implementation: day by day, straight loops over the entries, no spans."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest

from tests.kitchen.kitchen_for_tests import small_content, with_technique
from tests.property.histories import COOK, DAYS, FIRST_DAY, ZONE, Historian, written_content, written_history
from tests.property.naive import Dated, Naive, naive_known_is_due, naive_on_grace
from tests.seeds import first_and_rest
from trainer.kitchen.clearance import LEARNING, Clearance, clearance_of
from trainer.kitchen.next_change import next_change
from trainer.kitchen.progress import Progress
from trainer.kitchen.record import AsKnown
from trainer.kitchen.technique import Content, Edition, Station

ONE_DAY = timedelta(days=1)
KINDS = {"stood down": {"off"}, "stopped": {"off", "practical"}}
"""What the naive way calls a missing thing, where it is not the first word of its name."""


def asked(history: Historian, station: str, on: date, known: date, progress: Progress | None = None) -> Clearance:
    """Return the clearance of a history's cook."""
    place = history.content.stations.get(station) or Station(station, "", (), (), None, "", 0)
    day, person = AsKnown(on, known), history.people[COOK]
    return clearance_of(person, place, progress or history.progress(), history.content, day)


def naive(history: Historian, on: date, known: date | None = None) -> Naive:
    """Return the same history, to be asked the naive way."""
    return Naive(history, history.people[COOK], on, known or on)


def agree_on(found: Clearance, other: Naive) -> None:
    """Assert that a clearance says what the naive way says: what is missing, to which day, and whether it ever was."""
    station, on, book = found.station, found.on, other.book
    left = other.left(station, on, book)
    assert kinds_of(found, other) == left, (found, left)
    assert found.is_cleared == (not left), (found, book)
    if found.is_cleared and found.until is not None:
        assert other.is_cleared(station, found.until, book), (found, book)
        assert not other.is_cleared(station, found.until + ONE_DAY, book), (found, book)
        warn_days = other.content(on).stations[station].warn_days
        is_due = (found.until - on).days <= warn_days or is_due_already(other, station, on, book)
        assert (found.state == "due again") == is_due, (found, book)
    if found.state == "lapsed":
        assert found.until is not None
        assert other.is_cleared(station, found.until, book), (found, book)
        assert not other.is_cleared(station, found.until + ONE_DAY, book), (found, book)
    if found.state in ("not started", "studying", "ready to show", "supervised"):
        assert not any(other.is_cleared(station, day, book) for day in other.turns()), (found, book)
    agree_on_state(found, left, is_blank=found.state in LEARNING and other.is_blank(station, book))


def kinds_of(found: Clearance, other: Naive) -> set[str]:
    """Return what is missing as the naive way calls it."""
    kinds: set[str] = set()
    for missing in found.missing:
        kind, _, name = missing.what.partition(":")
        papers = other.content(found.on).stations[found.station].certificates if kind == "certificate" else ()
        if any(paper.id == name and paper.bars for paper in papers):
            kind = "barring paper"
        kinds |= KINDS.get(kind, {"paper" if kind == "certificate" else kind})
    return kinds


def agree_on_state(found: Clearance, left: set[str], *, is_blank: bool) -> None:
    """Assert that the word of a state follows from what is left: what bars first, then being off the station.

    A blank cell is not started, whatever is left of it.
    """
    assert found.blank == is_blank, (found, left)
    assert not is_blank or found.state == "not started", found
    barred = bool(left & {"age", "barring paper"})
    assert (found.state == "not allowed") == barred, (found, left)
    assert (found.state == "stood down") == ("off" in left and not barred), (found, left)
    for state, kinds in (("ready to show", {"practical"}), ("supervised", {"shifts", "practice"})):
        if found.state == state:
            assert left <= kinds, (found, left)
        if left and left <= kinds:
            assert found.state in (state, "lapsed") or is_blank, (found, left)


def days_asked(rng: Random, history: Historian) -> set[date]:
    """Return the days a history is asked about: some on which something was written, some between, and leap days."""
    last = [entry.day for entry in history.entries]
    days = {*rng.sample(last, min(4, len(last))), FIRST_DAY + timedelta(days=rng.randrange(DAYS))}
    soon = rng.choice(last) + timedelta(days=rng.randrange(60))
    return days | {soon, date(2028, 2, 29), date(2030, 2, 28), date(2030, 3, 1)}


def known_on(rng: Random, on: date) -> date:
    """Return a day by which things were known: the day itself, or one after it, or one before."""
    return rng.choice([on, on, on + timedelta(days=rng.randrange(1, 400)), date(2031, 1, 1), on - timedelta(days=20)])


def agree_on_next(history: Historian, progress: Progress, found: Clearance, rng: Random) -> bool:
    """Assert that what changes next is the first change the naive way sees on days picked at random; return if any."""
    today, station = found.on, found.station
    other = naive(history, today)
    place = history.content.stations.get(station) or Station(station, "", (), (), None, "", 0)
    comes = next_change(history.people[COOK], place, progress, history.content, today)
    last = (comes.on if comes else today + timedelta(days=800)) - today
    for days in rng.sample(range(1, last.days), min(6, last.days - 1)):
        assert signature(history, today + timedelta(days=days), station, other) == signature(
            history, today, station, other
        ), (found, comes, days)
    if comes:
        assert signature(history, comes.on, station, other) != signature(history, today, station, other), (found, comes)
    return comes is not None


def signature(history: Historian, day: date, station: str, other: Naive) -> tuple[set[str], bool]:
    """Return what is left on a later day by what is known today, thing by thing, and whether the end is near."""
    later = naive(history, day, other.known)
    things, book = later.things(station), later.book
    rules = later.content(day).stations
    near = range(1, rules[station].warn_days + 2) if station in rules and not things else ()
    ends = any(later.left(station, day + timedelta(days=ahead), book) for ahead in near)
    is_due = station in rules and not things and is_due_already(later, station, day, book)
    return things, ends or is_due


def is_due_already(other: Naive, station: str, day: date, book: Dated) -> bool:
    """Return whether what is met on a day is met by grace alone, or known from before and past its day."""
    content = other.content(day)
    place = content.stations[station]
    return naive_on_grace(book, place, day) or naive_known_is_due(book, place, content, day)


def walk(seed: int) -> tuple[int, int, int, int]:
    """Compare one random history on some of its days at every station; return how many were asked, and cleared.

    The third number is how many changes to come were found, the fourth how many cells were blank.
    """
    rng = Random(seed)  # noqa: S311 - a kept seed
    history = written_history(rng, written_content(rng))
    progress, cells, cleared, coming, blank = history.progress(), 0, 0, 0, 0
    for on in sorted(days_asked(rng, history)):
        known = known_on(rng, on)
        other = naive(history, on, known)
        for station in ("pasta_room", "cold_side", "grill"):
            found = asked(history, station, on, known, progress)
            agree_on(found, other)
            cells, cleared, blank = cells + 1, cleared + found.is_cleared, blank + found.blank
    today, station = rng.choice(history.entries).day, rng.choice(["pasta_room", "cold_side", "grill"])
    coming += agree_on_next(history, progress, asked(history, station, today, today, progress), rng)
    return cells, cleared, coming, blank


@pytest.mark.parametrize("hundred", range(2))
def test_no_clearance_has_a_missing_link(hundred: int) -> None:
    """Over random histories of five years, leap day and clock changes included, both ways agree on every day asked."""
    counts = [walk(seed) for seed in range(hundred * 50, hundred * 50 + 50)]
    assert sum(one[1] for one in counts) > 20
    assert sum(one[2] for one in counts) > 10
    assert sum(one[3] for one in counts) > 10


@pytest.mark.parametrize("seed", range(12))
def test_a_day_says_the_same_whichever_days_were_asked_before(seed: int) -> None:
    """What one day's clearance has worked out is used for another only where it says the same there."""
    rng = Random(seed)  # noqa: S311 - a kept seed
    history = written_history(rng, written_content(rng))
    last, shared = history.entries[-1].day, history.progress()
    days = [last + timedelta(days=ahead) for ahead in (0, 1, 2, 13, 29, 60, 120, 300, 14, 1)]
    for station in ("pasta_room", "cold_side", "grill"):
        for day in days:
            assert asked(history, station, day, day, shared) == asked(history, station, day, day), (station, day)


@pytest.mark.bench
def test_no_clearance_has_a_missing_link_in_ten_thousand_histories() -> None:
    """The same over 10,000 histories."""
    counts = [walk(seed) for seed in range(10_000)]
    cells, cleared, coming, blank = (sum(one[place] for one in counts) for place in (0, 1, 2, 3))
    print(
        f"10,000 random histories: {cells} cells, {cleared} cleared, {coming} changes to come, {blank} blank; 0 differ"
    )
    assert cleared > 2_000


def joined(content: Content, born: date | None = date(1990, 5, 5)) -> Historian:
    """Return a historian who has put the cook on the roster."""
    history = Historian(ZONE, content)
    history.joins(COOK, born=born)
    return history


def test_the_two_ways_differ_when_one_of_them_is_wrong() -> None:
    """The comparison can fail: an age bar taken out of one side alone is seen."""
    history = joined(small_content(), born=None)
    history.clears_for_pasta_room(COOK, date(2026, 3, 2))
    lax = small_content(pasta_room={"minimum_age": None})
    on, other = date(2026, 3, 2), replace(history, content=lax)
    found = asked(other, "pasta_room", on, on)
    with pytest.raises(AssertionError):
        agree_on(found, naive(history, on))
    agree_on(found, naive(other, on))


def test_the_two_ways_differ_when_one_of_them_lets_a_missed_point_pass() -> None:
    """The comparison can fail: the points an edition names, taken out of one side alone, are seen."""
    later = Edition(2, date(2026, 6, 1), "", True, ("boil",))
    editions = (*small_content().techniques["cold_sauces"].editions, later)
    history = joined(with_technique(small_content(), "cold_sauces", editions=editions))
    history.reads(COOK, "cold_sauces", date(2026, 3, 2))
    history.watched(COOK, "cold_sauces", date(2026, 3, 2), missed=["boil"])
    for on, differs in ((date(2026, 5, 31), False), (date(2026, 6, 1), True)):
        lax = asked(replace(history, content=small_content()), "cold_side", on, on)
        assert lax.is_cleared
        strict = asked(history, "cold_side", on, on)
        agree_on(strict, naive(history, on))
        assert strict.is_cleared != differs


@pytest.mark.parametrize("wrong", ["happened", "never", "since"])
def test_the_two_ways_differ_when_one_of_them_forgets_what_was_known(wrong: str) -> None:
    """The comparison can fail: the day a thing happened, a void of every day, a standard's day, lost on one side."""
    history, day = joined(small_content()), date(2026, 3, 2)
    history.publishes(history.content, moment := history.entries[0].at, day, is_from_before=True)
    entry = history.clears_for_cold_side(COOK, day)
    on, known = day, date(2026, 9, 1)
    other = replace(history, entries=list(history.entries), published=list(history.published))
    if wrong == "happened":
        history.entries[-1] = replace(history.entries[-1], happened=day - timedelta(days=20))
        on = day - ONE_DAY
        history.entries[-2] = replace(history.entries[-2], happened=day - timedelta(days=20))
    if wrong == "never":
        history.write("entry_voided", COOK, date(2026, 4, 1), {"entry": entry, "reason": "x", "counts": "never"})
        other.write("entry_voided", COOK, date(2026, 4, 1), {"entry": entry, "reason": "x"})
    if wrong == "since":
        stations = small_content(cold_side={"techniques": ("pasta_nesting",)})
        history.publishes(stations, moment, day)
        other.publishes(stations, moment, day + ONE_DAY)
    with pytest.raises(AssertionError):
        agree_on(asked(other, "cold_side", on, known), naive(history, on, known))
    agree_on(asked(history, "cold_side", on, known), naive(history, on, known))


@pytest.mark.parametrize("seeds", first_and_rest(20, every=400))
def test_what_changes_next_is_what_a_loop_over_every_day_finds(seeds: range) -> None:
    """Random days of random histories against 400 days one by one: the first on which state or missing differs."""
    found = 0
    for seed in seeds:
        rng = Random(seed)  # noqa: S311 - a kept seed
        history = written_history(rng, written_content(rng))
        progress, today = history.progress(), FIRST_DAY + timedelta(days=rng.randrange(DAYS))
        place = rng.choice(list(history.content.stations.values()))
        comes = next_change(history.people[COOK], place, progress, history.content, today)
        before = told(asked(history, place.id, today, today, progress))
        later = (asked(history, place.id, today + timedelta(days=ahead), today, progress) for ahead in range(1, 400))
        first = next(((one.on, before[0], one.state) for one in later if told(one) != before), None)
        soon = comes if comes and comes.on < today + timedelta(days=400) else None
        assert (soon and (soon.on, soon.before, soon.after)) == first, (seed, comes, first)
        found += first is not None
    assert found > len(seeds) // 5


def told(found: Clearance) -> tuple[str, set[str]]:
    """Return the state and what is missing."""
    return found.state, {missing.what for missing in found.missing}


@pytest.mark.parametrize("seeds", first_and_rest(1, every=3))
def test_days_of_five_years_agree(seeds: range) -> None:
    """Some histories, every third day, every station: as it was known then, and as it is known now."""
    for seed in seeds:
        rng = Random(seed)  # noqa: S311 - a kept seed
        history = written_history(rng, written_content(rng))
        progress, now = history.progress(), date(2031, 1, 1)
        for number in range(0, DAYS, 3):
            on = FIRST_DAY + timedelta(days=number)
            for known in (on, now):
                other = naive(history, on, known)
                book = other.book
                for station in ("pasta_room", "cold_side", "grill"):
                    found = asked(history, station, on, known, progress)
                    assert found.is_cleared == other.is_cleared(station, on, book)
