"""Tonight's board, the same board on any other day, the wall, and the proof behind one cell."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import ClassVar, get_args
from urllib.parse import urlencode

from flask import Blueprint, Response, abort, current_app, request, url_for
from markupsafe import Markup

from trainer.actions.covering import ServiceCover, planned_on, service_after, service_to_show, services_of
from trainer.actions.open_kitchen import Board, Kitchen
from trainer.actions.swapping import in_charge_of
from trainer.actions.two_people import waiting
from trainer.kitchen.clearance import Clearance, State, clearance_of
from trainer.kitchen.next_acts import NextAct, next_acts
from trainer.kitchen.planned import Planned
from trainer.kitchen.spans import ONE_DAY
from trainer.kitchen.technique import Station
from trainer.messages import Text, message, plural
from trainer.web import guard, reading
from trainer.web.assessor.again_view import not_yet_words
from trainer.web.entry_words import Naming
from trainer.web.filters import clock_time, local, moment, weekday
from trainer.web.forms import PlainForm
from trainer.web.leaning_words import leaning_words
from trainer.web.manager.board_filters import BoardAsked, Chosen, asked_of, chosen
from trainer.web.manager.board_view import (
    BoardCell,
    CookLine,
    StationAnswer,
    answers_of,
    lines_of,
    wall_names,
)
from trainer.web.manager.cover_view import Band, Called, WallLine, bands, holds_words, no_hands, wall_lines, wall_page
from trainer.web.manager.first_hour import FirstHour, hour_under_way
from trainer.web.manager.keeping import copy_warning
from trainer.web.manager.proof_acts import Act, acts_of_assessor, acts_on
from trainer.web.manager.proof_view import Proven, known_words, proven
from trainer.web.night.told import OffLine, off_lines
from trainer.web.night.tonight import called_on, changed_lines
from trainer.web.page import Page, part, show
from trainer.web.path_words import path_lines
from trainer.web.paths import QuickPath, WishLine, quick_path, wish_lines

pages = Blueprint("board", __name__)
STATES: tuple[str, ...] = get_args(State)
TURNS_AFTER, READ_AFTER = 12, 60
"""Seconds to the wall's next page; to the same one, read again."""
SHEETS_KEPT = 12
MANY_STATIONS = 6
"""With more, a cell has no room for a day."""
NUMBERED = 8
"""With more, a printed head has a number, and its title stands below."""
DAYS_AHEAD = timedelta(days=366)


@dataclass(frozen=True, kw_only=True)
class BoardPage(Page):
    """Every cook at every station on one day; `sheet` is empty where nobody is on the roster."""

    template: ClassVar[str] = "board/board.html"
    heading: Text
    own_url: str
    day_typed: str
    day_problem: Text
    is_today: bool
    kept: tuple[tuple[str, str], ...]
    before_href: str
    after_href: str
    is_to_come: bool
    sheet: Markup
    last_seq: int
    head: Text
    as_of: Text
    day_words: Text
    has_standard: bool
    drafted: Text
    copy_warning: Text
    waits: Text
    not_held: Text
    changed: tuple[Text, ...]
    off: tuple[OffLine, ...]
    hour: FirstHour | None
    wishes: tuple[WishLine, ...]
    wish_form: PlainForm
    is_manager: bool


@dataclass(frozen=True, kw_only=True)
class Sheet(Page):
    """The board itself, the answers above it and the key below it."""

    template: ClassVar[str] = "board/sheet.html"
    bands: tuple[Band, ...]
    kept_away: tuple[Text, ...]
    learning: tuple[Text, ...]
    may_change: bool
    answers: tuple[StationAnswer, ...]
    chosen: Chosen
    stations: tuple[tuple[str, str], ...]
    base: str
    has_many: bool
    is_numbered: bool
    has_paths: bool
    states: tuple[str, ...] = STATES


