"""What a cook is asked about danger and guests comes before the work it is about: common practice in kitchens."""

from __future__ import annotations

import pytest

from trainer.kitchen.technique import Content

BEFORE = {
    "blanching": {"allergens": "salt_weighed", "says_beans": "boil_back"},
    "dish_machine": {"says_plate": "wash_hot", "says_fails": "surface_hot", "says_hurt": "tank_clean"},
    "extruder_safety": {"says_caught": "stops_alone", "says_no_pull": "stops_alone"},
    "fish": {"allergens": "bars_hot", "says_below": "heat_fish", "warm_tuna": "cold_fish"},
    "fryer": {"fire_said": "oil_right", "allergens": "oil_right", "own_oil": "oil_right"},
    "grill_doneness": {"grease_fire": "hot_side", "intact": "steak_law", "never_who": "patties"},
    "knife_care": {"knows_machines": "bites"},
    "knife_cuts": {"allergens": "clean_between"},
    "pan_sauce": {"fire_said": "flame_is_off"},
    "pasta_water": {"own_pot": "salt_weighed", "says_scald": "full_boil"},
    "rendered_pork_base": {"fire_known": "fat_low"},
    "rice": {"says_missed": "first_gate"},
    "safe_holding": {"whom": "hot_food", "sealed_pack": "reheated"},
    "sanitizer": {"label_first": "dose_poured", "says_hurt": "dose_poured", "says_gas": "dose_poured"},
    "searing": {"fire_said": "pan_hot", "allergens": "pan_hot"},
    "seasoning": {"allergens": "coats", "says_egg": "coats", "says_garlic": "held_cold"},
    "station_opening": {"gas_smell": "flame_first", "quat": "sanitizer_right"},
}
"""Of each technique what is said, and the act it is said before."""


@pytest.mark.parametrize("technique", BEFORE)
def test_what_is_asked_stands_before_the_act(content: Content, technique: str) -> None:
    """Nobody is asked beside the burning pan what they would do if it burned."""
    ids = [point.id for point in content.techniques[technique].checklist]
    late = {said: act for said, act in BEFORE[technique].items() if ids.index(said) > ids.index(act)}
    assert late == {}
