"""Questions one at a time: the next one, what came of an answer, and practice where a skill wants it first."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import asking_skills, practising
from trainer.actions.answering import answer_entry
from trainer.actions.outcome import Refused, Saved
from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.choice_grading import is_half
from trainer.kitchen.quiz.drawing import SEEDS, CannotDraw
from trainer.kitchen.quiz.drills import HalfWorked, half_worked
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import CannotTell
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.technique import AskedSkill, Technique
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.answer_view import AnswerLine, answer_line, outcome_words, own_last_wrong
from trainer.web.cook.question_view import AnswerForm, Asking, NothingMorePage, kept, question_page
from trainer.web.cook.results import in_words
from trainer.web.page import Page, go, show

pages = Blueprint("questions", __name__)


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
    found = asking_skills.asked_today(k, cook=me, day=day)
    if found.next:
        technique, skill = found.next
        return go("questions.ask", technique=technique, skill=skill)
    title = message("No more questions today")
    return show(
        NothingMorePage(title=title, technique=None, lines=(), practise_url="", said="", leave_url=url_for("cook.rail"))
    )


@pages.route("/techniques/<technique>/questions", methods=["GET", "POST"])
@guard.needs("cook")
def ask(technique: str) -> AnyResponse:
    """Ask the next question of a technique, or of a skill the address names; on a POST, keep the answer."""
    found, form = tasks.technique_named(technique), AnswerForm()
    if not found.knowledge:
        return go("quiz.start", technique=found.id)
    asking = Asking(guard.person().id, url_for("questions.ask", technique=found.id), url_for("cook.rail"))
    if form.is_sent_right():
        done = kept(form, asking)
        if isinstance(done, Saved):
            return go("questions.answered", entry=done.entry.id)
    return question_page(found, form, asking)


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
            if not is_half(_alone(asked, form.number), form.answer.data or ""):
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
    context = asking_skills.context_for(asked, reading.content(), reading.now().units)
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
    return practising.alone(asked, seed, reading.content(), reading.now().units)


def _right_answer(question: Question) -> Text:
    if question.choices:
        return in_words(question.key, "", {choice.key: choice.text for choice in question.every_choice})
    return with_unit(question.answer.value, question.answer.unit, guard.kitchen().file.settings.decimal_mark)
