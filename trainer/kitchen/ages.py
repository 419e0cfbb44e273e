"""What a birth date means for the stations that ask for an age, and what another one changes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal, get_args

from trainer.kitchen.spans import birthday
from trainer.kitchen.technique import Station

PaperSeen = Literal["passport", "birth certificate", "licence", "not seen"]
PAPERS_SEEN: tuple[PaperSeen, ...] = get_args(PaperSeen)
NOT_SEEN: PaperSeen = "not seen"
JOINING = "joining"
"""In place of a day: so many years were reached before joining, and nobody need know when."""


@dataclass(frozen=True, slots=True)
class AgeChange:
    """The ids of the stations a change of birth date bars a person from, or frees them for: now, or sooner or later."""

    bars: tuple[str, ...] = ()
    frees: tuple[str, ...] = ()


def age_change(before: date | None, after: date | None, stations: Iterable[Station], on: date) -> AgeChange:
    """Return what a change of birth date does at the stations that ask for an age, seen from a day.

    It bars where the first day allowed comes later than it did, and frees where it comes sooner. Days gone by are all
    alike, and with no birth date that day never comes.
    """
    bars: list[str] = []
    frees: list[str] = []
    for station in stations:
        if station.minimum_age:
            was, now = (_first_day(born, station.minimum_age, on) for born in (before, after))
            (bars if now > was else frees if now < was else []).append(station.id)
    return AgeChange(tuple(bars), tuple(frees))


def bars_of(born: date, years: Iterable[int], joined: date) -> list[dict[str, Any]]:
    """Return from when a person is so many years old, a line each of the years asked: `years` and `from`.

    The day stands there only where it comes after the day of joining: of a grown-up the book shall not know it.

    >>> bars_of(date(2010, 3, 4), (18, 16), joined=date(2026, 5, 1))
    [{'years': 16, 'from': 'joining'}, {'years': 18, 'from': '2028-03-04'}]
    """
    days = [(each, birthday(born, each)) for each in sorted(set(years))]
    return [{"years": each, "from": JOINING if day <= joined else day.isoformat()} for each, day in days]


def _first_day(born: date | None, years: int, on: date) -> date:
    """Return the first day, from a day on, that a person is old enough."""
    return date.max if born is None else max(birthday(born, years), on)
