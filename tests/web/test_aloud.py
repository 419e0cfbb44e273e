"""Questions asked aloud by an assessor: in either language, for the cook's own run, told in the book by whom."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands
from tests.web.skill_content import SKILL_CONTENT
from tests.web.test_cook import read_through
from tests.web.test_questions import question_before, right_text, wrong_text
from trainer.actions.open_kitchen import Kitchen

SignIn = Callable[[str], Hands]
ALOUD = "/knows/ana/nests/aloud"


@pytest.fixture
def bo_asks(kitchen: Kitchen, ana: Hands, sign_in: SignIn) -> Hands:
    """Return Bo, an assessor, with a cook who has read a technique that asks for two skills."""
    kitchen.content = SKILL_CONTENT
    read_through(ana)
    return sign_in("bo")


def test_a_cook_is_found_on_the_assessors_page(bo_asks: Hands) -> None:
    """From there to the question is two taps."""
    bo_asks.open("/ready")
    bo_asks.follow("Ask questions aloud")
    page = bo_asks.follow("Ana Pardo Pasta nesting")
    assert page.path == ALOUD
    assert "Bo Lind asks Ana aloud. Read it as it stands; do not help." in page.work


def test_it_can_be_heard_in_every_language(bo_asks: Hands) -> None:
    """One button a language, each with the question in it."""
    buttons = bo_asks.open(ALOUD).soup.select("[data-say]")
    assert [(button["lang"], button.get_text()) for button in buttons] == [("en", "ENEnglish"), ("es", "ESEspañol")]
    assert all(button["data-say"] for button in buttons)


def test_the_answer_is_the_cooks_and_says_who_asked(kitchen: Kitchen, bo_asks: Hands, sign_in: SignIn) -> None:
    """It counts in the cook's row; the cook's record and the answer's own page tell that it was asked aloud."""
    bo_asks.open(ALOUD)
    page = bo_asks.press("Ana says this", {"Your answer": right_text(question_before(kitchen, bo_asks)[1])})
    assert "Right." in page.work
    entry = kitchen.file.book.since(0)[-1]
    assert (entry.cook, entry.by, entry.body["asked_by"], entry.body["verdict"]) == ("ana", "bo", "bo", "right")
    ana = sign_in("ana")
    assert "Asked aloud by Bo Lind" in ana.open("/record/written").work
    assert "Asked aloud by Bo Lind" in ana.open(f"/answers/{entry.id}").work


def test_what_was_wrong_is_read_to_the_cook_before_the_next_one(kitchen: Kitchen, bo_asks: Hands) -> None:
    """The sentence and how it is worked stand above the next question."""
    bo_asks.open(ALOUD)
    question = question_before(kitchen, bo_asks)[1]
    page = bo_asks.press("Ana says this", {"Your answer": wrong_text(question)})
    assert "Not yet." in page.work


def test_who_asks_gives_the_secret_where_the_last_proof_is_old(kitchen: Kitchen, bo_asks: Hands, clock: Clock) -> None:
    """Nobody answers for a cook at a tablet an assessor has left: after 30 minutes it asks who is there."""
    for _ in range(11):
        clock.pass_by(minutes=3)
        bo_asks.open("/ready")
    page = bo_asks.open(ALOUD)
    assert "Ask Ana Pardo aloud: Pasta nesting" in page.work
    assert not kitchen.file.drafts.list("question")
    assert bo_asks.press("Begin", {"Your PIN or passphrase": "00000000"}).status == 400
    page = bo_asks.press("Begin", {"Your PIN or passphrase": PIN})
    assert "asks Ana aloud" in page.work


def test_no_cook_asks_another(bo_asks: Hands, sign_in: SignIn) -> None:
    """It is for assessors."""
    assert bo_asks
    assert sign_in("dev").open(ALOUD).status == 403
    assert sign_in("dev").open("/knows/aloud").status == 403
