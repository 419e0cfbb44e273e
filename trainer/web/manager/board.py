"""Tonight's board, the same board on any past day, the wall, and the proof behind one cell."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import ClassVar, get_args
from urllib.parse import urlencode

from flask import Blueprint, Response, abort, current_app, request, url_for
from markupsafe import Markup

from trainer.actions.covering import ServiceCover, planned_on, service_to_show, services_of
from trainer.actions.open_kitchen import Board, Kitchen
from trainer.actions.two_people import waiting
from trainer.kitchen.clearance import Clearance, State, clearance_of
from trainer.kitchen.next_acts import NextAct, next_acts
from trainer.kitchen.planned import Planned
from trainer.kitchen.technique import Station
from trainer.messages import Text, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import clock_time, local, moment, weekday
from trainer.web.leaning_words import leaning_words
from trainer.web.manager.board_view import (
    BoardCell,
    CookLine,
    StationAnswer,
    answers_of,
    lines_of,
    short_names,
    wall_names,
)
from trainer.web.manager.cover_view import Band, Called, WallLine, bands, holds_words, no_hands, wall_lines
from trainer.web.manager.keeping import copy_warning
from trainer.web.manager.proof_acts import Act, acts_on
from trainer.web.manager.proof_view import Proven, known_words, proven
from trainer.web.page import Page, part, show
from trainer.web.path_words import path_lines

pages = Blueprint("board", __name__)
STATES: tuple[str, ...] = get_args(State)
WALL_LINES = 6
SHEETS_KEPT = 4


@dataclass(frozen=True, kw_only=True)
class BoardPage(Page):
    """Every cook at every station on one day; `sheet` is empty where nobody is on the roster."""

    template: ClassVar[str] = "board/board.html"
    heading: Text
    own_url: str
    day_typed: str
    day_problem: Text
    is_today: bool
    sheet: Markup
    last_seq: int
    head: Text
    as_of: Text
    day_words: Text
    has_standard: bool
    drafted: Text
    copy_warning: Text
    waits: Text


@dataclass(frozen=True, kw_only=True)
class Sheet(Page):
    """The board itself, the answers above it and the key below it."""

    template: ClassVar[str] = "board/sheet.html"
    bands: tuple[Band, ...]
    kept_away: tuple[Text, ...]
    learning: tuple[Text, ...]
    answers: tuple[StationAnswer, ...]
    lines: tuple[CookLine, ...]
    has_paths: bool
    states: tuple[str, ...] = STATES


@dataclass(frozen=True, slots=True)
class KeptSheet:
    """A sheet as rendered, and what it was made from: as long as that is the same, so is the sheet."""

    board: Board
    planned: tuple[Planned, ...]
    query: str
    html: Markup


@dataclass(frozen=True, slots=True)
class OtherService:
    """Another service of the day the wall shows, one press away."""

    words: Text
    href: str
    is_shown: bool


@dataclass(frozen=True, kw_only=True)
class WallPage(Page):
    """Six stations with the names that run them at the service that runs or comes next, read from across the room."""

    template: ClassVar[str] = "board/wall.html"
    heading: Text
    day_words: Text
    read_at: str
    own_url: str
    stations: tuple[WallLine, ...]
    foot: Text
    services: tuple[OtherService, ...]
    more_href: str
    more_words: Text


@dataclass(frozen=True, kw_only=True)
class ProofPage(Page):
    """Why a cell says what it says."""

    template: ClassVar[str] = "board/proof.html"
    back: str
    name: str
    station_title: str
    state: str
    on_words: Text
    until: Text
    known: tuple[Text, ...]
    next_acts: tuple[NextAct, ...]
    held: tuple[Proven, ...]
    in_full: bool
    in_full_url: str
    acts: tuple[Act, ...]


@dataclass(frozen=True, slots=True)
class DayAsked:
    """The day to show, as typed, and what is wrong with what was typed."""

    on: date
    typed: str
    problem: Text
    is_today: bool

    @property
    def link(self) -> str:
        """Return the day for an address: empty for today."""
        return "" if self.is_today else self.on.isoformat()


@pages.get("/board")
@guard.needs("manager")
def tonight() -> Response:
    """Show the board of today, or of the day asked for."""
    k = guard.kitchen()
    asked = day_asked()
    last, head = _head_of_book(k)
    words = weekday(asked.on)
    heading = message("Tonight's board") if asked.is_today else message("The board on {day}", day=words)
    return show(
        BoardPage(
            title=message("Error: {title}", title=heading) if asked.problem else heading,
            heading=heading,
            own_url=url_for("board.tonight"),
            day_typed=asked.typed,
            day_problem=asked.problem,
            is_today=asked.is_today,
            sheet=_sheet(k, k.board(asked.on), message("Cleared for each station, {words}", words=words)),
            last_seq=last,
            head=head,
            as_of=moment(guard.now()),
            day_words=words,
            has_standard=k.teaching is not None,
            drafted=_drafted(k),
            copy_warning=copy_warning(k, guard.now()),
            waits=_waits(k),
        ),
        status=400 if asked.problem else 200,
    )


def _waits(k: Kitchen) -> Text:
    """Return how many acts wait for a second manager or for their day; "" for none."""
    number = len(waiting(k))
    words = plural("{number} act waits for a second person.", "{number} acts wait for a second person.", number)
    return words if number else ""


def _drafted(k: Kitchen) -> Text:
    """Return what there is to publish: files somebody changed, or those that came with a newer program; "" if none."""
    drafted = k.teaching.drafted(k.texts_on(guard.today())) if k.teaching else None
    if not drafted or not drafted.paths:
        return ""
    if drafted.came_with_program:
        return plural(
            "{number} correction came with the program, not published.",
            "{number} corrections came with the program, not published.",
            len(drafted.paths),
        )
    return message("Changes are drafted, not published.")


@pages.get("/board/wall")
@guard.needs("device")
def wall() -> Response:
    """Show who stands where at the service that runs or comes next; with no plan, who is cleared for each station."""
    k, today, told = guard.kitchen(), guard.today(), reading.content()
    shown, services = service_to_show(k, today, local(guard.now()).time(), told)
    shown = next((one for one in services if one.service.id == request.args.get("service")), shown)
    stations = {station.id: station.title for station in told.stations.values()}
    lines = wall_lines(shown, stations, _called(k.board(shown.on))) if shown else _who_may(k.board(today))
    lines, more = _wall_page(lines, request.args.get("from", ""), shown.service.id if shown else "")
    return show(
        WallPage(
            title=message("The wall"),
            heading=shown.service.heading if shown else message("Cleared today"),
            day_words=weekday(shown.on if shown else today),
            read_at=clock_time(guard.now()),
            own_url=url_for("board.wall"),
            stations=lines,
            foot=_foot(k, shown) if shown else "",
            services=_other_services(services, shown),
            more_href=more,
            more_words=message("The other stations"),
        )
    )


@pages.get("/board/<cook>/<station>")
@guard.needs("manager")
def proof(cook: str, station: str) -> Response:
    """Show what one cook holds and misses at one station, with the entries that prove it."""
    k, asked = guard.kitchen(), day_asked()
    person, place = k.people().get(cook), _station_on(asked.on, station)
    if person is None or place is None:
        abort(404)
    found = clearance_of(person, place, k.progress(), reading.content(), asked.on)
    return show(
        ProofPage(
            title=message("{name} at {title}", name=person.name, title=place.title),
            back=url_for("board.tonight", on=asked.link or None),
            name=person.name,
            station_title=place.title,
            state=found.state,
            on_words=message("today") if asked.is_today else weekday(asked.on),
            until=_until_words(found),
            known=(*path_lines(found, naming_of(k)), *known_words(k, person, place, found)),
            next_acts=next_acts(found.missing),
            held=proven(found.held, k.file.book.find, naming_of(k), leaning_words(k)),
            in_full=bool(request.args.get("full")),
            in_full_url=url_for(".proof", cook=cook, station=station, on=asked.link or None, full="yes"),
            acts=acts_on(found, person),
        )
    )


def _station_on(on: date, station: str) -> Station | None:
    """Return a station that is taught now, or was by the standard of a day; None for any other."""
    then = guard.kitchen().progress().standards.content_on(on, reading.content()).stations
    return reading.content().stations.get(station) or then.get(station)


def day_asked() -> DayAsked:
    """Return the day of ``?on=``: today when none is typed, and today with the problem when it is no usable day."""
    today = guard.today()
    typed = request.args.get("on", "").strip()[:40]
    if not typed:
        return DayAsked(today, today.isoformat(), "", is_today=True)
    try:
        on = date.fromisoformat(typed)
    except ValueError:
        example = today.isoformat()
        return DayAsked(
            today,
            typed,
            message("“{typed}” is not a day. Write year, month, day, like {example}.", typed=typed, example=example),
            is_today=True,
        )
    if on > today:
        return DayAsked(
            today,
            typed,
            message("{on} is still to come. The board shows today or a day before it.", on=weekday(on)),
            is_today=True,
        )
    return DayAsked(on, typed, "", is_today=on == today)


def naming_of(k: Kitchen) -> Naming:
    """Return what turns this kitchen's ids into words."""
    return Naming(k.people(), reading.content())


