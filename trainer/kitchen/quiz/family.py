"""What a question family is: sums, with their right and known wrong methods, and questions with choices."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Literal, NamedTuple

from trainer.kitchen.quiz.material import Material
from trainer.kitchen.quiz.question import Choice
from trainer.kitchen.quiz.tolerances import Tolerance

Level = Literal["one step", "two steps", "in a shift"]
UnitRule = Literal["required", "same_kind"]
"""Whether an answer must come in the very unit asked for, or in any unit of its kind."""

Numbers = Mapping[str, Fraction]
Words = Mapping[str, str]


class Range(NamedTuple):
    """Where one number is drawn from: lowest to highest, both ends in, by a step; `means` says what it is."""

    lowest: Fraction
    highest: Fraction
    step: Fraction
    means: str


def span(lowest: int | str, highest: int | str, step: int | str, means: str) -> Range:
    """Return a range; texts such as `1/4` keep the ends exact."""
    return Range(Fraction(lowest), Fraction(highest), Fraction(step), means)


def only(value: int | str, means: str) -> Range:
    """Return a range with one value in it: a limit a content file may set otherwise."""
    return span(value, value, 1, means)


@dataclass(frozen=True, slots=True)
class WrongWay:
    """A wrong method of a family: its formula, the sentence to the cook and the sentence to the teacher.

    The formula gives None where the method cannot be told from the right one or makes no sense.
    """

    name: str
    formula: Callable[[Numbers], Fraction | None]
    says: str
    tells: str


class Figure(NamedTuple):
    """A drawing that belongs to a question: SVG text in one ink, and the same said in words, the answer left out."""

    svg: str
    alt: str


class Drawn(NamedTuple):
    """What a question with choices is made from: chance, the numbers and words drawn, the technique's own material."""

    rng: Random
    numbers: Numbers
    words: Words
    material: Material


class Posed(NamedTuple):
    """A question with choices, one of them right, as a family makes it."""

    text: str
    choices: tuple[Choice, ...]
    solution: tuple[str, ...]
    figure: Figure = Figure("", "")


def fits_always(numbers: Numbers) -> bool:
    """Return True: every draw is one a kitchen would see."""
    return bool(numbers)


def nothing_more(rng: Random, numbers: Numbers) -> Numbers:
    """Return the numbers as drawn from the ranges."""
    return numbers


def nothing_told(numbers: Numbers) -> tuple[Fraction, ...]:
    """Return that no number of the text could be taken for the answer."""
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Family(ABC):
    """One kind of question. `ranges` and `words` are the defaults a content file may override, by name.

    A word with `|` in it is a list to draw one from. `caution` marks a family about heat, time, chemicals or allergens:
    its questions have a floor of their own. `formula` is the right method in one line, for people. `retired` are words
    that a content file may still set and that are said no more.
    """

    name: str
    title: str
    level: Level
    unit: str
    ranges: Mapping[str, Range]
    words: Mapping[str, str]
    formula: str
    checked_against: str
    caution: str = ""
    retired: tuple[str, ...] = ()

    @abstractmethod
    def methods(self) -> Mapping[str, str]:
        """Return the wrong methods by name, with what each means, said to the teacher."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum(Family):
    """A calculation, or a reading: the answer is a number with a unit, and wrong methods are known by their numbers.

    `below_zero` says an answer may be negative, as a freezer's temperature is. `unit_rule` is "required" where the
    change of unit is the question. `told` are the quantities of the text that could be the answer by chance, in its
    unit: a draw in which one is right is refused, since a cook who copies it would seem to know.
    """

    ask: Callable[[Numbers, Words], str]
    right: Callable[[Numbers], Fraction]
    solve: Callable[[Numbers], tuple[str, ...]]
    wrong: tuple[WrongWay, ...]
    tolerance: Tolerance
    fits: Callable[[Numbers], bool] = fits_always
    more: Callable[[Random, Numbers], Numbers] = nothing_more
    picture: Callable[[Numbers], Figure] | None = None
    below_zero: bool = False
    unit_rule: UnitRule = "same_kind"
    told: Callable[[Numbers], Iterable[Fraction]] = nothing_told

    def methods(self) -> Mapping[str, str]:
        """Return the wrong methods by name, with what each means, said to the teacher."""
        return {way.name: way.tells for way in self.wrong}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choosing(Family):
    """A question with choices. `choose` makes one, or None where these draws make none; `tells` names the slips.

    `advises` says to the cook, for each slip, what they did and how to go about it instead.
    `takes` says which words of the technique it is made from, so that content bounds how many questions there are.
    """

    choose: Callable[[Drawn], Posed | None]
    tells: Mapping[str, str]
    advises: Mapping[str, str]
    takes: Literal["", "faults", "steps"] = ""

    def methods(self) -> Mapping[str, str]:
        """Return the slips by name, with what each means, said to the teacher."""
        return self.tells


AnyFamily = Sum | Choosing
"""A family of either kind."""
