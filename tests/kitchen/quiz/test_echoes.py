"""No number of a question is its own answer: what is copied from the text is never graded right."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.kitchen.quiz.asking import Asked, draw_question
from tests.kitchen.quiz.echoes import echoes
from tests.printed import english
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.technique import QuestionSetting

CHANGES_THE_UNIT = {
    "temperature_conversion": "°C",
    "temperature_to_fahrenheit": "°F",
    "temperature_difference": "°C",
    "unit_conversion": "mL",
    "cascade_to_measures": "Tbsp",
    "flour_from_dough": "g",
    "d_at_other_temperature": "s",
}


def copied(question: Asked) -> list[str]:
    """Return the quantities of a text that are graded right as they stand."""
    return [echo for echo in echoes(question) if grade(question, echo, ".").is_right]


def test_every_quantity_of_a_text_is_found() -> None:
    """With its unit where it has one; a time of day is none."""
    found = echoes(draw_question("scale_by_yield", 0))
    assert sum("portions" in echo for echo in found) == 2
    assert any("lb" in echo or "oz" in echo for echo in found)
    assert not any(":" in echo for echo in echoes(draw_question("cooling_stage", 0)))


@pytest.mark.parametrize(("family", "unit"), CHANGES_THE_UNIT.items())
def test_where_the_change_of_unit_is_the_question_the_unit_is_required(family: str, unit: str) -> None:
    """The question's own number with its own unit is asked again, and the unit wanted is named; nothing is graded."""
    assert NUMERIC[family].unit_rule == "required"
    for seed in range(50):
        question = draw_question(family, seed)
        for echo in echoes(question):
            given = grade(question, echo, ".")
            assert given.is_right is not True, (echo, question.text)
            problem = english(given.problem or "")
            if "is what is asked here" in problem:
                assert f"Write your answer in {unit}." in problem


@pytest.mark.parametrize(
    ("family", "text"),
    [
        ("temperature_conversion", "350 °F"), ("temperature_to_fahrenheit", "63 °C"),
        ("temperature_difference", "40 °F"), ("unit_conversion", "1 gal"), ("cascade_to_measures", "2 cups"),
        ("flour_from_dough", "1.2 kg"), ("d_at_other_temperature", "2 min"),
    ],
)  # fmt: skip
def test_an_answer_in_another_unit_is_asked_again_whatever_its_value(family: str, text: str) -> None:
    """It costs nothing: neither right nor wrong, and no method is named."""
    given = grade(draw_question(family, 5), text, ".")
    assert (given.is_right, given.method) == (None, None)
    assert f"Write your answer in {CHANGES_THE_UNIT[family]}." in english(given.problem or "")


@pytest.mark.parametrize("family", sorted(CHANGES_THE_UNIT))
def test_the_right_number_in_the_unit_asked_or_bare_is_right(family: str) -> None:
    """The unit may be written or left out."""
    question = draw_question(family, 5)
    value = f"{float(question.answer.value):.6f}"
    assert grade(question, value, ".").is_right
    assert grade(question, f"{value} {CHANGES_THE_UNIT[family]}", ".").is_right


def test_other_families_take_any_unit_of_the_kind() -> None:
    """A weight in grams answers a question in pounds."""
    others = {name for name, family in NUMERIC.items() if family.unit_rule == "same_kind"}
    assert others == NUMERIC.keys() - CHANGES_THE_UNIT.keys()
    question = draw_question("scale_by_yield", 5)
    assert grade(question, f"{float(question.answer.value) * 453.59237:.3f} g", ".").is_right


def test_ranges_in_which_every_draw_tells_its_answer_are_asked_all_the_same() -> None:
    """4 cases of 4 cans, whatever is drawn: a technique of a kitchen's own older content is not lost for it."""
    one = {"cans_per_hundred": Fraction("3.5"), "cans_per_case": Fraction(4), "guests": Fraction(400)}
    setting = QuestionSetting("packs_to_buy", {}, {name: (value, value, Fraction(1)) for name, value in one.items()}, 1)
    assert draw_question("packs_to_buy", 1, setting).answer.value == 4
