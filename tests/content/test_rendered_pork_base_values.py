"""The lines of the rendered pork base against published values, and against the recipe it teaches."""

from __future__ import annotations

import pytest

from tests.content.measured import line, value
from trainer.kitchen.technique import Content, LocalCode, Technique
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity


@pytest.fixture(scope="module")
def pork(content: Content) -> Technique:
    """Return the technique."""
    return content.techniques["rendered_pork_base"]


@pytest.mark.parametrize(
    ("name", "percent"),
    [
        ("fat_in_bacon", "39.69"),  # NDB 10123, pork, cured, bacon, unprepared
        ("fat_in_belly", "53.01"),  # NDB 10005, pork, fresh, belly, raw
        ("onion_edible", "90"),  # NDB 11282, refuse 10 %
    ],
)
def test_shares_are_those_of_the_table_of_foods(pork: Technique, name: str, percent: str) -> None:
    """USDA National Nutrient Database for Standard Reference, Release 26 (2013)."""
    assert line(pork, name).target == parse_quantity(f"{percent} %", decimal_mark=".")


def test_celery_is_planned_with_one_of_three_published_shares(pork: Technique) -> None:
    """75 % in a restaurant produce chart; 100 / 1.37 = 73.0 % in TM 10-412, card A-6; 100 - 11 = 89 % in USDA SR26."""
    assert value(pork, "celery_edible", "%") == 75
    assert value(pork, "celery_elsewhere", "%", "lowest") == pytest.approx(100 / 1.37, abs=0.05)
    assert value(pork, "celery_elsewhere", "%", "highest") == 89


def test_the_house_pours_off_less_fat_than_the_meat_holds(pork: Technique) -> None:
    """1 lb of 5 lb is 20 %, by hand; even lean bacon holds 39.69 % (USDA SR26)."""
    share = float(value(pork, "fat_share", "%"))
    assert share == pytest.approx(20)
    assert share < 39.69


def test_pork_with_brine_in_it_is_cooked_as_meat_that_is_not_whole(food_code: LocalCode) -> None:
    """FDA Food Code § 3-401.11(A)(2), as quoted in Florida DBPR violation 03C-06-5: 155 °F for 17 seconds."""
    hot, long = food_code.limits["injected_meat"].lowest, food_code.limits["injected_meat_time"].lowest
    assert (hot, long) == (Quantity.of(155, "°F"), Quantity.of(17, "s"))


def test_the_fat_is_kept_where_water_leaves_and_nothing_smokes(pork: Technique) -> None:
    """Water boils at 212 °F; a page on lard has it dry at 255 °F; lists have lard smoke from 360 °F (from memory)."""
    assert value(pork, "low_fat", "°F", "lowest") < 212 < value(pork, "low_fat", "°F", "highest") < 255
    assert value(pork, "hot_fat", "°F", "highest") < 360


def test_a_burn_is_cooled_as_long_as_a_guideline_says(pork: Technique) -> None:
    """20 minutes in ANZCOR Guideline 9.1.3; a hospital (North Bristol NHS Trust, undated) says 10 to 30."""
    assert line(pork, "burn_water").lowest == Quantity.of(20, "min")
    assert value(pork, "burn_water_elsewhere", "min", "lowest") == 10
    assert value(pork, "burn_water_elsewhere", "min", "highest") == 30
    assert "20 minutes" in next(hazard.caution for hazard in pork.hazards if hazard.id == "burned")


def test_technique_and_recipe_speak_of_one_batch(pork: Technique, content: Content) -> None:
    """A person who weighs by the one and cooks by the other makes the same base; 5 lb of 5 lb 7 oz is 92 %, by hand."""
    recipe = content.recipes["rendered_pork"]
    ready = {each.id: each for each in recipe.ingredients}
    for name, trimmed, edible in (
        ("pork", "trimmed", "edible"),
        ("onion", "onion", "onion_edible"),
        ("celery", "celery", "celery_edible"),
    ):
        share = ready[name].edible_share
        assert ready[name].amount == line(pork, trimmed).target
        assert share is not None
        assert float(share * 100) == pytest.approx(float(value(pork, edible, "%")), abs=0.1)
    assert recipe.portion == line(pork, "portion").target
