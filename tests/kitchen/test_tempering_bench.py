"""Egg bases and hot liquids: the energy balance against sums done by hand."""

from __future__ import annotations

import pytest

from trainer.kitchen.tempering_bench import BASES, LIQUIDS, Base, Bowl, Pot, grams_of, tempering_of
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.tempering import YOLK, EggState


def grams(amount: int) -> Quantity:
    """Return a weight."""
    return Quantity.of(amount, "g")


def celsius(amount: int) -> Quantity:
    """Return a temperature."""
    return Quantity.of(amount, "°C")


def pot(ladle: int = 60, hot: int = 95, amount: int = 240) -> Pot:
    """Return a pot of water."""
    return Pot(LIQUIDS["water"], grams(amount), celsius(hot), grams(ladle))


YOLKS = Bowl(BASES["yolks"], grams(120), celsius(5))


def test_with_equal_heat_capacities_it_is_the_mean_by_weight() -> None:
    """(120 x 5 + 60 x 95) / 180 = 35 °C; with 120 g, (600 + 11400) / 240 = 50 °C. Worked by hand, water with water."""
    water = Bowl(Base(LIQUIDS["water"], YOLK), grams(120), celsius(5))
    ladles = tempering_of(water, pot(), celsius(50)).tempering.ladles
    assert [ladle.base_celsius for ladle in ladles[:2]] == pytest.approx([35, 50], abs=0.2)


def test_yolk_takes_up_less_heat_than_water_and_so_gets_warmer() -> None:
    """With yolk at 3.05 kJ/(kg K), ASHRAE Refrigeration ch. 9 (from memory), and water at 4.18: 41.6 and 57.1 °C."""
    by_hand = [(120 * 3.05 * 5 + w * 4.18 * 95) / (120 * 3.05 + w * 4.18) for w in (60, 120)]
    ladles = tempering_of(YOLKS, pot(), celsius(55)).tempering.ladles
    assert [ladle.base_celsius for ladle in ladles] == pytest.approx(by_hand, abs=1)


def test_the_ladles_stop_short_of_the_band() -> None:
    """Yolk begins to thicken at 65 °C (McGee, On Food and Cooking, 2004, ch. 2): no ladle goes beyond 63."""
    done = tempering_of(YOLKS, pot(ladle=120, amount=900), celsius(64)).tempering
    assert not done.reached
    assert all(ladle.base_celsius < 63 for ladle in done.ladles)


def test_the_curve_goes_on_where_the_ladles_stop() -> None:
    """It begins at the base as it stands and rises to the last of the liquid, into the band, to show why."""
    view = tempering_of(YOLKS, pot(amount=900), celsius(60))
    warmth = [degrees for _, degrees in view.curve]
    assert view.curve[0] == (0, 5)
    assert view.curve[-1][0] == 900
    assert warmth == sorted(warmth)
    assert warmth[-1] > 70


def test_a_volume_is_weighed_by_its_density() -> None:
    """A litre of water at 20 °C weighs 998 g (NIST), of whole milk about 1031 g (USDA: 244 g a cup): within 1 %."""
    litre = Quantity.of(1, "L")
    assert grams_of(litre, LIQUIDS["water"], 20) == pytest.approx(998, rel=0.01)
    assert grams_of(litre, LIQUIDS["milk"], 20) == pytest.approx(1031, rel=0.01)
    with pytest.raises(WrongDimension):
        grams_of(Quantity.of(3, "egg"), LIQUIDS["water"], 20)


@pytest.mark.parametrize(
    ("bowl", "hot", "until", "says"),
    [
        (YOLKS, 4, 50, "no hotter than the base"),
        (YOLKS, 95, 5, "already"),
        (Bowl(BASES["yolks"], grams(120), celsius(66)), 95, 80, "egg thickens"),
        (YOLKS, 200, 55, "150"),
    ],
)
def test_what_cannot_be_is_refused_in_words(bowl: Bowl, hot: int, until: int, says: str) -> None:
    """Liquid that is too cold or beyond the curves, a base that is warm enough already, or has begun to set."""
    with pytest.raises(QuantityProblem, match=says):
        tempering_of(bowl, pot(hot=hot), celsius(until))


def test_a_ladle_like_a_thimble_is_refused() -> None:
    """Hundreds of ladles are nobody's way of working."""
    with pytest.raises(QuantityProblem, match=r"by ladles of 1 g .* is more than"):
        tempering_of(YOLKS, pot(ladle=1, amount=900), celsius(50))


def test_the_bench_says_how_far_one_can_go_and_what_all_of_it_would_do() -> None:
    """By hand, yolk at 2.81 kJ/(kg K) at the least: 900 g of water at 95 °C on 120 g set it; two ladles may go in."""
    view = tempering_of(YOLKS, pot(amount=900), celsius(55))
    assert view.most_ladles == 2
    assert view.all_at_once is EggState.SET
    least = (120 * 2.81 * 5 + 900 * 4.18 * 95) / (120 * 2.81 + 900 * 4.18)
    assert view.all_at_most_celsius == pytest.approx(least, abs=0.5)
    little = tempering_of(YOLKS, pot(amount=60), celsius(55))
    assert (little.most_ladles, little.all_at_once) == (None, EggState.SMOOTH)
