"""Drills: one question fully worked, one to finish: a sum with its last line left blank, or a choice."""

from __future__ import annotations

import pytest

from tests.kitchen.quiz.asking import WORDS, drill_for, shown
from tests.kitchen.quiz.test_drawing import setting, span
from tests.printed import english
from trainer.kitchen.quiz.drawing import CannotDraw
from trainer.kitchen.quiz.drills import BLANK
from trainer.kitchen.quiz.families import CHOICES, NUMERIC
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.material import Material, StepWords
from trainer.kitchen.quiz.wording import figures
from trainer.kitchen.technique import Fault
from trainer.recipe_math.figures import number_text

EGGS = Material(
    "Eggs",
    (
        StepWords("warm", "Warm the bowl."),
        StepWords("pour", "Pour a ladle."),
        StepWords("whisk", "Whisk."),
        StepWords("strain", "Strain."),
    ),
    (
        Fault("curdled", "Grains show in it.", "It was too hot.", "Start anew."),
        Fault("thin", "It runs off the spoon.", "It was too cold.", "Warm it gently."),
        Fault("skin", "A skin lies on top.", "It stood open.", "Cover it close."),
    ),
)


@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_the_half_worked_sum_ends_in_a_blank_and_tells_nothing(name: str) -> None:
    """Its lines stop before the answer; the last is a line of the solution whose result is left blank."""
    for method in list(NUMERIC[name].wrong)[:2]:
        drill = drill_for(name, method, 11)
        assert drill.says == WORDS.for_cook(name, method)
        assert drill.begun.count(BLANK) == 1
        before, after = drill.begun.rstrip(".").split(BLANK)
        assert any(line.startswith(before) and after in line[len(before) :] for line in drill.half.solution)
        answer = figures(drill.half.answer.value)
        assert not any(line.rstrip(".").endswith(f"= {answer} {drill.half.answer.unit}") for line in drill.lines)
        assert not after.strip(". ").startswith(answer)
        assert set(drill.lines) < set(drill.half.solution)


@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_the_method_shows_in_both_sums(name: str) -> None:
    """Both are sums in which the method gives a value of its own, and they are two different sums."""
    for method in list(NUMERIC[name].wrong)[2:4]:
        drill = drill_for(name, method, 3)
        assert shown(drill.worked) != shown(drill.half)
        for question in (drill.worked, drill.half):
            (value,) = (wrong.value for wrong in question.wrong_methods if wrong.name == method)
            assert grade(question, number_text(value, 12), ".").method == method


def test_the_same_seed_gives_the_same_drill() -> None:
    """A drill can be shown again; another seed has other numbers; a setting's ranges hold."""
    one = drill_for("portions_from_batch", "rounded_up", 5)
    assert one == drill_for("portions_from_batch", "rounded_up", 5)
    assert one.worked.text != drill_for("portions_from_batch", "rounded_up", 500).worked.text
    narrow = setting(ranges={"batch_pounds": span("8", "8", "1")})
    assert "weighs 8 lb." in drill_for("portions_from_batch", "rounded_up", 5, narrow).half.text


def test_the_blank_is_that_of_a_sum() -> None:
    """What is left to do is one step, begun as far as its equals sign, with the unit it comes to."""
    drill = drill_for("scale_by_yield", "factor_upside_down", 1)
    assert drill.begun.startswith("Multiply by the factor: ")
    assert drill.begun.endswith(f"= {BLANK} lb.")
    assert len(drill.lines) == 2


TAKES_NONE = {"left_out", "names_swapped"}
"""What is wrong with the whole answer, and with no choice by itself."""
CHOSEN = [(name, method) for name, family in CHOICES.items() for method in family.methods()]


@pytest.mark.parametrize(("name", "method"), CHOSEN)
def test_a_choice_is_shown_worked_and_then_asked(name: str, method: str) -> None:
    """The first is shown with what the wrong method takes; the second is another question, and nothing tells it."""
    for seed in (2, 40):
        drill = drill_for(name, method, seed)
        assert drill.says == WORDS.for_cook(name, method)
        if method not in TAKES_NONE and drill.worked.choices:
            assert drill.distractor is not None
            assert (drill.distractor.name, drill.distractor.is_right) == (method, False)
        assert shown(drill.worked) != shown(drill.half)
        assert any(way.name == method for way in drill.half.wrong_methods)
        right = [choice.text for choice in drill.half.every_choice if choice.is_right]
        assert not any(english(text) in line for line in drill.lines for text in right)
        assert len(drill.lines) < len(drill.half.solution)
        assert not drill.begun


@pytest.mark.parametrize("name", sorted(CHOICES))
def test_each_slip_has_its_advice(name: str) -> None:
    """Whatever can be named to the teacher has a sentence to the cook, who is told what they did."""
    told = WORDS.families[name].wrong
    assert told.keys() == set(CHOICES[name].slips)
    assert all(words.cook.startswith("You ") and words.teacher for words in told.values())


def test_a_drill_is_made_from_the_techniques_own_words() -> None:
    """Its faults and steps are those the cook is learning, and no others."""
    drill = drill_for("choose_fault", "another_cause", 1, material=EGGS)
    for question in (drill.worked, drill.half):
        assert question.text.startswith("You see this: ")
        assert {choice.text for choice in question.choices} <= {fault.cause for fault in EGGS.faults}


def test_words_too_few_for_two_questions_make_no_drill() -> None:
    """With two faults there is nothing to tell apart; and one step after another is asked from four steps on."""
    few = Material("Eggs", EGGS.steps, EGGS.faults[:2])
    with pytest.raises(CannotDraw):
        drill_for("choose_fault", "another_cause", 1, material=few)


def test_a_calculation_has_no_distractor() -> None:
    """What a wrong method gives there is a number."""
    assert drill_for("portions_from_batch", "rounded_up", 5).distractor is None


@pytest.mark.parametrize(("method", "family"), [("nobody", "scale_by_yield"), ("rounded_up", "no such")])
def test_there_is_no_drill_for_what_is_not_there(method: str, family: str) -> None:
    """An unknown method or family is refused."""
    with pytest.raises(CannotDraw):
        drill_for(family, method, 1)


def test_there_is_no_drill_where_the_method_never_shows() -> None:
    """Ranges in which a method gives no value of its own make no drill of it: above zero nobody forgets a minus."""
    warm = setting("read_thermometer", ranges={"lowest_celsius": span("0", "40", "10")})
    with pytest.raises(CannotDraw, match="does not show"):
        drill_for("read_thermometer", "minus_forgotten", 1, warm)
