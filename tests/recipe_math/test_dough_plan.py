"""A dough from what is wanted of it, and the temperature of its water."""

from __future__ import annotations

from fractions import Fraction

import pytest

from trainer.recipe_math.dough import Liquid, hydration
from trainer.recipe_math.dough_plan import Preferment, friction_of, planned, water_temperature
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def grams(amount: int | str) -> Quantity:
    return Quantity.of(amount, "g")


def fahrenheit(*degrees: int) -> list[Quantity]:
    return [Quantity.of(each, "°F") for each in degrees]


def test_the_slide_set_dough_without_a_preferment() -> None:
    """Baker's Math slide set: 40 lb flour, 58 % water, 1.75 % salt, 2 % and 0.375 %: 162.125 % in all, 64.85 lb."""
    others = {"salt": Fraction("1.75"), "yeast": Fraction(2), "malt": Fraction("0.375")}
    plan = planned(Quantity.of(40, "lb"), Fraction(58), others)
    assert plan.others["salt"] == Quantity.of("0.7", "lb")
    assert plan.water == Quantity.of("23.2", "lb")
    assert plan.dough == Quantity.of("64.85", "lb")
    assert plan.preferment_flour.amount == 0


def test_a_preferment_takes_its_flour_and_water_from_the_whole() -> None:
    """By hand: of 1000 g at 70 %, 30 % early at 60 %: 300 and 180 g early, 700 and 520 g late; 1700 g in all."""
    plan = planned(grams(1000), Fraction(70), {}, Preferment(Fraction(30), Fraction(60)))
    assert (plan.preferment_flour, plan.preferment_water) == (grams(300), grams(180))
    assert (plan.flour, plan.water, plan.dough) == (grams(700), grams(520), grams(1700))


def test_the_water_in_egg_counts() -> None:
    """By hand: 450 g egg hold 342 g of water at 0.76, so 39.2 % of 1000 g leave 50 g to pour."""
    egg = Liquid(grams(450), Fraction("0.76"))
    plan = planned(grams(1000), Fraction("39.2"), {}, wet=[egg])
    assert plan.water == grams(50)
    assert plan.dough == grams(1500)
    assert hydration(grams(1000), [egg, Liquid(plan.water)]) == Fraction("39.2")


def test_more_water_than_is_wanted_is_refused() -> None:
    """Egg alone brings more than a dry pasta dough takes."""
    with pytest.raises(QuantityProblem, match="342 g of water is more than a dough at 30 % takes"):
        planned(grams(1000), Fraction(30), {}, wet=[Liquid(grams(450), Fraction("0.76"))])
    with pytest.raises(QuantityProblem, match="not possible"):
        Preferment(Fraction(101), Fraction(60))


def test_the_temperature_of_the_water() -> None:
    """Common practice of bakers: 76 °F x 3 = 228, less 70, 72 and 26, is 60 °F; with a preferment at 68, x 4, 68 °F."""
    wanted, flour, room, early = fahrenheit(76, 70, 72, 68)
    friction = Quantity.of(26, "°F difference")
    assert water_temperature(wanted, [flour, room], friction) == Quantity.of(60, "°F")
    assert water_temperature(wanted, [flour, room, early], friction) == Quantity.of(68, "°F")
    assert friction_of(wanted, Quantity.of(60, "°F"), [flour, room]) == friction


def test_the_same_sum_in_celsius() -> None:
    """By hand: 24 x 3 - 21 - 22 - 14 = 15 °C, whichever degrees the parts were read in."""
    parts = [Quantity.of(21, "°C"), Quantity.of("71.6", "°F")]
    found = water_temperature(Quantity.of(24, "°C"), parts, Quantity.of("25.2", "°F difference"))
    assert found == Quantity.of(15, "°C")


def test_water_that_would_be_ice_or_steam_is_refused() -> None:
    """The message says what it comes to, and what to do."""
    with pytest.raises(QuantityProblem, match="The water comes to 20 °F"):
        water_temperature(fahrenheit(70)[0], fahrenheit(90, 90), Quantity.of(10, "°F difference"))
    with pytest.raises(WrongDimension, match="no difference"):
        water_temperature(fahrenheit(76)[0], fahrenheit(70, 72), fahrenheit(26)[0])
