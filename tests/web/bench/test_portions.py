"""Weighed portions: mean, spread, the share inside with its interval, in words."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from tests.web.bench.looking import asked, plot_told
from tests.web.hands import Hands

TEN = "6.4 6.6 6.9 7.2 6.3 6.5 6.7 5.8 6.6 6.5"


def test_eight_of_ten_inside_may_be_half_of_all(ana: Hands) -> None:
    """Wilson, 8 of 10, z = 1.96: (0.8 + 0.19208 ± 1.96 sqrt(0.016 + 0.009604)) / 1.38416 = 0.490 to 0.943.

    Formula: NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1; worked by hand.
    """
    page = asked(ana, "portions", target="6.5 oz", tolerance="0.5 oz", weights=TEN)
    assert "8 of 10 lie inside 6 oz (170 g) to 7 oz (198 g), 1 too light, 1 too heavy." in page.work
    assert "between 49 and 94 in a hundred" in page.work
    assert "10 portions say little." in page.work


def test_mean_and_spread_are_told_in_words(ana: Hands) -> None:
    """Sum 65.5, mean 6.55; squared errors sum to 1.225, so s = sqrt(1.225 / 9) = 0.369: worked by hand."""
    page = asked(ana, "portions", target="6.5 oz", tolerance="0.5 oz", weights=TEN)
    assert "On average 6.55 oz (186 g)." in page.work
    assert "0.05 oz (1.4 g) heavy: over 100 portions, 5 oz (142 g) given away" in page.work
    assert "The spread is 0.37 oz (10 g)" in page.work
    assert "The lightest is 5.8 oz (164 g), the heaviest 7.2 oz (204 g)." in page.work


def test_portions_too_light_and_right_on_are_told_apart(ana: Hands) -> None:
    """Light portions are short on guests' plates; a right mean is said to be right."""
    light = asked(ana, "portions", target="100 g", tolerance="5 g", weights="96\n98").work
    assert "3 g (0.11 oz) light" in light
    assert "short on guests' plates" in light
    right = asked(ana, "portions", target="100 g", tolerance="5 g", weights=" ".join(["99", "101"] * 10)).work
    assert "right on the weight" in right
    assert "say little" not in right


def test_what_lies_outside_is_hollow(ana: Hands) -> None:
    """Full dots inside, hollow outside: no colour is needed."""
    page = asked(ana, "portions", target="6.5 oz", tolerance="0.5 oz", weights=TEN)
    plot_told(page)
    fills = [str(dot["fill"]) for dot in page.soup.select("svg.plot circle")]
    assert (fills.count("currentColor"), fills.count("none")) == (8, 2)


BAD_PORTIONS: dict[str, tuple[Mapping[str, str], str]] = {
    "one weight": ({"weights": "6.5"}, "at least two"),
    "a word": ({"weights": "6.5\nheavy"}, "Line 2, “heavy”"),
    "a volume": ({"weights": "6.5\n1 cup"}, "is no weight"),
    "no target": ({"target": ""}, "A portion should weigh is empty."),
    "a target by volume": ({"target": "1 cup"}, "“1 cup” is not a weight"),
    "a tolerance of nothing": ({"tolerance": "0 oz"}, "“0 oz” is nothing"),
    "a tolerance above the portion": ({"tolerance": "9 oz"}, "would pass an empty plate"),
    "no weights": ({"weights": ""}, "Weights is empty."),
}


@pytest.mark.parametrize(("changed", "says"), BAD_PORTIONS.values(), ids=BAD_PORTIONS)
def test_a_wrong_weight_is_told_and_all_is_kept(ana: Hands, changed: Mapping[str, str], says: str) -> None:
    """The message names value and rule; all that was typed stays."""
    typed = {"target": "6.5 oz", "tolerance": "0.5 oz", "weights": "6.5 6.6", **changed}
    page = asked(ana, "portions", **typed)
    assert page.status == 400
    assert any(says in problem for problem in page.problems), page.problems
    assert page.field("Weights").get_text().strip() == typed["weights"]
    assert page.field("Give or take")["value"] == typed["tolerance"]
