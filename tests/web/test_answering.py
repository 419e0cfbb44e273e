"""Answering on a page without script: all that fits is marked, an act and then why, a name for each picture."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

import pytest

from tests.kitchen.quiz.asking import Asked, printed
from tests.printed import english
from tests.web.hands import Hands
from tests.web.small_content import CONTENT, NESTS
from tests.web.test_cook import read_through
from trainer.actions.asking_skills import context_for, draft_id, question_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.sitting import find_sitting, open_sitting
from trainer.kitchen.quiz.practice_scenes import PRACTICE_SCENES
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import AskedSkill, QuestionSetting


def begin(ana: Hands, kitchen: Kitchen, scene: str) -> Asked:
    """Let the nests ask one question about one scene, start the quiz and open it; return the question."""
    asked = (QuestionSetting("decide", MappingProxyType({}), MappingProxyType({}), 1),)
    scenes = tuple(each for each in PRACTICE_SCENES if each.id == scene)
    nests = replace(NESTS, questions=asked, need_right=1, scenes=scenes)
    kitchen.content = replace(CONTENT, techniques=MappingProxyType({**CONTENT.techniques, "nests": nests}))
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    ana.open(f"/sittings/{found.id}/1")
    return printed(found.questions[0])


def test_every_one_that_fits_is_marked(ana: Hands, kitchen: Kitchen) -> None:
    """Boxes with letters; two of three is wrong, and the result says which was left out."""
    question = begin(ana, kitchen, "soft")
    boxes = ana.page.soup.select(".tick input[type=checkbox]")
    assert [box["data-letter"] for box in boxes] == ["A", "B", "C", "D", "E"]
    assert ana.page.soup.select_one("legend").get_text() == "Choose every one that fits"  # type: ignore[union-attr]
    keys = question.key.split()
    page = ana.press("Answer", answer=keys[:2])
    page = ana.press("Hand in")
    assert "0 of 1 right" in page.work
    left = question.choices[int(keys[2]) - 1]
    assert f"Left out: {left.letter} {left.text}." in page.work
    (line,) = kitchen.file.book.of_kind("quiz_sat")[0].body["questions"]
    assert (line["answer"], line["given"], line["method"]) == (question.key, " ".join(keys[:2]), "left_out")


def test_nothing_marked_is_asked_again(ana: Hands, kitchen: Kitchen) -> None:
    """And nothing is kept."""
    begin(ana, kitchen, "soft")
    page = ana.press("Answer", answer=[])
    assert "Nothing is marked yet." in page.soup.get_text()


def test_an_act_stands_while_its_reason_is_asked(ana: Hands, kitchen: Kitchen) -> None:
    """First the acts alone, then the reasons alone beside the act chosen; what counts is sent with the reason."""
    question = begin(ana, kitchen, "nearly")
    act, why = question.key.split()
    texts = [each.text for each in question.reasons]
    assert not any(text in ana.page.work for text in texts)
    page = ana.press("Answer", answer=act)
    assert f"You do this: {question.choices[int(act) - 1].letter} {question.choices[int(act) - 1].text}" in page.work
    assert all(text in page.work for text in texts)
    (sitting,) = kitchen.file.drafts.list("sitting", cook="ana")
    found = find_sitting(kitchen, sitting.id)
    assert found is not None
    assert found.answers == {}
    ana.press("Answer", answer=[act, why])
    assert "1 of 1 right" in ana.press("Hand in").work


def test_each_picture_is_named(ana: Hands, kitchen: Kitchen) -> None:
    """Three lists under one drawing with three letters; a name given twice is asked again."""
    question = begin(ana, kitchen, "cores")
    assert len(ana.page.soup.select(".names-of select")) == 3
    assert len(ana.page.soup.select("[role=img] svg svg")) == 3
    assert "Give each picture a name" in ana.press("Answer", answer=["1", "1", "2"]).soup.get_text()
    ana.press("Answer", answer=question.key.split())
    page = ana.press("Hand in")
    assert "1 of 1 right" in page.work


@pytest.mark.parametrize("scene", [scene.id for scene in PRACTICE_SCENES])
def test_a_scene_is_tried_and_drilled(ana: Hands, kitchen: Kitchen, scene: str) -> None:
    """Trying one says how it was; every wrong method that can show has a drill page."""
    question = begin(ana, kitchen, scene)
    keys = [question.key] if question.answering == "number" else question.key.split()
    query = "&".join(f"answer={key}" for key in keys)
    right = ana.open("/techniques/nests/try/decide?seed=3").work
    assert english(question.text).split("{")[0][:20] in right
    if question.answering in {"all", "names", "reason"} and len(PRACTICE_SCENES) > 1:
        assert "Right" in ana.open(f"/techniques/nests/try/decide?seed={question.seed}&{query}").work


def test_a_drill_about_a_mark_left_out_has_a_page(ana: Hands, kitchen: Kitchen) -> None:
    """There is no choice that it would take, and the page says none."""
    begin(ana, kitchen, "soft")
    page = ana.open("/techniques/nests/drills/decide/left_out?seed=4")
    assert page.response.status_code == 200
    assert "The other way" not in page.work
    assert page.work.count("This one:") == 3


def begin_skill(ana: Hands, kitchen: Kitchen, scene: str) -> Asked:
    """Let the nests ask for one skill, a bank of one scene, and open its question."""
    scenes = tuple(each for each in PRACTICE_SCENES if each.id == scene)
    setting = QuestionSetting("decide", MappingProxyType({}), MappingProxyType({}), 1)
    skill = AskedSkill("deciding", "Deciding", setting, False, 12, Fraction(1, 4), 3, "nests")
    nests = replace(NESTS, knowledge=(skill,), questions=(setting,), scenes=scenes)
    kitchen.content = replace(
        CONTENT,
        techniques=MappingProxyType({**CONTENT.techniques, "nests": nests}),
        skills=MappingProxyType({"deciding": skill}),
    )
    read_through(ana)
    ana.open("/techniques/nests/questions")
    draft = kitchen.file.drafts.get(draft_id("ana", "deciding"))
    assert draft is not None
    return printed(tell(question_of(draft, skill).drawn, context_for(skill, kitchen.content)))


@pytest.mark.parametrize("scene", ["soft", "cores", "clumped", "nearly"])
def test_one_question_a_page_is_answered_in_each_way(ana: Hands, kitchen: Kitchen, scene: str) -> None:
    """Right in every way of answering; the book has keys, and the page says what was chosen."""
    question = begin_skill(ana, kitchen, scene)
    keys = question.key.split()
    page = ana.press("Answer", answer=keys)
    assert "Deciding: Right" in page.soup.get_text()
    (entry,) = kitchen.file.book.of_kind("answered")
    assert (entry.body["answer"], entry.body["given"], entry.body["stem"]) == (question.key, question.key, scene)


def test_an_act_alone_is_no_mistake(ana: Hands, kitchen: Kitchen) -> None:
    """The page asks why, without a word of an error; a wrong reason is named."""
    question = begin_skill(ana, kitchen, "nearly")
    act = question.key.split()[0]
    page = ana.press("Answer", answer=act)
    assert not page.soup.select(".problems, .problem")
    assert not page.soup.title.get_text().startswith("Error")  # type: ignore[union-attr]
    wrong = next(each for each in question.reasons if not each.is_right)
    page = ana.press("Answer", answer=[act, wrong.key])
    assert wrong.says in page.work
    (entry,) = kitchen.file.book.of_kind("answered")
    assert (entry.body["verdict"], entry.body["name"]) == ("method", "other_reason")
