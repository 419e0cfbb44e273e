"""Every question of the shipped techniques can be told in Spanish, its numbers as drawn."""

from __future__ import annotations

import pytest

from tests.content.conftest import CONTENT
from trainer.content.files import load_content
from trainer.kitchen.quiz.drawing import draw_sitting
from trainer.kitchen.quiz.in_turn import draw_in_turn
from trainer.kitchen.quiz.retelling import asked_again, told_in_both
from trainer.kitchen.technique import Content, Technique


@pytest.fixture(scope="module")
def spanish() -> Content:
    """Return the shipped content in Spanish."""
    content, problems = load_content(CONTENT, "es")
    assert content is not None, problems
    return content


def told_alike(own: Technique, told: Technique) -> bool:
    """Return whether each list of words to draw from is as long in both tellings, so that a word has its like."""
    words = {setting.family: setting.words for setting in told.questions}
    return all(
        len(text.split("|")) == len(words[setting.family].get(name, "").split("|"))
        for setting in own.questions
        for name, text in setting.words.items()
    )


def test_every_word_of_a_question_has_its_like(content: Content, spanish: Content) -> None:
    """Where English has three foods to draw one from, Spanish has three."""
    assert [name for name, own in content.techniques.items() if not told_alike(own, spanish.techniques[name])] == []


def test_every_question_is_drawn_again(content: Content, spanish: Content) -> None:
    """No page falls back on the English question: each one of a sitting is found again by its seed."""
    for name, own in content.techniques.items():
        both = told_in_both(own, spanish.techniques[name])
        for question in draw_in_turn(own, 11, own.asked) if own.plan else draw_sitting(own, 11):
            again = asked_again(question, both)
            assert again is not question, name
            assert again == question
