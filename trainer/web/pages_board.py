"""Tonight's board, the same board on any past day, the wall, and the proof behind one cell."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import ClassVar, get_args

from flask import Blueprint, Response, abort, current_app, request, url_for
from markupsafe import Markup

from trainer.actions.open_kitchen import Board, OpenKitchen
from trainer.kitchen.clearance import Clearance, State, clearance_of
from trainer.kitchen.next_acts import NextAct, next_acts
from trainer.kitchen.progress import Person
from trainer.recipe_math.saying import say
from trainer.web import guard, pages_acts, reading
from trainer.web.board_view import Answer, Line, Planned, Shown, answers_of, lines_of, wall_names
from trainer.web.entry_words import Naming
from trainer.web.filters import moment, weekday
from trainer.web.page import Page, part, show
from trainer.web.proof_view import Proven, proven

pages = Blueprint("board", __name__)
STATES: tuple[str, ...] = get_args(State)
WALL_LINES = 6
SHEETS_KEPT = 4


@dataclass(frozen=True, kw_only=True)
class BoardPage(Page):
    """Every cook at every station on one day; `sheet` is empty where nobody is on the roster."""

    template: ClassVar[str] = "board/board.html"
    heading: str
    own_url: str
    day_typed: str
    day_problem: str
    is_today: bool
    sheet: Markup
    last_seq: int
    head: str
    as_of: str
    day_words: str


@dataclass(frozen=True, kw_only=True)
class Sheet(Page):
    """The board itself, the answers above it and the key below it."""

    template: ClassVar[str] = "board/sheet.html"
    answers: tuple[Answer, ...]
    lines: tuple[Line, ...]
    states: tuple[str, ...] = STATES


@dataclass(frozen=True, slots=True)
class KeptSheet:
    """A sheet as rendered, and what it was made from: as long as that is the same, so is the sheet."""

    board: Board
    planned: tuple[Planned, ...]
    query: str
    html: Markup


@dataclass(frozen=True, slots=True)
class WallLine:
    """One station on the wall. `aside` says of the names that they are cleared and not planned here."""

    title: str
    aside: str
    names: str
    nobody: bool


@dataclass(frozen=True, kw_only=True)
class WallPage(Page):
    """Six stations with the names that may run them, to be read from across the room."""

    template: ClassVar[str] = "board/wall.html"
    heading: str
    stations: tuple[WallLine, ...]
    more_href: str
    more_words: str


@dataclass(frozen=True, slots=True)
class Act:
    """Something the reader may do next from here."""

    words: str
    href: str


@dataclass(frozen=True, kw_only=True)
class ProofPage(Page):
    """Why a cell says what it says."""

    template: ClassVar[str] = "board/proof.html"
    back: str
    name: str
    station_title: str
    state: str
    on_words: str
    until: str
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
    problem: str
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
    heading = say("Tonight's board") if asked.is_today else say("The board on {day}", day=words)
    return show(
        BoardPage(
            title=say("Error: {title}", title=heading) if asked.problem else heading,
            heading=heading,
            own_url=url_for("board.tonight"),
            day_typed=asked.typed,
            day_problem=asked.problem,
            is_today=asked.is_today,
            sheet=_sheet(k, k.board(asked.on), say("Cleared for each station, {words}", words=words)),
            last_seq=last,
            head=head,
            as_of=moment(guard.now()),
            day_words=words,
        ),
        status=400 if asked.problem else 200,
    )


@pages.get("/board/wall")
@guard.needs("device")
def wall() -> Response:
    """Show six stations at a time in letters for the wall."""
    k = guard.kitchen()
    today = guard.today()
    planned = planned_on(k, today)
    _, answers = _board_words(k.board(today), planned, "")
    shown, more = _wall_page(answers, request.args.get("from", ""))
    return show(
        WallPage(
            title=say("The wall"),
            heading=weekday(today),
            stations=tuple(_wall_line(one, somebody_planned=bool(planned)) for one in shown),
            more_href=more,
            more_words=say("The other stations"),
        )
    )


@pages.get("/board/<cook>/<station>")
@guard.needs("manager")
def proof(cook: str, station: str) -> Response:
    """Show what one cook holds and misses at one station, with the entries that prove it."""
    k = guard.kitchen()
    person, place = k.people().get(cook), reading.content().stations.get(station)
    if person is None or place is None:
        abort(404)
    asked = day_asked()
    found = clearance_of(person, place, k.progress(), reading.content(), asked.on)
    return show(
        ProofPage(
            title=say("{name} at {title}", name=person.name, title=place.title),
            back=url_for("board.tonight", on=asked.link or None),
            name=person.name,
            station_title=place.title,
            state=found.state,
            on_words=say("today") if asked.is_today else weekday(asked.on),
            until=_until_words(found),
            next_acts=next_acts(found.missing),
            held=proven(found.held, k.file.book.find, naming_of(k)),
            in_full=bool(request.args.get("full")),
            in_full_url=url_for(".proof", cook=cook, station=station, on=asked.link or None, full="yes"),
            acts=_acts(found, person),
        )
    )


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
            say("“{typed}” is not a day. Write year, month, day, like {example}.", typed=typed, example=example),
            is_today=True,
        )
    if on > today:
        return DayAsked(
            today,
            typed,
            say("{on} is still to come. The board shows today or a day before it.", on=weekday(on)),
            is_today=True,
        )
    return DayAsked(on, typed, "", is_today=on == today)


def naming_of(k: OpenKitchen) -> Naming:
    """Return what turns this kitchen's ids into words."""
    return Naming(k.people(), reading.content())


