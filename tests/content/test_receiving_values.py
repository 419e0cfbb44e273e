"""What the technique on receiving states, held against the texts its lines name."""

from __future__ import annotations

import pytest

from tests.content.measured import line, same
from trainer.kitchen.technique import Content

OTHERS = [
    ("cold_elsewhere", None, "45 F"),  # California Health and Safety Code § 114037(a)
    ("cold_elsewhere_by", None, "4 h"),  # the same
    ("milk", None, "45 F"),  # Grade A Pasteurized Milk Ordinance; from memory
]


@pytest.mark.parametrize(("key", "lowest", "highest"), OTHERS)
def test_another_figure_is_the_one_published(
    content: Content, key: str, lowest: str | None, highest: str | None
) -> None:
    """Where published figures disagree, each stands with its own source."""
    found = line(content.techniques["receiving"], key)
    assert same(found.lowest, lowest)
    assert same(found.highest, highest)


def test_shelves_go_by_the_heat_each_food_must_reach(content: Content) -> None:
    """Ready to eat, fish, whole cuts, ground meat, poultry: common practice, by the heats of § 3-401.11."""
    said = next(step for step in content.techniques["receiving"].steps if step.id == "shelves").text
    order = ["ready to eat", "fish", "whole meat", "ground meat", "poultry"]
    places = [said.index(word) for word in order]
    assert places == sorted(places)
