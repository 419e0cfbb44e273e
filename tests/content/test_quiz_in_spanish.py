"""Every question of the shipped techniques can be told in Spanish, its numbers as drawn."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from tests.content.conftest import CONTENT
from tests.kitchen.quiz.asking import printed
from trainer.content.files import load_content
from trainer.kitchen.quiz.drawing import draw_sitting
from trainer.kitchen.quiz.drawn import DrawnQuestion, context_of
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.round_robin import draw_in_turn
from trainer.kitchen.quiz.telling import tell
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
        len(alternatives) == len(words[setting.family].get(name, ()))
        for setting in own.questions
        for name, alternatives in setting.words.items()
    )


def test_every_word_of_a_question_has_its_like(content: Content, spanish: Content) -> None:
    """Where English has three foods to draw one from, Spanish has three."""
    assert [name for name, own in content.techniques.items() if not told_alike(own, spanish.techniques[name])] == []


def drawn_of(content: Content, own: Technique) -> tuple[DrawnQuestion, ...]:
    """Return the questions of a sitting of a technique, as many as it may ask."""
    words = content.question_words
    return draw_in_turn(own, 11, own.asked, words) if own.plan else draw_sitting(own, 11, words)


def told_in_both(content: Content, spanish: Content) -> Iterator[tuple[DrawnQuestion, Question, Question]]:
    """Yield each question of a sitting of every technique, as drawn, in English and in Spanish."""
    for name, own in content.techniques.items():
        for drawn in drawn_of(content, own):
            one, other = (
                tell(drawn, context_of(each.techniques[name], drawn.family, each.question_words))
                for each in (content, spanish)
            )
            yield drawn, one, other


def test_every_question_is_told_in_both(content: Content, spanish: Content) -> None:
    """Key, wrong methods and choices are the same, every number of the text stands in both, and the words differ."""
    for _, one, other in told_in_both(content, spanish):
        assert one.answer == other.answer
        assert [(way.name, way.value) for way in one.wrong_methods] == [
            (way.name, way.value) for way in other.wrong_methods
        ]
        assert [choice.is_right for choice in one.choices] == [choice.is_right for choice in other.choices]
        if not one.choices:
            texts = printed(one).text, printed(other, "es").text
            figures, told = (sorted(re.findall(r"\d+", text)) for text in texts)
            assert figures == told, texts
        assert one.text != other.text
        assert len(one.solution) == len(other.solution)


def test_the_words_of_a_technique_are_told_in_spanish(content: Content, spanish: Content) -> None:
    """Where a technique sets its own foods, the Spanish question names the Spanish one and not the English."""
    named = 0
    for name, own in content.techniques.items():
        taught = spanish.techniques[name]
        for drawn in drawn_of(content, own):
            lists = context_of(own, drawn.family, content.question_words).setting
            told_lists = context_of(taught, drawn.family, spanish.question_words).setting
            assert lists is not None
            assert told_lists is not None
            question = tell(drawn, context_of(taught, drawn.family, spanish.question_words))
            text = printed(question, "es").text
            english = printed(tell(drawn, context_of(own, drawn.family, content.question_words)), "en").text
            for slot, words in lists.words.items():
                word, like = words[drawn.words[slot]], told_lists.words[slot][drawn.words[slot]]
                if word.lower() not in english.lower():  # of foods in several lists one is named
                    continue
                named += word != like
                assert like.lower() in text.lower()
                assert word == like or not re.search(rf"\b{re.escape(word)}\b", text)
    assert named > 20
