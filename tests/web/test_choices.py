"""Questions that are chosen, not worked out: one of several texts, or a drawing to read."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import Literal

import pytest

from tests.kitchen.quiz.asking import context, printed
from tests.printed import english
from tests.web.conftest import NOON
from tests.web.hands import Hands
from tests.web.small_content import CONTENT, NESTS
from tests.web.test_cook import read_through
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.sitting import open_sitting
from trainer.actions.sitting_drafts import Sitting
from trainer.kitchen.technique import Content, QuestionSetting


@pytest.fixture
def kitchen(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with its questions in the reader's words."""

    def library(language: str, units: Literal["us", "metric"]) -> Content:
        del units
        return replace(opened.content, question_words=context(language=language).words)

    opened = Kitchen(kitchen.file, kitchen.content, library)
    return opened


def asking(kitchen: Kitchen, *families: str) -> None:
    """Let the nests ask one question of each of these families."""
    asked = tuple(QuestionSetting(name, MappingProxyType({}), MappingProxyType({}), 1) for name in families)
    nests = replace(NESTS, questions=asked, need_right=len(asked))
    kitchen.content = replace(CONTENT, techniques=MappingProxyType({**CONTENT.techniques, "nests": nests}))


@pytest.fixture
def sitting(ana: Hands, kitchen: Kitchen) -> Sitting:
    """Return Ana's open quiz of two questions: find the slip in a sum, name a cut by its drawing."""
    asking(kitchen, "spot_slip", "name_cut")
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    assert found.started == NOON
    return found


def test_each_choice_is_a_line_to_tap_and_a_drawing_has_words(ana: Hands, sitting: Sitting) -> None:
    """Radio buttons carry the texts; the figure stands in the page with words that say what it shows."""
    for number, question in enumerate(sitting.questions, 1):
        page = ana.open(f"/sittings/{sitting.id}/{number}")
        ticks = page.soup.select(".tick")
        texts = ["".join((choice.letter + choice.text).split()) for choice in printed(question).choices]
        assert ["".join(tick.get_text().split()) for tick in ticks] == texts
        assert bool(page.soup.select("[role=img] svg")) == bool(question.figure)
        assert not page.soup.select(".readout")


def test_choices_are_graded_and_shown_again_in_their_own_words(ana: Hands, sitting: Sitting) -> None:
    """One right, one wrong: the result says in words what was chosen, what was right, and what was said."""
    first, second = map(printed, sitting.questions)
    right = first.right_choice
    wrong = next(choice for choice in second.choices if not choice.is_right)
    assert right is not None
    ana.open(f"/sittings/{sitting.id}")
    ana.press("Answer", answer=right.key)
    ana.press("Answer", answer=wrong.key)
    assert wrong.text in ana.page.work
    page = ana.press("Hand in")
    assert "1 of 2 right" in page.work
    assert wrong.text in page.work
    assert [dt.get_text() for dt in page.soup.select(".slips li:first-child dt")][:2] == ["You chose", "It was"]
    assert second.right_choice is not None
    assert english(second.right_choice.text) in page.work
    assert ana.open(page.path).work in page.work


def test_a_slip_made_twice_in_choices_leads_to_a_drill(ana: Hands, kitchen: Kitchen) -> None:
    """The same wrong choice in two answers is named, with one question worked and one more to choose in."""
    asking(kitchen, "spot_slip")
    nests = kitchen.content.techniques["nests"]
    twice = replace(nests, questions=(replace(nests.questions[0], count=2),))
    kitchen.content = replace(kitchen.content, techniques=MappingProxyType({"nests": twice}))
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    for question in found.questions:
        ana.press("Answer", answer=next(choice.key for choice in question.choices if not choice.is_right))
    says = "You took a line that holds. Work out every line by itself before you choose."
    assert f"{says} 2 answers showed it." in ana.press("Hand in").work
    drill = ana.follow("Practise it: Which line of a worked sum has a slip")
    assert [h.get_text() for h in drill.soup.select("main h2")] == ["One, worked to the end", "Now one for you"]
    assert "You took a line that holds." in drill.work
    assert "Choose one. Then look." in drill.work
    assert "This one: " in drill.work


@pytest.mark.parametrize("address", ["name_cut/another_shape", "read_scale/counted_back_from_next"])
def test_a_drill_about_a_drawing_shows_both_drawings(ana: Hands, kitchen: Kitchen, address: str) -> None:
    """A drawing to read stands in the drill as it does in the quiz, with its words."""
    asking(kitchen, "name_cut", "read_scale")
    drill = ana.open(f"/techniques/nests/drills/{address}?seed=4")
    figures = drill.soup.select("[role=img]")
    assert len(figures) == 2
    assert all(figure.select("svg") and figure["aria-label"] for figure in figures)


def test_a_drawing_to_try_is_told_in_the_readers_words(ana: Hands, kitchen: Kitchen) -> None:
    """The two words beside a cut are those of the quiz itself, in Spanish as in English."""
    asking(kitchen, "name_cut")
    told = []
    for language in ("en", "es"):
        keep_own_language(kitchen, person="ana", language=language, units="")
        figure = ana.open("/techniques/nests/try/name_cut?seed=1").soup.select_one("[role=img] svg")
        assert figure is not None
        told.append({text.get_text() for text in figure.find_all("text")})
    assert {"end", "side"} <= told[0]
    assert not {"end", "side"} & told[1]
    assert len(told[0]) == len(told[1])
