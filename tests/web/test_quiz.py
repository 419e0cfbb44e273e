"""The quiz: every answer kept at once, unusable ones asked again, the result drawn again from the book."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import Literal

import pytest

from tests.kitchen.quiz.asking import printed
from tests.printed import english
from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.small_content import CONTENT, NESTS
from tests.web.test_cook import read_through
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.sitting import open_sitting
from trainer.actions.sitting_drafts import Sitting
from trainer.kitchen.technique import QuestionSetting
from trainer.recipe_math.figures import number_text
from trainer.store.kitchen_file import KitchenFile
from trainer.web.app import create_app
from trainer.web.filters import unbroken


@pytest.fixture
def sitter(ana: Hands) -> Hands:
    """Return Ana at the first question of a quiz."""
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    return ana


def the_sitting(kitchen: Kitchen) -> Sitting:
    """Return Ana's open sitting."""
    found = open_sitting(kitchen, cook="ana", technique="nests")
    assert found is not None
    return found


def answer_all(hands: Hands, kitchen: Kitchen, *, wrong: tuple[int, ...] = ()) -> None:
    """Give every right answer to two places; at the places named, one that a wrong method gives."""
    sitting = the_sitting(kitchen)
    for place, question in enumerate(sitting.questions):
        value = question.wrong_methods[0].value if place in wrong else question.answer.value
        hands.open(f"/sittings/{sitting.id}")
        hands.press("Keep it", {"Your answer": number_text(value, 3)})


def test_the_quiz_is_refused_before_reading(ana: Hands) -> None:
    """Who has not read the edition in force is told so, and nothing starts."""
    ana.open("/techniques/nests/quiz")
    page = ana.press("Start the quiz")
    assert page.status == 400
    assert page.problems


def test_an_open_quiz_goes_on_and_says_so(sitter: Hands) -> None:
    """Anyone who comes back to the quiz's page is offered to go on, not to start."""
    page = sitter.open("/techniques/nests/quiz")
    assert "Start the quiz" not in page.soup.get_text()
    assert sitter.press("Go on with the quiz: Pasta nesting").title.startswith("Question 1")


def test_one_question_a_page_with_its_unit(sitter: Hands, kitchen: Kitchen) -> None:
    """The page asks one question, and the unit stands beside the readout."""
    page = sitter.page
    question = the_sitting(kitchen).questions[0]
    assert page.heading == english(question.text)
    assert page.title.startswith("Question 1 of 3")
    assert page.soup.select_one(".unit").get_text() == question.answer.unit  # type: ignore[union-attr]
    assert page.field("Your answer")["inputmode"] == "decimal"


@pytest.mark.parametrize("mark", [".", ","])
def test_every_sign_of_an_answer_has_a_key(sitter: Hands, kitchen: Kitchen, mark: Literal[".", ","]) -> None:
    """Figures, the mark this kitchen writes, the stroke and the gap of 2 1/2, and the minus of a freezer."""
    kitchen.file.change_settings(replace(kitchen.file.settings, decimal_mark=mark))
    page = sitter.open(sitter.page.path)
    keys = {str(key["data-key"]) for key in page.soup.select(".keypad [data-key]")}
    assert keys == {*"0123456789", mark, "/", " ", "-", "back"}


def test_no_number_is_parted_from_its_unit(sitter: Hands) -> None:
    """A line of the question never ends between a number and what it counts, nor within 5 1/2."""
    assert unbroken("3 lb 5 1/2 oz at 41 °F is 4.35 %, 3 for 10 guests, 2 horas") == (
        "3\xa0lb 5\xa01/2\xa0oz at 41\xa0°F is 4.35\xa0%, 3 for 10 guests, 2\xa0horas"
    )
    assert "\xa0" in str(sitter.page.soup.select_one("h1"))


@pytest.mark.parametrize("text", ["NaN", "1/0", "a pinch", "", "1e999", "sNaN", "Infinity", "12 °", "\x00", "9" * 199])
def test_an_unusable_answer_is_asked_again(sitter: Hands, kitchen: Kitchen, text: str) -> None:
    """What is no usable amount is shown again with the reason, never graded and never an error of ours."""
    page = sitter.press("Keep it", {"Your answer": text})
    if text == "9" * 199 and page.status == 200:
        return
    assert page.status == 400
    assert page.title.startswith("Error: ")
    assert page.field("Your answer")["value"] == text.strip().replace("\x00", "")
    assert page.field("Your answer")["aria-invalid"] == "true"
    assert not the_sitting(kitchen).answers


def test_the_summary_links_to_the_answer(sitter: Hands) -> None:
    """The summary names the value and links to the input it is about."""
    page = sitter.press("Keep it", {"Your answer": "a pinch"})
    link = page.soup.select_one("[role=alert] a")
    assert link is not None
    assert link["href"] == f"#{page.field('Your answer')['id']}"
    assert "a pinch" in link.get_text()


