"""Paths on pages: who goes for which station by when, opening one, closing one; a cook sees and opens their own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import TextAreaField

from trainer.actions import paths
from trainer.actions.outcome import Outcome, Refused
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.next_acts import next_acts
from trainer.kitchen.open_paths import (
    DECIDES,
    PathStanding,
    all_paths,
    may_end_path,
    paths_of,
    proposed_day,
    wishes,
    works_here,
)
from trainer.kitchen.spans import in_short
from trainer.messages import Text, message, plural
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.page import Page, go, show
from trainer.web.path_words import by_words, mentor_words, move_href
from trainer.web.typed_fields import AtMost, DayField, NeedsText, OneOfField

pages = Blueprint("paths", __name__, url_prefix="/paths")
NOBODY = "-"


class PathForm(KitchenForm):
    """Who goes for which station, by when, and who helps; a cook's own has no cook on it."""

    cook = OneOfField(message("Cook"))
    station = OneOfField(message("Station"))
    by_day = DayField(
        message("By which day"), [NeedsText(message("Write the day."))], description=message("Year, month, day.")
    )
    mentor = OneOfField(message("Mentor"), description=message("Who helps on the way there."))


class ClosingForm(KitchenForm):
    """How a path ends, and why."""

    outcome = OneOfField(message("How it ends"))
    reason = TextAreaField(
        message("Reason"), [AtMost(500)], description=message("It stays in the book. May be empty where it is reached.")
    )


@dataclass(frozen=True, slots=True)
class PathLine:
    """One open path: whose, where to, by when, how far; and where to go from here, "" where it is not the reader's."""

    heading: Text
    state: str
    by: Text
    is_late: bool
    mentor: Text
    missing: Text
    more: Text
    cell_href: str
    way_href: str
    move_href: str
    close_href: str
    agree_url: str


@dataclass(frozen=True, slots=True)
class WishLine:
    """What a cook said they want to learn, and where the reader agrees."""

    words: Text
    agree_url: str


@dataclass(frozen=True, slots=True)
class QuickPath:
    """A path that is opened in one tap: whose, to which station, and the words of the button with the day proposed."""

    cook: str
    station: str
    words: Text


@dataclass(frozen=True, slots=True)
class StationChoice:
    """A station one may say one wants: how much it asks for, and by which day one may well be ready."""

    station: str
    title: str
    asks: Text
    by: Text


@dataclass(frozen=True, kw_only=True)
class LearnPage(Page):
    """The stations a cook may say they want, each one tap."""

    template: ClassVar[str] = "paths/learn.html"
    choices: tuple[StationChoice, ...]
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class PathsPage(Page):
    """The open paths, the earliest day first."""

    template: ClassVar[str] = "paths/listed.html"
    paths: tuple[PathLine, ...]
    new_words: Text
    new_url: str
    back: str
    back_words: Text
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class PathPage(Page):
    """One path to open or to close: what it does, the fields, the button that does it."""

    template: ClassVar[str] = "paths/path.html"
    heading: Text
    lead: Text
    own_url: str
    words: Text
    form: KitchenForm


@pages.get("")
@guard.needs("person")
def listed() -> Response:
    """Show the open paths: everybody's to an assessor or a manager, to a cook their own."""
    return show(_listed(PlainForm()))


def _listed(form: PlainForm) -> PathsPage:
    day = _day()
    found, is_own = (all_paths(day), False) if _decides() else (paths_of(guard.person().id, day), True)
    home, words = _home()
    return PathsPage(
        title=message("My paths") if is_own else message("Who goes for which station"),
        paths=tuple(_line(one, day) for one in found),
        new_words=message("I want to learn a station") if is_own else message("Open a path"),
        new_url=url_for("paths.learn" if is_own else "paths.new"),
        back=home,
        back_words=words,
        form=form,
    )


@pages.get("/learn")
@guard.needs("cook")
def learn() -> Response:
    """Show the stations the reader may say they want, each one tap."""
    return show(_learn_page(PlainForm()))


def _learn_page(form: PlainForm) -> LearnPage:
    me, day = guard.person(), _day()
    found = ((one, day.clearance(me, one)) for one in day.rules.stations.values())
    names = reading.content().stations
    choices = tuple(
        StationChoice(
            station.id,
            names[station.id].title if station.id in names else station.id,
            plural("{number} technique", "{number} techniques", len(station.techniques)),
            weekday(proposed_day(clearance, station)),
        )
        for station, clearance in found
        if not clearance.is_cleared and clearance.path is None and clearance.state != "not allowed"
    )
    return LearnPage(title=message("I want to learn a station"), choices=choices, form=form)


