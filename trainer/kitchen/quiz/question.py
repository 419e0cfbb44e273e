"""A drawn question with its right answer, its worked solution and the wrong methods that would show in an answer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from trainer.kitchen.quiz.comparison import EqualRounded
from trainer.messages import Text
from trainer.recipe_math.figures import rounded_half_up
from trainer.recipe_math.rounding import to_nearest

Verdict = Literal["asked_again", "right", "rounded_early", "method", "slip", "copied", "unknown"]
"""What an answer proves, in the order in which it is looked for."""
_NONE, _TENTH, _HUNDREDTH = Fraction(0), Fraction(1, 10), Fraction(1, 100)


@dataclass(frozen=True, slots=True)
class Answer:
    """The right value in a unit, with the tolerance inside which another value counts as the same.

    With a `step`, values that round to the same step count as the same too. Where `rounded` is set, values count as the
    same when both round to one number, as it says. `low` and `high` are how much further from the key an answer is
    right, below and above, for the safe side. `net` is how near an unrounded number must come to a wrong one, where
    the step alone would catch too many at random. With `unit_required` the change of unit is what is asked, so that an
    answer in another unit is asked again.
    """

    value: Fraction
    unit: str
    tolerance: Fraction
    rounded: EqualRounded | None = None
    unit_required: bool = False
    step: Fraction = _NONE
    low: Fraction = _NONE
    high: Fraction = _NONE
    net: Fraction = _NONE

    def accepts(self, value: Fraction) -> bool:
        """Return whether a value in this unit is right."""
        if self.low or self.high:
            lowest, highest = self.value - self.tolerance - self.low, self.value + self.tolerance + self.high
            if lowest <= value <= highest:
                return True
        return self.counts_as(value, self.value)

    def counts_as(self, value: Fraction, key: Fraction) -> bool:
        """Return whether a value in this unit counts as the same as a key, the right one or a wrong method's."""
        if self.rounded is not None:
            return self.rounded.accepts(value, key)
        if not self.tolerance and not self.step:
            return value == key
        (top, under), (key_top, key_under) = value.as_integer_ratio(), key.as_integer_ratio()
        off, off_under = abs(top * key_under - key_top * under), under * key_under  # in whole numbers for speed
        if off * self.tolerance.denominator <= self.tolerance.numerator * off_under:
            return True
        if not self.step or off * self.step.denominator >= self.step.numerator * off_under:
            return False
        return rounded_half_up(value / self.step) == rounded_half_up(key / self.step)

    def shows(self, value: Fraction, wrong: Fraction) -> bool:
        """Return whether a value is that of a wrong method.

        What is counted is right exactly; a part of a thing, which a wrong method may leave, is typed with a place or
        two. With a net, a number is the wrong method's where it comes that near, or is rounded from it as asked.
        """
        if self.net:
            return abs(value - wrong) <= self.net or value == to_nearest(wrong, self.step)
        if not self.step and self.rounded is None and value.denominator > 1 and wrong.denominator > 1:
            return abs(value - wrong) <= _HUNDREDTH or value == to_nearest(wrong, _TENTH)
        return self.counts_as(value, wrong)


@dataclass(frozen=True, slots=True)
class WrongMethod:
    """A known wrong way: the value it gives here, and what is said to the cook.

    `clause` says what was done, to stand after "if": `the loss is left out`; empty where content has none.
    """

    name: str
    value: Fraction
    says: Text
    clause: Text = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose: a short key ("1"), the text, whether it is right; if not, its name and what is said."""

    key: str
    text: Text
    is_right: bool
    name: str = ""
    says: Text = ""

    @property
    def letter(self) -> str:
        """Return the letter it is shown and typed by: A for the first."""
        return chr(ord("A") + int(self.key) - 1)


@dataclass(frozen=True, slots=True)
class NamedPicture:
    """One of several pictures in a figure, by its letter there: the key of the name that is right."""

    letter: str
    right: str


Answering = Literal["number", "one", "all", "reason", "names"]
"""How a question is answered: a number, one choice, every choice that fits, an act and then why, a name a picture."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question, complete: it can be asked, graded and explained without drawing it again.

    With `choices`, exactly one is right and `answer.value` is its key; the unit is then empty. Where every choice that
    fits is marked (`answering` all), an act has `reasons`, or `pictures` are named by the choices, the value is the
    figures of `key` in a row. `figure` is SVG text in
    one ink, to stand in the page as it is, and `figure_alt` says the same in words. `food` is the id of what a sum is
    about and `food_word` what it is called, where that is known; `safety` says that it is about heat, time, chemicals
    or allergens. The first `hints` lines of the solution do not give the answer to a choice away.

    `early` is what comes out when a step of the solution is rounded as shown and carried on, which `early_is_right`
    lets count. `solved` tells the solution when it is asked for: most questions are drawn and graded without it.
    `numbers` are those of the question, for an answer that is a copy of one. `off` names the slips that
    other errors would meet by accident.
    """

    family: str
    seed: int
    text: Text
    answer: Answer
    solved: Callable[[], tuple[Text, ...]] = field(compare=False, repr=False)
    wrong_methods: tuple[WrongMethod, ...]
    choices: tuple[Choice, ...] = ()
    figure: str = ""
    figure_alt: Text = ""
    food: str = ""
    food_word: str = ""
    safety: bool = False
    hints: int = 0
    early: tuple[Fraction, ...] = ()
    early_is_right: bool = False
    numbers: tuple[Fraction, ...] = ()
    off: tuple[str, ...] = ()
    marks_all: bool = False
    reasons: tuple[Choice, ...] = ()
    pictures: tuple[NamedPicture, ...] = ()

    @property
    def solution(self) -> tuple[Text, ...]:
        """Return the worked solution, line by line."""
        return self.solved()

    @property
    def right_choice(self) -> Choice | None:
        """Return the choice that is right; None where there is nothing to choose."""
        return next((choice for choice in self.choices if choice.is_right), None)

    @property
    def answering(self) -> Answering:
        """Return how it is answered."""
        if self.pictures:
            return "names"
        if self.reasons:
            return "reason"
        if self.choices:
            return "all" if self.marks_all else "one"
        return "number"

    @property
    def every_choice(self) -> tuple[Choice, ...]:
        """Return all there is to choose, the reasons of an act behind the acts."""
        return (*self.choices, *self.reasons)

    @property
    def key(self) -> str:
        """Return the right answer as it is kept: a number, a key, or keys with a blank between."""
        if self.pictures:
            return " ".join(picture.right for picture in self.pictures)
        if self.choices:
            return " ".join(choice.key for choice in self.every_choice if choice.is_right)
        return str(self.answer.value)


@dataclass(frozen=True, slots=True)
class Grade:
    """What came of one answer. `understood` is the answer as read, in the question's unit; `says` speaks to the cook.

    `name` is that of the wrong method or slip. `problem` is set when the text was no usable answer: it is asked again,
    never graded wrong.
    """

    verdict: Verdict
    says: Text
    understood: Text
    name: str | None = None
    problem: Text | None = None

    @property
    def is_right(self) -> bool | None:
        """Return whether the answer is right; None where it is asked again."""
        return None if self.verdict == "asked_again" else self.verdict == "right"

    @property
    def method(self) -> str | None:
        """Return the name of the family's own wrong method that shows; None for a slip."""
        return self.name if self.verdict == "method" else None
