"""Baker's percentages go both ways, and hydration counts the water in eggs."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.dough import (
    Liquid,
    bakers_percentages,
    flour_for_dough,
    hydration,
    weight_from_percentages,
)
from trainer.recipe_math.portions import portions_from
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension

EGG_WATER = Fraction("0.76")
"""Between 75.33 percent (USDA Agriculture Handbook 8-1) and 76.15 (USDA SR26, 2013, NDB 01123)."""
YOLK_WATER = Fraction("0.4881")
"""USDA Agriculture Handbook 8-1."""


def grams(amount: int | str) -> Quantity:
    return Quantity.of(amount, "g")


def percents(**given: str) -> dict[str, Fraction]:
    return {name: Fraction(percent) for name, percent in given.items()}


def test_each_ingredient_is_a_percentage_of_the_flour() -> None:
    """Baker's Math (slide set): 23 lb of water and 0.7 lb of salt on 40 lb of flour: 57.5 and 1.75 percent."""
    pounds = {"flour": "40", "water": "23", "salt": "0.7"}
    found = bakers_percentages({name: Quantity.of(much, "lb") for name, much in pounds.items()}, ["flour"])
    assert found == percents(flour="100", water="57.5", salt="1.75")


def test_all_flours_together_are_a_hundred() -> None:
    """By hand: 7 lb durum and 3 lb semolina: 70 and 30; 3 lb of water is 30 percent of the 10 lb."""
    pounds = {"durum": 7, "semolina": 3, "water": 3}
    found = bakers_percentages({name: Quantity.of(much, "lb") for name, much in pounds.items()}, ["durum", "semolina"])
    assert found == percents(durum="70", semolina="30", water="30")


def test_percentages_give_the_weights_back() -> None:
    """Baker's Percentages tutorial: 32 oz of flour, salt 2 % = 0.64 oz, water 59 % = 18.88 oz.

    Baker's Math (slide set): 40 lb of flour, salt 1.75 % = 0.7 lb.
    """
    found = weight_from_percentages(Quantity.of(32, "oz"), percents(salt="2", water="59"))
    assert found == {"salt": Quantity.of("0.64", "oz"), "water": Quantity.of("18.88", "oz")}
    assert weight_from_percentages(Quantity.of(40, "lb"), percents(salt="1.75"))["salt"] == Quantity.of("0.7", "lb")


def test_all_the_percentages_together_are_the_dough() -> None:
    """Baker's Percentages tutorial: 32 oz of flour and 162 percent in all are 51.84 oz of dough."""
    parts = percents(flour="100", water="59", salt="2", yeast="1")
    assert flour_for_dough(Quantity.of("51.84", "oz"), parts) == Quantity.of(32, "oz")
    assert sum(weight_from_percentages(Quantity.of(32, "oz"), parts).values(), Quantity.of(0, "oz")) == Quantity.of(
        "51.84", "oz"
    )


@pytest.mark.parametrize(("dough", "total", "flour"), [(908, "172", 528), (3000, "206", 1456)])
def test_flour_follows_from_the_dough_wanted(dough: int, total: str, flour: int) -> None:
    """Baking note: 908 g at 172 percent, 528 g of flour; 3000 g at 206 percent, 1456 g; each to half a gram."""
    found = flour_for_dough(grams(dough), percents(flour="100", rest=str(int(total) - 100)))
    assert abs(found.amount - flour) <= Fraction(1, 2)


def test_the_percentages_of_a_dough_add_up_to_its_weight() -> None:
    """Baker's Math (slide set): 100 + 1.75 + 2 + 0.375 + 58 = 162.125 percent; 100 lb of flour make as many lb."""
    parts = percents(flour="100", salt="1.75", yeast="2", malt="0.375", water="58")
    assert flour_for_dough(Quantity.of("162.125", "lb"), parts) == Quantity.of(100, "lb")


HYDRATIONS = [
    (1000, [(450, EGG_WATER), (50, Fraction(1))], "39.20", "450 x 0.76 + 50 = 392"),
    (1000, [(300, YOLK_WATER)], "14.643", "300 x 0.4881 = 146.43"),
    (1000, [(300, Fraction(1)), (100, EGG_WATER)], "37.60", "300 + 100 x 0.76 = 376"),
]


@pytest.mark.parametrize(("flour", "liquids", "percent", "sum_by_hand"), HYDRATIONS, ids=[row[3] for row in HYDRATIONS])
def test_hydration_counts_the_water_in_egg(
    flour: int, liquids: list[tuple[int, Fraction]], percent: str, sum_by_hand: str
) -> None:
    """Own examples, summed by hand in the id; water shares of USDA Agriculture Handbook 8-1."""
    assert sum_by_hand
    wet = [Liquid(grams(weight), share) for weight, share in liquids]
    assert hydration(grams(flour), wet) == Fraction(percent)


