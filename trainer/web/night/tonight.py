"""Tonight as a sous chef and a manager see it first: the line, who is in charge, what was changed, who could stand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from flask import request, url_for

from trainer.actions.covering import ServiceCover, places_to_take, service_after, service_to_show, services_of
from trainer.actions.open_kitchen import Board, Kitchen
from trainer.actions.swapping import changes_of, in_charge_of
from trainer.kitchen.planned import Judged
from trainer.kitchen.spans import with_weekday
from trainer.kitchen.technique import Content
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.filters import clock_time, local
from trainer.web.manager.board_view import short_names, when_words
from trainer.web.manager.cover_view import Called
from trainer.web.night.line_view import LineBand, LineRow, band_of, notes_of, rows_as_planned, swap_lines

MOST_NAMES = 3


@dataclass(frozen=True, slots=True)
class OtherService:
    """Another service one press away."""

    words: Text
    href: str


@dataclass(frozen=True, slots=True)
class Tonight:
    """The line of one service; with no plan, who could stand where: `is_plan` says which.

    `swaps` are the least changes that make it hold, and `swaps_href` the page that makes them.
    """

    heading: Text
    charge: Text
    band: LineBand | None
    rows: tuple[LineRow, ...]
    notes: tuple[Text, ...]
    swaps: tuple[Text, ...]
    swaps_href: str
    swaps_words: Text
    changed: tuple[Text, ...]
    others: tuple[OtherService, ...]
    is_plan: bool = True


def shown_service(k: Kitchen) -> ServiceCover | None:
    """Return the service asked for in the address, else the one that runs or comes next."""
    day, _, service = request.args.get("at", "")[:40].partition(":")
    try:
        asked = services_of(k, date.fromisoformat(day), reading.content()) if day else ()
    except ValueError:
        asked = ()
    found = next((one for one in asked if one.service.id == service and one.on >= guard.today()), None)
    return found or service_to_show(k, guard.today(), local(guard.now()), reading.content())[0]


def called_on(k: Kitchen, board: Board, *, in_full: bool = False) -> Called:
    """Return how everybody and every station is called: those on the board in short, unless *in_full*."""
    names = {name: person.name for name, person in k.people().items()}
    short = {} if in_full else short_names(row.cook.name for row in board.rows)
    told = {station.id: station.title for station in reading.content().stations.values()}
    return Called({who: short.get(name, name) for who, name in names.items()}, told)


def tonight(k: Kitchen) -> Tonight:
    """Return the line of the service asked for, or of the one that runs or comes next."""
    found = shown_service(k)
    if found is None:
        return _who_could(k)
    board = k.board(found.on)
    called, ends = called_on(k, board), _ends(board)
    swaps = swap_lines(found, called, lambda cook, station: ends.get((cook, station)), _day(found.on))
    words = (
        plural("See {number} swap", "See {number} swaps", found.cover.swaps)
        if found.cover.swaps
        else message("See the move")
    )
    href = url_for("swaps.swaps", day=found.on.isoformat(), service=found.service.id) if swaps else ""
    return Tonight(
        heading=message("{service}, {day}", service=found.service.heading, day=with_weekday(found.on, with_year=False)),
        charge=_charge(k, found, called),
        band=band_of(found),
        rows=rows_as_planned(found, called),
        notes=notes_of(found, called),
        swaps=swaps,
        swaps_href=href,
        swaps_words=words,
        changed=changed_lines(k, found.on, called),
        others=_others(k, found),
    )


def changed_lines(k: Kitchen, day: date, called: Called) -> tuple[Text, ...]:
    """Return what was changed of a day's line, by whom and when: the latest first."""
    return tuple(
        message(
            "{service}: {moves}. Changed by {name}, {time}.",
            service=k.services.word(service),
            moves=joined(
                [
                    message(
                        "{cook} to {station}", cook=called.everybody([one.cook]), station=called.places([one.stands])
                    )
                    for one in change.moved
                    if one.service == service
                ],
                ", ",
            ),
            name=called.cooks.get(change.by, change.by),
            time=clock_time(entry.at),
        )
        for change in changes_of(k, day)
        if (entry := k.file.book.find(change.entry)) is not None
        for service in dict.fromkeys(one.service for one in change.moved)
    )


