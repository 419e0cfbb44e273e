"""A question as it is kept: family, numbers and indexes of words, and no word itself. And what it is told with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, NamedTuple

from trainer.kitchen.quiz.answers import Worked
from trainer.kitchen.quiz.family import ChoiceItem, Numbers, System
from trainer.kitchen.quiz.material import PRACTICE, Material, material_of
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.quiz.stems import STEMS, no_stem
from trainer.kitchen.technique import QuestionSetting, Technique


class Made(NamedTuple):
    """What there is to choose, and the context it was made in: in another one it is made anew."""

    context: QuestionContext
    item: ChoiceItem


@dataclass(frozen=True, slots=True)
class DrawnQuestion:
    """One question, drawn: `numbers` by name, `words` as the index picked in each list, `picks` by id, pick by pick.

    It stays the same question whatever is reworded; what is shown is made from it, in any language. `worked` is what
    its numbers came to when they were drawn, `made` what there is to choose, with the context it was made in; one that
    was kept is worked out again.
    """

    family: str
    seed: int
    numbers: Numbers
    words: Mapping[str, int]
    picks: tuple[tuple[str, ...], ...] = ()
    worked: Worked | None = field(default=None, compare=False, repr=False)
    made: Made | None = field(default=None, compare=False, repr=False)

    @property
    def asks(self) -> tuple[object, ...]:
        """Return what makes it another question than others of its family, the seed left out."""
        return self.family, tuple(self.numbers.items()), tuple(self.words.items()), self.picks

    @property
    def stem(self) -> str:
        """Return what tells a cook that it was asked before, as a scene or a fault; empty of a calculation."""
        return STEMS.get(self.family, no_stem)(self.numbers, self.picks)

    def kept(self) -> dict[str, Any]:
        """Return the question as plain texts and numbers, exact."""
        return {
            "family": self.family,
            "seed": self.seed,
            "numbers": {name: str(value) for name, value in self.numbers.items()},
            "words": dict(self.words),
            "picks": [list(pick) for pick in self.picks],
        }


def drawn_from(kept: Mapping[str, Any]) -> DrawnQuestion:
    """Return the question that was kept."""
    numbers = {name: Fraction(value) for name, value in kept["numbers"].items()}
    return DrawnQuestion(kept["family"], kept["seed"], numbers, kept["words"], tuple(map(tuple, kept["picks"])))


class QuestionContext(NamedTuple):
    """What a question is drawn and told with: the families' words, what a technique gives, how it sets the family.

    `units` is the system of measures it is drawn in, for a family that has a form in each; "" draws its usual form.
    """

    words: QuestionWords
    material: Material = PRACTICE
    setting: QuestionSetting | None = None
    units: System = ""


def context_of(technique: Technique, family: str, words: QuestionWords) -> QuestionContext:
    """Return the context of a family in a technique; without a setting where the technique does not set it."""
    setting = next((each for each in technique.questions if each.family == family), None)
    return QuestionContext(words, material_of(technique), setting)
