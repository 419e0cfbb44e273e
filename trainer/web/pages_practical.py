"""A practical on screen: hazards first, one point a screen, the record as it will be kept, then the signature."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any, ClassVar, cast, get_args

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import BooleanField, PasswordField, TextAreaField

from trainer.actions import watching
from trainer.actions.outcome import Refused
from trainer.actions.watching import Look, Practical, Signing, Watch
from trainer.kitchen.entitlement import may_sign_at
from trainer.kitchen.practical import PointSeen, Seen
from trainer.kitchen.technique import Hazard, Point, Technique
from trainer.web import guard, proving
from trainer.web.entry_words import Naming
from trainer.web.filters import clock_time, counted, moment
from trainer.web.forms import KitchenForm, PlainForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.practical_view import (
    LineToMeet,
    PointLine,
    Record,
    limit_quantity,
    line_to_meet,
    next_number,
    reading_labels,
    record_kept,
    record_of,
)
from trainer.web.typed_fields import OneOfField

pages = Blueprint("practical", __name__)
WORDS_SEEN: tuple[str, ...] = get_args(Seen)


class WatchForm(KitchenForm):
    """Whom to watch, and at what."""

    cook = OneOfField("Cook")
    technique = OneOfField("Technique")


class PointForm(KitchenForm):
    """What was seen at one point; the readings are fields added a point."""

    note = TextAreaField("Note")

    @property
    def readings(self) -> list[TextField]:
        """Return the fields of the readings, in the sequence they are taken."""
        return [field for field in self if field.name.startswith("reading_")]


class SignForm(KitchenForm):
    """The signature: the assessor's secret again, a note, and the right to say *not yet* all the same."""

    not_yet = BooleanField("I helped or coached: say not yet")
    note = TextAreaField("Note")
    secret = PasswordField("Your PIN")


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
    form: PointForm
    seen: str
    points: tuple[PointLine, ...]
    record_href: str


@dataclass(frozen=True, kw_only=True)
class RecordPage(Page):
    """The record as it will be kept, and the signature."""

    template: ClassVar[str] = "assessor/record.html"
    own_url: str
    record: Record
    can_lower: bool
    form: SignForm
    drop_href: str


@dataclass(frozen=True, kw_only=True)
class DropPage(Page):
    """Whether to put a practical away unsigned."""

    template: ClassVar[str] = "assessor/drop.html"
    own_url: str
    back: str
    cook_name: str
    technique_title: str
    so_far: str
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class KeptPage(Page):
    """A signed practical, as the book keeps it."""

    template: ClassVar[str] = "assessor/kept.html"
    heading: str
    record: Record
    signed_at: str
    seq: int
    entry: str


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
    watch = Watch(form.cook.data, form.technique.data, _station_for(form.cook.data, form.technique.data))
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
    under_way = _mine(practical)
    technique = _technique(under_way)
    number = next_number(technique, under_way.seen)
    content = guard.kitchen().content
    return show(
        HazardsPage(
            title=technique.title,
            cook_name=_naming().person(under_way.cook),
            station_title=_naming().station(under_way.station),
            technique_title=technique.title,
            hazards=technique.hazards,
            allergens=tuple(content.allergens.get(allergen, allergen) for allergen in technique.allergens),
            start_words=_start_words(under_way, number),
            start_href=_to_point(under_way, number),
        )
    )


