"""Drawing questions: the same family, seed and setting always give the same question.

A draw is refused, and drawn again, while it does not fit a kitchen, or while the right answer and the wrong ones
lie so close together that a grade could name the wrong method.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import lru_cache
from hashlib import sha256
from itertools import pairwise
from math import lcm
from random import Random

from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import Family, Numbers, Words
from trainer.kitchen.quiz.question import Answer, Question, WrongMethod
from trainer.kitchen.technique import QuestionSetting, Technique
from trainer.recipe_math.quantity import QuantityProblem

GRADER = 1
"""Edition of drawing and grading. It goes up when a seed would give another question or an answer another grade."""

MOST_DRAWS = 5000
MOST_SEEDS = 200
YOUR_CODE = "This is a practice sum: your local code decides."

Span = tuple[Fraction, Fraction, Fraction]


class CannotDraw(ValueError):
    """A setting from which no question can be drawn; the message names the family and what stands in the way."""


def draw_question(family: str, seed: int, setting: QuestionSetting | None = None) -> Question:
    """Return the question this family, seed and setting give, now and later.

    An unknown family, a range or word the family does not have, or ranges in which nothing fits: CannotDraw.
    """
    kind, spans, words = _settled(family, setting)
    rng = Random(_number_from(f"{GRADER}|{family}|{seed}|{_written(spans, words)}"))  # noqa: S311 - a kept seed, no secret
    chosen = {name: _one_of(rng, text) for name, text in words.items()}
    for _ in range(MOST_DRAWS):
        numbers = kind.more(rng, {name: _draw(rng, span) for name, span in spans.items()})
        question = _question(kind, seed, numbers, chosen)
        if question is not None:
            return question
    raise CannotDraw(f"{family}: in {MOST_DRAWS} draws from these ranges no question fitted")


def question_from(family: str, numbers: Numbers, words: Words | None = None) -> Question | None:
    """Return the question with these very numbers; None where they do not fit or two answers lie too close."""
    kind = FAMILIES[family]
    first = {name: text.split("|")[0] for name, text in kind.words.items()}
    return _question(kind, 0, numbers, {**first, **(words or {})})


def draw_sitting(technique: Technique, seed: int) -> tuple[Question, ...]:
    """Return the questions of one sitting: the settings in their order, each as often as it says, none twice."""
    drawn: list[Question] = []
    for place, setting in enumerate(technique.questions):
        for count in range(setting.count):
            drawn.append(_unlike(drawn, setting, f"{GRADER}|{technique.id}|{seed}|{place}|{count}"))
    return tuple(drawn)


def setting_problems(setting: QuestionSetting) -> tuple[str, ...]:
    """Return all that is wrong with a setting in a content file, one sentence each; nothing when it can be drawn."""
    family = FAMILIES.get(setting.family)
    if family is None:
        return (f"There is no question family {setting.family!r}. There are: {', '.join(FAMILIES)}.",)
    found = [
        *_unknown_names("range", setting.ranges, family.ranges),
        *_unknown_names("word", setting.words, family.words),
        *(f"The range {name} runs from {span[0]} to {span[1]} by {span[2]}: give lowest, highest and a step above 0."
          for name, span in setting.ranges.items() if not _is_span(span)),
    ]  # fmt: skip
    if setting.count < 1:
        found.append(f"{setting.family} is asked {setting.count} times: ask at least once.")
    return tuple(found) or _drawing_problems(setting)


def _drawing_problems(setting: QuestionSetting) -> tuple[str, ...]:
    """Return what stands in the way of drawing as many different questions as are asked."""
    drawn: list[Question] = []
    try:
        for count in range(setting.count):
            drawn.append(_unlike(drawn, setting, f"trial|{count}"))
    except CannotDraw as problem:
        return (f"{problem}.",)
    return ()


def _unknown_names(kind: str, given: Iterable[str], known: Mapping[str, object]) -> list[str]:
    """Return one sentence for each name the family does not have."""
    names = ", ".join(known) or "none"
    return [f"There is no {kind} {name!r}. There are: {names}." for name in given if name not in known]


def _is_span(span: Span) -> bool:
    """Return whether a range runs upwards by a step above zero."""
    return span[0] <= span[1] and span[2] > 0


def _unlike(drawn: list[Question], setting: QuestionSetting, place: str) -> Question:
    """Return a question whose text none of the drawn ones has."""
    texts = {question.text for question in drawn}
    for attempt in range(MOST_SEEDS):
        question = draw_question(setting.family, _number_from(f"{place}|{attempt}") % 2**48, setting)
        if question.text not in texts:
            return question
    raise CannotDraw(f"{setting.family}: the ranges give too few different questions for a sitting")


def _settled(family: str, setting: QuestionSetting | None) -> tuple[Family, Mapping[str, Span], Mapping[str, str]]:
    """Return the family with its ranges and words after the setting's own have taken the place of the defaults."""
    kind = FAMILIES.get(family)
    if kind is None:
        raise CannotDraw(f"there is no question family {family!r}")
    spans: dict[str, Span] = {name: (r.lowest, r.highest, r.step) for name, r in kind.ranges.items()}
    if setting is None:
        return kind, spans, kind.words
    unknown = [*(set(setting.ranges) - set(spans)), *(set(setting.words) - set(kind.words))]
    if unknown:
        raise CannotDraw(f"{family} has no range or word named {', '.join(sorted(unknown))}")
    wrong = [name for name, given in setting.ranges.items() if not _is_span(given)]
    if wrong:
        raise CannotDraw(f"{family}: the range {wrong[0]} needs lowest, highest and a step above 0")
    return kind, {**spans, **setting.ranges}, {**kind.words, **setting.words}


