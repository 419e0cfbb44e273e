"""Drawing questions: the same family, seed and ranges always give the same numbers, whatever the words are.

Numbers come from one generator, picks of words from a second one. A draw is refused, and drawn again, while it does not
fit a kitchen, or while the right answer and the wrong ones lie so close together that a grade could name the wrong
method.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from hashlib import sha256
from random import Random
from typing import NamedTuple

from trainer.kitchen.quiz.answers import worked_if_askable
from trainer.kitchen.quiz.drawn import DrawnQuestion, Made, QuestionContext, context_of
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import (
    AnyFamily,
    Counted,
    Draw,
    NumericFamily,
    Range,
    Span,
    System,
    counted,
    nothing_told,
    random_of,
)
from trainer.kitchen.quiz.picks import Picks
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.technique import QuestionSetting, Technique

GRADER = 7
"""Edition of grading, kept with every answer. It goes up when an answer would get another grade or name."""

DRAWER = 6
"""Edition of drawing. It goes up when a seed would give another question; the other then goes up too."""

MOST_DRAWS = 5000
MOST_SEEDS = 200
SEEDS = 2**31
"""Seeds that fit an address or a form."""

Lists = Mapping[str, tuple[str, ...]]


class CannotDraw(ValueError):
    """A setting from which no question can be drawn; the message names the family and what stands in the way."""


def draw_question(family: str, seed: int, context: QuestionContext) -> DrawnQuestion:
    """Return the question this family, seed and setting give, now and later.

    An unknown family, a range or word the family does not have, or ranges or words from which nothing can be asked:
    CannotDraw.
    """
    kind, (ranges, drawn_from), lists = _settled(family, context)
    rng = _generator(f"{DRAWER}|{family}|{seed}|{ranges}")
    chance = _generator(f"{DRAWER}|words|{family}|{seed}|{ranges}")
    words = {slot: chance.randrange(len(each)) for slot, each in lists.items()}
    picked = {slot: lists[slot][index] for slot, index in words.items()}
    for asked in _kinds(kind):
        for _ in range(MOST_DRAWS):
            numbers = asked.more(rng, random_of(rng, drawn_from))
            if isinstance(asked, NumericFamily):
                worked = worked_if_askable(asked, numbers)
                if worked is not None:
                    return DrawnQuestion(family, seed, numbers, words, worked=worked)
                continue
            picks = Picks(chance)
            item = asked.choose(Draw(picks, numbers, picked, context.material, context.words))
            if item is not None:
                return DrawnQuestion(family, seed, numbers, words, tuple(picks.taken), made=Made(context, item))
    raise CannotDraw(f"{family}: in {MOST_DRAWS} draws from these ranges no question fitted")


def draw_unseen(family: str, seed: int, context: QuestionContext, seen: Sequence[str] = ()) -> DrawnQuestion:
    """Return the question of this seed, or of one made from it, whose stem is none of those *seen*, oldest first.

    Where every stem was seen, the one seen longest ago is asked again. A calculation has no stem: its numbers are new.
    """
    order = {stem: place for place, stem in enumerate(seen)}
    oldest = draw_question(family, seed, context)
    for attempted in range(MOST_SEEDS):
        if oldest.stem not in order:
            return oldest
        other = draw_question(family, _number_from(f"{family}|{seed}|{attempted}") % SEEDS, context)
        if order.get(other.stem, -1) < order[oldest.stem]:
            oldest = other
    return oldest


def _kinds(kind: AnyFamily) -> Iterator[AnyFamily]:
    """Yield a family, and then itself without minding what its text tells.

    The second is for ranges so narrow that each draw has its own answer in the text: better asked than a technique
    lost.
    """
    yield kind
    if isinstance(kind, NumericFamily) and kind.told is not nothing_told:
        yield replace(kind, told=nothing_told)


def draw_sitting(technique: Technique, seed: int, words: QuestionWords) -> tuple[DrawnQuestion, ...]:
    """Return the questions of one sitting: the settings in their order, each as often as it says, none twice."""
    drawn: list[DrawnQuestion] = []
    for place, setting in enumerate(technique.questions):
        context = context_of(technique, setting.family, words)._replace(setting=setting)
        for count in range(setting.count):
            where = f"{DRAWER}|{technique.id}|{seed}|{place}|{count}"
            drawn.append(_unlike(drawn, setting.family, where, context))
    return tuple(drawn)


def setting_problems(setting: QuestionSetting, context: QuestionContext) -> tuple[str, ...]:
    """Return all that is wrong with a setting in a content file, one sentence each; nothing when it can be drawn.

    Whether the technique's own words are enough shows only where the context has them.
    """
    family = FAMILIES.get(setting.family)
    if family is None:
        return (f"There is no question family {setting.family!r}. There are: {', '.join(FAMILIES)}.",)
    found = [
        *_unknown_names("range", setting.ranges, ranges_of(family)),
        *_unknown_names("word", setting.words, family.words),
        *(f"The range {name} runs from {span[0]} to {span[1]} by {span[2]}: give lowest, highest and a step above 0."
          for name, span in setting.ranges.items() if not _is_span(span)),
    ]  # fmt: skip
    if setting.count < 1:
        found.append(f"{setting.family} is asked {setting.count} times: ask at least once.")
    return tuple(found) or _drawing_problems(setting, context._replace(setting=setting))


def _drawing_problems(setting: QuestionSetting, context: QuestionContext) -> tuple[str, ...]:
    """Return what stands in the way of drawing as many different questions as are asked."""
    drawn: list[DrawnQuestion] = []
    try:
        for count in range(setting.count):
            drawn.append(_unlike(drawn, setting.family, f"trial|{count}", context))
    except CannotDraw as problem:
        return (f"{problem}.",)
    return ()


def _unknown_names(kind: str, given: Iterable[str], known: Iterable[str]) -> list[str]:
    """Return one sentence for each name the family does not have."""
    names = ", ".join(known) or "none"
    return [f"There is no {kind} {name!r}. There are: {names}." for name in given if name not in known]


def _is_span(span: Span) -> bool:
    """Return whether a range runs upwards by a step above zero."""
    return span[0] <= span[1] and span[2] > 0


def _unlike(drawn: list[DrawnQuestion], family: str, place: str, context: QuestionContext) -> DrawnQuestion:
    """Return a question unlike the drawn ones: with another stem where one is found, else in numbers or picks."""
    before, stems, second = {question.asks for question in drawn}, {question.stem for question in drawn}, None
    for attempted in range(MOST_SEEDS):
        question = draw_question(family, _number_from(f"{place}|{attempted}") % 2**48, context)
        if question.asks in before:
            continue
        if not question.stem or question.stem not in stems:
            return question
        second = second or question
    if second is not None:
        return second
    raise CannotDraw(f"{family}: the ranges give too few different questions for a sitting")


class _Ranges(NamedTuple):
    """Ranges as one text, which seeds are mixed with, and counted, to draw from."""

    written: str
    counted: Mapping[str, Counted]


def _settled(family: str, context: QuestionContext) -> tuple[AnyFamily, _Ranges, Lists]:
    """Return the family with its ranges and words after the setting's own have taken the place of the defaults."""
    kind, setting = FAMILIES.get(family), context.setting
    if kind is None:
        raise CannotDraw(f"there is no question family {family!r}")
    known = ranges_of(kind)
    if isinstance(kind, NumericFamily):
        kind = kind.in_units(context.units)
    if setting is None:
        return kind, _usual_ranges(family, context.units), word_lists(kind, context)
    spans = {name: _span(each) for name, each in kind.ranges.items()}
    unknown = [*(set(setting.ranges) - set(known)), *(set(setting.words) - set(kind.words))]
    if unknown:
        raise CannotDraw(f"{family} has no range or word named {', '.join(sorted(unknown))}")
    wrong = [name for name, given in setting.ranges.items() if not _is_span(given)]
    if wrong:
        raise CannotDraw(f"{family}: the range {wrong[0]} needs lowest, highest and a step above 0")
    own = {name: given for name, given in setting.ranges.items() if name in spans}
    return kind, _as_ranges({**spans, **own}), word_lists(kind, context)


