"""Opening and closing a station against the codes it names, and the par it works out against a sum done by hand."""

from __future__ import annotations

import pytest

from tests.content.measured import lines_of
from trainer.kitchen.technique import Content, Limit, LocalCode
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.quantity import Quantity


@pytest.fixture(scope="module")
def lines(content: Content) -> dict[str, Limit]:
    """Return the measured lines of the technique by id."""
    return lines_of(content.techniques["station_opening"])


def test_the_fridge_air_leaves_room_for_a_thermometer_that_is_off(
    lines: dict[str, Limit], food_code: LocalCode
) -> None:
    """FDA Food Code: food at or below 41 °F (§ 3-501.16(A)(2)), air thermometers within 3 °F (§ 4-203.12(B)): 38 °F."""
    highest = lines["fridge_air"].highest
    assert highest == parse_quantity("38 °F")
    assert food_code.limits["cold_holding"].highest == parse_quantity("41 °F")
    assert food_code.limits["air_thermometer_accuracy"].highest == parse_quantity("3 °F difference")


@pytest.mark.parametrize(
    ("line", "lowest", "where"),
    [
        ("contact_california", "1 min", "Cal. Health and Safety Code § 114099.6(b)(3), 200 ppm quaternary ammonium"),
        ("chlorine_california", "100 ppm", "Cal. Health and Safety Code § 114099.6(b)(1)"),
    ],
)
def test_what_california_asks_is_named(lines: dict[str, Limit], line: str, lowest: str, where: str) -> None:
    """A stricter state code stands beside the model code."""
    assert lines[line].lowest == parse_quantity(lowest), where


def test_ice_water_may_be_off_by_what_a_food_thermometer_may(lines: dict[str, Limit]) -> None:
    """USDA FSIS, Kitchen Thermometers: 32 °F; FDA Food Code § 4-203.11(B): within 2 °F."""
    ice = lines["ice_reading"]
    assert (ice.target, ice.lowest, ice.highest) == tuple(parse_quantity(t) for t in ("32 °F", "30 °F", "34 °F"))


def test_par_is_use_and_reserve_less_what_is_there(lines: dict[str, Limit]) -> None:
    """By hand: a fifth of 10 trays is 2, 10 and 2 are 12, and with 5 there 7 are to make."""
    worked = {key: lines[key].target for key in ("reserve_trays", "par", "to_make")}
    assert worked == {key: Quantity.of(n, "tray") for key, n in (("reserve_trays", 2), ("par", 12), ("to_make", 7))}


def test_gas_and_flame_are_cautioned_where_they_are_met(content: Content) -> None:
    """Common practice: who smells gas lights nothing, touches no switch and calls from outside."""
    technique = content.techniques["station_opening"]
    steps = {step.id: step.hazards for step in technique.steps}
    assert "gas" in steps["heat"]
    assert "gas" in steps["heat_off"]
    assert "wet_floor" in steps["clean"]
