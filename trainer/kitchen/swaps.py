"""Swaps: an exchange of places told two cooks at a time, the plan after it, and what of a day was changed since."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from trainer.kitchen.nights import Place
from trainer.kitchen.places import stations_at


class Move(NamedTuple):
    """A cook who stands elsewhere than planned."""

    cook: str
    planned: str
    stands: str


class Swap(NamedTuple):
    """Two cooks who change places: where each goes."""

    one: str
    one_goes: str
    other: str
    other_goes: str


class Moved(NamedTuple):
    """A cook whose place at a service was changed since the day was planned."""

    cook: str
    service: str
    planned: str
    stands: str


def swaps_of(moves: Sequence[Move]) -> tuple[Swap, ...]:
    """Return the swaps of two that make these moves, one after another; none where they are no exchange.

    Where two each want the other's place they change with each other; else the first goes where they stand, and
    whoever stood there comes in their place and moves on with the next swap.
    """
    if sorted(move.planned for move in moves) != sorted(move.stands for move in moves):
        return ()
    at, goal = {move.cook: move.planned for move in moves}, {move.cook: move.stands for move in moves}
    return tuple(_swaps(at, goal))


def _swaps(at: dict[str, str], goal: Mapping[str, str]) -> Iterator[Swap]:
    for cook in goal:
        while at[cook] != goal[cook]:
            there = [one for one in goal if at[one] == goal[cook] and at[one] != goal[one]]
            other = next((one for one in there if goal[one] == at[cook]), there[0])
            at[cook], at[other] = at[other], at[cook]
            yield Swap(cook, at[cook], other, at[other])


def places_after(places: Iterable[Place], service: str, moves: Iterable[Move]) -> tuple[Place, ...]:
    """Return the places of a day after moves in one of its services: who moves runs the new station.

    Who trails beside somebody who moves stays, beside whoever runs the station then.
    """
    goes = {move.cook: move for move in moves}
    done: set[str] = set()
    moved = (_moved(place, goes, done) if place.service == service else (place,) for place in places)
    changed = [place for each in moved for place in each]
    runs = {place.station: place.cook for place in changed if place.service == service and place.runs}
    return tuple(
        place._replace(beside=runs.get(place.station, ""))
        if place.service == service and place.beside in goes
        else place
        for place in changed
    )


def _moved(place: Place, goes: Mapping[str, Move], done: set[str]) -> Iterator[Place]:
    """Yield a place as it is after the moves: one for each station where a hand holds several, once a cook."""
    move = goes.get(place.cook)
    if move is None or place.station not in stations_at(move.planned):
        yield place
    elif place.cook not in done:
        done.add(place.cook)
        yield from (place._replace(station=one, runs=True, beside="") for one in stations_at(move.stands))


def moved_between(before: Iterable[Place], after: Iterable[Place]) -> tuple[Moved, ...]:
    """Return whose place at a service differs between two plans of a day, by who stands there now."""
    stood = {(place.cook, place.service): place.station for place in before}
    now = {(place.cook, place.service): place.station for place in after}
    return tuple(
        Moved(cook, service, stood[cook, service], station)
        for (cook, service), station in now.items()
        if stood.get((cook, service), station) != station
    )
