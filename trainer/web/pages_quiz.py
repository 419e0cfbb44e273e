"""The quiz: one question a page, each answer kept at once; then the result, which can be shown again from the book."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, abort, url_for
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions import sitting as sittings
from trainer.actions.outcome import Refused
from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.technique import Technique
from trainer.web import guard, study
from trainer.web.forms import KitchenForm, PlainForm, TextField
from trainer.web.page import Page, go, show
from trainer.web.results import Line, in_words, lines_of

pages = Blueprint("quiz", __name__)


class AnswerForm(KitchenForm):
    """One answer, as typed."""

    answer = TextField("Your answer")


@dataclass(frozen=True, kw_only=True)
class QuizPage(Page):
    """Before the quiz: how many questions, how many right, and that answers are kept."""

    template: ClassVar[str] = "cook/quiz.html"
    technique: Technique
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class QuestionPage(Page):
    """One question of a sitting."""

    template: ClassVar[str] = "cook/question.html"
    technique_title: str
    number: int
    total: int
    question: Question
    back_url: str
    form: AnswerForm


@dataclass(frozen=True, slots=True)
class Given:
    """A question with the answer given so far."""

    number: int
    text: str
    answer: str
    url: str


@dataclass(frozen=True, kw_only=True)
class HandInPage(Page):
    """Every answer given, before it is handed in."""

    template: ClassVar[str] = "cook/hand_in.html"
    given: tuple[Given, ...]
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class ResultPage(Page):
    """The outcome of a finished sitting, each question with its worked solution."""

    template: ClassVar[str] = "cook/result.html"
    technique: Technique
    right: int
    asked: int
    need: int
    passed: bool
    sat_at: object
    lines: tuple[Line, ...]
    wrong: int
    is_waiting: bool
    form: PlainForm


@pages.route("/techniques/<technique>/quiz", methods=["GET", "POST"])
@guard.needs("cook")
def start(technique: str) -> AnyResponse:
    """Say what the quiz is; on a POST, start it or go on with the one that is open."""
    found, form = study.technique_named(technique), PlainForm()
    if not found.questions:
        abort(404, f"{found.title} has no quiz.")
    if form.is_sent_right():
        started = sittings.start_sitting(
            guard.kitchen(),
            cook=guard.person().id,
            technique=found.id,
            seed=secrets.randbelow(2**31),
            now=guard.now(),
            key=form.key.data,
        )
        if not isinstance(started, Refused):
            return go("quiz.sitting", sitting=started.id)
        form.refuse(started)
    return show(QuizPage(title=f"{found.title}: quiz", technique=found, form=form))


@pages.get("/sittings/<sitting>")
@guard.needs("cook")
def sitting(sitting: str) -> AnyResponse:
    """Go on where the sitting stands: the first question without an answer, or handing in."""
    found = _own_sitting(sitting)
    place = found.next_unanswered
    if place is None:
        return go("quiz.hand_in", sitting=found.id)
    return go("quiz.question", sitting=found.id, number=place + 1)


@pages.route("/sittings/<sitting>/<int:number>", methods=["GET", "POST"])
@guard.needs("cook")
def question(sitting: str, number: int) -> AnyResponse:
    """Ask one question; on a POST, keep the answer and go on."""
    found = _own_sitting(sitting)
    if not 1 <= number <= len(found.questions):
        abort(404)
    form = AnswerForm(answer=found.answers.get(number - 1, ""))
    if form.is_sent_right():
        kept = sittings.answer_question(
            guard.kitchen(), sitting=found.id, index=number - 1, text=form.answer.data, now=guard.now()
        )
        problem = kept if isinstance(kept, Refused) else kept.problem
        if not problem:
            return go("quiz.sitting", sitting=found.id)
        form.refuse(problem if isinstance(problem, Refused) else Refused(problem, field="answer"))
    page = QuestionPage(
        title=f"Question {number} of {len(found.questions)}",
        technique_title=guard.kitchen().content.techniques[found.technique].title,
        number=number,
        total=len(found.questions),
        question=found.questions[number - 1],
        back_url=_back_from(found.id, number),
        form=form,
    )
    return show(page)


@pages.route("/sittings/<sitting>/hand-in", methods=["GET", "POST"])
@guard.needs("cook")
def hand_in(sitting: str) -> AnyResponse:
    """Show every answer; on a POST, finish the sitting."""
    form = PlainForm()
    there = guard.kitchen().file.book.find_key(form.key.data or "")
    if there and there.kind == "quiz_sat" and there.cook == guard.person().id:
        return go("quiz.result", entry=there.id)
    found = _own_sitting(sitting)
    if form.is_sent_right():
        outcome = sittings.finish_sitting(guard.kitchen(), sitting=found.id, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go("quiz.result", entry=outcome.entry.id, saved=outcome.entry.id)
        form.refuse(outcome)
    given = tuple(
        Given(
            place + 1,
            asked.text,
            in_words(found.answers.get(place, ""), asked.answer.unit, {c.key: c.text for c in asked.choices}),
            url_for("quiz.question", sitting=found.id, number=place + 1),
        )
        for place, asked in enumerate(found.questions)
    )
    return show(HandInPage(title="Your answers", given=given, form=form))


@pages.get("/results/<entry>")
@guard.needs("cook")
def result(entry: str) -> AnyResponse:
    """Show a finished sitting again, exactly as the book has it."""
    found = guard.kitchen().file.book.find(entry)
    if found is None or found.kind != "quiz_sat" or found.cook != guard.person().id:
        abort(404)
    return show(_result_page(found))


def _result_page(found: Entry) -> ResultPage:
    body = found.body
    technique = study.technique_named(body["technique"])
    standing = guard.kitchen().progress().record(found.cook)
    lines = lines_of(found, guard.kitchen().file.settings.decimal_mark)
    return ResultPage(
        title=f"{technique.title}: {body['right']} of {body['asked']} right",
        technique=technique,
        right=body["right"],
        asked=body["asked"],
        need=body["need"],
        passed=body["passed"],
        sat_at=found.at,
        lines=lines,
        wrong=sum(not line.is_right for line in lines),
        is_waiting=any(asked.technique == technique.id and asked.entry > found.id for asked in standing.asked),
        form=PlainForm(),
    )


def _back_from(sitting: str, number: int) -> str:
    if number == 1:
        return url_for("cook.rail")
    return url_for("quiz.question", sitting=sitting, number=number - 1)


def _own_sitting(name: str) -> sittings.Sitting:
    found = sittings.find_sitting(guard.kitchen(), name)
    if found is None or found.cook != guard.person().id:
        abort(404, "This quiz is not open. It was handed in, or it is not yours.")
    return found