@pages.post("/quick")
@guard.needs("person")
def quick() -> AnyResponse:
    """Open a path in one tap, to the day that is proposed; the cook is the reader, who decides may name another."""
    form, day, me = PlainForm(), _day(), guard.person().id
    cook, name = request.form.get("cook", "") or me, request.form.get("station", "")
    station = day.rules.stations.get(name)
    if station is None or cook not in day.people:
        abort(404, message("There is no station “{station}”.", station=name))
    if form.is_sent_right():
        by_day = proposed_day(day.clearance(day.people[cook], station), station)
        path = paths.NewPath(cook, name, by_day, mentor_of(cook))
        outcome = paths.start_path(guard.kitchen(), by=me, path=path, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go("cook.rail" if cook == me else ".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    return show(_learn_page(form)) if cook == me and "cook" in guard.roles() else show(_listed(form))


@pages.post("/<entry>/agree")
@guard.needs("assessor or manager")
def agree(entry: str) -> AnyResponse:
    """Agree to a path its cook opened: to the same day, as mentor where the reader assesses."""
    form, day = PlainForm(), _day()
    wish = next((one for one in wishes(day) if one.path.entry == entry), None)
    if wish is None:
        abort(404, message("That path is not open: it was closed, replaced or voided."))
    if form.is_sent_right():
        path = paths.NewPath(wish.cook, wish.path.station, wish.path.by_day, wish.path.mentor or mentor_of(wish.cook))
        outcome = paths.start_path(guard.kitchen(), by=guard.person().id, path=path, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    return show(_listed(form))


def quick_path(found: Clearance) -> QuickPath | None:
    """Return the path to a station that the reader may open for a cook in one tap; None where there is none to open."""
    day = _day()
    station = day.rules.stations.get(found.station)
    may = _decides() and station is not None and works_here(found.cook, day)
    if not may or station is None or found.is_cleared or found.path or found.state == "not allowed":
        return None
    words = message("Open a path, ready by {day}", day=in_short(proposed_day(found, station), with_year=True))
    return QuickPath(found.cook, found.station, words)


def mentor_of(cook: str) -> str:
    """Return the reader as the mentor of a cook they agree with, where they assess; nobody yet otherwise."""
    me = guard.person().id
    return me if "assessor" in guard.roles() and me != cook else ""


def wish_lines() -> tuple[WishLine, ...]:
    """Return what cooks said they want to learn, for who may agree; nothing for anybody else."""
    if not _decides():
        return ()
    day, naming = _day(), Naming(_day().people, reading.content())
    return tuple(
        WishLine(
            message(
                "{name} wants to learn {station}.", name=day.name(one.cook), station=naming.station(one.path.station)
            ),
            url_for("paths.agree", entry=one.path.entry),
        )
        for one in wishes(day)
        if one.cook != guard.person().id
    )


@pages.route("/new", methods=["GET", "POST"])
@guard.needs("person")
def new() -> AnyResponse:
    """Open a path, or give an open one another day or mentor."""
    day, form, is_own = _day(), _path_form(), not _decides()
    if is_own and not works_here(guard.person().id, day):
        abort(403, message("You work no station. An assessor or a manager opens paths for others."))
    _offer(form, day, is_own=is_own)
    if form.is_sent_right():
        outcome = _opened(form)
        if not isinstance(outcome, Refused):
            return go("cook.rail" if is_own else ".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    lead = message("A path says for which station a cook goes, and by when. It clears nobody: only sign-offs do.")
    heading = message("I want to learn a station") if is_own else message("Open a path")
    words = message("Go for it") if is_own else message("Open the path")
    return show(PathPage(title=heading, heading=heading, lead=lead, own_url=request.path, words=words, form=form))


@pages.route("/<entry>/close", methods=["GET", "POST"])
@guard.needs("person")
def close(entry: str) -> AnyResponse:
    """Close a path: reached, or dropped with a reason."""
    k, form, opened = guard.kitchen(), ClosingForm(), guard.kitchen().file.book.find(entry)
    if opened is None or opened.kind != "path_opened" or not (_decides() or opened.cook == guard.person().id):
        abort(404, message("There is no such path of yours."))
    form.outcome.offer({"reached": message("reached"), "dropped": message("dropped")})
    if form.is_sent_right():
        closing = paths.PathClosing(opened.cook, entry, form.outcome.data, form.reason.data or "")
        outcome = paths.close_path(k, by=guard.person().id, closing=closing, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".listed", saved=outcome.entry.id)
        form.refuse(outcome)
    naming = Naming(k.people(), reading.content())
    name, station = naming.person(opened.cook), naming.station(opened.body["station"])
    heading = message("Close the path of {name}: {station}", name=name, station=station)
    lead = message("Whoever is cleared has reached it anyway. Closing it takes it off the list; the record stays.")
    page = PathPage(
        title=heading, heading=heading, lead=lead, own_url=request.path, words=message("Close the path"), form=form
    )
    return show(page)


def _is_wish(one: PathStanding) -> bool:
    """Return whether nobody but the cook has said so."""
    return one.path.by == one.cook and one.state != "reached" and _decides()


def _day() -> Snapshot:
    return guard.kitchen().day(guard.today())


def _decides() -> bool:
    """Return whether the reader opens and closes anybody's paths."""
    return bool(DECIDES & guard.roles())


def _home() -> tuple[str, Text]:
    """Return where the list is come to from."""
    if "manager" in guard.roles():
        return url_for("board.tonight"), message("Back to the board")
    if "assessor" in guard.roles():
        return url_for("assessor.waiting"), message("Back to my desk")
    return (url_for("cook.rail"), message("Back to my page")) if "cook" in guard.roles() else ("", "")


def _path_form() -> PathForm:
    """Return the form, filled with the cook, station, day and mentor of the address."""
    asked = request.args
    return PathForm(
        cook=asked.get("cook", ""),
        station=asked.get("station", ""),
        by_day=asked.get("by_day", ""),
        mentor=asked.get("mentor") or NOBODY,
    )


def _offer(form: PathForm, day: Snapshot, *, is_own: bool) -> None:
    """Put cooks, stations and mentors on the lists."""
    names = {who: person.name for who, person in day.people.items() if day.is_on_roster(who)}
    form.station.offer({station.id: station.title for station in reading.content().stations.values()})
    form.mentor.offer({NOBODY: message("Nobody yet"), **names}, nothing="")
    if is_own:
        del form["cook"]
    else:
        form.cook.offer({who: name for who, name in names.items() if works_here(who, day)})


def _opened(form: PathForm) -> Outcome:
    """Return what came of the form."""
    if form.by_day.day is None:
        return Refused(message("Write the day."), field="by_day")
    me = guard.person().id
    mentor = "" if form.mentor.data == NOBODY else form.mentor.data
    path = paths.NewPath(form.cook.data if "cook" in form else me, form.station.data, form.by_day.day, mentor)
    return paths.start_path(guard.kitchen(), by=me, path=path, now=guard.now(), key=form.key.data)


def _way_href(one: PathStanding) -> str:
    if _decides():
        return url_for("way.of", station=one.path.station, cook=one.cook)
    return url_for("way.own", station=one.path.station)


def _line(one: PathStanding, day: Snapshot) -> PathLine:
    """Return a path as the list tells it."""
    naming, path, me = Naming(day.people, reading.content()), one.path, guard.person().id
    things = [thing for act in next_acts(one.clearance.missing) for thing in act.things]
    station, may = naming.station(path.station), may_end_path(me, one.cook, path, day).may
    to_cell = url_for("board.proof", cook=one.cook, station=path.station) if "manager" in guard.roles() else ""
    return PathLine(
        heading=station if one.cook == me else message("{name}: {station}", name=day.name(one.cook), station=station),
        state=one.clearance.state,
        by=by_words(one),
        is_late=one.state == "late",
        mentor=mentor_words(path.mentor, naming),
        missing=things[0] if things else "",
        more=plural("And {number} more.", "And {number} more.", len(things) - 1) if len(things) > 1 else "",
        cell_href=to_cell,
        way_href=_way_href(one),
        move_href=move_href(one.cook, path) if may else "",
        close_href=url_for("paths.close", entry=path.entry) if may else "",
        agree_url=url_for("paths.agree", entry=path.entry) if _is_wish(one) and me != one.cook else "",
    )
