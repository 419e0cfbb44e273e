"""What many draws show of a skill: how often one answer is right, and how many different questions there are.

Seeds are fixed, so that a check of content says the same every day. The first few are enough where they leave no doubt.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from math import sqrt

from trainer.kitchen.quiz.answers import is_askable
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import ChoiceFamily, ChoiceItem, NumericFamily
from trainer.kitchen.quiz.skill_luck import item_of
from trainer.kitchen.quiz.wording import with_unit
from trainer.kitchen.skills.rule import BASES
from trainer.kitchen.technique import AskedSkill
from trainer.messages import Text

FIRST_SEEDS, SEEDS = 240, 2000
SURE = 4
"""So many standard deviations below a bound leave no doubt."""
FEWEST_NUMBERS, CLEARLY_MANY, COUNTED_TO = 1000, 1800, 10_000
FEWEST_STEMS = {3: 12, 4: 14, 5: 16}
"""Different stems for each row asked for."""


@dataclass(slots=True)
class Tally:
    """Questions drawn: their right answers, what makes each another one, and those whose text gives the answer."""

    answers: Counter[tuple[Fraction | str, str]] = field(default_factory=Counter)
    different: set[object] = field(default_factory=set)
    echoes: int = 0

    @property
    def share(self) -> Fraction:
        """Return the share of the commonest answer."""
        return Fraction(self.answers.most_common(1)[0][1], self.answers.total())


@dataclass(frozen=True, slots=True)
class SkillFigures:
    """The commonest right answer and its share; how many different questions, of a number 10,000 at the most.

    `echoes` is the share of questions in which a quantity of the text would be graded right.
    """

    answer: Text
    share: Fraction
    questions: int
    echoes: Fraction
    has_stems: bool

    def enough(self, base: int) -> int:
        """Return how many different questions a skill of such a row needs."""
        return FEWEST_STEMS[base] if self.has_stems else FEWEST_NUMBERS


def figures_of(skill: AskedSkill, context: QuestionContext) -> SkillFigures:
    """Return what the draws of a skill show; more of them where the first leave a doubt."""
    most = next((bound for bound, base in BASES if base == skill.base), Fraction(1, 2))
    tally = Tally()
    _draw(tally, skill, context, range(FIRST_SEEDS))
    if not _is_clear(_figures(tally, skill), skill, most):
        _draw(tally, skill, context, range(FIRST_SEEDS, SEEDS))
    return _figures(tally, skill)


def _is_clear(found: SkillFigures, skill: AskedSkill, most: Fraction) -> bool:
    """Return whether more draws could show nothing else."""
    share = float(found.share)
    doubt = SURE * sqrt(share * (1 - share) / FIRST_SEEDS)
    enough = found.enough(skill.base) if found.has_stems else CLEARLY_MANY
    return share + doubt <= most and found.questions >= enough and not found.echoes


def _draw(tally: Tally, skill: AskedSkill, context: QuestionContext, seeds: Iterable[int]) -> None:
    kind = FAMILIES[skill.setting.family]
    for seed in seeds:
        drawn = draw_question(kind.name, seed, context)
        if isinstance(kind, NumericFamily):
            tally.answers[kind.right(drawn.numbers), kind.unit] += 1
            tally.different.add(tuple(drawn.numbers.items()))
            tally.echoes += not is_askable(kind, drawn.numbers)
        else:
            tally.answers[_right(item_of(kind, drawn, context)), ""] += 1
            tally.different.add(drawn.stem or drawn.asks)


def _right(item: ChoiceItem) -> str:
    """Return what is right in a question with choices: by ids, or the number asked for."""
    if item.keyed:
        return f"{item.keyed.value} {item.keyed.unit}"
    right = [option.id for option in (*item.options, *item.reasons) if not option.method]
    return ", ".join(item.names or right)


def _figures(tally: Tally, skill: AskedSkill) -> SkillFigures:
    has_stems = isinstance(FAMILIES[skill.setting.family], ChoiceFamily)
    drawn, found = tally.answers.total(), len(tally.different)
    questions = found if has_stems else estimated(found, drawn)
    (value, unit), _ = tally.answers.most_common(1)[0]
    answer = value if isinstance(value, str) else with_unit(value, unit)
    return SkillFigures(answer, tally.share, questions, Fraction(tally.echoes, drawn), has_stems)


def estimated(found: int, drawn: int) -> int:
    """Return of how many different things so many were found in so many draws, 10,000 at the most.

    Of M things drawn alike often, D = M (1 - (1 - 1/M)^n) are found in n draws.

    >>> estimated(865, 2000)
    1000
    """
    low, high = found, COUNTED_TO
    while low < high:
        middle = (low + high) // 2
        if round(middle * (1 - (1 - 1 / middle) ** drawn)) < found:
            low = middle + 1
        else:
            high = middle
    return low