def _sheet(k: Kitchen, board: Board, caption: Text) -> Markup:
    """Return the sheet of a board, rendered again only when the board or the planned shifts have changed."""
    if not board.rows:
        return Markup()
    sheets: dict[tuple[date, str], KeptSheet] = current_app.extensions.setdefault("sheets", {})
    key = (board.on, reading.now().language)
    planned, query = planned_on(k, board.on), _query(board.on)
    kept = sheets.get(key)
    if kept is None or kept.board is not board or (kept.planned, kept.query) != (planned, query):
        html = part(_sheet_of(board, services_of(k, board.on, reading.content()), planned, query, caption))
        kept = KeptSheet(board, planned, query, html)
        if len(sheets) >= SHEETS_KEPT:
            sheets.clear()
        sheets[key] = kept
    return kept.html


def _query(on: date) -> str:
    """Return what the addresses of a day's board end in: nothing for today."""
    return "" if on == guard.today() else f"?on={on}"


def _sheet_of(
    board: Board, services: tuple[ServiceCover, ...], planned: tuple[Planned, ...], query: str, caption: Text
) -> Sheet:
    """Return the board's lines and answers, and above them what is true of each service."""
    shown = BoardCell(board.on, url_for("board.tonight"), query)
    lines = lines_of(((row.cook, row.clearances) for row in board.rows), planned, shown)
    everything: Iterable[Clearance] = (clearance for row in board.rows for clearance in row.clearances)
    told = reading.content().stations
    return Sheet(
        title=caption,
        bands=bands(services, _called(board)),
        kept_away=no_hands(services, _called(board, in_full=True), "kept away"),
        learning=no_hands(services, _called(board, in_full=True), "learns"),
        answers=answers_of([told.get(station.id, station) for station in board.stations], lines, everything, services),
        lines=lines,
        has_paths=any(cell.path for line in lines for cell in line.cells),
    )