def test_an_answer_is_kept_at_once(
    sitter: Hands, kitchen: Kitchen, tmp_path: Path, clock: Clock, named: Callable[[str], str]
) -> None:
    """A server that dies after an answer opens the sitting again at the next question."""
    sitter.press("Keep it", {"Your answer": "7"})
    cookies = {named(name): sitter.client.get_cookie(named(name)) for name in ("session", "device")}
    file = KitchenFile.open(tmp_path / "kitchen")
    again = Hands(create_app(Kitchen(file, kitchen.content), clock=clock).test_client())
    for name, cookie in cookies.items():
        assert cookie is not None
        again.client.set_cookie(name, cookie.value)
    page = again.open("/rail")
    assert "Your quiz is open." in page.work
    page = again.follow("Go on with the quiz: Pasta nesting")
    assert page.title.startswith("Question 2 of 3")
    file.close()


def test_an_answer_may_be_changed_before_handing_in(sitter: Hands, kitchen: Kitchen) -> None:
    """Back shows the answer as typed; another one takes its place."""
    sitter.press("Keep it", {"Your answer": "7"})
    page = sitter.follow("Back")
    assert page.field("Your answer")["value"] == "7"
    sitter.press("Keep it", {"Your answer": "8"})
    assert the_sitting(kitchen).answers[0] == "8"


def test_right_answers_pass(sitter: Hands, kitchen: Kitchen) -> None:
    """Three right of three: passed, recorded, and the next act is to ask to be watched."""
    answer_all(sitter, kitchen)
    assert sitter.page.heading == "Your answers"
    page = sitter.press("Hand in")
    entry = kitchen.file.book.since(0)[-1]
    assert entry.kind == "quiz_sat"
    assert entry.body["passed"] is True
    assert "3 of 3 right" in page.work
    assert sitter.press("Ask to be watched").path == "/rail"


def test_a_wrong_method_is_named_with_its_worked_solution(sitter: Hands, kitchen: Kitchen) -> None:
    """An answer a known wrong method gives is named, and the solution is worked with the question's own numbers."""
    question = printed(the_sitting(kitchen).questions[1])
    answer_all(sitter, kitchen, wrong=(1,))
    page = sitter.press("Hand in")
    assert "2 of 3 right" in page.work
    shown = page.soup.select_one(".slips li")
    assert shown is not None
    words = " ".join(shown.get_text(" ").split())
    assert question.text in words
    assert question.wrong_methods[0].clause in words
    assert all(line in words for line in question.solution)


def test_a_finished_sitting_is_shown_again_the_same(sitter: Hands, kitchen: Kitchen) -> None:
    """The result opened again later is the page it was, from the book alone."""
    answer_all(sitter, kitchen, wrong=(0, 2))
    page = sitter.press("Hand in")
    assert "1 of 3 right" in page.work
    assert page.link("Back to my page") == "/rail"
    work = [li.get_text() for li in page.soup.select(".slips li")]
    again = sitter.open(page.path)
    assert [li.get_text() for li in again.soup.select(".slips li")] == work


def test_a_pass_stands_on_the_safety_questions_too(ana: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """Three of four are right, but not the one about safety: not passed, and the page says why, as it said before."""
    holding = QuestionSetting("discard_time", MappingProxyType({}), MappingProxyType({}), 1)
    nests = replace(NESTS, questions=(*NESTS.questions, holding))
    kitchen.content = replace(CONTENT, techniques=MappingProxyType({**CONTENT.techniques, "nests": nests}))
    read_through(ana)
    assert "70 % of the questions about safety must be right" in ana.open("/techniques/nests/quiz").work
    ana.press("Start the quiz")
    answer_all(ana, kitchen, wrong=(3,))
    page = ana.press("Hand in")
    says = "3 of 4 right, but only 0 of 1 about safety. Of those, 1 must be right to pass."
    assert f"Not yet: {says}" in page.work
    assert says in cleo.open("/book").work


def test_handing_in_twice_gives_one_entry(sitter: Hands, kitchen: Kitchen) -> None:
    """The hand-in sent again with the same key leads to the same result."""
    answer_all(sitter, kitchen)
    page = sitter.page
    form = page.soup.find("form", id="hand-in")
    data = {str(i["name"]): str(i["value"]) for i in form.find_all("input")}  # type: ignore[union-attr]
    first, second = (sitter.client.post(page.path, data=data) for _ in range(2))
    assert first.status_code == second.status_code == 303
    assert first.location.split("?")[0] == second.location.split("?")[0]
    assert [e.kind for e in kitchen.file.book.since(0)].count("quiz_sat") == 1


def test_a_sitting_is_its_cooks_own(sitter: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """Another cook meets a person's sitting as if there were none, to see and to answer."""
    dev, sitting = sign_in("dev"), the_sitting(kitchen)
    assert dev.open(f"/sittings/{sitting.id}").status == 404
    assert dev.open(f"/sittings/{sitting.id}/1").status == 404
    assert dev.open(f"/sittings/{sitting.id}/hand-in").status == 404
