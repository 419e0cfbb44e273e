"""The typed checklists of eggs, pasta water and pork: the code is law, the dish a result, and somebody tastes."""

from __future__ import annotations

import pytest

from tests.content.conftest import CONTENT
from trainer.content.files import load_content
from trainer.kitchen.practical import PointSeen, judge_point
from trainer.kitchen.technique import Content, Point, Technique
from trainer.recipe_math.quantity import Quantity

TYPED = (
    "egg_tempering", "yolk_pan_sauce", "yolk_pasta_pickup", "pastry_custard", "pasta_water", "rendered_pork_base",
)  # fmt: skip
LONGEST = 14
LAW = {
    # technique: points that a health inspector would ask for; FDA Food Code 2022
    "egg_tempering": (
        "right_limit", "base_hot",  # § 3-401.11(A)(2): pooled eggs, 155 °F for 17 s
        "egg_cold",  # § 3-501.16(A)(2)
        "hands_after_egg",  # § 2-301.12(A)
        "at_risk",  # § 3-801.11(C)
        "names_allergens",  # § 3-602.12
    ),
    "yolk_pan_sauce": (
        "which_yolk", "sauce_hot",  # § 3-401.11(A)(1): one order, 145 °F for 15 s
        "carton_cold", "hands_after_egg", "at_risk", "names_allergens",
        "not_held",  # § 3-401.11(A)(1)(a): served at once
    ),
    "yolk_pasta_pickup": ("yolk_right", "sauce_limit", "hands_after_egg", "at_risk", "says_it", "not_held"),
    "pastry_custard": (
        "right_eggs", "cream_hot", "pour_in_band", "yolk_cold", "at_risk",
        "first_stage", "both_stages",  # § 3-501.14(A)
        "label_full",  # § 3-501.17
        "label_allergens",
    ),
    "pasta_water": ("own_pot", "says_scald", "names_allergens"),
    "rendered_pork_base": (
        "cooked",  # § 3-401.11(A)(2): meat with brine pumped in
        "cooled", "cooled_through", "fire_known", "flame_out", "names_allergens",
    ),
}  # fmt: skip


def points_of(technique: Technique) -> dict[str, Point]:
    """Return the points by id."""
    return {point.id: point for point in technique.checklist}


@pytest.mark.parametrize("name", TYPED)
def test_what_the_code_asks_is_never_made_up_for(content: Content, name: str) -> None:
    """Each of these is law; every point has a type, and one or more is a result."""
    points = points_of(content.techniques[name])
    assert {id: points[id].type for id in LAW[name]} == dict.fromkeys(LAW[name], "law")
    assert "result" in {point.type for point in points.values()}
    assert all(point.type for point in points.values())


@pytest.mark.parametrize("name", TYPED)
def test_somebody_tastes_and_somebody_looks_at_a_clock(content: Content, name: str) -> None:
    """Common practice: food that nobody tasted is not finished, and a cook who is never done is no help on the line."""
    points = content.techniques[name].checklist
    assert any(point.judged == "tasted" for point in points)
    assert points[-1].id == "finish"


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", TYPED)
def test_a_point_is_one_act_in_few_words(name: str, language: str) -> None:
    """Fourteen words or fewer: an assessor reads it while watching."""
    content, _ = load_content(CONTENT, language)
    assert content is not None
    long = [point.text for point in content.techniques[name].checklist if len(point.text.split()) > LONGEST]
    assert long == []


def test_eggs_for_one_order_and_pooled_eggs_never_share_a_line(content: Content) -> None:
    """§ 3-401.11(A)(1) and (2): 145 °F for 15 s does for a plate that leaves at once, and not for a bowl of yolks."""
    base = points_of(content.techniques["egg_tempering"])["base_hot"]
    sauce = points_of(content.techniques["yolk_pan_sauce"])["sauce_hot"]
    for heat, verdicts in (("155 F", ["meets it", "meets it"]), ("150 F", ["not yet", "meets it"])):
        found = [judge_point(point, [heat, "17 s"], None) for point in (base, sauce)]
        assert [each.seen for each in found if isinstance(each, PointSeen)] == verdicts


def test_a_pouring_custard_in_its_band_has_met_the_code_in_no_time(content: Content) -> None:
    """§ 3-401.11(A)(2), its table: 158 °F takes less than a second, so the band needs no seconds of its own."""
    band = points_of(content.techniques["pastry_custard"])["pour_in_band"]
    assert band.limit is not None
    assert not band.limit.admits(Quantity.of(158, "°F"))
    assert band.law is not None
    assert band.law.id == "egg_pooled"
