"""The limits of extruder and mixer safety against the published ones, the source beside each."""

from __future__ import annotations

import pytest

from tests.content.measured import line
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity

TECHNIQUE = "extruder_safety"
PUBLISHED = [
    # line, printed value, source
    ("guard_open_elsewhere", "3 in", "Pennsylvania Code, title 34, § 9.84(c): cover within three inches of closure"),
    ("lift_elsewhere", "80 lb", "Wash. Admin. Code 296-806-42564(5): filled bowls that weigh more than eighty pounds"),
    ("report", "24 h", "29 CFR 1904.39(a)(2): within twenty-four hours"),
    ("guard_gap", "1/4 in", "29 CFR 1910.217, Table O-10, first row (from memory)"),
]


@pytest.fixture(name="technique")
def _technique(content: Content) -> Technique:
    return content.techniques[TECHNIQUE]


@pytest.mark.parametrize(("key", "printed", "source"), PUBLISHED)
def test_a_line_has_the_published_value(technique: Technique, key: str, printed: str, source: str) -> None:
    """A line that names a publication has its value, whatever unit it is printed in."""
    limit = line(technique, key)
    value = limit.target or limit.highest
    assert value is not None
    assert value.base == parse_quantity(printed).base, source


def test_the_house_is_stricter_than_what_others_allow(technique: Technique) -> None:
    """A bowl lifted alone is lighter than the one for which Washington asks for a device."""
    assert line(technique, "lift_alone").admits(parse_quantity("30 lb"))
    assert not line(technique, "lift_alone").admits(parse_quantity("80 lb"))


def test_dough_machines_are_cleaned_as_often_as_the_code_asks(technique: Technique) -> None:
    """FDA Food Code § 4-602.11(C), read in Wash. Admin. Code 246-215-04605(3): at least every four hours."""
    point = next(point for point in technique.checklist if point.id == "cleaned_in_time")
    assert point.limit is not None
    assert [point.limit.admits(parse_quantity(text)) for text in ("4 h", "4 h 1 min")] == [True, False]


def test_every_step_that_opens_the_machine_says_unplug(technique: Technique) -> None:
    """29 CFR 1910.147(a)(2)(iii)(A): unplugged, and the plug in the worker's own control, before it is serviced."""
    steps = {step.id: step.hazards for step in technique.steps}
    assert all("unplug" in steps[key] for key in ("jam", "lock_out", "prove_dead", "put_back"))
