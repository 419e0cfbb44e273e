"""The drawn cooling curves of safe holding are those of Newton's law, and its gates stand where the code has them.

Newton's law of cooling (OpenStax College Algebra 2e, section 6.7): the gap to the surroundings shrinks by the same
share in the same time. Gates: FDA Food Code 2022, § 3-501.14(A). To redraw: put what `drawn` returns into the paths.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

import pytest

from tests.content.conftest import CONTENT
from trainer.kitchen.technique import LocalCode
from trainer.recipe_math.cooling import fitted
from trainer.recipe_math.estimates import TimedReading
from trainer.recipe_math.quantity import Quantity

FIGURE = CONTENT / "techniques" / "safe_holding" / "two_gates.svg"
LEFT, PER_MINUTE, TOP, PER_FAHRENHEIT, WARMEST = 34.0, 0.63, 22.0, 1.36, 140.0
"""Where minute 0 and 140 °F lie on the drawing, and how far it is from one minute and one degree to the next."""
START, ICE, AIR, STEP, LAST = 135.0, 33.0, 38.0, 10, 420
"""In Fahrenheit: the food at the start, an ice bath, the air of a cooler; in minutes: from point to point, the last."""
SHALLOW, DEEP, MOVED = 80, 160, 200
"""Minutes to 70 °F of a shallow pan in ice and a deep pot in a cooler, and when the pot is put in ice after all."""
NEAR = 0.051
"""A coordinate is written to a tenth."""
Curve = Callable[[int], float]


def celsius(fahrenheit: float) -> float:
    """Return degrees Celsius."""
    return (fahrenheit - 32) * 5 / 9


def fahrenheit(degrees: float) -> float:
    """Return degrees Fahrenheit."""
    return degrees * 9 / 5 + 32


def cools(start: float, to: float, minutes: int, around: float) -> Curve:
    """Return the curve through two readings, as recipe math fits it."""
    fit = fitted([TimedReading(0, celsius(start)), TimedReading(minutes, celsius(to))], celsius(around))
    return lambda minute: fahrenheit(fit.celsius_at(minute))


def shallow(minute: int) -> float:
    """Return the degrees of a shallow pan in ice."""
    return cools(START, 70, SHALLOW, ICE)(minute)


def deep(minute: int) -> float:
    """Return the degrees of a deep pot in the cooler, put into ice in shallow pans when it is too late."""
    slow = cools(START, 70, DEEP, AIR)
    if minute <= MOVED:
        return slow(minute)
    gap = (slow(MOVED) - ICE) / (START - ICE)
    return ICE + gap * (shallow(minute - MOVED) - ICE)


def across(minute: float) -> float:
    """Return how far to the right a minute lies."""
    return LEFT + PER_MINUTE * minute


def down(degrees: float) -> float:
    """Return how far down a temperature lies."""
    return TOP + PER_FAHRENHEIT * (WARMEST - degrees)


def drawn(curve: Curve) -> str:
    """Return a curve as the text of a path, a point every ten minutes."""
    points = (f"{across(minute):.1f} {down(curve(minute)):.1f}" for minute in range(0, LAST + 1, STEP))
    return "M" + "L".join(points)


def marked(name: str) -> str:
    """Return the element of the figure with this mark."""
    found = re.search(rf'<\w+[^>]*data-shows="{name}"[^>]*/>', FIGURE.read_text("utf-8"))
    assert found, f"nothing in the figure shows {name}"
    return found[0]


def points_of(name: str) -> Sequence[tuple[float, float]]:
    """Return the points of a drawn path."""
    path = re.search(r' d="([^"]+)"', marked(name))
    assert path
    return [(float(x), float(y)) for x, y in re.findall(r"[ML]([\d.]+) ([\d.]+)", path[1])]


@pytest.mark.parametrize(("name", "curve"), [("in_time", shallow), ("too_late", deep)])
def test_a_drawn_curve_is_the_calculated_one(name: str, curve: Curve) -> None:
    """Every point, to a tenth; the text to put there stands in the message."""
    points, minutes = points_of(name), range(0, LAST + 1, STEP)
    assert len(points) == len(minutes), drawn(curve)
    for (x, y), minute in zip(points, minutes, strict=True):
        assert abs(x - across(minute)) < NEAR, drawn(curve)
        assert abs(y - down(curve(minute))) < NEAR, drawn(curve)


@pytest.mark.parametrize("minute", [0, 40, 80, 160, 240])
def test_the_curve_is_newtons_worked_by_hand(minute: int) -> None:
    """The gap of 102 degrees shrinks to 37 in 80 minutes, and by the same share in the next 80."""
    assert shallow(minute) == pytest.approx(33 + 102 * (37 / 102) ** (minute / 80), abs=1e-9)


def _hours_and_degrees(code: LocalCode, within: str, end: str) -> tuple[float, float]:
    time, target = code.limits[within].highest, code.limits[end].target
    assert time is not None
    assert target is not None
    return float(time.base) / 60, float(Quantity(target.amount, target.unit).to("°F").amount)


@pytest.mark.parametrize(
    ("gate", "within", "end"),
    [
        ("first_gate", "cooling_to_middle_within", "cooling_middle"),
        ("last_gate", "cooling_to_end_within", "cooling_end"),
    ],
)
def test_a_gate_stands_where_the_code_has_it(food_code: LocalCode, gate: str, within: str, end: str) -> None:
    """§ 3-501.14(A): 70 °F within 2 h, 41 °F within 6 h; the wall ends at the temperature, at the time."""
    minutes, degrees = _hours_and_degrees(food_code, within, end)
    box = {key: float(value) for key, value in re.findall(r' (x|y|width|height)="([\d.]+)"', marked(gate))}
    assert box["x"] + box["width"] / 2 == pytest.approx(across(minutes), abs=NEAR)
    assert box["y"] + box["height"] == pytest.approx(down(degrees), abs=NEAR)


def test_one_curve_passes_both_gates_and_the_other_the_last_alone() -> None:
    """What the figure teaches: 41 °F in time does not make up for 70 °F too late."""
    assert (shallow(120) < 70, shallow(360) < 41) == (True, True)
    assert (deep(120) < 70, deep(360) < 41) == (False, True)
