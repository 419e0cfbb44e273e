"""Right and wrong formulas against values from outside the project.

WRONG_VALUES: a table of wrong methods in kitchen arithmetic, each formula worked out on one example with another
program (Python floats, six figures kept). The kind of error is from the literature named there: Brown & Burton 1978
(stable wrong procedures), Lesh, Post & Behr 1988 (additive errors), Ahl, Moore & Dixon 1992 (temperatures added),
Wennberg-Capellades 2022 (units); otherwise common sense of culinary teaching.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

import pytest

from tests.kitchen.quiz.asking import question_from
from trainer.kitchen.quiz.families import NUMERIC


class Example(NamedTuple):
    """A family on one example: the numbers drawn, the right value, and the values of wrong methods by name."""

    family: str
    numbers: Mapping[str, str]
    right: str
    wrong: Mapping[str, str]
    per: int = 1


WRONG_VALUES = (
    Example(
        "scale_by_yield",
        {"amount_pounds": "1.25", "old_portions": "100", "new_portions": "348"},
        "4.35",
        {
            "factor_upside_down": "0.359195",
            "difference_added": "249.25",
            "increase_only": "3.1",
            "factor_rounded_to_whole": "3.75",
            "times_new_portions": "435",
            "factor_rounded_to_one_place": "4.375",
        },
    ),
    Example(
        "scale_by_portion",
        {"amount_pounds": "2", "old_portions": "100", "old_ounces": "4", "new_portions": "348", "new_ounces": "3"},
        "5.22",
        {
            "portion_size_ignored": "6.96",
            "portion_count_ignored": "1.5",
            "size_upside_down": "9.28",
            "ratios_added": "8.46",
            "factor_upside_down": "0.766284",
        },
    ),
    Example(
        "mixed_units",
        {"pounds": "2", "ounces": "10", "trays": "3"},
        "126",
        {
            "ounces_as_tenths": "144",
            "ounces_as_hundredths": "100.8",
            "only_pounds_multiplied": "106",
            "twelve_ounces_to_a_pound": "102",
            "ten_ounces_to_a_pound": "90",
            "only_ounces_multiplied": "62",
        },
    ),
    Example(
        "temperature_conversion",
        {"fahrenheit": "350"},
        "176.667",
        {
            "thirty_two_forgotten": "194.444",
            "thirty_two_taken_off_last": "162.444",
            "nine_over_five": "572.4",
            "rule_of_thumb": "160",
            "only_thirty_two": "318",
        },
    ),
    Example(
        "temperature_to_fahrenheit",
        {"celsius": "63"},
        "145.4",
        {
            "thirty_two_forgotten": "113.4",
            "thirty_two_added_first": "171",
            "five_over_nine": "67",
            "rule_of_thumb": "156",
            "only_thirty_two": "95",
            "thirty_two_taken_off": "81.4",
        },
    ),
    Example(
        "temperature_difference",
        {"start_fahrenheit": "50", "rise_fahrenheit": "40"},
        "22.2222",
        {
            "thirty_two_taken_off": "4.44444",
            "nine_over_five": "72",
            "halved": "20",
            "left_in_fahrenheit": "40",
            "thirty_two_added": "54.2222",
        },
    ),
    Example(
        "amount_to_buy",
        {"edible_kilograms": "14.45", "edible_percent": "88.5"},
        "16.3277",
        {
            "multiplied_by_edible_share": "12.7882",
            "loss_added_on": "16.1118",
            "divided_by_loss": "125.652",
            "loss_forgotten": "14.45",
            "share_taken_off": "13.565",
            "loss_only": "1.66175",
        },
    ),
    Example(  # 16,335 g at 88.5 % in portions of 170 g, the weights put in as sixteenths and ounces
        "portions_from_batch",
        {"batch_pounds": "16335/16", "loss_percent": "11.5", "portion_ounces": "170"},
        "85",
        {"rounded_up": "86", "loss_forgotten": "96", "divided_by_share_left": "108"},
    ),
    Example(  # 27.6 cans in cases of 6
        "packs_to_buy",
        {"cans_per_hundred": "6", "guests": "460", "cans_per_case": "6"},
        "5",
        {
            "rounded_down": "4",
            "not_rounded": "4.6",
            "multiplied_by_pack": "165.6",
            "cans_not_cases": "28",
            "one_spare": "6",
        },
    ),
    Example(
        "bakers_percent",
        {"main_flour_grams": "800", "second_flour_grams": "200", "water_percent": "65", "salt_grams": "22"},
        "65",
        {
            "percent_of_the_dough": "38.8756",
            "flour_over_water": "153.846",
            "one_flour_only": "81.25",
            "percent_of_the_rest": "63.6008",
            "flour_share_of_dough": "59.8086",
        },
    ),
    Example(  # the sum of percentages is 206, of which water 70
        "flour_from_dough",
        {"dough_grams": "3000", "water_percent": "70", "salt_percent": "2", "yeast_percent": "34"},
        "1456.31",
        {
            "salt_and_yeast_forgotten": "1764.71",
            "multiplied_by_the_sum": "6180",
            "water_taken_off_the_dough": "900",
            "flour_left_out_of_the_sum": "2830.19",
            "one_percent_only": "14.5631",
        },
    ),
    Example(
        "hydration_with_eggs",
        {"flour_grams": "1000", "egg_grams": "450", "water_grams": "50", "egg_water_percent": "76"},
        "39.2",
        {
            "egg_water_ignored": "5",
            "egg_taken_as_water": "50",
            "percent_of_the_dough": "26.1333",
            "dry_part_of_egg_used": "15.8",
            "egg_water_only": "34.2",
        },
    ),
    Example(
        "tempering_ladles",  # by hand: yolk takes 200 × 0.75 × 43 = 6450; a ladle of water gives 60 × 1 × 32 = 1920
        {
            "ladle_grams": "60",
            "hot_celsius": "95",
            "cold_grams": "200",
            "cold_celsius": "20",
            "hot_food": "1",
            "cold_food": "1",
        },
        "3",
        {"rounded_up": "4", "grams_alike": "4", "up_to_set": "5", "gaps_swapped": "1", "egg_from_zero": "4"},
    ),
    Example(
        "tempering_mix",  # water into yolk, which holds 0.75 of the heat of water: 60 and 90 parts
        {
            "hot_grams": "60",
            "hot_celsius": "95",
            "cold_grams": "120",
            "cold_celsius": "5",
            "hot_food": "1",
            "cold_food": "1",
        },
        "41",
        {
            "grams_alike": "35",
            "plain_middle": "50",
            "temperatures_added": "100",
            "weights_swapped": "59",
            "not_divided": "6150",
            "cold_part_at_zero": "38",
        },
    ),
    Example(
        "scale_by_ingredient",
        {"called_pounds": "100", "stock_pounds": "348", "amount_pounds": "1.25"},
        "4.35",
        {
            "factor_upside_down": "0.359195",
            "difference_added": "249.25",
            "increase_only": "3.1",
            "factor_rounded_to_whole": "3.75",
            "times_what_there_is": "435",
        },
    ),
    Example(
        "yield_percent",
        {"bought_pounds": "1.5", "trim_ounces": "9"},
        "62.5",
        {
            "trim_percent": "37.5",
            "upside_down": "160",
            "trim_over_usable": "60",
            "ounces_as_tenths": "40",
            "usable_over_trim": "166.667",
        },
    ),
    Example(
        "two_step_yield",
        {"ready_kilograms": "5", "trimmed_percent": "80", "cooked_percent": "75"},
        "8.33333",
        {
            "shares_averaged": "6.45161",
            "losses_added": "9.09091",
            "trimming_only": "6.25",
            "cooking_only": "6.66667",
            "multiplied_by_shares": "3",
            "shares_summed": "3.22581",
        },
    ),
    Example(
        "edible_cost",
        {"price_dollars": "11.95", "usable_percent": "88.5"},
        "13.5028",
        {
            "multiplied_by_edible_share": "10.5757",
            "loss_added_on": "13.3242",
            "divided_by_loss": "103.913",
            "loss_only": "1.37425",
            "loss_forgotten": "11.95",
        },
    ),
    Example(
        "butcher_card",
        {"bought_pounds": "12", "price_dollars": "6.65", "trim_dollars": "13", "usable_pounds": "6"},
        "11.1333",
        {
            "trim_value_forgotten": "13.3",
            "divided_by_bought_weight": "5.56667",
            "trim_value_added": "15.4667",
            "price_as_purchased": "6.65",
            "trim_value_off_each_pound": "0.3",
        },
    ),
    Example(  # the table's fifth divides by 30, this one by the percentage as it is, 30.5
        "menu_price",
        {"cost_dollars": "7.07", "cost_percent": "30.5"},
        "23.1803",
        {
            "percent_added_on": "9.22635",
            "multiplied_by_percent": "2.15635",
            "divided_by_the_rest": "10.1727",
            "rest_added_on": "11.9837",
        },
    ),
    Example(
        "food_cost_percent",
        {"opening_dollars": "8200", "bought_dollars": "21400", "closing_dollars": "7600", "sales_dollars": "68000"},
        "32.3529",
        {
            "closing_added": "54.7059",
            "stocks_swapped": "30.5882",
            "bought_only": "31.4706",
            "sales_over_used": "3.09091",
            "over_the_margin": "47.8261",
        },
    ),
    Example(
        "salt_brine",
        {"water_litres": "10", "salt_percent": "3"},
        "309.278",
        {
            "percent_of_the_water": "300",
            "divided_by_percent": "333333",
            "hundred_taken_twice": "3",
            "water_share_given": "9700",
            "share_added_to_one": "291.262",
        },
    ),
    Example(
        "thickness_time",
        {"old_minutes": "40", "old_millimetres": "25", "new_millimetres": "50"},
        "160",
        {"in_proportion": "80", "unchanged": "40", "difference_added": "65", "cubed": "320", "upside_down": "10"},
    ),
    Example(
        "cooling_time",
        {
            "hot_fahrenheit": "165",
            "air_fahrenheit": "35",
            "first_minutes": "10",
            "first_fahrenheit": "150",
            "last_fahrenheit": "70",
        },
        "107.028",
        {
            "straight_line": "63.3333",
            "air_ignored": "89.9642",
            "counted_from_first_reading": "97.0279",
            "gaps_divided": "37.1429",
            "shares_divided": "32.8571",
        },
    ),
    Example(  # D of 17.23 min at 130, at 150, z 10; the table has minutes and six figures of 0.1723
        "d_at_other_temperature",
        {"d_minutes": "17.23", "at_celsius": "130", "z_celsius": "10", "steps": "2"},
        "10.338",
        {
            "sign_turned_around": "103380",
            "straight_line": "516.9",
            "in_proportion": "895.96",
            "natural_base": "139.91",
            "z_in_other_degrees": "80.0433",
            "left_in_minutes": "0.1723",
        },
    ),
    Example(  # the table melts with 334 / 4.186 = 79.79; with 80 it is 3560 / 268, by hand
        "ice_in_stock",
        {"stock_kilograms": "250", "stock_celsius": "20", "ice_kilograms": "18"},
        "13.2836",
        {"melting_forgotten": "18.6567", "plain_middle": "10"},
    ),
    Example(  # 2 1/2 cups; the table goes on to a weight by a density of 1.42, taken off again here
        "unit_conversion",
        {"amount": "5/2", "measure": "1", "batches": "1"},
        "591.471",
        {
            "weight_ounce_for_fluid_ounce": "566.99",
            "label_measure": "600",
            "metric_round_number": "625",
            "imperial_measure": "710.324",
        },
    ),
)

CASES = [
    pytest.param(example, name, value, id=f"{example.family}-{name}")
    for example in WRONG_VALUES
    for name, value in {"": example.right, **example.wrong}.items()
]


def _close(value: Fraction, published: str) -> bool:
    """Return whether a value agrees with six printed figures."""
    return abs(value - Fraction(published)) <= abs(Fraction(published)) / 100_000


@pytest.mark.parametrize(("example", "name", "value"), CASES)
def test_formulas_give_the_values_of_the_table(example: Example, name: str, value: str) -> None:
    """Each formula, right or wrong, gives on the table's example the value the table gives."""
    family = NUMERIC[example.family]
    numbers = {key: Fraction(text) for key, text in example.numbers.items()}
    formula = family.wrong.get(name, family.right)
    found = formula(numbers)
    assert found is not None
    assert _close(found, value)


