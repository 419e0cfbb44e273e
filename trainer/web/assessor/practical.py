"""A practical on screen: hazards first, then one point a screen; the record and signature are in their own module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, cast, get_args

from flask import Blueprint, Response, abort, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response as AnyResponse
from wtforms import RadioField

from trainer.actions import watching
from trainer.actions.gathering import keep_piece
from trainer.actions.outcome import Refused
from trainer.actions.watching import Look, PageSent, Practical, Watch
from trainer.content.figure_files import figure
from trainer.kitchen.practical import PICKED, AskBack, PointSeen, Seen
from trainer.kitchen.technique import Hazard, Point, Technique
from trainer.messages import Message, Text, message
from trainer.web import guard, reading
from trainer.web.assessor import stopwatch
from trainer.web.assessor.at_point import UNITS, AtPoint, PointForm, at_point, point_form, typed_readings
from trainer.web.assessor.in_hand import InHand, called, in_hand, naming, outdated_words, tools_of, watched_by_words
from trainer.web.assessor.practical_view import (
    ChoiceView,
    LinePair,
    LineToMeet,
    PointLine,
    PointView,
    ReadingQuestion,
    Slot,
    UnitKey,
    again_words,
    asked_of,
    choice_views,
    is_heard_whole,
    line_to_meet,
    needed_words,
    slots_of,
    type_word,
)
from trainer.web.assessor.stopping import unsafe_page
from trainer.web.assessor.stopwatch import WatchView
from trainer.web.forms import KitchenForm
from trainer.web.offline import late
from trainer.web.page import Page, go, show
from trainer.web.result_view import teacher_lines
from trainer.web.typed_fields import OneOfField
from trainer.web.watched_words import seen_before_told

pages = Blueprint("practical", __name__)
SAYS_NOTHING = frozenset({"save", "watch"})
"""What is pressed without a word on the point: to keep a piece, or a stopwatch."""
LOOKS_ON = frozenset({"again", "watch"})
"""What is pressed to stay at a point: to read the probe again, or a stopwatch."""
WORDS_SEEN: tuple[str, ...] = get_args(Seen)


class WatchForm(KitchenForm):
    """Whom to watch, and at what."""

    cook = OneOfField(message("Cook"))
    technique = OneOfField(message("Technique"))


class CaseForm(KitchenForm):
    """Which case is watched, and which part of a checklist that is divided."""

    part = RadioField(message("Which part?"), choices=[], validate_choice=False)
    case = RadioField(message("What is watched here?"), choices=[], validate_choice=False)


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
    picked: tuple[str, ...]
    form: CaseForm | None
    case_url: str
    stop_href: str


@dataclass(frozen=True, kw_only=True)
class PointPage(Page):
    """One point: its words, its line, the readings, the two equal answers and the stop."""

    template: ClassVar[str] = "assessor/point.html"
    own_url: str
    cook_name: Text
    technique_title: str
    number: int
    count: int
    kind: Text
    text: str
    line: LineToMeet | None
    pair: tuple[LinePair, ...]
    law: LineToMeet | None
    tools: tuple[str, ...]
    choices: tuple[ChoiceView, ...]
    is_heard_whole: bool
    slots: tuple[Slot, ...]
    piece: int
    saves: Text
    needed: Text
    picks: bool
    again: Text
    is_made_again: bool
    units: tuple[UnitKey, ...]
    decimal_mark: str
    keys_last: str
    form: PointForm
    watches: Mapping[str, WatchView]
    seen: str
    is_stopped: bool
    end_href: str
    points: tuple[PointLine, ...]
    record_href: str
    go_on: tuple[str, ...]
    stop_url: str


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


@pages.get("/practicals/new")
@guard.needs("assessor")
def choose() -> Response:
    """Show the form to watch a cook who has not asked."""
    form = WatchForm(cook=request.args.get("cook", ""), technique=request.args.get("technique", ""))
    return _choose_page(_offered(form))


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
    return _hazards_page(hand, _case_form(hand))


@pages.post("/practicals/<practical>/case")
@guard.needs("assessor")
def pick_case(practical: str) -> AnyResponse:
    """Keep which case is watched, and go to the first point."""
    hand = in_hand(practical)
    form = _case_form(hand)
    if form is None or not form.is_sent_right():
        return _hazards_page(hand, form)
    picked = watching.pick_case(
        guard.kitchen(),
        by=guard.person().id,
        practical=practical,
        case=form.case.data or "",
        now=guard.now(),
        part=form.part.data or "",
    )
    if isinstance(picked, Refused):
        form.refuse(picked)
        return _hazards_page(hand, form)
    return go(".point", practical=practical, number=InHand(picked, hand.technique).next_unseen() or 1)


def _case_form(hand: InHand) -> CaseForm | None:
    """Return the form to pick a case; None where there is none to pick, or a point was looked at."""
    technique, under_way = hand.technique, hand.practical
    if not (technique.cases or technique.parts) or under_way.seen:
        return None
    form = CaseForm(case=under_way.case or None, part=under_way.part or None)
    form.case.choices = {case.id: case.text for case in technique.cases}
    form.part.choices = {part.id: part.title for part in technique.parts}
    return form


def _hazards_page(hand: InHand, form: CaseForm | None) -> Response:
    """Return what can hurt a person, with the way to the first point not seen yet; a case comes first."""
    under_way, technique, number = hand.practical, hand.technique, hand.next_unseen()
    content = reading.content()
    named = {each.id: each.text for each in technique.cases} | {part.id: part.title for part in technique.parts}
    picked = tuple(named[id] for id in (under_way.part, under_way.case) if id in named)
    return show(
        HazardsPage(
            title=technique.title,
            cook_name=called(under_way.cook),
            station_title=naming().station(under_way.station),
            technique_title=technique.title,
            hazards=technique.hazards,
            allergens=tuple(content.allergens.get(allergen, allergen) for allergen in technique.allergens),
            methods=teacher_lines(under_way.cook, technique.id),
            told=(*outdated_words(under_way), *watched_by_words(under_way.cook, technique.id, under_way.part)),
            start_words=_start_words(under_way, number),
            start_href=_to_point(under_way, number),
            picked=picked if form is None else (),
            form=form,
            case_url=url_for(".pick_case", practical=under_way.id),
            stop_href="" if under_way.unsafe else url_for("assessor.stopping.stop", practical=under_way.id),
        )
    )


@pages.get("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def point(practical: str, number: int) -> Response:
    """Show one point, with what was kept of it."""
    hand = in_hand(practical)
    at = at_point(hand, number, request.args.get("piece", ""))
    kept = hand.practical.seen.get(at.view.point.id)
    form = point_form(at, kept)
    stopwatch.fill_in(hand.practical, at.view.point, form)
    return _point_page(at, form, kept, kept.said if kept else ())


@pages.post("/practicals/<practical>/<int:number>")
@guard.needs("assessor")
def see(practical: str, number: int) -> AnyResponse:
    """Keep what was seen at one point, at once, and go on to the next one not seen."""
    hand = in_hand(practical)
    at = at_point(hand, number, request.form.get("piece", ""))
    view, form = at.view, point_form(at, None)
    at = _after_watch(at, form)
    seen, said, ticked = hand.practical.seen.get(view.point.id), request.form.get("seen", ""), _ticked(view.point)
    _refuse_at_once(form, view, said, ticked)
    if not form.is_sent_right() or form.problems() or LOOKS_ON & {*request.form}:
        return _point_page(at, form, seen, ticked)
    if said == "unsafe" and "sure" not in request.form:
        return _unsafe_page(hand, number, form)
    look = Look(
        point=view.point.id,
        tick=cast(Seen, said) if said else None,
        readings=typed_readings(at, form),
        note=(form.note.data or "").strip(),
        device="" if late.is_late() else _device(),
        said=ticked,
        is_made_again="made_again" in request.form,
        done_at=late.done_at(),
        cause=request.form.get("cause", ""),
    )
    kept = _kept(at, look)
    if isinstance(kept, Refused):
        _refuse_point(form, kept, said)
        return _point_page(at, form, seen, ticked)
    if isinstance(kept, AskBack):
        return _asked_page(hand, number, form, kept)
    return _after(hand, number, kept)


def _refuse_at_once(form: PointForm, view: PointView, said: str, ticked: tuple[str, ...]) -> None:
    """Refuse a form that says nothing, or that waited on a phone and was pressed before anybody can have looked."""
    if said not in WORDS_SEEN and not (ticked and view.point.judged in PICKED) and not SAYS_NOTHING & {*request.form}:
        form.refuse(message("Say what you saw: meets it, not yet, or stop."))
    if any(name in form and form[name].data not in form[name].choices for name in UNITS):
        form.refuse(message("Press the unit of the reading, then send it again."))
    if late.was_too_quick() and said != "unsafe":
        form.refuse(watching.TOO_SOON)


def _kept(at: AtPoint, look: Look) -> PointSeen | Practical | Refused | AskBack:
    """Return the point as judged; of one piece of several that is saved, the practical with it."""
    k, by, now = guard.kitchen(), guard.person().id, guard.now()
    if "save" not in request.form or look.tick is not None:
        return watching.see_point(k, by=by, practical=at.hand.practical.id, look=look, now=now)
    one = replace(look, readings=look.readings[at.places.start : at.places.stop])
    return keep_piece(k, by=by, practical=at.hand.practical.id, look=one, piece=at.piece, now=now)


def _after_watch(at: AtPoint, form: PointForm) -> AtPoint:
    """Return the point on screen after a stopwatch of it was pressed; as it is where none was."""
    if "watch" not in request.form or not form.is_sent_right():
        return at
    pressed = stopwatch.pressed(at.hand.practical, at.view.point, form) or at.hand.practical
    return replace(at, hand=replace(at.hand, practical=pressed))


def _ticked(point: Point) -> tuple[str, ...]:
    """Return what was ticked of what is expected, or the one picked; of one thing alone the verdict says it."""
    if is_heard_whole(point) and request.form.get("seen") == "meets it":
        return (point.choices[0].id,)
    sent = request.form.getlist("said")
    return tuple(choice.id for choice in point.choices if choice.id in sent)


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


def _refuse_point(form: PointForm, refused: Refused, said: str) -> None:
    """Put a refusal at the reading it names; a *not yet* over good readings asks for a note, so it goes there."""
    name = "note" if refused.field == "tick" and said == "not yet" else refused.field
    form.refuse(Refused(refused.reason, refused.who_can, name if name in form else ""))


def _after(hand: InHand, number: int, kept: PointSeen | Practical) -> Response:
    """Return the way on: to the next piece, to the next point not seen, or to the record."""
    if isinstance(kept, Practical):
        return go(".point", practical=hand.practical.id, number=number)
    following = None if kept.seen == "unsafe" else hand.next_unseen(after=number, besides=kept.point)
    if following is None:
        return go("assessor.signing.record", practical=hand.practical.id)
    return go(".point", practical=hand.practical.id, number=following)


def _point_page(at: AtPoint, form: PointForm, kept: PointSeen | None, ticked: tuple[str, ...]) -> Response:
    """Return the page of one point, and keep that it was sent: a verdict takes a look first."""
    hand, number, view, watched = at.hand, at.number, at.view, at.watched
    practical, technique, asked = hand.practical, hand.technique, view.point
    following, own_url = hand.next_unseen(after=number), url_for(".see", practical=practical.id, number=number)
    hrefs = [url_for(".point", practical=practical.id, number=number, piece=n + 1) for n in range(asked.pieces)]
    page = PageSent(asked.id, _device(), asked.text, technique.words_edition, asked.choices)
    if not late.is_to_be_kept():
        watching.show_point(guard.kitchen(), by=practical.by, practical=practical.id, page=page, now=guard.now())
    others = [*range(number + 1, len(hand.points) + 1), *range(1, number)]
    unseen = [other for other in others if hand.point(other).id not in practical.done]
    return show(
        PointPage(
            title=message("Point {number}: {text}", number=number, text=asked.text),
            own_url=own_url,
            cook_name=called(practical.cook),
            technique_title=technique.title,
            number=number,
            count=len(hand.points),
            kind=type_word(asked),
            text=asked.text,
            line=None if view.pair else view.line,
            pair=view.pair,
            law=line_to_meet(replace(asked, limit=asked.law, then=None, pieces=1), reading.now().units),
            tools=tools_of(asked),
            choices=choice_views(asked, ticked, _drawings(technique, asked)),
            is_heard_whole=is_heard_whole(asked),
            slots=slots_of(watched, at.piece, hrefs),
            piece=at.piece + 1,
            saves=""
            if _is_judged_at(at)
            else message("Save {number} of {pieces}", number=at.piece + 1, pieces=asked.pieces),
            needed=needed_words(asked),
            picks=asked.judged in PICKED,
            again=again_words(watched) if watched.may_be_made_again else "",
            is_made_again=request.method == "GET" or "made_again" in request.form,
            units=view.units,
            decimal_mark=guard.kitchen().file.settings.decimal_mark,
            keys_last=view.last_key,
            form=form,
            watches={} if late.is_to_be_kept() else stopwatch.watch_views(practical, asked, form),
            seen=kept.seen if kept else "",
            is_stopped=bool(practical.unsafe),
            end_href=_to_point(practical, None) if practical.is_missed and following is not None else "",
            points=_point_lines(hand, number),
            record_href=_to_point(practical, None) if following is None or practical.unsafe else "",
            go_on=(*hrefs[at.piece + 1 :], *(_to_point(practical, other) for other in (*unseen, None))),
            stop_url=url_for("assessor.stopping.stop", practical=practical.id, point=asked.id),
        )
    )


def _is_judged_at(at: AtPoint) -> bool:
    """Return whether the piece on screen has the verdict: once all others are read, and the last one of a kept page.

    What was saved without network before it is sent before it.
    """
    return at.is_last or (late.is_to_be_kept() and at.piece == at.view.point.pieces - 1)


def _not_looked_at(practical: Practical, point: Point) -> Text:
    """Return what is said of a point nobody has looked at: where it was seen before, or that it is to be seen."""
    watched = practical.point(point.id)
    told = seen_before_told(watched, naming().person) if watched else ()
    return told[0] if told else message("to see")


def _drawings(technique: Technique, point: Point) -> dict[str, Markup]:
    """Return the three pictures of the step that has them, by side; none where it has none."""
    step = next((step for step in technique.steps if step.id == point.step), None)
    if step is None or step.triple is None:
        return {}
    folder, pictures = guard.kitchen().drawings, step.triple.pictures
    drawn = {side: figure(folder, technique.id, picture.figure) for side, picture in pictures}
    return {side: Markup(svg) for side, svg in drawn.items() if svg}  # noqa: S704 - the kitchen's own content


def _asked_page(hand: InHand, number: int, form: PointForm, asked: AskBack) -> Response:
    """Return the page that asks one reading back, with everything typed so far on it."""
    point, answer_name = hand.point(number), f"answer_{asked.reading + 1}"
    if not point.lines:
        abort(404)
    return show(
        AskedPage(
            title=message("Which reading was it?") if len(asked.ways) > 1 else message("Is that what you read?"),
            own_url=url_for(".see", practical=hand.practical.id, number=number),
            cook_name=called(hand.practical.cook),
            number=number,
            count=len(hand.points),
            text=point.text,
            which=form[f"reading_{asked.reading + 1}"].label.text if point.pieces > 1 or point.then else "",
            asked=asked_of(point.line_of(asked.reading), asked, reading.now().units),
            answer_name=answer_name,
            typed=_typed_with_it(form, "seen", "save", "note", besides=answer_name),
            form=form,
        )
    )


def _unsafe_page(hand: InHand, number: int, form: PointForm) -> Response:
    """Return the page that asks once more whether it was unsafe; nothing is kept yet."""
    own_url, where = url_for(".see", practical=hand.practical.id, number=number), _where(hand, number)
    return unsafe_page(hand.practical, form, own_url=own_url, back=own_url, where=where, typed=_typed_with_it(form))


def _where(hand: InHand, number: int) -> Message:
    """Return which point is on screen."""
    return message("Point {number} of {count}", number=number, count=len(hand.points))


def _typed_with_it(form: PointForm, *names: str, besides: str = "") -> tuple[tuple[str, str], ...]:
    """Return what was typed at a point, to be sent again: readings, unit and answers, and what else is named."""
    fields = [field.name for field in form.readings]
    answers = (name.replace("reading", "answer") for name in fields)
    own = (*names, "piece", *fields, *UNITS, *(name for name in answers if name != besides))
    typed = [(name, request.form[name]) for name in (*own, "made_again") if request.form.get(name)]
    return (*typed, *(("said", id) for id in request.form.getlist("said")))


def _point_lines(hand: InHand, here: int) -> tuple[PointLine, ...]:
    """Return the list of points with what was seen."""
    practical = hand.practical
    return tuple(
        PointLine(
            href=url_for(".point", practical=practical.id, number=number),
            text=point.text,
            seen=practical.seen[point.id].seen if point.id in practical.seen else _not_looked_at(practical, point),
            is_here=number == here,
        )
        for number, point in enumerate(hand.points, 1)
    )
