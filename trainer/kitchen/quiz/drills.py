"""A drill for a wrong method that showed twice: one sum fully worked, then one of which the last line is left blank."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.kitchen.quiz.drawing import CannotDraw, draw_question
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import Sum
from trainer.kitchen.quiz.making import YOUR_CODE
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.wording import figures
from trainer.kitchen.technique import QuestionSetting

MOST_SEEDS = 200
BLANK = "____"


@dataclass(frozen=True, slots=True)
class Drill:
    """One drill. `says` is what is said to the cook about the method.

    `worked` is shown with its solution and what the wrong method would give. `half` is asked and graded as any
    question; of its solution `lines` are shown, then `begun`, the last line up to its blank.
    """

    method: str
    says: str
    worked: Question
    half: Question
    lines: tuple[str, ...]
    begun: str


def drill_for(method: str, family: str, seed: int, setting: QuestionSetting | None = None) -> Drill:
    """Return the drill for a wrong method of a family, the same for the same seed.

    Both sums are such that the method shows in them. A family that is no sum, a method it does not have, or ranges in
    which the method never shows: CannotDraw.
    """
    kind = FAMILIES.get(family)
    if not isinstance(kind, Sum) or method not in kind.methods():
        raise CannotDraw(f"{family} is no sum with a wrong method named {method}")
    worked = _showing(method, family, seed, setting)
    half = _showing(method, family, worked.seed + 1, setting)
    lines, begun = _half_worked(half)
    return Drill(method, next(way.says for way in kind.wrong if way.name == method), worked, half, lines, begun)


def _showing(method: str, family: str, seed: int, setting: QuestionSetting | None) -> Question:
    """Return the first question from this seed on in which the method gives a value of its own."""
    for each in range(seed, seed + MOST_SEEDS):
        question = draw_question(family, each, setting)
        if any(wrong.name == method for wrong in question.wrong_methods):
            return question
    raise CannotDraw(f"{family}: {method} does not show in {MOST_SEEDS} questions from these ranges")


def _half_worked(question: Question) -> tuple[tuple[str, ...], str]:
    """Return the lines that are given, and the last one up to its result, which is left blank.

    The last line is the last one that comes to the answer; what stands after it, a check or a caution, would tell.
    """
    lines = [line for line in question.solution if YOUR_CODE not in line]
    answer = figures(question.answer.value)
    last = max((place for place, line in enumerate(lines) if answer in line), default=len(lines) - 1)
    return tuple(line for line in lines[:last] if not _tells(line, answer)), _begun(lines[last], answer)


def _tells(line: str, answer: str) -> bool:
    """Return whether a line already ends in the answer."""
    return line.rsplit("=", maxsplit=1)[-1].replace("about", "").split()[:1] == [answer]


def _begun(line: str, answer: str) -> str:
    """Return a line up to its result, which is left blank."""
    before = line.rpartition("=")[0] if "=" in line else line.rpartition(answer)[0]
    return f"{before}= {BLANK}" if "=" in line else f"{before}{BLANK}"