def _written(spans: Mapping[str, Span], words: Mapping[str, str]) -> str:
    """Return ranges and words as one text, the same whatever order they came in."""
    ranges = ";".join(f"{name}={low}:{high}:{step}" for name, (low, high, step) in sorted(spans.items()))
    return ranges + "|" + ";".join(f"{name}={text}" for name, text in sorted(words.items()))


def _number_from(text: str) -> int:
    """Return a whole number made from a text by SHA-256: the same on every machine."""
    return int.from_bytes(sha256(text.encode()).digest()[:16])


def _one_of(rng: Random, text: str) -> str:
    """Return one of the words that `|` parts."""
    choices = text.split("|")
    return choices[rng.randrange(len(choices))]


@lru_cache(maxsize=1024)
def _places(span: Span) -> tuple[int, int, int, int]:
    """Return a range as whole numbers: the lowest and the step over one denominator, and how many values there are."""
    low, high, step = span
    under = lcm(low.denominator, step.denominator)
    return int(low * under), int(step * under), under, int((high - low) / step) + 1


def _draw(rng: Random, span: Span) -> Fraction:
    """Return a value from a range, both ends in."""
    low, step, under, values = _places(span)
    return Fraction(low + step * rng.randrange(values), under)


def _question(kind: Family, seed: int, numbers: Numbers, words: Words) -> Question | None:
    """Return the question these numbers make, or None where it may not be asked."""
    try:
        if not kind.fits(numbers):
            return None
        right, wrong = kind.right(numbers), _wrong_methods(kind, numbers)
    except (QuantityProblem, ZeroDivisionError):  # a content file's range may reach to nothing
        return None
    tolerance = kind.tolerance.of(right)
    if _too_close([right, *(method.value for method in wrong)], 2 * tolerance):
        return None
    solution = (*kind.solve(numbers), f"{kind.caution} {YOUR_CODE}") if kind.caution else kind.solve(numbers)
    return Question(
        family=kind.name,
        seed=seed,
        text=_text(kind, kind.ask(numbers, words), right),
        answer=Answer(right, kind.unit, tolerance),
        solution=solution,
        wrong_methods=wrong,
    )


def _wrong_methods(kind: Family, numbers: Numbers) -> tuple[WrongMethod, ...]:
    """Return the wrong methods with the values they give here; what could not be typed as an answer is left out."""
    methods = []
    for way in kind.wrong:
        value = way.formula(numbers)
        if value is not None and (value >= 0 or kind.below_zero):
            methods.append(WrongMethod(way.name, value, way.says, way.tells))
    return tuple(methods)


def _too_close(values: list[Fraction], apart: Fraction) -> bool:
    """Return whether any two values lie no further apart than this."""
    values.sort()
    return any(higher - lower <= apart for lower, higher in pairwise(values))


def _text(kind: Family, asked: str, right: Fraction) -> str:
    """Return the whole question: what is asked, how fine to round, and whose limits count."""
    parts = (asked, kind.tolerance.asks(right, kind.unit), YOUR_CODE if kind.caution else "")
    return " ".join(part for part in parts if part)
