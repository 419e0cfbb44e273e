"""The pan sauce against what publishers print and what a sum by hand gives, the source beside each."""

from __future__ import annotations

import pytest

from tests.content.measured import line, value
from trainer.kitchen.roll_up import sulphites_of
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.quantity import Quantity

LEFT = 0.33  # of a batch, by the recipe's own loss


@pytest.fixture(name="sauce")
def _sauce(content: Content) -> Technique:
    return content.techniques["pan_sauce"]


@pytest.mark.parametrize(
    ("key", "percent"),
    [
        # USDA Table of Nutrient Retention Factors, Release 6 (December 2007), page 12, as quoted on a cooks' page
        ("left_boiling", 85),
        ("left_flamed", 75),
        ("left_quarter", 40),
        ("left_half", 35),
        ("left_hours", 5),
    ],
)
def test_what_is_left_of_the_alcohol_is_what_was_measured(sauce: Technique, key: str, percent: int) -> None:
    """No time on the stove takes all of it, and the guest is told."""
    assert value(sauce, key, "%") == percent


def test_the_whole_sauce_is_four_portions_give_or_take_five_in_a_hundred(sauce: Technique) -> None:
    """4 × 1.5 oz = 6 oz, and 0.3 oz is a twentieth of it."""
    end = line(sauce, "end")
    assert end.target == Quantity.of(6, "oz")
    assert (end.lowest, end.highest) == (Quantity.of("5.7", "oz"), Quantity.of("6.3", "oz"))


def test_one_pan_comes_to_the_weight_that_is_judged(content: Content, sauce: Technique) -> None:
    """By hand: 28.35 + 117.8 (4 fl oz of wine) + 340.2 + 42.5 + 2 g = 530.9 g; a third of it is 175 g, 6.2 oz."""
    recipe = content.recipes["pan_sauce"]
    grams = sum(float(each.weight.to("g").amount) for each in recipe.ingredients)
    assert grams == pytest.approx(530.9, abs=2)
    assert float(value(sauce, "end", "g", "lowest")) < grams * LEFT < float(value(sauce, "end", "g", "highest"))


def test_the_sulphite_of_the_wine_is_named(content: Content, sauce: Technique) -> None:
    """Boiled to a third, 118 g of wine with 100 to 200 mg/kg leave 67 to 135 mg/kg, where the line is 10.

    Regulation (EU) No 1169/2011, Annex II, point 12. By hand, nothing taken to boil off: 11.8 mg in 0.175 kg. Milk and
    celery follow from butter and stock.
    """
    summed = sulphites_of(content.recipes["pan_sauce"])
    assert summed is not None
    assert summed.most is not None
    assert float(summed.least) == pytest.approx(67, rel=0.03)
    assert float(summed.most) == pytest.approx(135, rel=0.03)
    assert set(sauce.allergens) == {"milk", "celery", "sulphites"}


def test_the_butter_goes_in_off_the_boil(sauce: Technique) -> None:
    """Common practice: butter swirled in off the flame; water boils at 212 °F, and the house stays well below."""
    assert value(sauce, "butter_in", "°F", "highest") < 200
    step = next(step for step in sauce.steps if step.id == "butter")
    assert step.text.startswith("Flame off.")


def test_wine_meets_no_flame(sauce: Technique) -> None:
    """An insurer's page on grease fires, undated: heat off, lid, no water; wine from a cup is common practice."""
    kinds = {point.id: point.type for point in sauce.checklist}
    assert (kinds["flame_is_off"], kinds["from_cup"], kinds["fire_said"]) == ("law", "result", "result")
    steps = [step.id for step in sauce.steps]
    assert steps.index("pour_fat") < steps.index("flame_off") < steps.index("syrup")


def test_each_taste_has_a_clean_spoon(sauce: Technique) -> None:
    """FDA Food Code 2022, § 3-301.12 (from memory): a utensil tastes once."""
    assert next(point.type for point in sauce.checklist if point.id == "new_spoon") == "law"
