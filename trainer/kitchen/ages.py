"""What another birth date changes: which stations' ages it bars a person from, and which it frees them for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from trainer.kitchen.spans import birthday
from trainer.kitchen.technique import Station


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


def _first_day(born: date | None, years: int, on: date) -> date:
    """Return the first day, from a day on, that a person is old enough."""
    return date.max if born is None else max(birthday(born, years), on)
