"""Knife care and first aid against what publishers say: cooling a burn, pressing a cut, the angle of an edge, the law.

None of these publishers agrees with all the others; the house's own lines must lie inside what one of them says.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.content.measured import lines_of
from trainer.kitchen.technique import Content, Limit
from trainer.recipe_math.parsing import parse_quantity

PUBLISHED = [
    # line, lowest, highest, where it was read
    ("burn_water", "20 min", None, "ANZCOR Guideline 9.1.3, First Aid for Burns, summary of recommendations"),
    ("burn_water_hospital", "10 min", "30 min", "North Bristol NHS Trust, First aid for burns, undated"),
    ("burn_water_doctors", "15 min", "20 min", "Broward Health library, quoting the AAFP, undated"),
    ("burn_water_fire_house", "3 min", "5 min", "City of Monroe, North Carolina, Fire Department, undated"),
    ("press_time", "10 min", None, "WebMD, Bleeding cuts or wounds, 2022-08-23"),
    ("press_elsewhere", "20 min", None, "irishhealth.com, Cuts and bleeding, undated"),
    ("severe_report", None, "24 h", "29 CFR 1904.39(a)(2)"),
]


@pytest.fixture(scope="module")
def lines(content: Content) -> dict[str, Limit]:
    """Return the measured lines of the technique by id."""
    return lines_of(content.techniques["knife_care"])


@pytest.mark.parametrize(("line", "lowest", "highest", "where"), PUBLISHED)
def test_a_line_is_what_its_publisher_says(
    lines: dict[str, Limit], line: str, lowest: str | None, highest: str | None, where: str
) -> None:
    """Each figure of first aid and law is the one read at the place named."""
    read = (lowest and parse_quantity(lowest), highest and parse_quantity(highest))
    assert (lines[line].lowest, lines[line].highest) == read, where


def test_the_house_cools_a_burn_as_long_as_hospital_and_doctors(lines: dict[str, Limit]) -> None:
    """Twenty minutes lies inside 10 to 30 (a hospital) and 15 to 20 (family doctors)."""
    house = lines["burn_water"].lowest
    assert house == parse_quantity("20 min")
    assert house is not None
    assert lines["burn_water_hospital"].admits(house)
    assert lines["burn_water_doctors"].admits(house)


@pytest.mark.parametrize(
    ("line", "sine"),
    [
        # A five-place table of natural sines: sin 20° = 0.34202, sin 15° = 0.25882 (from memory)
        ("back_share", Fraction("0.34202")),
        ("thin_share", Fraction("0.25882")),
    ],
)
def test_the_back_lifts_by_the_sine_of_the_angle(lines: dict[str, Limit], line: str, sine: Fraction) -> None:
    """A knife maker's page, undated: 20 degrees a side for western knives, 15 for Japanese ones."""
    target = lines[line].target
    assert target is not None
    assert abs(target.base - sine) < Fraction(1, 1000)


def test_a_cut_is_covered_twice_and_the_age_bar_is_there(content: Content) -> None:
    """FDA Food Code § 2-201.11(A)(1)(e): bandage and glove. 29 CFR 570.61: nobody under 18 at slicer or grinder."""
    technique = content.techniques["knife_care"]
    cover = next(step for step in technique.steps if step.id == "cut_cover")
    assert cover.text.index("bandage") < cover.text.index("glove")
    barred = [hazard for hazard in technique.hazards if hazard.form == "barred"]
    assert [hazard.mark for hazard in barred] == ["hands_in_machine"]
    assert "cfr_29_570_61" in technique.sources
