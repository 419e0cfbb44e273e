"""The right methods against values printed elsewhere; each case names where."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from trainer.kitchen.quiz.families import NUMERIC


def right(family: str, **numbers: str) -> Fraction:
    """Return the right value of a family for these numbers."""
    drawn = {name: Fraction(value) for name, value in numbers.items()}
    return NUMERIC[family].form_of(drawn).right(drawn)


@pytest.mark.parametrize(
    ("family", "numbers", "printed", "within"),
    [
        pytest.param(
            "scale_by_ingredient", {"called_pounds": "30", "stock_pounds": "102", "amount_pounds": "1"}, "3.40", "0",
            id="Armed Forces Recipe Service, card 1(3): 102 lb on hand, 30 lb called for, factor 3.40",
        ),
        pytest.param(
            "yield_percent", {"bought_pounds": "5", "trim_ounces": "8.8"}, "89", "0",
            id="The Ultimate Guide to Recipe Calculation (CIA): 80 oz of carrots, 8.8 oz of trim, 89 %",
        ),
        pytest.param(
            "yield_percent", {"bought_pounds": "12", "trim_ounces": "5.5"}, "97", "0.5",
            id="celery, 12 lb and 5.5 oz of trim, 97 % (answered question in stored text)",
        ),
        pytest.param(
            "edible_cost", {"price_dollars": "10", "usable_percent": "80"}, "12.50", "0",
            id="food cost article: $10.00 a pound at 80 % is $12.50",
        ),
        pytest.param(
            "butcher_card",
            {"bought_pounds": "12", "price_dollars": "6.65", "trim_dollars": "13", "usable_pounds": "6"}, "11.13",
            "0.005", id="butcher's card of a lamb loin, exercise 6.3 (a solved copy): 66.80 / 6 lb = 11.13",
        ),
        pytest.param(
            "butcher_portion",
            {"bought_pounds": "12", "price_dollars": "6.65", "trim_dollars": "13", "usable_pounds": "6",
             "portion_ounces": "5"}, "3.48", "0.005", id="the same card: a portion of 5 oz is 3.48",
        ),
        pytest.param(
            "butcher_factor",
            {"bought_pounds": "12", "price_dollars": "6.65", "trim_dollars": "13", "usable_pounds": "6"}, "1.67",
            "0.005", id="the same card: factor 1.67",
        ),
        pytest.param(
            "cost_per_portion", {"price_dollars": "6.65", "usable_percent": "125/3", "portion_ounces": "5"}, "4.99",
            "0.005", id="cooking-loss card: 12 lb at 6.65 give 5 lb cooked; a portion of 5 oz is 4.99",
        ),
        pytest.param(
            "menu_price", {"cost_dollars": "7.07", "cost_percent": "30.5"}, "23.18", "0.005",
            id="work sheet 'Butcher test to find the yield cost': 7.07 / 30.5 % = 23.18",
        ),
        pytest.param(
            "food_cost_percent",
            {"opening_dollars": "0", "bought_dollars": "25780", "closing_dollars": "0", "sales_dollars": "64575"},
            "39.9", "0.05", id="food cost formula, answered question in stored text: 25,780 / 64,575 = 39.9 %",
        ),
        pytest.param(
            "cans_for_guests", {"cans_per_hundred": "3", "guests": "460", "serving_cups": "1/2"}, "28", "0",
            id="USDA Food Buying Guide slides: 3.0 x 4.6 x 2 = 27.6 cans, buy 28",
        ),
        pytest.param(
            "cascade_to_measures", {"gallons": "19.98"}, "131/12", "1/24",
            id="NAVEDTRA 14163: 19.98 gal = 19 gal 3 qt 1 pt 1 c and 10 Tbsp 2 3/4 tsp",
        ),
        pytest.param(
            "part_from_percent", {"main_flour_grams": "30", "second_flour_grams": "10", "part_percent": "1.75"}, "0.7",
            "0", id="Baker's Math slides: 40 of flour, salt 1.75 %, 0.7",
        ),
        pytest.param(
            "flour_from_part", {"water_grams": "18.88", "water_percent": "59"}, "32", "0",
            id="Baker's Percentages tutorial turned around: 18.88 oz of water at 59 % on 32 oz of flour",
        ),
        pytest.param(
            "egg_count", {"egg_grams": "243", "size": "3"}, "5", "0",
            id="USDA SR26, NDB 01123: a cup of 243 g is 4.86 large eggs, so five are cracked",
        ),
        pytest.param(
            "salt_brine", {"water_litres": "1", "salt_percent": "100/101"}, "10", "0",
            id="mass fraction: 10 g of salt on 1000 g of water is 0.990 %, 10/1010",
        ),
        pytest.param(
            "sanitizer_dilution", {"bucket_litres": "5", "label_ppm": "1000", "bottle_percent": "1.59"}, "314", "0.5",
            id="OpenStax Chemistry 2e, C1 V1 = C2 V2 (from memory): 5.00 L at 0.100 of 1.59 take 0.314 L",
        ),
        pytest.param(
            "cooling_time",
            {"hot_fahrenheit": "165", "air_fahrenheit": "35", "first_minutes": "10", "first_fahrenheit": "150",
             "last_fahrenheit": "70"}, "107", "0.5", id="OpenStax College Algebra 2e, 6.7: the cheesecake, 107 min",
        ),
        pytest.param(
            "cooling_time",
            {"hot_fahrenheit": "200", "air_fahrenheit": "75", "first_minutes": "1", "first_fahrenheit": "190",
             "last_fahrenheit": "150"}, "6.12", "0.01", id="OpenStax Calculus Volume 2, 4.3: the pizza, 6.12 min",
        ),
        pytest.param(
            "ice_in_stock", {"stock_kilograms": "0.250", "stock_celsius": "20", "ice_kilograms": "0.018"}, "13", "0.5",
            id="OpenStax College Physics 2e, 14.3: ice in a soft drink, 13 C",
        ),
        pytest.param(
            "ice_in_stock", {"stock_pounds": "0.250", "stock_fahrenheit": "68", "ice_pounds": "0.018"}, "55.9", "0.5",
            id="OpenStax College Physics 2e, 14.3: the same drink in Fahrenheit, 13.3 C",
        ),
        pytest.param("boiling_point", {"feet": "2000", "drop_fahrenheit": "1.84"}, "208.4", "0.5", id="NOAA, 2000 ft"),
        pytest.param("boiling_point", {"feet": "6000", "drop_fahrenheit": "1.84"}, "201.1", "0.5", id="NOAA, 6000 ft"),
        pytest.param("boiling_point", {"feet": "8000", "drop_fahrenheit": "1.84"}, "197.4", "0.5", id="NOAA, 8000 ft"),
        pytest.param("boiling_point", {"metres": "610", "drop_celsius": "1"}, "98.0", "0.25", id="NOAA, 2000 ft in m"),
        pytest.param("boiling_point", {"metres": "1829", "drop_celsius": "1"}, "93.9", "0.25", id="NOAA, 6000 ft in m"),
        pytest.param("boiling_point", {"metres": "2438", "drop_celsius": "1"}, "91.9", "0.25", id="NOAA, 8000 ft in m"),
        pytest.param(
            "log_reduction", {"d_minutes": "3", "hold_minutes": "15"}, "5", "0",
            id="exercise on decimal reduction: D of 3 min at 65 C, five cuts, 15 min",
        ),
        pytest.param(
            "d_at_other_temperature", {"d_minutes": "112", "at_celsius": "130", "z_celsius": "10", "steps": "2"}, "67",
            "1", id="FSIS Appendix A (1999), 6.5-log column: 112 min at 130 F, 67 s at 150 F, z 10 F",
        ),
        pytest.param(
            "portion_mean", {"pieces": "3", "reading_0": "10000001", "reading_1": "10000003", "reading_2": "10000002"},
            "10000002", "0", id="NIST StRD NumAcc1: sample mean 10000002 (exact)",
        ),
        pytest.param(
            "portion_spread",
            {"pieces": "3", "reading_0": "10000001", "reading_1": "10000003", "reading_2": "10000002"},
            "1", "0", id="NIST StRD NumAcc1: sample standard deviation 1 (exact)",
        ),
        pytest.param(
            "pickup_start", {"cook_minutes": "8", "rest_minutes": "2", "boil_seconds": "90", "toss_seconds": "30"},
            "480", "0", id="by hand: 10 min less 2 min are 8 min, 480 s; fresh strands about 90 s, common practice",
        ),
        pytest.param(
            "par_level", {"daily_cans": "18", "days_between": "4", "reserve_percent": "25", "shelf_cans": "20"}, "70",
            "0", id="by hand: 72 cans, 18 more in reserve, 20 on the shelf; common practice",
        ),
    ],
)  # fmt: skip
def test_published_values(family: str, numbers: Mapping[str, str], printed: str, within: str) -> None:
    """The right method gives what is printed elsewhere, to the places printed."""
    assert abs(right(family, **numbers) - Fraction(printed)) <= Fraction(within)


@pytest.mark.parametrize(("feet", "boils"), [(1000, "210.13"), (5000, "202.83"), (10000, "193.66"), (12000, "189.98")])
def test_the_rule_for_heights_keeps_to_the_steam_tables(feet: int, boils: str) -> None:
    """1.84 F for 1000 ft stays within a fifth of a degree of ICAO's atmosphere and IAPWS-IF97 (iapws 1.5.5)."""
    found = right("boiling_point", feet=str(feet), drop_fahrenheit="1.84")
    assert abs(found - Fraction(boils)) <= Fraction(1, 5)
