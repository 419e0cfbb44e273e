"""Questions asked aloud: an assessor reads one to a cook, in either language, and keys in what the cook says."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import PasswordField

from trainer.actions import asking_skills, signing_in
from trainer.actions.asking_skills import asked_today, next_skill
from trainer.actions.outcome import Saved
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Technique
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, proving, reading
from trainer.web.assessor.knowledge import SkillActPage, taught_person
from trainer.web.cook.answer_view import answer_line, told_of
from trainer.web.cook.question_view import Aloud, AnswerForm, Asking, kept, question_page
from trainer.web.forms import KitchenForm
from trainer.web.page import Page, go, here, show

pages = Blueprint("aloud", __name__, url_prefix="/knows")
MINUTES = 30
"""For how long one proof of the assessor is enough to go on asking."""


class BeginForm(KitchenForm):
    """Who asks aloud proves who they are, where the last proof is old."""

    secret = PasswordField(message("Your PIN or passphrase"))


@dataclass(frozen=True, slots=True)
class CookLine:
    """A cook who can be asked something today: how much, and where that begins."""

    name: str
    words: Text
    url: str


@dataclass(frozen=True, kw_only=True)
class WhomPage(Page):
    """Whom to ask aloud today."""

    template: ClassVar[str] = "assessor/aloud_whom.html"
    cooks: tuple[CookLine, ...]


@pages.get("/aloud")
@guard.needs("assessor")
def whom() -> AnyResponse:
    """List the cooks to whom a question that counts can be asked today."""
    k, me = guard.kitchen(), guard.person().id
    day, people = k.day(guard.today()), k.people()
    lines = (_line(people[cook], day) for cook in k.progress().at_stations_on(day.on) if cook != me and cook in people)
    return show(WhomPage(title=message("Ask questions aloud"), cooks=tuple(line for line in lines if line)))


def _line(who: Person, day: Snapshot) -> CookLine | None:
    """Return a cook with what is asked first: what today asks of them, else any technique they have read."""
    k = guard.kitchen()
    found = asked_today(k, cook=who.id, day=day)
    if found.next:
        technique, skill = found.next
        words = plural("{number} question today", "{number} questions today", found.at_most)
        return CookLine(who.name, words, url_for("aloud.ask", cook=who.id, technique=technique, skill=skill))
    for taught in k.content.techniques.values():
        if not taught.knowledge or asking_skills.may_answer(who.id, taught, day):
            continue
        if next_skill(k, cook=who.id, technique=taught, day=day):
            title = reading.content().techniques[taught.id].title
            return CookLine(who.name, title, url_for("aloud.ask", cook=who.id, technique=taught.id))
    return None


@pages.route("/<cook>/<technique>/aloud", methods=["GET", "POST"])
@guard.needs("assessor")
def ask(cook: str, technique: str) -> AnyResponse:
    """Ask a cook the next question aloud, and keep what they say: their own answer, asked by the assessor."""
    who, found = taught_person(cook), reading.content().techniques.get(technique)
    if found is None or not found.knowledge:
        abort(404)
    if "secret" in request.form or not _is_proved():
        return _begin(who, found)
    form, me = AnswerForm(), guard.person()
    own = url_for("aloud.ask", cook=cook, technique=technique)
    asking = Asking(cook, own, url_for("knowledge.table", cook=cook), _aloud(who), me.id)
    if form.is_sent_right():
        done = kept(form, asking)
        if isinstance(done, Saved):
            return go("aloud.ask", cook=cook, technique=technique, saved=done.entry.id)
    return question_page(found, form, asking)


def _aloud(who: Person) -> Aloud:
    """Return what the page says of who asks whom, and what came of the answer before."""
    first = who.name.split()[0]
    asks = message(
        "{assessor} asks {cook} aloud. Read it as it stands; do not help.", assessor=guard.person().name, cook=first
    )
    return Aloud(
        first,
        asks,
        _last(who.id),
        message("{name} says {letters}", name=first, letters="…"),
        message("{name} says this", name=first),
    )


def _last(cook: str) -> Text:
    """Return what came of the answer the address names, to be read to the cook; empty where it names none."""
    entry = guard.kitchen().file.book.find(request.args.get("saved", ""))
    if entry is None or entry.kind != "answered" or (entry.cook, entry.by) != (cook, guard.person().id):
        return ""
    line = answer_line(entry)
    told = told_of(entry, line)
    return joined([message("{word}.", word=told.word), *([] if line.is_right else [told.says, *line.solution])])


def _is_proved() -> bool:
    """Return whether the assessor proved who they are lately; an answer under way may come twice as late."""
    signed = guard.signed_in()
    minutes = MINUTES if request.method == "GET" else 2 * MINUTES
    return signed is not None and signing_in.proved_within(signed.session, minutes, guard.now())


def _begin(who: Person, found: Technique) -> AnyResponse:
    """Ask the assessor for the secret before the first question."""
    form = BeginForm()
    if form.is_sent_right() and proving.proved_now(form) is not None:
        return go("aloud.ask", cook=who.id, technique=found.id)
    heading = message("Ask {name} aloud: {title}", name=who.name, title=found.title)
    return show(
        SkillActPage(
            title=heading,
            heading=heading,
            lead=message(
                "What {name} says is kept as {name}’s own answer. The book says that you asked.", name=who.name
            ),
            own_url=here(),
            back=url_for("knowledge.table", cook=who.id),
            back_words=message("Back, and change nothing"),
            words=message("Begin"),
            form=form,
        )
    )
