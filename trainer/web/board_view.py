"""What the board says, worked out from clearances: one answer a station, one line a cook, one cell a pair."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import quote

from trainer.actions.roster import SITTING_WORDS
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Station
from trainer.recipe_math.saying import joined, say
from trainer.web.filters import MONTHS

WEEKDAYS = (
    say("Monday"), say("Tuesday"), say("Wednesday"), say("Thursday"), say("Friday"), say("Saturday"), say("Sunday"),
)  # fmt: skip
THIS_WEEK = timedelta(days=6)
TWO_MONTHS = timedelta(days=60)


@dataclass(frozen=True, slots=True)
class Shown:
    """The day the board shows, and how a cell's address is built: base, cook, station, then the question."""

    on: date
    base: str
    query: str


@dataclass(frozen=True, slots=True)
class Planned:
    """One cook planned at one station for one sitting of the day shown."""

    cook: str
    station: str
    sitting: str


@dataclass(frozen=True, slots=True)
class Cell:
    """One cook at one station: the state, its last good day when that day matters, and whether planned there."""

    cook: str
    station: str
    state: str
    until: str
    on_tonight: str
    is_cleared: bool
    href: str


@dataclass(frozen=True, slots=True)
class Line:
    """One cook across the stations, in the stations' sequence; `on_tonight` names the sittings planned."""

    cook: str
    name: str
    on_tonight: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a station's column says first: how many may run it, who ends when, who is on, and who is on but may not.

    Everybody is said in short names, as there is little room. `uncovered` says for which of lunch and dinner somebody
    is planned there, and nobody who is cleared.
    """

    station: str
    title: str
    nobody: bool
    text: str
    cleared: tuple[str, ...]
    on_tonight: tuple[str, ...]
    not_cleared_but_on: tuple[str, ...]
    uncovered: str


def lines_of(
    rows: Iterable[tuple[Person, Sequence[Clearance]]], planned: Sequence[Planned], shown: Shown
) -> tuple[Line, ...]:
    """Return one line a cook: those planned for the day first, then by name."""
    lines = [_line(cook, row, planned, shown) for cook, row in rows]
    return tuple(sorted(lines, key=lambda line: (not line.on_tonight, line.name.casefold())))


def answers_of(
    stations: Iterable[Station], lines: Sequence[Line], clearances: Iterable[Clearance], planned: Sequence[Planned] = ()
) -> tuple[Answer, ...]:
    """Return the answer of each station, in the stations' sequence."""
    ends: dict[str, list[date]] = {}
    on = None
    for clearance in clearances:
        on = clearance.on
        if clearance.is_cleared and clearance.state == "due again" and clearance.until:
            ends.setdefault(clearance.station, []).append(clearance.until)
    short = short_names(line.name for line in lines)
    return tuple(
        _answer(station, lines, short, _answer_text(lines, station, sorted(ends.get(station.id, [])), on), planned)
        for station in stations
    )


def short_names(names: Iterable[str]) -> dict[str, str]:
    """Return the first name of each full name; two who share one get the first letter of the last name too."""
    full = list(names)
    first = {name: name.split()[0] if name.split() else name for name in full}
    shared = list(first.values())
    return {
        name: word if shared.count(word) == 1 or len(name.split()) == 1 else f"{word} {name.split()[-1][0]}."
        for name, word in first.items()
    }


def wall_names(answer: Answer) -> str:
    """Return who stands at a station tonight, at most three; with nobody cleared planned there, who may."""
    names = answer.on_tonight or answer.cleared
    shown = ", ".join(names[:3])
    return shown if len(names) <= 3 else f"{shown} +{len(names) - 3}"


def when_words(day: date, on: date) -> str:
    """Return a coming day as the kitchen says it: ``today``, ``Friday`` within the week, else ``12 Dec``.

    The year is said when it is another one.
    """
    if day == on:
        return say("today")
    if on < day <= on + THIS_WEEK:
        return WEEKDAYS[day.weekday()]
    if day.year != on.year:
        return say("{day} {month} {year}", day=day.day, month=MONTHS[day.month - 1], year=day.year)
    return say("{day} {month}", day=day.day, month=MONTHS[day.month - 1])


