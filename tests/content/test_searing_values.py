"""Searing against the code and what publishers print, the source beside each."""

from __future__ import annotations

import pytest

from tests.content.measured import line
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity


@pytest.fixture(name="technique")
def _technique(content: Content) -> Technique:
    return content.techniques["searing"]


@pytest.mark.parametrize(
    ("point", "case", "heat", "seconds"),
    [
        # FDA Food Code 2022, § 3-401.11(A)(1): intact meat and fish, 145 °F for 15 s
        ("heat_whole", "whole", "145 F", "15 s"),
        # § 3-401.11(A)(2): mechanically tenderized or injected meat, 155 °F for 17 s
        ("heat_pierced", "pierced", "155 F", "17 s"),
        # § 3-401.11(A)(3): poultry, 165 °F, less than a second
        ("heat_bird", "bird", "165 F", None),
    ],
)
def test_each_kind_of_meat_is_judged_by_its_own_line(
    technique: Technique, point: str, case: str, heat: str, seconds: str | None
) -> None:
    """Heat and seconds of the code, always needed, and asked in its own case alone."""
    found = next(each for each in technique.checklist if each.id == point)
    assert (found.type, found.cases) == ("law", (case,))
    lowest = [each.lowest for each in found.lines]
    assert lowest == [parse_quantity(text) for text in (heat, seconds) if text]


def test_the_rest_is_what_is_advised_and_counts_for_no_limit(technique: Technique) -> None:
    """USDA FSIS, safe minimum temperatures: whole cuts rest 3 minutes; § 3-401.11(A)(1) counts no rise in the rest."""
    assert line(technique, "rest").lowest == parse_quantity("3 min")
    probe = next(step for step in technique.steps if step.id == "probe")
    assert "It stays on the fire" in probe.text


def test_no_smoke_point_is_a_line(technique: Technique) -> None:
    """Published smoke points of one fat differ by tens of degrees (from memory): the oil is judged by eye."""
    assert not [limit.id for limit in technique.standard if "smoke" in limit.id]


def test_nobody_under_sixteen_works_the_open_flame(technique: Technique) -> None:
    """29 CFR 570.33(h), 570.34(c): 14 and 15 do not cook over an open flame."""
    assert technique.steps[0].hazards == ("under_sixteen",)
    assert "cfr_29_570_33" in technique.sources


def test_a_burning_pan_is_covered_and_never_gets_water(technique: Technique) -> None:
    """An insurer's page on grease fires, undated: heat off, lid slid over from the side, no water, pan left there."""
    said = next(point for point in technique.checklist if point.id == "fire_said")
    assert [choice.id for choice in said.choices] == ["gas_off", "lid_on", "leave_it", "no_water"]
    assert said.need == len(said.choices)
