"""The sous chef's desk: who can be watched on this shift, which supervised shifts a plan proposes. Pure."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from statistics import median
from typing import Literal, NamedTuple

from trainer.kitchen.nights import Place
from trainer.kitchen.record import Watched
from trainer.kitchen.standard_cost import MINUTES_A_PRACTICAL

FEWEST_TIMED = 3
LONGEST = timedelta(hours=12)
"""A practical left open over night says nothing of how long it takes."""
WhenToWatch = Literal["now", "no time", "not on", "not mine"]


class Shift(NamedTuple):
    """A service with its hours, and who is on."""

    opens: datetime
    closes: datetime
    on: frozenset[str]


def when_to_watch(cook: str, minutes: int, shift: Shift | None, now: datetime, *, may: bool) -> WhenToWatch:
    """Return whether a cook who asked can be watched on this shift, or what is in the way first.

    Before a service there is time where the practical ends by the minute it opens; while one runs, nobody is watched.
    With no shift planned anybody may be watched at any time.
    """
    if not may:
        return "not mine"
    if shift is None:
        return "now"
    if cook not in shift.on:
        return "not on"
    ends = now + timedelta(minutes=minutes)
    return "now" if ends <= shift.opens or now >= shift.closes else "no time"


def next_together(shifts: Iterable[Shift], cooks: Collection[str], now: datetime) -> Shift | None:
    """Return the first service to come that all of these cooks are on at; None where there is none."""
    return next((one for one in shifts if one.opens > now and one.on >= set(cooks)), None)


def minutes_of(watched: Iterable[Watched], technique: str) -> int:
    """Return how long a practical of a technique takes here: the median of those timed, or the usual time."""
    spans = [
        line.at - line.started
        for line in watched
        if line.technique == technique and line.started is not None and line.verdict != "stopped"
    ]
    known = [span.total_seconds() / 60 for span in spans if timedelta(minutes=1) <= span <= LONGEST]
    return round(median(known)) if len(known) >= FEWEST_TIMED else MINUTES_A_PRACTICAL


@dataclass(frozen=True, slots=True)
class Proposed:
    """A supervised shift that a plan, or a closed service, tells of: who worked where, beside whom."""

    place: Place
    beside: str


def proposed_shifts(places: Sequence[Place], is_cleared: Callable[[str, str], bool]) -> tuple[Proposed, ...]:
    """Return the shifts to sign of one service: each cook not cleared at their station, beside one who is.

    Whoever is named beside counts first, then whoever ran the station; with nobody cleared there, nothing is proposed.
    """
    return tuple(_proposed(places, is_cleared))


def _proposed(places: Sequence[Place], is_cleared: Callable[[str, str], bool]) -> Iterator[Proposed]:
    for place in places:
        if is_cleared(place.cook, place.station):
            continue
        others = (one.cook for one in places if one.station == place.station and one.runs and one.cook != place.cook)
        named = [*([place.beside] if place.beside else []), *others]
        beside = next((cook for cook in named if is_cleared(cook, place.station)), "")
        if beside:
            yield Proposed(place, beside)
