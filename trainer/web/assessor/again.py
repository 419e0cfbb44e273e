"""Looking at a sign-off again, blind: what the book draws, the same checklist, only then what the first one found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, ClassVar

from flask import Blueprint, Response, abort, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField, RadioField, TextAreaField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import StopValidation

from trainer.actions.outcome import Refused
from trainer.actions.rechecking import CHOOSE_ONE, SAY_WHAT, Recheck, look_again, offered_to
from trainer.kitchen.authority import ASSESSOR
from trainer.kitchen.book import Entry
from trainer.kitchen.rechecks import DAYS_BACK, FOUND, NotYet, SignOff, not_yet_open
from trainer.kitchen.technique import Content
from trainer.kitchen.watched_points import WatchedPoint
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.assessor.again_view import ToDecide, to_decide_of
from trainer.web.assessor.in_hand import naming
from trainer.web.assessor.practical_view import type_word
from trainer.web.assessor.record_view import Record, line_in_words, record_kept
from trainer.web.entry_words import told
from trainer.web.filters import moment, weekday
from trainer.web.forms import KitchenForm
from trainer.web.manager.acts import TicksField
from trainer.web.page import Page, go, show
from trainer.web.recheck_words import FOUND_WORDS
from trainer.web.typed_fields import AtMost
from trainer.web.watched_words import point_lines, points_in

pages = Blueprint("again", __name__, url_prefix="/look-again")


class AgainForm(KitchenForm):
    """What was found: the points that were not right, the word, a note, and the secret of whoever signs it."""

    points = TicksField(message("Tick what was not as it should be"), choices=[], validate_choice=False)
    found = RadioField(
        message("What you found"),
        choices=[SelectChoice("same", message("As it should be")), SelectChoice("not yet", message("Not yet"))],
        validate_choice=False,
    )
    note = TextAreaField(message("Note"), [AtMost(500)])
    secret = PasswordField(message("Your PIN or passphrase"))

    def validate_found(self, field: RadioField) -> None:
        """Ask for one of the two before the secret is asked for."""
        if field.data not in FOUND:
            raise StopValidation(CHOOSE_ONE)

    def validate_note(self, field: TextAreaField) -> None:
        """Ask for what was not there before the secret is asked for."""
        if self.found.data == "not yet" and not (field.data or "").strip():
            raise StopValidation(SAY_WHAT)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A sign-off to look at again: whose, at what, of which day; not by whom."""

    cook_name: Text
    what: Text
    when: Text
    href: str


@dataclass(frozen=True, slots=True)
class PointToSee:
    """One point of the checklist as it was asked, and nothing of what was seen; `language` is that of its words."""

    text: str
    language: str
    kind: Text
    line: Text


@dataclass(frozen=True, kw_only=True)
class DrawnPage(Page):
    """What the book draws for whoever asks, and by which rule."""

    template: ClassVar[str] = "assessor/again_drawn.html"
    drawn: tuple[Drawn, ...]
    rule: Text
    back: str
    back_words: Text


@dataclass(frozen=True, kw_only=True)
class AgainPage(Page):
    """The checklist without what was seen, and what is found now."""

    template: ClassVar[str] = "assessor/again.html"
    own_url: str
    back: str
    stop_href: str
    cook_name: Text
    technique_title: str
    edition: int
    case_words: str
    part_words: str
    station_title: str
    points: tuple[PointToSee, ...]
    form: AgainForm


@dataclass(frozen=True, kw_only=True)
class AgainKeptPage(Page):
    """What was found, saved; beside it what the first one found, and what is to be done where it did not hold."""

    template: ClassVar[str] = "assessor/again_kept.html"
    heading: Text
    lines: tuple[Text, ...]
    apart: tuple[Text, ...]
    to_decide: ToDecide | None
    is_manager: bool
    record: Record
    on_href: str
    on_words: Text


@pages.get("")
@guard.needs("assessor or manager")
def listed() -> Response:
    """Show what the book draws for whoever asks."""
    k = guard.kitchen()
    offered = offered_to(k, guard.person().id, k.day(guard.today()))
    return show(
        DrawnPage(
            title=message("Look at a sign-off again"),
            drawn=tuple(map(_drawn, offered)),
            rule=message(
                "Drawn by lot from the sign-offs of the last {days} days; nobody picks. Each has the same chance, and "
                "loading this page again draws the same ones. Not among them: what you signed or saw, what is about "
                "you, and stations where you could not sign.",
                days=DAYS_BACK,
            ),
            back=url_for("most.wrong"),
            back_words=message("Back to what goes wrong"),
        )
    )


def _drawn(one: SignOff) -> Drawn:
    line = one.line
    return Drawn(
        cook_name=naming().person(one.cook),
        what=message(
            "{technique}, {station}", technique=naming().technique(line.technique), station=_station(line.station)
        ),
        when=message("Signed off {day}", day=weekday(line.on)),
        href=url_for(".look", practical=line.entry),
    )


def _station(station: str) -> str:
    return naming().station(station)


@pages.get("/<practical>")
@guard.needs("assessor or manager")
def look(practical: str) -> AnyResponse:
    """Show the checklist of one that was drawn; of any other, what is drawn."""
    k, me = guard.kitchen(), guard.person().id
    if all(one.line.entry != practical for one in offered_to(k, me, k.day(guard.today()))):
        return go(".listed")
    return _look_page(_first(practical), AgainForm())


