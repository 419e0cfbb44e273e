"""The figures drawn to scale are those of the numbers: read back from the paper, they give published values."""

from __future__ import annotations

import re

import pytest

from tests.content.conftest import CONTENT
from tests.content.egg_figures import POURED, SETTING, TECHNIQUE, WARMTH, figures
from trainer.kitchen.technique import Content

YOLK_HEAT, MILK_HEAT = 3.05, 3.85
"""kJ/(kg K): raw yolk, ASHRAE Refrigeration chapter 9 (from memory); whole milk, the same chapter's rows (3.79-3.9)."""
LADLE = 2 * 29.5735 * 1.03
"""Grams of milk in 2 fl oz; milk weighs 1.03 g a millilitre (244 g a cup, USDA SR26)."""


def paper(name: str) -> str:
    """Return the text of a figure as it ships."""
    return (CONTENT / "techniques" / TECHNIQUE / name).read_text(encoding="utf-8")


def lines_of_curves() -> list[list[tuple[float, float]]]:
    """Return each curve as (ladles, celsius), read back from the paper."""
    found = re.findall(r'<polyline points="([^"]+)"', paper("more_ladles.svg"))
    pairs = [[tuple(map(float, each.split(","))) for each in points.split()] for points in found]
    return [[(POURED.value(x), WARMTH.value(y)) for x, y in points] for points in pairs]


def by_hand(ladles: float, milk_celsius: float) -> float:
    """Return how warm 119 g of yolk at 5 °C gets: heat in is heat out."""
    yolk, milk = 119 * YOLK_HEAT, ladles * LADLE * MILK_HEAT
    return (yolk * 5 + milk * milk_celsius) / (yolk + milk)


@pytest.mark.parametrize("name", ["more_ladles.svg", "bands.svg"])
def test_a_figure_is_drawn_from_the_numbers_of_the_technique(content: Content, name: str) -> None:
    """Anyone who changes a line draws the figures again: python -m tests.content.egg_figures."""
    assert paper(name) == figures(content)[name]


@pytest.mark.parametrize(("which", "milk_celsius"), [(0, 85), (1, 100)])
def test_every_point_of_the_curves_is_a_balance_of_heat(which: int, milk_celsius: float) -> None:
    """Seven yolks of 17 g (USDA SR26) at 5 °C with milk at 85 °C, and dashed at the boil, within 1.5 °C."""
    points = lines_of_curves()[which]
    assert points[0] == pytest.approx((0, 5), abs=0.1)
    assert points[-1][0] == pytest.approx(3.5, abs=0.01)
    for ladles, celsius in points:
        assert celsius == pytest.approx(by_hand(ladles, milk_celsius), abs=1.5)


def test_the_three_dots_stand_on_the_curve_and_below_the_band() -> None:
    """By hand 36, 50 and 58 °C; yolk begins to thicken at 65 °C (McGee, On Food and Cooking, 2004, chapter 2)."""
    dots = re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)"', paper("more_ladles.svg"))
    read = [(POURED.value(float(x)), WARMTH.value(float(y))) for x, y in dots]
    assert [round(ladles, 1) for ladles, _ in read] == [1, 2, 3]
    assert [celsius for _, celsius in read] == pytest.approx([by_hand(k, 85) for k in (1, 2, 3)], abs=1.5)
    assert all(celsius < 65 for _, celsius in read)


def test_milk_at_a_full_boil_goes_into_the_band() -> None:
    """The dashed curve is there to show why the pot is slid off the heat: past three ladles it is above 65 °C."""
    assert lines_of_curves()[1][-1][1] > 65


@pytest.mark.parametrize(
    ("line", "low", "high"),
    [
        ("white_band", 63, 80),  # McGee, On Food and Cooking (2004), chapter 2: begins at 63, firm at about 80 °C
        ("yolk_band", 65, 70),  # the same: begins at 65, sets at 70 °C
        ("whole_egg_band", 71, 75),  # the same: about 73 °C; the give or take is the house's
        ("custard_band", 80, 85),  # the same, from memory
    ],
)
def test_the_bands_lie_where_they_are_published(line: str, low: float, high: float) -> None:
    """Each bar begins and ends at its degrees on one scale."""
    found = re.search(rf'<rect x="([\d.]+)" y="\d+" width="([\d.]+)"[^>]*data-line="{line}"', paper("bands.svg"))
    assert found is not None
    left, width = map(float, found.groups())
    assert (SETTING.value(left), SETTING.value(left + width)) == pytest.approx((low, high), abs=0.05)