def _called(board: Board, *, in_full: bool = False) -> Called:
    """Return how everybody and every station is called: those on the board in short, unless *in_full*."""
    names = {name: person.name for name, person in guard.kitchen().people().items()}
    short = {} if in_full else short_names(row.cook.name for row in board.rows)
    told = {station.id: station.title for station in reading.content().stations.values()}
    return Called({who: short.get(name, name) for who, name in names.items()}, told)


def _foot(k: Kitchen, shown: ServiceCover) -> Text:
    """Return who moves, where a service holds, but not as planned; else nothing."""
    moves = shown.cover.holds and not shown.cover.holds_as_planned
    return holds_words(shown, _called(k.board(shown.on))) if moves else ""


def _head_of_book(k: Kitchen) -> tuple[int, Text]:
    """Return the last entry's number and the book's check value: printed, they are a witness outside the house."""
    head = k.file.book.head()
    return head.seq, head.short or message("none yet")


def _who_may(board: Board) -> tuple[WallLine, ...]:
    """Return the wall's lines of a day with no plan: who is cleared for each station."""
    sheet = _sheet_of(board, (), (), "", "")
    return tuple(
        WallLine(answer.title, message("No one cleared") if answer.nobody else wall_names(answer), is_gap=answer.nobody)
        for answer in sheet.answers
    )


def _other_services(services: tuple[ServiceCover, ...], shown: ServiceCover | None) -> tuple[OtherService, ...]:
    """Return the services of the day shown, where it has more than one."""
    if len(services) < 2:
        return ()
    return tuple(
        OtherService(one.service.heading, url_for("board.wall", service=one.service.id), one is shown)
        for one in services
    )


def _wall_page(lines: tuple[WallLine, ...], asked: str, service: str) -> tuple[tuple[WallLine, ...], str]:
    """Return the six lines from a place on, and the address of the next six; a gap stands on every page."""
    if len(lines) <= WALL_LINES:
        return lines, ""
    gaps = [line for line in lines if line.is_gap][: WALL_LINES - 1]
    others, room = [line for line in lines if line not in gaps], WALL_LINES - len(gaps)
    first = int(asked) if asked.isascii() and asked.isdigit() and int(asked[:6]) < len(others) else 0
    shown = [*gaps, *others[first : first + room]]
    following = str(first + room if first + room < len(others) else 0)
    asking = urlencode({"service": service, "from": following} if service else {"from": following})
    return tuple(line for line in lines if line in shown), f"{url_for('board.wall')}?{asking}"


def _until_words(found: Clearance) -> Text:
    """Return the last good day of a clearance, or the day a lapsed one ended on; empty where there is none."""
    if not found.until:
        return ""
    if found.state == "lapsed":
        return message("ended {until}", until=weekday(found.until))
    return message("to the end of {until}", until=weekday(found.until)) if found.is_cleared else ""
