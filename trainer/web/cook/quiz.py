"""The quiz: one question a page, each answer kept at once; then the result, which can be shown again from the book."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, abort, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField

from trainer.actions import sitting as sittings
from trainer.actions.outcome import Refused
from trainer.actions.sitting_drafts import PutAside, Sitting, questions_told
from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.choice_grading import is_half
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.drawn import context_of
from trainer.kitchen.quiz.drills import Drill, drill_for
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.round_robin import safety_places
from trainer.kitchen.quiz.sequential_test import first_pass
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.technique import Technique
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.answer_field import AnswerField
from trainer.web.cook.results import AnswerLine, in_words, lines_of, seen_sitting
from trainer.web.cook.saying import question_said
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.page import Page, go, show
from trainer.web.result_view import Outcome, methods_of, outcome_today

pages = Blueprint("quiz", __name__)


class AnswerForm(KitchenForm):
    """One answer, as typed or chosen."""

    answer = AnswerField(message("Your answer"))


class StartForm(PlainForm):
    """One button; `told` is the sitting that cannot be opened any more, of which the page told."""

    told = HiddenField()


@dataclass(frozen=True, kw_only=True)
class QuizPage(Page):
    """Before the quiz: how many questions, how many right, and that answers are kept; or from when it may be sat.

    `is_open`: one is begun already and goes on. `aside` tells of one begun earlier that cannot be opened any more.
    """

    template: ClassVar[str] = "cook/quiz.html"
    technique: Technique
    straight: int
    safety_percent: int
    sits_from: date | None
    is_open: bool
    aside: Text
    form: StartForm


@dataclass(frozen=True, kw_only=True)
class QuestionPage(Page):
    """One question of a sitting."""

    template: ClassVar[str] = "cook/question.html"
    technique_title: str
    number: int
    total: int
    decides: bool
    left: int
    question: Question
    unit: Text
    point: str
    back_url: str
    to_listen: tuple[Text, ...]
    form: AnswerForm


@dataclass(frozen=True, slots=True)
class Given:
    """A question with the answer given so far."""

    number: int
    text: Text
    answer: Text
    url: str


@dataclass(frozen=True, kw_only=True)
class HandInPage(Page):
    """Every answer given, before it is handed in."""

    template: ClassVar[str] = "cook/hand_in.html"
    given: tuple[Given, ...]
    decides: bool
    form: PlainForm


@dataclass(frozen=True, slots=True)
class Practice:
    """A wrong method shown in two or more answers: what is said about it, in how many, and a drill if there is one."""

    says: str
    title: str
    times: int
    drill_url: str


@dataclass(frozen=True, kw_only=True)
class ResultPage(Page):
    """The outcome of a finished sitting, each question with its worked solution."""

    template: ClassVar[str] = "cook/result.html"
    technique: str
    technique_title: str
    is_taught: bool
    outcome: Outcome
    sat_at: object
    lines: tuple[AnswerLine, ...]
    wrong: int
    practice: tuple[Practice, ...]
    sits_from: date | None
    is_waiting: bool
    form: PlainForm


@dataclass(frozen=True, kw_only=True)
class DrillPage(Page):
    """One question fully worked, then one of which the end is left to do."""

    template: ClassVar[str] = "cook/drill.html"
    technique: Technique
    drill: Drill
    wrong_answer: Text
    right_answer: Text
    again_url: str


@pages.route("/techniques/<technique>/quiz", methods=["GET", "POST"])
@guard.needs("cook")
def start(technique: str) -> AnyResponse:
    """Say what the quiz is; on a POST, start it or go on with the one that is open."""
    found, form = tasks.technique_named(technique), StartForm()
    if found.knowledge:
        return go("questions.ask", technique=found.id)
    if not found.questions:
        abort(404, message("{title} has no quiz.", title=found.title))
    if form.is_sent_right():
        started = sittings.start_sitting(
            guard.kitchen(),
            cook=guard.person().id,
            technique=found.id,
            seed=secrets.randbelow(2**31),
            now=guard.now(),
            key=form.key.data,
            told=form.told.data or "",
        )
        if not isinstance(started, Refused):
            return go("quiz.sitting", sitting=started.id)
        form.refuse(started)
    aside = _aside_of(found.id)
    form.told.data = aside.id if aside else ""
    straight = first_pass(found.plan) if found.plan else 0
    sits_from = sittings.sits_again_from(guard.person().id, found.id, guard.kitchen().day(guard.today()))
    title = message("{title}: quiz", title=found.title)
    page = QuizPage(
        title=title,
        technique=found,
        straight=straight,
        safety_percent=_floor_shown(found),
        sits_from=sits_from,
        is_open=sittings.open_sitting(guard.kitchen(), cook=guard.person().id, technique=found.id) is not None,
        aside=aside.words if aside else "",
        form=form,
    )
    return show(page)


def _aside_of(technique: str) -> PutAside | None:
    """Return the reader's sitting of a technique that cannot be opened any more, if there is one."""
    return next((aside for aside in tasks.asides() if aside.technique == technique), None)


