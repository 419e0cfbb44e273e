"""Plots: where values are drawn, what is cut off, and that everything is told in words."""

from __future__ import annotations

import re

import pytest
from bs4 import BeautifulSoup, Tag

from trainer.web.bench.plots import (
    HEIGHT,
    LEFT,
    RIGHT,
    TOP,
    WIDTH,
    Axis,
    Plot,
    band,
    curve,
    dots,
    drawn,
    level,
    ticks,
    wall,
)

PLOT = Plot("trial", "A trial", "It rises.", Axis(0, 10, "hours"), Axis(0, 100, "°C"))


def svg(*parts: str) -> Tag:
    """Return a drawn plot as elements."""
    found = BeautifulSoup(drawn(PLOT, parts), "html.parser").svg  # type: ignore[arg-type]
    assert isinstance(found, Tag)
    return found


def test_the_ends_of_the_axes_are_the_ends_of_the_frame() -> None:
    """Low is left and at the foot, high is right and on top."""
    assert (PLOT.x(0), PLOT.x(10)) == (LEFT, WIDTH - RIGHT)
    assert PLOT.y(100) == TOP
    assert PLOT.y(0) > PLOT.y(50) > PLOT.y(100)


@pytest.mark.parametrize("value", [-5, 1e9])
def test_what_lies_outside_is_drawn_at_the_end(value: float) -> None:
    """Nothing leaves the frame."""
    assert LEFT <= PLOT.x(value) <= WIDTH - RIGHT
    assert TOP <= PLOT.y(value) <= HEIGHT


@pytest.mark.parametrize(("low", "high"), [(1, 1), (2, 1), (0, float("inf")), (float("nan"), 1)])
def test_an_axis_that_shows_nothing_is_refused(low: float, high: float) -> None:
    """An axis runs from less to more."""
    with pytest.raises(ValueError, match="shows nothing"):
        Axis(low, high, "")


@pytest.mark.parametrize(
    ("low", "high", "found"),
    [
        (0, 10, [0, 2, 4, 6, 8, 10]),
        (0, 1, [0, 0.2, 0.4, 0.6, 0.8, 1]),
        (32, 158, [50, 100, 150]),
        (-4, 6, [-4, -2, 0, 2, 4, 6]),
    ],
)
def test_ticks_are_round_numbers(low: float, high: float, found: list[float]) -> None:
    """Steps of 1, 2 or 5 and their tens, inside the axis."""
    assert ticks(low, high) == pytest.approx(found)


def test_a_plot_is_told_in_words() -> None:
    """It is an image with a title and a description that its label names."""
    found = svg()
    assert found["role"] == "img"
    told = [found.find(id=name) for name in str(found["aria-labelledby"]).split()]
    assert [tag.get_text() for tag in told if isinstance(tag, Tag)] == ["A trial", "It rises."]


def test_only_presentation_attributes_and_one_ink() -> None:
    """No style and no colour: it prints, and it follows the ink of the page by night."""
    found = svg(
        curve(PLOT, [(0, 0), (10, 100)]), band(PLOT, 60, 70, "here"), level(PLOT, 41, "41"), wall(PLOT, 2, 70, "2 h")
    )
    assert found.select("[style], style, script") == []
    inks = {str(tag[name]) for tag in found.find_all(True) for name in ("fill", "stroke") if tag.has_attr(name)}
    assert inks == {"currentColor", "none", "url(#trial-hatch)"}
    assert re.findall(r"#[0-9a-fA-F]{3,6}\b|rgb", str(found)) == []


def test_seen_and_expected_are_told_apart_without_colour() -> None:
    """A line that is expected is broken; a dot that lies outside is hollow."""
    assert "stroke-dasharray" in curve(PLOT, [(0, 0)], dashed=True)
    assert "stroke-dasharray" not in curve(PLOT, [(0, 0)])
    assert 'fill="none"' in dots(PLOT, [(0, 0)], hollow=True)


def test_words_cannot_become_markup() -> None:
    """Whatever a label says, it is text."""
    found = svg(level(PLOT, 5, "<script>alert(1)</script>"))
    assert found.find("script") is None
    assert "<script>" in found.get_text()
