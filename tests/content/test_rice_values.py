"""What the technique on rice states, held against the texts its lines name."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.content.measured import line, same, value
from trainer.kitchen.technique import Content, Technique

OTHERS = [
    # line, lowest, highest
    ("layer_study", None, "3.5 in"),  # J Food Prot 44(7):500 (1981), abstract: layers under 9 cm
    ("hold_study", "131 F", None),  # the same: 55 °C
    ("fried_study", "165 F", None),  # the same: 74 °C
    ("spores_grow", "4 °C", "55 °C"),  # Bacillus cereus, ICMSF 1996 as the Pathogen Modeling Program prints it
]


@pytest.fixture(name="rice")
def _rice(content: Content) -> Technique:
    return content.techniques["rice"]


@pytest.mark.parametrize(("key", "lowest", "highest"), OTHERS)
def test_a_figure_of_others_is_the_published_one(
    rice: Technique, key: str, lowest: str | None, highest: str | None
) -> None:
    """What stands behind the house's lines is what was published."""
    found = line(rice, key)
    assert same(found.lowest, lowest)
    assert same(found.highest, highest)


def test_the_layer_of_the_house_is_thinner_than_the_study_asks(rice: Technique) -> None:
    """A house line may be stricter than what was published, never laxer."""
    assert value(rice, "layer", "in", "highest") < value(rice, "layer_study", "in", "highest")


def test_cooked_rice_weighs_what_its_dry_matter_says(rice: Technique) -> None:
    """USDA SR26, NDB 20044 and 20045: water 11.62 in 100 of raw long-grain rice, 68.44 in 100 of cooked."""
    grows = (100 - Fraction("11.62")) / (100 - Fraction("68.44"))
    assert value(rice, "swells") == pytest.approx(grows, abs=0.005)
    assert value(rice, "cooked", "lb") == value(rice, "raw", "lb") * value(rice, "swells")


def test_water_is_what_the_trade_takes(rice: Technique) -> None:
    """Long-grain rice takes one and a half to two volumes of water: common practice."""
    share = value(rice, "water") / value(rice, "rice_measured")
    assert Fraction(3, 2) <= share <= 2
