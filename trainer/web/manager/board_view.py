"""What the board says, worked out from clearances: one answer a station, one line a cook, one cell a pair."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import quote

from trainer.actions.covering import ServiceCover
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.names import name_key
from trainer.kitchen.open_paths import path_standing
from trainer.kitchen.papers import PERSON_ERASED
from trainer.kitchen.planned import Planned
from trainer.kitchen.progress import Person
from trainer.kitchen.services import HouseServices, services_in_words
from trainer.kitchen.spans import SHORT_MONTHS, in_short
from trainer.kitchen.technique import Station
from trainer.messages import Text, joined, message
from trainer.web.path_words import short_words

WEEKDAYS = (
    message("Monday"), message("Tuesday"), message("Wednesday"), message("Thursday"),
    message("Friday"), message("Saturday"), message("Sunday"),
)  # fmt: skip
THIS_WEEK = timedelta(days=6)
TWO_MONTHS = timedelta(days=60)
SOON = timedelta(days=30)
MOST_NAMES = 8


@dataclass(frozen=True, slots=True)
class BoardCell:
    """The day the board shows, and how a cell's address is built: base, cook, station, then the question.

    `house` has the services by their words.
    """

    on: date
    base: str
    query: str
    house: HouseServices


@dataclass(frozen=True, slots=True)
class Cell:
    """One cook at one station: the state, its last good day when that day matters, and whether planned there.

    `due` says that it is known from before, and what is due again before that day comes near; `path` by when its cook
    goes for it; `ends_soon` that the clearance ends within 30 days. A blank cell says nothing to the eye: its cook
    neither goes for it nor stands there.
    """

    cook: str
    station: str
    state: str
    until: Text
    on_tonight: Text
    is_cleared: bool
    href: str
    due: Text = ""
    path: Text = ""
    is_blank: bool = False
    ends_soon: bool = False


@dataclass(frozen=True, slots=True)
class CookLine:
    """One cook across the stations, in the stations' sequence; `on_tonight` names the services planned."""

    cook: str
    name: str
    on_tonight: Text
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class OnAt:
    """Who stands at a station in one service; `when` is its name, or plainly that they are on where a day has one."""

    when: Text
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StationAnswer:
    """What a station's column says first: how many may run it, who ends when, who is on, and who is on but may not.

    Everybody is said in short names, as there is little room; `counts` says no name, for the head that stays.
    `on_tonight` has a line a service with who stands there, `gaps` a line for each kind of gap, with its services.
    """

    station: str
    title: str
    nobody: bool
    text: Text
    cleared: tuple[str, ...]
    on_tonight: tuple[OnAt, ...]
    not_cleared_but_on: tuple[str, ...]
    gaps: tuple[Text, ...]
    counts: Text = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Return who is cleared; of more than there is room for, the first few and how many more."""
        return self.cleared if len(self.cleared) <= MOST_NAMES else (wall_names(self),)


def lines_of(
    rows: Iterable[tuple[Person, Sequence[Clearance]]], planned: Sequence[Planned], shown: BoardCell
) -> tuple[CookLine, ...]:
    """Return one line a cook: those planned for the day first, then by name."""
    lines = [_line(cook, row, planned, shown) for cook, row in rows]
    return tuple(sorted(lines, key=lambda line: (not line.on_tonight, name_key(line.name))))


def answers_of(
    stations: Iterable[Station],
    lines: Sequence[CookLine],
    clearances: Iterable[Clearance],
    services: Sequence[ServiceCover] = (),
) -> tuple[StationAnswer, ...]:
    """Return the answer of each station, in the stations' sequence."""
    ends: dict[str, list[date]] = {}
    on = None
    for clearance in clearances:
        on = clearance.on
        if clearance.is_cleared and clearance.state == "due again" and clearance.until:
            ends.setdefault(clearance.station, []).append(clearance.until)
    short = short_names(line.name for line in lines)
    return tuple(
        _answer(station, lines, short, _answer_text(lines, station, sorted(ends.get(station.id, [])), on), services)
        for station in stations
    )


def short_names(names: Iterable[str]) -> dict[str, str]:
    """Return the first name of each full name; two who share one get the first letter of the last name too."""
    full = list(names)
    first = {name: name.split()[0] if name.split() and name != PERSON_ERASED else name for name in full}
    shared = list(first.values())
    return {
        name: word if shared.count(word) == 1 or len(name.split()) == 1 else f"{word} {name.split()[-1][0]}."
        for name, word in first.items()
    }


def wall_names(answer: StationAnswer) -> str:
    """Return who may run a station, at most three."""
    shown = ", ".join(answer.cleared[:3])
    return shown if len(answer.cleared) <= 3 else f"{shown} +{len(answer.cleared) - 3}"


def when_words(day: date, on: date) -> Text:
    """Return a coming day as the kitchen says it: ``today``, ``Friday`` within the week, else ``12 Dec``.

    The year is said when it is another one.
    """
    if day == on:
        return message("today")
    if on < day <= on + THIS_WEEK:
        return WEEKDAYS[day.weekday()]
    return in_short(day, with_year=day.year != on.year)


