"""A drill for a wrong method that showed twice: one question fully worked, then one to finish."""

from __future__ import annotations

from dataclasses import dataclass, replace

from trainer.kitchen.quiz.drawing import CannotDraw, draw_question
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext
from trainer.kitchen.quiz.families import FAMILIES, NUMERIC
from trainer.kitchen.quiz.question import Choice, Question
from trainer.kitchen.quiz.sentences import Sentence
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.quiz.wording import digits, figures, mixed
from trainer.messages import Text

MOST_SEEDS = 200
BLANK = "____"


@dataclass(frozen=True, slots=True)
class Drill:
    """One drill. `says` is what is said to the cook about the method.

    `worked` is shown with its solution and what the wrong method would give. `half` is another question: of its
    solution `lines` are shown, then `begun`, the line of a calculation that comes to the answer, with a blank for it;
    of a choice `begun` is empty.
    """

    method: str
    says: str
    worked: Question
    half: Question
    lines: tuple[Text, ...]
    begun: Text

    @property
    def distractor(self) -> Choice | None:
        """Return the choice of the worked question that the wrong method takes; None where it takes none of them."""
        return next((choice for choice in self.worked.every_choice if choice.name == self.method), None)


def drill_for(family: str, method: str, seed: int, context: QuestionContext) -> Drill:
    """Return the drill for a wrong method of a family, the same for the same seed.

    The method shows in both questions. A method the family does not have, ranges in which it never shows, or words too
    few for two questions: CannotDraw.
    """
    kind = FAMILIES.get(family)
    if kind is None or method not in kind.methods():
        raise CannotDraw(f"{family} has no wrong method named {method}")
    first, worked = _showing(family, method, seed, context)
    drawn, half = _showing(family, method, first.seed + 1, context, unlike=first)
    lines, begun = _half_worked(drawn, context) if family in NUMERIC else (half.solution[: half.hints], "")
    return Drill(method, context.words.for_cook(family, method), worked, half, lines, begun)


@dataclass(frozen=True, slots=True)
class HalfWorked:
    """A question of which the way is shown and the end is left: `begun` is the line with a blank, empty of a choice."""

    question: Question
    lines: tuple[Text, ...]
    begun: Text


def half_worked(family: str, method: str, seed: int, context: QuestionContext) -> HalfWorked:
    """Return a question half worked, in which a wrong method would show where the family has it; or CannotDraw."""
    kind = FAMILIES.get(family)
    if kind is None:
        raise CannotDraw(f"there is no question family {family!r}")
    if method in kind.methods():
        drawn, half = _showing(family, method, seed, context)
    else:
        drawn = draw_question(family, seed, context)
        half = tell(drawn, context)
    lines, begun = _half_worked(drawn, context) if family in NUMERIC else (half.solution[: half.hints], "")
    return HalfWorked(half, lines, begun)


def _showing(
    family: str, method: str, seed: int, context: QuestionContext, unlike: DrawnQuestion | None = None
) -> tuple[DrawnQuestion, Question]:
    """Return the first question from this seed on, unlike another, in which the method gives an answer of its own.

    One about something else is taken where there is one: another scene, another fault.
    """
    second: tuple[DrawnQuestion, Question] | None = None
    for each in range(seed, seed + MOST_SEEDS):
        drawn = draw_question(family, each, context)
        question = tell(drawn, context)
        shows = any(wrong.name == method for wrong in question.wrong_methods)
        if not shows or (unlike is not None and drawn.asks == unlike.asks):
            continue
        if unlike is None or not drawn.stem or drawn.stem != unlike.stem:
            return drawn, question
        second = second or (drawn, question)
    if second is not None:
        return second
    raise CannotDraw(f"{family}: {method} does not show in {MOST_SEEDS} questions of this technique")


def _half_worked(drawn: DrawnQuestion, context: QuestionContext) -> tuple[tuple[Text, ...], Text]:
    """Return the lines that are given, and the last one that comes to the answer, with a blank in its place.

    What stands after it, a check or a caution, would tell; so would an earlier line that comes to the answer already.
    """
    kind = NUMERIC[drawn.family].form_of(drawn.numbers)
    solved, right = kind.solve(drawn.numbers), kind.right(drawn.numbers)
    answers = {figures(right), mixed(right)}
    last = max((place for place, line in enumerate(solved) if _comes_to(line) in answers), default=None)
    before = solved[:last] if last is not None else solved[:-1]
    given = tuple(context.words.told(line, kind.name) for line in before if _comes_to(line) not in answers)
    return given, BLANK if last is None else context.words.told(_with_blank(solved[last]), kind.name)


def _comes_to(line: Sentence) -> str:
    """Return what a line comes to, its answer before its result; empty where it is no calculation."""
    return next((digits(line.values[name]) for name in ("answer", "result") if name in line.values), "")


def _with_blank(line: Sentence) -> Sentence:
    """Return a line with a blank for what it comes to."""
    name = "answer" if "answer" in line.values else "result"
    return replace(line, values={**line.values, name: BLANK}, price="")
