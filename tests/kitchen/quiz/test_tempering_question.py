"""The tempering question: real heats, the band in which egg sets, and no draw that scrambles."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tests.kitchen.quiz.asking import Asked, draw_question, question_from
from tests.kitchen.quiz.worked_by_hand import pieces
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.technique import QuestionSetting

PUBLISHED = {"water": 4.19, "milk": 3.85, "cream": 3.06, "yolks": 3.05, "eggs": 3.63}
"""kJ/(kg K). Water at 15 °C: OpenStax College Physics 2e, Table 14.1 (4.186). Milk and cream: Geankoplis, Transport
Processes and Separation Process Principles, 4th ed., App. A.4-1. Yolk and whole egg: ASHRAE Handbook Refrigeration
(2006), ch. 9, Table 3, from memory."""
CREAM_DIFFERS = 1.6
"""Cream of that table is a leaner one by its water, 0.73 of the heat of water where Choi and Okos give 0.78."""
BANDS = {"yolks": (65, 70), "eggs": (63, 73)}
"""Celsius where it begins to thicken and where it has set: McGee, On Food and Cooking (2004), ch. 2."""
OLDER = QuestionSetting(
    "tempering_mix",
    {},
    {"hot_celsius": (Fraction(80), Fraction(95), Fraction(1)), "cold_celsius": (Fraction(3), Fraction(7), Fraction(1))},
    2,
)
"""As content of before set it."""


def parts(question: Asked) -> tuple[str, str, float, float]:
    """Return the liquid, the egg, how warm the mix is by the published heats, and by grams alone."""
    m1, liquid, t1, m2, egg, t2 = pieces(
        r"whisk (\d+) g of hot (\w+) at (\d+) °C into (\d+) g of (?:beaten )?(\w+) at (\d+) °C", question.text
    )
    liquid = liquid if liquid in PUBLISHED else "water"
    hot, cold = int(m1) * PUBLISHED[liquid], int(m2) * PUBLISHED[egg]
    by_heat = (hot * int(t1) + cold * int(t2)) / (hot + cold)
    by_grams = (int(m1) * int(t1) + int(m2) * int(t2)) / (int(m1) + int(m2))
    return liquid, egg, by_heat, by_grams


def test_the_answer_is_what_published_heats_give() -> None:
    """Within a degree, cream apart; by grams alone it came out up to five degrees too cool."""
    missed = []
    for seed in range(500):
        question = draw_question("tempering_mix", seed)
        liquid, _, by_heat, by_grams = parts(question)
        assert abs(float(question.answer.value) - by_heat) <= (CREAM_DIFFERS if liquid == "cream" else 1.0)
        missed.append(by_heat - by_grams)
    assert max(missed) > 4


@pytest.mark.parametrize("setting", [None, OLDER])
def test_text_and_solution_name_the_band_and_no_draw_comes_near_it(setting: QuestionSetting | None) -> None:
    """Two degrees or more below where this egg begins to thicken, as at the workbench: no cook is asked to scramble."""
    for seed in range(300):
        question = draw_question("tempering_mix", seed, setting)
        thickens, sets = BANDS[parts(question)[1]]
        assert question.answer.value <= thickens - 2
        assert f"This egg begins to thicken at {thickens} °C. At {sets} °C it has set." in question.text
        assert any(f"begins to thicken at {thickens} °C" in line and "has set" in line for line in question.solution)


def test_weights_of_the_whole_pot_are_poured_in_part() -> None:
    """600 g of milk at 95 °C would set 100 g of yolk: older content that asks for it is asked of a part of the milk."""
    one = Fraction(1)
    ranges = {"hot_grams": (600 * one, 600 * one, one), "cold_grams": (100 * one, 100 * one, one),
              "hot_celsius": (95 * one, 95 * one, one)}  # fmt: skip
    answers = {draw_question("tempering_mix", seed, QuestionSetting("tempering_mix", {}, ranges, 2)).answer.value
               for seed in range(60)}  # fmt: skip
    assert max(answers) <= 63
    assert len(answers) > 20


def test_grams_counted_alike_are_a_method_of_their_own_or_cannot_be_told_apart() -> None:
    """Half a degree apart and more it is named; within a quarter it is right, as no probe shows the difference."""
    named = 0
    for seed in range(300):
        question = draw_question("tempering_mix", seed)
        given = grade(question, f"{parts(question)[3]:.6f}", ".")
        named += given.method == "grams_alike"
        assert given.is_right or given.method == "grams_alike"
    assert named > 250


def test_cream_and_yolk_hold_heat_nearly_alike() -> None:
    """0.78 and 0.75 of water: a small mix is within a quarter of a degree by grams alone."""
    numbers = {"hot_grams": 100, "hot_celsius": 60, "cold_grams": 1000, "cold_celsius": 24, "hot_food": 3,
               "cold_food": 1}  # fmt: skip
    question = question_from("tempering_mix", {key: Fraction(value) for key, value in numbers.items()})
    assert question is not None
    assert "grams_alike" not in {wrong.name for wrong in question.wrong_methods}


def test_what_would_set_the_egg_is_not_asked() -> None:
    """300 g of milk at 95 °C into 100 g of yolk come to over 70 °C: lumps."""
    numbers = {"hot_grams": 300, "hot_celsius": 95, "cold_grams": 100, "cold_celsius": 5, "hot_food": 2, "cold_food": 1}
    assert question_from("tempering_mix", {key: Fraction(value) for key, value in numbers.items()}) is None


def test_the_formula_counts_grams_by_heat() -> None:
    """60 g of water at 95 °C and 120 g of yolk at 5 °C: 41.18 °C by 4.19 and 3.1169 kJ/(kg K) (energy balance)."""
    numbers = {"hot_grams": 60, "hot_celsius": 95, "cold_grams": 120, "cold_celsius": 5, "hot_food": 1, "cold_food": 1}
    right = NUMERIC["tempering_mix"].right({key: Fraction(value) for key, value in numbers.items()})
    assert right == Fraction(41)
    assert abs(float(right) - 41.18) < 0.25


def test_the_text_gives_the_heats() -> None:
    """The cook reads the heats beside that of water, to two places."""
    assert all(
        re.search(
            r"beside water as 1, .* holds [\d.]+ of heat and the egg 0\.\d\d\.",
            draw_question("tempering_mix", seed).text,
        )
        for seed in range(50)
    )
