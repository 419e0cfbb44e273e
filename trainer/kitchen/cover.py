"""Cover: who of those on at a service stands at which station, or why nobody can.

A cook may stand only where cleared that day. Planned places only say how: among all ways to fill the most stations,
the one is taken that leaves the most cooks where they are planned. Anyone who stands beside is no hand.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass

from trainer.kitchen.assignment import cheapest
from trainer.kitchen.places import stations_at
from trainer.kitchen.swaps import Move, swaps_of


@dataclass(frozen=True, slots=True)
class StationCover:
    """One place at a service: the hands it needs, who stands there, and who of those on is cleared for all of it.

    A place is a station, or several that one hand holds together.
    """

    station: str
    hands: int
    standing: tuple[str, ...]
    cleared_on: tuple[str, ...]

    @property
    def stations(self) -> tuple[str, ...]:
        """Return the stations of the place."""
        return stations_at(self.station)

    @property
    def missing(self) -> int:
        """Return how many hands are not there."""
        return self.hands - len(self.standing)

    @property
    def has_no_one(self) -> bool:
        """Return whether a hand is missing and nobody on is cleared for the station."""
        return self.missing > 0 and not self.cleared_on


@dataclass(frozen=True, slots=True)
class Shortage:
    """Stations that need more hands together than there are cooks on who are cleared for any of them."""

    stations: tuple[str, ...]
    hands: int
    cooks: tuple[str, ...]

    @property
    def short(self) -> int:
        """Return how many hands are missing among these stations."""
        return self.hands - len(self.cooks)


@dataclass(frozen=True, slots=True)
class Cover:
    """One service: its stations in the sequence asked for, what is short, and who moves to make it hold."""

    stations: tuple[StationCover, ...]
    shortages: tuple[Shortage, ...]
    moves: tuple[Move, ...]

    @property
    def holds(self) -> bool:
        """Return whether every station has all its hands."""
        return not any(one.missing for one in self.stations)

    @property
    def holds_as_planned(self) -> bool:
        """Return whether every station has all its hands with nobody moving."""
        return self.holds and not self.moves

    @property
    def no_one(self) -> tuple[str, ...]:
        """Return the stations for which nobody on is cleared."""
        return tuple(one.station for one in self.stations if one.has_no_one)

    @property
    def swaps(self) -> int:
        """Return in how many swaps of two the moves are done; 0 where they are not an exchange among themselves."""
        return len(swaps_of(self.moves))

    def at(self, station: str) -> StationCover | None:
        """Return the cover of the place that a station is part of; None where it needs no hand."""
        return next((one for one in self.stations if station in one.stations), None)

    def shortage_at(self, station: str) -> Shortage | None:
        """Return the shortage a place is part of; None where it has its hands, or nobody on is cleared for it."""
        return next((one for one in self.shortages if station in one.stations), None)


def cover(needs: Mapping[str, int], cleared: Mapping[str, Set[str]], planned: Mapping[str, str]) -> Cover:
    """Return who stands where at one service.

    *needs* is the hands each station needs; *cleared*, for each cook on, where they may stand that day; *planned*,
    where each is planned. No seating fills more stations, of those that fill as many none moves fewer cooks, and of
    these none takes more of them from beside a cleared cook.
    """
    slots = [station for station, hands in needs.items() for _ in range(hands)]
    cooks = list(cleared)
    seats = _seats(slots, cooks, cleared, planned)
    seated = {cook: slot for slot, cook in zip(slots, seats, strict=True) if cook}
    stations = tuple(_station(station, hands, seated, cleared) for station, hands in needs.items())
    moved = [cook for cook in cooks if cook in seated and planned.get(cook, seated[cook]) != seated[cook]]
    moves = tuple(Move(cook, planned[cook], seated[cook]) for cook in moved)
    return Cover(stations, _shortages(stations, seated), moves)


def _station(station: str, hands: int, seated: Mapping[str, str], cleared: Mapping[str, Set[str]]) -> StationCover:
    """Return one station with who was seated there, in the sequence of its places, and who of those on is cleared."""
    standing = tuple(cook for cook, slot in seated.items() if slot == station)
    return StationCover(station, hands, standing, tuple(cook for cook, may in cleared.items() if station in may))


def _seats(
    slots: list[str], cooks: list[str], cleared: Mapping[str, Set[str]], planned: Mapping[str, str]
) -> list[str]:
    """Return the cook at each place, "" where it stays empty.

    An empty place costs more than every move there could be, a place without a clearance more than an empty one. A
    move costs more than any choice between moves; of these, one who is planned beside a cleared cook moves last.
    """
    if not slots:
        return []
    move, empty = len(slots) + 1, (len(slots) + 1) * (len(slots) + 2)
    beside = {cook: _is_beside(cook, cleared, planned) for cook in cooks}
    costs = [
        [
            2 * empty if slot not in cleared[cook] else 0 if planned.get(cook) == slot else move + beside[cook]
            for cook in cooks
        ]
        + [empty] * len(slots)
        for slot in slots
    ]
    return [cooks[column] if column < len(cooks) else "" for column in cheapest(costs)]


def _is_beside(cook: str, cleared: Mapping[str, Set[str]], planned: Mapping[str, str]) -> bool:
    """Return whether another person is planned at a cook's station and cleared for it."""
    place = planned.get(cook, "")
    return any(other != cook and planned.get(other) == place and place in may for other, may in cleared.items())


def _shortages(stations: Iterable[StationCover], seated: Mapping[str, str]) -> tuple[Shortage, ...]:
    """Return what is short though a person on is cleared for each, stations that compete for the same cooks together.

    From a place that stays empty: who could stand there, where they stand instead, who could stand there, and so on.
    These stations have no other cooks, so they need more hands than there are (Hall 1935; from memory).
    """
    known = {one.station: one for one in stations}
    groups: list[set[str]] = []
    for one in known.values():
        if one.missing and one.cleared_on:
            group = _competing(one.station, known, seated)
            group = group.union(*(other for other in groups if other & group))
            groups = [other for other in groups if not other & group] + [group]
    return tuple(_shortage(group, known) for group in groups)


def _competing(station: str, known: Mapping[str, StationCover], seated: Mapping[str, str]) -> set[str]:
    """Return the stations that hold the cooks this one would need, itself among them."""
    found, to_look_at = {station}, [station]
    while to_look_at:
        for cook in known[to_look_at.pop()].cleared_on:
            if seated[cook] not in found:
                found.add(seated[cook])
                to_look_at.append(seated[cook])
    return found


def _shortage(group: Set[str], known: Mapping[str, StationCover]) -> Shortage:
    """Return the hands needed and the cooks there are for a group of stations."""
    inside = [one for one in known.values() if one.station in group]
    cooks = dict.fromkeys(cook for one in inside for cook in one.cleared_on)
    return Shortage(tuple(one.station for one in inside), sum(one.hands for one in inside), tuple(cooks))
