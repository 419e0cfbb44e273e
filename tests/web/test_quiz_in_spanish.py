"""A quiz told in the reader's words: the pages show them, the book and the grade know nothing of it."""

from __future__ import annotations

import re
from dataclasses import replace
from types import MappingProxyType
from typing import Literal

import pytest

from tests.web.hands import Hands, Seen
from tests.web.small_content import CONTENT, NESTS
from tests.web.test_cook import read_through
from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.sitting import open_sitting
from trainer.actions.sitting_drafts import Sitting
from trainer.kitchen.technique import Content, QuestionSetting, Technique
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.saying import say
from trainer.store.catalogues import said_in

STEPS = {
    "Catch the strands on your open hand.": "Reciba las hebras en la mano abierta.",
    "Weigh each nest on the balance.": "Pese cada nido en la balanza.",
    "Boil one nest as a trial.": "Hierva un nido de prueba.",
    "Cover the tray.": "Tape la charola.",
}
FOODS = {"leeks": "puerros", "kale": "col rizada"}


def asking(title: str, steps: tuple[str, ...], food: str) -> Technique:
    """Return the nests in some words, with a sum about a food and a question about the steps."""
    first = NESTS.steps[0]
    return replace(
        NESTS,
        title=title,
        steps=tuple(replace(first, id=f"s{place}", text=text) for place, text in enumerate(steps)),
        questions=(
            QuestionSetting("amount_to_buy", MappingProxyType({"food": food}), MappingProxyType({}), 2),
            QuestionSetting("order_steps", MappingProxyType({}), MappingProxyType({}), 1),
        ),
    )


def content_of(technique: Technique) -> Content:
    """Return the small content with the nests told so."""
    return replace(CONTENT, techniques=MappingProxyType({**CONTENT.techniques, "nests": technique}))


ENGLISH = content_of(asking("Pasta nesting", tuple(STEPS), "leeks|kale"))
SPANISH = content_of(asking("Nidos de pasta", tuple(STEPS.values()), "puerros|col rizada"))


def library(language: str, units: Literal["us", "metric"]) -> Content:
    """Return the content in a language; the units change nothing here."""
    del units
    return SPANISH if language == "es" else ENGLISH


@pytest.fixture
def kitchen(kitchen: OpenKitchen) -> OpenKitchen:
    """Return the kitchen with the same content in two languages."""
    return OpenKitchen(kitchen.file, ENGLISH, library)


@pytest.fixture
def sitter(ana: Hands, kitchen: OpenKitchen) -> Hands:
    """Return Ana at the first question of a quiz, from now on reading Spanish."""
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    keep_own_language(kitchen, person="ana", language="es", units="")
    return ana


def sitting_of(kitchen: OpenKitchen) -> Sitting:
    """Return Ana's open sitting, in the kitchen's own words."""
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    return found


def in_spanish(words: str) -> str:
    """Return what stands on a Spanish page for words of the program."""
    return said_in(say(words), "es")


def shows(page: Seen, own: str) -> bool:
    """Return whether a page shows the Spanish of an English text of the content, and not the English."""
    told = {**STEPS, **FOODS}[own]
    return told in page.work and own not in page.work


def words_in(text: str) -> list[str]:
    """Return the words of the content that stand in a text."""
    return [word for word in (*STEPS, *FOODS) if word in text]


def answer_all(hands: Hands, sitting: Sitting) -> Seen:
    """Answer the first sum by its first wrong method and all else right, and hand in."""
    for place, question in enumerate(sitting.questions):
        hands.open(f"/sittings/{sitting.id}/{place + 1}")
        value = question.wrong_methods[0].value if place == 0 else question.answer.value
        hands.press(in_spanish("Keep it"), answer=number_text(value, 3))
    hands.open(f"/sittings/{sitting.id}/hand-in")
    return hands.press(in_spanish("Hand in"))


def test_a_question_is_asked_in_the_reader_s_words(sitter: Hands, kitchen: OpenKitchen) -> None:
    """Food, steps and choices are told in Spanish; the numbers are those that were drawn."""
    sitting = sitting_of(kitchen)
    for place, question in enumerate(sitting.questions, 1):
        page = sitter.open(f"/sittings/{sitting.id}/{place}")
        asked = [word for text in question.shown for word in words_in(text)]
        assert asked
        assert all(shows(page, word) for word in asked)
        assert set(re.findall(r"\d+", question.text)) <= set(re.findall(r"\d+", page.work))


def test_the_draft_and_the_book_keep_the_kitchen_s_own_words(sitter: Hands, kitchen: OpenKitchen) -> None:
    """What is kept is English, and graded as it would be for anybody."""
    sitting = sitting_of(kitchen)
    answer_all(sitter, sitting)
    (entry,) = (entry for entry in kitchen.file.book.since(0) if entry.kind == "quiz_sat")
    assert [asked["text"] for asked in entry.body["questions"]] == [question.text for question in sitting.questions]
    assert [asked["right"] for asked in entry.body["questions"]] == [False, True, True]
    assert entry.body["questions"][0]["method"] == sitting.questions[0].wrong_methods[0].name
    assert not any(word in str(entry.body) for word in (*STEPS.values(), *FOODS.values()))


def test_answers_and_result_are_told_in_the_reader_s_words(sitter: Hands, kitchen: OpenKitchen) -> None:
    """Before handing in and after, each question stands as it was asked, its choices too."""
    sitting = sitting_of(kitchen)
    for page in (sitter.open(f"/sittings/{sitting.id}/hand-in"), answer_all(sitter, sitting)):
        asked = {word for question in sitting.questions for word in words_in(question.text)}
        assert asked
        assert all(shows(page, word) for word in asked)
    assert in_spanish(sitting.questions[0].wrong_methods[0].says) in sitter.page.work


def test_a_result_from_another_content_is_shown_as_the_book_has_it(sitter: Hands, kitchen: OpenKitchen) -> None:
    """Where today's words give another question, the book's own stand on the page."""
    page = answer_all(sitter, sitting_of(kitchen))
    kitchen.content = content_of(asking("Pasta nesting", tuple(STEPS), "turnips|beets"))
    again = sitter.open(page.path)
    assert any(word in again.work for word in FOODS)
    assert not any(word in again.work for word in FOODS.values())


def test_the_same_drill_in_both_languages(ana: Hands, kitchen: OpenKitchen) -> None:
    """The seed in the address gives the same numbers to whoever reads it in which language."""
    address = "/techniques/nests/drills/amount_to_buy/loss_forgotten?seed=7"
    english = ana.open(address)
    keep_own_language(kitchen, person="ana", language="es", units="")
    spanish = ana.open(address)
    assert set(re.findall(r"\d+", english.work)) == set(re.findall(r"\d+", spanish.work))
    asked = words_in(english.work)
    assert asked
    assert all(shows(spanish, word) for word in asked)
    assert "____" in spanish.work
