"""A quiz that decides, on the pages: answers stand, it ends by itself, a fail waits, a wrong method gets a drill."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import with_technique
from tests.kitchen.quiz.asking import WORDS
from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear, write
from tests.web.test_cook import read_through
from tests.web.test_quiz import answer_all, the_sitting
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.sequential_test import Plan
from trainer.recipe_math.figures import number_text


@pytest.fixture
def sitter(ana: Hands, kitchen: Kitchen) -> Hands:
    """Return Ana at the first question of a quiz that decides by the usual plan."""
    kitchen.content = with_technique(kitchen.content, "nests", plan=Plan(), need_right=19)
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    assert "25 at most" in ana.page.work
    assert "9 straight right passes the quiz" in ana.page.work
    ana.press("Start the quiz")
    return ana


def answer(hands: Hands, kitchen: Kitchen, *, right: bool, method: str = "") -> Seen:
    """Answer the question on the page: right, by a wrong method, or by none that is known."""
    sitting = the_sitting(kitchen)
    place = sitting.next_unanswered
    assert place is not None
    question = sitting.questions[place]
    slips = {way.name: way.value for way in question.wrong_methods}
    value = question.answer.value if right else slips.get(method, question.answer.value * 1000 + 77)
    return hands.press("Keep it", {"Your answer": number_text(value, 3)})


def sat(kitchen: Kitchen) -> Entry:
    """Return the last sitting in the book."""
    return [entry for entry in kitchen.file.book.since(0) if entry.kind == "quiz_sat"][-1]


def test_after_an_answer_the_cook_sees_only_that_it_is_kept(sitter: Hands, kitchen: Kitchen) -> None:
    """How many questions at most are left is told; right or wrong is not, and there is no way back."""
    right, wrong = answer(sitter, kitchen, right=True), answer(sitter, kitchen, right=False)
    assert right.title.startswith("Question 2 of 25 at most")
    assert "Answer 1 is kept. At most 24 left." in right.work
    assert "Answer 2 is kept. At most 23 left." in wrong.work
    for page in (right, wrong):
        assert "Back" not in [a.get_text() for a in page.soup.find_all("a")]
        assert "right" not in page.work.lower().split()


def test_an_earlier_question_leads_to_the_one_asked_now(sitter: Hands, kitchen: Kitchen) -> None:
    """The address of an answered question, of a later one, and of handing in; the answer kept stays."""
    answer(sitter, kitchen, right=True)
    kept, sitting = dict(the_sitting(kitchen).answers), the_sitting(kitchen).id
    for part in ("1", "5", "hand-in"):
        assert sitter.open(f"/sittings/{sitting}/{part}").title.startswith("Question 2 of 25")
    assert dict(the_sitting(kitchen).answers) == kept
    assert sitter.open(f"/sittings/{sitting}/26").status == 404


def test_nine_straight_right_show_the_result_with_its_evidence(sitter: Hands, kitchen: Kitchen) -> None:
    """At .60 and .85 (Wald 1947); 1 - .6 ** 10 is .994 (by hand). Then the next act is to be watched."""
    for _ in range(9):
        page = answer(sitter, kitchen, right=True)
    assert page.path.startswith("/results/")
    assert "9 of 9 right Passed: 9 of 9 right. After 9, 9 or more right is enough to pass." in page.work
    assert "more than 60 % of this is 99.4 in 100" in page.work
    assert "Saved 12:00" in page.work
    assert sitter.press("Ask to be watched").path == "/rail"


def test_the_last_answer_sent_twice_leads_to_the_same_result(sitter: Hands, kitchen: Kitchen) -> None:
    """A double press makes one entry."""
    for _ in range(8):
        page = answer(sitter, kitchen, right=True)
    data = {str(i["name"]): str(i.get("value", "")) for i in page.soup.select("#question input")}
    data["answer"] = number_text(the_sitting(kitchen).questions[8].answer.value, 3)
    first, second = (sitter.client.post(page.path, data=data) for _ in range(2))
    assert first.status_code == second.status_code == 303
    assert first.location.split("?")[0] == second.location.split("?")[0]
    assert [e.kind for e in kitchen.file.book.since(0)].count("quiz_sat") == 1


def test_after_a_fail_the_page_says_from_when_it_may_be_sat(
    sitter: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """One day after the first fail: told on the result, the own page and the quiz's own page; then it may be sat."""
    for _ in range(3):
        page = answer(sitter, kitchen, right=False)
    assert "Not yet: 0 of 3 right. After 3, more than 0 must be right." in page.work
    assert "You may sit it again from Wed 4 Nov 2026." in page.work
    assert page.link("Back to my page") == "/rail"
    assert "Sit the quiz again from Wed 4 Nov 2026." in sitter.open("/rail").work
    assert "You may sit it again from Wed 4 Nov 2026." in sitter.open("/techniques/nests/quiz").work
    clock.pass_by(hours=12)
    next_day = sign_in("ana")
    next_day.open("/techniques/nests/quiz")
    assert next_day.press("Start the quiz").title.startswith("Question 1 of 25")


