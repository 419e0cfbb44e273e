"""Questions one at a time: each answer kept at once, two a day counted in a skill, practice after two wrong ones."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from typing import Literal

import pytest

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import write
from tests.web.skill_content import COOLING, SKILL_CONTENT
from tests.web.test_cook import read_through
from trainer.actions.asking_skills import context_for, draft_id, question_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.actions.practising import alone
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import tell
from trainer.recipe_math.figures import number_text


@pytest.fixture
def reader(kitchen: Kitchen, ana: Hands) -> Hands:
    """Return Ana, who has read a technique that asks for two skills."""
    kitchen.content = SKILL_CONTENT
    read_through(ana)
    return ana


Later = Callable[..., Hands]


@pytest.fixture
def later(clock: Clock, sign_in: Callable[[str], Hands]) -> Later:
    """Return a way to let time pass and to sit down again as Ana."""

    def comes_back(**span: float) -> Hands:
        clock.pass_by(**span)
        return sign_in("ana")

    return comes_back


def question_before(kitchen: Kitchen, hands: Hands) -> tuple[str, Question]:
    """Return the skill and the question of the page a cook has before them."""
    field = hands.page.soup.find("input", {"name": "skill"})
    assert field, hands.page.work
    skill = str(field["value"])
    draft = kitchen.file.drafts.get(draft_id("ana", skill))
    assert draft is not None
    asked = kitchen.content.skills[skill]
    return skill, tell(question_of(draft, asked).drawn, context_for(asked, kitchen.content))


def right_text(question: Question) -> str:
    """Return the right answer as a cook types it."""
    return number_text(question.answer.value, 3)


def wrong_text(question: Question) -> str:
    """Return an answer that is wrong and known as no wrong method."""
    return number_text(question.answer.value * 7 + Fraction(13), 3)


def answer_next(kitchen: Kitchen, hands: Hands, make: Callable[[Question], str] = right_text, skill: str = "") -> Seen:
    """Open the next question, of a skill where one is named, and answer it."""
    hands.open(f"/techniques/nests/questions?skill={skill}")
    return hands.press("Answer", {"Your answer": make(question_before(kitchen, hands)[1])})


def practise_alone(kitchen: Kitchen, hands: Hands) -> None:
    """Practise the cooling skill and do the last question right."""
    page = hands.open("/techniques/nests/practice/cooling?part=3")
    seed = int(str(page.soup.find("input", {"name": "seed"})["value"]))  # type: ignore[index]
    hands.press("How was it?", {"Your answer": right_text(alone(COOLING, seed, kitchen.content))})


def answered(kitchen: Kitchen) -> list[str]:
    """Return the verdicts the book has, in order."""
    return [entry.body["verdict"] for entry in kitchen.file.book.since(0) if entry.kind == "answered"]


def test_questions_are_refused_before_reading(kitchen: Kitchen, ana: Hands) -> None:
    """Who has not read the edition in force is told so, and nothing opens."""
    kitchen.content = SKILL_CONTENT
    page = ana.open("/techniques/nests/questions")
    assert page.status == 400
    assert "Read Pasta nesting, edition 2, first." in page.work
    assert not kitchen.file.drafts.list("question")


def test_each_answer_is_kept_at_once_and_told(kitchen: Kitchen, reader: Hands) -> None:
    """Right or wrong, the sentence, the solution and the row follow each answer; the book has it."""
    page = answer_next(kitchen, reader)
    assert page.heading == "Right"
    assert "You have 1 of 3 in a row. 1 more counts today, then two a day." in page.work
    assert page.soup.select("ol.worked li")
    assert answered(kitchen) == ["right"]
    assert not kitchen.file.drafts.list("question")


def test_the_skill_asked_longest_ago_comes_first(kitchen: Kitchen, reader: Hands) -> None:
    """Two skills take turns."""
    seen = []
    for _ in range(4):
        reader.open("/techniques/nests/questions")
        skill, question = question_before(kitchen, reader)
        reader.press("Answer", {"Your answer": right_text(question)})
        seen.append(skill)
    assert seen == ["buying", "cooling", "buying", "cooling"]


def test_two_answers_a_day_count_and_then_the_page_says_tomorrow(kitchen: Kitchen, reader: Hands) -> None:
    """Four answers in two skills; then how far each is, and nothing more to answer today."""
    for _ in range(4):
        page = answer_next(kitchen, reader)
    assert "No more count today: go on tomorrow." in page.work
    page = reader.open("/techniques/nests/questions")
    assert page.heading == "No more questions today"
    assert "What to buy 2 of 3 in a row" in page.work


def test_a_technique_is_ready_to_show_when_every_skill_is_passed(kitchen: Kitchen, reader: Hands, later: Later) -> None:
    """Three right in a row in both, over two days; then the page leads on to being watched."""
    for _ in range(4):
        answer_next(kitchen, reader)
    reader = later(days=1)
    for _ in range(2):
        page = answer_next(kitchen, reader)
    assert "Passed." in page.work
    page = reader.follow("On to what is next")
    assert page.button("Ask to be watched")
    assert reader.open("/techniques/nests/questions").heading == "All questions passed"


def test_an_unseen_answer_is_asked_again_and_costs_nothing(kitchen: Kitchen, reader: Hands) -> None:
    """Letters are no number: the sentence says so, what was typed stands there, the book has nothing."""
    reader.open("/techniques/nests/questions")
    page = reader.press("Answer", {"Your answer": "plenty"})
    assert page.status == 400
    assert page.field("Your answer")["value"] == "plenty"
    assert answered(kitchen) == []


def test_the_question_stays_until_it_is_answered(kitchen: Kitchen, reader: Hands) -> None:
    """No second draw: whoever opens the page again reads the same question."""
    first = reader.open("/techniques/nests/questions?skill=cooling").heading
    assert reader.open("/techniques/nests/questions?skill=cooling").heading == first


def test_the_same_question_answered_from_two_phones_is_one_answer(kitchen: Kitchen, reader: Hands, ana: Hands) -> None:
    """The second one is shown the answer that is there."""
    reader.open("/techniques/nests/questions?skill=buying")
    _, question = question_before(kitchen, reader)
    page, address = reader.page, reader.address
    reader.press("Answer", {"Your answer": right_text(question)})
    reader.page, reader.address = page, address
    second = reader.press("Answer", {"Your answer": wrong_text(question)}, key="another-phone")
    assert second.heading == "Right"
    assert answered(kitchen) == ["right"]


def test_two_wrong_answers_ask_for_practice_first(kitchen: Kitchen, reader: Hands, later: Later) -> None:
    """Practice is the cook's own question worked, one half worked, one alone; right, it goes on the next day."""
    answer_next(kitchen, reader, wrong_text, "cooling")
    page = answer_next(kitchen, reader, wrong_text, "cooling")
    assert page.heading == "Practice first"
    lines = [line.get_text() for line in page.soup.select(".due li")]
    assert lines[0] == "You have 0 of 5. Your other skills stand."
    assert lines[2] == "Next on 4 November 2026, after practice."
    assert "One worked out: yours" in page.work
    page = reader.follow("Practice this kind")
    assert page.heading == "One, worked half way"
    reader.follow("Next: one alone")
    page = reader.press("How was it?", {"Your answer": "1"})
    assert "Now this one." in page.work
    practise_alone(kitchen, reader)
    assert reader.page.heading == "Practice is done"
    assert "Next on 4 November 2026." in reader.page.work
    assert [e.body["skill"] for e in kitchen.file.book.since(0) if e.kind == "drill_done"] == ["cooling"]
    reader.open("/techniques/nests/questions")
    assert question_before(kitchen, reader)[0] == "buying"
    assert answer_next(kitchen, later(days=1), right_text, "cooling").heading == "Right"


