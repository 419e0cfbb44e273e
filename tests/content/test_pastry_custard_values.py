"""Pastry custards against published figures.

Sources: FDA Food Code 2022, sections 3-401.11(A)(2), 3-501.14(A) and 3-501.17(A); USDA SR26 (2013); McGee, On Food and
Cooking (2004), chapter 2; Figoni, How Baking Works (2003); a pastry article (2013) and a test kitchen article, undated
copy. Specific heats: egg yolk 3.05 kJ/(kg K), ASHRAE Handbook, Refrigeration (from memory); milk 3.9 kJ/(kg K), Earle,
Unit Operations in Food Processing, appendix 7.
"""

from __future__ import annotations

import pytest

from tests.content.measured import lines_of, number, same
from trainer.kitchen.technique import Content, Limit
from trainer.recipe_math.parsing import parse_quantity

PUBLISHED = [
    # line, target, lowest, highest, where it is printed
    ("cup_of_milk", "244 g", None, None, "SR26: whole milk, one cup"),
    ("one_yolk", "17 g", None, None, "SR26, NDB 01125: yolk of a large egg"),
    ("yolk_band", None, "65 °C", "70 °C", "McGee: yolk thickens, yolk sets"),
    ("clings_at", "180 °F", None, None, "McGee: crème anglaise"),
    ("curdles_before", "85 °C", None, None, "Figoni: 185 °F (85 °C)"),
    ("boil_time", None, "120 s", None, "Figoni: two minutes or more"),
    ("boil_time_elsewhere", "60 s", None, None, "McGee: a minute or so"),
    ("boil_reading_elsewhere", "200 °F", None, None, "test kitchen: when it is done"),
    ("enzyme", None, "155 °F", "185 °F", "pastry article: where amylase works best"),
    ("starch_elsewhere", None, "5 g", "10 g", "McGee: half of 10 to 20 g for 250 mL"),
]
YOLK_HEAT, MILK_HEAT = 3.05, 3.9
MILK_GRAMS_OF_A_LADLE = 4 / 8 * 244
SAME_LINES = {"milk": "milk", "sugar": "sugar", "yolks": "yolks", "starch": "starch", "butter": "butter"}
PROVED = {
    # point, the limit it is judged by, section
    "cream_hot": ("egg_pooled", "3-401.11(A)(2)"),
    "first_stage": ("cooling_to_middle_within", "3-501.14(A)(1)"),
}


@pytest.fixture(scope="module")
def lines(content: Content) -> dict[str, Limit]:
    """Return the measured lines of the technique by name."""
    return lines_of(content.techniques["pastry_custard"])


@pytest.mark.parametrize(("key", "values", "printed"), [(key, (a, b, c), text) for key, a, b, c, text in PUBLISHED])
def test_a_line_is_the_printed_one(
    lines: dict[str, Limit], key: str, values: tuple[str | None, str | None, str | None], printed: str
) -> None:
    """Each line that a text prints has the value of that text."""
    limit = lines[key]
    for found, text in zip((limit.target, limit.lowest, limit.highest), values, strict=True):
        assert same(found, text), printed


@pytest.mark.parametrize(
    ("key", "milk_grams"),
    [
        ("after_one_ladle", MILK_GRAMS_OF_A_LADLE),
        ("after_three_ladles", 3 * MILK_GRAMS_OF_A_LADLE),
        ("all_at_once", 8 * 244),
    ],
)
def test_the_bowl_gets_as_warm_as_tabled_heats_say(lines: dict[str, Limit], key: str, milk_grams: float) -> None:
    """16 yolks of 17 g at 5 °C and milk at 85 °C, nothing lost: the balance by hand, within two degrees."""
    yolk, milk = 16 * 17 * YOLK_HEAT, milk_grams * MILK_HEAT
    assert number(lines[key], "°C") == pytest.approx((yolk * 5 + milk * 85) / (yolk + milk), abs=2)


def test_ladles_stay_short_of_the_band_and_all_the_milk_passes_it(lines: dict[str, Limit]) -> None:
    """McGee: plain yolk begins to thicken at 65 °C and sets at 70 °C, so milk goes in by the ladle."""
    assert number(lines["after_three_ladles"], "°C") < 65
    assert number(lines["all_at_once"], "°C") > 70
    warm = lines["tempered"]
    assert not warm.admits(parse_quantity(str(lines["after_one_ladle"].target)))
    assert warm.admits(parse_quantity(str(lines["after_three_ladles"].target)))


def test_a_pouring_custard_is_done_between_the_codes_line_and_where_it_curdles(
    content: Content, lines: dict[str, Limit]
) -> None:
    """3-401.11(A)(2): 155 °F for pooled eggs; Figoni: a custard sauce curdles before 85 °C."""
    done = lines["nappe"]
    assert done.highest is not None
    assert content.code.limits["egg_pooled"].admits(parse_quantity(str(done.lowest)))
    assert float(done.highest.to("°C").amount) < 85


def test_the_batch_is_that_of_the_recipe(content: Content, lines: dict[str, Limit]) -> None:
    """The technique and the recipe of the same house weigh the same pastry cream."""
    weights = {line.id: line.weight.base for line in content.recipes["pastry_custard"].ingredients}
    for line, ingredient in SAME_LINES.items():
        target = lines[line].target
        assert target is not None
        assert target.base == weights[ingredient]


def test_heat_and_cooling_are_proved_by_the_code(content: Content) -> None:
    """Cooking and the first stage of cooling are critical points, and judged by the kitchen's own local code."""
    points = {point.id: point for point in content.techniques["pastry_custard"].checklist}
    for name, (limit, section) in PROVED.items():
        found = points[name].limit
        assert found is not None
        assert points[name].critical
        assert found == content.code.limits[limit]
        assert section in found.place
