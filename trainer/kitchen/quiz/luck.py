"""How often the commonest right answer of a setting is right: what a cook gets who always writes the same.

A setting whose answer is nearly always the same asks nothing. The share is counted over fixed seeds, so that a check of
content says the same every day.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from trainer.kitchen.quiz.drawing import CannotDraw, draw_question
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.quiz.wording import with_unit
from trainer.kitchen.technique import QuestionSetting, Technique
from trainer.messages import Text, message

MOST_ALIKE = Fraction(1, 2)
"""More than half alike is refused for a sum."""
FIRST_SEEDS, SEEDS = 24, 400
CLEARLY_BELOW = Fraction(1, 4)
"""Where so few of the first seeds are alike, the rest are not drawn: the share cannot come near a half."""


@dataclass(frozen=True, slots=True)
class Luck:
    """The commonest right answer of a family as a technique sets it, and its share of the seeds drawn."""

    family: str
    answer: Text
    share: Fraction

    @property
    def is_too_common(self) -> bool:
        """Return whether one answer is right in more than half of the questions."""
        return self.share > MOST_ALIKE

    @property
    def words(self) -> Text:
        """Return it as a sentence, in whole percent."""
        return message(
            "{family}: the answer is {answer} in {percent} of 100 questions.",
            family=self.family,
            answer=self.answer,
            percent=round(self.share * 100),
        )


def luck_of(setting: QuestionSetting, technique: Technique, words: QuestionWords) -> Luck | None:
    """Return the luck of one setting of a technique; None for a family with choices, or where nothing can be drawn."""
    if setting.family not in NUMERIC:
        return None
    context = QuestionContext(words, material_of(technique), setting)
    try:
        found = _counted(setting.family, context, range(FIRST_SEEDS))
        if _share(found) > CLEARLY_BELOW:
            found += _counted(setting.family, context, range(FIRST_SEEDS, SEEDS))
    except CannotDraw:
        return None
    (value, unit), _ = found.most_common(1)[0]
    return Luck(setting.family, with_unit(value, unit), _share(found))


def common_answers(technique: Technique, words: QuestionWords) -> tuple[Luck, ...]:
    """Return the settings of a technique whose answer is the same in more than half of the questions."""
    every = (luck_of(setting, technique, words) for setting in technique.questions)
    return tuple(luck for luck in every if luck is not None and luck.is_too_common)


Answers = Counter[tuple[Fraction, str]]


def _counted(family: str, context: QuestionContext, seeds: Iterable[int]) -> Answers:
    """Return how often each right answer comes out over these seeds."""
    kind = NUMERIC[family].in_units(context.units)
    return Counter((kind.right(draw_question(family, seed, context).numbers), kind.unit) for seed in seeds)


def _share(found: Answers) -> Fraction:
    return Fraction(found.most_common(1)[0][1], found.total())
