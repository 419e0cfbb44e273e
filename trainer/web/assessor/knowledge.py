"""What a cook knows, skill by skill, for whoever teaches them: the table, questions read aloud, practice, a wait."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import TextAreaField

from trainer.actions import practising
from trainer.actions.outcome import Refused
from trainer.kitchen.knowledge import SkillStanding, skills_on, state_in_words
from trainer.kitchen.progress import Person
from trainer.kitchen.record import CookRecord
from trainer.kitchen.technique import Technique
from trainer.kitchen.wrong_methods import methods_answered
from trainer.messages import Text, message
from trainer.web import guard, proving, reading
from trainer.web.filters import weekday
from trainer.web.page import Page, go, here, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import NeedsText

pages = Blueprint("knowledge", __name__, url_prefix="/knows")


@dataclass(frozen=True, slots=True)
class SkillRow:
    """One skill of a cook: how often asked and right, how many in a row, where it stands, since when and to when."""

    title: str
    asked: int
    right: int
    in_a_row: str
    state: Text
    since: Text
    good_until: Text
    practise_url: str
    lift_url: str


@dataclass(frozen=True, slots=True)
class TechniqueTable:
    """A technique with its skills; `findings` are wrong methods that showed twice, `aloud_url` asks its questions."""

    title: str
    rows: tuple[SkillRow, ...]
    findings: tuple[Text, ...]
    aloud_url: str


@dataclass(frozen=True, kw_only=True)
class KnowledgePage(Page):
    """All a cook was asked, technique by technique."""

    template: ClassVar[str] = "assessor/knowledge.html"
    name: str
    tables: tuple[TechniqueTable, ...]
    back_url: str


class PracticeForm(LatelyForm):
    """What an assessor says of the practice, or nothing."""

    words = TextAreaField(message("What you went through, if you want to say it"))
    secret = secret_field()


class WaitForm(LatelyForm):
    """Why a wait is lifted."""

    reason = TextAreaField(message("Reason"), [NeedsText(message("Write the reason. It stays in the book."))])
    secret = secret_field()


@dataclass(frozen=True, kw_only=True)
class SkillActPage(Page):
    """One act about one skill of a cook."""

    template: ClassVar[str] = "manager/act.html"
    heading: Text
    lead: Text
    own_url: str
    back: str
    back_words: Text
    words: Text
    form: LatelyForm


@pages.get("/<cook>")
@guard.needs("person")
def table(cook: str) -> AnyResponse:
    """Show what a cook was asked, to whoever teaches or manages."""
    who, roles = taught_person(cook), _own_roles()
    day = guard.kitchen().day(guard.today())
    record = guard.kitchen().progress().record(cook).as_of(day.on)
    techniques = [technique for technique in reading.content().techniques.values() if technique.knowledge]
    tables = (_table(who, technique, record, day.on, roles) for technique in techniques)
    page = KnowledgePage(
        title=message("{name}: questions", name=who.name),
        name=who.name,
        tables=tuple(each for each in tables if each.rows),
        back_url=url_for("manager.person", cook=cook) if "manager" in roles else url_for("assessor.waiting"),
    )
    return show(page)


def _own_roles() -> frozenset[str]:
    """Return the reader's roles, or answer that this is for those who teach or manage."""
    roles = guard.kitchen().progress().roles(guard.person().id, guard.today())
    if not roles & {"assessor", "manager"}:
        abort(403)
    return roles


def taught_person(cook: str) -> Person:
    """Return the person of an address, or answer that there is none."""
    found = guard.kitchen().people().get(cook)
    if found is None:
        abort(404)
    return found


