"""What a question family is: how numbers are drawn, the right method, the known wrong ones, and how close is close."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Literal, NamedTuple

from trainer.kitchen.quiz.tolerances import Tolerance

Level = Literal["one step", "two steps", "in a shift"]
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


def fits_always(numbers: Numbers) -> bool:
    """Return True: every draw is one a kitchen would see."""
    return bool(numbers)


def nothing_more(rng: Random, numbers: Numbers) -> Numbers:
    """Return the numbers as drawn from the ranges."""
    return numbers


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """One kind of calculation. `ranges` and `words` are the defaults a content file may override, by name.

    A word with `|` in it is a list to draw one from. `caution` marks a family about heat, time or temperature.
    `below_zero` says an answer may be negative, as a freezer's temperature is.
    """

    name: str
    title: str
    level: Level
    unit: str
    ranges: Mapping[str, Range]
    words: Mapping[str, str]
    ask: Callable[[Numbers, Words], str]
    right: Callable[[Numbers], Fraction]
    solve: Callable[[Numbers], tuple[str, ...]]
    wrong: tuple[WrongWay, ...]
    tolerance: Tolerance
    checked_against: str
    fits: Callable[[Numbers], bool] = fits_always
    more: Callable[[Random, Numbers], Numbers] = nothing_more
    caution: str = ""
    below_zero: bool = False
