"""What many draws show of skills: a common answer, too few questions, an answer that stands in the text."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from tests.content.test_skill_files import kitchen_with_skills
from tests.store.small_kitchen import change
from trainer.cli import trainer
from trainer.content.files import load_content
from trainer.content.skill_check import check_skills
from trainer.kitchen.quiz.scenes import luck_of_choices
from trainer.kitchen.quiz.skill_figures import estimated
from trainer.kitchen.skills.days_to_ready import days_to_ready

DATE, SHEETS = "skills/date_mark/skill.yaml", "skills/sheets/skill.yaml"


def messages(folder: Path) -> list[tuple[str, int, str]]:
    """Return what the check of skills says of a folder."""
    found = check_skills(folder, load_content(folder)[0])
    return [(each.file, each.line, each.message) for each in found.problems]


def test_skills_that_ask_enough_are_no_problem(tmp_path: Path) -> None:
    """Answers differ, and there are more than a thousand questions of each."""
    folder = kitchen_with_skills(tmp_path)
    assert messages(folder) == []
    figures = check_skills(folder, load_content(folder)[0]).figures
    assert all(found.questions > 1000 and found.share < 0.26 for found in figures.values())


def test_an_answer_that_is_always_the_same_is_told_with_its_share(tmp_path: Path) -> None:
    """Kept for three days, two days later one is left: by hand, always 1."""
    folder = kitchen_with_skills(tmp_path)
    change(folder, DATE, "6 to 7 step 1", "4 to 4 step 1, days_later: 3 to 3 step 1")
    assert (DATE, 2, "date_mark: the answer is 1 day in 100 of 100 questions.") in messages(folder)


def test_too_few_numbers_are_told_by_about_how_many_there_are(tmp_path: Path) -> None:
    """A recipe for 20 made for 73, in pounds from 2 to 6 by halves: nine questions by hand."""
    folder = kitchen_with_skills(tmp_path)
    ranges = "ranges: {old_portions: 20 to 20 step 1, new_portions: 73 to 73 step 1, amount_pounds: 2 to 6 step 1/2}"
    change(folder, SHEETS, "scale_by_yield", f"scale_by_yield\n{ranges}")
    assert (SHEETS, 2, "sheets has 9 different questions; with 3 in a row it needs 1000.") in messages(folder)


@pytest.mark.parametrize(("found", "drawn", "there"), [(865, 2000, 1000), (9, 2000, 9), (240, 240, 10_000)])
def test_how_many_there_are_is_estimated_from_those_met_twice(found: int, drawn: int, there: int) -> None:
    """Of 1,000 things 2,000 draws meet 1000 (1 - e^-2) = 864.7 different ones: the classic occupancy figure."""
    assert estimated(found, drawn) == there


@pytest.mark.parametrize(("choices", "marks_all", "luck"), [(6, False, "1/4"), (4, False, "1/2"), (5, True, "1/8")])
def test_two_choices_are_struck_out(choices: int, marks_all: bool, luck: str) -> None:
    """Of six four are left; of five words to be marked or not, three: 2 x 2 x 2."""
    assert str(luck_of_choices(choices, is_mark_all=marks_all)) == luck


def test_a_cook_who_is_always_right_is_through_as_fast_as_the_rule_lets() -> None:
    """Three skills of three: two answers a day each, so the third comes on day 2. Nine: 27 answers at nine a day, 3."""
    three = ((("a", 3), ("b", 3), ("c", 3)),)
    assert days_to_ready(three, 1.0).median == 2
    nine = (tuple((name, 3) for name in "abcdefghi"),)
    assert days_to_ready(nine, 1.0).median == 3


def test_the_check_prints_what_the_rule_lets_through(tmp_path: Path) -> None:
    """Base 3, right 60 times in 100: 32 at first, 45 within three rounds (closed form, worked out apart)."""
    result = CliRunner().invoke(trainer, ["content", "check", str(kitchen_with_skills(tmp_path))])
    assert result.exit_code == 0
    lines = result.output.splitlines()
    sheets = next(line for line in lines if line.startswith("sheets "))
    assert "luck 1/10, 3 in a row" in sheets
    assert "32/45" in sheets
    assert any(line.startswith("rolling: 3 skills, 9 right in a row in all") for line in lines)
    station = next(line for line in lines if line.startswith("station bench: "))
    assert "3 skills in 1 techniques, 3.0 a technique; ready after 2," in station
    assert lines[-1] == "1 techniques, 1 stations, 0 problems"


def test_the_record_lists_each_skill_of_each_technique(tmp_path: Path) -> None:
    """For scripts: luck as a fraction, the row, how many different questions."""
    result = CliRunner().invoke(trainer, ["content", "check", str(kitchen_with_skills(tmp_path)), "--json"])
    skills = json.loads(result.output)["skills"]
    assert [each["skill"] for each in skills] == ["sheets", "warm", "date_mark"]
    assert skills[2] | {"stems": 0} == {
        "technique": "rolling",
        "skill": "date_mark",
        "family": "date_mark",
        "safety": True,
        "luck": "1/10",
        "base": 3,
        "stems": 0,
    }


@pytest.mark.parametrize(
    ("ranges", "is_told"),
    [
        ("", True),
        ("ranges: {old_portions: 20 to 40 step 1}\n", True),
        ("ranges: {old_portions: 81 to 90 step 1}\n", False),
    ],
)
def test_one_thing_asked_twice_is_told(tmp_path: Path, ranges: str, *, is_told: bool) -> None:
    """Two skills of one family in one technique, whose ranges meet: a recipe for 10 to 80 is the family's own."""
    folder = kitchen_with_skills(tmp_path)
    own = folder / "skills" / "again"
    own.mkdir()
    (own / "skill.yaml").write_text(f"family: scale_by_yield\n{ranges}", encoding="utf-8")
    (own / "en.yaml").write_text("title: Again\n", encoding="utf-8")
    change(folder, "techniques/rolling/technique.yaml", "date_mark]", "date_mark, again]")
    said = "sheets and again ask scale_by_yield with ranges that overlap: one thing, asked twice."
    assert (("techniques/rolling/technique.yaml", 21, said) in messages(folder)) is is_told


def test_a_station_of_too_many_skills_is_told(tmp_path: Path) -> None:
    """Five of one technique are more than four a technique."""
    folder = kitchen_with_skills(tmp_path)
    for name, family in (("one", "par_level"), ("two", "packs_to_buy")):
        own = folder / "skills" / name
        own.mkdir()
        (own / "skill.yaml").write_text(f"family: {family}\n", encoding="utf-8")
        (own / "en.yaml").write_text("title: More\n", encoding="utf-8")
    change(folder, "techniques/rolling/technique.yaml", "date_mark]", "date_mark, one, two]")
    assert ("stations/bench.yaml", 2, "bench asks for 5 skills in 1 techniques.") in messages(folder)
