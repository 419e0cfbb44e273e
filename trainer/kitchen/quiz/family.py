"""What a question family is: sums, with their right and known wrong methods, and questions with choices."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import repeat
from math import lcm
from random import Random
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeVar

from trainer.kitchen.quiz.material import Material
from trainer.kitchen.quiz.picks import Picks
from trainer.kitchen.quiz.sentences import QuestionWords, Sentence, Series
from trainer.kitchen.quiz.tolerances import Tolerance

Level = Literal["one step", "two steps", "in a shift"]
System = Literal["", "us", "metric"]
"""A system of measures; "" where a question is the same in both, or speaks of both."""
UnitRule = Literal["required", "same_kind"]
"""Whether an answer must come in the very unit asked for, or in any unit of its kind."""

T = TypeVar("T")

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


Span = tuple[Fraction, Fraction, Fraction]
"""Lowest, highest and step of a range."""


class Counted(NamedTuple):
    """A range counted over one denominator: its lowest value, its step, and how many values it has."""

    lowest: int
    step: int
    values: int
    under: int


def counted(span: Span) -> Counted:
    """Return a range in whole numbers, so that a value is drawn without fractions."""
    under = lcm(span[0].denominator, span[2].denominator)
    low, high, step = (each.numerator * under // each.denominator for each in span)
    return Counted(low, step, (high - low) // step + 1, under)


def random_of(rng: Random, ranges: Mapping[str, Counted]) -> Numbers:
    """Return one number from each counted range, both ends in."""
    return {name: _over(low + step * below(rng, values), under) for name, (low, step, values, under) in ranges.items()}


@lru_cache(maxsize=2**15)
def _over(top: int, under: int) -> Fraction:
    """Return a fraction; few are drawn again and again, and to look one up is faster than to make it."""
    return Fraction(top, under)


def below(rng: Random, values: int) -> int:
    """Return a whole number from 0 on, below *values*: the one `randrange` gives, with none of its checks."""
    if values < 1:
        raise ValueError(f"{values} values: there is none to draw")
    bits = values.bit_length()
    found = rng.getrandbits(bits)
    while found >= values:
        found = rng.getrandbits(bits)
    return found


def several_below(rng: Random, values: int, count: int) -> list[int]:
    """Return so many whole numbers from 0 on, below *values*, one after the other as `randrange` gives them."""
    if values < 1:
        raise ValueError(f"{values} values: there is none to draw")
    bits = values.bit_length()
    found: list[int] = []
    while len(found) < count:  # as many as are wanting at once, so that none is drawn too many
        found += [each for each in map(rng.getrandbits, repeat(bits, count - len(found))) if each < values]
    return found


class Figure(NamedTuple):
    """A drawing that belongs to a question: SVG text in one ink, and the same in words, the answer left out.

    `labels` are the words in the drawing, for its braces.
    """

    svg: str
    alt: Sentence | Series | str | None = None
    labels: Mapping[str, Sentence] = MappingProxyType({})


NO_FIGURE = Figure("")


class Draw(NamedTuple):
    """What a question with choices is made from: chance, the numbers, the words picked, and what content gives."""

    picks: Picks
    numbers: Numbers
    picked: Words
    material: Material
    words: QuestionWords


class Option(NamedTuple):
    """One thing to choose, by id: its text; where it is wrong, the wrong method, and why, said to the cook."""

    id: str
    text: Sentence | Series | str
    method: str = ""
    why: Sentence | Series | str | None = None


class Keyed(NamedTuple):
    """A number to be worked out in a scene, with its unit and the tolerance it is read by, and known wrong ones."""

    value: Fraction
    unit: str
    tolerance: Fraction
    wrong: Mapping[str, Fraction] = MappingProxyType({})


class ChoiceItem(NamedTuple):
    """A question with choices as a family makes it: the options in the order shown, one of them right.

    With `marks_all` one or more are right, and all must fit; with `reasons` an act is chosen and then why; `names` are
    the options' ids that the pictures of the figure have, picture by picture. `keyed` asks for a number, and there is
    nothing to choose. The first `hints` lines of the solution do not give the answer away.
    """

    text: Sentence | Series
    options: tuple[Option, ...]
    solution: tuple[Sentence | Series | str, ...]
    figure: Figure = NO_FIGURE
    hints: int = 0
    marks_all: bool = False
    reasons: tuple[Option, ...] = ()
    names: tuple[str, ...] = ()
    keyed: Keyed | None = None


def mixed_up(picks: Picks, options: Sequence[Option]) -> tuple[Option, ...]:
    """Return the options in a random order."""
    by_id = {option.id: option for option in options}
    return tuple(by_id[each] for each in picks.mixed(list(by_id)))


def fits_always(numbers: Numbers) -> bool:
    """Return True: every draw is one a kitchen would see."""
    return bool(numbers)


def nothing_more(rng: Random, numbers: Numbers) -> Numbers:
    """Return the numbers as drawn from the ranges."""
    return numbers


def nothing_told(numbers: Numbers) -> tuple[Fraction, ...]:
    """Return that no number of the text could be taken for the answer."""
    return ()


def once_a_draw(work: Callable[[Numbers], T]) -> Callable[[Numbers], T]:
    """Return a function that works out the numbers of a draw once, for the right method and all wrong ones."""
    last: tuple[Numbers, T] | None = None

    def found(numbers: Numbers) -> T:
        nonlocal last
        known = last
        if known is None or known[0] is not numbers:
            last = known = (numbers, work(numbers))
        return known[1]

    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Family(ABC):
    """One kind of question. Its words stand in content, by its name; here is how its numbers are drawn and worked.

    `ranges` are the defaults a content file may override, by name; `words` names its lists of words, of which one is
    picked. `safety` marks a family about heat, time, chemicals or allergens: its questions have a floor of their own.
    `formula` is the right method in one line, for people. `retired` are words that a content file may still set and
    that are said no more. A family no cook needs is not `asked`; old answers of it are told all the same. `more` adds
    to the numbers what depends on them.
    """

    name: str
    level: Level
    unit: str
    ranges: Mapping[str, Range]
    words: tuple[str, ...]
    formula: str
    checked_against: str
    safety: bool = False
    retired: tuple[str, ...] = ()
    asked: bool = True
    more: Callable[[Random, Numbers], Numbers] = nothing_more

    @abstractmethod
    def methods(self) -> tuple[str, ...]:
        """Return the names of the wrong methods."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NumericFamily(Family):
    """A calculation, or a reading: the answer is a number with a unit, and wrong methods are known by their numbers.

    `wrong` gives each wrong method's value; None where it cannot be told from the right one or makes no sense.
    `below_zero` says an answer may be negative, as a freezer's temperature is. `unit_rule` is "required" where the
    change of unit is the question. `told` are the quantities of the text that could be the answer by chance, in its
    unit: a draw in which one is right is refused, since a cook who copies it would seem to know. `early` is what comes
    out where a step of the solution is rounded as shown and carried on; with `early_is_right`, as for prices and rules
    of thumb, it counts. `other` is the same question in the other system of measures than `system`, exact there too:
    its ranges have other names. `off` names slips that other errors of this family would meet by accident.
    """

    ask: Callable[[Numbers, Words], Sentence]
    right: Callable[[Numbers], Fraction]
    solve: Callable[[Numbers], tuple[Sentence, ...]]
    wrong: Mapping[str, Callable[[Numbers], Fraction | None]]
    tolerance: Tolerance
    fits: Callable[[Numbers], bool] = fits_always
    picture: Callable[[Numbers], Figure] | None = None
    below_zero: bool = False
    unit_rule: UnitRule = "same_kind"
    system: System = ""
    other: NumericFamily | None = None
    early: Callable[[Numbers], Iterable[Fraction]] = nothing_told
    early_is_right: bool = False
    off: tuple[str, ...] = ()
    told: Callable[[Numbers], Iterable[Fraction]] = nothing_told

    def methods(self) -> tuple[str, ...]:
        """Return the names of the wrong methods, those of the form in the other system too."""
        return tuple(dict.fromkeys((*self.wrong, *(self.other.wrong if self.other else ()))))

    def in_units(self, system: System) -> NumericFamily:
        """Return the form of the family in a system of measures; itself where it has one form alone."""
        return self.other if self.other is not None and system not in {"", self.system} else self

    def form_of(self, numbers: Numbers) -> NumericFamily:
        """Return the form that numbers were drawn for: each names its ranges in its own units."""
        return self.other if self.other is not None and self.other.ranges.keys() <= numbers.keys() else self

    def every_range(self) -> Mapping[str, Range]:
        """Return the ranges of both forms."""
        return {**(self.other.ranges if self.other else {}), **self.ranges}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceFamily(Family):
    """A question with choices. `choose` makes one, or None where these draws make none; `slips` are its wrong methods.

    `takes` says which words of the technique it is made from, so that content bounds how many questions there are.
    """

    choose: Callable[[Draw], ChoiceItem | None]
    slips: tuple[str, ...]
    takes: Literal["", "faults", "steps", "scenes"] = ""

    def methods(self) -> tuple[str, ...]:
        """Return the names of the wrong methods."""
        return self.slips


AnyFamily = NumericFamily | ChoiceFamily
"""A family of either kind."""