def planned_on(k: OpenKitchen, on: date) -> tuple[Planned, ...]:
    """Return who is planned where on a day."""
    return tuple(Planned(shift.cook, shift.station, shift.sitting) for shift in k.file.shifts.on(on))


def _sheet(k: OpenKitchen, board: Board, caption: str) -> Markup:
    """Return the sheet of a board, rendered anew only when the board or the planned shifts have changed."""
    if not board.rows:
        return Markup()
    sheets: dict[tuple[date, str], KeptSheet] = current_app.extensions.setdefault("sheets", {})
    key = (board.on, reading.now().language)
    planned, query = planned_on(k, board.on), _query(board.on)
    kept = sheets.get(key)
    if kept is None or kept.board is not board or (kept.planned, kept.query) != (planned, query):
        lines, answers = _board_words(board, planned, query)
        kept = KeptSheet(board, planned, query, part(Sheet(title=caption, answers=answers, lines=lines)))
        if len(sheets) >= SHEETS_KEPT:
            sheets.clear()
        sheets[key] = kept
    return kept.html


def _query(on: date) -> str:
    """Return what the addresses of a day's board end in: nothing for today."""
    return "" if on == guard.today() else f"?on={on}"


def _board_words(board: Board, planned: tuple[Planned, ...], query: str) -> tuple[tuple[Line, ...], tuple[Answer, ...]]:
    """Return the board's lines and its answers."""
    shown = Shown(board.on, url_for("board.tonight"), query)
    lines = lines_of(((row.cook, row.clearances) for row in board.rows), planned, shown)
    everything: Iterable[Clearance] = (clearance for row in board.rows for clearance in row.clearances)
    told = reading.content().stations
    return lines, answers_of([told[station.id] for station in board.stations], lines, everything, planned)


def _head_of_book(k: OpenKitchen) -> tuple[int, str]:
    """Return the last entry's number and the first signs of its hash: printed, they are a witness outside the house."""
    last, head = k.file.book.end()
    return last, head[:12] if last else say("none yet")


def _wall_line(answer: Answer, *, somebody_planned: bool) -> WallLine:
    """Return one station on the wall; on a day with a plan, who is not planned there is not taken for who is."""
    is_aside = somebody_planned and not answer.on_tonight and not answer.nobody
    aside = say("cleared, not planned here") if is_aside else ""
    return WallLine(answer.title, aside, wall_names(answer), answer.nobody)


def _wall_page(answers: tuple[Answer, ...], asked: str) -> tuple[tuple[Answer, ...], str]:
    """Return the six answers from a place on, and the address of the next six, if there are more than six."""
    first = int(asked) if asked.isascii() and asked.isdigit() and int(asked[:6]) < len(answers) else 0
    shown = answers[first : first + WALL_LINES]
    if len(answers) <= WALL_LINES:
        return shown, ""
    following = first + WALL_LINES if first + WALL_LINES < len(answers) else 0
    return shown, f"{url_for('board.wall')}?from={following}"


def _until_words(found: Clearance) -> str:
    """Return the last good day of a clearance, or the day a lapsed one ended on; empty where there is none."""
    if not found.until:
        return ""
    if found.state == "lapsed":
        return say("ended {until}", until=weekday(found.until))
    return say("to the end of {until}", until=weekday(found.until)) if found.is_cleared else ""


def _acts(found: Clearance, who: Person) -> tuple[Act, ...]:
    """Return what a manager may do about this cell: whoever is off the station is put back by what took them off."""
    cook, station, missing = found.cook, found.station, {one.what for one in found.missing}
    standing = (
        Act(say("Put back on this station"), url_for("manager.acts.put_back", cook=cook, station=station))
        if "stood down" in missing
        else Act(say("Stand down from this station"), url_for("manager.acts.stand_down", cook=cook, station=station))
    )
    releases = tuple(
        Act(say("Release the stop"), url_for("manager.acts.release_stop", cook=cook, stop=line.entry))
        for line, _ in pages_acts.stops_in_words(who, reading.content())
        if f"stopped:{line.technique}" in missing and cook != guard.person().id
    )
    paper = Act(say("Write down a certificate"), url_for("manager.acts.certificate", cook=cook))
    return (*releases, standing, paper)
