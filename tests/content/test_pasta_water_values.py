"""Pasta water against published values, the source beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.content.measured import line, value
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity

TECHNIQUE = "pasta_water"
LITRE_IN_GALLON = Fraction("3.785411784")  # Unified Code for Units of Measure
POUND_IN_KG = Fraction("0.45359237")  # NIST SP 811, Appendix B
KB, FACTOR, MOLAR_SALT = 0.512, 1.9, 58.44  # OpenStax Chemistry 2e, section 11.4: boiling point elevation
PUBLISHED = [
    # line, (lowest, target, highest), source
    (
        "water_pound",
        (None, "4 qt", None),
        "Procedure for cooking pasta in large quantities: at least 4 quarts to the lb",
    ),
    ("litre_light", (None, "6.25 g", None), "the same text: 25 g in 4 L"),
    ("litre_italian", (None, "10 g", None), "Italian cookery article, 2021-12-14: 10 g to the litre"),
    ("army_salt", (None, "5 oz", None), "Armed Forces Recipe Service, card E-4: 5 oz in 12 gal"),
    ("boil_sea", (None, "212 °F", None), "boiling point of pure water at elevated altitudes: 0 ft"),
    ("boil_high", (None, "201.1 °F", None), "the same table: 6000 ft"),
    ("thin", ("2 min", None, "3 min"), "Accurate timing when cooking pasta: thin fresh noodles"),
    ("thick", ("3 min", None, "4 min"), "the same article: thicker fresh noodles"),
    ("stuffed", ("5 min", None, "7 min"), "the same article: stuffed fresh pasta"),
    ("undried", ("60 s", None, "90 s"), "teaching slides on cereals: undried egg pasta, 1 to 1.5 min"),
    ("batches", (None, None, "7 batches"), "J Sci Food Agric 99(6):3017: batch number 7 as the threshold"),
    ("starch_twelve", (None, "37 g", None), "J Sci Food Agric 99(6):3017: 37 g of solids in 1 kg after 12 batches"),
    ("burn_water_elsewhere", ("10 min", None, "30 min"), "North Bristol NHS Trust: 10 to 30 minutes"),
]
BY_THE_POUND = [
    # line, published litres to a kilogram, source
    ("water_pound", 8, "at least 4 L to 500 g"),
    ("water_italian", 10, "1 L to 100 g"),
    ("water_least", 3, "Food and Bioproducts Processing 116:150: 3 L of water to 1 kg of short pasta"),
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


@pytest.mark.parametrize(("key", "litres", "source"), BY_THE_POUND)
def test_water_to_the_pound_is_what_was_published_to_the_kilogram(
    technique: Technique, key: str, litres: int, source: str
) -> None:
    """Turned from litres a kilogram by hand, to the tenth that is printed; four quarts to the pound is 8.3."""
    published = litres * POUND_IN_KG * 1000
    assert abs(value(technique, key) / published - 1) < Fraction(1, 20), source


def test_three_amounts_of_salt_are_told_apart(technique: Technique) -> None:
    """By hand, ounces a gallon: 5/12 = 0.42; 6.25 g × 3.785 = 23.7 g, 0.83 oz; 10 g × 3.785 = 37.9 g, 1.34 oz."""
    ounce = parse_quantity("1 oz").base
    printed = {"gallon_army": 0.42, "gallon_light": 0.83, "gallon_italian": 1.34, "salt_gallon": 1.33}
    assert {key: round(float(value(technique, key) / ounce), 2) for key in printed} == printed


def test_salt_hardly_lifts_the_boil(technique: Technique) -> None:
    """1.9 × 0.512 °C × 10 / 58.44 = 0.166 °C for 10 g in a kilogram of water (OpenStax Chemistry 2e, section 11.4)."""
    assert abs(float(value(technique, "salt_lift")) - FACTOR * KB * 10 / MOLAR_SALT) < 0.005


def test_the_pot_is_the_recipe(content: Content, technique: Technique) -> None:
    """Technique and recipe fill one and the same pot."""
    recipe = {each.id: each for each in content.recipes["pasta_water"].ingredients}
    assert recipe["water"].amount.base == value(technique, "pot")
    assert recipe["salt"].weight.base == value(technique, "salt")


def test_what_goes_in_at_once_fits_the_water(technique: Technique) -> None:
    """A gallon to the pound: 3 gal take 3 lb, which is more than six nests of 6.5 oz (39 oz)."""
    pounds = value(technique, "pot") / 1000 / LITRE_IN_GALLON
    highest = line(technique, "at_once").highest
    assert highest is not None
    assert pounds * 16 >= highest.amount * Fraction("6.5")
