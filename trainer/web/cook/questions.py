"""Questions one at a time: the next one, what came of an answer, and practice where a skill wants it first."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions import asking_skills, practising
from trainer.actions.answering import AskedAgain, Given, answer, answer_entry
from trainer.actions.asking_skills import OpenQuestion, Withdrawn
from trainer.actions.next_tasks import techniques_in_order
from trainer.actions.outcome import Refused, Saved
from trainer.kitchen.book import Entry
from trainer.kitchen.knowledge import SkillStanding, state_in_words
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.drills import HalfWorked, half_worked
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import CannotTell
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.skills.asking import is_wanted
from trainer.kitchen.technique import AskedSkill, Technique
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.answer_view import AnswerLine, answer_line, outcome_words, own_last_wrong, row_words
from trainer.web.forms import KitchenForm, TextField
from trainer.web.page import Page, go, show

pages = Blueprint("questions", __name__)
SEEDS = asking_skills.SEEDS


class AnswerForm(KitchenForm):
    """One answer, as typed, and to which question: the skill, and the seed it was drawn by."""

    answer = TextField(message("Your answer"))
    skill = HiddenField()
    seed = HiddenField()

    @property
    def number(self) -> int:
        """Return the seed; -1 where it is none."""
        typed = self.seed.data or ""
        return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 12 else -1


@dataclass(frozen=True, kw_only=True)
class AskedPage(Page):
    """One question of a skill; `withdrawn` says that the one before was taken out."""

    template: ClassVar[str] = "cook/asked.html"
    technique: Technique
    skill: AskedSkill
    row: Text
    question: Question
    unit: Text
    point: str
    withdrawn: Text
    form: AnswerForm


@dataclass(frozen=True, slots=True)
class SkillLine:
    """A skill in a list: its title and how far it is."""

    title: str
    state: Text
    is_passed: bool


@dataclass(frozen=True, kw_only=True)
class NothingMorePage(Page):
    """No answer would count today: how far each skill is, and what may be done."""

    template: ClassVar[str] = "cook/nothing_more.html"
    technique: Technique | None
    lines: tuple[SkillLine, ...]
    practise_url: str
    said: Text


@dataclass(frozen=True, kw_only=True)
class AnsweredPage(Page):
    """What came of one answer: right or wrong, in a sentence, worked; where the skill stands; what is next."""

    template: ClassVar[str] = "cook/answered.html"
    skill_title: str
    line: AnswerLine
    word: Text
    says: Text
    state: tuple[Text, ...]
    next_words: Text
    next_url: str


@dataclass(frozen=True, kw_only=True)
class PractisePage(Page):
    """Practice first: the cook's own question worked, one half worked, one to do alone."""

    template: ClassVar[str] = "cook/practise.html"
    technique: Technique
    skill: AskedSkill
    needs_person: bool
    line: AnswerLine | None
    half: HalfWorked
    half_answer: Text
    alone: Question
    unit: Text
    point: str
    tried: Text
    worked: tuple[Text, ...]
    form: AnswerForm


@pages.get("/questions")
@guard.needs("cook")
def today() -> AnyResponse:
    """Go to the next question of today, whatever technique it belongs to; say so where there is none."""
    k, me, day = guard.kitchen(), guard.person().id, guard.kitchen().day(guard.today())
    found = asking_skills.asked_today(k, cook=me, day=day, techniques=techniques_in_order(k, cook=me, on=day.on))
    if found.next:
        technique, skill = found.next
        return go("questions.ask", technique=technique, skill=skill)
    title = message("No more questions today")
    return show(NothingMorePage(title=title, technique=None, lines=(), practise_url="", said=""))


@pages.route("/techniques/<technique>/questions", methods=["GET", "POST"])
@guard.needs("cook")
def ask(technique: str) -> AnyResponse:
    """Ask the next question of a technique, or of a skill the address names; on a POST, keep the answer."""
    found, form = tasks.technique_named(technique), AnswerForm()
    if not found.knowledge:
        return go("quiz.start", technique=found.id)
    if form.is_sent_right():
        kept = _kept(form)
        if isinstance(kept, Saved):
            return go("questions.answered", entry=kept.entry.id)
        form.refuse(Refused(kept.problem, field="answer") if isinstance(kept, AskedAgain) else kept)
    return _question_page(found, form)


