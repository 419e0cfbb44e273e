"""A finished sitting, read back from the book: each question as it was asked, with what was answered."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from trainer.kitchen.book import Entry
from trainer.kitchen.currency import MONEY
from trainer.kitchen.quiz.drawn import context_of, drawn_from
from trainer.kitchen.quiz.grading import NO_KNOWN_METHOD, grade
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.rescoring import QuestionKey, key_of
from trainer.kitchen.quiz.seen_text import SeenQuestion, SeenSitting, sitting_on
from trainer.kitchen.quiz.telling import CannotTell, tell
from trainer.kitchen.quiz.wording import unit_word, with_unit
from trainer.kitchen.technique import Technique
from trainer.messages import Text, joined, message
from trainer.web import guard, reading


@dataclass(frozen=True, slots=True)
class AnswerLine:
    """One question of a finished sitting. `says` is what was said to the cook about a wrong answer.

    `is_voided` says that it counts no longer; `language` is the one its words are in, empty for the reader's.
    """

    number: int
    text: Text
    is_choice: bool
    figure: str
    figure_alt: Text
    given: Text
    right: Text
    is_right: bool
    says: Text
    solution: tuple[Text, ...]
    is_voided: bool = False
    language: str = ""

    def voided(self) -> AnswerLine:
        """Return the line as one that counts no longer."""
        return replace(self, is_voided=True)


def lines_of(entry: Entry, decimal_mark: str, voided: Collection[QuestionKey] = ()) -> tuple[AnswerLine, ...]:
    """Return every question of a `quiz_sat` entry, in the order asked; *voided* are those that count no longer.

    A question stands as it was read when it was answered. Of an entry of before, one kept by its numbers is told in
    the reader's words, and one kept with its words stands as the book has it.
    """
    technique, shown = reading.content().techniques.get(entry.body["technique"]), seen_sitting(entry)
    lines = [
        line_as_read(number, asked, shown.questions[number - 1], decimal_mark)
        if shown
        else _line(number, asked, technique, decimal_mark)
        for number, asked in enumerate(entry.body["questions"], 1)
    ]
    return tuple(
        replace(line, is_voided=key_of(asked) in voided)
        for line, asked in zip(lines, entry.body["questions"], strict=True)
    )


def seen_sitting(entry: Entry) -> SeenSitting | None:
    """Return what was read in a sitting; None of an entry of before, and where that paper was dropped."""
    paper = guard.kitchen().file.book.paper(entry.body["shown"]) if "shown" in entry.body else None
    return sitting_on(paper) if paper is not None else None


def line_as_read(number: int, asked: Mapping[str, Any], seen: SeenQuestion, decimal_mark: str) -> AnswerLine:
    """Return one question with its answer as the cook read it."""
    return AnswerLine(
        number=number,
        text=seen.text,
        is_choice=bool(seen.choices),
        figure=seen.figure,
        figure_alt=seen.figure_alt,
        given=in_words(asked["given"], asked["unit"], seen.choices),
        right=_right(asked, seen.choices, decimal_mark),
        is_right=asked["right"],
        says=seen.says,
        solution=seen.solution,
        language=seen.language,
    )


def _line(number: int, asked: Mapping[str, Any], technique: Technique | None, decimal_mark: str) -> AnswerLine:
    """Return one question with its answer, in words."""
    if "text" in asked:
        return _line_of_before(number, asked, decimal_mark)
    question = _told(asked, technique)
    if question is None:
        return line_without_words(number, asked, decimal_mark)
    choices = {choice.key: choice.text for choice in question.every_choice}
    return AnswerLine(
        number=number,
        text=question.text,
        is_choice=bool(choices),
        figure=question.figure,
        figure_alt=question.figure_alt,
        given=in_words(asked["given"], asked["unit"], choices),
        right=_right(asked, choices, decimal_mark),
        is_right=asked["right"],
        says="" if asked["right"] else _says(asked, question),
        solution=question.solution,
    )


def _told(asked: Mapping[str, Any], technique: Technique | None) -> Question | None:
    """Return a kept question in words; None where the content it was made from has gone, or gives another answer."""
    if technique is None:
        return None
    try:
        question = tell(drawn_from(asked), context_of(technique, asked["family"], reading.content().question_words))
    except CannotTell:
        return None
    return question if question.key == asked["answer"] else None


def _says(asked: Mapping[str, Any], question: Question) -> Text:
    """Return what is said about a wrong answer: of the choice taken, of the wrong method, or that none is known."""
    if question.answering not in {"number", "one"}:
        return grade(question, asked["given"]).says
    said = [choice.says for choice in question.choices if choice.key == asked["given"]]
    said += [wrong.says for wrong in question.wrong_methods if wrong.name == asked["method"]]
    return next(iter(said), NO_KNOWN_METHOD)


def line_without_words(number: int, asked: Mapping[str, Any], decimal_mark: str) -> AnswerLine:
    """Return what is left of a question whose content has gone: its kind, the answer given, and the grade."""
    kind = reading.content().question_words.title(asked["family"])
    text = message("{kind}. What this question was made from is not taught any more.", kind=kind)
    return AnswerLine(
        number=number,
        text=text,
        is_choice=False,
        figure="",
        figure_alt="",
        given=in_words(asked["given"], asked["unit"], {}),
        right=_right(asked, {}, decimal_mark),
        is_right=asked["right"],
        says="",
        solution=(),
    )


def _line_of_before(number: int, asked: Mapping[str, Any], decimal_mark: str) -> AnswerLine:
    """Return a question that the book keeps with its words."""
    return AnswerLine(
        number=number,
        text=asked["text"],
        is_choice=bool(asked["choices"]),
        figure=asked["figure"],
        figure_alt=asked["figure_alt"],
        given=in_words(asked["given"], asked["unit"], asked["choices"]),
        right=_right(asked, asked["choices"], decimal_mark),
        is_right=asked["right"],
        says="" if asked["right"] else asked["says"],
        solution=tuple(asked["solution"]),
    )


def in_words(given: str, unit: str, choices: Mapping[str, Text]) -> Text:
    """Return an answer as it is read: the texts chosen, or what was typed, with the unit where none was typed."""
    if choices:
        keys = given.split()
        return joined((choices[key] for key in keys), "; ") if keys and choices.keys() >= {*keys} else given
    has_unit = any(letter.isalpha() or letter in "%°" or unicodedata.category(letter) == "Sc" for letter in given)
    if has_unit or not given:
        return given
    return (
        message(MONEY.pattern, amount=given)
        if unit == "$"
        else joined([given, unit_word(unit, Fraction(1) if given == "1" else None)])
    )


def _right(asked: Mapping[str, Any], choices: Mapping[str, Text], decimal_mark: str) -> Text:
    """Return the right answer in words: the choice, or the value with its unit."""
    if choices:
        return in_words(asked["answer"], "", choices)
    return with_unit(Fraction(asked["answer"]), asked["unit"], decimal_mark) if asked["unit"] else asked["answer"]
