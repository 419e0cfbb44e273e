"""A skill that a technique did not ask for before: from when it counts, and what it costs those who are cleared."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from tests.kitchen.kitchen_for_tests import small_content
from tests.kitchen.skills.test_knowledge import asked, day, passed, taught
from trainer.kitchen.added_skills import NewSkill, new_skills, with_added
from trainer.kitchen.record import CookRecord
from trainer.kitchen.rules import content_of, rules_of
from trainer.kitchen.technique import Content, Technique

MARKS, HEAT, KNIFE, BONE = asked("marks"), asked("heat"), asked("knife"), asked("bone")
FIRST, SECOND, THIRD = date(2026, 4, 1), date(2026, 5, 1), date(2026, 6, 1)


def of(technique: Technique) -> Content:
    """Return content that teaches one technique, its skills beside it."""
    skills = {skill.id: skill for skill in technique.knowledge}
    return replace(small_content(), techniques={technique.id: technique}, skills=skills, stations={})


def added(content: Content) -> dict[str, date]:
    """Return the days of the one technique."""
    (technique,) = content.techniques.values()
    return dict(technique.added)


def test_the_first_skills_of_a_technique_have_no_day() -> None:
    """Nobody was asked for any before: in a kitchen's first standard, and in the one that ends a quiz."""
    content = of(taught(MARKS, HEAT))
    assert added(with_added(content, None, FIRST)) == {}
    quiz = of(replace(taught(MARKS, HEAT), knowledge=()))
    assert added(with_added(content, quiz, FIRST)) == {}
    assert added(with_added(content, replace(content, techniques={}), FIRST)) == {}


def test_a_skill_more_has_the_day_of_its_standard_and_keeps_it() -> None:
    """From standard to standard, through the rules that the book keeps."""
    first = with_added(of(taught(MARKS, HEAT)), None, FIRST)
    second = with_added(of(taught(MARKS, HEAT, KNIFE)), content_of(rules_of(first)), SECOND)
    assert added(second) == {"knife": SECOND}
    third = with_added(of(taught(BONE, MARKS, HEAT, KNIFE)), content_of(rules_of(second)), THIRD)
    assert added(third) == {"knife": SECOND, "bone": THIRD}


def test_a_skill_taken_out_and_put_back_is_new_again() -> None:
    """Whoever came meanwhile was never asked for it."""
    second = with_added(of(taught(MARKS, HEAT, KNIFE)), of(taught(MARKS, HEAT)), SECOND)
    without = with_added(of(taught(MARKS, HEAT)), second, THIRD)
    assert added(without) == {}
    assert added(with_added(of(taught(MARKS, HEAT, KNIFE)), without, date(2026, 7, 1))) == {"knife": date(2026, 7, 1)}


def test_a_new_skill_costs_its_row_unless_it_is_passed_already() -> None:
    """One that another technique asked for is known; each counts once, however many techniques ask for it."""
    found = [taught(MARKS, HEAT, KNIFE, added={"heat": day(9), "knife": day(9)})] * 2
    record = CookRecord("ana", skills=(*passed(MARKS), *passed(HEAT)))
    assert list(new_skills(record, found, day(9))) == [NewSkill("ana", "knife", 3)]
    assert list(new_skills(record, found, day(10))) == []


def test_a_skill_nobody_asks_for_is_no_rule() -> None:
    """It changes nothing for anybody: the same rules, in the same form."""
    quiz = replace(small_content(), skills={"marks": MARKS})
    assert rules_of(quiz) == rules_of(small_content())
    content = of(taught(MARKS))
    assert rules_of(replace(content, skills={**content.skills, "knife": KNIFE})) == rules_of(content)
