"""One strand, one time: it stands in the recipe of the dough, and every technique that cooks it names that line."""

from __future__ import annotations

import pytest

from tests.content.conftest import CONTENT
from tests.content.measured import line
from trainer.kitchen.technique import Content
from trainer.recipe_math.parsing import parse_quantity

POINTS = {"pasta_water": ("strand", "cooked_for"), "yolk_pasta_pickup": ("boil", "boiled")}
NAMED = {"pasta_water": "strand", "yolk_pasta_pickup": "boil", "pasta_nesting": "strand"}


@pytest.mark.parametrize("seconds", [79, 80, 90, 100, 101, 120])
def test_one_strand_has_one_verdict_at_every_station(content: Content, seconds: int) -> None:
    """Common practice: fresh strands take about 90 s from when they go in. Both stations judge the same time alike."""
    verdicts = set()
    for technique, (_, name) in POINTS.items():
        point = next(point for point in content.techniques[technique].checklist if point.id == name)
        assert point.limit is not None
        verdicts.add(point.limit.admits(parse_quantity(f"{seconds} s")))
    assert verdicts == {80 <= seconds <= 100}


@pytest.mark.parametrize("technique", sorted(NAMED))
def test_the_time_is_typed_once_in_the_recipe(content: Content, technique: str) -> None:
    """A technique names the recipe's line, and repeats no number of it."""
    text = (CONTENT / "techniques" / technique / "technique.yaml").read_text("utf-8")
    assert f"{NAMED[technique]}: {{recipe: durum_dough.boil}}" in text
    found = line(content.techniques[technique], NAMED[technique])
    assert found.target == parse_quantity("90 s")


def test_the_boil_is_back_before_the_strand_is_done(content: Content) -> None:
    """By the house's own lines: boiling again 60 s after going in at the latest, the first bite then, before 80 s."""
    water = content.techniques["pasta_water"]
    back, bite, strand = (line(water, name) for name in ("back_to_boil", "first_bite", "strand"))
    assert back.highest is not None
    assert bite.target is not None
    assert strand.lowest is not None
    assert back.highest.base <= bite.target.base < strand.lowest.base


def test_both_are_counted_from_the_drop(content: Content) -> None:
    """From the nest lowered in to the lift: the same two moments at both stations."""
    texts = {
        name: next(point.text for point in content.techniques[technique].checklist if point.id == name)
        for technique, (_, name) in POINTS.items()
    }
    assert {text.split(", ")[1] for text in texts.values()} == {"from in to out"}