def _kept(form: AnswerForm) -> Saved | AskedAgain | Refused:
    """Return what became of an answer."""
    now = reading.now()
    given = Given(
        guard.person().id, form.skill.data or "", form.number, form.answer.data or "", now.language, now.units
    )
    return answer(guard.kitchen(), given=given, now=guard.now(), key=form.key.data)


def _question_page(found: Technique, form: AnswerForm) -> AnyResponse:
    k, me, day = guard.kitchen(), guard.person().id, guard.kitchen().day(guard.today())
    standings = asking_skills.standings_of(cook=me, technique=k.content.techniques[found.id], day=day)
    named = form.skill.data or request.args.get("skill", "")
    asked = next((one for one in standings if one.id == named), None)
    if asked is None or not (is_wanted(asked.skill, day.on) or form.problems()):
        asked = asking_skills.next_skill(k, cook=me, technique=k.content.techniques[found.id], day=day)
    if asked is None:
        return show(_nothing_page(found, standings))
    opened = _opened(found, asked)
    if isinstance(opened, Refused):
        said = joined(part for part in (opened.reason, opened.who_can) if part)
        return show(_nothing_page(found, standings, said), 400)
    question, withdrawn = opened
    form.skill.data, form.seed.data = asked.id, str(question.drawn.seed)
    told = asking_skills.question_told(question, reading.content(), k.content)
    skill = reading.content().skills.get(asked.id, asked.asked)
    page = AskedPage(
        title=message("{skill}: a question", skill=skill.title),
        technique=found,
        skill=skill,
        row=row_words(asked.skill, day.on),
        question=told,
        unit=unit_word(told.answer.unit),
        point=k.file.settings.decimal_mark,
        withdrawn=withdrawn,
        form=form,
    )
    return show(page)


def _opened(found: Technique, asked: SkillStanding) -> tuple[OpenQuestion, Text] | Refused:
    """Return the open question of a skill, and what was said of one that had to be withdrawn."""
    said: Text = ""
    for _ in range(2):
        opened = asking_skills.open_question(
            guard.kitchen(),
            cook=guard.person().id,
            technique=found.id,
            skill=asked.id,
            seed=secrets.randbelow(SEEDS),
            now=guard.now(),
        )
        if not isinstance(opened, Withdrawn):
            return opened if isinstance(opened, Refused) else (opened, said)
        said = opened.words
    return Refused(said)


def _nothing_page(found: Technique, standings: tuple[SkillStanding, ...], said: Text = "") -> NothingMorePage:
    skills, on = reading.content().skills, guard.today()
    waiting = next((one.id for one in standings if one.skill.stage == "drill"), "")
    all_passed = all(one.is_passed for one in standings)
    done = message("All questions passed") if all_passed else message("No more questions today")
    title = message("Not today") if said else done
    return NothingMorePage(
        title=title,
        technique=found,
        lines=tuple(
            SkillLine(skills.get(one.id, one.asked).title, state_in_words(one.skill, on), one.is_passed)
            for one in standings
        ),
        practise_url=url_for("questions.practise", technique=found.id, skill=waiting) if waiting else "",
        said=said,
    )


@pages.get("/answers/<entry>")
@guard.needs("cook")
def answered(entry: str) -> AnyResponse:
    """Show what came of an answer, as the book has it, and where the skill stands today."""
    found = answer_entry(guard.kitchen(), entry, guard.person().id)
    if found is None:
        abort(404)
    skill = reading.content().skills.get(found.body["skill"])
    title = skill.title if skill else found.body["skill"]
    word, says, state = outcome_words(found)
    next_words, next_url = _next_after(found)
    return show(
        AnsweredPage(
            title=message("{skill}: {word}", skill=title, word=word),
            skill_title=title,
            line=answer_line(found),
            word=word,
            says=says,
            state=state,
            next_words=next_words,
            next_url=next_url,
        )
    )


