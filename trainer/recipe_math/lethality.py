"""Heat that kills: D and z, and the log reduction they give: an estimate, in floats.

D is the time that kills 90 percent at one temperature; z is by how many celsius D falls to a tenth. Both belong to one
organism in one food, as measured: sugar, salt and dry surfaces can make D ten times longer.

Caution: nothing here says that food is safe. Cooking times and temperatures come from the local code, not from these
functions; a kitchen that wants to cook by D and z needs a licensed process authority and an approved plan.
"""

from __future__ import annotations

from dataclasses import dataclass

from trainer.messages import message
from trainer.recipe_math.estimates import a_temperature, above_zero, finite
from trainer.recipe_math.quantity import QuantityProblem

MOST_TENFOLDS = 300
_NOT_KNOWN = (
    "the time to come up to temperature, and any lag before the kill begins",
    "the coldest place in the food",
    "whether this organism in this food is as heat resistant as the one measured",
)


@dataclass(frozen=True, slots=True)
class HeatResistance:
    """D in minutes at a temperature and z in celsius, of one organism in one food, and who measured it."""

    d_minutes: float
    at_celsius: float
    z_celsius: float
    source: str

    def __post_init__(self) -> None:
        """Refuse a D or z that is not above zero."""
        above_zero(self.d_minutes, message("a D in minutes"))
        above_zero(self.z_celsius, message("a z in celsius"))
        a_temperature(self.at_celsius)

    def d_at(self, celsius: float) -> float:
        """Return D in minutes at another temperature: a tenth for every z warmer.

        The line holds near where it was measured; far from there it is a guess, and out of all reach it is refused
        (QuantityProblem).

        >>> HeatResistance(4.0, 60, 5, "an example").d_at(65)
        0.4
        """
        return self.d_minutes * _tenfolds((self.at_celsius - a_temperature(celsius)) / self.z_celsius)


@dataclass(frozen=True, slots=True)
class Reduction:
    """By how many powers of ten the count falls, the D it was worked out with, and what is not known."""

    logs: float
    d_minutes: float
    not_known: tuple[str, ...]


def log_reduction(resistance: HeatResistance, minutes: float, celsius: float) -> Reduction:
    """Return the log reduction of a time at one temperature: minutes over D there.

    No come-up, no cooling down, no lag. Zero minutes or more (QuantityProblem). Source of the rule: OpenStax
    Microbiology, section 13.1 (D), and D x 10^((T ref - T) / z).

    >>> round(log_reduction(HeatResistance(3, 65, 5, "an example"), minutes=15, celsius=65).logs, 6)
    5.0
    """
    if finite(minutes, message("a time in minutes")) < 0:
        raise QuantityProblem(message("{minutes} min is not a time: it must be zero or more.", minutes=f"{minutes:g}"))
    d_minutes = resistance.d_at(celsius)
    return Reduction(minutes / d_minutes, d_minutes, _NOT_KNOWN)


def _tenfolds(power: float) -> float:
    if abs(power) > MOST_TENFOLDS:
        raise QuantityProblem(
            message("10 to the {power} is out of all reach: the temperatures lie too far apart.", power=f"{power:.0f}")
        )
    return float(10.0**power)
