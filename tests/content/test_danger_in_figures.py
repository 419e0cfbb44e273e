"""Figures show the safe way at the scale of the figure itself: read from the coordinates of the SVG files."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import NamedTuple
from xml.etree import ElementTree

from tests.content.conftest import CONTENT
from tests.content.measured import value
from trainer.kitchen.technique import Content

RECT = "{http://www.w3.org/2000/svg}rect"
PATH = "{http://www.w3.org/2000/svg}path"
POINT = re.compile(r"(-?[\d.]+)[ ,](-?[\d.]+)")


class Box(NamedTuple):
    """A rectangle as drawn."""

    left: float
    top: float
    right: float
    bottom: float


def drawn(technique: str, name: str) -> ElementTree.Element:
    """Return a figure as a tree."""
    return ElementTree.parse(CONTENT / "techniques" / technique / name).getroot()  # noqa: S314 - our own file


def boxes(figure: ElementTree.Element) -> list[Box]:
    """Return every rectangle of a figure."""
    found = []
    for each in figure.iter(RECT):
        x, y, width, height = (float(each.attrib[key]) for key in ("x", "y", "width", "height"))
        found.append(Box(x, y, x + width, y + height))
    return found


def test_the_rod_stands_on_the_bars_and_does_not_enter_the_gap() -> None:
    """29 CFR 1910.217, Table O-10 (from memory): no opening wider than the gauge; so the gauge does not go in."""
    found = boxes(drawn("extruder_safety", "guard.svg"))
    bars = [box for box in found if box.top == 96]
    rods = [box for box in found if box.top < 40 and box.bottom > 60]
    assert len(bars) == 8
    assert len(rods) == 1
    rod, top = rods[0], min(bar.top for bar in bars)
    assert rod.bottom <= top
    gaps = [(one.right, other.left) for one, other in pairwise(bars)]
    over = [(left, right) for left, right in gaps if left < (rod.left + rod.right) / 2 < right]
    assert over
    assert all(rod.left < left and rod.right > right for left, right in over)


def test_the_knife_keeps_its_distance_at_the_scale_of_the_drawing(content: Content) -> None:
    """The stick is as long as a strand, 10 in; at that scale the knife is 6 in or more below the die."""
    technique = content.techniques["pasta_nesting"]
    figure = drawn("pasta_nesting", "cut.svg")
    found = boxes(figure)
    die = min(found, key=lambda box: box.top)
    stick = max(found, key=lambda box: box.bottom - box.top)
    scale = (stick.bottom - stick.top) / float(value(technique, "strand_length", "in"))
    blades = [each.attrib["d"] for each in figure.iter(PATH) if "C" in each.attrib["d"] and "fill" in each.attrib]
    assert len(blades) == 1
    highest = min(float(y) for _, y in POINT.findall(blades[0]))
    assert (highest - die.bottom) / scale >= float(value(technique, "die_gap", "in", "lowest"))


def test_the_step_that_cuts_prints_the_distance_and_its_figure(content: Content) -> None:
    """The line stands in the step's own words, not only in the standard: 6 in."""
    step = next(step for step in content.techniques["pasta_nesting"].steps if step.id == "cut")
    assert "6 in" in step.text


def test_nests_go_in_by_the_basket_in_words_and_drawing(content: Content) -> None:
    """Boiling water clings: lower, never drop. In the figure the basket is in the water, on a handle."""
    step = next(step for step in content.techniques["yolk_pasta_pickup"].steps if step.id == "drop")
    assert step.text.startswith("Lower the nest in its basket")
    assert "basket" in step.figure_alt
    assert "falls" not in step.figure_alt
    basket = [
        [float(y) for _, y in POINT.findall(each.attrib["d"])]
        for each in drawn("yolk_pasta_pickup", "drop.svg").iter(PATH)
        if "Q" in each.attrib["d"] and each.attrib["d"].startswith("M84 66")
    ]
    assert len(basket) == 1
    water = 106.0
    assert min(basket[0]) < water < max(basket[0])


def test_no_step_drops_a_nest(content: Content) -> None:
    """One verb for boiling water in the whole house."""
    for technique in ("pasta_water", "yolk_pasta_pickup"):
        for step in content.techniques[technique].steps:
            assert not re.search(r"\bdrop(?:s|ped)? the nest|\bthrow", step.text, re.IGNORECASE), step.id
