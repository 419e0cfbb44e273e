"""A drawn question holds numbers, indexes and ids, and no word: rewording leaves it as it is."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from hashlib import sha256
from pathlib import Path

import pytest

from tests.kitchen.quiz.asking import WORDS, context, drawn_question, reworded
from tests.printed import english
from trainer.kitchen.quiz.drawing import DRAWER, draw_question
from trainer.kitchen.quiz.drawn import DrawnQuestion, QuestionContext, drawn_from
from trainer.kitchen.quiz.families import FAMILIES, NUMERIC
from trainer.kitchen.quiz.material import PRACTICE, Material, StepWords
from trainer.kitchen.quiz.telling import CannotTell, tell
from trainer.kitchen.technique import Fault, QuestionSetting

SEEDS = range(200)
DRAWN, BEFORE = (Path(__file__).with_name(f"drawn_by_grader_{edition}.json") for edition in (6, 5))

SINCE_THEN = {"decide", "tempering_ladles", "egg_state"}
"""Families that the earlier edition did not draw."""


REWORDED = Material(
    "Another title",
    tuple(StepWords(step.id, f"{step.text}!") for step in PRACTICE.steps),
    tuple(Fault(each.id, f"{each.shows}!", f"{each.cause}!", f"{each.cure}!") for each in PRACTICE.faults),
    tuple(replace(each, seen=f"{each.seen}!") for each in PRACTICE.scenes),
)


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_every_word_may_change_and_the_question_stays(name: str) -> None:
    """Numbers, indexes, ids, right answer and wrong methods are the same when every word of the content is another."""
    before, after = context(), QuestionContext(reworded(WORDS), REWORDED)
    for seed in range(40):
        drawn = draw_question(name, seed, before)
        assert draw_question(name, seed, after) == drawn
        one, other = tell(drawn, before), tell(drawn, after)
        assert one.answer == other.answer
        assert [(way.name, way.value) for way in one.wrong_methods] == [
            (way.name, way.value) for way in other.wrong_methods
        ]
        assert one.text != other.text


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_a_question_comes_back_from_what_is_kept(name: str) -> None:
    """Through plain text, as drafts and the book keep it: exact."""
    for seed in range(20):
        drawn = drawn_question(name, seed)
        assert drawn_from(json.loads(json.dumps(drawn.kept()))) == drawn


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_a_kept_question_is_told_in_any_language(name: str) -> None:
    """One answer and one set of wrong methods, in English and in Spanish."""
    for seed in range(20):
        drawn = drawn_question(name, seed)
        one, other = (tell(drawn, context(language=tag)) for tag in ("en", "es"))
        assert one.answer == other.answer
        assert [choice.is_right for choice in one.choices] == [choice.is_right for choice in other.choices]
        assert one.text != other.text or not one.choices  # a number is asked for in the scene's own words


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_two_hundred_seeds_give_what_they_gave(name: str) -> None:
    """The same numbers, indexes and ids as when this edition of drawing was made; else DRAWER goes up by one.

    The file was written when the edition was made, so that kept seeds go on meaning the same questions; it says nothing
    about right or wrong, which worked examples and published values do.
    """
    kept = json.loads(DRAWN.read_text(encoding="utf-8"))
    assert kept["grader"] == DRAWER
    assert digest_of(name) == kept["families"][name]


@pytest.mark.parametrize("language", ["en", "es"])
def test_what_an_earlier_edition_drew_is_told_as_it_was(language: str) -> None:
    """Questions in the book, six of every family, come to the answer kept with them, in each language."""
    kept = json.loads(BEFORE.read_text(encoding="utf-8"))
    assert {each["family"] for each in kept} == set(FAMILIES) - SINCE_THEN
    for each in kept:
        question = tell(drawn_from(each), context(language=language))
        assert (str(question.answer.value), question.answer.unit) == (each["answer"], each["unit"])


def digest_of(name: str) -> str:
    """Return the digest of what two hundred seeds of a family give."""
    drawn = [drawn_question(name, seed).kept() for seed in SEEDS]
    return sha256(json.dumps(drawn, sort_keys=True).encode()).hexdigest()


def test_the_words_of_a_technique_move_no_number() -> None:
    """Other words, and more of them, than the family's own: the numbers of a seed are the same."""
    setting = QuestionSetting("scale_by_yield", {"food": ("lentils", "beans", "rice")}, {}, 1)
    own = QuestionContext(WORDS, PRACTICE, setting)
    for seed in range(50):
        assert draw_question("scale_by_yield", seed, own).numbers == drawn_question("scale_by_yield", seed).numbers


def test_what_a_question_was_made_from_may_go() -> None:
    """A fault taken out of the technique, a word list made shorter, a family that is no more: it says it cannot."""
    drawn = drawn_question("choose_fault", 3)
    without = replace(PRACTICE, faults=tuple(each for each in PRACTICE.faults if each.id != drawn.picks[0][0]))
    with pytest.raises(CannotTell):
        tell(drawn, context(material=without))
    with pytest.raises(CannotTell):
        tell(DrawnQuestion("scale_by_yield", 1, {}, {"food": 0}), context())
    with pytest.raises(CannotTell):
        tell(replace(drawn_question("scale_by_yield", 3), family="no_family"), context())


def test_a_list_made_shorter_loses_no_question() -> None:
    """One of the words left is told; answer and wrong methods stay."""
    drawn = replace(drawn_question("scale_by_yield", 3), words={"food": 7})
    short = QuestionContext(WORDS, PRACTICE, QuestionSetting("scale_by_yield", {"food": ("lentils", "beans")}, {}, 1))
    assert "beans" in english(tell(drawn, short).text)
    assert tell(drawn, short).answer == tell(drawn, context()).answer


def test_two_causes_that_read_alike_lose_no_question() -> None:
    """Which faults were taken is kept by id: what reads alike now, or in another language, takes none away."""
    alike = replace(PRACTICE, faults=tuple(replace(each, cause="It was not watched.") for each in PRACTICE.faults))
    for seed in range(30):
        drawn = drawn_question("choose_fault", seed)
        assert len(tell(drawn, context(material=alike)).choices) == len(tell(drawn, context()).choices)


def test_a_step_added_leaves_a_kept_question_as_it_was() -> None:
    """Picks are ids, so another step in between moves none of them."""
    drawn = drawn_question("order_steps", 4)
    before = tell(drawn, context())
    first, *rest = PRACTICE.steps
    longer = replace(PRACTICE, steps=(StepWords("wash", "Wash your hands."), first, *rest))
    after = tell(drawn, context(material=longer))
    assert [choice.text for choice in after.choices] == [choice.text for choice in before.choices]
    assert after.answer == before.answer


@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_numbers_are_exact(name: str) -> None:
    """Every number kept is a fraction, never a float."""
    assert all(isinstance(value, Fraction | int) for value in drawn_question(name, 2).numbers.values())


def test_spanish_words_are_as_many_as_english_ones() -> None:
    """One index picks one thing in each language."""
    spanish = context(language="es").words
    for name, words in WORDS.families.items():
        assert {slot: len(texts) for slot, texts in words.words.items()} == {
            slot: len(texts) for slot, texts in spanish.families[name].words.items()
        }
