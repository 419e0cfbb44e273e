"""Drawing questions: the same family, seed and setting always give the same question.

A draw is refused, and drawn again, while it does not fit a kitchen, or while the right answer and the wrong ones
lie so close together that a grade could name the wrong method.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from hashlib import sha256
from random import Random

from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import AnyFamily, Numbers, Sum, Words, nothing_told
from trainer.kitchen.quiz.making import Span, attempt, made, one_of
from trainer.kitchen.quiz.material import PRACTICE, Material, material_of
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.wording import alternatives
from trainer.kitchen.technique import QuestionSetting, Technique

GRADER = 4
"""Edition of drawing and grading. It goes up when a seed would give another question or an answer another grade."""

MOST_DRAWS = 5000
MOST_SEEDS = 200


class CannotDraw(ValueError):
    """A setting from which no question can be drawn; the message names the family and what stands in the way."""


def draw_question(
    family: str,
    seed: int,
    setting: QuestionSetting | None = None,
    material: Material = PRACTICE,
    grader: int = GRADER,
) -> Question:
    """Return the question this family, seed and setting give, now and later.

    `material` is what the technique gives to families made from its own words (`material_of`). An earlier `grader`
    gives the question of then wherever the family has not changed since; whoever asks compares. An unknown family, a
    range or word the family does not have, or ranges or words from which nothing can be asked: CannotDraw.
    """
    kind, spans, words = _settled(family, setting)
    rng = Random(_number_from(f"{grader}|{family}|{seed}|{_written(spans, words)}"))  # noqa: S311 - a kept seed, no secret
    chosen = {name: one_of(rng, text) for name, text in words.items()}
    for asked in _kinds(kind):
        for _ in range(MOST_DRAWS):
            question = attempt(asked, rng, spans, chosen, material)
            if question is not None:
                return replace(question, seed=seed)
    raise CannotDraw(f"{family}: in {MOST_DRAWS} draws from these ranges no question fitted")


def _kinds(kind: AnyFamily) -> tuple[AnyFamily, ...]:
    """Return a family, and then itself without minding what its text tells.

    The second is for ranges so narrow that each draw has its own answer in the text: better asked than a technique
    lost.
    """
    if not isinstance(kind, Sum) or kind.told is nothing_told:
        return (kind,)
    return kind, replace(kind, told=nothing_told)


def question_from(family: str, numbers: Numbers, words: Words | None = None) -> Question | None:
    """Return the sum with these very numbers; None where they do not fit or two answers lie too close."""
    kind = FAMILIES[family]
    if not isinstance(kind, Sum):
        raise CannotDraw(f"{family} is no sum: it cannot be made from numbers alone")
    first = {name: alternatives(text)[0] for name, text in kind.words.items()}
    return made(kind, numbers, {**first, **(words or {})})


def draw_sitting(technique: Technique, seed: int, grader: int = GRADER) -> tuple[Question, ...]:
    """Return the questions of one sitting: the settings in their order, each as often as it says, none twice."""
    drawn: list[Question] = []
    material = material_of(technique)
    for place, setting in enumerate(technique.questions):
        for count in range(setting.count):
            where = f"{grader}|{technique.id}|{seed}|{place}|{count}"
            drawn.append(_unlike(drawn, setting, where, material, grader))
    return tuple(drawn)


def setting_problems(setting: QuestionSetting, material: Material = PRACTICE) -> tuple[str, ...]:
    """Return all that is wrong with a setting in a content file, one sentence each; nothing when it can be drawn.

    Whether the technique's own words are enough shows only where they are given as `material`.
    """
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
    return tuple(found) or _drawing_problems(setting, material)


def _drawing_problems(setting: QuestionSetting, material: Material) -> tuple[str, ...]:
    """Return what stands in the way of drawing as many different questions as are asked."""
    drawn: list[Question] = []
    try:
        for count in range(setting.count):
            drawn.append(_unlike(drawn, setting, f"trial|{count}", material))
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


def _unlike(
    drawn: list[Question], setting: QuestionSetting, place: str, material: Material, grader: int = GRADER
) -> Question:
    """Return a question unlike the drawn ones in text, figure or choices."""
    before = {question.shown for question in drawn}
    for attempted in range(MOST_SEEDS):
        seed = _number_from(f"{place}|{attempted}") % 2**48
        question = draw_question(setting.family, seed, setting, material, grader)
        if question.shown not in before:
            return question
    raise CannotDraw(f"{setting.family}: the ranges give too few different questions for a sitting")


def _settled(family: str, setting: QuestionSetting | None) -> tuple[AnyFamily, Mapping[str, Span], Mapping[str, str]]:
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
