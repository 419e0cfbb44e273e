"""A cook's way to a station on a page: drawn over time, and each thing done or to come with its day in words beside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, abort, url_for
from markupsafe import Markup

from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.progress import Person
from trainer.kitchen.requirements import Missing
from trainer.kitchen.spans import ALWAYS, NO_END, Span, in_short
from trainer.kitchen.way import TechniqueWay, Way, WayStep, way_to
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import day as day_words
from trainer.web.page import Page, show
from trainer.web.path_words import path_lines
from trainer.web.way_drawn import MarkKind, axis_drawn, days_of, mark_drawn, station_drawn, technique_drawn

pages = Blueprint("way", __name__, url_prefix="/way")
KEY: tuple[tuple[MarkKind, Text], ...] = (
    ("read", message("read")),
    ("skill", message("a kind of question passed")),
    ("asked", message("asked to be watched")),
    ("not yet", message("watched: not yet")),
    ("stopped", message("watched: stopped")),
    ("signed", message("signed off")),
    ("known", message("known from before")),
    ("shift", message("supervised shift")),
    ("ready by", message("to be ready by")),
    ("ends", message("ends")),
)
ALWAYS_TOLD = frozenset({"read", "skill", "signed"})
"""What the key tells on every page; the rest only where it is drawn."""


@dataclass(frozen=True, slots=True)
class KeyMark:
    """One mark with what it says."""

    svg: Markup
    words: Text


@dataclass(frozen=True, slots=True)
class WayRow:
    """One row: its title, its drawing, and what it shows in words."""

    title: Text
    svg: Markup
    lines: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class WayPage(Page):
    """One cook's way to one station."""

    template: ClassVar[str] = "paths/way.html"
    axis: Markup
    station: WayRow
    rows: tuple[WayRow, ...]
    key: tuple[KeyMark, ...]
    back: str
    back_words: Text


@pages.get("/<station>")
@guard.needs("person")
def own(station: str) -> Response:
    """Show the reader's own way to a station."""
    return _show(guard.person(), station, url_for("paths.listed"), message("Back to my paths"))


@pages.get("/<station>/<cook>")
@guard.needs("assessor or manager")
def of(station: str, cook: str) -> Response:
    """Show a cook's way to a station."""
    who = guard.kitchen().people().get(cook)
    if who is None:
        abort(404)
    return _show(who, station, url_for("manager.person", cook=cook), message("Back to {name}", name=who.name))


def _show(who: Person, station: str, back: str, back_words: Text) -> Response:
    day, naming = guard.kitchen().day(guard.today()), Naming(guard.kitchen().people(), reading.content())
    asked = day.rules.stations.get(station)
    if asked is None:
        abort(404, message("There is no station “{station}”.", station=station))
    way, title = way_to(who, asked, day), naming.station(station)
    days = days_of(way)
    is_own = who.id == guard.person().id
    page = WayPage(
        title=message("My way to {station}", station=title)
        if is_own
        else message("{name}: the way to {station}", name=who.name, station=title),
        axis=axis_drawn(days),
        station=WayRow(title, station_drawn(way, days), _station_lines(way, day, who, naming)),
        rows=tuple(
            WayRow(naming.technique(one.technique), technique_drawn(one, days), _technique_lines(one, naming))
            for one in way.techniques
        ),
        key=_key(way),
        back=back,
        back_words=back_words,
    )
    return show(page)


def _key(way: Way) -> tuple[KeyMark, ...]:
    """Return the marks of the page with their words."""
    drawn: set[str] = {step.kind for one in way.techniques for step in one.steps}
    drawn |= ALWAYS_TOLD | ({"shift"} if way.shifts else set()) | ({"ready by"} if way.path else set())
    drawn |= {"ends"} if any(one.until for one in way.techniques) else set()
    return tuple(KeyMark(mark_drawn(kind), words) for kind, words in KEY if kind in drawn)


def _station_lines(way: Way, day: Snapshot, who: Person, naming: Naming) -> tuple[Text, ...]:
    """Return the path with its day, the shifts, and when the cook was and will be cleared."""
    found = day.clearance(who, way.station)
    shifts = joined([day_words(one) for one in way.shifts], ", ")
    told: list[Text] = [*path_lines(found, naming)]
    told += [message("Supervised shifts: {days}.", days=shifts)] if way.shifts else []
    told += [_cleared(run, way) for run in way.cleared]
    return tuple(told) if way.cleared else (*told, message("Not cleared yet."))


def _cleared(run: Span, way: Way) -> Text:
    since = message("Cleared from {day}", day=day_words(run.since)) if run.since != ALWAYS else message("Cleared")
    if run.until == NO_END:
        return message("{since}, no end.", since=since)
    until = day_words(run.until)
    if run.until < way.on:
        return message("{since} to {until}.", since=since, until=until)
    return message("{since}; ends after {until} if nothing more is done.", since=since, until=until)


def _technique_lines(one: TechniqueWay, naming: Naming) -> tuple[Text, ...]:
    """Return what was done, which questions are passed, what is still to come, and until when it counts."""
    steps = [step for step in one.steps if step.kind != "skill"]
    told = [_sentence(joined(dict.fromkeys(_step(step, naming) for step in steps), "; "))] if steps else []
    passed = [step for step in one.steps if step.kind == "skill"]
    told += [message("Questions passed: {skills}.", skills=joined(map(_skill, passed), ", "))] if passed else []
    told += [gone.text for gone in _missing(one) if not gone.gap]
    left = joined(_left(one), "; ")
    told += [message("Still to come: {things}.", things=left)] if left else []
    told += [message("Counts to the end of {day}.", day=day_words(one.until))] if one.until else []
    return tuple(told)


def _missing(one: TechniqueWay) -> Iterator[Missing]:
    """Yield what is missing of a technique; a stop is a sentence by itself and has no `gap`."""
    return (requirement.missing for requirement in one.standing.requirements if requirement.missing)


def _left(one: TechniqueWay) -> Iterator[Text]:
    """Yield what is missing of a technique in a few words; of questions, which kinds."""
    quiz = one.standing.quiz.missing if one.standing.quiz else None
    for gone in _missing(one):
        if gone is quiz and one.open_skills:
            yield message("questions on {skills}", skills=joined(map(_title, one.open_skills), ", "))
        elif gone.gap:
            yield gone.gap


def _sentence(words: Text) -> Text:
    return message("{words}.", words=words)


def _skill(step: WayStep) -> Text:
    return message("{skill} {day}", skill=_title(step.skill), day=in_short(step.on, with_year=True))


def _title(skill: str) -> Text:
    found = reading.content().skills.get(skill)
    return found.title if found else skill


def _step(step: WayStep, naming: Naming) -> Text:
    """Return one thing done with its day, and who signed it."""
    on, by = day_words(step.on), naming.person(step.by) if step.by else ""
    words: dict[str, Text] = {
        "read": message("read {day}", day=on),
        "questions": message("quiz passed {day}", day=on),
        "known": message("known from before, written down {day}", day=on),
        "asked": message("asked to be watched {day}", day=on),
        "not yet": message("watched {day} by {name}: not yet", day=on, name=by),
        "stopped": message("watched {day} by {name}: stopped", day=on, name=by),
        "signed": message("signed off by {name}, {day}", day=on, name=by),
    }
    return words[step.kind]
