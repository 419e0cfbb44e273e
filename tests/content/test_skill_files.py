"""Skills as files: each written once, read with its luck, asked for by techniques, every fault told with its line."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

import pytest

from tests.store.small_kitchen import STRUCTURE, change, small_kitchen
from trainer.content.draft import draft_of
from trainer.content.files import load_content
from trainer.kitchen.technique import Content, Problem

TECHNIQUE = "techniques/rolling/technique.yaml"
SKILLS = {
    "sheets": ("family: scale_by_yield\n", "title: More sheets\nwords: {food: flour|egg}\n"),
    "warm": ("family: temperature_to_fahrenheit\n", "title: In Fahrenheit\n"),
    "date_mark": (
        "family: date_mark\nranges: {days_allowed: 6 to 7 step 1}\nmonths: 3\n",
        "title: How long it keeps\nwords: {food: Sheets|Ribbons}\n",
    ),
}


def add_skill(folder: Path, name: str) -> None:
    """Write one of the skills into a kitchen."""
    own, (structure, words) = folder / "skills" / name, SKILLS[name]
    own.mkdir(parents=True)
    (own / "skill.yaml").write_text(structure, encoding="utf-8")
    (own / "en.yaml").write_text(words, encoding="utf-8")


def kitchen_with_skills(folder: Path) -> Path:
    """Return the small kitchen with three skills that its technique asks for."""
    small_kitchen(folder)
    for name in SKILLS:
        add_skill(folder, name)
    asked = "quiz: {months: 12}\nknowledge: [sheets, warm, date_mark]\n"
    lines = STRUCTURE.replace("questions:\n  - {family: scale_by_yield, count: 3}\n", "")
    lines = lines.replace("quiz: {need_right: 3, months: 12}\n", asked)
    (folder / TECHNIQUE).write_text(lines, encoding="utf-8")
    return folder


def read(folder: Path) -> tuple[Content, tuple[Problem, ...]]:
    """Return what a folder teaches and its problems."""
    content, problems = load_content(folder)
    assert content is not None
    return content, problems


def test_a_technique_asks_for_its_skills_in_their_order(tmp_path: Path) -> None:
    """Each with its setting; a number is hit by luck one time in ten, which asks for three in a row."""
    content, problems = read(kitchen_with_skills(tmp_path))
    assert problems == ()
    rolling = content.techniques["rolling"]
    assert [skill.id for skill in rolling.knowledge] == ["sheets", "warm", "date_mark"]
    assert [setting.family for setting in rolling.questions] == [
        "scale_by_yield", "temperature_to_fahrenheit", "date_mark",
    ]  # fmt: skip
    assert rolling.questions[0].words == {"food": ("flour", "egg")}
    assert {(skill.luck, skill.base) for skill in rolling.knowledge} == {(Fraction(1, 10), 3)}
    assert content.skills["warm"] == rolling.knowledge[1]
    assert (rolling.quiz_months, rolling.plan, rolling.need_right) == (12, None, 0)


def test_safety_is_that_of_the_family_and_shortens_the_months(tmp_path: Path) -> None:
    """A family with a caution is about safety: six months at the most; another one is good for twelve."""
    folder = kitchen_with_skills(tmp_path)
    content, _ = read(folder)
    assert [(skill.is_safety, skill.months) for skill in content.skills.values()] == [
        (True, 3), (False, 12), (False, 12),
    ]  # fmt: skip
    change(folder, "skills/sheets/skill.yaml", "scale_by_yield", "scale_by_yield\nsafety: yes")
    assert (read(folder)[0].skills["sheets"].is_safety, read(folder)[0].skills["sheets"].months) == (True, 6)


def test_a_skill_nobody_asks_for_is_no_problem(tmp_path: Path) -> None:
    """It is there for the technique to come."""
    folder = kitchen_with_skills(tmp_path)
    own = folder / "skills" / "later"
    own.mkdir()
    (own / "skill.yaml").write_text("family: par_level\n", encoding="utf-8")
    (own / "en.yaml").write_text("title: An order\n", encoding="utf-8")
    content, problems = read(folder)
    assert problems == ()
    assert "later" in content.skills


def test_a_technique_of_the_former_format_is_read_as_ever(tmp_path: Path) -> None:
    """With its quiz, its questions and no skill."""
    content, problems = read(small_kitchen(tmp_path))
    assert problems == ()
    assert content.techniques["rolling"].knowledge == ()
    assert content.techniques["rolling"].asked == 3


def test_spanish_words_of_a_skill_are_held_to_english(tmp_path: Path) -> None:
    """As many alternatives in each list; with a problem the skill is told in English, and its technique stays."""
    folder = kitchen_with_skills(tmp_path)
    spanish = folder / "skills" / "sheets" / "es.yaml"
    spanish.write_text("title: Más hojas\nwords: {food: harina|huevo}\n", encoding="utf-8")
    content, problems = load_content(folder, "es")
    assert problems == ()
    assert content is not None
    assert content.skills["sheets"].title == "Más hojas"
    assert content.techniques["rolling"].questions[0].words == {"food": ("harina", "huevo")}
    spanish.write_text("title: Más hojas\nwords: {food: harina}\n", encoding="utf-8")
    content, problems = load_content(folder, "es")
    assert [(each.file, each.line) for each in problems] == [("skills/sheets/es.yaml", 2)]
    assert content is not None
    assert content.techniques["rolling"].knowledge[0].title == "More sheets"


def test_the_preview_draws_the_skills_too(tmp_path: Path) -> None:
    """A person who writes a technique sees what it asks."""
    draft = draft_of(kitchen_with_skills(tmp_path), "rolling", "en", "us")
    assert draft is not None
    assert draft.technique is not None
    assert [skill.id for skill in draft.technique.knowledge] == ["sheets", "warm", "date_mark"]


class Fault(NamedTuple):
    """What is typed in place of what, the line of the problem, what is said of it, and how to fix it."""

    file: str
    old: str
    new: str
    line: int
    message: str
    hint: str


SHEETS, DATE, ASKED = "skills/sheets/skill.yaml", "skills/date_mark/skill.yaml", "[sheets, warm, date_mark]"
FAULTS = {
    "no such family": Fault(
        SHEETS, "scale_by_yield", "scale_yield", 1, "'scale_yield', which is not known", "scale_by"
    ),
    "two families": Fault(
        SHEETS, "scale_by_yield", "[scale_by_yield, par_level]", 1, "family names 'a list'", "Known here"
    ),
    "no such range": Fault(SHEETS, "yield", "yield\nranges: {bowls: 1 to 2 step 1}", 2, "ranges has no bowls", "Known"),
    "a range of nothing": Fault(
        SHEETS, "yield", "yield\nranges: {old_portions: 9 to 2 step 1}", 2, "not a range", "lowest first"
    ),
    "a list it does not have": Fault(
        "skills/sheets/en.yaml", "food: flour|egg", "flour: flour|egg", 2, "words has no flour", "food"
    ),
    "no title": Fault("skills/sheets/en.yaml", "title: More sheets\n", "", 1, "the words has no title", "Add"),
    "safety taken from a caution": Fault(DATE, "months: 3", "safety: no", 3, "safety is no, but date_mark", "hurt"),
    "safety for a year": Fault(DATE, "months: 3", "months: 12", 3, "months is 12, more than the 6", "6 or fewer"),
    "longer than a year": Fault(SHEETS, "yield", "yield\nmonths: 13", 2, "'13', not a whole number", "from 1 to 12"),
    "another technique's words": Fault(
        SHEETS, "yield", "yield\nof: rolling", 2, "of is not a key of a skill of scale_by_yield", "Take it out"
    ),
    "whose faults is not said": Fault(
        SHEETS, "scale_by_yield", "choose_fault", 1, "sheets does not say whose faults", "of: <technique>"
    ),
    "too few faults": Fault(
        "skills/warm/skill.yaml",
        "temperature_to_fahrenheit",
        "choose_fault\nof: rolling",
        1,
        "no question fitted",
        "Write more faults",
    ),
    "no such skill": Fault(TECHNIQUE, ASKED, "[sheets, warm, date_marks]", 21, "'date_marks'", "mean date_mark?"),
    "too few skills": Fault(TECHNIQUE, ASKED, "[sheets, warm]", 21, "rolling asks for 2 skills", "3 to 9"),
    "no skill at all": Fault(TECHNIQUE, ASKED, "[]", 21, "rolling asks for 0 skills", "3 to 9"),
    "a skill twice": Fault(TECHNIQUE, ASKED, "[sheets, warm, warm, date_mark]", 21, "warm stands twice", "Keep one"),
    "the same as itself": Fault(SHEETS, "yield", "yield\nsame_as: sheets", 2, "the same as itself", "another skill"),
    "the same as no skill": Fault(SHEETS, "yield", "yield\nsame_as: sheet", 2, "'sheet'", "mean sheets?"),
    "the same as another": Fault(
        SHEETS, "yield", "yield\nsame_as: warm", 21, "rolling asks for sheets and warm, which are one skill", "Keep one"
    ),
    "questions beside skills": Fault(
        TECHNIQUE, "sources: [town", "questions: []\nsources: [town", 23, "questions stands beside", "Take it out"
    ),
    "what passes a quiz beside skills": Fault(
        TECHNIQUE, "{months: 12}", "{need_right: 3, months: 12}", 20, "asked one by one", "{months: 12}"
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_each_fault_is_told_with_its_line(tmp_path: Path, name: str) -> None:
    """And leaves out the technique that asks for it."""
    folder, fault = kitchen_with_skills(tmp_path), FAULTS[name]
    change(folder, fault.file, fault.old, fault.new)
    content, problems = read(folder)
    told = [each for each in problems if fault.message in each.message]
    assert told, problems
    assert fault.hint in told[0].hint
    assert told[0].line == fault.line
    assert "rolling" not in content.techniques
    assert "bench" not in content.stations


def test_a_quiz_that_says_only_its_months_passes_nobody(tmp_path: Path) -> None:
    """Where no skill is asked for, a quiz needs to say what passes it."""
    folder = small_kitchen(tmp_path)
    change(folder, TECHNIQUE, "{need_right: 3, months: 12}", "{months: 12}")
    _, problems = read(folder)
    assert [each.message for each in problems] == ["quiz has no need_right."]


def test_a_technique_without_its_own_craft_is_refused(tmp_path: Path) -> None:
    """Where every skill is asked for by another technique too, nothing is asked of its own work."""
    folder = kitchen_with_skills(tmp_path)
    own = folder / "techniques" / "cutting"
    own.mkdir()
    for file in (folder / "techniques" / "rolling").iterdir():
        (own / file.name).write_bytes(file.read_bytes())
    _, problems = read(folder)
    assert [each.file for each in problems if "no skill of its own craft" in each.message] == [
        "techniques/cutting/technique.yaml",
        TECHNIQUE,
    ]