def test_the_common_practice_batch_hangs_together() -> None:
    """7 lb durum flour, 3 lb semolina, a little over 3 lb of liquid of which ten large eggs are a little over 1 lb.

    Common practice; by hand with 1 lb = 453.59237 g, eggs of 50 g (USDA SR26, 2013, NDB 01123), water share 0.76:
    eggs 10 x 50 = 500 g = 1.102 lb; flour 10 lb = 4535.92 g. Portions of 6 to 7 oz. Parts of liquid on 100 of flour:
    30.0 to 32.5, inside the 30 to 33 that makers of restaurant machines advise.

    | liquid | water poured | water in all | of flour | dough | portions of 7 and 6 oz |
    |---|---|---|---|---|---|
    | 3 lb = 1360.78 g | 860.78 g | 860.78 + 380 = 1240.78 g | 27.35 % | 208 oz | 29.7 and 34.7 |
    | 3 lb 2 oz = 1417.48 g | 917.48 g | 917.48 + 380 = 1297.48 g | 28.60 % | 210 oz | 30 and 35 |
    | 3 lb 4 oz = 1474.18 g | 974.18 g | 974.18 + 380 = 1354.18 g | 29.85 % | 212 oz | 30.3 and 35.3 |
    """
    flour, eggs = Quantity.of(7, "lb") + Quantity.of(3, "lb"), Quantity.of(500, "g")
    assert Quantity.of(1, "lb") < eggs < Quantity.of("1.15", "lb")
    by_hand = {"3": ("27.35", 29, 34), "3.125": ("28.60", 30, 35), "3.25": ("29.85", 30, 35)}
    for liquid, (percent, of_seven, of_six) in by_hand.items():
        water = Quantity.of(liquid, "lb") - eggs
        found = hydration(flour, [Liquid(water), Liquid(eggs, EGG_WATER)])
        assert abs(found - Fraction(percent)) < Fraction("0.006")
        dough = flour + eggs + water
        assert portions_from(dough, Quantity.of(7, "oz")) == of_seven
        assert portions_from(dough, Quantity.of(6, "oz")) == of_six


def test_the_water_in_eggs_moves_that_batch_by_a_tenth_of_a_percent_only() -> None:
    """By hand: 0.01 x 500 g = 5 g on 4535.92 g of flour is 0.110 percent; counted as water, eggs make it 31.25."""
    flour, eggs = Quantity.of(10, "lb"), Quantity.of(500, "g")
    water = Quantity.of("3.125", "lb") - eggs
    spread = [hydration(flour, [Liquid(water), Liquid(eggs, Fraction(share))]) for share in ("0.75", "0.76", "1")]
    assert abs(spread[1] - spread[0] - Fraction("0.110")) < Fraction("0.001")
    assert spread[2] == Fraction("31.25")


def test_a_loss_in_handling_takes_a_portion_or_two() -> None:
    """By hand: 210 oz less 3 percent is 203.7 oz: 29.1 portions of 7 oz, 33.95 of 6 oz."""
    dough, loss = Quantity.of("13.125", "lb"), Fraction(3, 100)
    assert portions_from(dough, Quantity.of(7, "oz"), loss) == 29
    assert portions_from(dough, Quantity.of(6, "oz"), loss) == 33


def test_doughs_go_by_weight() -> None:
    """A cup of flour has no one weight."""
    cup = Quantity.of(1, "cup")
    for doing in (
        lambda: bakers_percentages({"flour": cup}, ["flour"]),
        lambda: hydration(cup, []),
        lambda: hydration(grams(1), [Liquid(cup)]),
        lambda: flour_for_dough(cup, percents(flour="100")),
        lambda: weight_from_percentages(cup, {}),
    ):
        with pytest.raises(WrongDimension, match="weigh it"):
            doing()


def test_a_dough_needs_flour() -> None:
    """No flour, a flour that is not there, percentages without the flour: each is refused."""
    with pytest.raises(QuantityProblem, match="needs flour"):
        bakers_percentages({"water": grams(1)}, [])
    with pytest.raises(QuantityProblem, match="no rye"):
        bakers_percentages({"flour": grams(1)}, ["rye"])
    with pytest.raises(QuantityProblem, match="needs flour"):
        hydration(grams(0), [])
    with pytest.raises(QuantityProblem, match="come to 72"):
        flour_for_dough(grams(1000), percents(water="70", salt="2"))


def test_no_percentage_is_negative_and_no_water_share_above_all() -> None:
    """The message names the ingredient and the value."""
    with pytest.raises(QuantityProblem, match="salt at -2"):
        weight_from_percentages(grams(1000), percents(salt="-2"))
    with pytest.raises(QuantityProblem, match="salt at -2"):
        flour_for_dough(grams(1000), percents(flour="102", salt="-2"))
    with pytest.raises(QuantityProblem, match="water share of 76"):
        Liquid(grams(1), Fraction(76)).water()
