"""A question in a reader's words is the same question: every number, answer, choice and wrong method as it was."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from tests.web.small_content import NESTS
from trainer.kitchen.quiz.drawing import GRADER, draw_sitting
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.retelling import asked_again, retold, told_in_both
from trainer.kitchen.technique import Fault, QuestionSetting, Step, Technique
from trainer.recipe_math.saying import Saying
from trainer.store.catalogues import said_in

STEPS = ("Warm the bowl.", "Pour a ladle.", "Whisk.", "Strain.", "Chill.")
PASOS = ("Entibie el tazón.", "Vierta un cucharón.", "Bata.", "Cuele.", "Enfríe.")
SIGNS = (("It is grainy.", "It was too hot.", "Start anew."), ("It runs.", "It was too cold.", "Warm it gently."),
         ("A skin lies on it.", "It stood open.", "Cover it close."))  # fmt: skip
SENAS = (("Está granulosa.", "Estaba muy caliente.", "Empiece de nuevo."),
         ("Se corre.", "Estaba muy fría.", "Entíbiela."),
         ("Tiene nata.", "Quedó destapada.", "Tápela bien."))  # fmt: skip


def technique(steps: tuple[str, ...], signs: tuple[tuple[str, str, str], ...], food: str) -> Technique:
    """Return a technique in some words that asks one question of three families."""
    words = {"amount_to_buy": {"food": food}, "choose_fault": {}, "order_steps": {}}
    return replace(
        NESTS,
        title=steps[0],
        steps=tuple(Step(f"s{place}", "do", text, "", "", "", "", ()) for place, text in enumerate(steps)),
        faults=tuple(Fault(f"f{place}", *texts) for place, texts in enumerate(signs)),
        questions=tuple(
            QuestionSetting(name, MappingProxyType(own), MappingProxyType({}), 1) for name, own in words.items()
        ),
    )


OWN = technique(STEPS, SIGNS, "leeks|kale")
TOLD = technique(PASOS, SENAS, "puerros|col rizada")
PAIRS = {
    "leeks": "puerros", "kale": "col rizada", **dict(zip(STEPS, PASOS, strict=True)),
    **{one: other for own, told in zip(SIGNS, SENAS, strict=True) for one, other in zip(own, told, strict=True)},
}  # fmt: skip


@pytest.mark.parametrize("seed", range(20))
def test_only_the_words_differ(seed: int) -> None:
    """Drawn again from its seed, a question is equal in all its parts; each word of the kitchen is the reader's."""
    both = told_in_both(OWN, TOLD)
    for question in draw_sitting(OWN, seed):
        again = asked_again(question, both)
        assert again == question
        assert again is not question
        own = [word for word in PAIRS if word in question.text]
        assert own
        for word in own:
            assert PAIRS[word] in said_in(again.text, "es")
            assert word not in said_in(again.text, "es")
        assert [said_in(choice.text, "es") for choice in again.choices] == [
            PAIRS.get(choice.text, choice.text) for choice in question.choices
        ]


def test_a_kitchen_that_speaks_spanish_tells_a_reader_in_english() -> None:
    """Its own words are Spanish then, and the reader's English: the other way around is as good."""
    question = draw_sitting(TOLD, 3)[0]
    again = asked_again(question, told_in_both(TOLD, OWN))
    assert again == question
    assert any(word in said_in(again.text, "en") for word in ("leeks", "kale"))
    assert not any(word in said_in(again.text, "en") for word in ("puerros", "col rizada"))


def test_a_technique_told_one_way_is_itself() -> None:
    """Nothing is made where there is nothing to tell otherwise."""
    assert told_in_both(OWN, OWN) is OWN


def test_lists_of_another_length_stay_as_they_are() -> None:
    """A word drawn from three cannot stand for one drawn from two, so the kitchen's own is shown."""
    longer = technique(PASOS, SENAS, "puerros|col rizada|nabos")
    question = draw_sitting(OWN, 1)[0]
    again = asked_again(question, told_in_both(OWN, longer))
    assert again == question
    assert any(word in said_in(again.text, "es") for word in ("leeks", "kale"))


def test_a_question_that_comes_out_otherwise_is_shown_as_it_was() -> None:
    """Where the content has changed since, the cook goes on with what was asked."""
    question = draw_sitting(OWN, 1)[0]
    assert asked_again(question, technique(STEPS, SIGNS, "turnips|peas|beets")) is question
    assert asked_again(question, replace(OWN, questions=())) is question


def kept(question: Question) -> dict[str, object]:
    """Return a question as the book keeps it."""
    return {
        "family": question.family, "seed": question.seed, "text": str.__add__(question.text, ""),
        "figure": question.figure, "choices": {choice.key: choice.text for choice in question.choices},
        "solution": list(question.solution), "answer": str(question.answer.value),
    }  # fmt: skip


def test_the_book_s_question_is_told_in_the_reader_s_words() -> None:
    """Family, seed and grading edition bring it back; the text of the book must be the very same."""
    both = told_in_both(OWN, TOLD)
    for question in draw_sitting(OWN, 8):
        again = retold(kept(question), GRADER, both)
        assert again == question
        assert isinstance(again.text, Saying)
        assert retold(kept(question), GRADER - 1, both) is None
        assert retold({**kept(question), "text": "Another question."}, GRADER, both) is None


def test_a_range_that_gives_nothing_any_more_leaves_the_book_s_words() -> None:
    """A setting nothing can be drawn from does not stop a page."""
    question = draw_sitting(OWN, 1)[0]
    empty = QuestionSetting("amount_to_buy", MappingProxyType({"no_such": "word"}), MappingProxyType({}), 1)
    assert retold(kept(question), GRADER, replace(OWN, questions=(empty,))) is None


@pytest.mark.parametrize("family", FAMILIES)
def test_every_family_can_be_drawn_again(family: str) -> None:
    """With the family's own lists too, the seed brings the same question back."""
    setting = QuestionSetting(family, MappingProxyType({}), MappingProxyType({}), 1)
    own = replace(OWN, questions=(setting,))
    (question,) = draw_sitting(own, 5)
    again = asked_again(question, told_in_both(own, replace(TOLD, questions=(setting,))))
    assert again == question
    assert again is not question
