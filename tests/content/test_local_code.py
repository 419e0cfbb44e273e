"""The limits of the local code against the published ones.

Source: FDA Food Code 2022, the section beside each value. No copy of the 2022 text itself was at hand: the values were
read in state codes that adopt the text section by section (Wash. Admin. Code 246-215, effective 2022-03-01; 16 Del.
Admin. Code § 3-403.11; Wis. Admin. Code ATCP 75 App. § 3-501.19; quotations by the Florida DBPR), and the 2022 changes
in reviews of that edition. Chapter 4 was read in Wis. Admin. Code DHS 196 App. § 4-501.114 (text current 2024-05-28),
Code of Maine Rules 10-144 ch. 200 § 4-703.11 (current 2024-09-18) and Wash. Admin. Code 246-215-04605; § 2-201.13(A)
in 12VAC5-421-100 (2024-11); § 3-202.11 in S.C. Code of Regulations 61-25, § 3-501.13 in Wash. Admin. Code
246-215-03510, §§ 4-501.110 and 4-501.112 in 246-215-04545 and -04555, § 4-703.11(B) in Minn. R. 4626.0905 B.
Sections 2-201.13(D), 3-305.11(A)(3) and 4-501.19 are from memory.
"""

from __future__ import annotations

import pytest

from trainer.content.limits import limit_text
from trainer.kitchen.technique import Content, Limit, LocalCode
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity

