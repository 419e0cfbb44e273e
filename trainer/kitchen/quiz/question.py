"""A drawn question with its right answer, its worked solution and the wrong methods that would show in an answer."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Answer:
    """The right value in a unit, with the tolerance inside which another value counts as the same."""

    value: Fraction
    unit: str
    tolerance: Fraction


@dataclass(frozen=True, slots=True)
class WrongMethod:
    """A known wrong way: the value it gives here, what is said to the cook, and what is said to the teacher."""

    name: str
    value: Fraction
    says: str
    tells: str


@dataclass(frozen=True, slots=True)
class Question:
    """One question, complete: it can be asked, graded and explained without drawing it again."""

    family: str
    seed: int
    text: str
    answer: Answer
    solution: tuple[str, ...]
    wrong_methods: tuple[WrongMethod, ...]


@dataclass(frozen=True, slots=True)
class Grade:
    """What came of one answer. `understood` is the answer as read, in the question's unit; `says` speaks to the cook.

    `problem` is set, and `is_right` None, when the text was no usable answer: it is asked again, never graded wrong.
    """

    is_right: bool | None
    method: str | None
    says: str
    understood: str
    problem: str | None = None
