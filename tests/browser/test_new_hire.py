"""A new hire: reads a technique, sits its quiz, learns which wrong method was used, passes, asks to be watched."""

from __future__ import annotations

from collections.abc import Callable

from tests.browser.engine import Screen, Served
from tests.browser.journeys import answer, answer_from, person_id, questions_of, read_whole, step_in, typed
from tests.browser.somebody import Somebody
from trainer.actions import studying

A_PINCH = "a pinch"


def test_from_the_first_step_to_asking_to_be_watched(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """The next act is always on the one enamel button, and what was done is kept through a closed browser."""
    noor, cook = sit_down(quernstone, screen), person_id(quernstone, "New hire")
    step_in(noor, quernstone, "New hire")
    first = noor.next_act()
    technique = next(t for t in quernstone.kitchen.content.techniques.values() if first == f"Read: {t.title}")
    assert technique.plan is None
    read_whole(noor, technique)

    assert noor.next_act() == f"Sit the quiz: {technique.title}"
    assert noor.next_act() == "Start the quiz"
    questions = questions_of(quernstone, cook)
    place = next(number for number, question in enumerate(questions, 1) if number > 1 and not question.choices)
    for number, question in enumerate(questions[: place - 1], 1):
        answer(noor, number, typed(question.answer.value))

    noor.fill("Your answer", A_PINCH)
    noor.press("Keep it")
    assert noor.page.title().startswith(f"Error: Question {place} of ")
    assert noor.page.get_by_label("Your answer").input_value() == A_PINCH
    refusal = noor.page.locator(".in-place[role=alert]")
    assert A_PINCH in refusal.inner_text()
    assert noor.page.get_by_label("Your answer").get_attribute("aria-invalid") == "true"

    noor.close_and_come_back()
    assert noor.next_act() == f"Go on with the quiz: {technique.title}"
    assert noor.heading == " ".join(questions[place - 1].text.split())
    told = answer_from(noor, questions, place, wrong=technique.asked - technique.need_right + 1)

    assert noor.heading == "Your answers"
    noor.next_act()
    assert f"{technique.need_right - 1} of {technique.asked} right Not yet" in noor.work
    for words in told:
        assert " ".join(words.split()) in noor.work
    assert "You may sit it again from Sat 28 Nov 2026." in noor.work
    assert noor.next_act() == "Back to my rail"
    assert "Sit the quiz again from Sat 28 Nov 2026." in noor.work

    quernstone.clock.put_forward(days=1)
    step_in(noor, quernstone, "New hire")
    assert noor.next_act() == f"Sit the quiz: {technique.title}"
    assert noor.next_act() == "Start the quiz"
    again = questions_of(quernstone, cook)
    assert [q.text for q in again] != [q.text for q in questions]
    answer_from(noor, again, 1, wrong=0)
    noor.next_act()
    assert f"{technique.asked} of {technique.asked} right Passed" in noor.work
    assert noor.next_act() == "Ask to be watched"
    assert "You asked to be watched." in noor.work


def test_a_quiz_ends_by_itself_when_the_answers_decide(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Each answer stands; after a fail it waits a day; nine straight right pass."""
    noor, cook = sit_down(quernstone, screen), person_id(quernstone, "New hire")
    step_in(noor, quernstone, "New hire")
    technique, k = quernstone.kitchen.content.techniques["safe_holding"], quernstone.kitchen
    studying.acknowledge_reading(k, cook=cook, technique=technique.id, now=quernstone.clock(), key="read")
    noor.open(f"/techniques/{technique.id}/quiz")
    assert noor.next_act() == "Start the quiz"
    questions = questions_of(quernstone, cook)
    answer(noor, 1, typed(questions[0].answer.value))
    assert "Answer 1 is kept. At most 24 left." in noor.work
    noor.close_and_come_back()
    assert noor.next_act() == f"Go on with the quiz: {technique.title}"
    told = answer_from(noor, questions, 2, wrong=3)
    assert "1 of 4 right Not yet" in noor.work
    for words in told:
        assert " ".join(words.split()) in noor.work
    assert noor.next_act() == "Back to my rail"

    quernstone.clock.put_forward(days=1)
    step_in(noor, quernstone, "New hire")
    noor.open(f"/techniques/{technique.id}/quiz")
    assert noor.next_act() == "Start the quiz"
    answer_from(noor, questions_of(quernstone, cook), 1, wrong=0)
    assert "9 of 9 right Passed" in noor.work
    assert noor.next_act() == "Ask to be watched"
