"""Cold side basics against published figures.

Sources: FDA Food Code 2022, sections 1-201.10(B), 3-203.12, 3-302.13, 3-501.14(B), 3-501.16(A)(2) and 3-501.17(A);
USDA SR26 (2013), NDB 11529 and 04053; McGee, On Food and Cooking (2004), mayonnaise; Culinary Institute of America,
Ratio Guide, Mayonnaise; a catering guide and a cookery article, undated copies.
"""

from __future__ import annotations

import pytest

from tests.content.measured import lines_of, number
from trainer.kitchen.technique import Content, Limit
from trainer.recipe_math.parsing import parse_quantity

PUBLISHED = [
    # line, value, where it is printed
    ("wedge", "31 g", "SR26, NDB 11529: one wedge, a quarter of a medium tomato"),
    ("cup_of_oil", "216 g", "SR26, NDB 04053: one cup"),
    ("yolk_for_a_cup", "0.6 oz", "Ratio Guide: one yolk to a cup of oil"),
    ("leaves_label", "85 g", "article: two cups, one serving on a bag"),
    ("dressing_label", "30 g", "article: two tablespoons, one serving on a bottle"),
]
GRAMS_IN_A_CUP = {
    # oil: SR26, NDB 04053. Yolk, mustard and vinegar are taken as water, 237 g to a US cup: common practice.
    "oil": 216,
    "water": 237,
}
PROVED = {
    # point, the limit it is judged by, section
    "hands_washed": ("handwash_time", "2-301.12(A)"),
    "greens_cold": ("cold_holding", "3-501.16(A)(2)"),
}


@pytest.fixture(scope="module")
def lines(content: Content) -> dict[str, Limit]:
    """Return the measured lines of the technique by name."""
    return lines_of(content.techniques["cold_side_basics"])


def grams(lines: dict[str, Limit], *names: str) -> float:
    """Return what some lines weigh together, in grams."""
    return float(sum(number(lines[name], "g") for name in names))


@pytest.mark.parametrize(("key", "value", "printed"), PUBLISHED)
def test_a_line_is_the_printed_one(lines: dict[str, Limit], key: str, value: str, printed: str) -> None:
    """Each line that a text prints has the value of that text."""
    target = lines[key].target
    assert target is not None
    assert target.base == parse_quantity(value).base, printed


def test_the_portion_is_what_caterers_give_as_a_side_at_the_most(lines: dict[str, Limit]) -> None:
    """1.5 to 3 oz of greens a head: catering guide."""
    side = lines["leaves_side"]
    assert (str(side.lowest), str(side.highest)) == ("1.5 oz", "3 oz")
    assert side.admits(parse_quantity("3 oz"))
    assert grams(lines, "leaves") == pytest.approx(85, abs=0.1)


def test_the_dressing_has_water_enough_for_its_oil(lines: dict[str, Limit]) -> None:
    """McGee 2004: for each volume of oil, about a third of that volume of yolk, vinegar and other water."""
    oil = grams(lines, "oil") / GRAMS_IN_A_CUP["oil"]
    watery = grams(lines, "yolk", "mustard", "vinegar") / GRAMS_IN_A_CUP["water"]
    assert watery / oil > 1 / 3


def test_the_dressing_has_more_yolk_than_the_school_asks(lines: dict[str, Limit]) -> None:
    """Ratio Guide: one yolk, 0.6 oz, to a cup of oil, which is 0.6 oz to 216 g: 7.9 %, by hand."""
    printed = 0.6 * 28.3495 / 216
    assert printed == pytest.approx(0.079, abs=0.0005)
    assert grams(lines, "yolk") / grams(lines, "oil") > printed


def test_the_dressing_goes_sooner_than_the_code_says(content: Content, lines: dict[str, Limit]) -> None:
    """3-501.17(A): seven days at 41 °F, the day of making counted; the house's days lie within."""
    kept, allowed = lines["dressing_days"].highest, content.code.limits["date_marking"].highest
    assert kept is not None
    assert allowed is not None
    assert kept.base < allowed.base


def test_clean_hands_and_cold_produce_are_proved_by_the_code(content: Content) -> None:
    """Washed hands and cut produce are critical points, and judged by the kitchen's own local code."""
    points = {point.id: point for point in content.techniques["cold_side_basics"].checklist}
    for name, (limit, section) in PROVED.items():
        found = points[name].limit
        assert found is not None
        assert points[name].critical
        assert found == content.code.limits[limit]
        assert section in found.place


def test_the_allergens_of_both_lists_are_named(content: Content) -> None:
    """21 U.S.C. 321(qq): egg, tree nuts, sesame; Regulation (EU) 1169/2011 adds mustard, molluscs and sulphites."""
    named = set(content.techniques["cold_side_basics"].allergens)
    assert named == {"egg", "tree_nuts", "sesame", "mustard", "molluscs", "sulphites"}


def test_a_tag_is_kept_from_the_day_the_last_one_is_sold(content: Content) -> None:
    """FDA Food Code § 3-203.12(B) and (C), read in OAC 310:257-5-20: that day is written on the tag, 90 days from it.

    Indiana counts from the day it is empty (410 IAC 7-24-160), California from harvest (HSC 114039.4).
    """
    step = next(step for step in content.techniques["cold_side_basics"].steps if step.id == "shell_tags")
    assert "Write the day the last one is sold" in step.text
    assert "keep it from then" in step.text
    assert "90 days" in step.text
    assert "from the day the last one is sold" in content.code.limits["shellstock_tags"].place


def test_the_dressing_is_seasoned_and_tasted(content: Content, lines: dict[str, Limit]) -> None:
    """Common practice: three of oil to one of vinegar, about one in a hundred of salt, tasted on a leaf."""
    assert grams(lines, "oil") == pytest.approx(3 * grams(lines, "vinegar"), rel=0.05)
    whole = grams(lines, "yolk", "mustard", "vinegar", "salt", "oil")
    assert 0.008 < grams(lines, "salt") / whole < 0.012
    steps = {step.id: step for step in content.techniques["cold_side_basics"].steps}
    order = list(steps)
    assert order.index("sour") < order.index("emulsion") < order.index("taste") < order.index("label")
    assert "salt" in steps["taste"].text
    assert "leaf" in steps["taste"].text


def test_the_young_run_no_power_machine(content: Content) -> None:
    """29 CFR 570.33(e), from memory: no power choppers, cutters or mixers at 14 and 15; 570.61: no slicer under 18."""
    technique = content.techniques["cold_side_basics"]
    caution = next(hazard.caution for hazard in technique.hazards if hazard.id == "machines")
    assert "Under sixteen, no power chopper, cutter or mixer" in caution
    assert "Under eighteen, no slicer" in caution
    assert "machines" in next(step.hazards for step in technique.steps if step.id == "set_up")
