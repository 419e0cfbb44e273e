"""A new hire: reads a technique, answers its questions, learns of a wrong method, passes, asks to be watched."""

from __future__ import annotations

from collections.abc import Callable

from tests.browser.engine import Screen, Served
from tests.browser.journeys import (
    answer,
    answer_all,
    person_id,
    question_alone,
    question_before,
    read_whole,
    right,
    step_in,
    typed,
)
from tests.browser.somebody import Somebody
from tests.kitchen.quiz.asking import Asked, AskedMethod
from tests.printed import english
from trainer.kitchen.technique import Technique

A_PINCH = "a pinch"
SKILL, METHOD = "reading_thermometer", "mark_as_one_degree"
MOST_DAYS = 4


def wrong_way(question: Asked) -> AskedMethod:
    """Return the wrong method this cook has, as the question lists it."""
    return next(way for way in question.wrong_methods if way.name == METHOD)


def up_to_the_number(noor: Somebody, served: Served, cook: str) -> Asked:
    """Answer rightly until a dial is to be read; return that question."""
    for _ in range(40):
        skill, question = question_before(noor, served, cook)
        if skill == SKILL:
            return question
        answer(noor, right(question))
        assert noor.heading == "Right"
        assert noor.next_act() == "Next question"
    raise AssertionError("No dial is asked for.")


def refuses_what_is_no_number(noor: Somebody) -> None:
    """Send what is no number: it is refused in its place, and what was typed stays."""
    noor.fill("Your answer", A_PINCH)
    noor.press("Answer")
    assert noor.page.title().startswith("Error: ")
    assert noor.page.get_by_label("Your answer").input_value() == A_PINCH
    assert A_PINCH in noor.page.locator(".in-place[role=alert]").inner_text()
    assert noor.page.get_by_label("Your answer").get_attribute("aria-invalid") == "true"


def errs_twice(noor: Somebody, served: Served, cook: str, first: Asked) -> None:
    """Read two dials by the same wrong method: the first is about the number, the second about the cook."""
    answer(noor, typed(wrong_way(first).value))
    assert noor.heading == "Not yet"
    assert " ".join(wrong_way(first).says.split()) in noor.work
    assert "Twice" not in noor.work
    assert noor.next_act() == "Next question"
    second = up_to_the_number(noor, served, cook)
    assert (second.text, second.figure) != (first.text, first.figure)
    answer(noor, typed(wrong_way(second).value))
    twice = english(served.kitchen.content.question_words.clauses(second.family, METHOD).twice)
    told = noor.page.locator(".due").inner_text()
    assert f"Twice {twice}: " in told
    for wrong in (first, second):
        assert typed(abs(wrong_way(wrong).value)) in told
    assert noor.heading == "Practice first"
    assert "after practice." in told


def practises(noor: Somebody, served: Served) -> None:
    """Practise: the cook's own question worked, and another to do alone, right at the second go."""
    assert "One worked out: yours" in noor.work
    assert noor.next_act() == "Practice this kind"
    assert noor.heading in {"One, worked half way", "One to look at"}
    assert noor.next_act() == "Next: one alone"
    answer(noor, typed(question_alone(noor, served).answer.value + 1000))
    assert "Now this one." in noor.work
    answer(noor, right(question_alone(noor, served)))
    assert "Saved " in noor.work


def tomorrow(noor: Somebody, served: Served, technique: Technique) -> None:
    """Come back the next day and go on with the questions."""
    served.clock.put_forward(days=1)
    step_in(noor, served, "New hire")
    assert noor.next_act() == f"Answer questions: {technique.title}"


def test_from_the_first_step_to_asking_to_be_watched(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """The next act is always on the one enamel button, and what was done is kept through a closed browser."""
    noor, cook = sit_down(quernstone, screen), person_id(quernstone, "New hire")
    step_in(noor, quernstone, "New hire")
    first = noor.next_act()
    technique = next(t for t in quernstone.kitchen.content.techniques.values() if first == f"Read: {t.title}")
    read_whole(noor, technique)

    assert noor.next_act() == f"Answer questions: {technique.title}"
    question = up_to_the_number(noor, quernstone, cook)
    refuses_what_is_no_number(noor)
    noor.close_and_come_back()
    assert noor.next_act() == f"Answer questions: {technique.title}"
    assert noor.heading == " ".join(question.text.split())
    errs_twice(noor, quernstone, cook, question)
    practises(noor, quernstone)
    assert noor.heading == "Practice is done"
    assert "Next on 28 November 2026." in noor.work

    for _ in range(MOST_DAYS):
        tomorrow(noor, quernstone, technique)
        if answer_all(noor, quernstone, cook) == "On to what is next":
            break
    assert noor.next_act() == "Ask to be watched"
    assert f"1 waits for others: {technique.title}" in noor.work
