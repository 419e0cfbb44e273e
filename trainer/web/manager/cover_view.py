"""Who covers a service, in words: the bands above the board, the places that count as no hand, the wall."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from trainer.actions.covering import ServiceCover
from trainer.kitchen.cover import Shortage, StationCover
from trainer.kitchen.places import stations_at
from trainer.kitchen.planned import Verdict
from trainer.kitchen.swaps import Move
from trainer.messages import Text, joined, message, plural

MOST_NAMES = 3
WALL_LINES = 6


@dataclass(frozen=True, slots=True)
class Band:
    """What is true of one service: on paper where it holds, black where it does not."""

    is_black: bool
    words: Text
    lines: tuple[Text, ...]
    day: str = ""
    service: str = ""


@dataclass(frozen=True, slots=True)
class WallLine:
    """One station on the wall: who stands there in large letters, `aside` in small ones.

    `is_gap` is for a station without all its hands, `is_off` for one that does not run, or that nobody is planned at.
    """

    title: Text
    names: Text
    aside: Text = ""
    is_gap: bool = False
    is_off: bool = False


@dataclass(frozen=True, slots=True)
class Called:
    """How cooks and stations are called on this page."""

    cooks: Mapping[str, str]
    stations: Mapping[str, str]

    def everybody(self, cooks: Iterable[str]) -> Text:
        """Return cooks by name: Ana, Bo and Cleo."""
        return _and([self.cooks.get(cook, cook) for cook in cooks])

    def places(self, stations: Iterable[str]) -> Text:
        """Return stations by title: Grill and Sauté; of a place that one hand holds, each of its stations."""
        single = (station for place in stations for station in stations_at(place))
        return _and([self.stations.get(station, station) for station in single])


def bands(services: Iterable[ServiceCover], called: Called) -> tuple[Band, ...]:
    """Return one band a service, in the sequence of the day."""
    return tuple(_band(one, called) for one in services)


def no_hands(services: Iterable[ServiceCover], called: Called, verdict: Verdict) -> tuple[Text, ...]:
    """Return each planned place that counts as no hand with this verdict, with the reason."""
    return tuple(
        message(
            "{cook}, {station}, {service}: {reason}",
            cook=called.everybody([one.planned.cook]),
            station=called.places([one.planned.station]),
            service=service.service.title,
            reason=one.reason,
        )
        for service in services
        for one in service.judged
        if one.verdict == verdict
    )


def holds_words(found: ServiceCover, called: Called) -> Text:
    """Return that a service holds, and with which cooks standing elsewhere than planned."""
    moves, service = found.cover.moves, found.service.heading
    if not moves:
        return message("{service} holds as planned.", service=service)
    told = joined([_move(one, called) for one in moves], ", ")
    if found.cover.swaps:
        return plural(
            "{service} holds with {number} swap: {moves}.",
            "{service} holds with {number} swaps: {moves}.",
            found.cover.swaps,
            service=service,
            moves=told,
        )
    return plural(
        "{service} holds with {number} move: {moves}.",
        "{service} holds with {number} moves: {moves}.",
        len(moves),
        service=service,
        moves=told,
    )


def gap_lines(found: ServiceCover, called: Called) -> tuple[Text, ...]:
    """Return what a service is short of: each station nobody on is cleared for, then hands that are short, and why."""
    no_one = [_no_one(found, station, called) for station in found.cover.no_one]
    return (*no_one, *(_short(found, one, called) for one in found.cover.shortages))


def wall_lines(found: ServiceCover, stations: Mapping[str, str], called: Called) -> tuple[WallLine, ...]:
    """Return the wall's lines for a service: the stations that run, then in thin letters those nobody is planned at.

    Why hands are short stands at the first of the stations that compete for them.
    """
    said: list[Shortage] = []
    run = tuple(_wall_line(found, one, called, said) for one in found.cover.stations)
    off = [title for station, title in stations.items() if found.cover.at(station) is None]
    return (*run, *(WallLine(title, message("no one planned"), is_off=True) for title in off))


@dataclass(frozen=True, slots=True)
class WallView:
    """One page of the wall, its first line's place among the stations that turn, the next page's, all other lines."""

    lines: tuple[WallLine, ...]
    first: int
    following: int
    others: tuple[WallLine, ...]


def wall_page(lines: Sequence[WallLine], asked: str) -> WallView:
    """Return the six lines from a place on: gaps first, on every page; what is no place is the first one."""
    gaps = [line for line in lines if line.is_gap]
    turning = [line for line in lines if not line.is_gap]
    if len(lines) <= WALL_LINES:
        return WallView((*gaps, *turning), 0, 0, ())
    gaps, turning = gaps[: WALL_LINES - 1], [*gaps[WALL_LINES - 1 :], *turning]
    room = WALL_LINES - len(gaps)
    first = int(asked) if asked.isascii() and asked.isdigit() and int(asked[:6]) < len(turning) else 0
    shown = turning[first : first + room]
    others = tuple(line for line in turning if line not in shown)
    return WallView((*gaps, *shown), first, first + room if first + room < len(turning) else 0, others)


def _band(found: ServiceCover, called: Called) -> Band:
    if found.cover.holds:
        return Band(is_black=False, words=holds_words(found, called), lines=(), **_moves_at(found))
    lines = gap_lines(found, called)
    words = message("{service}: {gap}", service=found.service.heading, gap=lines[0])
    moves = joined([_move(one, called) for one in found.cover.moves], ", ")
    rest = (message("The others stand, with {moves}.", moves=moves),) if found.cover.moves else ()
    return Band(is_black=True, words=words, lines=(*lines[1:], *rest), **_moves_at(found))


def _moves_at(found: ServiceCover) -> dict[str, str]:
    """Return which service of which day somebody moves at; nothing where nobody does."""
    return {"day": found.on.isoformat(), "service": found.service.id} if found.cover.moves else {}


def _no_one(found: ServiceCover, station: str, called: Called) -> Text:
    """Return that nobody on is cleared for a station, and who could be called."""
    text = message("No one cleared is on for {station}.", station=called.places([station]))
    return joined([text, *_can_come(found, [station], called)])


def _can_come(found: ServiceCover, stations: Iterable[str], called: Called) -> list[Text]:
    """Return who is cleared for one of these stations and not on at this service; empty where nobody is."""
    free = found.can_come(stations)
    names = joined([called.cooks.get(cook, cook) for cook in free[:MOST_NAMES]], ", ")
    return [message("Cleared and not on: {names}.", names=names)] if free else []


def _short(found: ServiceCover, one: Shortage, called: Called) -> Text:
    """Return how many hands are short and why, these stations having no other cooks, and who could be called."""
    short = plural("{number} hand short", "{number} hands short", one.short)
    why = joined([_why_short(one, called), *_can_come(found, one.stations, called)])
    return joined([short, why], ". ")


def _why_short(one: Shortage, called: Called) -> Text:
    """Return the stations that compete, the hands they need and the cooks there are."""
    return plural(
        "{stations} need {hands} hands; of those on only {cooks} is cleared there.",
        "{stations} need {hands} hands; of those on only {cooks} are cleared there.",
        len(one.cooks),
        stations=called.places(one.stations),
        hands=one.hands,
        cooks=called.everybody(one.cooks),
    )


def _move(one: Move, called: Called) -> Text:
    return message("{cook} to {station}", cook=called.everybody([one.cook]), station=called.places([one.stands]))


def _wall_line(found: ServiceCover, one: StationCover, called: Called, said: list[Shortage]) -> WallLine:
    """Return one station that runs; why hands are short is told where it is not among what is *said* already."""
    title = called.places(one.stations)
    if not one.missing:
        names = joined([called.cooks.get(cook, cook) for cook in found.standing_at(one.station)], ", ")
        return WallLine(title, names, joined(asides(found, one.station, called), ". "))
    if one.has_no_one:
        told = asides(found, one.station, called)
        more = _can_come(found, [one.station], called)
        return WallLine(title, message("No one cleared"), joined([*told, *more], ". "), is_gap=True)
    short = found.cover.shortage_at(one.station)
    hands = plural("{number} hand short", "{number} hands short", one.missing)
    if short is None or short in said:
        return WallLine(title, hands, is_gap=True)
    said.append(short)
    return WallLine(title, hands, _why_short(short, called), is_gap=True)


def asides(found: ServiceCover, station: str, called: Called) -> list[Text]:
    """Return who is planned at a station and is no hand there: beside, or not to be there at all."""
    beside = found.beside(station)
    learn = called.everybody(one.planned.cook for one in beside if one.verdict == "learns")
    away = called.everybody(one.planned.cook for one in beside if one.verdict == "kept away")
    one = found.cover.at(stations_at(station)[0])
    stands = (
        message("on, not cleared: {names}", names=learn)
        if one and one.missing
        else message("{names} beside", names=learn)
    )
    return [*([stands] if learn else []), *([message("may not stand here: {names}", names=away)] if away else [])]


def _and(names: Sequence[str]) -> Text:
    if len(names) < 2:
        return joined(names)
    return message("{first} and {last}", first=joined(names[:-1], ", "), last=names[-1])
