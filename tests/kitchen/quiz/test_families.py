"""Every family, over a few hundred seeds; the full ten thousand are in tests/bench."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import combinations

import pytest

from tests.kitchen.quiz.asking import WORDS, Asked, draw_question, shown
from tests.kitchen.quiz.worked_by_eye import BY_CHOICE, BY_EYE, agrees, holds
from tests.kitchen.quiz.worked_by_hand import BY_HAND, number
from trainer.kitchen.quiz.families import CHOICES, FAMILIES, NUMERIC
from trainer.recipe_math.units import UNITS

SEEDS = range(60)
WITH_LIMITS = {
    "cooling_first_stage", "cooling_stage", "cooling_time", "date_mark", "discard_time", "tempering_mix",
    "tempering_ladles",
    "ice_in_stock", "thickness_time", "log_reduction", "d_at_other_temperature", "sanitizer_dilution",
}  # fmt: skip


@pytest.fixture(scope="module", params=sorted(FAMILIES))
def drawn(request: pytest.FixtureRequest) -> list[Asked]:
    return [draw_question(request.param, seed) for seed in SEEDS]


def test_every_key_agrees_with_the_sum_done_by_hand_from_the_text(drawn: list[Asked]) -> None:
    """The right answer is the one a person works out who has nothing but the question as it stands."""
    for question in drawn:
        assert agrees(question), question.text


def test_no_two_answers_lie_within_twice_the_tolerance(drawn: list[Asked]) -> None:
    """Right and wrong values lie so far apart that none can be taken for another."""
    for question in drawn:
        values = [question.answer.value, *(wrong.value for wrong in question.wrong_methods)]
        for one, other in combinations(values, 2):
            assert abs(one - other) > 2 * question.answer.tolerance, question.text


def test_seeds_give_different_questions(drawn: list[Asked]) -> None:
    """A cook who sits again meets new numbers: of sixty draws hardly any is seen twice.

    A technique's own words bound what can be asked from them.
    """
    share = 0.8 if drawn[0].family in {"choose_fault", "order_steps", "decide"} else 0.95
    assert len({shown(question) for question in drawn}) >= share * len(drawn)


def test_the_solution_shows_the_numbers_and_the_answer(drawn: list[Asked]) -> None:
    """A worked solution has two steps or more, numbers in the steps, and comes to the right answer."""
    for question in drawn[:25]:
        assert len(question.solution) >= 2
        if question.choices:
            continue
        assert all(re.search(r"\d", step) for step in question.solution[:1])
        shown = re.findall(r"-?\d+ \d+/\d+|-?\d+(?:\.\d+)?", " ".join(question.solution))
        assert any(abs(number(text) - question.answer.value) <= Fraction(1, 200) for text in shown)


def test_each_line_of_a_solution_holds(drawn: list[Asked]) -> None:
    """Anyone who works out a line from the numbers it shows comes to the result it shows."""
    for question in drawn:
        assert all(map(holds, question.solution)), question.solution


def test_numbers_print_as_cooks_read_them(drawn: list[Asked]) -> None:
    """No exponent, no bare fraction such as 9/4, no long decimals and no Python shows in a text."""
    for question in drawn:
        told = (choice.text for choice in question.choices)
        text = " ".join((question.text, question.figure_alt, *told, *question.solution))
        assert not re.search(r"\d[eE][+-]?\d|Fraction|Decimal|None|\d\.\d{3}(?! (?:L|kg)\b)", text), text
        for over, under in re.findall(r"(?<![\d.] )(?<![\d.])(\d+)/(\d+)", text):
            assert int(over) < int(under), text


def _syllables(word: str) -> int:
    return max(1, len(re.findall(r"[aeiouy]+", word.lower().removesuffix("e"))))


def _grade_level(text: str) -> float:
    """Return the Flesch-Kincaid grade (Kincaid et al. 1975), syllables counted by groups of vowels."""
    sentences = [part for part in re.split(r"(?<=[.?!])\s+", text) if part]
    words = re.findall(r"[A-Za-z']+", text)
    return 0.39 * len(words) / len(sentences) + 11.8 * sum(map(_syllables, words)) / len(words) - 15.59


def test_questions_are_in_short_words(drawn: list[Asked]) -> None:
    """Question texts read at grade six or below on the whole."""
    levels = [_grade_level(question.text) for question in drawn[:25]]
    assert sum(levels) / len(levels) <= 6


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_a_family_says_all_that_its_page_needs(name: str) -> None:
    """A family has a title, a level, a formula, an outside check, and a sentence to the teacher for each method."""
    family, words = FAMILIES[name], WORDS.families[name]
    assert family.name == name
    assert family.level in {"one step", "two steps", "in a shift"}
    assert all((words.title, family.formula, family.checked_against))
    assert words.wrong.keys() == set(family.methods())
    assert all(WORDS.for_teacher(name, method).endswith(".") for method in family.methods())
    assert all(span.means and span.lowest <= span.highest and span.step > 0 for span in family.ranges.values())


@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_a_sum_says_all_that_grading_needs(name: str) -> None:
    """A sum has a unit, a tolerance with its reason and five wrong methods or more."""
    family = NUMERIC[name]
    assert family.unit in UNITS
    assert family.tolerance.reason
    assert len(family.wrong) >= 5
    for method in family.wrong:
        assert WORDS.for_cook(name, method).endswith((".", "?"))
        assert WORDS.for_cook(name, method).startswith("You ")


def test_every_family_has_its_sum_by_hand() -> None:
    """No family is without a second way to its answer, by hand or by eye."""
    assert set(BY_HAND) | set(BY_EYE) == set(NUMERIC)
    assert set(BY_CHOICE) == set(CHOICES)


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_only_families_about_limits_defer_to_the_local_code(name: str) -> None:
    """A sum about heat and time says in its text that the local code decides; a caution ends the worked lines."""
    question = draw_question(name, 1)
    says_so = "your local code decides" in question.text
    assert says_so is (name in WITH_LIMITS)
    caution = WORDS.families[name].caution
    if name in NUMERIC:
        assert says_so is (caution != "")
    assert caution in question.solution[-1]


def test_the_teacher_is_told_what_a_method_means() -> None:
    """A named method has a sentence for the teacher; an unknown family or method has none."""
    assert WORDS.for_teacher("date_mark", "today_left_out") == "Does not count today."
    assert WORDS.for_teacher("date_mark", "no such method") == ""
    assert WORDS.for_teacher("no such family", "today_left_out") == ""
