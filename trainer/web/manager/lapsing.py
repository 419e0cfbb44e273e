"""What lapses in 30, 60 or 90 days, by person, technique or station, with the practical that could be booked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import ClassVar

from flask import Blueprint, Response, request, url_for

from trainer.actions.desk import coming_shifts
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.entitlement import Snapshot, who_may_sign
from trainer.kitchen.lapses import Booking, Lapse, booking_for, lapses_by, lapses_together
from trainer.kitchen.names import name_key
from trainer.kitchen.planned import LOOK_AHEAD
from trainer.messages import Message, Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import local, weekday
from trainer.web.page import Page, show

pages = Blueprint("lapsing", __name__)
PERIODS = (30, 60, 90)
GROUPED_BY: Mapping[str, Message] = {
    "person": message("by person"),
    "technique": message("by technique"),
    "station": message("by station"),
}
ENDS: Mapping[str, Message] = {
    "practical": message("Practicals"),
    "quiz": message("Questions"),
    "reading": message("Reading"),
}
"""What ends of a technique, in the sequence it is told in."""
OTHER = message("Papers, practice and what else")


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to look at the list, one press away."""

    words: Text
    href: str
    is_set: bool


@dataclass(frozen=True, slots=True)
class BookingLine:
    """When practicals could be watched, in words; `is_open` where no shift was found."""

    words: Text
    is_open: bool


@dataclass(frozen=True, slots=True)
class LapseLine:
    """What ends for one cook on one day: its last good day, each thing, the stations that go with them.

    `bookings` say when the practicals among them could be watched.
    """

    until: Text
    name: str
    href: str
    words: tuple[Text, ...]
    stations: Text
    bookings: tuple[BookingLine, ...]


@dataclass(frozen=True, slots=True)
class LapseGroup:
    """The lapses of one person, technique or station, the nearest first; of a person, `href` leads to their page."""

    title: Text
    lines: tuple[LapseLine, ...]
    href: str = ""


@dataclass(frozen=True, kw_only=True)
class LapsesPage(Page):
    """Everything that ends in the days asked for, in one sentence and in groups."""

    template: ClassVar[str] = "manager/lapses.html"
    told: Text
    periods: tuple[Choice, ...]
    ways: tuple[Choice, ...]
    groups: tuple[LapseGroup, ...]


@pages.get("/lapses")
@guard.needs("manager")
def lapses() -> Response:
    """Show what ends within the days asked for: 30, 60 or 90, in one of three groupings."""
    k, today = guard.kitchen(), guard.today()
    days = next((one for one in PERIODS if request.args.get("days") == str(one)), PERIODS[0])
    by = request.args.get("by", "")
    by = by if by in GROUPED_BY else "person"
    clearances = [found for row in k.board(today).rows for found in row.clearances]
    within = {each: lapses_by(clearances, today + timedelta(days=each)) for each in PERIODS}
    found = within[days]
    return show(
        LapsesPage(
            title=message("What lapses"),
            told=_in_short(found, days),
            periods=tuple(
                Choice(
                    message("in {days} days, {number}", days=each, number=len(within[each])),
                    url_for(".lapses", days=each, by=by),
                    each == days,
                )
                for each in PERIODS
            ),
            ways=tuple(
                Choice(words, url_for(".lapses", days=days, by=way), way == by) for way, words in GROUPED_BY.items()
            ),
            groups=_groups(k, found, by),
        )
    )


def _in_short(found: Sequence[Lapse], days: int) -> Text:
    """Return how many things end, and for how many cooks."""
    if not found:
        return message("Nothing ends in the coming {days} days.", days=days)
    cooks = plural("{number} cook", "{number} cooks", len({one.cook for one in found}))
    return plural(
        "{number} thing ends in the coming {days} days, for {cooks}.",
        "{number} things end in the coming {days} days, for {cooks}.",
        len(found),
        days=days,
        cooks=cooks,
    )


