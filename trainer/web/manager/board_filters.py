"""Whom the board shows: filters that stand in the address, each with how many it would show, and a page of lines."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from werkzeug.datastructures import MultiDict

from trainer.kitchen.names import is_called
from trainer.messages import Message, Text, message
from trainer.web.manager.board_view import CookLine

MANY_COOKS = 20
"""With more on the board it opens on those who are on that day."""
ON_A_PAGE = 60
EVERYBODY = "all"
FITS: Mapping[str, Callable[[CookLine], bool]] = {
    "on": lambda line: bool(line.on_tonight),
    "path": lambda line: any(cell.path for cell in line.cells),
    "cleared": lambda line: any(cell.is_cleared for cell in line.cells),
    "ends": lambda line: any(cell.ends_soon for cell in line.cells),
}
"""The filters, by their word in the address."""


@dataclass(frozen=True, slots=True)
class BoardAsked:
    """What of the board is asked for: filters that add up, one station's id, letters of a name, the first line shown.

    `is_open` is for a board about which nothing was asked; `on` is its day as the address has it, "" for today.
    """

    on: str = ""
    show: frozenset[str] = frozenset()
    station: str = ""
    typed: str = ""
    first: int = 0
    is_open: bool = True

    def opened_on(self, lines: Sequence[CookLine]) -> BoardAsked:
        """Return the same, or on a board of many cooks about which nothing was asked: those who are on that day."""
        is_large = self.is_open and len(lines) > MANY_COOKS and any(map(FITS["on"], lines))
        return replace(self, show=frozenset({"on"})) if is_large else self

    def kept(self) -> tuple[tuple[str, str], ...]:
        """Return what a form that asks for another day, or for a name, sends along: the filters that are set."""
        return tuple(("show", one) for one in sorted(self.show))

    def address(self, base: str, **changes: object) -> str:
        """Return the address of this board with some of it changed; nothing asked for is said as everybody."""
        one = replace(self, **{"first": 0, **changes})  # type: ignore[arg-type]  # fields of this very class
        show = sorted(one.show) or ([] if one.station or one.typed else [EVERYBODY])
        asked = {"on": one.on, "show": show, "station": one.station, "q": one.typed, "from": one.first or ""}
        return f"{base}?{urlencode({name: value for name, value in asked.items() if value}, doseq=True)}"


@dataclass(frozen=True, slots=True)
class Filter:
    """One filter: its words with how many it would show, where pressing it leads, whether it is set."""

    words: Message
    href: str
    is_set: bool


@dataclass(frozen=True, slots=True)
class Chosen:
    """The lines that are shown, those of the next and the last page, and the filters above them.

    `number` is of all that fit; `nobody` says that none does, and `all_href` leads to everybody.
    """

    asked: BoardAsked
    lines: tuple[CookLine, ...]
    number: int
    filters: tuple[Filter, ...]
    all_href: str
    earlier_href: str
    later_href: str
    shown: Text


def asked_of(args: MultiDict[str, str], on: str, stations: Sequence[str]) -> BoardAsked:
    """Return what an address asks for; what is no filter, no station and no number is passed over."""
    show, typed = args.getlist("show"), args.get("q", "").strip()[:80]
    station, first = args.get("station", ""), args.get("from", "")[:5]
    return BoardAsked(
        on=on,
        show=frozenset(one for one in show if one in FITS),
        station=station if station in stations else "",
        typed=typed,
        first=int(first) if first.isascii() and first.isdigit() else 0,
        is_open=not (show or typed or station or first),
    )


def chosen(lines: Sequence[CookLine], asked: BoardAsked, base: str, *, is_today: bool) -> Chosen:
    """Return the lines that fit everything asked for; of one station, only who has something there, and its cells."""
    at = tuple(_at(line, asked.station) for line in lines) if asked.station else tuple(lines)
    at = tuple(line for line in at if not asked.station or any(not cell.is_blank for cell in line.cells))
    asked = asked.opened_on(at)
    called = [line for line in at if is_called(line.name, asked.typed)]
    fit = [line for line in called if all(FITS[one](line) for one in asked.show)]
    first = asked.first if asked.first < len(fit) else 0
    page = tuple(fit[first : first + ON_A_PAGE])
    last, is_paged = first + len(page), len(fit) > ON_A_PAGE
    return Chosen(
        asked=asked,
        lines=page,
        number=len(fit),
        filters=tuple(_filter(name, called, asked, base, is_today=is_today) for name in FITS),
        all_href=replace(asked, show=frozenset(), station="", typed="").address(base),
        earlier_href=asked.address(base, first=max(first - ON_A_PAGE, 0)) if first else "",
        later_href=asked.address(base, first=last) if last < len(fit) else "",
        shown=message("Cooks {first} to {last} of {number}", first=first + 1, last=last, number=len(fit))
        if is_paged
        else "",
    )


def _at(line: CookLine, station: str) -> CookLine:
    """Return a line with one station's cell alone; on is then who stands there."""
    cells = tuple(cell for cell in line.cells if cell.station == station)
    return replace(line, cells=cells, on_tonight=cells[0].on_tonight if cells else "")


def _filter(name: str, lines: Sequence[CookLine], asked: BoardAsked, base: str, *, is_today: bool) -> Filter:
    number, is_set = sum(map(FITS[name], lines)), name in asked.show
    return Filter(_words(name, number, is_today=is_today), asked.address(base, show=asked.show ^ {name}), is_set)


def _words(name: str, number: int, *, is_today: bool) -> Message:
    """Return a filter's words."""
    if name == "on":
        return message("on tonight, {number}", number=number) if is_today else message("on, {number}", number=number)
    if name == "path":
        return message("on a path, {number}", number=number)
    if name == "cleared":
        return message("cleared, {number}", number=number)
    return message("ends in 30 days, {number}", number=number)
