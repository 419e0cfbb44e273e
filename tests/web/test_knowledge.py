"""What a cook knows, for whoever teaches: skill by skill, read aloud, practised with a person, a wait lifted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.skill_content import SKILL_CONTENT, SKILLED
from tests.web.test_cook import read_through
from tests.web.test_questions import (
    answer_next,
    answered,
    practise_alone,
    question_before,
    right_text,
    wrong_text,
)
from trainer.actions.open_kitchen import Kitchen
from trainer.recipe_math.figures import number_text

SignIn = Callable[[str], Hands]


@pytest.fixture
def reader(kitchen: Kitchen, ana: Hands) -> Hands:
    """Return Ana, who has read a technique that asks for two skills."""
    kitchen.content = SKILL_CONTENT
    read_through(ana)
    return ana


def end_rounds(kitchen: Kitchen, sign_in: SignIn, clock: Clock, rounds: int) -> None:
    """End so many rounds of the cooling skill by two wrong answers each, practised alone between."""
    for each in range(rounds):
        ana = sign_in("ana")
        for _ in range(2):
            answer_next(kitchen, ana, wrong_text, "cooling")
        if each < rounds - 1:
            clock.pass_by(days=4)
            ana = sign_in("ana")
            practise_alone(kitchen, ana)
            clock.pass_by(days=4)


def test_the_table_says_what_was_asked_and_how_far_each_skill_is(
    kitchen: Kitchen, reader: Hands, sign_in: SignIn
) -> None:
    """Asked, right, in a row and the state; and beside it what that says and what it does not."""
    answer_next(kitchen, reader, right_text, "buying")
    answer_next(kitchen, reader, wrong_text, "cooling")
    page = sign_in("cleo").open("/knows/ana")
    assert "What to buy 1 of 3 in a row 1 asked, 1 right" in page.work
    assert "First cooling stage 0 of 4 in a row 1 asked, 0 right" in page.work
    assert "how the cook works is the practical" in page.work


def test_nobody_else_looks_at_it(reader: Hands) -> None:
    """It is for those who teach or manage."""
    assert reader.open("/knows/bo").status == 403


def test_a_question_read_aloud_counts_as_the_cooks_answer(kitchen: Kitchen, reader: Hands, sign_in: SignIn) -> None:
    """Not reading well is no bar: an assessor reads, the cook answers, the book says who read."""
    assert reader
    bo = sign_in("bo")
    page = bo.open("/knows/ana/nests/aloud")
    assert "Bo Lind asks Ana aloud." in page.work
    _, question = question_before(kitchen, bo)
    bo.press("Ana says this", {"Your answer": right_text(question)})
    assert answered(kitchen) == ["right"]
    entry = kitchen.file.book.since(0)[-1]
    assert (entry.cook, entry.by, entry.body["asked_by"]) == ("ana", "bo", "bo")


def test_nobody_reads_aloud_to_themselves(kitchen: Kitchen, sign_in: SignIn) -> None:
    """It takes another person."""
    kitchen.content = SKILL_CONTENT
    bo = sign_in("bo")
    read_through(bo)
    page = bo.open("/knows/bo/nests/aloud")
    bo.press("Bo says this", {"Your answer": "1"})
    assert page.status == 200
    assert "Somebody else does this with you: an assessor." in bo.page.work
    assert answered(kitchen) == []


def test_the_third_round_is_practised_with_an_assessor(
    kitchen: Kitchen, reader: Hands, sign_in: SignIn, clock: Clock
) -> None:
    """Alone it is refused; an assessor writes it down with their own secret, and a manager lifts the wait."""
    assert reader
    end_rounds(kitchen, sign_in, clock, 3)
    ana = sign_in("ana")
    assert "Go through this with an assessor." in ana.open("/techniques/nests/practice/cooling").work
    bo = sign_in("bo")
    bo.open("/ready")
    bo.follow("Ana Pardo needs somebody to practise with: First cooling stage")
    bo.follow("Practised with them: First cooling stage")
    bo.press("We went through it", {"What you went through, if you want to say it": "Both gates on the label"})
    assert kitchen.file.book.since(0)[-1].kind == "drill_given"
    cleo = sign_in("cleo")
    cleo.open("/knows/ana")
    cleo.follow("Lift the wait: First cooling stage")
    cleo.press("Lift the wait", {"Reason": "Short of hands on Friday"})
    assert kitchen.file.book.since(0)[-1].body["skill"] == "cooling"


def test_a_wait_that_is_not_there_is_not_lifted(kitchen: Kitchen, reader: Hands, sign_in: SignIn) -> None:
    """The refusal names the skill and the cook."""
    assert reader
    cleo = sign_in("cleo")
    cleo.open("/knows/ana/waits/cooling/lift")
    page = cleo.press("Lift the wait", {"Reason": "Please"})
    assert page.problems == ["There is no wait in First cooling stage for Ana Pardo."]
    assert kitchen.file.book.since(0)[-1].kind != "wait_lifted"


def test_a_lost_skill_is_told_to_the_sous_chef_at_once(
    kitchen: Kitchen, reader: Hands, sign_in: SignIn, clock: Clock
) -> None:
    """Passed, then two refreshers wrong: it counts some days more, and whoever teaches reads to which."""
    for _ in range(2):
        answer_next(kitchen, reader, right_text, "cooling")
    clock.pass_by(days=1)
    answer_next(kitchen, sign_in("ana"), right_text, "cooling")
    for days in (21, 1):
        clock.pass_by(days=days)
        answer_next(kitchen, sign_in("ana"), wrong_text, "cooling")
    assert "Ana Pardo lost First cooling stage: it counts to Wed 2 Dec" in sign_in("bo").open("/ready").work


def test_a_wrong_method_is_told_to_the_sous_chef_with_how_to_talk_about_it(
    kitchen: Kitchen, reader: Hands, sign_in: SignIn, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Plain counts of answers and cooks, what to say, and the way to the cook's own answers."""
    seeds = iter((5, 6))
    monkeypatch.setattr("trainer.web.cook.question_view.secrets.randbelow", lambda most: next(seeds) % most)
    for _ in range(2):
        answer_next(kitchen, reader, lambda question: number_text(question.wrong_methods[0].value, 6), "cooling")
    page = sign_in("bo").open("/ready")
    (line,) = page.soup.select("details.talk")
    assert line.summary
    assert "Ana Pardo: 2 answers" in line.summary.get_text()
    assert page.link("Ana Pardo") == "/knows/ana"
    assert "%" not in line.get_text()


def test_a_technique_not_read_is_not_listed_though_it_shares_a_skill(
    kitchen: Kitchen, reader: Hands, sign_in: SignIn
) -> None:
    """What was answered elsewhere counts there once it is read; until then there is nothing to teach of it."""
    other = replace(SKILLED, id="other", title="Another nest")
    kitchen.content = replace(SKILL_CONTENT, techniques={**SKILL_CONTENT.techniques, "other": other})
    answer_next(kitchen, reader, right_text, "buying")
    page = sign_in("cleo").open("/knows/ana")
    assert "Pasta nesting" in page.work
    assert "Another nest" not in page.work
