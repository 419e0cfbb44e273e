"""Five days of the shipped safe holding by three cooks: one knows, one has a wrong method of their own, one guesses.

Each answers all that counts on a day, through the pages; every other day they read Spanish.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from random import Random

import pytest

from tests.content.conftest import CONTENT
from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import write
from trainer.actions.asking_skills import context_for, draft_id, question_of, standings_of
from trainer.actions.open_kitchen import Kitchen, Units
from trainer.actions.own_language import keep_own_language
from trainer.content.files import load_content
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import Content
from trainer.recipe_math.printing import number_text
from trainer.store.kitchen_file import KitchenFile

DAYS, TECHNIQUE, OWN_WAY = 5, "safe_holding", "cooling_first_stage"
Answerer = Callable[[str, Question], str]


def right(question: Question) -> str:
    """Return the right answer as it is typed."""
    if question.choices:
        return question.key
    return f"{number_text(question.answer.value, 6)} {question.answer.unit}"


def knows(skill: str, question: Question) -> str:
    """Answer everything rightly."""
    assert skill
    return right(question)


def own_way(skill: str, question: Question) -> str:
    """Answer the first cooling stage by the same wrong method each time, all else rightly."""
    if skill != OWN_WAY:
        return right(question)
    way = next((wrong for wrong in question.wrong_methods if wrong.name == "time_gone"), question.wrong_methods[0])
    return f"{number_text(way.value, 6)} {question.answer.unit}"


def guesser(seed: int) -> Answerer:
    """Return an answerer that takes any choice, and any whole number."""
    rng = Random(seed)  # noqa: S311 - a guess

    def guesses(skill: str, question: Question) -> str:
        assert skill
        if question.answering == "number":
            return f"{rng.randint(1, 240)} {question.answer.unit}"
        keys = [choice.key for choice in question.choices]
        many = {"one": 1, "all": rng.randint(1, len(keys)), "names": len(question.pictures)}
        if question.answering == "reason":
            return f"{rng.choice(keys)} {rng.choice([why.key for why in question.reasons])}"
        return " ".join(rng.sample(keys, many[question.answering]))

    return guesses


@cache
def told_in(language: str, units: Units) -> Content | None:
    """Return what comes with the program, in a language and a system of measures."""
    return load_content(CONTENT, language, units)[0]


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path) -> Iterator[Kitchen]:
    """Return the invented kitchen, which teaches what comes with the program, in both languages."""
    folder = tmp_path / "kitchen"
    shutil.copytree(prepared, folder)
    file = KitchenFile.open(folder)
    yield Kitchen(file, told_in("en", "us"), told_in)
    file.close()


def a_day(kitchen: Kitchen, hands: Hands, cook: str, answers: Answerer) -> int:
    """Answer all that counts on a day; return how many questions that were."""
    for asked in range(40):
        page = hands.open(f"/techniques/{TECHNIQUE}/questions")
        field = page.soup.find("input", {"name": "skill"})
        if field is None:
            return asked
        skill = str(field["value"])
        draft = kitchen.file.drafts.get(draft_id(cook, skill))
        assert draft is not None
        own = kitchen.content.skills[skill]
        question = tell(question_of(draft, own).drawn, context_for(own, kitchen.content))
        form = page.soup.find("form", id="question")
        assert form is not None
        data = {str(i["name"]): str(i.get("value", "")) for i in form.find_all("input", {"type": "hidden"})}
        data |= {"answer": answers(skill, question)}
        done = hands.client.post(str(form["action"]), data=data, follow_redirects=True)
        assert done.request.path.startswith("/answers/"), (skill, data, done.get_data(as_text=True)[-2000:])
    raise AssertionError("It never ends.")


def passed(kitchen: Kitchen, cook: str, clock: Clock) -> dict[str, str]:
    """Return the state of every skill of the technique."""
    day = kitchen.day(kitchen.today(clock()))
    found = standings_of(cook=cook, technique=kitchen.content.techniques[TECHNIQUE], day=day)
    return {one.id: one.skill.state(day.on) for one in found}


def test_who_knows_passes_who_errs_is_found_and_who_guesses_does_not_pass(
    kitchen: Kitchen, sign_in: Callable[[str], Hands], clock: Clock
) -> None:
    """On day 2 the first is ready to show; the second lacks one skill, by name; the third passes nothing in five."""
    cooks: dict[str, Answerer] = {"ana": knows, "dev": own_way, "bo": guesser(7)}
    for cook in cooks:
        write(kitchen, "technique_read", cook, {"technique": TECHNIQUE, "edition": _edition(kitchen.content, clock)})
    for number in range(DAYS):
        for cook, answers in cooks.items():
            keep_own_language(kitchen, person=cook, language="es" if number % 2 else "en", units="")
            a_day(kitchen, sign_in(cook), cook, answers)
        if number == 1:
            assert set(passed(kitchen, "ana", clock).values()) == {"passed"}
        clock.pass_by(days=1)
    erring, guessing = passed(kitchen, "dev", clock), passed(kitchen, "bo", clock)
    assert erring.pop(OWN_WAY) == "drill"
    assert set(erring.values()) == {"passed"}
    assert "passed" not in guessing.values()
    table = sign_in("cleo").open("/knows/dev").work
    assert "Shown twice:" in table
    assert "practice first" in table


def _edition(content: Content, clock: Clock) -> int:
    return content.techniques[TECHNIQUE].edition_on(clock().date()).number