PUBLISHED = [
    # limit, lowest, highest, section
    ("cold_holding", None, "41 °F", "3-501.16(A)(2)"),
    ("hot_holding", "135 °F", None, "3-501.16(A)(1)"),
    ("hot_holding_roasts", "130 °F", None, "3-501.16(A)(1)"),
    ("shell_egg_air", None, "45 °F", "3-501.16(B)"),
    ("shell_egg_air", None, "45 °F", "3-202.11(C)"),
    ("receive_cold", None, "41 °F", "3-202.11(A)"),
    ("receive_hot", "135 °F", None, "3-202.11(D)"),
    ("off_floor", "6 in", None, "3-305.11(A)(3)"),
    ("thaw_water", None, "70 °F", "3-501.13(B)(1)"),
    ("thaw_raw_over_cold", None, "4 h", "3-501.13(B)(4)"),
    ("dish_wash", "150 °F", None, "4-501.110(A)(2)"),
    ("dish_rinse", "180 °F", None, "4-501.112(A)(2)"),
    ("dish_rinse_most", None, "194 °F", "4-501.112(A)"),
    ("dish_surface", "160 °F", None, "4-703.11(B)"),
    ("egg_one_order", "145 °F", None, "3-401.11(A)(1)"),
    ("egg_one_order_time", "15 s", None, "3-401.11(A)(1)"),
    ("fish_and_whole_meat", "145 °F", None, "3-401.11(A)(1)"),
    ("fish_and_whole_meat_time", "15 s", None, "3-401.11(A)(1)"),
    ("egg_pooled", "155 °F", None, "3-401.11(A)(2)"),
    ("egg_pooled_time", "17 s", None, "3-401.11(A)(2)"),
    ("eggs_together_at_risk", None, "1 egg", "3-801.11(C)"),
    ("ground_meat", "155 °F", None, "3-401.11(A)(2)"),
    ("ground_meat_time", "17 s", None, "3-401.11(A)(2)"),
    ("intact_steak_surface", "145 °F", None, "3-401.11(C)"),
    ("injected_meat", "155 °F", None, "3-401.11(A)(2)"),
    ("injected_meat_time", "17 s", None, "3-401.11(A)(2)"),
    ("poultry_and_stuffed_pasta", "165 °F", None, "3-401.11(A)(3)"),
    ("plant_food_for_hot_holding", "135 °F", None, "3-401.13"),
    ("reheat", "165 °F", None, "3-403.11(A)"),
    ("reheat_time", "15 s", None, "3-403.11(A)"),
    ("reheat_within", None, "2 h", "3-403.11(D)"),
    ("reheat_packaged", "135 °F", None, "3-403.11(C)"),
    ("cooling_to_middle_within", None, "2 h", "3-501.14(A)(1)"),
    ("cooling_to_end_within", None, "6 h", "3-501.14(A)(2)"),
    ("cooling_from_room_within", None, "4 h", "3-501.14(B)"),
    ("time_control", None, "4 h", "3-501.19(B)"),
    ("time_control_cold", None, "6 h", "3-501.19(C)"),
    ("time_control_cold_warmest", None, "70 °F", "3-501.19(C)"),
    ("date_marking", None, "7 days", "3-501.17(A)"),
    ("shellstock_tags", "90 days", None, "3-203.12"),
    ("handwash_time", "20 s", None, "2-301.12(A)"),
    ("handwash_rub", "10 s", "15 s", "2-301.12(B)(3)"),
    ("handsink_water", "85 °F", None, "5-202.12"),
    ("symptom_free", "24 h", None, "2-201.13(A)(1)"),
    ("norovirus_symptom_free", "48 h", None, "2-201.13(D)"),
    ("wash_water", "110 °F", None, "4-501.19"),
    ("sanitize_hot_water", "171 °F", None, "4-501.111"),
    ("sanitize_hot_water_time", "30 s", None, "4-703.11(A)"),
    ("sanitizer_chlorine", "50 ppm", None, "4-501.114(A)"),
    ("sanitizer_water_chlorine", "75 °F", None, "4-501.114(A)"),
    ("sanitizer_iodine", "12.5 ppm", "25 ppm", "4-501.114(B)"),
    ("sanitizer_water_iodine", "68 °F", None, "4-501.114(B)"),
    ("thermometer_accuracy", None, "2 °F difference", "4-203.11(B)"),
    ("thermometer_step", None, "2 °F difference", "4-204.112"),
    # Read in City of Sioux Falls inspection item 26; WAC 246-215-04605; WAC 246-215-04710; Wis. DHS 196 App.
    ("air_thermometer_accuracy", None, "3 °F difference", "4-203.12(B)"),
    ("surface_cleaning", None, "4 h", "4-602.11(C)"),
    ("sanitizer_contact", "30 s", None, "4-703.11(C)(3)"),
    ("sanitizer_contact_chlorine", "10 s", None, "4-703.11(C)(1)"),
    ("sanitizer_water_quat", "75 °F", None, "4-501.114(C)(1)"),
]
TURNING_POINTS = [
    ("cooling_start", "135 °F", "3-501.14(A)"),
    ("cooling_middle", "70 °F", "3-501.14(A)(1)"),
    ("cooling_end", "41 °F", "3-501.14(A)(2)"),
    ("date_marking_held_over", "24 h", "3-501.17(A)"),
]
BOTH_WAYS = [
    # The Food Code prints both scales; 5, 7, 21, 54 and 57 °C were read, 63, 68 and 74 °C are from memory.
    ("cold_holding", "at or below 41 °F (5 °C)"),
    ("shell_egg_air", "at or below 45 °F (7 °C)"),
    ("cooling_middle", "70 °F (21 °C)"),
    ("hot_holding_roasts", "at or above 130 °F (54 °C)"),
    ("hot_holding", "at or above 135 °F (57 °C)"),
    ("egg_one_order", "at or above 145 °F (63 °C)"),
    ("egg_pooled", "at or above 155 °F (68 °C)"),
    ("reheat", "at or above 165 °F (74 °C)"),
    ("thermometer_accuracy", "within 2 °F (1 °C)"),
    ("cooling_to_middle_within", "at most 2 hours"),
    ("date_marking", "at most 7 days"),
    ("egg_pooled_time", "at least 17 seconds"),
]


def plain(quantity: Quantity | None) -> str | None:
    """Return a quantity as text, None where there is none."""
    return None if quantity is None else str(quantity)


@pytest.mark.parametrize(("key", "lowest", "highest", "section"), PUBLISHED)
def test_a_limit_is_the_published_one(
    food_code: LocalCode, key: str, lowest: str | None, highest: str | None, section: str
) -> None:
    """Each limit has the value and the section of the Food Code."""
    limit = food_code.limits[key]
    assert (plain(limit.lowest), plain(limit.highest)) == (lowest, highest)
    assert section in limit.place