@cache
def _usual_ranges(family: str, units: System) -> _Ranges:
    """Return the ranges a family has by itself in a system of measures."""
    kind = FAMILIES[family]
    own = kind.in_units(units) if isinstance(kind, NumericFamily) else kind
    return _as_ranges({name: _span(each) for name, each in own.ranges.items()})


def _as_ranges(spans: Mapping[str, Span]) -> _Ranges:
    return _Ranges(_written(spans), {name: counted(span) for name, span in spans.items()})


def ranges_of(kind: AnyFamily) -> Mapping[str, Range]:
    """Return the ranges a content file may set: those of both forms of a sum."""
    return kind.every_range() if isinstance(kind, NumericFamily) else kind.ranges


def word_lists(kind: AnyFamily, context: QuestionContext) -> Lists:
    """Return the lists that words are picked from: the technique's own where it sets them, else the family's."""
    own = context.setting.words if context.setting else {}
    usual = context.words.families[kind.name].words
    return {slot: own.get(slot) or usual[slot] for slot in kind.words}


def _span(each: Range) -> Span:
    return each.lowest, each.highest, each.step


def _written(spans: Mapping[str, Span]) -> str:
    """Return ranges as one text, the same whatever order they came in."""
    return ";".join(f"{name}={low}:{high}:{step}" for name, (low, high, step) in sorted(spans.items()))


def _generator(text: str) -> Random:
    return Random(_number_from(text))  # noqa: S311 - a kept seed, no secret


def _number_from(text: str) -> int:
    """Return a whole number made from a text by SHA-256: the same on every machine."""
    return int.from_bytes(sha256(text.encode()).digest()[:16])
