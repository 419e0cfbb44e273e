"""The dough of the extruder against published values, the source beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.content.measured import line, value
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity

TECHNIQUE = "extruded_dough"
POUND = Fraction("453.59237")  # NIST SP 811, Appendix B
SEMOLINA_WATER = Fraction("12.67") / 100  # USDA SR26, NDB 20466; that release has no durum flour
FRESH_PASTA_WATER = 31  # USDA SR26, NDB 20093, in 100 g of fresh refrigerated pasta
PUBLISHED = [
    # line, (lowest, target, highest), source
    ("one_egg", (None, "50 g", None), "USDA SR26, NDB 01123: one large egg"),
    (
        "egg_moisture",
        (None, "76 %", None),
        "USDA SR26, NDB 01123: 76.15 g of water in 100 g, here to the whole percent",
    ),
    ("liquid_plant", ("25 %", None, "27 %"), "Foods 11(3):256, Table 1: 25-27 parts of water to 100 of semolina"),
    ("liquid_small_machine", ("30 %", None, "33 %"), "process page of a maker of small pasta extruders"),
    ("egg_pasta_elsewhere", (None, "20 %", None), "D.P.R. 187/2001, Art. 8: 200 g of egg to 1 kg of semolina"),
    ("flour_wet", (None, "15 %", None), "21 CFR 137.220(a) and 137.320(a): moisture not more than 15 percent"),
    ("flour_dry", (None, "11 %", None), "Lowe, Experimental Cookery: 11 to 13 per cent is a normal content"),
    ("strand_warmth", (None, None, "45 °C"), "page on cooling by a maker of restaurant pasta machines: 45/50 °C"),
]


@pytest.fixture(name="technique")
def _technique(content: Content) -> Technique:
    return content.techniques[TECHNIQUE]


@pytest.mark.parametrize(("key", "printed", "source"), PUBLISHED)
def test_a_line_has_the_published_value(
    technique: Technique, key: str, printed: tuple[str | None, ...], source: str
) -> None:
    """A line that names a publication has its value."""
    limit = line(technique, key)
    ends = (limit.lowest, limit.target, limit.highest)
    wanted = tuple(parse_quantity(text).base if text else None for text in printed)
    assert tuple(end.base if end else None for end in ends) == wanted, source


def test_the_batch_is_the_recipe(content: Content, technique: Technique) -> None:
    """Technique and recipe weigh out one and the same batch."""
    weights = {each.id: each.weight.base for each in content.recipes["durum_dough"].ingredients}
    lines = {"durum": "durum", "semolina": "semolina", "eggs": "egg", "water": "water"}
    assert weights == {part: value(technique, key) for part, key in lines.items()}


def test_the_liquid_lies_where_a_maker_of_small_machines_wants_it(technique: Technique) -> None:
    """(500 g + 2 lb) over 10 lb, by hand: 1407.18 / 4535.92 is 31.0 in 100, between 30 and 33."""
    share = value(technique, "liquid_percent")
    assert round(float(share), 3) == 0.310
    assert line(technique, "liquid_small_machine").admits(parse_quantity("31.0 %"))


OUNCE = POUND / 16
EGG_IN_SHELL = Fraction(88, 100)  # USDA SR26, NDB 01123: 12 in 100 of an egg is shell


@pytest.mark.parametrize(("key", "dozen"), [("eggs_light", 23), ("eggs_heavy", 27)])
def test_ten_large_eggs_may_weigh_so_much(technique: Technique, key: str, dozen: int) -> None:
    """USDA AMS 56.218: a dozen large eggs is 24 oz, at the least 23; from 27 on it is the next size."""
    shelled = dozen * OUNCE * 10 / 12 * EGG_IN_SHELL
    assert abs(value(technique, key) - shelled) < 1
    assert line(technique, key).source == "ams_56"


def test_egg_and_water_have_one_line_together(content: Content, technique: Technique) -> None:
    """Eggs differ by 83 g a batch, so neither alone is judged: water fills up what the eggs leave open."""
    recipe = content.recipes["durum_dough"]
    assert value(technique, "liquid") == sum(part.weight.base for part in recipe.ingredients if not part.is_flour)
    weighed = [point.limit.id for point in technique.checklist if point.limit and point.judged == "weighed"]
    assert "liquid" in weighed
    assert not {"egg", "water"} & set(weighed)
    water = next(step for step in technique.steps if step.id == "water")
    assert "Leave the egg on the scale" in water.text


def test_a_batch_has_the_time_that_its_steps_take(content: Content, technique: Technique) -> None:
    """The longest each step may take, with two spoons, and a nest a minute (an estimate) for all of the dough."""
    ends = (line(technique, key) for key in ("dry_mix", "pour", "mixing", "rest"))
    longest = [(limit.highest or limit.target or limit.lowest) for limit in ends]
    steps = sum((end.base for end in longest if end), Fraction(0)) + 2 * value(technique, "mix_again")
    recipe = content.recipes["durum_dough"]
    nests = value(technique, "dough") * Fraction(98, 100) // recipe.portion.base if recipe.portion else 0
    assert nests == 31
    allowed = line(technique, "out_time").highest
    assert allowed is not None
    assert steps + 60 * nests <= allowed.base


def test_egg_water_counts_as_water(technique: Technique) -> None:
    """By hand: 500 g of egg at 76 % is 380 g; with 907.18 g of water over 4535.92 g of flour, 28.4 in 100."""
    assert value(technique, "egg_water") == 380
    assert round(float(value(technique, "hydration")), 3) == 0.284


def test_the_dough_is_as_moist_as_fresh_pasta_on_sale(technique: Technique) -> None:
    """USDA SR26: with the water in the flour, 12.67 in 100, the dough is within a percent of fresh pasta's 31."""
    flour = 10 * POUND
    water = flour * SEMOLINA_WATER + value(technique, "egg_water") + 2 * POUND
    assert abs(100 * water / value(technique, "dough") - FRESH_PASTA_WATER) < 1


def test_what_the_flour_hides_is_worked_out(technique: Technique) -> None:
    """15 less 11 is 4 in 100; of 10 lb that is 0.4 lb, 6.4 oz."""
    assert value(technique, "swing_water") == parse_quantity("6.4 oz").base


def test_the_house_never_takes_the_barrel_above_what_its_maker_says(technique: Technique) -> None:
    """A maker's page: dough that passes 45 to 50 °C changes; the lower end is the line."""
    assert line(technique, "strand_warmth").admits(parse_quantity("45 °C"))
    assert not line(technique, "strand_warmth").admits(parse_quantity("46 °C"))