def _floor_shown(technique: Technique) -> int:
    """Return the floor among the questions about safety, where only some are: else the whole quiz says it all."""
    places = safety_places(technique)
    return technique.safety_percent if any(places) and not all(places) else 0


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
    """Ask one question; on a POST, keep the answer and go on. In a quiz that decides, only the next one is asked."""
    ended = _ended_by_itself(sitting)
    if ended:
        return go("quiz.result", entry=ended)
    found = _own_sitting(sitting)
    if not 1 <= number <= len(found.questions):
        abort(404)
    if found.decides and number - 1 != found.next_unanswered:
        return go("quiz.sitting", sitting=found.id)
    form = AnswerForm(answer=found.answers.get(number - 1, ""))
    asked = questions_told(found, reading.content())[number - 1]
    if form.is_sent_right() and not is_half(asked, form.answer.data):
        kept = sittings.answer_question(
            guard.kitchen(),
            sitting=found.id,
            index=number - 1,
            text=form.answer.data,
            now=guard.now(),
            read_in=(reading.now().language, reading.now().units),
        )
        problem = kept if isinstance(kept, Refused) else kept.problem
        if isinstance(kept, sittings.Answered) and kept.entry is not None:
            return go("quiz.result", entry=kept.entry.id, saved=kept.entry.id)
        if not problem:
            return go("quiz.sitting", sitting=found.id)
        form.refuse(problem if isinstance(problem, Refused) else Refused(problem, field="answer"))
    place = {"number": number, "total": len(found.questions)}
    page = QuestionPage(
        title=message("Question {number} of {total} at most", **place)
        if found.decides
        else message("Question {number} of {total}", **place),
        technique_title=tasks.technique_named(found.technique).title,
        number=number,
        total=len(found.questions),
        decides=found.decides,
        left=len(found.questions) - number + 1,
        question=asked,
        unit=unit_word(asked.answer.unit),
        point=guard.kitchen().file.settings.decimal_mark,
        back_url=_back_from(found.id, number),
        to_listen=question_said(asked, form.answer.data or ""),
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
    if found.decides and found.next_unanswered is not None:
        return go("quiz.sitting", sitting=found.id)
    if form.is_sent_right():
        outcome = sittings.finish_sitting(guard.kitchen(), sitting=found.id, now=guard.now(), key=form.key.data)
        if not isinstance(outcome, Refused):
            return go("quiz.result", entry=outcome.entry.id, saved=outcome.entry.id)
        form.refuse(outcome)
    return show(HandInPage(title=message("Your answers"), given=_given(found), decides=found.decides, form=form))


def _given(found: Sitting) -> tuple[Given, ...]:
    """Return the answers given so far; in a quiz of fixed length also where none is given yet."""
    questions = questions_told(found, reading.content())
    places = sorted(found.answers) if found.decides else range(len(questions))
    given = []
    for place in places:
        asked = questions[place]
        choices = {choice.key: choice.text for choice in asked.every_choice}
        answer = in_words(found.answers.get(place, ""), asked.answer.unit, choices)
        given.append(Given(place + 1, asked.text, answer, url_for("quiz.question", sitting=found.id, number=place + 1)))
    return tuple(given)


@pages.get("/results/<entry>")
@guard.needs("cook")
def result(entry: str) -> AnyResponse:
    """Show a finished sitting again, exactly as the book has it."""
    found = guard.kitchen().file.book.find(entry)
    if found is None or found.kind != "quiz_sat" or found.cook != guard.person().id:
        abort(404)
    return show(_result_page(found))


@pages.get("/techniques/<technique>/drills/<family>/<method>")
@guard.needs("cook")
def drill(technique: str, family: str, method: str) -> AnyResponse:
    """Show a drill for a wrong method: a question fully worked, then one to finish; its seed stands in the address."""
    found, typed = tasks.technique_named(technique), request.args.get("seed", "")
    seed = int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 12 else secrets.randbelow(2**31)
    made = _drill(found, family, method, seed)
    if made is None:
        abort(404, message("There is no drill for that."))
    page = DrillPage(
        title=message("Practise: {family}", family=reading.content().question_words.title(family)),
        technique=found,
        drill=made,
        wrong_answer=_wrong_answer(made),
        right_answer=_right_answer(made.half),
        again_url=url_for(
            "quiz.drill", technique=found.id, family=family, method=method, seed=secrets.randbelow(2**31)
        ),
    )
    return show(page)


def _wrong_answer(drill: Drill) -> Text:
    """Return what the wrong method answers to the worked question, in words; a choice ends as a sentence does."""
    if drill.distractor is not None:
        return drill.distractor.text
    if drill.worked.choices:
        return ""
    value = next(wrong.value for wrong in drill.worked.wrong_methods if wrong.name == drill.method)
    return with_unit(value, drill.worked.answer.unit, guard.kitchen().file.settings.decimal_mark)


def _right_answer(question: Question) -> Text:
    """Return the right answer to a question, in words."""
    if question.choices:
        return in_words(question.key, "", {choice.key: choice.text for choice in question.every_choice})
    return with_unit(question.answer.value, question.answer.unit, guard.kitchen().file.settings.decimal_mark)


def _drill(technique: Technique, family: str, method: str, seed: int) -> Drill | None:
    """Return a drill drawn as the technique sets the family; None where there is none for this method."""
    context = context_of(technique, family, reading.content().question_words)
    try:
        return drill_for(family, method, seed, context) if context.setting else None
    except CannotDraw:
        return None


def _practice(technique: Technique, entry: Entry) -> tuple[Practice, ...]:
    """Return the wrong methods that showed twice by the end of this sitting, each with its drill."""
    words = reading.content().question_words
    return tuple(
        Practice(
            words.for_cook(shown.family, shown.name),
            words.title(shown.family),
            shown.times,
            _drill_url(technique, shown.family, shown.name),
        )
        for shown in methods_of(entry.cook, technique.id, entry.id)
        if shown.family in FAMILIES
    )


def _drill_url(technique: Technique, family: str, method: str) -> str:
    """Return the address of a drill; empty where there is none."""
    seed = secrets.randbelow(2**31)
    if _drill(technique, family, method, seed) is None:
        return ""
    return url_for("quiz.drill", technique=technique.id, family=family, method=method, seed=seed)


def _result_page(found: Entry) -> ResultPage:
    name, outcome, shown = found.body["technique"], outcome_today(found), seen_sitting(found)
    technique = reading.content().techniques.get(name)
    title = shown.title if shown else technique.title if technique else name
    standing = guard.kitchen().progress().record(found.cook)
    voided = standing.questions_void_on(guard.today())
    lines = lines_of(found, guard.kitchen().file.settings.decimal_mark, voided)
    return ResultPage(
        title=message("{title}: {right} of {asked} right", title=title, right=outcome.right, asked=outcome.asked),
        technique=name,
        technique_title=title,
        is_taught=technique is not None,
        outcome=outcome,
        sat_at=found.at,
        lines=lines,
        wrong=sum(not line.is_right for line in lines),
        practice=_practice(technique, found) if technique else (),
        sits_from=sittings.sits_again_from(found.cook, name, guard.kitchen().day(guard.today())),
        is_waiting=any(asked.technique == name and asked.entry > found.id for asked in standing.asked),
        form=PlainForm(),
    )


def _back_from(sitting: str, number: int) -> str:
    if number == 1:
        return url_for("cook.rail")
    return url_for("quiz.question", sitting=sitting, number=number - 1)


def _ended_by_itself(sitting: str) -> str:
    """Return the entry of a quiz that decides and has ended, as when its last answer is sent twice; else nothing."""
    ended = sittings.ended_by_itself(guard.kitchen(), sitting)
    return ended.id if ended is not None and ended.cook == guard.person().id else ""


def _own_sitting(name: str) -> Sitting:
    found = sittings.find_sitting(guard.kitchen(), name)
    if found is None or found.cook != guard.person().id:
        aside = next((each for each in tasks.asides() if each.id == name), None)
        abort(404, aside.words if aside else message("This quiz is not open. It was handed in, or it is not yours."))
    return found
