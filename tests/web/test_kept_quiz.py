"""A half-answered quiz on the pages: after an edit, a restart, a technique taken out, and an earlier program."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType

import pytest

from tests.kitchen.quiz.asking import Asked, printed
from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.small_content import CONTENT, NESTS
from tests.web.test_cook import read_through
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.sitting import open_sitting
from trainer.kitchen.quiz.drawn import drawn_from
from trainer.kitchen.technique import Content, QuestionSetting, Technique
from trainer.recipe_math.figures import number_text
from trainer.store.drafts import Draft
from trainer.store.kitchen_file import KitchenFile
from trainer.web.app import create_app

FOUR = replace(NESTS, questions=(NESTS.questions[0], replace(NESTS.questions[1], count=3)), need_right=3)
EDITED = replace(
    FOUR,
    title="Nests of pasta",
    questions=tuple(
        QuestionSetting(
            each.family,
            MappingProxyType({"food": ("durum strands",)}),
            MappingProxyType({"edible_percent": (Fraction(60), Fraction(65), Fraction(1))})
            if each.family == "amount_to_buy"
            else each.ranges,
            2,
        )
        for each in FOUR.questions
    ),
    need_right=4,
)


def teaching(technique: Technique) -> Content:
    """Return the small content with this technique in place of its own."""
    return replace(CONTENT, techniques=MappingProxyType({**CONTENT.techniques, "nests": technique}))


def figures_in(text: str) -> list[str]:
    """Return the numbers of a text, in order."""
    return re.findall(r"\d+(?:[./]\d+)?", text)


@pytest.fixture
def half_way(ana: Hands, kitchen: Kitchen) -> tuple[Asked, ...]:
    """Return the questions of Ana's quiz, of which she has answered three of four, the second wrong."""
    kitchen.content = teaching(FOUR)
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    for place, question in enumerate(found.questions[:3]):
        value = question.wrong_methods[0].value if place == 1 else question.answer.value
        ana.press("Keep it", {"Your answer": number_text(value, 3)})
    assert ana.page.title.startswith("Question 4 of 4")
    return tuple(map(printed, found.questions))


@pytest.fixture
def restarted(
    ana: Hands, half_way: tuple[Asked, ...], tmp_path: Path, clock: Clock, named: Callable[[str], str]
) -> Iterator[tuple[Hands, Kitchen]]:
    """Return Ana's browser before a program started again over the edited content, and its kitchen."""
    assert len(half_way) == 4
    file = KitchenFile.open(tmp_path / "kitchen")
    kitchen = Kitchen(file, teaching(EDITED))
    again = Hands(create_app(kitchen, clock=clock).test_client())
    for name in (named("session"), named("device")):
        cookie = ana.client.get_cookie(name)
        assert cookie is not None
        again.client.set_cookie(name, cookie.value)
    yield again, kitchen
    file.close()


def test_words_and_ranges_change_and_the_quiz_goes_on(
    half_way: tuple[Asked, ...], restarted: tuple[Hands, Kitchen]
) -> None:
    """Three answers are there and the fourth question has the numbers of before; the book says what was asked."""
    ana, kitchen = restarted
    assert "Your quiz is open." in ana.open("/rail").work
    page = ana.follow("Go on with the quiz: Nests of pasta")
    assert page.title.startswith("Question 4 of 4")
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    assert page.heading == printed(found.questions[3]).text
    assert "durum strands" in page.heading
    assert figures_in(page.heading) == figures_in(half_way[3].text)
    ana.press("Keep it", {"Your answer": number_text(half_way[3].answer.value, 3)})
    assert ana.page.heading == "Your answers"
    assert all(printed(question).text in ana.page.work for question in found.questions)
    page = ana.press("Hand in")
    assert "3 of 4 right" in page.work
    assert half_way[1].wrong_methods[0].clause in page.work
    body = kitchen.file.book.since(0)[-1].body
    assert tuple(map(drawn_from, body["questions"])) == found.drawn
    assert [line["answer"] for line in body["questions"]] == [str(question.answer.value) for question in half_way]
    assert (body["right"], body["need"], body["passed"]) == (3, 3, True)


def test_a_technique_taken_out_is_told_on_the_rail_and_comes_back(
    ana: Hands, half_way: tuple[Asked, ...], kitchen: Kitchen
) -> None:
    """The rail and the quiz's own address say what is kept and what to do; back again, it goes on."""
    sitting = open_sitting(kitchen, cook="ana", technique="nests")
    assert sitting is not None
    sauce = {"sauce": CONTENT.techniques["sauce"]}
    saute = {"saute": CONTENT.stations["saute"]}
    kitchen.content = replace(CONTENT, techniques=MappingProxyType(sauce), stations=MappingProxyType(saute))
    says = "Your quiz of Pasta nesting is put aside with 3 answers: Pasta nesting is not taught right now."
    assert says in ana.open("/rail").work
    page = ana.open(f"/sittings/{sitting.id}")
    assert page.status == 404
    assert says in page.work
    kitchen.content = teaching(FOUR)
    assert "put aside" not in ana.open("/rail").work
    assert ana.open(f"/sittings/{sitting.id}").heading == half_way[3].text


def test_a_quiz_of_an_earlier_program_is_told_before_it_goes(ana: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Its questions were not kept and come out otherwise: rail and start page say so, and Start begins again."""
    read_through(ana)
    body = {"edition": 2, "seed": 7, "grader": 3, "shown": [["Something else", ""]], "answers": {"0": "7", "1": "8"}}
    kitchen.file.drafts.put(Draft("old", "sitting", "nests", "ana", "ana", body, clock()))
    says = "Your quiz of Pasta nesting with 2 answers cannot be opened any more"
    assert says in ana.open("/rail").work
    assert says in ana.open("/sittings/old").work
    assert kitchen.file.drafts.get("old") is not None
    assert says in ana.open("/techniques/nests/quiz").work
    page = ana.press("Start the quiz", told="")
    assert page.status == 400
    assert any(says in problem for problem in page.problems)
    assert kitchen.file.drafts.get("old") is not None
    assert ana.press("Start the quiz").title.startswith("Question 1 of 3")
    assert kitchen.file.drafts.get("old") is None
    assert "cannot be opened" not in ana.open("/rail").work
