"""Studying a step in the hand: its clock, and questions to try that count for nothing."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.step_clocks import StepClock, start_clock
from trainer.kitchen.quiz.choice_grading import is_half
from trainer.kitchen.quiz.drawing import CannotDraw, draw_question
from trainer.kitchen.quiz.drawn import context_of
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Grade, Question
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.technique import Technique
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.answer_field import AnswerField
from trainer.web.cook.results import in_words
from trainer.web.cook.saying import question_said
from trainer.web.forms import PlainForm, SumForm
from trainer.web.offline import late
from trainer.web.page import Page, go, show

pages = Blueprint("study", __name__)
LONGEST_SEED = 11


class TryForm(SumForm):
    """An answer that is graded at once and kept nowhere."""

    answer = AnswerField(message("Your answer"))


@dataclass(frozen=True, kw_only=True)
class TryPage(Page):
    """One question to try, and where it was answered, how it went."""

    template: ClassVar[str] = "cook/try.html"
    technique: Technique
    question: Question
    unit: Text
    point: str
    seed: int
    outcome: Grade | None
    given: Text
    right: Text
    again_url: str
    next_url: str
    to_listen: tuple[Text, ...]
    form: TryForm


@pages.post("/techniques/<technique>/steps/<int:number>/clock")
@guard.needs("cook")
def clock(technique: str, number: int) -> AnyResponse:
    """Start the clock of a step, or one of several; one that runs of it starts anew."""
    found = tasks.technique_named(technique)
    if not 1 <= number <= len(found.steps):
        abort(404)
    step, asked = found.steps[number - 1], request.form.get("clock", "")
    if not step.seconds and not step.timers:
        abort(404)
    line = "" if asked == "start" else asked
    if PlainForm().is_sent_right():
        chosen = StepClock(step.id, line)
        start_clock(guard.kitchen(), cook=guard.person().id, technique=found, clock=chosen, now=guard.now())
    return go("cook.step", technique=found.id, number=number)


@pages.get("/techniques/<technique>/try/<family>")
@guard.needs("cook")
def try_one(technique: str, family: str) -> AnyResponse:
    """Ask one question of a family this technique asks; with an answer in the address, say how it went."""
    found = tasks.technique_named(technique)
    context = context_of(found, family, reading.content().question_words)._replace(units=reading.now().units)
    if context.setting is None:
        abort(404)
    seed = _seed()
    try:
        question = tell(draw_question(family, seed, context), context)
    except CannotDraw:
        abort(404)
    form = TryForm()
    outcome = _outcome(form, question)
    families = [each.family for each in found.questions]
    following = families[(families.index(family) + 1) % len(families)]
    another = None if late.is_to_be_kept() else _another()
    mark = guard.kitchen().file.settings.decimal_mark
    choices = {choice.key: choice.text for choice in question.every_choice}
    value, unit = question.answer.value, question.answer.unit
    page = TryPage(
        title=message("{technique}: try one", technique=found.title),
        technique=found,
        question=question,
        unit=unit_word(unit),
        point=mark,
        seed=seed,
        outcome=outcome,
        given=in_words(form.answer.data or "", unit, choices),
        right=in_words(question.key, unit, choices) if choices else with_unit(value, unit, mark),
        again_url=url_for("study.try_one", technique=found.id, family=family, seed=_another()),
        next_url=url_for("study.try_one", technique=found.id, family=following, seed=another),
        to_listen=question_said(question, form.answer.data or ""),
        form=form,
    )
    return show(page)


def _outcome(form: TryForm, question: Question) -> Grade | None:
    """Return how the answer in the address is graded; None where there is none, or it has to be asked again."""
    if not form.answer.data or is_half(question, form.answer.data):
        return None
    graded = grade(question, form.answer.data, guard.kitchen().file.settings.decimal_mark)
    if graded.problem is None:
        return graded
    form.put("answer", graded.problem)
    return None


def _seed() -> int:
    typed = request.args.get("seed", "")
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) <= LONGEST_SEED else _another()


def _another() -> int:
    return secrets.randbelow(2**31)
