"""Drills: one question fully worked, one to finish: a sum with its last line left blank, or a choice."""

from __future__ import annotations

import pytest

from tests.kitchen.quiz.test_drawing import setting, span
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.drills import BLANK, Wanted, drill_for
from trainer.kitchen.quiz.families import CHOICES, SUMS
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.material import Material
from trainer.kitchen.quiz.wording import figures
from trainer.kitchen.technique import Fault
from trainer.recipe_math.figures import number_text

EGGS = Material(
    "Eggs",
    ("Warm the bowl.", "Pour a ladle.", "Whisk.", "Strain."),
    (
        Fault("curdled", "Grains show in it.", "It was too hot.", "Start anew."),
        Fault("thin", "It runs off the spoon.", "It was too cold.", "Warm it gently."),
        Fault("skin", "A skin lies on top.", "It stood open.", "Cover it close."),
    ),
)


@pytest.mark.parametrize("name", sorted(SUMS))
def test_the_half_worked_sum_ends_in_a_blank_and_tells_nothing(name: str) -> None:
    """Its lines stop before the answer; the last is begun, and its result is left blank."""
    for way in SUMS[name].wrong[:2]:
        drill = drill_for(Wanted(way.name, name), 11)
        assert drill.says == way.says
        assert drill.begun.endswith(BLANK)
        answer = figures(drill.half.answer.value)
        assert not any(line.rstrip(".").endswith(f"= {answer} {drill.half.answer.unit}") for line in drill.lines)
        assert len(drill.lines) < len(drill.half.solution)


@pytest.mark.parametrize("name", sorted(SUMS))
def test_the_method_shows_in_both_sums(name: str) -> None:
    """Both are sums in which the method gives a value of its own, and they are two different sums."""
    for way in SUMS[name].wrong[2:4]:
        drill = drill_for(Wanted(way.name, name), 3)
        assert drill.worked.shown != drill.half.shown
        for question in (drill.worked, drill.half):
            (value,) = (wrong.value for wrong in question.wrong_methods if wrong.name == way.name)
            assert grade(question, number_text(value, 12), ".").method == way.name


def test_the_same_seed_gives_the_same_drill() -> None:
    """A drill can be shown again; another seed has other numbers; a setting's ranges hold."""
    one = drill_for(Wanted("rounded_up", "portions_from_batch"), 5)
    assert one == drill_for(Wanted("rounded_up", "portions_from_batch"), 5)
    assert one.worked.text != drill_for(Wanted("rounded_up", "portions_from_batch"), 500).worked.text
    narrow = setting(ranges={"batch_pounds": span("8", "8", "1")})
    assert "weighs 8 lb." in drill_for(Wanted("rounded_up", "portions_from_batch", narrow), 5).half.text


def test_the_blank_is_that_of_a_sum() -> None:
    """What is left to do is one step, begun as far as its equals sign."""
    drill = drill_for(Wanted("factor_upside_down", "scale_by_yield"), 1)
    assert drill.begun.startswith("Multiply by the factor: ")
    assert drill.begun.endswith(f"= {BLANK}")
    assert len(drill.lines) == 2


CHOSEN = [(name, method) for name, family in CHOICES.items() for method in family.methods()]


@pytest.mark.parametrize(("name", "method"), CHOSEN)
def test_a_choice_is_shown_worked_and_then_asked(name: str, method: str) -> None:
    """The first is shown with what the wrong method takes; the second is another question, and nothing tells it."""
    kind = CHOICES[name]
    for seed in (2, 40):
        drill = drill_for(Wanted(method, name), seed)
        assert drill.says == kind.advises[method]
        assert drill.lure is not None
        assert (drill.lure.name, drill.lure.is_right) == (method, False)
        assert drill.worked.shown != drill.half.shown
        assert any(choice.name == method for choice in drill.half.choices)
        assert drill.half.right_choice is not None
        assert not any(drill.half.right_choice.text in line for line in drill.lines)
        assert len(drill.lines) < len(drill.half.solution)
        assert not drill.begun


@pytest.mark.parametrize("name", sorted(CHOICES))
def test_each_slip_has_its_advice(name: str) -> None:
    """Whatever can be named to the teacher has a sentence to the cook, who is told what they did."""
    kind = CHOICES[name]
    assert kind.advises.keys() == kind.tells.keys()
    assert all(words.startswith("You ") for words in kind.advises.values())


def test_a_drill_is_made_from_the_techniques_own_words() -> None:
    """Its faults and steps are those the cook is learning, and no others."""
    drill = drill_for(Wanted("another_cause", "choose_fault", material=EGGS), 1)
    for question in (drill.worked, drill.half):
        assert question.text.startswith("Eggs. You see this: ")
        assert {choice.text for choice in question.choices} <= {fault.cause for fault in EGGS.faults}


def test_words_too_few_for_two_questions_make_no_drill() -> None:
    """With two faults there is nothing to tell apart; and one step after another is asked from four steps on."""
    few = Material("Eggs", EGGS.steps, EGGS.faults[:2])
    with pytest.raises(CannotDraw):
        drill_for(Wanted("another_cause", "choose_fault", material=few), 1)


def test_a_sum_has_no_choice_to_lure() -> None:
    """What a wrong method gives there is a number."""
    assert drill_for(Wanted("rounded_up", "portions_from_batch"), 5).lure is None


@pytest.mark.parametrize(("method", "family"), [("nobody", "scale_by_yield"), ("rounded_up", "no such")])
def test_there_is_no_drill_for_what_is_not_there(method: str, family: str) -> None:
    """An unknown method or family is refused."""
    with pytest.raises(CannotDraw):
        drill_for(Wanted(method, family), 1)


def test_there_is_no_drill_where_the_method_never_shows() -> None:
    """Ranges in which a method gives no value of its own make no drill of it: above zero nobody forgets a minus."""
    warm = setting("read_thermometer", ranges={"lowest_celsius": span("0", "40", "10")})
    with pytest.raises(CannotDraw, match="does not show"):
        drill_for(Wanted("minus_forgotten", "read_thermometer", warm), 1)