def test_a_question_that_was_taken_out_is_withdrawn(kitchen: Kitchen, reader: Hands) -> None:
    """Its family is gone: the cook is told, another question comes, nothing else is lost."""
    reader.open("/techniques/nests/questions?skill=buying")
    draft = kitchen.file.drafts.list("question", cook="ana")[0]
    gone = {**draft.body, "drawn": {**draft.body["drawn"], "family": "no_such_family"}}
    kitchen.file.drafts.put(replace(draft, body=gone))
    page = reader.open("/techniques/nests/questions?skill=buying")
    assert "The question you had open in What to buy was taken out." in page.work
    assert page.status == 200


def test_answers_at_midnight_belong_to_the_day_they_are_given(kitchen: Kitchen, reader: Hands, later: Later) -> None:
    """Two before midnight count; after it two more of the same skill do."""
    assert reader
    late = later(hours=11, minutes=58)
    answer_next(kitchen, late, right_text, "buying")
    answer_next(kitchen, late, right_text, "buying")
    reader = later(minutes=5)
    assert "Passed." in answer_next(kitchen, reader, right_text, "buying").work


def test_todays_questions_lead_to_the_next_one(kitchen: Kitchen, reader: Hands) -> None:
    """On a path, one tap from the home: the next question, and as many a day as keep the path's day, 5 at the least."""
    by_day = (kitchen.today(NOON) + timedelta(days=20)).isoformat()
    write(kitchen, "path_opened", "ana", {"station": "pasta_room", "by_day": by_day, "mentor": ""})
    assert "4 questions today" in reader.open("/rail").work
    assert reader.open("/questions").path == "/techniques/nests/questions"
    for _ in range(4):
        answer_next(kitchen, reader)
    assert reader.open("/questions").heading == "No more questions today"


def test_off_a_path_the_home_offers_refreshers_alone(kitchen: Kitchen, reader: Hands) -> None:
    """What a cook studies offers its own questions; the home asks for none that keeps nothing."""
    assert kitchen
    assert "questions today" not in reader.open("/rail").work
    assert reader.open("/questions").heading == "No more questions today"


def test_the_second_showing_of_a_wrong_method_speaks_of_the_cook(
    kitchen: Kitchen, reader: Hands, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first is about the number; the second has both figures and leads to one worked."""

    def by_method(question: Question) -> str:
        shown.append({wrong.name: wrong.value for wrong in question.wrong_methods})
        name = next(name for name in shown[0] if all(name in each for each in shown))
        return number_text(shown[-1][name], 6)

    shown: list[dict[str, Fraction]] = []
    seeds = iter((5, 6))
    monkeypatch.setattr("trainer.web.cook.question_view.secrets.randbelow", lambda most: next(seeds) % most)
    first = answer_next(kitchen, reader, by_method, "cooling")
    assert "Twice" not in first.work
    second = answer_next(kitchen, reader, by_method, "cooling")
    assert "Twice " in second.work
    assert "See one worked, then go on." in second.work


@pytest.mark.parametrize(("units", "unit"), [("us", "lb"), ("metric", "kg")])
def test_a_question_comes_in_the_measures_of_its_reader(
    kitchen: Kitchen, reader: Hands, units: Literal["us", "metric"], unit: str
) -> None:
    """A sum in pounds for one who reads pounds, another in kilograms: each exact in its own."""
    keep_own_language(kitchen, person="ana", language="en", units=units)
    page = reader.open("/techniques/nests/questions?skill=buying")
    assert page.soup.select_one(".unit").get_text() == unit  # type: ignore[union-attr]
