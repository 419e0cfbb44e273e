"""Fish on the grill against the code and what agencies print, the source beside each."""

from __future__ import annotations

import pytest

from tests.content.measured import line, value
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity


@pytest.fixture(name="fish")
def _fish(content: Content) -> Technique:
    return content.techniques["fish"]


def test_whole_fish_meets_heat_and_seconds_on_the_fire(fish: Technique) -> None:
    """FDA Food Code 2022, § 3-401.11(A)(1): 145 °F for 15 s, both pieces, always needed."""
    point = next(each for each in fish.checklist if each.id == "heat_fish")
    assert (point.type, point.pieces, point.pieces_inside) == ("law", 2, 2)
    assert [each.lowest for each in point.lines] == [parse_quantity("145 F"), parse_quantity("15 s")]


def test_chopped_and_stuffed_fish_have_lines_of_their_own(fish: Technique) -> None:
    """§ 3-401.11(A)(2): comminuted fish, 155 °F for 17 s; (A)(3): stuffed fish, 165 °F."""
    right = {scene.id: scene.right for scene in fish.scenes}
    assert right["whole_piece"] == ("whole_pair",)
    assert right["fish_burger"] == ("ground_pair",)
    assert right["stuffed_fish"] == ("stuffed",)


@pytest.mark.parametrize(
    ("key", "lowest", "highest"),
    [
        # Wash. Admin. Code 246-215-03425, FDA Food Code § 3-402.11(A)(1) and (2)
        ("frozen_cold", None, "-4 °F"),
        ("frozen_time", "168 h", None),
        ("frozen_hard", None, "-31 °F"),
        ("frozen_hard_time", "15 h", None),
        # § 3-402.12, from memory: the record is kept 90 days
        ("letter", "90 days", None),
        # FDA fish guide, 4th edition, chapter 7: most illness above 200 ppm
        ("histamine", "200 ppm", None),
        # ANZCOR guideline 9.1.3: 20 minutes of cool running water
        ("burn_water", "20 min", None),
    ],
)
def test_a_line_is_the_printed_one(fish: Technique, key: str, lowest: str | None, highest: str | None) -> None:
    """Both ends as printed, and the side the text leaves open stays open."""
    found = line(fish, key)
    assert found.lowest == (parse_quantity(lowest) if lowest else None)
    assert found.highest == (parse_quantity(highest) if highest else None)


def test_a_pack_without_air_is_kept_as_cold_as_its_germ_asks(fish: Technique) -> None:
    """FDA fish guide, chapter 8: botulinum type E grows from 3.3 °C (37.9 °F), so 38 °F in whole degrees."""
    assert float(value(fish, "pack_cold", "°C", "highest")) == pytest.approx(3.3, abs=0.1)


def test_a_vacuum_pack_is_opened_before_it_thaws(fish: Technique) -> None:
    """Wash. Admin. Code 246-215-03510, FDA Food Code § 3-501.13(E): out of the pack before it thaws in a cooler."""
    said = next(point for point in fish.checklist if point.id == "pack_first")
    assert (said.type, [choice.id for choice in said.choices]) == ("law", ["open_it", "in_cooler"])
    step = next(step for step in fish.steps if step.id == "open_pack")
    assert step.text.index("Cut the pack open") < step.text.index("thaw")


def test_no_heat_mends_a_warm_tuna(fish: Technique) -> None:
    """FDA CPG 540.525: histamine survives heat; so the one right act is to put the fish apart."""
    scene = next(scene for scene in fish.scenes if scene.id == "warm_box")
    assert scene.right == ("tag",)
    said = next(point for point in fish.checklist if point.id == "warm_tuna")
    assert "heat_no" in {choice.id for choice in said.choices}


def test_fish_below_its_line_needs_note_letter_and_a_guest_who_is_not_at_risk(fish: Technique) -> None:
    """§§ 3-603.11 (advisory), 3-402.11 and .12 (freezing), 3-801.11(C) (guests at risk): all three, always."""
    said = next(point for point in fish.checklist if point.id == "says_below")
    assert [choice.id for choice in said.choices] == ["menu_note", "frozen_letter", "not_at_risk"]
    assert (said.type, said.need) == ("law", 3)


def test_fish_is_its_allergen_by_the_recipe(fish: Technique, content: Content) -> None:
    """21 U.S.C. 321(qq): fish; it follows from the recipe and is typed nowhere else."""
    assert fish.allergens == content.recipes["grilled_fish"].allergens == ("fish",)
