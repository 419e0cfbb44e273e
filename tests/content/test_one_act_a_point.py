"""One tick is one act of law: what used to be seen by one tick has a point for each act, and each is critical."""

from __future__ import annotations

import pytest
import yaml

from tests.content.conftest import CONTENT
from trainer.kitchen.technique import Content

SPLIT = {
    # technique: the acts that one tick used to hide; law or first aid beside each
    "knife_care": (
        "cut_drill", "cut_presses", "cut_says_call",  # common practice of first aid
        "cut_covers",  # FDA Food Code 2022, § 2-401.13: bandage and single-use glove
        "cut_food_out",  # § 3-701.11: food that body fluid touched is thrown out
        "cut_bench",  # §§ 4-602.11, 4-702.11: cleaned and sanitized
    ),
    "extruder_safety": ("on_list", "dressed", "says_caught", "says_no_pull"),  # 29 CFR 570.62; common practice
    "allergens": (
        "says_back", "leaves_answer",  # § 2-103.11: the person in charge
        "bench_and_tools",  # §§ 4-602.11, 4-702.11
        "new_gloves",  # § 3-304.15(A): single-use gloves, one task
        "own_tools", "alone_and_marked", "said_at_table", "drill_call", "drill_position", "drill_stays",
        "ask_which", "injector",  # 21 U.S.C. 321(qq); AHA and Red Cross 2024, point 6
    ),
    "pasta_nesting": ("label_full", "label_allergens"),  # §§ 3-501.17, 3-602.11
    "cold_side_basics": ("label_full", "label_allergens"),
    "pastry_custard": ("label_full", "label_allergens"),
    "blanching": ("label_full", "straight_cold"),  # §§ 3-501.17, 3-501.16(A)(2)
}  # fmt: skip
LONGEST, MOST = 24, 16


@pytest.mark.parametrize("technique", sorted(SPLIT))
def test_each_act_has_a_critical_point_of_its_own(content: Content, technique: str) -> None:
    """Missed alone, each of them means not yet."""
    points = {point.id: point for point in content.techniques[technique].checklist}
    assert [name for name in SPLIT[technique] if name not in points or not points[name].critical] == []


@pytest.mark.parametrize("technique", sorted(SPLIT))
def test_a_point_of_one_act_is_said_in_few_words_and_the_list_stays_short(content: Content, technique: str) -> None:
    """An assessor reads it while watching; a list of more than sixteen points is no longer watched."""
    points = content.techniques[technique].checklist
    structure = yaml.safe_load((CONTENT / "techniques" / technique / "technique.yaml").read_text("utf-8"))
    parts = [part["points"] for part in structure.get("parts", ())] or [points]
    assert max(map(len, parts)) <= MOST
    short = [point for point in points if point.id in SPLIT[technique] and point.judged == "ticked"]
    assert [point.id for point in short if len(point.text.split()) > LONGEST] == []


def test_the_hour_of_washing_is_counted(content: Content) -> None:
    """Washes that were due are counted beside washes done: without the first count nobody can say "each time"."""
    point = next(point for point in content.techniques["clean_hands"].checklist if point.id == "washes_unasked")
    assert "count each wash due and each done: equal" in point.text


def test_what_is_found_in_the_packets_has_a_key(content: Content) -> None:
    """There is a key, and each of the three labels is ticked by it: nobody judges a search by memory."""
    point = next(point for point in content.techniques["allergens"].checklist if point.id == "reads_three")
    assert "by the key" in point.text
    assert point.need == len(point.choices) == 3


SAFETY = (
    "grill_doneness",
    "allergens",
    "safe_holding",
    "clean_hands",
    "sanitizer",
    "cold_side_basics",
    "station_opening",
)
TYPED_LONGEST = 14


@pytest.mark.parametrize("technique", SAFETY)
def test_a_typed_list_has_a_type_and_few_words_for_each_point(content: Content, technique: str) -> None:
    """Every point is law, result or craft, one act in fourteen words; what is eaten is tasted; there is a result."""
    points = content.techniques[technique].checklist
    assert all(point.type for point in points)
    assert "result" in {point.type for point in points}
    assert [point.id for point in points if len(point.text.split()) > TYPED_LONGEST] == []


@pytest.mark.parametrize("technique", ["grill_doneness", "cold_side_basics"])
def test_what_is_eaten_is_tasted(content: Content, technique: str) -> None:
    """A cook who never tastes does not cook: common practice."""
    assert any(point.judged == "tasted" for point in content.techniques[technique].checklist)


MUST_BE_LAW = {
    # technique: point, the line of the code it is judged by, or says; FDA Food Code 2022
    "safe_holding": (
        ("first_stage", "cooling_to_middle_within"), ("both_stages", "cooling_to_end_within"),  # § 3-501.14(A)
        ("reheated", "reheat"), ("reheat_in", "reheat_within"),  # § 3-403.11
        ("sealed_pack", "code.reheat_packaged"), ("last_days", "code.date_marking"),  # §§ 3-403.11(C), 3-501.17
        ("by_clock", "code.time_control"), ("cold_clock", "code.time_control_cold"),  # § 3-501.19
    ),
    "grill_doneness": (
        ("patties", "ground_meat"), ("bird_hot", "poultry_and_stuffed_pasta"),  # § 3-401.11(A)
        ("steak_law", "fish_and_whole_meat"), ("intact", "code.intact_steak_surface"),  # (A)(1), (C)
    ),
    "cold_side_basics": (("room_mix", "code.cooling_from_room_within"), ("shell_tag", "code.shellstock_tags")),
    "station_opening": (("boards", "code.surface_cleaning"), ("quat", "code.sanitizer_water_quat")),
}  # fmt: skip


@pytest.mark.parametrize("technique", sorted(MUST_BE_LAW))
def test_what_the_code_asks_and_the_steps_teach_is_judged_as_law(content: Content, technique: str) -> None:
    """Taught and judged nowhere, a limit may be missed: each is measured or said, and never made up for."""
    points = {point.id: point for point in content.techniques[technique].checklist}
    for name, line in MUST_BE_LAW[technique]:
        judged = {each.id for each in (points[name].limit, points[name].then) if each}
        judged |= {choice.id for choice in points[name].choices}
        assert points[name].type == "law", name
        assert line in judged, name