def test_the_armed_forces_card_by_yield() -> None:
    """1.25 lb for 100 portions is 4.35 lb for 348 (Armed Forces Recipe Service, A. General Information No. 1)."""
    numbers = {"amount_pounds": "1.25", "old_portions": "100", "new_portions": "348"}
    question = question_from("scale_by_yield", {key: Fraction(text) for key, text in numbers.items()})
    assert question is not None
    assert question.answer.value == Fraction("4.35")


def test_the_armed_forces_card_by_portion() -> None:
    """100 portions made 348, each three quarters the size: factor 2.61 (the same card)."""
    numbers = {"amount_pounds": 1, "old_portions": 100, "old_ounces": 4, "new_portions": 348, "new_ounces": 3}
    right = NUMERIC["scale_by_portion"].right({key: Fraction(value) for key, value in numbers.items()})
    assert right == Fraction("2.61")


def test_the_food_buying_guide_rounds_up() -> None:
    """3.0 cans x 4.6 x 2 = 27.6 cans: buy 28 (USDA Food Buying Guide training slides, corn)."""
    numbers = {"cans_per_hundred": Fraction(6), "guests": Fraction(460), "cans_per_case": Fraction(1)}
    assert NUMERIC["packs_to_buy"].right(numbers) == 28


def test_the_prealgebra_book_multiplies_pounds_and_ounces() -> None:
    """3 x 1 lb 8 oz = 4 lb 8 oz, which is 72 oz (OpenStax Prealgebra 2e, section 7.5)."""
    numbers = {"pounds": Fraction(1), "ounces": Fraction(8), "trays": Fraction(3)}
    assert NUMERIC["mixed_units"].right(numbers) == 4 * 16 + 8


