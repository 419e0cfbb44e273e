"""A practical on screen: hazards first, then one point a screen; the record and signature are in their own module."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, ClassVar, cast, get_args

from flask import Blueprint, Response, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import RadioField, TextAreaField

from trainer.actions import watching
from trainer.actions.outcome import Refused
from trainer.actions.watching import Look, PageSent, Practical, Watch
from trainer.kitchen.measured import Typed
from trainer.kitchen.practical import AskBack, PointSeen, Seen
from trainer.kitchen.technique import Hazard, Technique
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.assessor.in_hand import InHand, in_hand, naming, outdated_words, watched_by_words
from trainer.web.assessor.practical_view import (
    LineToMeet,
    PointLine,
    PointView,
    ReadingQuestion,
    UnitKey,
    as_typed,
    asked_of,
    point_view,
)
from trainer.web.forms import KitchenForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.result_view import teacher_lines
from trainer.web.typed_fields import OneOfField

pages = Blueprint("practical", __name__)
WORDS_SEEN: tuple[str, ...] = get_args(Seen)


class WatchForm(KitchenForm):
    """Whom to watch, and at what."""

    cook = OneOfField(message("Cook"))
    technique = OneOfField(message("Technique"))


class PointForm(KitchenForm):
    """What was seen at one point; the readings and their unit are fields added a point."""

    note = TextAreaField(message("Note"))

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
    """What can hurt a person, before the first point."""

    template: ClassVar[str] = "assessor/hazards.html"
    cook_name: Text
    station_title: str
    technique_title: str
    hazards: tuple[Hazard, ...]
    allergens: tuple[str, ...]
    methods: tuple[Text, ...]
    told: tuple[Text, ...]
    start_words: Text
    start_href: str


@dataclass(frozen=True, kw_only=True)
class PointPage(Page):
    """One point: its words, its line, the readings, the two equal answers and the stop."""

    template: ClassVar[str] = "assessor/point.html"
    own_url: str
    cook_name: Text
    technique_title: str
    number: int
    count: int
    critical: bool
    text: str
    line: LineToMeet | None
    units: tuple[UnitKey, ...]
    decimal_mark: str
    keys_last: str
    form: PointForm
    seen: str
    is_stopped: bool
    points: tuple[PointLine, ...]
    record_href: str


@dataclass(frozen=True, kw_only=True)
class AskedPage(Page):
    """One reading no kitchen could show, asked back before it is judged; what else was typed goes with it."""

    template: ClassVar[str] = "assessor/asked.html"
    own_url: str
    cook_name: Text
    number: int
    count: int
    text: str
    which: str
    asked: ReadingQuestion
    answer_name: str
    typed: tuple[tuple[str, str], ...]
    form: PointForm


@dataclass(frozen=True, kw_only=True)
class UnsafePage(Page):
    """Asks once whether it was unsafe, before that stays; what else was typed goes with it."""

    template: ClassVar[str] = "assessor/unsafe.html"
    own_url: str
    cook_name: Text
    number: int
    count: int
    text: str
    typed: tuple[tuple[str, str], ...]
    form: PointForm


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
    reader = reading.now()
    watch = Watch(form.cook.data, form.technique.data, read_in=(reader.language, reader.units))
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
    hand = in_hand(practical)
    under_way, technique, number = hand.practical, hand.technique, hand.next_unseen()
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
            told=(*outdated_words(under_way), *watched_by_words(under_way.cook, technique.id)),
            start_words=_start_words(under_way, number),
            start_href=_to_point(under_way, number),
        )
    )


@pages.get("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def point(practical: str, number: int) -> Response:
    """Show one point, with what was kept of it."""
    hand = in_hand(practical)
    view = point_view(hand.point(number), reading.now().units)
    kept = hand.practical.seen.get(view.point.id)
    return _point_page(hand, number, view, _point_form(view, kept), kept)


@pages.post("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def see(practical: str, number: int) -> AnyResponse:
    """Keep what was seen at one point, at once, and go on to the next one not seen."""
    hand = in_hand(practical)
    view = point_view(hand.point(number), reading.now().units)
    form, seen = _point_form(view, None), hand.practical.seen.get(view.point.id)
    said = request.form.get("seen", "")
    if said not in WORDS_SEEN:
        form.refuse(message("Say what you saw: meets it, not yet, or stop."))
    if "unit" in form and form["unit"].data not in form["unit"].choices:
        form.refuse(message("Press the unit of the reading, then send it again."))
    wants_to_look_again = "again" in request.form
    if not form.is_sent_right() or form.problems() or wants_to_look_again:
        return _point_page(hand, number, view, form, seen)
    if said == "unsafe" and "sure" not in request.form:
        return _unsafe_page(hand, number, form)
    look = Look(view.point.id, cast(Seen, said), _typed(form), (form.note.data or "").strip(), _device())
    kept = watching.see_point(guard.kitchen(), by=guard.person().id, practical=practical, look=look, now=guard.now())
    if isinstance(kept, Refused):
        _refuse_point(form, kept, said)
        return _point_page(hand, number, view, form, seen)
    if isinstance(kept, AskBack):
        return _asked_page(hand, number, form, kept)
    return _after(hand, number, kept)


def _typed(form: PointForm) -> tuple[Typed, ...]:
    """Return every reading as it was keyed in, in the unit told beside it, with what it was answered to have been."""
    unit = form["unit"].data if "unit" in form else ""
    fields = form.readings
    return tuple(Typed(f.data, unit, request.form.get(f"answer_{n}", "")) for n, f in enumerate(fields, 1))


def _device() -> str:
    """Return the device whose page this is; a browser without one of its own counts by its visit."""
    return guard.device() or "visit"


def cooks_but_me(*, with_me: bool = False) -> dict[str, str]:
    """Return who works a station today, by name; oneself is left out unless asked for."""
    k, me, today = guard.kitchen(), guard.person().id, guard.today()
    here = {cook for cook in k.progress().at_stations_on(today) if with_me or cook != me}
    return {person.id: person.name for person in k.people().values() if person.id in here}


def _offered(form: WatchForm) -> WatchForm:
    """Return the form with cooks and techniques on its lists."""
    form.cook.offer(cooks_but_me())
    form.technique.offer({t.id: t.title for t in reading.content().techniques.values()})
    return form


def _choose_page(form: WatchForm) -> Response:
    """Return the page to choose whom to watch."""
    return show(ChoosePage(title=message("Watch a cook"), form=form))


def _start_words(practical: Practical, number: int | None) -> Text:
    """Return the words of the button under the hazards."""
    if number is None or practical.verdict.word == "stopped":
        return message("To the record")
    return message("Start") if not practical.seen else message("Go on at point {number}", number=number)


def _to_point(practical: Practical, number: int | None) -> str:
    """Return the address of a point, or of the record when every point is seen or the practical was stopped."""
    if number is None or practical.unsafe:
        return url_for("assessor.signing.record", practical=practical.id)
    return url_for(".point", practical=practical.id, number=number)


def _point_form(view: PointView, kept: PointSeen | None) -> PointForm:
    """Return the form of a point, one field a reading with the unit all are in, filled with what was kept."""
    labels, symbols = view.labels, [key.symbol for key in view.units]
    unit, texts = as_typed(kept.readings, symbols) if kept else ("", ())
    fields: dict[str, Any] = {f"reading_{n}": TextField(label) for n, label in enumerate(labels, 1)}
    values: dict[str, Any] = dict(zip(fields, texts, strict=False))
    if labels:
        fields["unit"] = RadioField(message("Unit"), choices={s: s for s in symbols}, validate_choice=False)
        values["unit"] = unit or symbols[0]
    made = type("PointForm", (PointForm,), fields)
    form: PointForm = made(note=kept.note if kept else "", **values)
    return form


def _refuse_point(form: PointForm, refused: Refused, said: str) -> None:
    """Put a refusal at the reading it names; a *not yet* over good readings asks for a note, so it goes there."""
    name = "note" if refused.field == "tick" and said == "not yet" else refused.field
    form.refuse(Refused(refused.reason, refused.who_can, name if name in form else ""))


def _after(hand: InHand, number: int, kept: PointSeen) -> Response:
    """Return the way on: to the next point not seen, or to the record."""
    following = None if kept.seen == "unsafe" else hand.next_unseen(after=number, besides=kept.point)
    if following is None:
        return go("assessor.signing.record", practical=hand.practical.id)
    return go(".point", practical=hand.practical.id, number=following)


def _point_page(hand: InHand, number: int, view: PointView, form: PointForm, kept: PointSeen | None) -> Response:
    """Return the page of one point, and keep that it was sent: a verdict takes a look first."""
    practical, technique, asked = hand.practical, hand.technique, view.point
    following = hand.next_unseen(after=number)
    page = PageSent(asked.id, _device(), asked.text, technique.words_edition)
    watching.show_point(guard.kitchen(), by=practical.by, practical=practical.id, page=page, now=guard.now())
    return show(
        PointPage(
            title=message("Point {number}: {text}", number=number, text=asked.text),
            own_url=url_for(".see", practical=practical.id, number=number),
            cook_name=naming().person(practical.cook),
            technique_title=technique.title,
            number=number,
            count=len(technique.checklist),
            critical=asked.critical,
            text=asked.text,
            line=view.line,
            units=view.units,
            decimal_mark=guard.kitchen().file.settings.decimal_mark,
            keys_last=view.last_key,
            form=form,
            seen=kept.seen if kept else "",
            is_stopped=bool(practical.unsafe),
            points=_point_lines(practical, technique, number),
            record_href=_to_point(practical, None) if following is None or practical.unsafe else "",
        )
    )


def _asked_page(hand: InHand, number: int, form: PointForm, asked: AskBack) -> Response:
    """Return the page that asks one reading back, with everything typed so far on it."""
    point, answer_name = hand.point(number), f"answer_{asked.reading + 1}"
    if point.limit is None:
        abort(404)
    return show(
        AskedPage(
            title=message("Which reading was it?") if len(asked.ways) > 1 else message("Is that what you read?"),
            own_url=url_for(".see", practical=hand.practical.id, number=number),
            cook_name=naming().person(hand.practical.cook),
            number=number,
            count=len(hand.technique.checklist),
            text=point.text,
            which=form.readings[asked.reading].label.text if point.pieces > 1 else "",
            asked=asked_of(point.limit, asked, reading.now().units),
            answer_name=answer_name,
            typed=_typed_with_it(form, "seen", "note", besides=answer_name),
            form=form,
        )
    )


def _unsafe_page(hand: InHand, number: int, form: PointForm) -> Response:
    """Return the page that asks once more whether it was unsafe; nothing is kept yet."""
    return show(
        UnsafePage(
            title=message("You saw something unsafe: sign the stop?"),
            own_url=url_for(".see", practical=hand.practical.id, number=number),
            cook_name=naming().person(hand.practical.cook),
            number=number,
            count=len(hand.technique.checklist),
            text=hand.point(number).text,
            typed=_typed_with_it(form),
            form=form,
        )
    )


def _typed_with_it(form: PointForm, *names: str, besides: str = "") -> tuple[tuple[str, str], ...]:
    """Return what was typed at a point, to be sent again: readings, unit and answers, and what else is named."""
    answers = (f"answer_{n}" for n, _ in enumerate(form.readings, 1))
    own = (*names, *(field.name for field in form.readings), "unit", *(name for name in answers if name != besides))
    return tuple((name, request.form[name]) for name in own if request.form.get(name))


def _point_lines(practical: Practical, technique: Technique, here: int) -> tuple[PointLine, ...]:
    """Return the list of points with what was seen."""
    return tuple(
        PointLine(
            href=url_for(".point", practical=practical.id, number=number),
            text=point.text,
            seen=practical.seen[point.id].seen if point.id in practical.seen else message("to see"),
            is_here=number == here,
        )
        for number, point in enumerate(technique.checklist, 1)
    )
