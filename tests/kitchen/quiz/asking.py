"""Questions as tests ask them: drawn and told with the words that come with the program."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from trainer.content.question_words import shipped_words
from trainer.kitchen.quiz import drawing, drills
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext, context_of
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.making import is_askable
from trainer.kitchen.quiz.material import PRACTICE, Material
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import QuestionSetting, Technique

WORDS = shipped_words("en")


def context(
    setting: QuestionSetting | None = None, material: Material = PRACTICE, language: str = "en"
) -> QuestionContext:
    """Return a context with the words that come with the program."""
    return QuestionContext(shipped_words(language), material, setting)


def drawn_question(
    family: str, seed: int, setting: QuestionSetting | None = None, material: Material = PRACTICE
) -> DrawnQuestion:
    """Return a question as drawn, without words."""
    return drawing.draw_question(family, seed, context(setting, material))


def draw_question(
    family: str,
    seed: int,
    setting: QuestionSetting | None = None,
    material: Material = PRACTICE,
    language: str = "en",
) -> Question:
    """Return a question drawn and told."""
    asked = context(setting, material, language)
    return tell(drawing.draw_question(family, seed, asked), asked)


def draw_sitting(technique: Technique, seed: int) -> tuple[Question, ...]:
    """Return the questions of a sitting, told."""
    drawn = drawing.draw_sitting(technique, seed, WORDS)
    return tuple(tell(each, context_of(technique, each.family, WORDS)) for each in drawn)


def question_from(
    family: str, numbers: Mapping[str, Fraction], words: Mapping[str, str] | None = None
) -> Question | None:
    """Return the question with these very numbers and words; None where it may not be asked."""
    kind, first = NUMERIC[family], {slot: each[0] for slot, each in WORDS.families[family].words.items()}
    if not is_askable(kind, numbers):
        return None
    picked = {slot: (word,) for slot, word in {**first, **(words or {})}.items()}
    drawn = DrawnQuestion(family, 0, numbers, dict.fromkeys(picked, 0))
    return tell(drawn, context(QuestionSetting(family, picked, {}, 1)))


def drill_for(
    family: str, method: str, seed: int, setting: QuestionSetting | None = None, material: Material = PRACTICE
) -> drills.Drill:
    """Return a drill told with the words that come with the program."""
    return drills.drill_for(family, method, seed, context(setting, material))


def shown(question: Question) -> tuple[str, ...]:
    """Return all that tells a question from another: its text, its figure and what there is to choose."""
    return (question.text, question.figure, *(choice.text for choice in question.choices))