@pages.post("/<practical>")
@guard.needs("assessor or manager")
def save(practical: str) -> AnyResponse:
    """Keep what was found; only then is shown what the first one found."""
    k, me, form, first = guard.kitchen(), guard.person().id, AgainForm(), _first(practical)
    there = k.file.book.find_key(form.key.data)
    if there is not None and there.kind == "rechecked" and there.by == me:
        return go(".kept", entry=there.id)
    _offer(form, first)
    if form.is_sent_right() and proving.is_proved(form):
        recheck = Recheck(first.id, form.found.data or "", tuple(form.points.data or ()), form.note.data or "")
        outcome = look_again(k, by=me, recheck=recheck, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go(".kept", entry=outcome.entry.id)
        form.refuse(outcome)
    return _look_page(first, form)


@pages.get("/kept/<entry>")
@guard.needs("assessor or manager")
def kept(entry: str) -> Response:
    """Show what was found both times, to whoever looked again and to managers."""
    k = guard.kitchen()
    found = k.file.book.find(entry)
    if found is None or found.kind != "rechecked" or not (guard.is_manager() or found.by == guard.person().id):
        abort(404)
    first = _first(found.body["practical"])
    waiting = next((one for one in not_yet_open(k.day(guard.today())) if one.found.entry == entry), None)
    is_assessor = ASSESSOR in guard.roles()
    word = FOUND_WORDS.get(found.body["found"], found.body["found"])
    return show(
        AgainKeptPage(
            title=message("Looked at again: {found}", found=word),
            heading=message("Saved {at}", at=moment(found.at)),
            lines=told(found, naming()).lines,
            apart=_apart(found, first),
            to_decide=_to_decide(waiting),
            is_manager=guard.is_manager(),
            record=record_kept(first, naming()),
            on_href=url_for(".listed") if is_assessor else url_for("most.wrong", _anchor="looked-again"),
            on_words=message("What is drawn next") if is_assessor else message("Back to what goes wrong"),
        )
    )


def _to_decide(waiting: NotYet | None) -> ToDecide | None:
    return to_decide_of(waiting, naming()) if waiting else None


def _apart(found: Entry, first: Entry) -> tuple[Text, ...]:
    """Return the points the two saw otherwise, each with what was seen of it the first time."""
    ticked, points = set(found.body["points"]), points_in(first.body, reading.content())
    seen_otherwise = [point for point in points if (point.word == "meets it") == (point.id in ticked)]
    return tuple(point_lines(seen_otherwise, naming().person))


def _first(practical: str) -> Entry:
    """Return the practical that is looked at again, or answer that there is none."""
    found = guard.kitchen().file.book.find(practical)
    if found is None or found.kind != "practical_watched":
        abort(404)
    return found


def _points(first: Entry) -> tuple[WatchedPoint, ...]:
    """Return the points of a practical as they were asked: what was seen of them is taken out."""
    points = points_in(first.body, reading.content())
    return tuple(replace(point, looks=(), gathered=(), before=None) for point in points)


def _offer(form: AgainForm, first: Entry) -> None:
    form.points.choices = [SelectChoice(point.id, point.words) for point in _points(first)]


def _look_page(first: Entry, form: AgainForm) -> Response:
    """Return the page of one look again."""
    _offer(form, first)
    body, cook = first.body, naming().person(first.cook)
    technique = reading.content().techniques.get(body["technique"])
    cases = {each.id: each.text for each in technique.cases} if technique else {}
    parts = {each.id: each.title for each in technique.parts} if technique else {}
    return show(
        AgainPage(
            title=message("Look again: {cook}", cook=cook),
            own_url=url_for(".save", practical=first.id),
            back=url_for(".listed"),
            stop_href=url_for("off.take", cook=first.cook, station=body["station"]),
            cook_name=cook,
            technique_title=naming().technique(body["technique"]),
            edition=body["edition"],
            case_words=_chosen(body, "case", cases),
            part_words=_chosen(body, "part", parts),
            station_title=_station(body["station"]),
            points=_to_see(first),
            form=form,
        )
    )


def _chosen(body: Mapping[str, Any], name: str, taught: Mapping[str, str]) -> str:
    """Return the case or the part that was watched, as it is taught now, else as the book has it; "" for none."""
    chosen, words = body.get(name, ("", ""))
    return taught.get(chosen, str(words))


def _to_see(first: Entry) -> tuple[PointToSee, ...]:
    """Return the points of a practical as they were asked; in the reader's words where today's still are those."""
    technique = first.body["technique"]
    now, told_now = _texts(guard.kitchen().content, technique), _texts(reading.content(), technique)
    return tuple(
        PointToSee(
            text=told_now[point.id] if (is_same := now.get(point.id) == point.words) else point.words,
            language="" if is_same else point.language,
            kind=type_word(point),
            line=line_in_words(point),
        )
        for point in _points(first)
    )


def _texts(content: Content, technique: str) -> Mapping[str, str]:
    found = content.techniques.get(technique)
    return {point.id: point.text for point in found.checklist} if found else {}
