"""A drill for a wrong method that showed twice: one question fully worked, then one to finish."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import takewhile

from trainer.kitchen.quiz.drawing import CannotDraw, draw_question
from trainer.kitchen.quiz.families import FAMILIES, cook_sentence
from trainer.kitchen.quiz.making import YOUR_CODE
from trainer.kitchen.quiz.material import PRACTICE, Material
from trainer.kitchen.quiz.question import Choice, Question
from trainer.kitchen.quiz.wording import figures
from trainer.kitchen.technique import QuestionSetting

MOST_SEEDS = 200
BLANK = "____"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a drill is for: the wrong method and its family, as the technique sets it and with the technique's words."""

    method: str
    family: str
    setting: QuestionSetting | None = None
    material: Material = PRACTICE


@dataclass(frozen=True, slots=True)
class Drill:
    """One drill. `says` is what is said to the cook about the method.

    `worked` is shown with its solution and what the wrong method would give. `half` is another question: of its
    solution `lines` are shown, then `begun`, the `last` line of a sum up to its blank; of a choice both are empty.
    """

    method: str
    says: str
    worked: Question
    half: Question
    lines: tuple[str, ...]
    last: str

    @property
    def begun(self) -> str:
        """Return the last line up to its result, which is left blank."""
        return self.begun_as(self.last)

    def begun_as(self, line: str) -> str:
        """Return the last line as told in some language, up to its result, which is left blank.

        In every language that is what stands after the last equals sign, or the answer's own figures.
        """
        if "=" in line:
            return f"{line.rpartition('=')[0]}= {BLANK}"
        return f"{line.rpartition(figures(self.half.answer.value))[0]}{BLANK}" if line else ""

    @property
    def lure(self) -> Choice | None:
        """Return the choice of the worked question that the wrong method takes; None where it is a sum."""
        return next((choice for choice in self.worked.choices if choice.name == self.method), None)


def drill_for(wanted: Wanted, seed: int) -> Drill:
    """Return the drill for a wrong method of a family, the same for the same seed.

    The method shows in both questions. A method the family does not have, ranges in which it never shows, or words too
    few for two questions: CannotDraw.
    """
    kind = FAMILIES.get(wanted.family)
    if kind is None or wanted.method not in kind.methods():
        raise CannotDraw(f"{wanted.family} has no wrong method named {wanted.method}")
    worked = _showing(wanted, seed)
    half = _showing(wanted, worked.seed + 1, unlike=worked)
    lines, last = _half_chosen(half) if half.choices else _half_worked(half)
    return Drill(wanted.method, cook_sentence(wanted.family, wanted.method), worked, half, lines, last)


def _showing(wanted: Wanted, seed: int, unlike: Question | None = None) -> Question:
    """Return the first question from this seed on, unlike another, in which the method gives an answer of its own."""
    for each in range(seed, seed + MOST_SEEDS):
        question = draw_question(wanted.family, each, wanted.setting, wanted.material)
        shows = any(wrong.name == wanted.method for wrong in question.wrong_methods)
        if shows and (unlike is None or question.shown != unlike.shown):
            return question
    raise CannotDraw(f"{wanted.family}: {wanted.method} does not show in {MOST_SEEDS} questions of this technique")


def _half_chosen(question: Question) -> tuple[tuple[str, ...], str]:
    """Return the lines that come before the one that tells; none where no line tells by itself."""
    right = question.right_choice.text if question.right_choice else ""
    lines = tuple(takewhile(lambda line: right not in line, question.solution))
    return (() if len(lines) == len(question.solution) else lines), ""


def _half_worked(question: Question) -> tuple[tuple[str, ...], str]:
    """Return the lines that are given, and the last one, of which the result is left blank.

    The last line is the last one that comes to the answer; what stands after it, a check or a caution, would tell.
    """
    lines = [line for line in question.solution if YOUR_CODE not in line]
    answer = figures(question.answer.value)
    last = max((place for place, line in enumerate(lines) if answer in line), default=len(lines) - 1)
    return tuple(line for line in lines[:last] if not _tells(line, answer)), lines[last]


def _tells(line: str, answer: str) -> bool:
    """Return whether a line already ends in the answer."""
    return line.rsplit("=", maxsplit=1)[-1].replace("about", "").split()[:1] == [answer]