@pytest.mark.parametrize(("fahrenheit", "celsius"), [("392", "200"), ("68", "20"), ("37.4", "3"), ("212", "100")])
def test_published_temperatures(fahrenheit: str, celsius: str) -> None:
    """392 F = 200 C, 68 F = 20 C, 37.4 F = 3 C (OpenStax Contemporary Mathematics 9.5); 212 F (NIST SP 811)."""
    assert NUMERIC["temperature_conversion"].right({"fahrenheit": Fraction(fahrenheit)}) == Fraction(celsius)
    assert NUMERIC["temperature_to_fahrenheit"].right({"celsius": Fraction(celsius)}) == Fraction(fahrenheit)


def test_coffee_and_milk() -> None:
    """Five parts at 70 C and one at 1 C come to 58.5 C, heats alike (OpenStax Calculus Volume 2, section 4.3)."""
    numbers = {"hot_grams": 5, "hot_celsius": 70, "cold_grams": 1, "cold_celsius": 1, "hot_food": 1, "cold_food": 1}
    alike = NUMERIC["tempering_mix"].wrong["grams_alike"]
    assert alike({key: Fraction(value) for key, value in numbers.items()}) == Fraction("58.5")


@pytest.mark.parametrize(("dough", "percents", "flour"), [("908", "72", "528"), ("3000", "106", "1456")])
def test_flour_of_a_baking_note(dough: str, percents: str, flour: str) -> None:
    """908 g of dough at 172 % takes 528 g of flour; 3000 g at 206 % takes 1456 g (a baking note, 100/70/2)."""
    numbers = {"dough_grams": Fraction(dough), "water_percent": Fraction(70), "salt_percent": Fraction(2)}
    rest = Fraction(percents) - 72
    right = NUMERIC["flour_from_dough"].right({**numbers, "yeast_percent": rest})
    assert abs(right - Fraction(flour)) <= Fraction(1, 2)


