"""The same questions in a reader's words: drawn again from their seed, with every number as it was.

What a seed gives hangs on the words of the technique, so a question is never drawn from a translation. It is drawn from
the kitchen's own words again, each of which carries what it is in the reader's words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from trainer.kitchen.quiz.drawing import GRADER, CannotDraw, draw_question
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.technique import Fault, QuestionSetting, Step, Technique
from trainer.recipe_math.saying import in_other_words, joined

LIST = "|"


def told_in_both(own: Technique, told: Technique) -> Technique:
    """Return a technique that draws the same questions as its own telling does, each word told otherwise as well."""
    if told is own:
        return own
    settings = {setting.family: setting for setting in told.questions}
    return replace(
        own,
        title=in_other_words(own.title, told.title),
        steps=tuple(map(_step, own.steps, told.steps)),
        faults=tuple(map(_fault, own.faults, told.faults)),
        questions=tuple(_setting(setting, settings.get(setting.family, setting)) for setting in own.questions),
    )


def _step(own: Step, told: Step) -> Step:
    return replace(own, text=in_other_words(own.text, told.text))


def _fault(own: Fault, told: Fault) -> Fault:
    shows, cause, cure = (
        in_other_words(getattr(own, part), getattr(told, part)) for part in ("shows", "cause", "cure")
    )
    return replace(own, shows=shows, cause=cause, cure=cure)


def _setting(own: QuestionSetting, told: QuestionSetting) -> QuestionSetting:
    words = {name: _alternatives(text, told.words.get(name, text)) for name, text in own.words.items()}
    return replace(own, words=words)


def _alternatives(own: str, told: str) -> str:
    """Return a list to draw from with each of its words told otherwise; as it is where the two are not as long."""
    words, others = own.split(LIST), told.split(LIST)
    return joined(map(in_other_words, words, others), LIST) if len(words) == len(others) else own


def asked_again(question: Question, technique: Technique, grader: int = GRADER) -> Question:
    """Return a question as a technique told in both ways draws it; as it is where that comes out otherwise.

    Text, answer, wrong methods, choices and figure are all compared, in the kitchen's own words. `grader` is the one it
    was drawn by.
    """
    again = (each for each in _drawn_again(question.family, question.seed, technique, grader) if each == question)
    return next(again, question)


def retold(asked: Mapping[str, Any], grader: int, technique: Technique) -> Question | None:
    """Return a question as the book keeps it, drawn again; None where today's drawing or content give another one."""
    again = _drawn_again(asked["family"], asked["seed"], technique, grader)
    return next((each for each in again if _is_the_one_kept(each, asked)), None)


def _drawn_again(family: str, seed: int, technique: Technique, grader: int) -> Iterator[Question]:
    """Return what a seed gives for each setting of its family in a technique."""
    for setting in technique.questions:
        if setting.family == family:
            try:
                yield draw_question(family, seed, setting, material_of(technique), grader)
            except CannotDraw:
                continue


def _is_the_one_kept(question: Question, asked: Mapping[str, Any]) -> bool:
    choices = {choice.key: choice.text for choice in question.choices}
    shown = (question.text, question.figure, choices, list(question.solution), str(question.answer.value))
    return shown == (asked["text"], asked["figure"], asked["choices"], asked["solution"], asked["answer"])
