"""Scenes of the work to decide in: what is seen, what may be answered, and how likely a guess is right.

A number in a scene is a measured line, or is drawn near one, so that a changed limit changes what is seen and what is
right. What is drawn is kept by what was picked, never by the value it came to.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import UNITS

SceneKind = Literal[
    "which_limit", "what_now", "who_may", "tell_guest", "which_ready", "next_why", "mark_all", "keyed"
]  # fmt: skip
KINDS: tuple[SceneKind, ...] = (
    "which_limit", "what_now", "who_may", "tell_guest", "which_ready", "next_why", "mark_all", "keyed",
)  # fmt: skip
System = Literal["us", "metric"]

LETTERS = "ABCDEFGHIJ"
MINUTE = UNITS["min"]
STRUCK = 2
"""So many answers somebody who only half knows can strike out before guessing."""
NUMBER_LUCK = Fraction(1, 10)
NAMES_LUCK = Fraction(1, 6)
"""Three pictures, each with a name of its own: six ways to give them."""
TWO_PARTS_LUCK = Fraction(1, 4)


@dataclass(frozen=True, slots=True)
class SceneChoice:
    """One answer of a scene, in words; `wrong` says why it is wrong, empty where it is right."""

    id: str
    text: str
    is_right: bool
    wrong: str = ""


@dataclass(frozen=True, slots=True)
class ScenePicture:
    """One picture to be named: SVG in one ink, what it shows in words, and the id of the name it has."""

    id: str
    svg: str
    alt: str
    name: str


@dataclass(frozen=True, slots=True)
class SceneDraw:
    """A number of a scene, drawn from lowest to highest by a step.

    `clock`: a time of day, in minutes past midnight. `after`: the time *start*, and so many percent of the line later.
    `near`: so much above (below, where negative) the line, in the line's own unit. `times`: so many times the line.
    """

    id: str
    how: Literal["clock", "after", "near", "times"]
    lowest: Fraction
    highest: Fraction
    step: Fraction
    line: Quantity | None = None
    start: str = ""

    @property
    def picks(self) -> tuple[str, ...]:
        """Return all there is to pick from, as texts."""
        count = int((self.highest - self.lowest) / self.step) + 1
        return tuple(str(self.lowest + self.step * place) for place in range(count))

    def value(self, picked: str, before: Mapping[str, Fraction | Quantity]) -> Fraction | Quantity:
        """Return what a pick comes to: minutes past midnight, or a quantity; *before* are the draws above it."""
        amount = Fraction(picked)
        if self.line is None:
            return amount
        if self.how == "after":
            began = before[self.start]
            minutes = self.line.base / 60 * amount / 100
            return (began if isinstance(began, Fraction) else Fraction(0)) + round(minutes)
        if self.how == "times":
            return Quantity(self.line.amount * amount, self.line.unit)
        return Quantity(self.line.amount + amount, self.line.unit)


@dataclass(frozen=True, slots=True)
class SceneKey:
    """What a number asked for is worked out from.

    `left`: the line, less the time from the first draw named to the second. `sum`: the line and the draw. `parts`: how
    often the line goes into the draw. `instead` is a line that is often taken in its place.
    """

    how: Literal["left", "sum", "parts"]
    line: Quantity
    of: tuple[str, ...]
    unit: str
    instead: Quantity | None = None

    def value(self, drawn: Mapping[str, Fraction | Quantity], line: Quantity | None = None) -> Fraction:
        """Return the number in its unit, with another line where one is given."""
        used = line or self.line
        values = [drawn[name] for name in self.of]
        if self.how == "parts":
            (whole,) = (value for value in values if isinstance(value, Quantity))
            return whole.base / used.base
        limit = used.to(self.unit).amount
        if self.how == "sum":
            (given,) = (value for value in values if isinstance(value, Quantity))
            return limit + given.to(self.unit).amount
        start, now = (value for value in values if isinstance(value, Fraction))
        return limit - Quantity(now - start, MINUTE).to(self.unit).amount


@dataclass(frozen=True, slots=True)
class Scene:
    """One scene: what is seen, in words with braces for what is drawn, and what may be answered.

    `choices` are acts, words to mark or names of pictures; `reasons` stand behind an act. `because` says why the right
    answer is right. `figure` is SVG in one ink.
    """

    id: str
    kind: SceneKind
    seen: str
    because: str
    choices: tuple[SceneChoice, ...] = ()
    reasons: tuple[SceneChoice, ...] = ()
    pictures: tuple[ScenePicture, ...] = ()
    draws: tuple[SceneDraw, ...] = ()
    key: SceneKey | None = None
    figure: str = ""
    figure_alt: str = ""
    first: System = "us"

    @property
    def right(self) -> tuple[str, ...]:
        """Return the ids of the right choices."""
        return tuple(choice.id for choice in self.choices if choice.is_right)

    @property
    def luck(self) -> Fraction:
        """Return the chance to be right without knowing."""
        if self.kind == "keyed":
            return NUMBER_LUCK
        if self.kind == "which_ready":
            return NAMES_LUCK
        if self.kind == "next_why":
            return TWO_PARTS_LUCK
        return luck_of_choices(len(self.choices), is_mark_all=self.kind == "mark_all")


def luck_of_choices(count: int, *, is_mark_all: bool = False) -> Fraction:
    """Return the chance to be right among so many choices, two of them struck out.

    >>> luck_of_choices(6), luck_of_choices(5, is_mark_all=True)
    (Fraction(1, 4), Fraction(1, 8))
    """
    left = max(count - STRUCK, 1)
    return Fraction(1, 2**left) if is_mark_all else Fraction(1, left)


def luck_of_bank(scenes: Sequence[Scene]) -> Fraction:
    """Return the chance to be right in a bank of scenes: the mean over them; 1 where there is none."""
    return sum((scene.luck for scene in scenes), Fraction(0)) / len(scenes) if scenes else Fraction(1)
