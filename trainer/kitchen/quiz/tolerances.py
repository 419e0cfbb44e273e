"""How close an answer must come, why, and the sentence that tells the cook so before the sum is done."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from trainer.kitchen.quiz.comparison import EqualRounded
from trainer.kitchen.quiz.wording import figures
from trainer.messages import Text, message

QUARTER_OUNCE = Fraction(1, 64)
SPELLED = (message("no"), message("one"), message("two"), message("three"), message("four"))


@dataclass(frozen=True, slots=True)
class Tolerance:
    """`of` gives the tolerance for a right value in the question's unit; `asks` says how fine to round.

    `rounded` is set where not a tolerance decides, but whether both numbers round to one.
    """

    of: Callable[[Fraction], Fraction]
    asks: Callable[[Fraction, str], Text]
    reason: str
    rounded: EqualRounded | None = None


def _three_figures_step(value: Fraction) -> Fraction:
    """Return the place value of the third figure: 10 for 1,456 and 1/100 for 4.35."""
    step = Fraction(1, 100)
    while abs(value) >= 1000 * step:
        step *= 10
    return step


def _pound_step(value: Fraction) -> Fraction:
    """Return a quarter ounce for a weight under ten pounds, a tenth of a pound from there on."""
    return QUARTER_OUNCE if value < 10 else max(Fraction(1, 10), _three_figures_step(value))


def _ounce_step(value: Fraction) -> Fraction:
    """Return half an ounce for under a hundred ounces, the third figure's place from there on."""
    return max(Fraction(1, 2), _three_figures_step(value))


def _rounding(step: Fraction, unit: str) -> Text:
    """Return the sentence that tells how fine to round."""
    return message("Round to {step} {unit} or finer.", step=figures(step), unit=unit.removesuffix(" difference"))


def stepped(step: Callable[[Fraction], Fraction], reason: str) -> Tolerance:
    """Return a tolerance of half a step, so that a right value rounded to the step is right."""
    return Tolerance(lambda value: step(value) / 2, lambda value, unit: _rounding(step(value), unit), reason)


def within(give_or_take: str, reason: str) -> Tolerance:
    """Return the same tolerance for every value."""
    half = Fraction(give_or_take)
    return stepped(lambda value: 2 * half, reason)


def _ask_pounds(value: Fraction, unit: str) -> Text:
    """Return the sentence for a weight in pounds; under ten pounds it speaks of ounces."""
    return message("Round to 1/4 oz or finer.") if value < 10 else _rounding(_pound_step(value), unit)


def exactly(asks: Text, reason: str) -> Tolerance:
    """Return no tolerance at all, for what is counted or read off a clock."""
    return Tolerance(lambda value: Fraction(0), lambda value, unit: asks, reason)


def asked_as(give_or_take: str, asks: Text, reason: str) -> Tolerance:
    """Return the same tolerance for every value, asked for in these words."""
    half = Fraction(give_or_take)
    return Tolerance(lambda value: half, lambda value, unit: asks, reason)


def relative(percent: str, reason: str) -> Tolerance:
    """Return a tolerance of so many percent of the right value: `equal`, relative, both ends in."""
    share = Fraction(percent) / 100
    return Tolerance(
        lambda value: abs(value) * share, lambda value, unit: message("Round to three figures or finer."), reason
    )


def to_figures(figures: int, reason: str) -> Tolerance:
    """Return the rule that both numbers are the same when rounded to so many figures: `equal-rounded`.

    Its tolerance is a whole step of the last figure, so that no two answers stand in neighbouring steps.
    """
    rounded = EqualRounded("significantFigures", figures)
    asks = message("Round to {number} figures or finer.", number=SPELLED[figures])
    return Tolerance(rounded.step, lambda value, unit: asks, reason, rounded)


THREE_FIGURES = stepped(
    _three_figures_step, "Half of the third figure's place: no kitchen balance or jug is read finer than that."
)
POUNDS = Tolerance(
    lambda value: _pound_step(value) / 2,
    _ask_pounds,
    "Half of a quarter ounce under ten pounds, half of a tenth of a pound above: a portion scale shows quarter ounces.",
)
OUNCES = stepped(_ounce_step, "A quarter ounce, or half of the third figure's place: a portion scale shows no finer.")
WHOLE = exactly(message("Give a whole number."), "None: things that are counted come whole.")
MINUTES = exactly("", "None: a kitchen clock is read to the minute, and a limit is kept to the minute.")
SECONDS = exactly("", "None: a timer is read to the second.")
CENTS = asked_as("1/200", message("Round to the cent."), "Half a cent: money is written in whole cents.")
