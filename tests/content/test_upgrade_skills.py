"""Content of the former format asks for skills after an upgrade: a file for each setting, alike ones once."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

from tests.content.test_content_languages import spanish_kitchen
from tests.store.small_kitchen import change
from trainer.content.files import load_content
from trainer.content.upgrade import upgrade_of

FILE, WORDS, SPANISH = (f"techniques/rolling/{name}.yaml" for name in ("technique", "en", "es"))
ASKED = """\
questions:
  # What the bench asks.
  - {family: scale_by_yield, count: 3}
  - family: date_mark
    count: 2
    ranges: {days_allowed: 6 to 7 step 1, code_days: 7 to 7 step 1}

  - {family: par_level, count: 2}
"""


def former_kitchen(folder: Path) -> Path:
    """Return a kitchen in two languages whose technique asks three families in a quiz."""
    spanish_kitchen(folder)
    change(folder, FILE, "questions:\n  - {family: scale_by_yield, count: 3}\n", ASKED)
    for file, food in ((WORDS, "Sheets|Ribbons"), (SPANISH, "Hojas|Listones")):
        path = folder / file
        path.write_text(
            f"{path.read_text(encoding='utf-8')}questions:\n  date_mark: {{food: {food}}}\n", encoding="utf-8"
        )
    return folder


def upgraded(folder: Path) -> tuple[str, ...]:
    """Bring a folder up to date; return why techniques keep their quiz."""
    found = upgrade_of(folder)
    found.write(date(2026, 12, 1))
    return found.stays


def test_each_setting_becomes_a_skill(tmp_path: Path) -> None:
    """Ranges and words as they were typed, in each language; a quiz passed before counts as long as it did."""
    folder = former_kitchen(tmp_path / "content")
    assert load_content(folder)[1] == ()
    assert upgraded(folder) == ()
    for language, title, food in (("en", "Days left on a date mark", "Sheets"), ("es", "", "Hojas")):
        content, problems = load_content(folder, language)
        assert problems == ()
        assert content is not None
        rolling = content.techniques["rolling"]
        assert [skill.id for skill in rolling.knowledge] == ["scale_by_yield", "date_mark", "par_level"]
        date_mark = content.skills["date_mark"]
        assert date_mark.setting.words["food"][0] == food
        assert date_mark.title == title or language == "es"
        assert [str(each) for each in date_mark.setting.ranges["days_allowed"]] == ["6", "7", "1"]
        assert (rolling.quiz_months, rolling.plan) == (12, None)
    text = (folder / FILE).read_text(encoding="utf-8")
    assert "quiz: {months: 12}\n" in text
    assert "knowledge: [scale_by_yield, date_mark, par_level]\n" in text
    assert "questions" not in text
    assert "questions" not in (folder / SPANISH).read_text(encoding="utf-8")


def test_what_two_techniques_ask_alike_is_one_skill(tmp_path: Path) -> None:
    """Where they differ each has its own, by its name; a skill only one asks for is its own craft."""
    folder = former_kitchen(tmp_path / "content")
    shutil.copytree(folder / "techniques" / "rolling", folder / "techniques" / "cutting")
    change(folder, "techniques/cutting/technique.yaml", "days_allowed: 6", "days_allowed: 5")
    assert upgraded(folder) == ()
    content, problems = load_content(folder)
    assert problems == ()
    assert content is not None
    assert list(content.skills) == ["date_mark_cutting", "date_mark_rolling", "par_level", "scale_by_yield"]


def test_a_technique_that_asks_too_little_keeps_its_quiz(tmp_path: Path) -> None:
    """Two families are two skills, and three are asked for at least: it is said, and nothing is changed."""
    folder = former_kitchen(tmp_path / "content")
    change(folder, FILE, "  - {family: par_level, count: 2}\n", "")
    before, _ = load_content(folder)
    found = upgrade_of(folder)
    assert found.texts == {}
    assert found.stays == ("rolling keeps its quiz: rolling asks for 2 skills.",)
    assert load_content(folder)[0] == before


def test_a_skill_that_luck_passes_leaves_the_quiz(tmp_path: Path) -> None:
    """Three faults make three choices: with two struck out one is left, which proves nothing."""
    folder = former_kitchen(tmp_path / "content")
    change(folder, FILE, "faults: [torn]", "faults: [torn, thick, dry]")
    for file in (WORDS, SPANISH):
        path, text = folder / file, (folder / file).read_text(encoding="utf-8")
        more = "".join(
            f"  {name}: {{shows: {name} s., cause: {name} c., cure: {name} r.}}\n" for name in ("thick", "dry")
        )
        path.write_text(text.replace("checklist:\n", f"{more}checklist:\n", 1), encoding="utf-8")
    change(folder, FILE, "  - {family: par_level, count: 2}\n", "  - {family: choose_fault, count: 2}\n")
    assert load_content(folder)[1] == ()
    (why,) = upgrade_of(folder).stays
    assert why == "rolling keeps its quiz: Right by luck 1 of the time: more than 1/2 proves nothing."
