"""The lines of the yolk pasta pick-up against published values, and its heat and times worked out another way."""

from __future__ import annotations

import pytest

from tests.content.measured import Part, line, value
from trainer.kitchen.technique import Content, LocalCode, Technique
from trainer.recipe_math.quantity import Quantity

OUNCE = 28.349523125
SIEBEL_PER_WATER, SIEBEL_DRY = 3.349, 0.837
"""Heat capacity in kJ/(kg K) from the share of water alone: Siebel (1892), 0.837 + 3.349 w; not Choi and Okos."""


@pytest.fixture(scope="module")
def pickup(content: Content) -> Technique:
    """Return the technique."""
    return content.techniques["yolk_pasta_pickup"]


def heat(grams: float, water: float) -> float:
    """Return what warms so many grams by one degree, in joules."""
    return grams * (SIEBEL_DRY + SIEBEL_PER_WATER * water)


@pytest.mark.parametrize(
    ("name", "lowest", "highest", "symbol"),
    [
        ("yolk_band", 65, 70, "°C"),  # McGee, On Food and Cooking (2004), chapter 2
        ("boil", 80, 100, "s"),  # common practice: fresh strands take about 90 s
        ("boil_thin", 2, 3, "min"),  # cookery article on timing pasta: thin fresh noodles
        ("boil_undried", 1, 1.5, "min"),  # teaching slides on cereals and pasta
        ("nest", 6, 7, "oz"),  # common practice: a main plate of fresh pasta
        ("sauce_elsewhere", 60, 65, "°C"),  # a home page, which says 140 to 150 °F (60-65 °C)
    ],
)
def test_bands_are_the_published_ones(pickup: Technique, name: str, lowest: float, highest: float, symbol: str) -> None:
    """Each rival figure stands as its source prints it."""
    ends = [value(pickup, name, symbol, which) for which in ("lowest", "highest")]
    assert ends == pytest.approx([lowest, highest], abs=0.01)


def test_egg_dishes_at_home_have_a_line_of_their_own(pickup: Technique) -> None:
    """160 °F: FDA and USDA FSIS advice for homes; the retail code has 145 °F and 155 °F."""
    assert line(pickup, "at_home").lowest == Quantity.of(160, "°F")


def test_few_raw_eggs_go_together_for_people_at_risk(food_code: LocalCode) -> None:
    """FDA Food Code § 3-801.11(C), read as Wash. Admin. Code 246-215-03800(2): more than one needs pasteurized egg."""
    assert food_code.limits["eggs_together_at_risk"].highest == Quantity.of(1, "egg")


def test_the_sauce_meets_the_line_for_one_order_and_not_the_one_for_pooled_eggs(pickup: Technique) -> None:
    """§ 3-401.11(A): 145 °F for one order at once, 155 °F for pooled eggs; so pooled raw yolk never goes in."""
    assert value(pickup, "sauce_band", "°F", "lowest") >= 145
    assert value(pickup, "sauce_band", "°F", "highest") < 155
    caution = next(hazard.caution for hazard in pickup.hazards if hazard.id == "one_order_only")
    assert "Never pooled raw yolk" in caution


def test_the_loosened_yolk_is_warm_and_far_from_setting(pickup: Technique) -> None:
    """1.5 oz of yolk (52.31 % water, USDA SR26) at 5 °C and 28.6 g of water at 85 °C, by Siebel: 47 °C, within 4."""
    yolk, water = heat(1.5 * OUNCE, 0.5231), heat(29.57 * 0.9686, 1.0)
    by_hand = (yolk * 5 + water * 85) / (yolk + water)
    assert value(pickup, "loosened", "°C") == pytest.approx(by_hand, abs=4)
    assert by_hand < 60


@pytest.mark.parametrize("which", ["lowest", "highest"])
def test_the_pan_brings_the_yolk_into_the_band_of_the_sauce(pickup: Technique, which: Part) -> None:
    """The balance of heat by Siebel, from either end of the pan's line, ends inside the sauce's line.

    A nest of 6.5 oz cooks to 2.195 times its weight (dry matter, USDA SR26: 31.00 and 68.56 % water); the base is taken
    as half water; the loosened yolk is that of the test above.
    """
    pasta, base = heat(6.5 * OUNCE * 2.195, 0.6856), heat(1.5 * OUNCE, 0.5)
    yolk = heat(1.5 * OUNCE, 0.5231) + heat(29.57 * 0.9686, 1.0)
    pan, loose = value(pickup, "pan_ready", "°C", which), value(pickup, "loosened", "°C")
    sauce = ((pasta + base) * pan + yolk * loose) / (pasta + base + yolk)
    lowest, highest = (value(pickup, "sauce_band", "°C", end) for end in ("lowest", "highest"))
    assert lowest <= sauce <= highest


def test_the_times_add_up_backwards_from_the_plate(pickup: Technique) -> None:
    """By hand: 10 + 30 + 30 + 20 = 90 s after the pot; strands 90 s before that, the base 60 s before that."""
    assert value(pickup, "strands_in", "s") == 180
    assert value(pickup, "base_on", "s") == 150


def test_technique_and_recipes_speak_of_one_plate(pickup: Technique, content: Content) -> None:
    """A plate takes one portion of each recipe."""
    assert content.recipes["yolk_sauce_base"].portion == line(pickup, "yolk_mix").target
    assert content.recipes["rendered_pork"].portion == line(pickup, "pork_base").target
    assert content.recipes["durum_dough"].portion == line(pickup, "nest").target
