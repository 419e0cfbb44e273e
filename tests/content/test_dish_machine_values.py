"""What the technique on the dish machine states, held against the texts its lines name."""

from __future__ import annotations

import pytest

from tests.content.measured import line, same
from trainer.kitchen.technique import Content

OTHERS = [
    # line, lowest; each by Wash. Admin. Code 246-215-04545 or -04555 (in force 2022-03-01), which adopt the Food Code
    ("wash_single", "165 F"),  # FDA Food Code § 4-501.110(A)(1), one rack, one heat
    ("wash_belt", "160 F"),  # (A)(3), one tank, a belt, two heats
    ("wash_chemical", "120 F"),  # (B), sanitized by chemical
    ("rinse_single", "165 F"),  # § 4-501.112(A)(1)
]


@pytest.mark.parametrize(("key", "lowest"), OTHERS)
def test_a_machine_of_another_kind_has_its_own_line(content: Content, key: str, lowest: str) -> None:
    """Each kind of machine has a row of its own, and the technique states it."""
    assert same(line(content.techniques["dish_machine"], key).lowest, lowest)


def test_the_technique_is_held_to_the_machine_of_the_house(content: Content) -> None:
    """One rack and two heats: wash 150, rinse 180 to 194, surface 160 °F (Food Code §§ 4-501.110, .112, 4-703.11)."""
    limits = content.code.limits
    assert same(limits["dish_wash"].lowest, "150 F")
    assert same(limits["dish_rinse"].lowest, "180 F")
    assert same(limits["dish_rinse_most"].highest, "194 F")
    assert same(limits["dish_surface"].lowest, "160 F")
