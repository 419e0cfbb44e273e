"""The shipped skills: each asks enough, in both languages, and no question tells its own answer."""

from __future__ import annotations

import pytest

from tests.content.conftest import CONTENT
from tests.kitchen.quiz.asking import draw_question
from tests.kitchen.quiz.echoes import echoes
from tests.seeds import first_and_rest
from trainer.content.files import load_content
from trainer.content.skill_check import check_skills, context_of_skill
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.skills.rule import MOST_SAFETY_LUCK
from trainer.kitchen.technique import Content

SKILLS = sorted(path.name for path in (CONTENT / "skills").iterdir())


def test_no_shipped_skill_asks_too_little(content: Content) -> None:
    """No common answer, no family of few questions, no answer in the text, no station of too many skills."""
    found = check_skills(CONTENT, content)
    assert found.problems == ()
    assert found.figures.keys() == content.skills.keys() == set(SKILLS)


def test_every_shipped_skill_is_asked_by_a_technique_of_a_station(content: Content) -> None:
    """A skill that no work asks for is passed by nobody."""
    taught = {id for station in content.stations.values() for id in station.techniques}
    asked = {skill.id for id in taught for skill in content.techniques[id].knowledge}
    assert set(SKILLS) == asked


def test_no_answer_about_safety_is_right_more_than_one_time_in_four(content: Content) -> None:
    """Neither by the form of the questions nor by how their answers fall."""
    figures = check_skills(CONTENT, content).figures
    about = {id: skill for id, skill in content.skills.items() if skill.is_safety}
    assert len(about) > 10
    assert all(skill.luck <= MOST_SAFETY_LUCK and skill.base == 3 for skill in about.values())
    assert max(figures[id].share for id in about) <= MOST_SAFETY_LUCK


def test_each_bank_of_scenes_is_a_skill(content: Content) -> None:
    """Its luck is the mean over its scenes, at most one in four."""
    banks = {id for id, technique in content.techniques.items() if technique.scenes}
    assert {skill.of for skill in content.skills.values() if skill.setting.family == "decide"} == banks != set()


def test_every_skill_has_words_of_its_own_in_spanish() -> None:
    """Title and lists; no two skills go by one title in either language."""
    english, spanish = (load_content(CONTENT, language)[0] for language in ("en", "es"))
    assert english is not None
    assert spanish is not None
    for told in (english, spanish):
        titles = [skill.title for skill in told.skills.values()]
        assert len(set(titles)) == len(titles) == len(SKILLS)
    assert all(spanish.skills[id].title != skill.title for id, skill in english.skills.items())


@pytest.mark.parametrize("seeds", first_and_rest(20, every=100))
@pytest.mark.parametrize("name", SKILLS)
def test_no_quantity_of_a_question_is_graded_right(content: Content, name: str, seeds: range) -> None:
    """With each skill's own ranges and words; a cook who copies a number of the text learns nothing by it."""
    skill = content.skills[name]
    material = context_of_skill(skill, content.techniques, content).material
    for seed in seeds:
        question = draw_question(skill.setting.family, seed, skill.setting, material)
        assert [echo for echo in echoes(question) if grade(question, echo, ".").is_right] == [], question.text