@pytest.mark.parametrize(("key", "target", "section"), TURNING_POINTS)
def test_a_named_value_is_the_published_one(food_code: LocalCode, key: str, target: str, section: str) -> None:
    """A value a limit starts from or runs to is no limit by itself: 3-501.14 and 3-501.17."""
    limit = food_code.limits[key]
    assert (plain(limit.target), limit.lowest, limit.highest) == (target, None, None)
    assert section in limit.place


def test_every_limit_is_compared_here(food_code: LocalCode) -> None:
    """No limit ships unchecked; the two left out say so themselves: one recalled, one from FSIS."""
    compared = {row[0] for row in PUBLISHED} | {row[0] for row in TURNING_POINTS}
    assert food_code.limits.keys() - compared == {"time_control_cut_produce_start", "ice_point"}


def test_a_value_from_memory_says_so(content: Content, food_code: LocalCode) -> None:
    """3-501.19(B)(2): that the exception exists was read in FDA's summary of changes, its wording was not."""
    source = food_code.limits["time_control_cut_produce_start"].source
    assert content.sources[source].known == "from memory"


def test_ice_water_reads_freezing(food_code: LocalCode) -> None:
    """Ice-point check: 32 °F (USDA FSIS, Kitchen Thermometers); 0 °C by definition."""
    assert limit_text(food_code.limits["ice_point"]) == "32 °F (0 °C)"


@pytest.mark.parametrize(("key", "said"), BOTH_WAYS)
def test_a_limit_is_said_in_both_scales(food_code: LocalCode, key: str, said: str) -> None:
    """Printed Celsius figures are those the Food Code prints beside its Fahrenheit ones."""
    assert limit_text(food_code.limits[key]) == said


def admitted(limit: Limit, text: str) -> bool:
    """Return whether a limit lets a reading in."""
    return limit.admits(parse_quantity(text))


def test_cooling_is_two_conditions(food_code: LocalCode) -> None:
    """3-501.14(A): 135 to 70 °F in 2 h and 135 to 41 °F in 6 h; reaching 41 °F in 5 h does not excuse 2 h 10 min."""
    first, whole = food_code.limits["cooling_to_middle_within"], food_code.limits["cooling_to_end_within"]
    assert (admitted(first, "2 h"), admitted(whole, "6 h")) == (True, True)
    assert (admitted(first, "2 h 10 min"), admitted(whole, "5 h")) == (False, True)
    assert (admitted(first, "1 h 50 min"), admitted(whole, "6 h 1 min")) == (True, False)


def test_both_ends_of_a_limit_count_as_inside(food_code: LocalCode) -> None:
    """3-501.16: 41 °F *or less*, 135 °F *or above*."""
    cold, hot = food_code.limits["cold_holding"], food_code.limits["hot_holding"]
    assert [admitted(cold, text) for text in ("41 °F", "5 °C", "41.1 °F")] == [True, True, False]
    assert [admitted(hot, text) for text in ("135 °F", "134.9 °F")] == [True, False]


def test_a_lone_egg_and_pooled_eggs_have_their_own_lines(food_code: LocalCode) -> None:
    """3-401.11(A)(1) is for one order served at once; pooled or held eggs follow (A)(2), hotter and longer."""
    one, pooled = food_code.limits["egg_one_order"], food_code.limits["egg_pooled"]
    assert admitted(one, "150 °F")
    assert not admitted(pooled, "150 °F")


def test_the_house_is_never_laxer_than_the_code(content: Content, food_code: LocalCode) -> None:
    """Every line the house changes lets in nothing the code keeps out."""
    changed = {key for key, limit in content.code.limits.items() if limit != food_code.limits[key]}
    assert changed == {"hot_holding", "shell_egg_air"}
    hot, air = content.code.limits["hot_holding"], content.code.limits["shell_egg_air"]
    assert (admitted(hot, "139 °F"), admitted(hot, "140 °F")) == (False, True)
    assert (admitted(air, "42 °F"), admitted(air, "41 °F")) == (False, True)


def test_each_change_of_the_house_is_said_with_the_law_beside_it(content: Content) -> None:
    """A cook sees the house's line, the line of law and the reason."""
    assert len(content.code.overrides) == 2
    assert "140 °F" in content.code.overrides[0]
    assert "135 °F" in content.code.overrides[0]
    assert "3-501.16(A)(1)" in content.code.overrides[0]