def test_a_start_that_comes_too_soon_is_refused_with_the_day(sitter: Hands, kitchen: Kitchen) -> None:
    """A page opened before the fail does not get around the wait."""
    before = sitter.open("/techniques/nests/quiz").soup
    data = {str(i["name"]): str(i.get("value", "")) for i in before.select("form input") if i.get("name")}
    sitter.open(f"/sittings/{the_sitting(kitchen).id}")
    for _ in range(3):
        answer(sitter, kitchen, right=False)
    response = sitter.client.post("/techniques/nests/quiz", data=data)
    assert response.status_code == 400
    assert "may be sat again on" in response.get_data(as_text=True)


def test_a_wrong_method_shown_twice_gets_a_drill(sitter: Hands, kitchen: Kitchen) -> None:
    """Two answers by one method: the result names it and leads to one sum worked to the end and one half way."""
    wrong = the_sitting(kitchen).questions[1].wrong_methods[0]
    answer(sitter, kitchen, right=False)
    answer(sitter, kitchen, right=False, method=wrong.name)
    page = answer(sitter, kitchen, right=False, method=wrong.name)
    assert page.path.startswith("/results/")
    assert f"{WORDS.for_cook('amount_to_buy', wrong.name)} 2 answers showed it." in page.work
    drill = sitter.follow("Practise it: How much to buy when some is trimmed away")
    headings = [h.get_text() for h in drill.soup.select("main h2")]
    assert headings == ["One, worked to the end", "One, worked half way"]
    assert "____" in drill.work
    assert sitter.follow("Another one").status == 200


@pytest.mark.parametrize("address", ["amount_to_buy/nothing", "no_family/loss_forgotten", "date_mark/loss_forgotten"])
def test_there_is_no_drill_for_what_is_not_asked(ana: Hands, address: str) -> None:
    """A method or a family the technique does not have is not there."""
    assert ana.open(f"/techniques/nests/drills/{address}?seed=x").status == 404


def two_by_one_method(hands: Hands, kitchen: Kitchen) -> str:
    """Let Ana fail by one method twice; return what it means, said to the teacher."""
    question = the_sitting(kitchen).questions[1]
    answer(hands, kitchen, right=False)
    for _ in range(2):
        answer(hands, kitchen, right=False, method=question.wrong_methods[0].name)
    return f"{WORDS.for_teacher(question.family, question.wrong_methods[0].name)} 2 answers showed it."


def test_the_teacher_reads_what_the_method_means(
    sitter: Hands, kitchen: Kitchen, sign_in: Callable[[str], Hands]
) -> None:
    """On the manager's page of the cook; a cook with slips only has no such line."""
    tells = two_by_one_method(sitter, kitchen)
    cleo = sign_in("cleo")
    assert f"Pasta nesting: {tells}" in cleo.open("/cooks/ana").work
    assert "Wrong methods" not in cleo.open("/cooks/dev").work


def test_the_assessor_reads_it_before_the_practical(
    sitter: Hands, kitchen: Kitchen, sign_in: Callable[[str], Hands]
) -> None:
    """Among those ready to show, and on the first page of the practical."""
    write(kitchen, "quiz_sat", "ana", passed_long_ago(kitchen), days=30)
    tells = two_by_one_method(sitter, kitchen)
    write(kitchen, "watch_asked", "ana", {"technique": "nests"}, days=0)
    clear(kitchen, "bo")
    bo = sign_in("bo")
    assert f"Wrong method in the answers: {tells}" in bo.open("/ready").work
    assert f"Wrong method in the answers: {tells}" in bo.press("Watch Ana, Ana Pardo, Pasta nesting").work


