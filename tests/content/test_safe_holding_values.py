"""Other published figures that safe holding names beside its own, against where they were read."""

from __future__ import annotations

import pytest

from trainer.kitchen.technique import Content
from trainer.recipe_math.parsing import parse_quantity

PUBLISHED = [
    # line, lowest, target, highest
    ("hot_elsewhere", "140 °F", None, None),  # New York City Health Code § 81.10, Table 1 (undated copy)
    ("cooling_start_elsewhere", None, "140 °F", None),  # Code of Maine Rules 01-001 ch. 346 § 3.12 (2024-12-18)
    ("cold_at_home", None, None, "40 °F"),  # USDA FSIS, Shell Eggs from Farm to Table: advice for homes
    ("reheat_elsewhere", None, None, "1 h"),  # Wash. Admin. Code 246-215-09210(4)
    ("pan_depth_elsewhere", None, None, "2 in"),  # Wash. Admin. Code 246-215-03515(1)(a)
    ("probe_depth", "2 in", None, None),  # USDA FSIS, Kitchen Thermometers
    ("probe_wait", "30 s", None, None),
]


@pytest.mark.parametrize(("key", "lowest", "target", "highest"), PUBLISHED)
def test_a_figure_is_the_one_published(
    content: Content, key: str, lowest: str | None, target: str | None, highest: str | None
) -> None:
    """Where published figures disagree, each stands with its own source, and the code's own line decides."""
    line = next(each for each in content.techniques["safe_holding"].standard if each.id == key)
    read = [None if end is None else parse_quantity(end, decimal_mark=".") for end in (lowest, target, highest)]
    assert [line.lowest, line.target, line.highest] == read


def test_ice_and_water_read_freezing_within_the_accuracy_of_a_probe(content: Content) -> None:
    """32 °F by the ice point; a food thermometer is true within 2 °F, FDA Food Code § 4-203.11(B)."""
    line = next(each for each in content.techniques["safe_holding"].standard if each.id == "ice_reading")
    assert (str(line.lowest), str(line.target), str(line.highest)) == ("30 °F", "32 °F", "34 °F")


def test_a_sign_of_egg_stands_only_where_egg_is_meant(content: Content) -> None:
    """ISO 7010 (2019): a sign shows the danger itself. What may not be tasted or held again is germs, of any food."""
    marks = {hazard.id: hazard.mark for hazard in content.techniques["safe_holding"].hazards}
    assert (marks["no_second_chance"], marks["no_taste"]) == ("germs", "germs")
    assert "raw_egg" not in marks.values()