@pages.get("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def point(practical: str, number: int) -> Response:
    """Show one point, with what was kept of it."""
    under_way = _mine(practical)
    asked = _point(under_way, number)
    kept = under_way.seen.get(asked.id)
    return _point_page(under_way, number, _point_form(asked, kept), kept)


@pages.post("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def see(practical: str, number: int) -> AnyResponse:
    """Keep what was seen at one point, at once, and go on to the next one not seen."""
    under_way = _mine(practical)
    asked = _point(under_way, number)
    form = _point_form(asked, None)
    said = request.form.get("seen", "")
    if said not in WORDS_SEEN:
        form.refuse("Say what you saw: meets it, not yet, or stop.")
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


@pages.get("/practicals/<practical>/record")
@guard.needs("assessor")
def record(practical: str) -> Response:
    """Show the record as it will be kept."""
    return _record_page(_mine(practical), SignForm())


@pages.post("/practicals/<practical>/record")
@guard.needs("assessor")
def sign(practical: str) -> AnyResponse:
    """Sign the record: the secret is asked for again, and the entry is in the book before "Saved" is said."""
    form = SignForm()
    there = guard.kitchen().file.book.find_key(form.key.data)
    if there is not None and there.kind == "practical_watched" and there.by == guard.person().id:
        return go("assessor.practical.kept", entry=there.id)
    under_way = _mine(practical)
    if not form.is_sent_right():
        return _record_page(under_way, form)
    proved_at = proving.proved_now(form)
    if proved_at is None:
        return _record_page(under_way, form)
    outcome = watching.sign_practical(
        guard.kitchen(),
        by=guard.person().id,
        signing=_signing(under_way, form, proved_at),
        now=guard.now(),
        key=form.key.data,
    )
    if isinstance(outcome, Refused):
        form.refuse(outcome)
        return _record_page(under_way, form)
    return go("assessor.practical.kept", entry=outcome.entry.id)


@pages.get("/practicals/kept/<entry>")
@guard.needs("assessor")
def kept(entry: str) -> Response:
    """Show a signed practical to whoever signed it."""
    found = guard.kitchen().file.book.find(entry)
    if found is None or found.kind != "practical_watched" or found.by != guard.person().id:
        abort(404)
    return show(
        KeptPage(
            title="On the spike",
            heading=f"Saved {clock_time(found.at)}, on the spike",
            record=record_kept(found, _naming()),
            signed_at=moment(found.at),
            seq=found.seq,
            entry=found.id,
        )
    )


@pages.route("/practicals/<practical>/drop", methods=["GET", "POST"])
@guard.needs("assessor")
def drop(practical: str) -> AnyResponse:
    """Put a practical away unsigned, after asking once."""
    under_way = _mine(practical)
    form = PlainForm()
    if form.is_sent_right():
        refused = watching.drop_practical(guard.kitchen(), by=guard.person().id, practical=practical)
        if refused is None:
            return go("assessor.waiting")
        form.refuse(refused)
    return show(
        DropPage(
            title="Put this away unsigned?",
            own_url=url_for(".drop", practical=practical),
            back=url_for(".resume", practical=practical),
            cook_name=_naming().person(under_way.cook),
            technique_title=_technique(under_way).title,
            so_far=so_far_words(under_way),
            form=form,
        )
    )


def so_far_words(practical: Practical) -> str:
    """Return how far a practical has come: ``3 of 6 points seen``."""
    technique = guard.kitchen().content.techniques.get(practical.technique)
    count = len(technique.checklist) if technique else len(practical.seen)
    return f"{len(practical.seen)} of {counted(count, 'point')} seen."


def cooks_but_me(*, with_me: bool = False) -> dict[str, str]:
    """Return the cooks of today by name; oneself is left out unless asked for."""
    k, me = guard.kitchen(), guard.person().id
    people = k.people()
    found = [people[cook] for cook in k.progress().cooks_on(guard.today()) if cook in people]
    named = sorted(found, key=lambda person: person.name.casefold())
    return {person.id: person.name for person in named if with_me or person.id != me}


def _mine(practical: str) -> Practical:
    """Return this assessor's own practical under way; anybody else's is not there for them."""
    found = watching.find_practical(guard.kitchen(), practical)
    if found is None or found.by != guard.person().id:
        abort(404, "This practical is not in your hand. It may be signed already, or put away.")
    return found


def _technique(practical: Practical) -> Technique:
    """Return the technique of a practical; one that was taken out of the content cannot go on."""
    found = guard.kitchen().content.techniques.get(practical.technique)
    if found is None:
        abort(404, "The technique of this practical is no longer taught. Put the practical away.")
    return found


def _point(practical: Practical, number: int) -> Point:
    """Return a point of the checklist by its number, from 1."""
    checklist = _technique(practical).checklist
    if not 1 <= number <= len(checklist):
        abort(404)
    return checklist[number - 1]


def _naming() -> Naming:
    """Return what turns ids into words."""
    k = guard.kitchen()
    return Naming(k.people(), k.content)


def _station_for(cook: str, technique: str) -> str:
    """Return the station a practical counts for: the first asking for the technique where this assessor may sign."""
    k = guard.kitchen()
    asking = k.content.stations_asking_for(technique)
    day = k.day(guard.today())
    allowed = [station.id for station in asking if may_sign_at(guard.person().id, cook, station.id, day).may]
    return allowed[0] if allowed else (asking[0].id if asking else "")


def _offered(form: WatchForm) -> WatchForm:
    """Return the form with cooks and techniques on its lists."""
    form.cook.offer(cooks_but_me())
    form.technique.offer({t.id: t.title for t in guard.kitchen().content.techniques.values()})
    return form


def _choose_page(form: WatchForm) -> Response:
    """Return the page to choose whom to watch."""
    return show(ChoosePage(title="Watch a cook", form=form))


def _start_words(practical: Practical, number: int | None) -> str:
    """Return the words of the button under the hazards."""
    if number is None or practical.verdict.word == "stopped":
        return "To the record"
    return "Start" if not practical.seen else f"Go on at point {number}"


def _to_point(practical: Practical, number: int | None) -> str:
    """Return the address of a point, or of the record when every point is seen or the practical was stopped."""
    if number is None or _is_stopped(practical):
        return url_for(".record", practical=practical.id)
    return url_for(".point", practical=practical.id, number=number)


def _is_stopped(practical: Practical) -> bool:
    """Return whether something unsafe was seen."""
    return any(seen.seen == "unsafe" for seen in practical.seen.values())


def _point_form(asked: Point, kept: PointSeen | None) -> PointForm:
    """Return the form of a point, one field a reading, filled with what was kept."""
    labels = reading_labels(asked)
    fields: dict[str, Any] = {f"reading_{n}": TextField(label) for n, label in enumerate(labels, 1)}
    made = type("PointForm", (PointForm,), fields)
    values = dict(zip(fields, kept.readings, strict=False)) if kept else {}
    form: PointForm = made(note=kept.note if kept else "", **values)
    return form


def _refuse_point(form: PointForm, refused: Refused, said: str) -> None:
    """Put a refusal at the reading it names; a *not yet* over good readings asks for a note, so it goes there."""
    name = "note" if refused.field == "tick" and said == "not yet" else refused.field
    form.refuse(Refused(refused.reason, refused.who_can, name if name in form else ""))


def _after(practical: Practical, number: int, kept: PointSeen) -> Response:
    """Return the way on: to the next point not seen, or to the record."""
    if kept.seen == "unsafe":
        return go(".record", practical=practical.id)
    following = next_number(_technique(practical), {*practical.seen, kept.point}, after=number)
    if following is None:
        return go(".record", practical=practical.id)
    return go(".point", practical=practical.id, number=following)


def _point_page(practical: Practical, number: int, form: PointForm, kept: PointSeen | None) -> Response:
    """Return the page of one point."""
    asked, technique = _point(practical, number), _technique(practical)
    following = next_number(technique, practical.seen, after=number)
    return show(
        PointPage(
            title=f"Point {number}: {asked.text}",
            own_url=url_for(".see", practical=practical.id, number=number),
            cook_name=_naming().person(practical.cook),
            technique_title=technique.title,
            number=number,
            count=len(technique.checklist),
            critical=asked.critical,
            text=asked.text,
            line=line_to_meet(asked),
            unit=limit_quantity(asked.limit).unit.symbol if asked.limit else "",
            form=form,
            seen=kept.seen if kept else "",
            points=_point_lines(practical, technique, number),
            record_href=url_for(".record", practical=practical.id) if following is None else "",
        )
    )


def _point_lines(practical: Practical, technique: Technique, here: int) -> tuple[PointLine, ...]:
    """Return the list of points with what was seen."""
    return tuple(
        PointLine(
            href=url_for(".point", practical=practical.id, number=number),
            text=point.text,
            seen=practical.seen[point.id].seen if point.id in practical.seen else "to see",
            is_here=number == here,
        )
        for number, point in enumerate(technique.checklist, 1)
    )


def _signing(practical: Practical, form: SignForm, proved_at: datetime) -> Signing:
    """Return what is signed."""
    note = (form.note.data or "").strip()
    if form.not_yet.data and practical.verdict.word == "meets it":
        return Signing(practical.id, proved_at, note or "Helped or coached.", "not yet")
    return Signing(practical.id, proved_at, note)


def _record_page(practical: Practical, form: SignForm) -> Response:
    """Return the record with the signature under it."""
    technique = _technique(practical)
    hrefs = {
        point.id: url_for(".point", practical=practical.id, number=number)
        for number, point in enumerate(technique.checklist, 1)
    }
    return show(
        RecordPage(
            title="The record as it will be kept",
            own_url=url_for(".sign", practical=practical.id),
            record=record_of(practical, _naming(), hrefs),
            can_lower=practical.verdict.word == "meets it",
            form=form,
            drop_href=url_for(".drop", practical=practical.id),
        )
    )
