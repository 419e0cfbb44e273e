"""Drills: one sum fully worked, one with its last line left blank."""

from __future__ import annotations

import pytest

from tests.kitchen.quiz.test_drawing import setting, span
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.drills import BLANK, drill_for
from trainer.kitchen.quiz.families import SUMS
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.wording import figures
from trainer.recipe_math.figures import number_text


@pytest.mark.parametrize("name", sorted(SUMS))
def test_the_half_worked_sum_ends_in_a_blank_and_tells_nothing(name: str) -> None:
    """Its lines stop before the answer; the last is begun, and its result is left blank."""
    for way in SUMS[name].wrong[:2]:
        drill = drill_for(way.name, name, 11)
        assert drill.says == way.says
        assert drill.begun.endswith(BLANK)
        answer = figures(drill.half.answer.value)
        assert not any(line.rstrip(".").endswith(f"= {answer} {drill.half.answer.unit}") for line in drill.lines)
        assert len(drill.lines) < len(drill.half.solution)


@pytest.mark.parametrize("name", sorted(SUMS))
def test_the_method_shows_in_both_sums(name: str) -> None:
    """Both are sums in which the method gives a value of its own, and they are two different sums."""
    for way in SUMS[name].wrong[2:4]:
        drill = drill_for(way.name, name, 3)
        assert drill.worked.shown != drill.half.shown
        for question in (drill.worked, drill.half):
            (value,) = (wrong.value for wrong in question.wrong_methods if wrong.name == way.name)
            assert grade(question, number_text(value, 12), ".").method == way.name


def test_the_same_seed_gives_the_same_drill() -> None:
    """A drill can be shown again; another seed has other numbers; a setting's ranges hold."""
    one = drill_for("rounded_up", "portions_from_batch", 5)
    assert one == drill_for("rounded_up", "portions_from_batch", 5)
    assert one.worked.text != drill_for("rounded_up", "portions_from_batch", 500).worked.text
    narrow = setting(ranges={"batch_pounds": span("8", "8", "1")})
    assert "weighs 8 lb." in drill_for("rounded_up", "portions_from_batch", 5, narrow).half.text


def test_the_blank_is_that_of_a_sum() -> None:
    """What is left to do is one step, begun as far as its equals sign."""
    drill = drill_for("factor_upside_down", "scale_by_yield", 1)
    assert drill.begun.startswith("Multiply by the factor: ")
    assert drill.begun.endswith(f"= {BLANK}")
    assert len(drill.lines) == 2


@pytest.mark.parametrize(
    ("method", "family"), [("nobody", "scale_by_yield"), ("rounded_up", "no such"), ("another_shape", "name_cut")]
)
def test_there_is_no_drill_for_what_is_not_there(method: str, family: str) -> None:
    """An unknown method or family, or one that is no sum, is refused."""
    with pytest.raises(CannotDraw):
        drill_for(method, family, 1)


def test_there_is_no_drill_where_the_method_never_shows() -> None:
    """Ranges in which a method gives no value of its own make no drill of it: above zero nobody forgets a minus."""
    warm = setting("read_thermometer", ranges={"lowest_celsius": span("0", "40", "10")})
    with pytest.raises(CannotDraw, match="does not show"):
        drill_for("minus_forgotten", "read_thermometer", 1, warm)