def board_until(day: date, on: date) -> Text:
    """Return a last good day as short as a cell allows: to the day for two months, then month and year."""
    if day <= on + TWO_MONTHS:
        return when_words(day, on)
    return message("{month} {year}", month=SHORT_MONTHS[day.month - 1], year=day.year)


def _line(cook: Person, row: Sequence[Clearance], planned: Sequence[Planned], shown: BoardCell) -> CookLine:
    """Return one cook's line."""
    mine = [p for p in planned if p.cook == cook.id]
    cells = tuple(_cell(clearance, mine, shown) for clearance in row)
    return CookLine(cook=cook.id, name=cook.name, on_tonight=_on_tonight(mine, shown), cells=cells)


def _cell(clearance: Clearance, mine: Sequence[Planned], shown: BoardCell) -> Cell:
    """Return one cell; the last good day of a clearance is said."""
    until = clearance.until if clearance.is_cleared else None
    on_tonight = _on_tonight((p for p in mine if p.station == clearance.station), shown)
    return Cell(
        cook=clearance.cook,
        station=clearance.station,
        state=clearance.state,
        until=message("to {until}", until=board_until(until, shown.on)) if until else "",
        on_tonight=on_tonight,
        is_cleared=clearance.is_cleared,
        href=f"{shown.base}/{quote(clearance.cook)}/{quote(clearance.station)}{shown.query}",
        path=_path(clearance),
        is_blank=clearance.blank and not on_tonight,
        due=joined(words for words in (_mark(clearance), clearance.due) if words),
        ends_soon=until is not None and until <= shown.on + SOON,
    )


def _on_tonight(mine: Iterable[Planned], shown: BoardCell) -> Text:
    """Return the services at which a cook is on, in the sequence of the day."""
    return services_in_words(shown.house.among(one.service for one in mine))


def _path(clearance: Clearance) -> Text:
    """Return by when the cook goes for the station; nothing once they are cleared."""
    standing = path_standing(clearance)
    return short_words(standing, clearance.on) if standing and standing.state != "reached" else ""


def _mark(clearance: Clearance) -> Text:
    """Return the mark of a clearance that nobody here has watched."""
    return message("Known, not watched.") if clearance.known and clearance.is_cleared else ""


def _answer(
    station: Station, lines: Sequence[CookLine], short: Mapping[str, str], text: Text, services: Sequence[ServiceCover]
) -> StationAnswer:
    """Return one station's answer."""
    cells = [(short[line.name], cell) for line in lines for cell in line.cells if cell.station == station.id]
    cleared = tuple(name for name, cell in cells if cell.is_cleared)
    called = {cell.cook: name for name, cell in cells}
    no_hand = {cook for found in services for cook in found.no_hands_at(station.id)}
    on = {cook for found in services for cook in found.standing_at(station.id)}
    return StationAnswer(
        station=station.id,
        title=station.title,
        nobody=not cleared,
        text=text,
        cleared=cleared,
        on_tonight=_on_at(station.id, services, called),
        not_cleared_but_on=tuple(name for cook, name in called.items() if cook in no_hand),
        gaps=_gaps(station.id, services) if cleared else (),
        counts=message("{cleared} can, {on} on", cleared=len(cleared), on=len(on)),
    )


def _on_at(station: str, services: Sequence[ServiceCover], called: Mapping[str, str]) -> tuple[OnAt, ...]:
    """Return who stands at a station, a line a service."""
    told = [
        OnAt(
            message("On:") if len(services) == 1 else message("{service}:", service=found.service.heading),
            tuple(called.get(cook, cook) for cook in found.standing_at(station)),
        )
        for found in services
    ]
    return tuple(one for one in told if one.names)


def _gaps(station: str, services: Sequence[ServiceCover]) -> tuple[Text, ...]:
    """Return at which services nobody on is cleared for a station, and at which its hand is needed elsewhere."""
    missing = [(found.service, one) for found in services if (one := found.cover.at(station)) and one.missing]
    no_one = [service for service, one in missing if one.has_no_one]
    short = [service for service, one in missing if not one.has_no_one]
    told = [message("No one cleared is on for {sittings}", sittings=services_in_words(no_one))] if no_one else []
    return (*told, *([message("A hand short at {services}", services=services_in_words(short))] if short else []))


def _answer_text(lines: Sequence[CookLine], station: Station, ends: Sequence[date], on: date | None) -> Text:
    """Return ``3 cleared, 1 ends Friday``, or the words of the black band."""
    cleared = sum(cell.is_cleared for line in lines for cell in line.cells if cell.station == station.id)
    if not cleared:
        return message("No one cleared")
    text = message("{cleared} cleared", cleared=cleared)
    if not ends or on is None:
        return text
    first = when_words(ends[0], on)
    if len(ends) == 1:
        return message("{cleared} cleared, 1 ends {first}", cleared=cleared, first=first)
    return message("{cleared} cleared, {ending} end, first {first}", cleared=cleared, ending=len(ends), first=first)