def _groups(k: Kitchen, found: Sequence[Lapse], by: str) -> tuple[LapseGroup, ...]:
    """Return the lapses in groups: people by name, techniques by title with all else last, stations in their order."""
    naming, content = Naming(k.people(), reading.content()), reading.content()
    today = replace(k.day(guard.today()), content=content)
    line = _line_of(k, today, naming)
    if by == "station":
        order = [*content.stations, *(name for one in found for name in one.stations)]
        return _grouped(found, line, [(name, naming.station(name)) for name in dict.fromkeys(order)], _stations)
    if by == "technique":
        named = {one.technique: naming.technique(one.technique) for one in found if one.technique}
        order = sorted(named, key=lambda name: name_key(named[name]))
        return _grouped(found, line, [*((name, named[name]) for name in order), ("", OTHER)], _technique)
    people = {one.cook: today.name(one.cook) for one in found}
    order = sorted(people, key=lambda cook: name_key(people[cook]))
    grouped = _grouped(found, line, [(cook, people[cook]) for cook in order], lambda one: (one.cook,))
    return tuple(replace(group, href=group.lines[0].href) for group in grouped)


def _stations(one: Lapse) -> tuple[str, ...]:
    return one.stations


def _technique(one: Lapse) -> tuple[str, ...]:
    return (one.technique,)


def _grouped(
    found: Sequence[Lapse],
    line: Callable[[Sequence[Lapse]], LapseLine],
    groups: Iterable[tuple[str, Text]],
    of: Callable[[Lapse], Iterable[str]],
) -> tuple[LapseGroup, ...]:
    """Return the groups that have lapses, in the sequence given."""
    filled = ((title, lapses_together(one for one in found if name in of(one))) for name, title in groups)
    return tuple(LapseGroup(title, tuple(map(line, together))) for title, together in filled if together)


def _line_of(k: Kitchen, today: Snapshot, naming: Naming) -> Callable[[Sequence[Lapse]], LapseLine]:
    """Return what tells lapses of one cook and day, who works when being looked up once for all of them."""
    now = local(guard.now()).replace(tzinfo=None)
    shifts = coming_shifts(k, now)

    def booked(one: Lapse) -> BookingLine:
        signers = who_may_sign(one.cook, today.rules.stations_asking_for(one.technique), today, one.technique)
        found = booking_for(one, shifts, signers, now)
        return BookingLine(_booking_words(found, signers, today), is_open=found is None)

    def line(together: Sequence[Lapse]) -> LapseLine:
        first, stations = together[0], dict.fromkeys(name for one in together for name in one.stations)
        return LapseLine(
            until=weekday(first.until),
            name=today.name(first.cook),
            href=url_for("manager.person", cook=first.cook),
            words=_things(together, naming),
            stations=joined([naming.station(station) for station in stations], ", "),
            bookings=_bookings({one: booked(one) for one in together if one.is_practical}, naming),
        )

    return line


def _things(together: Sequence[Lapse], naming: Naming) -> tuple[Text, ...]:
    """Return what ends, each kind with the techniques it ends for; what is of no technique as it is held."""
    kinds = {kind: [one for one in together if one.what.startswith(f"{kind}:")] for kind in ENDS}
    told = (message("{kind}: {names}.", kind=ENDS[kind], names=_names(of, naming)) for kind, of in kinds.items() if of)
    return (*told, *(one.held.text for one in together if not one.technique))


def _names(lapses: Iterable[Lapse], naming: Naming) -> Text:
    return joined([naming.technique(one.technique) for one in lapses], ", ")


def _bookings(booked: Mapping[Lapse, BookingLine], naming: Naming) -> tuple[BookingLine, ...]:
    """Return each answer once; with the techniques it is for, where there are several answers."""
    alike: dict[BookingLine, list[Lapse]] = {}
    for one, answer in booked.items():
        alike.setdefault(answer, []).append(one)
    if len(alike) < 2:
        return tuple(alike)
    return tuple(
        replace(answer, words=message("{names}: {words}", names=_names(of, naming), words=answer.words))
        for answer, of in alike.items()
    )


def _booking_words(found: Booking | None, signers: Sequence[str], today: Snapshot) -> Text:
    """Return on which shift a practical could be watched and by whom; else who may sign."""
    if found is None:
        return _nobody_together([today.name(who) for who in signers])
    day, time = weekday(found.opens.date()), f"{found.opens:%H:%M}"
    name = today.name(found.by)
    words = message("Watch it on {day}, before {time}: {name} is on too and may sign.", day=day, time=time, name=name)
    return joined([words, message("That is after its last good day.")]) if found.is_late else words


def _nobody_together(signers: Sequence[str]) -> Text:
    """Return that no shift has both, and who may sign."""
    if not signers:
        return message("Nobody may sign it today. Give somebody the authority first.")
    names, days = ", ".join(sorted(signers, key=name_key)), LOOK_AHEAD.days
    return message("No shift together in the coming {days} days. May sign: {names}.", days=days, names=names)
