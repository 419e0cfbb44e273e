"""What the kitchen gets wrong most: bars with counts, what to say, and a share only of enough people."""

from __future__ import annotations

import pytest

from tests.web.hands import Hands
from tests.web.skill_content import SKILLED
from tests.web.test_knowledge import SignIn, reader
from tests.web.test_questions import answer_next, right_text, wrong_text
from trainer.actions.open_kitchen import Kitchen
from trainer.recipe_math.figures import number_text
from trainer.web.assessor.most import WIDTH, bar_drawn

__all__ = ["reader"]


def test_a_wrong_method_stands_with_its_count_and_what_to_say(
    kitchen: Kitchen,
    reader: Hands,
    sign_in: SignIn,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Two answers of one cook: the count, the sentence of the family for that method, the way to the cook."""
    seeds = iter((5, 6))
    monkeypatch.setattr("trainer.web.cook.question_view.secrets.randbelow", lambda most: next(seeds) % most)
    for _ in range(2):
        answer_next(kitchen, reader, lambda question: number_text(question.wrong_methods[0].value, 6), "cooling")
    page = sign_in("cleo").open("/most-wrong")
    (first, *_) = page.soup.select(".bars > li")
    words = " ".join(first.get_text(" ").split())
    assert "Ana Pardo: 2 answers" in words
    assert "To say:" in words
    assert first.svg is not None
    assert "2" in first.svg.get_text()


def test_of_one_cook_there_are_counts_and_no_share(kitchen: Kitchen, reader: Hands, sign_in: SignIn) -> None:
    """Missed at first by 1 of 1: too few to say more, it takes 30; no share and no percent is printed."""
    answer_next(kitchen, reader, wrong_text, "cooling")
    page = sign_in("bo").open("/most-wrong")
    assert "First cooling stage 1 1 of 1 cook. Too few to say more: 1 of 30 cooks." in page.work
    assert f"Taught in: {SKILLED.title}." in page.work
    assert "Of 100 cooks" not in page.work
    assert "No wrong method showed twice." in page.work


def test_who_was_right_at_first_is_told_as_nobody_missing(kitchen: Kitchen, reader: Hands, sign_in: SignIn) -> None:
    """No bar of nothing."""
    answer_next(kitchen, reader, right_text, "buying")
    page = sign_in("cleo").open("/most-wrong")
    assert "Nobody missed a first question." in page.work
    assert "1 kind of question nobody missed." in page.work


def test_the_desk_and_the_board_lead_there_and_a_cook_is_turned_away(ana: Hands, bo: Hands, cleo: Hands) -> None:
    """For whoever teaches and manages alone."""
    for page, start in ((bo, "/ready"), (cleo, "/board")):
        page.open(start)
        assert page.follow("What the kitchen gets wrong most").path == "/most-wrong"
    assert ana.open("/most-wrong").status == 403


def test_a_bar_is_as_long_as_its_count() -> None:
    """5 of 10 is half as long as all 10, which fill the room; the number stands at the end."""
    whole, half = bar_drawn(10, 10, 10), bar_drawn(5, 10, 10)
    assert f"M1 3H{float(WIDTH - 44)}" in whole
    assert half.count(f"M1 3H{(WIDTH - 44) / 2}") == 1
    assert ">5<" in half
