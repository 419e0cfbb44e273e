"""The shipped questions: no answer that is nearly always the same, and none that stands in the text."""

from __future__ import annotations

import pytest

from tests.content.conftest import CONTENT
from tests.kitchen.quiz.asking import draw_question
from tests.kitchen.quiz.echoes import echoes
from tests.seeds import first_and_rest
from trainer.content.answers import answers_too_common
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.luck import luck_of
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.technique import Content


def test_no_shipped_setting_has_one_answer(content: Content) -> None:
    """Of each sum the commonest answer is right in less than half of its questions: today in a third at most."""
    assert answers_too_common(CONTENT, content) == ()
    lucks = [
        luck_of(setting, each, content.question_words)
        for each in content.techniques.values()
        for setting in each.questions
    ]
    assert max(luck.share for luck in lucks if luck) < 0.4


@pytest.mark.parametrize("seeds", first_and_rest(40, every=200))
@pytest.mark.parametrize("technique", sorted(path.parent.name for path in CONTENT.glob("techniques/*/technique.yaml")))
def test_no_quantity_of_a_shipped_question_is_graded_right(content: Content, technique: str, seeds: range) -> None:
    """With each technique's own ranges and words, over two hundred seeds."""
    taught = content.techniques[technique]
    for setting in taught.questions:
        for seed in seeds:
            question = draw_question(setting.family, seed, setting, material_of(taught))
            assert [echo for echo in echoes(question) if grade(question, echo, ".").is_right] == [], question.text
