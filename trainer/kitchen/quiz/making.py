"""Making one question from numbers already drawn, for a family of either kind; None where it may not be asked."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise
from math import lcm
from random import Random

from trainer.kitchen.quiz.family import AnyFamily, Choosing, Drawn, Figure, Numbers, Sum, Words
from trainer.kitchen.quiz.material import Material
from trainer.kitchen.quiz.question import Answer, Question, WrongMethod
from trainer.kitchen.quiz.wording import alternatives
from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.saying import joined, say

YOUR_CODE = say("This is a practice sum: your local code decides.")

Span = tuple[Fraction, Fraction, Fraction]


def drawn(rng: Random, spans: Mapping[str, Span]) -> Numbers:
    """Return one number from each range, both ends in."""
    return {name: _draw(rng, span) for name, span in spans.items()}


def one_of(rng: Random, text: str) -> str:
    """Return one of the words that `|` parts."""
    choices = alternatives(text)
    return choices[rng.randrange(len(choices))]


def attempt(
    kind: AnyFamily, rng: Random, spans: Mapping[str, Span], words: Words, material: Material
) -> Question | None:
    """Return a question from one draw, its seed still 0; None where the draw does not fit."""
    numbers = drawn(rng, spans)
    if isinstance(kind, Choosing):
        return posed(kind, Drawn(rng, numbers, words, material))
    return made(kind, kind.more(rng, numbers), words)


def made(kind: Sum, numbers: Numbers, words: Words) -> Question | None:
    """Return the sum these numbers make; None where they do not fit or two answers lie too close."""
    try:
        if not kind.fits(numbers):
            return None
        right, wrong = kind.right(numbers), _wrong_methods(kind, numbers)
    except (QuantityProblem, ZeroDivisionError):  # a content file's range may reach to nothing
        return None
    answer = _answer(kind, right)
    if _too_close(answer, [right, *(method.value for method in wrong)]) or _is_told(kind, numbers, answer):
        return None
    figure = kind.picture(numbers) if kind.picture else Figure("", "")
    return Question(
        family=kind.name,
        seed=0,
        text=_text(kind, kind.ask(numbers, words), right),
        answer=answer,
        solution=_with_caution(kind, kind.solve(numbers)),
        wrong_methods=wrong,
        figure=figure.svg,
        figure_alt=figure.alt,
        food=words.get("food", ""),
        safety=bool(kind.caution),
    )


def posed(kind: Choosing, draw: Drawn) -> Question | None:
    """Return the question with choices that this draw makes; the answer is the key of the right one."""
    asked = kind.choose(draw)
    if asked is None:
        return None
    (right,) = (choice for choice in asked.choices if choice.is_right)
    return Question(
        family=kind.name,
        seed=0,
        text=asked.text,
        answer=Answer(Fraction(right.key), "", Fraction(0)),
        solution=(*asked.solution, kind.caution) if kind.caution else asked.solution,
        wrong_methods=tuple(
            WrongMethod(choice.name, Fraction(choice.key), choice.says, kind.tells[choice.name])
            for choice in asked.choices
            if not choice.is_right
        ),
        choices=asked.choices,
        figure=asked.figure.svg,
        figure_alt=asked.figure.alt,
        safety=bool(kind.caution),
    )


def _draw(rng: Random, span: Span) -> Fraction:
    """Return a value from a range, both ends in; lowest, highest and step are counted over one denominator."""
    under = lcm(span[0].denominator, span[2].denominator)
    low, high, step = (each.numerator * under // each.denominator for each in span)
    return Fraction(low + step * rng.randrange((high - low) // step + 1), under)


def _wrong_methods(kind: Sum, numbers: Numbers) -> tuple[WrongMethod, ...]:
    """Return the wrong methods with the values they give here; what could not be typed as an answer is left out."""
    methods = []
    for way in kind.wrong:
        value = way.formula(numbers)
        if value is not None and (value >= 0 or kind.below_zero):
            methods.append(WrongMethod(way.name, value, way.says, way.tells))
    return tuple(methods)


def _too_close(answer: Answer, values: list[Fraction]) -> bool:
    """Return whether any two values lie within twice the tolerance, or round to one number where that decides.

    They are compared as whole numbers over one denominator.
    """
    under = lcm(answer.tolerance.denominator, *(value.denominator for value in values))
    least, *counted = (each.numerator * under // each.denominator for each in (2 * answer.tolerance, *values))
    counted.sort()
    if any(higher - lower <= least for lower, higher in pairwise(counted)):
        return True
    return answer.rounded is not None and len({answer.rounded.rounded(value) for value in values}) < len(values)


def _answer(kind: Sum, right: Fraction) -> Answer:
    """Return the right value with the family's tolerance and rule about its unit."""
    tolerance = kind.tolerance
    return Answer(right, kind.unit, tolerance.of(right), tolerance.rounded, kind.unit_rule == "required")


def _is_told(kind: Sum, numbers: Numbers, answer: Answer) -> bool:
    """Return whether a quantity of the text, copied as it stands, would be graded right."""
    return any(answer.counts_as(value, answer.value) for value in kind.told(numbers))


def _with_caution(kind: Sum, solution: tuple[str, ...]) -> tuple[str, ...]:
    return (*solution, joined([kind.caution, YOUR_CODE])) if kind.caution else solution


def _text(kind: Sum, asked: str, right: Fraction) -> str:
    """Return the whole question: what is asked, how fine to round, and whose limits count."""
    parts = (asked, kind.tolerance.asks(right, kind.unit), YOUR_CODE if kind.caution else "")
    return joined(part for part in parts if part)