def board_until(day: date, on: date) -> str:
    """Return a last good day as short as a cell allows: to the day for two months, then month and year."""
    if day <= on + TWO_MONTHS:
        return when_words(day, on)
    return say("{month} {year}", month=MONTHS[day.month - 1], year=day.year)


def _line(cook: Person, row: Sequence[Clearance], planned: Sequence[Planned], shown: Shown) -> Line:
    """Return one cook's line."""
    mine = [p for p in planned if p.cook == cook.id]
    cells = tuple(_cell(clearance, mine, shown) for clearance in row)
    return Line(cook=cook.id, name=cook.name, on_tonight=_sittings(mine), cells=cells)


def _cell(clearance: Clearance, mine: Sequence[Planned], shown: Shown) -> Cell:
    """Return one cell; the last good day of a clearance is said."""
    until = clearance.until if clearance.is_cleared else None
    return Cell(
        cook=clearance.cook,
        station=clearance.station,
        state=clearance.state,
        until=say("to {until}", until=board_until(until, shown.on)) if until else "",
        on_tonight=_sittings([p for p in mine if p.station == clearance.station]),
        is_cleared=clearance.is_cleared,
        href=f"{shown.base}/{quote(clearance.cook)}/{quote(clearance.station)}{shown.query}",
    )


def _sittings(planned: Iterable[Planned]) -> str:
    """Return the sittings planned, lunch before dinner, joined for reading."""
    told = [
        SITTING_WORDS.get(name, name) for name in sorted({p.sitting for p in planned}, key=lambda s: (s != "lunch", s))
    ]
    return say("{first} and {last}", first=joined(told[:-1], ", "), last=told[-1]) if len(told) > 1 else joined(told)


def _answer(
    station: Station, lines: Sequence[Line], short: Mapping[str, str], text: str, planned: Sequence[Planned]
) -> Answer:
    """Return one station's answer."""
    cells = [(short[line.name], cell) for line in lines for cell in line.cells if cell.station == station.id]
    cleared = tuple(name for name, cell in cells if cell.is_cleared)
    here = [p for p in planned if p.station == station.id]
    return Answer(
        station=station.id,
        title=station.title,
        nobody=not cleared,
        text=text,
        cleared=cleared,
        on_tonight=tuple(name for name, cell in cells if cell.is_cleared and cell.on_tonight),
        not_cleared_but_on=tuple(name for name, cell in cells if cell.on_tonight and not cell.is_cleared),
        uncovered=_uncovered(here, {cell.cook for _, cell in cells if cell.is_cleared}) if cleared else "",
    )


def _uncovered(planned: Sequence[Planned], cleared: Set[str]) -> str:
    """Return for which sittings a station has somebody planned and nobody cleared; empty where that is none."""
    covered = {p.sitting for p in planned if p.cook in cleared}
    bare = [p for p in planned if p.sitting not in covered]
    return say("No one cleared is on for {sittings}", sittings=_sittings(bare)) if bare else ""


def _answer_text(lines: Sequence[Line], station: Station, ends: Sequence[date], on: date | None) -> str:
    """Return ``3 cleared, 1 ends Friday``, or the words of the black band."""
    cleared = sum(cell.is_cleared for line in lines for cell in line.cells if cell.station == station.id)
    if not cleared:
        return say("No one cleared")
    text = say("{cleared} cleared", cleared=cleared)
    if not ends or on is None:
        return text
    first = when_words(ends[0], on)
    if len(ends) == 1:
        return say("{cleared} cleared, 1 ends {first}", cleared=cleared, first=first)
    return say("{cleared} cleared, {ending} end, first {first}", cleared=cleared, ending=len(ends), first=first)