def passed_long_ago(kitchen: Kitchen) -> dict[str, Any]:
    """Return the body of a sitting passed in the edition in force."""
    edition = kitchen.content.techniques["nests"].edition_on(NOON.date()).number
    body = {"technique": "nests", "edition": edition, "seed": 1, "grader": 1, "questions": []}
    return {**body, "right": 3, "asked": 3, "need": 2, "passed": True}


def test_a_manager_voids_a_question_and_both_results_are_shown(
    ana: Hands, kitchen: Kitchen, sign_in: Callable[[str], Hands]
) -> None:
    """Two of three pass with two needed; without a right one, one of two does not (66.7 % of 2 is 1.3, so 2)."""
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    ana.press("Start the quiz")
    answer_all(ana, kitchen, wrong=(2,))
    result = ana.press("Hand in").path
    cleo = sign_in("cleo")
    cleo.open("/book")
    page = cleo.follow(f"Void a question of entry {sat(kitchen).seq}")
    assert page.heading == f"Void a question of entry {sat(kitchen).seq}"
    assert cleo.press("Void the question", {"Reason": "Bad figure."}, question="9").problems
    assert cleo.press("Void the question", question="1").problems == ["Write the reason. It stays in the book."]
    page = cleo.press("Void the question", {"Reason": "Bad figure."}, question="1")
    both = "Scored again without question 1: 1 of 2 right, not yet. Before: 2 of 3 right, passed."
    assert both in page.work
    assert "Question voided: Ana Pardo" in page.work
    shown = ana.open(result).work
    assert both in shown
    assert "1 of 2 right Not yet: 2 needed." in shown
    assert "Voided: it does not count." in shown
    cleo.open(f"/book/{sat(kitchen).id}/questions/void")
    again = cleo.press("Void the question", {"Reason": "Bad figure."}, question="1")
    assert "That question is voided already." in " ".join(again.problems)


def test_only_a_sitting_has_questions_to_void(cleo: Hands, kitchen: Kitchen) -> None:
    """Another entry has no such page."""
    joined = kitchen.file.book.since(0)[0]
    assert cleo.open(f"/book/{joined.id}/questions/void").status == 404


def test_the_book_tells_how_the_answers_stood(sitter: Hands, kitchen: Kitchen, cleo: Hands) -> None:
    """In words, read from the entry alone."""
    for _ in range(3):
        answer(sitter, kitchen, right=False)
    assert "0 of 3 right. After 3, more than 0 must be right. So: not passed" in cleo.open("/book").work


def test_a_sitting_may_be_left_undecided(sitter: Hands, kitchen: Kitchen, sign_in: Callable[[str], Hands]) -> None:
    """Nine straight right less one are eight: neither passed nor failed, so it may be sat again at once."""
    for _ in range(9):
        result = answer(sitter, kitchen, right=True).path
    void_questions(sign_in("cleo"), sat(kitchen), 1)
    page = sitter.open(result)
    assert "8 of 8 right Not decided any more" in page.work
    assert page.link("Sit it again") == "/techniques/nests/quiz"


def test_a_sitting_with_every_question_voided_says_nothing(
    sitter: Hands, kitchen: Kitchen, sign_in: Callable[[str], Hands]
) -> None:
    """No evidence is left, and none is claimed."""
    for _ in range(3):
        result = answer(sitter, kitchen, right=False).path
    void_questions(sign_in("cleo"), sat(kitchen), 1, 2, 3)
    page = sitter.open(result)
    assert "0 of 0 right Not decided any more." in page.work
    assert "Scored again without questions 1, 2, 3" in page.work
    assert "On these answers alone" not in page.work


def test_a_voided_sitting_shows_what_was_saved(
    sitter: Hands, kitchen: Kitchen, sign_in: Callable[[str], Hands]
) -> None:
    """The entry stays as it was written; it only counts no longer."""
    for _ in range(3):
        result = answer(sitter, kitchen, right=False).path
    cleo = sign_in("cleo")
    cleo.open(f"/book/{sat(kitchen).id}/void")
    cleo.press("Void the entry", {"Reason": "Somebody else sat at the tablet."})
    page = sitter.open(result)
    assert "0 of 3 right Not yet." in page.work
    assert page.link("Sit it again") == "/techniques/nests/quiz"


def void_questions(hands: Hands, entry: Entry, *numbers: int) -> None:
    """Void questions of a sitting, as a manager does."""
    for number in numbers:
        hands.open(f"/book/{entry.id}/questions/void")
        page = hands.press("Void the question", {"Reason": "Bad figure."}, question=str(number))
        assert not page.problems
