"""Practice first, in three parts: the own question worked, one half worked, one alone. Then what waits."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, request
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions import asking_skills, practising
from trainer.actions.outcome import Refused, Saved
from trainer.kitchen.quiz.choice_grading import is_half
from trainer.kitchen.quiz.drawing import SEEDS, CannotDraw
from trainer.kitchen.quiz.drills import HalfWorked, half_worked
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import CannotTell
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.skills.skill import Skill
from trainer.kitchen.technique import AskedSkill, Technique
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.answer_view import AnswerLine, own_last_wrong, row_words, waits_words
from trainer.web.cook.helping import Help, help_for
from trainer.web.cook.next_question import NextStep, next_after
from trainer.web.cook.question_view import AnswerForm
from trainer.web.cook.results import in_words
from trainer.web.cook.saying import question_said
from trainer.web.offline import late
from trainer.web.page import Page, go, show

pages = Blueprint("practice", __name__)
OWN, HALF, ALONE = 1, 2, 3
"""The parts of a practice."""
NO_PRACTICE = message("There is no practice for that.")


class AloneForm(AnswerForm):
    """What was written to the question done alone, and which question was read."""

    mark = HiddenField()


@dataclass(frozen=True, kw_only=True)
class OwnPage(Page):
    """The first of three: the cook's own question worked; or who goes through it with the cook."""

    template: ClassVar[str] = "cook/practise_own.html"
    technique: Technique
    skill: AskedSkill
    needs_person: bool
    line: AnswerLine
    help: Help
    to_listen: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class HalfPage(Page):
    """The second of three: a question half worked, to finish on paper."""

    template: ClassVar[str] = "cook/practise_half.html"
    technique: Technique
    skill: AskedSkill
    needs_person: bool
    half: HalfWorked
    half_answer: Text
    help: Help
    to_listen: tuple[Text, ...]


@dataclass(frozen=True, kw_only=True)
class AlonePage(Page):
    """The last of three: a question to do alone, as often as it takes; `tried` is what was said of the one before."""

    template: ClassVar[str] = "cook/practise.html"
    technique: Technique
    skill: AskedSkill
    alone: Question
    unit: Text
    point: str
    tried: Text
    worked: tuple[Text, ...]
    to_listen: tuple[Text, ...]
    form: AloneForm


@dataclass(frozen=True, kw_only=True)
class DonePage(Page):
    """Practice is done: the last one worked, what waits and until when, whom the cook has asked."""

    template: ClassVar[str] = "cook/practised.html"
    technique: Technique
    skill: AskedSkill
    last: Question | None
    row: Text
    waits: Text
    help: Help
    next: NextStep
    to_listen: tuple[Text, ...]


@pages.route("/techniques/<technique>/practice/<skill>", methods=["GET", "POST"])
@guard.needs("cook")
def practise(technique: str, skill: str) -> AnyResponse:
    """Practise a skill, part by part; on a POST, judge the one done alone: right, it is kept, and the skill goes on."""
    found, asked = _asked(technique, skill)
    form, standing = AloneForm(), _standing(asked)
    if request.method == "POST":
        return _judged(found, asked, form)
    part = request.args.get("part", "")
    line = own_last_wrong(asked.id)
    if part == str(ALONE) and not standing.by_person:
        return _alone_page(found, asked, form)
    if part == str(HALF) or line is None:
        return _half_page(found, asked, standing)
    page = OwnPage(
        title=message("Practice: {skill}", skill=asked.title),
        technique=found,
        skill=asked,
        needs_person=standing.by_person,
        line=line,
        help=help_for(found.id, skill=asked.id),
        to_listen=(line.says, line.text, *line.solution),
    )
    return show(page)


@pages.get("/techniques/<technique>/practice/<skill>/done")
@guard.needs("cook")
def done(technique: str, skill: str) -> AnyResponse:
    """Say what waits after a practice, and until when; with the last question, where the address names its entry."""
    found, asked = _asked(technique, skill)
    standing, today = _standing(asked), guard.today()
    if standing.stage == "drill":
        return go("practice.practise", technique=found.id, skill=asked.id)
    last, row, waits = _last(asked), row_words(standing, today), waits_words(standing, today)
    page = DonePage(
        title=message("Practice is done: {skill}", skill=asked.title),
        technique=found,
        skill=asked,
        last=last,
        row=row,
        waits=waits,
        help=help_for(found.id, skill=asked.id),
        next=next_after(found.id, asked.id),
        to_listen=(message("Practice is done"), *(last.solution[-1:] if last else ()), row, waits),
    )
    return show(page)


