"""Blanching against published figures.

Sources: FDA Food Code 2022, sections 3-501.16(A)(2) and 3-501.17(A); Armed Forces Recipe Service, TM 10-412 (2003),
card A-6; a restaurant produce yield chart, undated copy; McGee, On Food and Cooking (2004), boiling green vegetables;
Child, Julia's Kitchen Wisdom (2000); University of Illinois, How to Prepare for Freezer Storage, table 1; Hong Kong
Centre for Food Safety, Food Safety Focus 139 (2018); NIST SP 811, Appendix B (from memory).
"""

from __future__ import annotations

import pytest

from tests.content.measured import lines_of, number
from trainer.kitchen.technique import Content, Limit
from trainer.recipe_math.parsing import parse_quantity

PUBLISHED = [
    # line, lowest, highest, where it is printed
    ("asparagus_freezer", "3 min", "3 min", "Illinois, table 1: asparagus, 1 lb in 6 qt"),
    ("broccoli_freezer", "3 min", "4 min", "Illinois, table 1: broccoli, 1 lb in 5 qt"),
    ("peas_freezer", "1.5 min", "1.5 min", "Illinois, table 1: peas, 1 lb in 4 qt"),
    ("asparagus_home", "4 min", "5 min", "Child: asparagus, boiled uncovered"),
    ("broccoli_home", "2 min", "4 min", "Child: broccoli, boiled uncovered"),
    ("beans_agency", "10 min", "20 min", "Food Safety Focus 139: at 100 °C"),
    ("water_pound", "1 gal", "1 gal", "garde manger text: 1 gal to 1 lb"),
    ("share_scientist", "3 %", "3 %", "McGee: about as salty as sea water"),
]
FACTORS = [
    # line worked out, factor of card A-6
    ("asparagus_bought", 1.89),
    ("florets_bought", 2.2),
    ("beans_bought", 1.14),
]


@pytest.fixture(scope="module")
def lines(content: Content) -> dict[str, Limit]:
    """Return the measured lines of the technique by name."""
    return lines_of(content.techniques["blanching"])


@pytest.mark.parametrize(("key", "lowest", "highest", "printed"), PUBLISHED)
def test_a_line_is_the_printed_one(lines: dict[str, Limit], key: str, lowest: str, highest: str, printed: str) -> None:
    """Each line that a text prints has the values of that text."""
    line = lines[key]
    low, high = line.lowest or line.target, line.highest or line.target
    assert low is not None
    assert high is not None
    assert (low.base, high.base) == (parse_quantity(lowest).base, parse_quantity(highest).base), printed


@pytest.mark.parametrize(("key", "factor"), FACTORS)
def test_what_to_buy_follows_the_army_card(lines: dict[str, Limit], key: str, factor: float) -> None:
    """Card A-6: what is edible times its factor is what is bought; ten portions of 3 oz are 30 oz."""
    assert number(lines[key], "oz") == pytest.approx(30 * factor)


def test_the_yield_lies_near_the_trade_chart(lines: dict[str, Limit]) -> None:
    """100 / 1.89 is 52.9 %; a trade chart has 56 % for asparagus."""
    assert number(lines["asparagus_yield"], "%") == pytest.approx(52.9, abs=0.05)
    assert number(lines["asparagus_chart"], "%") == 56


def test_the_water_weighs_what_its_gallons_do(lines: dict[str, Limit]) -> None:
    """A gallon is 3.785412 L, a pound 453.59237 g (NIST SP 811), and a litre of cold water weighs 1 kg."""
    assert number(lines["water"], "lb") == pytest.approx(3 * 3785.412 / 453.59237, rel=0.005)


def test_the_house_salts_between_what_texts_print(lines: dict[str, Limit]) -> None:
    """McGee takes 3 %; Child 1.5 tsp to a quart, and USDA SR26 weighs a teaspoon of salt at 6 g: about 1 %."""
    home = 1.5 * 6 / 946.353
    assert home == pytest.approx(0.0095, abs=0.0005)
    assert home * 100 < number(lines["salt_share"], "%") < number(lines["share_scientist"], "%")


def test_the_ice_melts_as_the_heat_of_the_batch_says(lines: dict[str, Limit]) -> None:
    """ASHRAE Refrigeration 2006, chapter 9: green vegetables about 3.9 kJ/(kg K); OpenStax College Physics 2e, table
    14.2: ice melts with 334 kJ/kg. From 100 °C to 5 °C: 95 × 3.9 / 334 = 1.11 of ice to 1 of vegetables.
    """
    share = number(lines["melts"], "lb") / number(lines["batch"], "lb")
    assert share == pytest.approx(95 * 3.9 / 334, abs=0.02)
    assert number(lines["ice"], "lb") > number(lines["melts"], "lb")


def test_a_batch_leaves_the_water_near_the_boil_and_three_do_not(lines: dict[str, Limit]) -> None:
    """By weight, all counted as water: (25 × 212 + 2 × 41) / 27 is 199 °F; with 6 lb, 179 °F: by hand."""
    assert number(lines["after_batch"], "°F") == pytest.approx((25 * 212 + 2 * 41) / 27, abs=1)
    assert number(lines["after_heap"], "°F") == pytest.approx((25 * 212 + 6 * 41) / 31, abs=1)


def test_the_house_keeps_them_less_long_than_the_code(content: Content, lines: dict[str, Limit]) -> None:
    """3-501.17(A): seven days at 41 °F, the day of preparation counted."""
    kept, allowed = lines["days"].highest, content.code.limits["date_marking"].highest
    assert kept is not None
    assert allowed is not None
    assert kept.base < allowed.base


TIMERS = {"spinach": 20, "peas": 60, "broccoli": 90, "asparagus": 120, "beans": 240}
"""The house's lines: the low end of each, in seconds, when the first bite comes."""


def test_each_vegetable_has_a_timer_that_rings_at_its_first_bite(content: Content, lines: dict[str, Limit]) -> None:
    """One clock for all of them would ring when spinach is past its line, 20 to 40 s, and beans are raw."""
    step = next(step for step in content.techniques["blanching"].steps if step.id == "cook")
    assert {timer.line: timer.seconds for timer in step.timers} == TIMERS
    assert step.seconds is None
    for timer in step.timers:
        highest, lowest = lines[timer.line].highest, lines[timer.line].lowest
        assert highest is not None
        assert lowest is not None
        assert lowest.base == timer.seconds < highest.base
        assert timer.text in content.techniques["blanching"].standard_text


def test_no_other_step_times_the_pot(content: Content) -> None:
    """The old clock of a minute is gone: nothing else in the technique runs a timer."""
    timed = [step.id for step in content.techniques["blanching"].steps if step.seconds or step.timers]
    assert timed == ["cook"]


def test_cold_is_judged_by_the_code(content: Content) -> None:
    """3-501.16(A)(2): what is held cold is at 41 °F or below; the middle of a piece is a critical point."""
    points = {point.id: point for point in content.techniques["blanching"].checklist}
    limit = points["cold_through"].limit
    assert points["cold_through"].critical
    assert limit is not None
    assert str(limit.highest) == "41 °F"


def test_water_of_this_house_s_pasta_leaves_what_the_dough_has(content: Content) -> None:
    """Wheat and egg boil out of an egg dough: a pot that cooked it declares both (21 U.S.C. 321(qq))."""
    dough, blanching = content.recipes["durum_dough"], content.techniques["blanching"]
    assert {"wheat", "egg"} <= set(dough.allergens) <= set(blanching.allergens)
    asked = next(point for point in blanching.checklist if point.id == "allergens")
    assert {choice.allergen for choice in asked.choices} == set(blanching.allergens)