def test_water_over_flour_of_the_bakers_slides() -> None:
    """23 lb of water on 40 lb of flour is 57.5 % (slide set 'Baker's Math: working a dough formula in percent')."""
    numbers = {"main_flour_grams": Fraction(30), "second_flour_grams": Fraction(10), "salt_grams": Fraction(1)}
    water = {"water_percent": Fraction(100 * 23, 40)}
    assert NUMERIC["bakers_percent"].right({**numbers, **water}) == Fraction("57.5")


HOUR = 60


@pytest.mark.parametrize(
    ("first", "since", "left"),
    [
        pytest.param(120, 30, 210, id="two hours sharp still hold"),
        pytest.param(130, 30, 0, id="two hours ten break the first limit"),
        pytest.param(121, 100, 0, id="one minute over breaks it though six hours are not up"),
        pytest.param(60, 240, 60, id="time saved in the first stage may be used in the second"),
    ],
)
def test_cooling_is_two_limits(first: int, since: int, left: int) -> None:
    """135 to 70 F within 2 h and to 41 F within 6 h in all, ends inclusive (FDA Food Code 2022, 3-501.14(A))."""
    numbers = {"starts_at": 600, "first_stage_minutes": first, "minutes_since": since, "first_hours": 2, "all_hours": 6}
    right = NUMERIC["cooling_stage"].right({key: Fraction(value) for key, value in numbers.items()})
    assert right == left


def test_the_day_of_making_is_day_one() -> None:
    """Seven days, the day of preparation being day 1: the last day is six days on (FDA Food Code 2022, 3-501.17)."""
    for later, left in ((0, 7), (1, 6), (6, 1)):
        numbers = {"days_allowed": Fraction(7), "days_later": Fraction(later)}
        assert NUMERIC["date_mark"].right(numbers) == left


def test_four_hours_by_time_alone() -> None:
    """Food held by time alone is out 4 hours after it left control (FDA Food Code 2022, 3-501.19(B))."""
    numbers = {"limit_hours": Fraction(4), "minutes_gone": Fraction(95)}
    assert NUMERIC["discard_time"].right(numbers) == 4 * HOUR - 95


def test_pieces_at_the_ends_are_inside() -> None:
    """Of 90, 94, 100, 106, 107 g against 100 g give or take 6 g, three are inside (counted by hand)."""
    readings = {f"reading_{place}": Fraction(grams) for place, grams in enumerate((90, 94, 100, 106, 107))}
    numbers = {"pieces": Fraction(5), "target_grams": Fraction(100), "give_or_take_grams": Fraction(6), **readings}
    assert NUMERIC["piece_share"].right(numbers) == 3
    given = {name: formula(numbers) for name, formula in NUMERIC["piece_share"].wrong.items()}
    assert given == {
        "ends_left_out": 1,
        "only_heavy_turned_away": 4,
        "only_light_turned_away": 4,
        "counted_outside": 2,
        "half_the_tolerance": 1,
    }