def _asked(technique: str, skill: str) -> tuple[Technique, AskedSkill]:
    """Return the technique and the skill of an address, or answer that there is no practice for that."""
    found, asked = tasks.technique_named(technique), reading.content().skills.get(skill)
    if asked is None or asked.id not in {one.id for one in found.knowledge}:
        abort(404, NO_PRACTICE)
    return found, asked


def _standing(asked: AskedSkill) -> Skill:
    k = guard.kitchen()
    return practising.standing_in(guard.person().id, asked, k.day(guard.today())).skill


def _judged(found: Technique, asked: AskedSkill, form: AloneForm) -> AnyResponse:
    """Keep the practice where the question done alone is right; else say how it was worked, and ask another."""
    tried: Text = ""
    worked: tuple[Text, ...] = ()
    if form.is_sent_right():
        now = reading.now()
        one = practising.OneAlone(
            guard.person().id,
            found.id,
            asked.id,
            max(form.number, 0),
            form.text,
            now.language,
            now.units,
            form.mark.data or "",
            late.done_at(),
        )
        outcome = practising.practise_alone(guard.kitchen(), tried=one, now=guard.now(), key=form.key.data)
        if isinstance(outcome, Saved):
            return go("practice.done", technique=found.id, skill=asked.id, saved=outcome.entry.id)
        if isinstance(outcome, Refused):
            form.refuse(outcome)
        elif outcome.judged.problem is not None:
            if not is_half(_alone(asked, form.number), form.text):
                form.refuse(Refused(outcome.judged.problem, field="answer"))
        elif late.is_late():
            form.refuse(joined([message("That was not right."), outcome.judged.says, message("Open it for another.")]))
        else:
            tried, worked = outcome.judged.says, _alone(asked, form.number).solution
            form.seed.data, form.answer.data = str((form.number + 1) % SEEDS), ""
    return _alone_page(found, asked, form, tried, worked)


def _alone_page(
    found: Technique, asked: AskedSkill, form: AloneForm, tried: Text = "", worked: tuple[Text, ...] = ()
) -> AnyResponse:
    seed = form.number if form.number >= 0 else secrets.randbelow(SEEDS)
    form.skill.data, form.seed.data = asked.id, str(seed)
    alone = _alone(asked, seed)
    form.mark.data = practising.mark_of(asked, seed, guard.kitchen().content, reading.now().units)
    page = AlonePage(
        title=message("Practice: {skill}", skill=asked.title),
        technique=found,
        skill=asked,
        alone=alone,
        unit=unit_word(alone.answer.unit),
        point=guard.kitchen().file.settings.decimal_mark,
        tried=tried,
        worked=worked,
        to_listen=(tried, *worked, *question_said(alone, form.answer.data or "")),
        form=form,
    )
    return show(page)


def _half_page(found: Technique, asked: AskedSkill, standing: Skill) -> AnyResponse:
    context = asking_skills.context_for(asked, reading.content(), reading.now().units)
    try:
        half = half_worked(asked.setting.family, standing.drill, secrets.randbelow(SEEDS), context)
    except (CannotDraw, CannotTell):
        abort(404, NO_PRACTICE)
    page = HalfPage(
        title=message("Practice: {skill}", skill=asked.title),
        technique=found,
        skill=asked,
        needs_person=standing.by_person,
        half=half,
        half_answer=_right_answer(half.question),
        help=help_for(found.id, skill=asked.id),
        to_listen=(*question_said(half.question), *half.lines, half.begun),
    )
    return show(page)


def _alone(asked: AskedSkill, seed: int) -> Question:
    try:
        return practising.alone(asked, seed, reading.content(), reading.now().units)
    except (CannotDraw, CannotTell):
        abort(404, NO_PRACTICE)


def _last(asked: AskedSkill) -> Question | None:
    """Return the question that was done alone last, by the entry the address names; None where it names none."""
    entry = guard.kitchen().file.book.find(request.args.get("saved", ""))
    if entry is None or entry.kind != "drill_done" or entry.cook != guard.person().id:
        return None
    return _alone(asked, entry.body["seeds"][-1]) if entry.body["skill"] == asked.id else None


def _right_answer(question: Question) -> Text:
    if question.choices:
        return in_words(question.key, "", {choice.key: choice.text for choice in question.every_choice})
    return with_unit(question.answer.value, question.answer.unit, guard.kitchen().file.settings.decimal_mark)
