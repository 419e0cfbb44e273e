"""One tick is one act of law: what used to be seen by one tick has a point for each act, and each is critical."""

from __future__ import annotations

import pytest

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
    assert len(points) <= MOST
    short = [point for point in points if point.id in SPLIT[technique] and point.judged == "ticked"]
    assert [point.id for point in short if len(point.text.split()) > LONGEST] == []


def test_the_hour_of_washing_is_counted(content: Content) -> None:
    """Washes that were due are counted beside washes done: without the first count nobody can say "each time"."""
    point = next(point for point in content.techniques["clean_hands"].checklist if point.id == "washes_unasked")
    assert "count each time a wash is due" in point.text
    assert "The counts are equal" in point.text


def test_what_is_found_in_the_packets_has_a_key(content: Content) -> None:
    """The assessor wrote down before what is to be found: nobody judges a search by memory."""
    point = next(point for point in content.techniques["allergens"].checklist if point.id == "reads_three")
    assert "the assessor's list, written before" in point.text
