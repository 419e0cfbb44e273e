"""Planned shifts: on which day and sitting a cook stands at which station."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.kitchen.services import HouseServices
from trainer.store.connections import Connections


@dataclass(frozen=True, slots=True)
class PlannedShift:
    """One cook at one station, for one sitting of guests on one day. A cook has one station a sitting."""

    on: date
    sitting: str
    cook: str
    station: str


class Shifts:
    """The planned shifts of one kitchen; *house* returns its services, whose sequence they stand in."""

    def __init__(self, connections: Connections, kitchen: str, house: Callable[[], HouseServices]) -> None:
        self._connections = connections
        self._kitchen = kitchen
        self._house = house

    def add(self, shifts: Iterable[PlannedShift]) -> int:
        """Keep shifts, all or none; a cook's earlier plan for the same sitting gives way. Return how many changed."""
        changed = 0
        with self._connections.writing():
            for shift in shifts:
                changed += self._connections.write(
                    'INSERT INTO shifts (kitchen, "on", sitting, cook, station) VALUES (?,?,?,?,?)'
                    ' ON CONFLICT (kitchen, "on", sitting, cook) DO UPDATE SET station = excluded.station'
                    " WHERE station <> excluded.station",
                    (self._kitchen, shift.on.isoformat(), shift.sitting, shift.cook, shift.station),
                )
        return changed

    def on(self, day: date) -> tuple[PlannedShift, ...]:
        """Return a day's shifts in the sequence of its services, then by station."""
        return self.between(day, day)

    def between(self, first: date, last: date) -> tuple[PlannedShift, ...]:
        """Return the shifts from the first day to the last, both included."""
        sql = (
            'SELECT "on", sitting, cook, station FROM shifts WHERE kitchen = ? AND "on" BETWEEN ? AND ?'
            ' ORDER BY "on", station, cook'
        )
        values = (self._kitchen, first.isoformat(), last.isoformat())
        found = (_shift(row) for row in self._connections.read(sql, values))
        sequence = self._house().sequence
        return tuple(sorted(found, key=lambda shift: (shift.on, sequence(shift.sitting))))

    def all(self) -> tuple[PlannedShift, ...]:
        """Return every planned shift."""
        return self.between(date.min, date.max)

    def remove(self, shift: PlannedShift) -> None:
        """Drop a planned shift; one that is gone already is no error."""
        self._connections.write(
            'DELETE FROM shifts WHERE kitchen = ? AND "on" = ? AND sitting = ? AND cook = ?',
            (self._kitchen, shift.on.isoformat(), shift.sitting, shift.cook),
        )


def _shift(row: tuple[Any, ...]) -> PlannedShift:
    """Return a row as a shift."""
    on, sitting, cook, station = row
    return PlannedShift(date.fromisoformat(on), sitting, cook, station)
