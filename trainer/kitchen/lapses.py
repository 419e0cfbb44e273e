"""What lapses soon: each thing that ends for a cook, the stations that go with it, when it could be watched again."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from trainer.kitchen.clearance import Clearance
from trainer.kitchen.desk import Shift
from trainer.kitchen.requirements import Held


@dataclass(frozen=True, slots=True)
class Lapse:
    """One thing a cook holds that ends: which, in words, on which last good day, and for which stations (ids).

    `what` is the kind of thing, and behind a colon whose, as `Held` has it: `practical:fresh_pasta`.
    """

    cook: str
    what: str
    held: Held
    until: date
    stations: tuple[str, ...]

    @property
    def technique(self) -> str:
        """Return the id of the technique whose practical, questions or reading ends; "" for anything else."""
        kind, _, of = self.what.partition(":")
        return of if kind in ("practical", "quiz", "reading") else ""

    @property
    def is_practical(self) -> bool:
        """Return whether it is the practical that ends, so that it has to be watched again."""
        return self.what.startswith("practical:")


@dataclass(frozen=True, slots=True)
class Booking:
    """A shift on which a cook and one who may sign both work; `is_late` where the thing has ended by then."""

    opens: datetime
    by: str
    is_late: bool


def lapses_by(clearances: Iterable[Clearance], last: date) -> tuple[Lapse, ...]:
    """Return everything that ends on or before a day for those who are cleared now, the nearest first.

    What several stations ask for is one lapse, and names them all.
    """
    found: dict[tuple[str, str], dict[str, Held]] = {}
    for clearance in clearances:
        for held in clearance.held if clearance.is_cleared else ():
            if held.until is not None and held.until <= last:
                found.setdefault((clearance.cook, held.what), {})[clearance.station] = held
    lapses = (_lapse(cook, what, at_stations) for (cook, what), at_stations in found.items())
    return tuple(sorted(lapses, key=lambda one: (one.until, one.cook, one.what)))


def lapses_together(lapses: Iterable[Lapse]) -> tuple[tuple[Lapse, ...], ...]:
    """Return lapses put together that are of one cook and end on one day, in the sequence of the first of each."""
    found: dict[tuple[date, str], list[Lapse]] = {}
    for one in lapses:
        found.setdefault((one.until, one.cook), []).append(one)
    return tuple(map(tuple, found.values()))


def _lapse(cook: str, what: str, at_stations: Mapping[str, Held]) -> Lapse:
    until, first = min(((held.until or date.max, held) for held in at_stations.values()), key=lambda one: one[0])
    return Lapse(cook, what, first, until, tuple(at_stations))


def booking_for(lapse: Lapse, shifts: Iterable[Shift], signers: Collection[str], now: datetime) -> Booking | None:
    """Return the first shift to come on which the cook works together with one of those who may sign, or None.

    Of several of them on, the one named first. *shifts* come in sequence, by the kitchen's own clock as *now* is.
    """
    for shift in shifts:
        by = next((who for who in signers if who in shift.on and who != lapse.cook), "")
        if by and lapse.cook in shift.on and shift.opens > now:
            return Booking(shift.opens, by, shift.opens.date() > lapse.until)
    return None