def _table(who: Person, technique: Technique, record: CookRecord, on: date, roles: frozenset[str]) -> TechniqueTable:
    """Return a technique's table; without rows where the cook has not read it, and so is asked nothing of it."""
    if not any(line.technique == technique.id for line in record.read):
        return TechniqueTable(technique.title, (), (), "")
    skills = {skill.id for skill in technique.knowledge}
    standings = skills_on(record, technique.knowledge, on)
    words = reading.content().question_words
    asks = "assessor" in roles and who.id != guard.person().id
    return TechniqueTable(
        title=technique.title,
        rows=tuple(_row(who.id, technique, one, record, roles) for one in standings),
        findings=tuple(shown.for_teacher(words) for shown in methods_answered(record.skills, skills)),
        aloud_url=url_for("aloud.ask", cook=who.id, technique=technique.id) if asks else "",
    )


def _row(cook: str, technique: Technique, one: SkillStanding, record: CookRecord, roles: frozenset[str]) -> SkillRow:
    answers = [line for line in record.skills if line.skill == one.id and line.seed >= 0]
    skill, held, me = one.skill, one.skill.passes[-1] if one.is_passed else None, guard.person().id
    practises = skill.stage == "drill" and "assessor" in roles and cook != me
    lifts = skill.state(one.on) == "wait" and "manager" in roles and cook != me
    return SkillRow(
        title=one.asked.title,
        asked=len(answers),
        right=sum(line.act == "right" for line in answers),
        in_a_row=f"{skill.run}/{skill.need}" if skill.state(one.on) in ("drill", "wait") else "",
        state=state_in_words(skill, one.on),
        since=weekday(held.since) if held else "",
        good_until=weekday(skill.good_until) if skill.good_until else "",
        practise_url=url_for("knowledge.practised", cook=cook, technique=technique.id, skill=one.id)
        if practises
        else "",
        lift_url=url_for("knowledge.lift", cook=cook, skill=one.id) if lifts else "",
    )


@pages.route("/<cook>/<technique>/<skill>/practised", methods=["GET", "POST"])
@guard.needs("assessor")
def practised(cook: str, technique: str, skill: str) -> AnyResponse:
    """Write down that the assessor went through a skill with a cook."""
    who, form = taught_person(cook), PracticeForm()
    asked = reading.content().skills.get(skill)
    if asked is None:
        abort(404)
    if form.is_sent_right() and proving.is_proved(form):
        given = practising.GivenPractice(cook, technique, skill, form.words.data or "")
        done = practising.practise_with(
            guard.kitchen(), by=guard.person().id, given=given, now=guard.now(), key=form.key.data
        )
        if not isinstance(done, Refused):
            return go("knowledge.table", cook=cook, saved=done.entry.id)
        form.refuse(done)
    heading = message("You practised {skill} with {name}", skill=asked.title, name=who.name)
    lead = message("One worked, one half worked together, one alone. Then the questions go on another day.")
    return _act_page(form, cook, heading, lead, message("We went through it"))


@pages.route("/<cook>/waits/<skill>/lift", methods=["GET", "POST"])
@guard.needs("manager")
def lift(cook: str, skill: str) -> AnyResponse:
    """Lift the wait in a skill, with a reason."""
    who, form = taught_person(cook), WaitForm()
    asked = reading.content().skills.get(skill)
    if asked is None:
        abort(404)
    if form.is_sent_right() and proving.is_proved(form):
        wait = practising.SkillWait(cook, skill, form.reason.data or "")
        done = practising.lift_skill_wait(
            guard.kitchen(), by=guard.person().id, wait=wait, now=guard.now(), key=form.key.data
        )
        if not isinstance(done, Refused):
            return go("knowledge.table", cook=cook, saved=done.entry.id)
        form.refuse(done)
    heading = message("Lift the wait of {name}: {title}", name=who.name, title=asked.title)
    lead = message("The questions may then go on today. The row that is needed stays as long as it is.")
    return _act_page(form, cook, heading, lead, message("Lift the wait"))


def _act_page(form: LatelyForm, cook: str, heading: Text, lead: Text, words: Text) -> AnyResponse:
    proving.leave_out(form)
    page = SkillActPage(
        title=heading,
        heading=heading,
        lead=lead,
        own_url=here(),
        back=url_for("knowledge.table", cook=cook),
        back_words=message("Back, and change nothing"),
        words=words,
        form=form,
    )
    return show(page)
