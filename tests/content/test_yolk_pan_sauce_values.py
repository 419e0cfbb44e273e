"""The lines of the yolk pan sauce against published values, and its heat worked out another way."""

from __future__ import annotations

import pytest

from tests.content.measured import Part, line, value
from trainer.kitchen.technique import Content, LocalCode, Technique
from trainer.recipe_math.quantity import Quantity

OUNCE = 28.349523125
SIEBEL_PER_WATER, SIEBEL_DRY = 3.349, 0.837
"""Heat capacity in kJ/(kg K) from the share of water alone: Siebel (1892), 0.837 + 3.349 w; not Choi and Okos."""
LOOSENING = 29.57 * 0.9686
"""Grams of water in 1 fl oz at 85 °C; water weighs 0.9686 g a millilitre there (IAPWS, from memory)."""


@pytest.fixture(scope="module")
def sauce(content: Content) -> Technique:
    """Return the technique."""
    return content.techniques["yolk_pan_sauce"]


def heat(grams: float, water: float) -> float:
    """Return what warms so many grams by one degree, in joules."""
    return grams * (SIEBEL_DRY + SIEBEL_PER_WATER * water)


@pytest.mark.parametrize(
    ("name", "lowest", "highest"),
    [
        ("yolk_band", 65, 70),  # McGee, On Food and Cooking (2004), chapter 2
        ("sauce_elsewhere", 60, 65),  # a home page, which says 140 to 150 °F (60-65 °C)
        ("thinned_elsewhere", 80, 85),  # McGee (2004), from memory
    ],
)
def test_bands_are_the_published_ones(sauce: Technique, name: str, lowest: float, highest: float) -> None:
    """Each rival figure stands as its source prints it."""
    assert [value(sauce, name, "°C", which) for which in ("lowest", "highest")] == [lowest, highest]


def test_egg_dishes_at_home_have_a_line_of_their_own(sauce: Technique) -> None:
    """160 °F: FDA and USDA FSIS advice for homes; the retail code has 145 °F and 155 °F."""
    assert line(sauce, "at_home").lowest == Quantity.of(160, "°F")


def test_the_sauce_meets_the_line_for_one_order_and_not_the_one_for_pooled_eggs(
    sauce: Technique, food_code: LocalCode
) -> None:
    """§ 3-401.11(A): 145 °F for one order at once, 155 °F for pooled eggs; so pooled raw yolk never goes in."""
    assert value(sauce, "sauce_band", "°F", "lowest") >= 145
    assert value(sauce, "sauce_band", "°F", "highest") < 155
    assert food_code.limits["egg_pooled"].lowest == Quantity.of(155, "°F")
    caution = next(hazard.caution for hazard in sauce.hazards if hazard.id == "one_order_only")
    assert "Never pooled raw yolk" in caution


def test_eggs_cracked_for_one_plate_are_whole_yolks(sauce: Technique, content: Content) -> None:
    """Nobody cracks a yolk and a half: 2 × 17 g (USDA SR26) + 24 g + 1 g = 59 g, by hand.

    The bowl of the shift is another thing: 1.5 oz of it holds 42.5 g × 408 / 702.8 = 24.7 g of yolk, 1.45 yolks.
    """
    assert value(sauce, "plate_mix", "g") == 59
    plate = content.recipes["yolk_one_plate"]
    assert [float(each.weight.to("g").amount) for each in plate.ingredients] == [34, 24, 1]
    assert plate.ingredients[0].amount == Quantity.of(2, "egg")
    assert plate.keeps is None
    bowl = {each.id: float(each.weight.to("g").amount) for each in content.recipes["yolk_sauce_base"].ingredients}
    yolk = 1.5 * OUNCE * bowl["yolks"] / sum(bowl.values())
    assert yolk / 17 == pytest.approx(1.45, abs=0.01)
    cheese = bowl["cheese"] / bowl["yolks"]
    assert float(value(sauce, "plate_cheese", "g")) / 34 == pytest.approx(cheese, abs=0.03)


@pytest.mark.parametrize("yolk_grams", [1.5 * OUNCE, 59.0], ids=["from the bowl", "cracked for the plate"])
def test_the_loosened_yolk_is_warm_and_far_from_setting(sauce: Technique, yolk_grams: float) -> None:
    """Yolk (52.31 % water, USDA SR26) at 5 °C and 28.6 g of water at 85 °C, by Siebel: 40 to 47 °C."""
    by_hand = loosened(yolk_grams)
    assert 38 < by_hand < 60
    if yolk_grams < 50:
        assert value(sauce, "loosened", "°C") == pytest.approx(by_hand, abs=4)


def loosened(yolk_grams: float) -> float:
    """Return how warm the yolk gets with an ounce of starch water, in celsius."""
    yolk, water = heat(yolk_grams, 0.5231), heat(LOOSENING, 1.0)
    return (yolk * 5 + water * 85) / (yolk + water)


@pytest.mark.parametrize("yolk_grams", [1.5 * OUNCE, 59.0], ids=["from the bowl", "cracked for the plate"])
@pytest.mark.parametrize("which", ["lowest", "highest"])
def test_the_pan_brings_the_yolk_into_the_band_of_the_sauce(sauce: Technique, which: Part, yolk_grams: float) -> None:
    """The balance of heat by Siebel, from either end of the pan's line, ends inside the sauce's line.

    A nest of 6.5 oz cooks to 2.195 times its weight (dry matter, USDA SR26: 31.00 and 68.56 % water); the base is taken
    as half water.
    """
    pasta, base = heat(6.5 * OUNCE * 2.195, 0.6856), heat(1.5 * OUNCE, 0.5)
    yolk = heat(yolk_grams, 0.5231) + heat(LOOSENING, 1.0)
    pan = float(value(sauce, "pan_ready", "°C", which))
    mixed = ((pasta + base) * pan + yolk * loosened(yolk_grams)) / (pasta + base + yolk)
    lowest, highest = (float(value(sauce, "sauce_band", "°C", end)) for end in ("lowest", "highest"))
    assert lowest <= mixed <= highest


def test_the_bowl_of_the_shift_is_a_portion_of_the_recipe(sauce: Technique, content: Content) -> None:
    """A plate takes one portion, and no more is typed for it."""
    assert content.recipes["yolk_sauce_base"].portion == line(sauce, "yolk_mix").target
