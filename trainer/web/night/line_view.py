"""The line of a service in words: station by station who is planned, what holds or is short, and the swaps for it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from trainer.actions.covering import ServiceCover
from trainer.kitchen.cover import StationCover
from trainer.kitchen.swaps import Swap, swaps_of
from trainer.messages import Text, joined, message, plural
from trainer.web.manager.cover_view import Called, asides, gap_lines

UntilOf = Callable[[str, str], date | None]
"""The last good day of a cook at a station, where the board says one."""


@dataclass(frozen=True, slots=True)
class LineRow:
    """One station: who is there in bold, `aside` lighter; black where nobody on can stand there, thin where it is off.

    Of somebody who is planned there and not cleared the names are light. `is_changed` stands out after a swap.
    """

    title: Text
    names: Text
    aside: Text = ""
    is_gap: bool = False
    is_off: bool = False
    is_light: bool = False
    is_changed: bool = False


@dataclass(frozen=True, slots=True)
class LineBand:
    """What is true of the whole line, on paper or black."""

    words: Text
    is_black: bool = False


def rows_as_planned(found: ServiceCover, called: Called) -> tuple[LineRow, ...]:
    """Return the stations with who is planned there, then those that do not run."""
    rows = [_planned(found, one, called) for one in found.cover.stations]
    return (*rows, *_off(found, called))


def rows_after(found: ServiceCover, called: Called) -> tuple[LineRow, ...]:
    """Return the stations with who stands there once the moves are made."""
    came = {move.cook: move.planned for move in found.cover.moves}
    rows = []
    for one in found.cover.stations:
        told = [_from(cook, came.get(cook, ""), called) for cook in found.standing_at(one.station)]
        if one.missing and not told:
            rows.append(_planned(found, one, called))
            continue
        changed = any(cook in came for cook in one.standing)
        aside = joined(asides(found, one.station, called), ". ")
        rows.append(LineRow(called.places(one.stations), joined(told, ", "), aside, is_changed=changed))
    return (*rows, *_off(found, called))


def band_of(found: ServiceCover) -> LineBand | None:
    """Return what is true of the line; None where the black rows say it all."""
    cover, swaps = found.cover, swaps_of(found.cover.moves)
    if cover.shortages:
        short = sum(one.short for one in cover.shortages)
        return LineBand(plural("{number} hand short", "{number} hands short", short), is_black=True)
    if not cover.holds:
        return None
    if swaps:
        return LineBand(plural("Holds with {number} swap", "Holds with {number} swaps", len(swaps)))
    if cover.moves:
        return LineBand(plural("Holds with {number} move", "Holds with {number} moves", len(cover.moves)))
    return LineBand(message("Holds as planned"))


def swap_lines(found: ServiceCover, called: Called, until: UntilOf, said: Callable[[date], Text]) -> tuple[Text, ...]:
    """Return each swap, or each move where they are no exchange, with why it does: who is cleared where, to when."""

    def cleared(cook: str, station: str) -> Text:
        last, names, where = until(cook, station), called.everybody([cook]), called.places([station])
        if last is None:
            return message("{name} is cleared for {station}.", name=names, station=where)
        return message("{name} is cleared for {station} to {day}.", name=names, station=where, day=said(last))

    moves = found.cover.moves
    goal = {move.cook: move.stands for move in moves}
    swaps = swaps_of(moves)
    if not swaps:
        return tuple(
            joined(
                [
                    message(
                        "{name} to {station}.", name=called.everybody([one.cook]), station=called.places([one.stands])
                    ),
                    cleared(one.cook, one.stands),
                ]
            )
            for one in moves
        )
    return tuple(
        joined([_swap(one, called), *(cleared(*arrived) for arrived in _arrivals(one, goal))]) for one in swaps
    )


def _swap(one: Swap, called: Called) -> Text:
    return message("{one} and {other} swap.", one=called.everybody([one.one]), other=called.everybody([one.other]))


def _arrivals(one: Swap, goal: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Yield who is where they are to stand after a swap."""
    for cook, station in ((one.one, one.one_goes), (one.other, one.other_goes)):
        if goal.get(cook) == station:
            yield cook, station


def notes_of(found: ServiceCover, called: Called) -> tuple[Text, ...]:
    """Return what the line is short of, and why; nothing where it holds."""
    return () if found.cover.holds else gap_lines(found, called)


def _planned(found: ServiceCover, one: StationCover, called: Called) -> LineRow:
    here = [judged for judged in found.judged if judged.planned.station in one.stations]
    hands = [judged.planned.cook for judged in here if judged.verdict == "may stand"]
    title, aside = called.places(one.stations), joined(asides(found, one.station, called), ". ")
    if one.has_no_one:
        return LineRow(title, message("No one cleared"), aside, is_gap=True)
    if hands:
        learn = called.everybody(judged.planned.cook for judged in here if judged.verdict == "learns")
        return LineRow(
            title, joined(map(_name(called), hands), ", "), message("{names} beside", names=learn) if learn else ""
        )
    learns = called.everybody(judged.planned.cook for judged in here if judged.verdict == "learns")
    words = message("{names}, learning", names=learns) if learns else aside
    return LineRow(title, words, is_light=True)


def _name(called: Called) -> Callable[[str], Text]:
    return lambda cook: called.everybody([cook])


def _from(cook: str, planned: str, called: Called) -> Text:
    name = called.everybody([cook])
    return message("{name}, from {station}", name=name, station=called.places([planned])) if planned else name


def _off(found: ServiceCover, called: Called) -> Iterable[LineRow]:
    off = (title for station, title in called.stations.items() if found.cover.at(station) is None)
    return (LineRow(title, message("no one planned"), is_off=True) for title in off)
