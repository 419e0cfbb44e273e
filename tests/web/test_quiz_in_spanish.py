"""A quiz told in the reader's words: the pages show them, the book and the grade know nothing of it."""

from __future__ import annotations

import re
import sys
from dataclasses import replace
from types import MappingProxyType
from typing import Literal

import pytest

from tests.kitchen.quiz.asking import context, printed, shown
from tests.printed import english
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import write
from tests.web.small_content import CONTENT, NESTS
from tests.web.test_cook import read_through
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.sitting import open_sitting
from trainer.actions.sitting_drafts import Sitting
from trainer.kitchen.quiz.drawn import drawn_from
from trainer.kitchen.quiz.seen_text import sitting_on
from trainer.kitchen.technique import Content, QuestionSetting, Technique
from trainer.messages import message, translate
from trainer.recipe_math.figures import number_text
from trainer.store.catalogues import translations

STEPS = {
    "Catch the strands on your open hand.": "Reciba las hebras en la mano abierta.",
    "Weigh each nest on the balance.": "Pese cada nido en la balanza.",
    "Boil one nest as a trial.": "Hierva un nido de prueba.",
    "Cover the tray.": "Tape la charola.",
}
FOODS = {"leeks": "puerros", "kale": "col rizada"}


def asking(title: str, steps: tuple[str, ...], *foods: str) -> Technique:
    """Return the nests in some words, with a sum about a food and a question about the steps."""
    first = NESTS.steps[0]
    return replace(
        NESTS,
        title=title,
        steps=tuple(replace(first, id=f"s{place}", text=text) for place, text in enumerate(steps)),
        questions=(
            QuestionSetting("amount_to_buy", MappingProxyType({"food": foods}), MappingProxyType({}), 2),
            QuestionSetting("order_steps", MappingProxyType({}), MappingProxyType({}), 1),
        ),
    )


def content_of(technique: Technique, language: str = "en") -> Content:
    """Return the small content with the nests told so, and the words of questions in a language."""
    techniques = MappingProxyType({**CONTENT.techniques, "nests": technique})
    return replace(CONTENT, techniques=techniques, question_words=context(language=language).words)


ENGLISH = content_of(asking("Pasta nesting", tuple(STEPS), *FOODS))
SPANISH = content_of(asking("Nidos de pasta", tuple(STEPS.values()), *FOODS.values()), "es")


def library(language: str, units: Literal["us", "metric"]) -> Content:
    """Return the content in a language; the units change nothing here."""
    del units
    return SPANISH if language == "es" else ENGLISH


