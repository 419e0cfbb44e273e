"""How early and how late food that cools can come to a temperature: an estimate, in floats.

Newton's law takes off the same share of the gap each minute, so a forecast from the first hot readings comes too early:
real food slows down on the way, and how far is seldom known. Here each reason is taken at its worst for the late end.

- Still air carries off less the smaller the gap: a loss with the power 5/4 of the gap (McAdams, Heat Transmission, 3rd
  ed. 1954, natural convection; from memory). At a gap of 50 °C that is about half of the dry loss, the rest is
  radiation, which goes with the gap (5 W/(m² K) each, by hand). Moved air does not slow so: that is the early end.
- An open pan steams, and steam falls off faster than the gap. What it adds to what air takes from a wet surface is
  (e - e air) / (0.0674 kPa x gap), with the vapour pressures and the constant of Allen and others, FAO Irrigation and
  Drainage Paper 56 (1998), equations 8 and 11. A flat open pan has half of its surface on top: theory only.
- In deep food that is not stirred the middle comes after the probe: by the first term of the slab, cos(zeta x / a) with
  zeta^2 = rate x a^2 / diffusivity (Incropera, Fundamentals of Heat and Mass Transfer, section 5.5; from memory), for a
  probe half way to the middle.
- A thermometer that shows whole degrees may be half of one off, at both ends.

Caution: nothing here says that food is safe. A window is no reading: measure the middle.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import cos, exp, log, sqrt

from trainer.messages import message
from trainer.recipe_math.estimates import TimedReading, a_temperature, above_zero

HALF_A_STEP_CELSIUS = 0.5
EVEN_GAP_CELSIUS = 50.0
"""The gap at which still air takes as much as radiation does."""
STILL_AIR_POWER = 0.25
OPEN_TOP = 0.5
PSYCHROMETRIC_KPA = 0.0674
DIFFUSIVITY_MM2_PER_MINUTE = 0.14 * 60
"""Of food that is mostly water: 0.14 mm²/s at 20 °C (that of water: 0.143, CoolProp 8.0.0)."""
DEEPEST_ANGLE = 1.5
"""Just below a right angle: food whose faces are held at the cold around it, where heat is led as fast as it can be."""
DEEP_MILLIMETRES = 100
TELLS_A_RATE_CELSIUS = 5.0
_STEPS = 64
_Loss = Callable[[float, float], float]


@dataclass(frozen=True, slots=True)
class CoolingPan:
    """How the food stands: how deep in millimetres, whether steam gets away, and whether it is stirred all along.

    The depth is that of food cooled from both faces, a pan on a rack; unknown, it is taken as 100 mm (4 in).
    """

    depth_millimetres: float = DEEP_MILLIMETRES
    is_open: bool = True
    is_stirred: bool = False

    def __post_init__(self) -> None:
        """Refuse food without depth."""
        above_zero(self.depth_millimetres, message("a depth in millimetres"))


@dataclass(frozen=True, slots=True)
class Window:
    """When a temperature is met, earliest and latest, on the clock of the readings; None: not to be said."""

    earliest: float | None
    latest: float | None


def vapour_kpa(celsius: float) -> float:
    """Return the pressure of water vapour over water, in kPa: FAO Irrigation and Drainage Paper 56, equation 11.

    >>> round(vapour_kpa(20), 2)
    2.34
    """
    return 0.6108 * exp(17.27 * a_temperature(celsius) / (celsius + 237.3))


def window(readings: Sequence[TimedReading], around_celsius: float, celsius: float, pan: CoolingPan) -> Window:
    """Return when food comes to a temperature: by Newton's law at the earliest, by all that slows it at the latest.

    At least two readings, in order, all above what is around them, which is below the temperature: else neither end
    can be said. A fall so small that the thermometer alone may account for it gives no latest.

    >>> hot = [TimedReading(0, 60), TimedReading(30, 45)]
    >>> found = window(hot, 3, 21, CoolingPan(depth_millimetres=50))
    >>> round(found.earliest or 0), round(found.latest or 0)
    (107, 170)
    """
    if len(readings) < 2 or celsius <= around_celsius or min(each.celsius for each in readings) <= around_celsius:
        return Window(None, None)
    fast = _Course(around_celsius, newton, -HALF_A_STEP_CELSIUS)
    slow = _Course(around_celsius, _slow(pan), HALF_A_STEP_CELSIUS)
    early = fast.meets(readings[-1], celsius, max(fast.paces(readings), default=None))
    late = slow.meets(readings[-1], celsius, min(slow.paces(readings), default=None))
    if late is not None and not pan.is_stirred:
        steady = _Course(around_celsius, newton, HALF_A_STEP_CELSIUS)
        late += _lag(pan.depth_millimetres / 2, min(steady.paces(readings)))
    return Window(early, late)


def newton(celsius: float, around_celsius: float) -> float:
    """Return what Newton's law lets food lose, but for a factor: the gap itself.

    >>> newton(60, 5)
    55
    """
    return celsius - around_celsius


def _slow(pan: CoolingPan) -> _Loss:
    """Return what food loses in still air, by radiation, air and the steam of an open top, but for a factor."""
    open_top = OPEN_TOP if pan.is_open else 0.0

    def loss(celsius: float, around_celsius: float) -> float:
        gap = celsius - around_celsius
        steam = (vapour_kpa(celsius) - vapour_kpa(around_celsius)) / (PSYCHROMETRIC_KPA * gap)
        air = float((gap / EVEN_GAP_CELSIUS) ** STILL_AIR_POWER)
        return gap * (1 + air * (1 + open_top * steam))

    return loss


@dataclass(frozen=True, slots=True)
class _Course:
    """One way food may cool, and by how much the thermometer may show it too cold at first and too warm at last."""

    around: float
    loss: _Loss
    off: float

    def paces(self, readings: Sequence[TimedReading]) -> list[float]:
        """Return how fast the food went over the whole log, and over its last stretch where that tells a rate."""
        first, *_, before, last = (readings[0], *readings)
        stretches = [(first, last)]
        if before is not first and before.celsius - last.celsius >= TELLS_A_RATE_CELSIUS:
            stretches.append((before, last))
        return [
            self.time(one.celsius - self.off, other.celsius + self.off) / (other.minutes - one.minutes)
            for one, other in stretches
            if one.celsius - self.off > other.celsius + self.off > self.around
        ]

    def meets(self, last: TimedReading, celsius: float, pace: float | None) -> float | None:
        """Return when a temperature is met after the last reading; None where no pace is known."""
        return None if pace is None else last.minutes + self.time(last.celsius + self.off, celsius) / pace

    def time(self, hot: float, cold: float) -> float:
        """Return the time from hot to cold at pace 1: the area of 1 / loss, by Simpson's rule on the log of the gap."""
        if hot <= cold:
            return 0.0
        low, high = log(cold - self.around), log(hot - self.around)
        step = (high - low) / _STEPS
        total = 0.0
        for at in range(_STEPS + 1):
            gap = exp(low + at * step)
            weight = 1 if at in (0, _STEPS) else 4 if at % 2 else 2
            total += weight * gap / self.loss(self.around + gap, self.around)
        return total * step / 3


def _lag(half_depth: float, pace: float) -> float:
    """Return by how many minutes the middle comes after a probe half way to it."""
    angle = min(DEEPEST_ANGLE, half_depth * sqrt(pace / DIFFUSIVITY_MM2_PER_MINUTE))
    return -log(cos(angle / 2)) / pace
