"""A practical on screen: hazards first, then one point a screen; the record and signature are in their own module."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar, cast, get_args

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import TextAreaField

from trainer.actions import watching
from trainer.actions.outcome import Refused
from trainer.actions.watching import Look, Practical, Watch
from trainer.kitchen.measured import takes_a_clock
from trainer.kitchen.practical import PointSeen, Seen
from trainer.kitchen.technique import Hazard, Point, Technique
from trainer.recipe_math.saying import say
from trainer.web import guard, reading
from trainer.web.forms import KitchenForm, TextField
from trainer.web.in_hand import mine, naming, technique_of, watched_by_words
from trainer.web.page import Page, go, show
from trainer.web.practical_view import (
    LineToMeet,
    PointLine,
    as_typed,
    limit_quantity,
    line_to_meet,
    next_number,
    reading_labels,
    two_units,
)
from trainer.web.sat_view import teacher_lines
from trainer.web.typed_fields import OneOfField

pages = Blueprint("practical", __name__)
WORKS_A_STATION = frozenset({"cook", "assessor"})
WORDS_SEEN: tuple[str, ...] = get_args(Seen)


class WatchForm(KitchenForm):
    """Whom to watch, and at what."""

    cook = OneOfField(say("Cook"))
    technique = OneOfField(say("Technique"))


class PointForm(KitchenForm):
    """What was seen at one point; the readings are fields added a point."""

    note = TextAreaField(say("Note"))

    @property
    def readings(self) -> list[TextField]:
        """Return the fields of the readings, in the sequence they are taken."""
        return [field for field in self if field.name.startswith("reading_")]


@dataclass(frozen=True, kw_only=True)
class ChoosePage(Page):
    """Whom to watch, of all cooks and techniques."""

    template: ClassVar[str] = "assessor/choose.html"
    form: WatchForm


@dataclass(frozen=True, kw_only=True)
class HazardsPage(Page):
    """What can hurt somebody, before the first point."""

    template: ClassVar[str] = "assessor/hazards.html"
    cook_name: str
    station_title: str
    technique_title: str
    hazards: tuple[Hazard, ...]
    allergens: tuple[str, ...]
    methods: tuple[str, ...]
    watched_by: tuple[str, ...]
    start_words: str
    start_href: str


@dataclass(frozen=True, kw_only=True)
class PointPage(Page):
    """One point: its words, its line, the readings, the two equal answers and the stop."""

    template: ClassVar[str] = "assessor/point.html"
    own_url: str
    cook_name: str
    technique_title: str
    number: int
    count: int
    critical: bool
    text: str
    line: LineToMeet | None
    unit: str
    two_units: tuple[str, ...]
    has_clock: bool
    form: PointForm
    seen: str
    is_stopped: bool
    points: tuple[PointLine, ...]
    record_href: str


@pages.get("/practicals/new")
@guard.needs("assessor")
def choose() -> Response:
    """Show the form to watch a cook who has not asked."""
    return _choose_page(_offered(WatchForm()))


@pages.post("/practicals")
@guard.needs("assessor")
def start() -> AnyResponse:
    """Begin a practical, or go on with the one begun."""
    form = _offered(WatchForm())
    if not form.is_sent_right():
        return _choose_page(form)
    watch = Watch(form.cook.data, form.technique.data)
    begun = watching.start_practical(
        guard.kitchen(), by=guard.person().id, watch=watch, now=guard.now(), key=form.key.data
    )
    if isinstance(begun, Refused):
        form.refuse(begun)
        return _choose_page(form)
    return go("assessor.practical.resume", practical=begun.id)


@pages.get("/practicals/<practical>")
@guard.needs("assessor")
def resume(practical: str) -> Response:
    """Show the hazards, with the way to the first point not seen yet."""
    under_way = mine(practical)
    technique = technique_of(under_way)
    number = next_number(technique, under_way.seen)
    content = reading.content()
    return show(
        HazardsPage(
            title=technique.title,
            cook_name=naming().person(under_way.cook),
            station_title=naming().station(under_way.station),
            technique_title=technique.title,
            hazards=technique.hazards,
            allergens=tuple(content.allergens.get(allergen, allergen) for allergen in technique.allergens),
            methods=teacher_lines(under_way.cook, technique.id),
            watched_by=watched_by_words(under_way.cook, technique.id),
            start_words=_start_words(under_way, number),
            start_href=_to_point(under_way, number),
        )
    )


@pages.get("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def point(practical: str, number: int) -> Response:
    """Show one point, with what was kept of it."""
    under_way = mine(practical)
    asked = _point(under_way, number)
    kept = under_way.seen.get(asked.id)
    return _point_page(under_way, number, _point_form(asked, kept), kept)


@pages.post("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def see(practical: str, number: int) -> AnyResponse:
    """Keep what was seen at one point, at once, and go on to the next one not seen."""
    under_way = mine(practical)
    asked = _point(under_way, number)
    form = _point_form(asked, None)
    said = request.form.get("seen", "")
    if said not in WORDS_SEEN:
        form.refuse(say("Say what you saw: meets it, not yet, or stop."))
    if not form.is_sent_right() or form.problems():
        return _point_page(under_way, number, form, under_way.seen.get(asked.id))
    look = Look(
        asked.id, cast(Seen, said), tuple(field.data for field in form.readings), (form.note.data or "").strip()
    )
    kept = watching.see_point(guard.kitchen(), by=guard.person().id, practical=practical, look=look, now=guard.now())
    if isinstance(kept, Refused):
        _refuse_point(form, kept, said)
        return _point_page(under_way, number, form, under_way.seen.get(asked.id))
    return _after(under_way, number, kept)


def cooks_but_me(*, with_me: bool = False) -> dict[str, str]:
    """Return who works a station today, by name; oneself is left out unless asked for."""
    k, me, today = guard.kitchen(), guard.person().id, guard.today()
    people, progress = k.people(), k.progress()
    found = [people[c] for c in progress.cooks_on(today) if c in people and progress.roles(c, today) & WORKS_A_STATION]
    named = sorted(found, key=lambda person: person.name.casefold())
    return {person.id: person.name for person in named if with_me or person.id != me}


def _point(practical: Practical, number: int) -> Point:
    """Return a point of the checklist by its number, from 1."""
    checklist = technique_of(practical).checklist
    if not 1 <= number <= len(checklist):
        abort(404)
    return checklist[number - 1]


def _offered(form: WatchForm) -> WatchForm:
    """Return the form with cooks and techniques on its lists."""
    form.cook.offer(cooks_but_me())
    form.technique.offer({t.id: t.title for t in reading.content().techniques.values()})
    return form


def _choose_page(form: WatchForm) -> Response:
    """Return the page to choose whom to watch."""
    return show(ChoosePage(title=say("Watch a cook"), form=form))


def _start_words(practical: Practical, number: int | None) -> str:
    """Return the words of the button under the hazards."""
    if number is None or practical.verdict.word == "stopped":
        return say("To the record")
    return say("Start") if not practical.seen else say("Go on at point {number}", number=number)


def _to_point(practical: Practical, number: int | None) -> str:
    """Return the address of a point, or of the record when every point is seen or the practical was stopped."""
    if number is None or practical.unsafe:
        return url_for("assessor.signing.record", practical=practical.id)
    return url_for(".point", practical=practical.id, number=number)


def _point_form(asked: Point, kept: PointSeen | None) -> PointForm:
    """Return the form of a point, one field a reading, filled with what was kept."""
    labels = reading_labels(asked)
    fields: dict[str, Any] = {f"reading_{n}": TextField(label) for n, label in enumerate(labels, 1)}
    made = type("PointForm", (PointForm,), fields)
    readings = [as_typed(asked, reading) for reading in kept.readings] if kept else []
    values = dict(zip(fields, readings, strict=False))
    form: PointForm = made(note=kept.note if kept else "", **values)
    return form


def _refuse_point(form: PointForm, refused: Refused, said: str) -> None:
    """Put a refusal at the reading it names; a *not yet* over good readings asks for a note, so it goes there."""
    name = "note" if refused.field == "tick" and said == "not yet" else refused.field
    form.refuse(Refused(refused.reason, refused.who_can, name if name in form else ""))


def _after(practical: Practical, number: int, kept: PointSeen) -> Response:
    """Return the way on: to the next point not seen, or to the record."""
    if kept.seen == "unsafe":
        return go("assessor.signing.record", practical=practical.id)
    following = next_number(technique_of(practical), {*practical.seen, kept.point}, after=number)
    if following is None:
        return go("assessor.signing.record", practical=practical.id)
    return go(".point", practical=practical.id, number=following)


def _point_page(practical: Practical, number: int, form: PointForm, kept: PointSeen | None) -> Response:
    """Return the page of one point."""
    asked, technique = _point(practical, number), technique_of(practical)
    following = next_number(technique, practical.seen, after=number)
    return show(
        PointPage(
            title=say("Point {number}: {text}", number=number, text=asked.text),
            own_url=url_for(".see", practical=practical.id, number=number),
            cook_name=naming().person(practical.cook),
            technique_title=technique.title,
            number=number,
            count=len(technique.checklist),
            critical=asked.critical,
            text=asked.text,
            line=line_to_meet(asked),
            unit=limit_quantity(asked.limit).unit.symbol if asked.limit else "",
            two_units=two_units(asked),
            has_clock=asked.limit is not None and takes_a_clock(asked.limit),
            form=form,
            seen=kept.seen if kept else "",
            is_stopped=bool(practical.unsafe),
            points=_point_lines(practical, technique, number),
            record_href=_to_point(practical, None) if following is None or practical.unsafe else "",
        )
    )


def _point_lines(practical: Practical, technique: Technique, here: int) -> tuple[PointLine, ...]:
    """Return the list of points with what was seen."""
    return tuple(
        PointLine(
            href=url_for(".point", practical=practical.id, number=number),
            text=point.text,
            seen=practical.seen[point.id].seen if point.id in practical.seen else say("to see"),
            is_here=number == here,
        )
        for number, point in enumerate(technique.checklist, 1)
    )