@pytest.fixture
def kitchen(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with the same content in two languages."""
    return Kitchen(kitchen.file, ENGLISH, library)


@pytest.fixture
def sitter(ana: Hands, kitchen: Kitchen) -> Hands:
    """Return Ana at the first question of a quiz, from now on reading Spanish."""
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    keep_own_language(kitchen, person="ana", language="es", units="")
    return ana


def sitting_of(kitchen: Kitchen) -> Sitting:
    """Return Ana's open sitting, in the kitchen's own words."""
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    return found


def in_spanish(words: str) -> str:
    """Return what stands on a Spanish page for words of the program."""
    return translate(message(words), translations("es"))


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
        hands.press(in_spanish("Answer" if question.choices else "Keep it"), answer=number_text(value, 3))
    hands.open(f"/sittings/{sitting.id}/hand-in")
    return hands.press(in_spanish("Hand in"))


def test_a_question_is_asked_in_the_reader_s_words(sitter: Hands, kitchen: Kitchen) -> None:
    """Food, steps and choices are told in Spanish; the numbers are those that were drawn."""
    sitting = sitting_of(kitchen)
    for place, question in enumerate(sitting.questions, 1):
        page = sitter.open(f"/sittings/{sitting.id}/{place}")
        asked = [word for text in shown(printed(question)) for word in words_in(text)]
        assert asked
        assert all(shows(page, word) for word in asked)
        assert set(re.findall(r"\d+", printed(question).text)) <= set(re.findall(r"\d+", page.work))


def test_the_draft_and_the_book_keep_numbers_and_no_words(sitter: Hands, kitchen: Kitchen) -> None:
    """What is kept is the same in any language, and graded as it would be for anybody."""
    sitting = sitting_of(kitchen)
    (draft,) = kitchen.file.drafts.list("sitting", cook="ana")
    assert not any(word in str(draft.body) for word in (*STEPS.values(), *FOODS.values(), *STEPS, *FOODS))
    answer_all(sitter, sitting)
    (entry,) = (entry for entry in kitchen.file.book.since(0) if entry.kind == "quiz_sat")
    assert tuple(map(drawn_from, entry.body["questions"])) == sitting.drawn
    assert [asked["right"] for asked in entry.body["questions"]] == [False, True, True]
    assert entry.body["questions"][0]["method"] == sitting.questions[0].wrong_methods[0].name
    assert not any(word in str(entry.body) for word in (*STEPS.values(), *FOODS.values(), *STEPS, *FOODS))


def test_answers_and_result_are_told_in_the_reader_s_words(sitter: Hands, kitchen: Kitchen) -> None:
    """Before handing in and after, each question stands as it was asked, its choices too."""
    sitting = sitting_of(kitchen)
    for page in (sitter.open(f"/sittings/{sitting.id}/hand-in"), answer_all(sitter, sitting)):
        asked = {word for question in sitting.questions for word in words_in(printed(question).text)}
        assert asked
        assert all(shows(page, word) for word in asked)
    method = sitting.questions[0].wrong_methods[0]
    clause = SPANISH.question_words.clauses("amount_to_buy", method.name).once
    assert english(clause) in sitter.page.work
    assert english(method.says) not in sitter.page.work


def test_a_result_stays_as_it_was_read(sitter: Hands, kitchen: Kitchen) -> None:
    """Other foods, other steps, the technique taken out: what was read, in Spanish and marked as such."""
    page = answer_all(sitter, sitting_of(kitchen))
    keep_own_language(kitchen, person="ana", language="en", units="")
    before = [str(line) for line in sitter.open(page.path).soup.select("main .slips > li")]
    assert any(words in line for line in before for words in FOODS.values())
    assert all('class="asked" lang="es"' in line for line in before)
    left = {name: one for name, one in kitchen.content.techniques.items() if name != "nests"}
    for changed in (
        content_of(asking("Nests", tuple(STEPS)[:3], "turnips", "beets")),
        replace(kitchen.content, techniques=MappingProxyType(left), stations=MappingProxyType({})),
    ):
        kitchen.content = changed
        assert [str(line) for line in sitter.open(page.path).soup.select("main .slips > li")] == before


def test_the_paper_of_a_sitting_has_each_question_as_its_page_had_it(sitter: Hands, kitchen: Kitchen) -> None:
    """The first in Spanish, the second in English: text, choices and solution, each in the language it was read in."""
    sitting, headings = sitting_of(kitchen), []
    for place, (question, language) in enumerate(zip(sitting.questions, ("es", "en", "es"), strict=True), 1):
        keep_own_language(kitchen, person="ana", language=language, units="")
        headings.append(sitter.open(f"/sittings/{sitting.id}/{place}").heading)
        labels = {" ".join(label.get_text().split()) for label in sitter.page.soup.select("main form label span")}
        own = "Answer" if question.choices else "Keep it"
        words = in_spanish(own) if language == "es" else own
        sitter.press(words, answer=number_text(question.answer.value, 3))
    sitter.open(f"/sittings/{sitting.id}/hand-in")
    sitter.press(in_spanish("Hand in"))
    (entry,) = kitchen.file.book.of_kind("quiz_sat")
    paper = kitchen.file.book.paper(entry.body["shown"])
    assert paper is not None
    seen = sitting_on(paper)
    assert [" ".join(one.text.split()) for one in seen.questions] == headings
    assert [one.language for one in seen.questions] == ["es", "en", "es"]
    assert seen.title == "Nidos de pasta"
    assert {" ".join(text.split()) for text in seen.questions[2].choices.values()} == labels
    assert all(one.solution and not one.says for one in seen.questions)


def test_a_result_kept_by_its_numbers_is_told_in_the_words_of_today(sitter: Hands, kitchen: Kitchen) -> None:
    """An entry of before has no text: the same numbers, answers and grades, with the foods of today."""
    answer_all(sitter, sitting_of(kitchen))
    (read,) = kitchen.file.book.of_kind("quiz_sat")
    body = {name: value for name, value in read.body.items() if name not in ("shown", "standard")}
    path = f"/results/{write(kitchen, 'quiz_sat', 'ana', body, days=-0.01).id}"
    keep_own_language(kitchen, person="ana", language="en", units="")
    before = sitter.open(path)
    kitchen.content = content_of(asking("Pasta nesting", tuple(STEPS), "turnips", "beets"))
    again = sitter.open(path)
    assert any(word in before.work for word in FOODS)
    assert not any(word in again.work for word in FOODS)
    assert any(word in again.work for word in ("turnips", "beets"))
    assert re.findall(r"\d+", again.work) == re.findall(r"\d+", before.work)


def test_a_result_of_before_is_shown_as_the_book_has_it(ana: Hands, kitchen: Kitchen) -> None:
    """The book kept words then, and they stand on the page, anyone who reads it and whatever is taught today."""
    asked = {
        "family": "amount_to_buy", "seed": 5, "text": "You need 3 kg of swede, trimmed.", "figure": "",
        "figure_alt": "", "choices": {}, "answer": "4", "unit": "kg", "solution": ["Divide 3 by 0.75."],
        "given": "9", "right": False, "safety": False, "method": "loss_forgotten", "says": "You left out the peel.",
    }  # fmt: skip
    body = {
        "technique": "nests", "edition": 2, "seed": 5, "grader": 4, "questions": [asked], "right": 0, "asked": 1,
        "need": 1, "passed": False, "safety_percent": 0,
    }  # fmt: skip
    entry = write(kitchen, "quiz_sat", "ana", body)
    keep_own_language(kitchen, person="ana", language="es", units="")
    page = ana.open(f"/results/{entry.id}")
    for words in (asked["text"], "You left out the peel.", "Divide 3 by 0.75."):
        assert str(words) in page.work


@pytest.mark.parametrize("foods", [("puerros",), ("puerros", "col rizada", "nabos")])
def test_a_spanish_list_of_another_length_stops_no_page(
    sitter: Hands, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch, foods: tuple[str, ...]
) -> None:
    """A chef added a food in English and not yet in Spanish, or the other way around: the quiz goes on."""
    told = content_of(asking("Nidos de pasta", tuple(STEPS.values()), *foods), "es")
    monkeypatch.setattr(sys.modules[__name__], "SPANISH", told)
    sitting = sitting_of(kitchen)
    for place, question in enumerate(sitting.questions, 1):
        page = sitter.open(f"/sittings/{sitting.id}/{place}")
        assert page.status == 200
        assert set(re.findall(r"\d+", printed(question).text)) <= set(re.findall(r"\d+", page.work))
    assert answer_all(sitter, sitting).status == 200


def test_the_same_drill_in_both_languages(ana: Hands, kitchen: Kitchen) -> None:
    """The seed in the address gives the same numbers to anyone who reads it in which language."""
    address = "/techniques/nests/drills/amount_to_buy/loss_forgotten?seed=7"
    english = ana.open(address)
    keep_own_language(kitchen, person="ana", language="es", units="")
    spanish = ana.open(address)
    assert set(re.findall(r"\d+", english.work)) == set(re.findall(r"\d+", spanish.work))
    asked = words_in(english.work)
    assert asked
    assert all(shows(spanish, word) for word in asked)
    assert "____" in spanish.work
