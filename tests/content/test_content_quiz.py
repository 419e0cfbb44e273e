"""The key `quiz` of a technique: a fixed number of questions, or as many as it takes to decide."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import load_content
from trainer.kitchen.quiz.sequential_test import Plan
from trainer.kitchen.technique import Problem, Technique

FILE, FIXED = "techniques/rolling/technique.yaml", "{need_right: 3, months: 12}"


def read(folder: Path, quiz: str, count: str = "count: 3") -> tuple[Technique | None, tuple[Problem, ...]]:
    """Return the technique and the problems with another `quiz`."""
    small_kitchen(folder)
    change(folder, FILE, FIXED, quiz)
    change(folder, FILE, "count: 3", count)
    content, problems = load_content(folder)
    return (content.techniques.get("rolling") if content else None), problems


def test_a_quiz_of_fixed_length_has_no_plan(tmp_path: Path) -> None:
    """What was written before means the same, and `decides: no` says it aloud."""
    for place, quiz in enumerate((FIXED, "{decides: no, need_right: 3, months: 12}")):
        found, problems = read(tmp_path / str(place), quiz)
        assert found is not None
        assert problems == ()
        assert (found.plan, found.need_right, found.asked, found.quiz_months) == (None, 3, 3, 12)


def test_a_quiz_that_decides_takes_the_usual_plan(tmp_path: Path) -> None:
    """60 % and 85 %, risks of 5 % and 10 %, at most 25; of 25 it takes 19, from .7379 * 25 = 18.4 on (by hand)."""
    found, problems = read(tmp_path, "{decides: yes, months: 6}")
    assert found is not None
    assert problems == ()
    assert (found.plan, found.asked, found.need_right, found.quiz_months) == (Plan(), 25, 19, 6)


def test_every_figure_of_the_plan_may_be_set(tmp_path: Path) -> None:
    """As a share or in percent, read exactly."""
    quiz = "{decides: yes, months: 6, from: 70 %, to: 0.9, false_pass: 2.5%, false_fail: 1/10, at_most: 30}"
    found, problems = read(tmp_path, quiz)
    assert found is not None
    assert problems == ()
    shares = Fraction(7, 10), Fraction(9, 10), Fraction(1, 40), Fraction(1, 10)
    assert found.plan == replace(Plan(*shares), at_most=30)


@pytest.mark.parametrize("kind", ["need_right: 3", "decides: yes"])
def test_the_floor_and_the_waits_may_be_set(kind: str, tmp_path: Path) -> None:
    """For a quiz of either kind; what is not set is as usual: 70 %, and 1, 3 and 14 days."""
    usual, _ = read(tmp_path / "usual", f"{{{kind}, months: 6}}")
    assert usual is not None
    assert (usual.safety_percent, usual.waits) == (70, (1, 3, 14))
    found, problems = read(tmp_path / "set", f"{{{kind}, months: 6, safety_percent: 90, waits: [0, 2]}}")
    assert found is not None
    assert problems == ()
    assert (found.safety_percent, found.waits) == (90, (0, 2))
    assert found.plan is None or found.plan.safety_percent == 90


SETTINGS_AMISS = {
    "a floor over all": ("safety_percent: 101", "safety_percent is '101'", "from 0 to 100"),
    "a wait in words": ("waits: [one]", "waits are 'one'", "[1, 3, 14]"),
    "a wait of years": ("waits: [1, 3, 400]", "waits are '1', '3', '400'", "0 to 366"),
    "a wait that shrinks": ("waits: [3, 1]", "waits are '3', '1'", "none shorter"),
    "no wait at all": ("waits: []", "waits are none", "[1, 3, 14]"),
    "a wait that is no list": ("waits: 3", "waits is not a list", "[one, another]"),
    "too many waits": ("waits: [1, 2, 3, 4, 5, 6, 7]", "waits are '1'", "6 or fewer"),
}


@pytest.mark.parametrize("name", SETTINGS_AMISS)
def test_a_fault_in_the_floor_or_the_waits_is_told_with_its_mend(name: str, tmp_path: Path) -> None:
    """By file and line; the technique is left out whole."""
    typed, problem, mend = SETTINGS_AMISS[name]
    found, problems = read(tmp_path, f"{{need_right: 3, months: 6, {typed}}}")
    assert found is None
    told = next(each for each in problems if problem in each.message)
    assert (told.file, told.line) == (FILE, 20)
    assert mend in told.hint


FAULTS = {
    "a share of all": ("to: 100 %", "to is '100 %', not a share", "0.85, or 85 %"),
    "a share of nothing": ("from: 0", "from is '0', not a share", "between 0 and 1"),
    "a share that is a word": ("false_pass: few", "false_pass is 'few'", "0.85"),
    "a share that is a list": ("false_fail: [1]", "false_fail is a list", "0.85"),
    "shares the wrong way round": ("from: 0.9, to: 0.8", "`from` is not below `to`", "0.60 and 0.85"),
    "risks that leave nothing between": ("false_pass: 0.5, false_fail: 0.5", "come to 1 or more", "0.05 and 0.10"),
    "too many questions": ("at_most: 61", "at_most is '61'", "from 5 to 60"),
    "a need beside a plan": ("need_right: 8", "need_right is not a key of quiz", "Known here"),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_in_a_plan_is_told_with_its_mend(name: str, tmp_path: Path) -> None:
    """By file and line; the technique is left out whole."""
    typed, problem, mend = FAULTS[name]
    found, problems = read(tmp_path, f"{{decides: yes, months: 6, {typed}}}")
    assert found is None
    told = next(each for each in problems if problem in each.message)
    assert (told.file, told.line) == (FILE, 20)
    assert mend in told.hint


def test_a_plan_beside_a_need_is_told(tmp_path: Path) -> None:
    """A quiz of fixed length has no `at_most`."""
    _, problems = read(tmp_path, "{need_right: 3, months: 12, at_most: 20}")
    assert "at_most is not a key of quiz" in problems[0].message


def test_settings_too_narrow_for_the_most_questions_are_told(tmp_path: Path) -> None:
    """Two different questions cannot fill a quiz that may ask five."""
    ranges = "{batch_pounds: 20 to 20 step 1, loss_percent: 15 to 16 step 1, portion_ounces: 3 to 3 step 1}"
    count = f"count: 1, ranges: {ranges}"
    small_kitchen(tmp_path)
    change(tmp_path, FILE, FIXED, "{decides: yes, months: 6, at_most: 5}")
    change(tmp_path, FILE, "family: scale_by_yield, count: 3", f"family: portions_from_batch, {count}")
    change(
        tmp_path, "techniques/rolling/en.yaml", "title:", "questions: {portions_from_batch: {food: gnocchi}}\ntitle:"
    )
    _, problems = load_content(tmp_path)
    assert "The quiz may ask 5 questions" in problems[0].message
    assert "at_most" in problems[0].hint


def test_words_a_family_says_no_more_are_read_and_left_out(tmp_path: Path) -> None:
    """A kitchen's own older content named the hot and the cold part: no problem, and the technique is taught."""
    small_kitchen(tmp_path)
    change(tmp_path, FILE, "{family: scale_by_yield, count: 3}", "{family: tempering_mix, count: 3}")
    with (tmp_path / "techniques/rolling/en.yaml").open("a", encoding="utf-8") as words:
        words.write("questions: {tempering_mix: {hot: milk|cream, cold: yolk mix, milk: whole milk}}\n")
    content, problems = load_content(tmp_path)
    assert problems == ()
    assert content is not None
    assert content.techniques["rolling"].questions[0].words == {"milk": ("whole milk",)}
    assert len(content.stations) == 1
