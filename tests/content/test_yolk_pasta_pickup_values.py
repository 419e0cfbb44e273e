"""The lines of the yolk pasta pick-up against published values, and its times worked out another way."""

from __future__ import annotations

import pytest

from tests.content.measured import line, value
from trainer.kitchen.technique import Content, LocalCode, Technique
from trainer.recipe_math.quantity import Quantity


@pytest.fixture(scope="module")
def pickup(content: Content) -> Technique:
    """Return the technique."""
    return content.techniques["yolk_pasta_pickup"]


@pytest.mark.parametrize(
    ("name", "lowest", "highest", "symbol"),
    [
        ("boil", 80, 100, "s"),  # common practice: fresh strands take about 90 s
        ("boil_thin", 2, 3, "min"),  # cookery article on timing pasta: thin fresh noodles
        ("boil_undried", 1, 1.5, "min"),  # teaching slides on cereals and pasta
        ("nest", 6, 7, "oz"),  # common practice: a main plate of fresh pasta
    ],
)
def test_bands_are_the_published_ones(pickup: Technique, name: str, lowest: float, highest: float, symbol: str) -> None:
    """Each rival figure stands as its source prints it."""
    ends = [value(pickup, name, symbol, which) for which in ("lowest", "highest")]
    assert ends == pytest.approx([lowest, highest], abs=0.01)


def test_few_raw_eggs_go_together_for_people_at_risk(food_code: LocalCode) -> None:
    """FDA Food Code § 3-801.11(C), read as Wash. Admin. Code 246-215-03800(2): more than one needs pasteurized egg."""
    assert food_code.limits["eggs_together_at_risk"].highest == Quantity.of(1, "egg")


def test_the_times_add_up_backwards_from_the_plate(pickup: Technique) -> None:
    """By hand: 10 + 30 + 30 + 20 = 90 s after the pot; strands 90 s before that, the base 60 s before that."""
    assert value(pickup, "strands_in", "s") == 180
    assert value(pickup, "base_on", "s") == 150


def test_technique_and_recipes_speak_of_one_plate(pickup: Technique, content: Content) -> None:
    """A plate takes one portion of each recipe."""
    assert content.recipes["rendered_pork"].portion == line(pickup, "pork_base").target
    assert content.recipes["durum_dough"].portion == line(pickup, "nest").target


def test_how_the_yolk_is_bound_is_taught_once(pickup: Technique, content: Content) -> None:
    """The plate names no number of the sauce: those stand in the yolk pan sauce, both times in the recipe."""
    sauce = {limit.id for limit in content.techniques["yolk_pan_sauce"].standard}
    assert {limit.id for limit in pickup.standard} & sauce == {"toss", "to_window"}
    assert value(pickup, "toss", "s") == value(content.techniques["yolk_pan_sauce"], "toss", "s") == 30
    station = content.stations["saute"].techniques
    assert station.index("yolk_pan_sauce") < station.index("yolk_pasta_pickup")
