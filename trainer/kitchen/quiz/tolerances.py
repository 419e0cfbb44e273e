"""How fine an answer is asked for: the step of the instrument that would show it, and the side that is safe.

An answer is right within half a step of the key, or where both round to the same step. What is counted, or read off a
mark, has no step and is right exactly.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from trainer.kitchen.quiz.comparison import EqualRounded
from trainer.messages import Text, joined, message
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.units import word_of

QUARTER_OUNCE = Fraction(1, 64)
OUNCE = Fraction(1, 16)
SPELLED = (message("no"), message("one"), message("two"), message("three"), message("four"))
Side = Literal["", "low", "high"]
"""On which side of the key an answer errs safely."""
_NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class Tolerance:
    """`step` gives the instrument's step for a right value, in the question's unit; `asks` says it to the cook.

    `rounded` is set where not a step decides, but whether both numbers round to so many figures. With `safe_side` an
    answer up to `safe_by` beyond half a step to that side is right too; without `safe_by`, a whole step. `net` is how
    near a number must come to a wrong method's to be named by it; 0 leaves that to the step.
    """

    step: Callable[[Fraction], Fraction]
    asks: Callable[[Fraction], Text]
    reason: str
    rounded: EqualRounded | None = None
    safe_side: Side = ""
    safe_by: Fraction | None = None
    net: Fraction = Fraction(0)

    def of(self, value: Fraction) -> Fraction:
        """Return how far from a right value an answer may lie to either side: half a step."""
        return self.step(value) / 2

    def erring(self, side: Side, by: Fraction | None = None) -> Tolerance:
        """Return the same tolerance with a side on which a whole step more, or this much more, is right."""
        return replace(self, safe_side=side, safe_by=by)

    def named_within(self, net: str) -> Tolerance:
        """Return the same tolerance with a net for wrong methods, for steps so wide that five cover what lies near."""
        return replace(self, net=Fraction(net))

    def leeway(self, value: Fraction) -> tuple[Fraction, Fraction]:
        """Return how much more than half a step is right, below and above the key."""
        if not self.safe_side:
            return _NONE, _NONE
        more = self.step(value) if self.safe_by is None else self.safe_by
        return (more, _NONE) if self.safe_side == "low" else (_NONE, more)


def nearest(shown: Text) -> Text:
    """Return the sentence that tells how fine to answer, for a step as it is shown: 5 g."""
    return message("Answer to the nearest {step}.", step=shown)


def exactly(asks: Text, reason: str) -> Tolerance:
    """Return no tolerance at all, for what is counted or read off a mark."""
    return Tolerance(lambda value: _NONE, lambda value: asks, reason)


def to_the(step: str, shown: Text, reason: str) -> Tolerance:
    """Return the same step for every value, shown in these figures with its unit."""
    size, asks = Fraction(step), nearest(shown)
    return Tolerance(lambda value: size, lambda value: asks, reason)


def fine_then_coarse(below: int, fine: tuple[str, Text], coarse: tuple[str, Text], reason: str) -> Tolerance:
    """Return a fine step for values below a limit and a coarse one from there on, each with how it is shown."""
    limit, steps = Fraction(below), (Fraction(fine[0]), Fraction(coarse[0]))
    shown = (nearest(fine[1]), nearest(coarse[1]))
    return Tolerance(lambda value: steps[value >= limit], lambda value: shown[value >= limit], reason)


def to_figures(figures: int, reason: str) -> Tolerance:
    """Return the rule that both numbers are the same when rounded to so many figures: `equal-rounded`.

    Its tolerance is a whole step of the last figure, so that no two answers stand in neighbouring steps.
    """
    rounded = EqualRounded("significantFigures", figures)
    asks = message("Round to {number} figures or finer.", number=SPELLED[figures])
    return Tolerance(lambda value: 2 * rounded.step(value), lambda value: asks, reason, rounded)


def to_part(step: str, unit: str, reason: str) -> Tolerance:
    """Return a step in decimals of the unit it is shown in: `0.5 %`."""
    return to_the(step, f"{number_text(Fraction(step))} {unit}", reason)


SCALE = "A bench scale shows 5 g; one for ten kilograms and more shows 50 g."
KILOGRAMS = fine_then_coarse(10, ("1/200", "5 g"), ("1/20", "50 g"), SCALE)
GRAMS = fine_then_coarse(10_000, ("5", "5 g"), ("50", "50 g"), SCALE)
FINE_GRAMS = fine_then_coarse(
    250, ("1", message("gram")), ("5", "5 g"), "A small scale shows single grams, a bench scale 5 g."
)
POUNDS = fine_then_coarse(
    10,
    ("1/64", "1/4 oz"),
    ("1/16", message("ounce")),
    "A portion scale shows a quarter ounce; one for ten pounds and more, an ounce.",
)
OUNCES = to_the("1/4", "1/4 oz", "A portion scale shows a quarter ounce.")
FINE_OUNCES = to_the("1/10", "0.1 oz", "A small scale shows a tenth of an ounce.")
MILLILITRES = fine_then_coarse(10_000, ("5", "5 mL"), ("50", "50 mL"), "A jug is marked every 5 mL, a tall pot 50 mL.")
FINE_MILLILITRES = to_the("1", message("milliliter"), "A small measuring cup is marked every millilitre.")
FLUID_OUNCES = to_the("1/4", "1/4 fl oz", "A small jug is marked every quarter of a fluid ounce.")
CELSIUS = to_part("1/2", "°C", "A probe shows half degrees (FDA Food Code 4-203.11 asks for 1 °C).")
FAHRENHEIT = to_the("1", message("degree"), "A probe shows whole degrees (FDA Food Code 4-203.11 asks for 2 °F).")
QUARTER_TEASPOON = to_the(
    "1/12", joined(["1/4", word_of("tsp", 1)]), "A quarter teaspoon is the smallest spoon; shown in tablespoons."
)
HALF_PERCENT = to_part("1/2", "%", "Yields and baker's percentages are written to the half.")
TENTH_PERCENT = to_part("1/10", "%", "The weights are whole, so a tenth can be worked out; books give the tenth.")
WHOLE = exactly(message("Give a whole number."), "None: things that are counted come whole.")
ON_THE_CLOCK = to_the("1", message("minute"), "A kitchen clock is read to the minute.")
ON_THE_TIMER = to_the("1", message("second"), "A timer is read to the second.")
CENTS = to_the("1/100", message("cent"), "Money is written in whole cents.")
TWO_PLACES = to_the("1/100", "0.01", "Cards print it with two places.")
