"""A drawn question with its right answer, its worked solution and the wrong methods that would show in an answer."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from trainer.kitchen.quiz.comparison import Equal, EqualRounded
from trainer.messages import Text


@dataclass(frozen=True, slots=True)
class Answer:
    """The right value in a unit, with the tolerance inside which another value counts as the same.

    Where `rounded` is set, values count as the same when both round to one number, as it says. With `unit_required` the
    change of unit is what is asked, so that an answer in another unit is asked again.
    """

    value: Fraction
    unit: str
    tolerance: Fraction
    rounded: EqualRounded | None = None
    unit_required: bool = False

    def counts_as(self, value: Fraction, key: Fraction) -> bool:
        """Return whether a value in this unit counts as the same as a key, the right one or a wrong method's."""
        if self.rounded is not None:
            return self.rounded.accepts(value, key)
        return Equal("absolute", self.tolerance, self.tolerance).accepts(value, key)


@dataclass(frozen=True, slots=True)
class WrongMethod:
    """A known wrong way: the value it gives here, and what is said to the cook."""

    name: str
    value: Fraction
    says: Text


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing to choose: a short key ("1"), the text, whether it is right; if not, its name and what is said."""

    key: str
    text: Text
    is_right: bool
    name: str = ""
    says: Text = ""


@dataclass(frozen=True, slots=True)
class Question:
    """One question, complete: it can be asked, graded and explained without drawing it again.

    With `choices`, exactly one is right and `answer.value` is its key; the unit is then empty. `figure` is SVG text in
    one ink, to stand in the page as it is, and `figure_alt` says the same in words. `food` is the id of what a sum is
    about and `food_word` what it is called, where that is known; `safety` says that it is about heat, time, chemicals
    or allergens. The first `hints` lines of the solution do not give the answer to a choice away.
    """

    family: str
    seed: int
    text: Text
    answer: Answer
    solution: tuple[Text, ...]
    wrong_methods: tuple[WrongMethod, ...]
    choices: tuple[Choice, ...] = ()
    figure: str = ""
    figure_alt: Text = ""
    food: str = ""
    food_word: str = ""
    safety: bool = False
    hints: int = 0

    @property
    def right_choice(self) -> Choice | None:
        """Return the choice that is right; None where there is nothing to choose."""
        return next((choice for choice in self.choices if choice.is_right), None)


@dataclass(frozen=True, slots=True)
class Grade:
    """What came of one answer. `understood` is the answer as read, in the question's unit; `says` speaks to the cook.

    `problem` is set, and `is_right` None, when the text was no usable answer: it is asked again, never graded wrong.
    """

    is_right: bool | None
    method: str | None
    says: Text
    understood: Text
    problem: Text | None = None
