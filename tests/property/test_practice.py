"""The days in practice as spans, against five years counted day by day."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest

from tests.property.naive import naive_practice
from trainer.kitchen.nights import StationRun
from trainer.kitchen.practice import Worked, in_practice
from trainer.kitchen.record import ShiftWorked
from trainer.kitchen.requirements import Requirement
from trainer.kitchen.spans import NO_END, ONE_DAY, Span
from trainer.kitchen.technique import Practice

FIRST = date(2026, 1, 1)
DAYS = [FIRST + timedelta(days=day) for day in range(5 * 365 + 1)]  # 2026 to 2030, 29 February 2028 among them


def some_day(rng: Random) -> date:
    """Return one of the days."""
    return rng.choice(DAYS)


def written_asked(rng: Random) -> Practice:
    """Return what practice is asked for."""
    days = rng.choice([1, 7, 30, 90, 365])
    return Practice(rng.randrange(1, 6), days, rng.randrange(1, 4), rng.choice([1, 7, 30, 90]))


def written_shifts(rng: Random) -> list[date]:
    """Return days worked: some by themselves, some close together, some twice."""
    days = [some_day(rng) for _ in range(rng.randrange(8))]
    for _ in range(rng.randrange(6)):
        begin = some_day(rng)
        days += [begin + timedelta(days=rng.randrange(rng.choice([2, 30, 100]))) for _ in range(rng.randrange(6))]
    return days


def written_others(rng: Random) -> list[Requirement]:
    """Return two other requirements, each met in some runs of days, or never."""
    found = []
    for name in ("reading", "practical"):
        begins = [some_day(rng) for _ in range(rng.choice([0, 1, 1, 2, 3]))]
        spans = tuple(Span(day, rng.choice([day + timedelta(days=rng.randrange(700)), NO_END])) for day in begins)
        found.append(Requirement(name, spans, None, "", None))
    return found


def walk(seed: int) -> tuple[int, int]:
    """Compare one random history on every day of five years; return how many days were in practice, and out of it."""
    rng = Random(seed)  # noqa: S311 - a kept seed
    asked, shifts, others = written_asked(rng), written_shifts(rng), written_others(rng)
    free_until = rng.choice([FIRST - ONE_DAY, some_day(rng), some_day(rng), NO_END])
    lines = [ShiftWorked(f"e{n}", day, "grill", day, "sous", "dinner") for n, day in enumerate(shifts)]
    ran = [StationRun(f"s{n}", day, "grill", "dinner", rng.random() < 0.5) for n, day in enumerate(written_shifts(rng))]
    by_day: list[ShiftWorked | StationRun] = sorted([*lines, *ran], key=lambda line: line.worked_on)
    found = in_practice(asked, Worked(tuple(by_day), free_until), others, FIRST)
    worked, first, inside = [line.worked_on for line in by_day], None, 0
    for day in DAYS:
        if first is None and all(any(span.since <= day <= span.until for span in one.spans) for one in others):
            first = day
        is_free = first is None or day <= free_until or (day - first).days <= asked.days
        expected = is_free or naive_practice(
            asked, [each for each in worked if each <= day], [each for each in shifts if each <= day], day
        )
        assert any(span.holds(day) for span in found.spans) == expected, (seed, day, asked)
        inside += expected
    return inside, len(DAYS) - inside


@pytest.mark.parametrize("hundred", range(3))
def test_every_day_of_five_years_is_in_practice_by_both_ways(hundred: int) -> None:
    """Over 300 random histories; both answers are common."""
    counts = [walk(seed) for seed in range(hundred * 100, hundred * 100 + 100)]
    assert sum(inside for inside, _ in counts) > 20_000
    assert sum(out for _, out in counts) > 10_000


@pytest.mark.bench
def test_every_day_of_ten_thousand_histories() -> None:
    """The same over 10,000 histories."""
    counts = [walk(seed) for seed in range(10_000)]
    inside, out = (sum(one[place] for one in counts) for place in (0, 1))
    print(f"10,000 random histories of five years: {inside} days in practice, {out} out of it; 0 differ")
    assert min(inside, out) > 1_000_000