def my_moves(k: Kitchen, cook: str, day: date) -> tuple[Text, ...]:
    """Return to a cook where they stand today instead of where they were planned, and who changed it."""
    people, told = k.people(), reading.content().stations
    found = []
    seen: set[str] = set()
    for change in changes_of(k, day):
        for one in change.moved:
            if one.cook == cook and one.service not in seen:
                seen.add(one.service)
                by = people.get(change.by)
                stands, planned = (told[s].title if s in told else s for s in (one.stands, one.planned))
                found.append(
                    message(
                        "{service} today: you stand at {station}, not {planned}. {name} changed it.",
                        service=k.services.word(one.service),
                        station=stands,
                        planned=planned,
                        name=by.name if by else change.by,
                    )
                )
    return tuple(found)


def my_places(k: Kitchen, cook: str, day: date) -> tuple[Text, ...]:
    """Return to a cook which station they take at each service of today that is to come; why not, where they may not.

    A service in which somebody moved them is left out: `my_moves` tells of it.
    """
    content = reading.content()
    moved = {one.service for change in changes_of(k, day) for one in change.moved if one.cook == cook}
    places = places_to_take(k, cook, day, local(guard.now()), content)
    return tuple(_my_place(one, content) for one in places if one.planned.service not in moved)


def _my_place(one: Judged, content: Content) -> Text:
    known, service = content.stations.get(one.planned.station), guard.kitchen().services.heading(one.planned.service)
    station = known.title if known else one.planned.station
    if one.verdict == "may stand":
        return message("{service} today: you take {station}.", service=service, station=station)
    if one.verdict == "learns":
        return message("{service} today: you are beside a cleared cook at {station}.", service=service, station=station)
    words = message("{service} today: you are planned at {station}.", service=service, station=station)
    return joined([words, one.reason])


def _charge(k: Kitchen, found: ServiceCover, called: Called) -> Text:
    """Return who is in charge."""
    who = in_charge_of(k, found.on)
    if who == guard.person().id:
        return message("You are in charge.")
    return message("In charge: {name}.", name=called.cooks.get(who, who)) if who else ""


def _day(on: date) -> Callable[[date], Text]:
    return lambda last: when_words(last, on)


def _ends(board: Board) -> dict[tuple[str, str], date | None]:
    """Return the last good day of everybody cleared, where there is one."""
    return {(row.cook.id, one.station): one.until for row in board.rows for one in row.clearances if one.is_cleared}


def _others(k: Kitchen, found: ServiceCover) -> tuple[OtherService, ...]:
    """Return the service after the one shown, and, where another is shown, the way back."""
    coming = service_after(k, found, reading.content())
    back = [OtherService(message("Now"), url_for("assessor.waiting"))] if request.args.get("at") else []
    return (
        *back,
        *(
            OtherService(
                message("{service}, {day}", service=one.service.heading, day=when_words(one.on, guard.today())),
                url_for("assessor.waiting", at=f"{one.on}:{one.service.id}"),
            )
            for one in filter(None, [coming])
        ),
    )


def _who_could(k: Kitchen) -> Tonight:
    """Return who could stand where, with no plan in the coming days."""
    board = k.board(guard.today())
    called = called_on(k, board)
    rows = []
    for station in board.stations:
        cleared = [
            row.cook.id for row in board.rows for one in row.clearances if one.station == station.id and one.is_cleared
        ]
        title = called.stations.get(station.id, station.title)
        if not cleared:
            rows.append(LineRow(title, message("No one cleared"), is_gap=True))
        else:
            names = joined([called.cooks[cook] for cook in cleared[:MOST_NAMES]], ", ")
            rows.append(
                LineRow(
                    title,
                    message("{cleared} cleared", cleared=len(cleared)),
                    names if len(cleared) <= MOST_NAMES else "",
                )
            )
    return Tonight(
        heading=message("Today, {day}", day=with_weekday(guard.today(), with_year=False)),
        charge="",
        band=None,
        rows=tuple(rows),
        notes=(message("No plan is written. This is who could stand where; who is off a station is left out."),),
        swaps=(),
        swaps_href="",
        swaps_words="",
        changed=(),
        others=(),
        is_plan=False,
    )