@dataclass(frozen=True, slots=True)
class KeptSheet:
    """A sheet as rendered, and what it was made from: as long as that is the same, so is the sheet."""

    board: Board
    planned: tuple[Planned, ...]
    today: date
    html: Markup


@dataclass(frozen=True, slots=True)
class OtherService:
    """Another service of the day the wall shows, one press away."""

    words: Text
    href: str
    is_shown: bool


@dataclass(frozen=True, kw_only=True)
class WallPage(Page):
    """Six stations with the names that run them at the service that runs or comes next, read from across the room.

    Where there are more, `later` are those of the other pages, which `next_url` turns to after `seconds`; `hold_href`
    keeps the page that is shown, or lets it turn again where it `is_held`. Once round it is `own_url` again.
    """

    template: ClassVar[str] = "board/wall.html"
    heading: Text
    day_words: Text
    read_at: str
    own_url: str
    stations: tuple[WallLine, ...]
    later: tuple[WallLine, ...]
    foot: Text
    is_foot_gap: bool
    services: tuple[OtherService, ...]
    next_url: str
    seconds: int
    more_href: str
    hold_href: str
    is_held: bool


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
    quick: QuickPath | None
    form: PlainForm


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
@guard.needs("assessor or manager")
def tonight() -> Response:
    """Show the board of today, or of the day asked for."""
    k = guard.kitchen()
    asked = day_asked()
    last, head = _head_of_book(k)
    words, board = weekday(asked.on), k.board(asked.on)
    wanted = asked_of(request.args, asked.link, [station.id for station in board.stations])
    heading = message("Tonight's board") if asked.is_today else message("The board on {day}", day=words)
    return show(
        BoardPage(
            title=message("Error: {title}", title=heading) if asked.problem else heading,
            heading=heading,
            own_url=url_for("board.tonight"),
            day_typed=asked.typed,
            day_problem=asked.problem,
            is_today=asked.is_today,
            kept=wanted.kept(),
            before_href=_day_href(wanted, asked.on - ONE_DAY),
            after_href=_day_href(wanted, asked.on + ONE_DAY),
            is_to_come=asked.on > guard.today(),
            sheet=_sheet(k, board, wanted, message("Cleared for each station, {words}", words=words)),
            last_seq=last,
            head=head,
            as_of=moment(guard.now()),
            day_words=words,
            has_standard=k.teaching is not None,
            drafted=_drafted(k) if guard.is_manager() else "",
            copy_warning=copy_warning(k, guard.now()) if guard.is_manager() else "",
            waits=_waits(k) if guard.is_manager() else "",
            not_held=not_yet_words() if guard.is_manager() else "",
            changed=changed_lines(k, asked.on, _called(board)) if asked.is_today else (),
            off=off_lines(k) if asked.is_today else (),
            hour=hour_under_way() if asked.is_today else None,
            wishes=wish_lines() if asked.is_today else (),
            wish_form=PlainForm(is_fresh=True),
            is_manager=guard.is_manager(),
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
    k, today = guard.kitchen(), guard.today()
    shown, services = _on_the_wall(k)
    stations = {station.id: station.title for station in reading.content().stations.values()}
    lines = wall_lines(shown, stations, _called(k.board(shown.on))) if shown else _who_may(k.board(today))
    page = wall_page(lines, request.args.get("from", ""))
    turns, is_held = bool(page.others), "hold" in request.args
    asked = {"service": shown.service.id} if shown and request.args.get("service") else {}
    here, following = {**asked, "from": str(page.first)}, {**asked, "from": str(page.following)}
    held = {**here, "hold": "yes"}
    foot, is_gap = _foot(k, shown) if shown else ("", False)
    return show(
        WallPage(
            title=message("The wall"),
            heading=shown.service.heading if shown else message("Cleared today"),
            day_words=_hours_words(k, shown) if shown else weekday(today),
            read_at=clock_time(guard.now()),
            own_url=url_for("board.wall"),
            stations=page.lines,
            later=page.others,
            foot=foot,
            is_foot_gap=is_gap,
            services=_other_services(services, shown),
            next_url=_wall_url(held if is_held else following if page.following else {}),
            seconds=TURNS_AFTER if turns and not is_held else READ_AFTER,
            more_href=_wall_url(following) if turns else "",
            hold_href=_wall_url(here if is_held else held),
            is_held=is_held,
        )
    )


def _wall_url(asked: Mapping[str, str]) -> str:
    """Return the wall's address with what is asked for."""
    return f"{url_for('board.wall')}?{urlencode(asked)}" if asked else url_for("board.wall")


def _on_the_wall(k: Kitchen) -> tuple[ServiceCover | None, tuple[ServiceCover, ...]]:
    """Return the service asked for, that runs, or that comes next, and all of its day; None with no plan."""
    told, now = reading.content(), local(guard.now())
    shown, services = service_to_show(k, guard.today(), now, told)
    if shown and shown.closes <= now.replace(tzinfo=None):
        shown = service_after(k, shown, told) or shown
        services = services_of(k, shown.on, told)
    asked = next((one for one in services if one.service.id == request.args.get("service")), shown)
    return asked, services


@pages.get("/board/<cook>/<station>")
@guard.needs("assessor or manager")
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
            acts=acts_on(found, person) if guard.is_manager() else acts_of_assessor(found),
            quick=quick_path(found) if asked.is_today else None,
            form=PlainForm(is_fresh=True),
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
    if on > today + DAYS_AHEAD:
        last = weekday(today + DAYS_AHEAD)
        far = message("{on} is too far. The board shows every day to {last}.", on=weekday(on), last=last)
        return DayAsked(today, typed, far, is_today=True)
    return DayAsked(on, typed, "", is_today=on == today)


def naming_of(k: Kitchen) -> Naming:
    """Return what turns this kitchen's ids into words."""
    return Naming(k.people(), reading.content())


def _day_href(asked: BoardAsked, on: date) -> str:
    """Return the address of the same board on another day, with all that was asked for."""
    day = "" if on == guard.today() else on.isoformat()
    base = url_for("board.tonight")
    return replace(asked, first=0, on=day).address(base) if not asked.is_open else f"{base}?on={day}" if day else base


def _sheet(k: Kitchen, board: Board, asked: BoardAsked, caption: Text) -> Markup:
    """Return the sheet of a board, rendered again only when the board or the planned shifts have changed."""
    if not board.rows:
        return Markup()
    sheets: dict[tuple[str, BoardAsked, date], KeptSheet] = current_app.extensions.setdefault("sheets", {})
    key, today = (reading.now().language, asked, board.on), guard.today()
    kept, planned = sheets.get(key), planned_on(k, board.on)
    if kept is None or kept.board is not board or (kept.planned, kept.today) != (planned, today):
        html = part(_sheet_of(board, services_of(k, board.on, reading.content()), planned, asked, caption))
        kept = KeptSheet(board, planned, today, html)
        if len(sheets) >= SHEETS_KEPT:
            sheets.clear()
        sheets[key] = kept
    return kept.html


def _sheet_of(
    board: Board, services: tuple[ServiceCover, ...], planned: tuple[Planned, ...], asked: BoardAsked, caption: Text
) -> Sheet:
    """Return the lines asked for, an answer a station, and above them what is true of each service."""
    base = url_for("board.tonight")
    lines = _lines(board, planned, asked.on)
    answers, told = _answers(board, lines, services), reading.content().stations
    found = chosen(lines, asked, base, is_today=not asked.on)
    called, in_full = _called(board), _called(board, in_full=True)
    return Sheet(
        title=caption,
        bands=bands(services, called),
        kept_away=no_hands(services, in_full, "kept away"),
        learning=no_hands(services, in_full, "learns"),
        may_change=board.on >= guard.today(),
        answers=tuple(one for one in answers if asked.station in ("", one.station)),
        chosen=found,
        stations=tuple((station.id, told.get(station.id, station).title) for station in board.stations),
        base=base,
        has_many=not asked.station and len(board.stations) > MANY_STATIONS,
        is_numbered=not asked.station and len(board.stations) > NUMBERED,
        has_paths=any(cell.path for line in found.lines for cell in line.cells),
    )


def _lines(board: Board, planned: tuple[Planned, ...], on: str) -> tuple[CookLine, ...]:
    """Return a line a cook; *on* is the day as an address has it."""
    shown = BoardCell(board.on, url_for("board.tonight"), f"?on={on}" if on else "", guard.kitchen().services)
    return lines_of(((row.cook, row.clearances) for row in board.rows), planned, shown)


def _answers(
    board: Board, lines: tuple[CookLine, ...], services: tuple[ServiceCover, ...]
) -> tuple[StationAnswer, ...]:
    """Return the answer of each station, over everybody on the board."""
    everything: Iterable[Clearance] = (clearance for row in board.rows for clearance in row.clearances)
    told = reading.content().stations
    return answers_of([told.get(station.id, station) for station in board.stations], lines, everything, services)


def _called(board: Board, *, in_full: bool = False) -> Called:
    """Return how everybody and every station is called: those on the board in short, unless *in_full*."""
    return called_on(guard.kitchen(), board, in_full=in_full)


def _hours_words(k: Kitchen, shown: ServiceCover) -> Text:
    """Return the day of a service, its hours, from when it is to be where it has not begun, and who is in charge."""
    hours = {"day": weekday(shown.on), "opens": f"{shown.opens:%H:%M}", "closes": f"{shown.closes:%H:%M}"}
    is_next = shown.opens > local(guard.now()).replace(tzinfo=None)
    words = (
        message("Next: {day}, {opens} to {closes}", **hours)
        if is_next
        else message("{day}, {opens} to {closes}", **hours)
    )
    charge = in_charge_of(k, shown.on)
    if not charge:
        return words
    name = _called(k.board(shown.on)).cooks.get(charge, charge)
    return message("{hours}. In charge: {name}", hours=words, name=name)


def _foot(k: Kitchen, shown: ServiceCover) -> tuple[Text, bool]:
    """Return who moves, where a service holds, but not as planned; else the next service, and whether it has a gap."""
    if shown.cover.holds and not shown.cover.holds_as_planned:
        return holds_words(shown, _called(k.board(shown.on))), False
    coming = service_after(k, shown, reading.content())
    if coming is None:
        return "", False
    (band,) = bands([coming], _called(k.board(coming.on)))
    return message("Next, {day}: {words}", day=weekday(coming.on), words=band.words), band.is_black


def _head_of_book(k: Kitchen) -> tuple[int, Text]:
    """Return the last entry's number and the book's check value: printed, they are a witness outside the house."""
    head = k.file.book.head()
    return head.seq, head.short or message("none yet")


def _who_may(board: Board) -> tuple[WallLine, ...]:
    """Return the wall's lines of a day with no plan: who is cleared for each station."""
    return tuple(
        WallLine(answer.title, message("No one cleared") if answer.nobody else wall_names(answer), is_gap=answer.nobody)
        for answer in _answers(board, _lines(board, (), ""), ())
    )


def _other_services(services: tuple[ServiceCover, ...], shown: ServiceCover | None) -> tuple[OtherService, ...]:
    """Return the services of the day shown, where it has more than one."""
    if len(services) < 2:
        return ()
    return tuple(
        OtherService(one.service.heading, url_for("board.wall", service=one.service.id), one is shown)
        for one in services
    )


def _until_words(found: Clearance) -> Text:
    """Return the last good day of a clearance, or the day a lapsed one ended on; empty where there is none."""
    if not found.until:
        return ""
    if found.state == "lapsed":
        return message("ended {until}", until=weekday(found.until))
    return message("to the end of {until}", until=weekday(found.until)) if found.is_cleared else ""