def _next_after(found: Entry) -> tuple[Text, str]:
    """Return the one act after an answer: practice, the next question, or back."""
    k, me, day = guard.kitchen(), guard.person().id, guard.kitchen().day(guard.today())
    technique = k.content.techniques.get(found.body["technique"])
    asked = k.content.skills.get(found.body["skill"])
    if technique is None or asked is None:
        return message("Back to my rail"), url_for("cook.rail")
    standing = practising.standing_in(me, asked, day).skill
    if standing.stage == "drill":
        return message("Practice first"), url_for("questions.practise", technique=technique.id, skill=asked.id)
    if asking_skills.next_skill(k, cook=me, technique=technique, day=day):
        return message("Next question"), url_for("questions.ask", technique=technique.id)
    if tasks.may_ask_to_be_watched(technique):
        return message("On to what is next"), url_for("cook.technique", technique=technique.id)
    return message("Back to my rail"), url_for("cook.rail")


@pages.route("/techniques/<technique>/practice/<skill>", methods=["GET", "POST"])
@guard.needs("cook")
def practise(technique: str, skill: str) -> AnyResponse:
    """Practise a skill: on a POST, judge the question done alone; right, it is kept and the skill goes on."""
    found, form = tasks.technique_named(technique), AnswerForm()
    asked = reading.content().skills.get(skill)
    if asked is None or asked.id not in {one.id for one in found.knowledge}:
        abort(404, message("There is no practice for that."))
    tried: Text = ""
    worked: tuple[Text, ...] = ()
    if form.is_sent_right():
        now = reading.now()
        one = practising.OneAlone(
            guard.person().id, found.id, asked.id, max(form.number, 0), form.answer.data or "", now.language, now.units
        )
        done = practising.practise_alone(guard.kitchen(), tried=one, now=guard.now(), key=form.key.data)
        if isinstance(done, Saved):
            return go("questions.ask", technique=found.id, saved=done.entry.id)
        if isinstance(done, Refused):
            form.refuse(done)
        elif done.judged.problem is not None:
            form.refuse(Refused(done.judged.problem, field="answer"))
        else:
            tried, worked = done.judged.says, _alone(asked, form.number).solution
            form.seed.data, form.answer.data = str((form.number + 1) % SEEDS), ""
    return show(_practise_page(found, asked, form, tried, worked))


def _practise_page(
    found: Technique, asked: AskedSkill, form: AnswerForm, tried: Text, worked: tuple[Text, ...]
) -> PractisePage:
    k, day = guard.kitchen(), guard.kitchen().day(guard.today())
    standing = practising.standing_in(guard.person().id, asked, day).skill
    seed = form.number if form.number >= 0 else secrets.randbelow(SEEDS)
    form.skill.data, form.seed.data = asked.id, str(seed)
    context = asking_skills.context_for(asked, reading.content())
    try:
        half = half_worked(asked.setting.family, standing.drill, seed + 1, context)
        alone = _alone(asked, seed)
    except (CannotDraw, CannotTell):
        abort(404, message("There is no practice for that."))
    return PractisePage(
        title=message("Practice: {skill}", skill=asked.title),
        technique=found,
        skill=asked,
        needs_person=standing.by_person,
        line=own_last_wrong(asked.id),
        half=half,
        half_answer=_right_answer(half.question),
        alone=alone,
        unit=unit_word(alone.answer.unit),
        point=k.file.settings.decimal_mark,
        tried=tried,
        worked=worked,
        form=form,
    )


def _alone(asked: AskedSkill, seed: int) -> Question:
    return practising.alone(asked, seed, reading.content())


def _right_answer(question: Question) -> Text:
    if question.right_choice is not None:
        return question.right_choice.text
    return with_unit(question.answer.value, question.answer.unit, guard.kitchen().file.settings.decimal_mark)
