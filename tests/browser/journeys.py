"""What people do at Quernstone, step by step: each function goes on from the page a person is at."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tests.browser.engine import Served
from tests.browser.somebody import Somebody
from tests.kitchen.quiz.asking import Asked, printed
from tests.printed import english
from trainer.actions import sitting, studying, watching
from trainer.actions.demo_door import DEMO_PIN, Door, doors
from trainer.actions.outcome import Saved
from trainer.kitchen.book import NewEntry
from trainer.kitchen.technique import Limit, Point, Technique
from trainer.recipe_math.figures import number_text

TICK = "Meets it"


def first_name(served: Served, role: str) -> str:
    """Return the first name of the demo's new hire, sous chef or manager."""
    return _door(served, role).first_name


def person_id(served: Served, role: str) -> str:
    """Return the id of the demo's new hire, sous chef or manager."""
    return _door(served, role).person


def _door(served: Served, role: str) -> Door:
    on = served.kitchen.today(served.clock())
    return next(door for door in doors(served.kitchen, on) if english(door.role) == role)


def step_in(who: Somebody, served: Served, role: str) -> None:
    """Step into the demo kitchen as one of its three people."""
    who.open("/")
    who.press(f"Step in as {first_name(served, role)}")


def read_whole(who: Somebody, technique: Technique) -> None:
    """Read a technique from its first page to the acknowledgement, one step a screen."""
    assert who.heading == technique.title
    assert who.next_act() == "Start the steps"
    for number, step in enumerate(technique.steps, 1):
        assert who.heading == f"Step {number} of {len(technique.steps)}"
        assert " ".join(step.text.split()) in who.work
        assert who.next_act() == "Next"
    assert who.heading == f"{technique.title}: check yourself"
    assert re.fullmatch(r"I have read edition \d+", who.next_act())
    assert re.search(r"Saved \d\d:\d\d", who.work)


def questions_of(served: Served, cook: str) -> tuple[Asked, ...]:
    """Return the questions of a cook's open sitting, as the cook reads them."""
    draft = served.kitchen.file.drafts.list("sitting", cook=cook)[-1]
    begun = sitting.find_sitting(served.kitchen, draft.id)
    assert begun is not None
    return tuple(map(printed, begun.questions))


def typed(value: Fraction) -> str:
    """Return a number the way a person types it."""
    return number_text(value, 4)


def answer(who: Somebody, number: int, text: str) -> None:
    """Answer the question on screen, by its keys or, where there are choices, by those with these keys in a row."""
    assert who.page.title().startswith(f"Question {number} of ")
    if who.page.locator(".names-of").count():
        for place, key in enumerate(text):
            who.page.locator(".names-of select").nth(place).select_option(key)
    elif who.page.get_by_role("checkbox").count():
        for key in text:
            who.page.locator(f'input[type=checkbox][value="{key}"]').check()
    elif who.page.get_by_role("radio").count():
        for key in text:
            who.page.locator(f'input[type=radio][value="{key}"]').check()
            who.page.locator("button.enamel").click()
        return
    else:
        who.key_in("Your answer", text)
        who.press("Keep it")
        return
    who.page.locator("button.enamel").click()


def answer_from(who: Somebody, questions: Sequence[Asked], start: int, wrong: int) -> list[str]:
    """Answer from a question on to the last, or to the end of a quiz that decides; the first *wrong* of them that can
    be by a listed wrong method.

    Return what the cook is to be told about those.
    """
    told: list[str] = []
    for number, question in list(enumerate(questions, 1))[start - 1 :]:
        if who.path.startswith("/results/"):
            break
        known = question.answering in {"number", "one"}
        slips = [slip for slip in question.wrong_methods if known and slip.value >= 0]
        if len(told) < wrong and slips:
            answer(who, number, typed(slips[0].value))
            told.append(slips[0].says)
        else:
            answer(who, number, typed(question.answer.value))
    return told


def ready_to_show(served: Served, cook: str, technique: Technique) -> None:
    """Let a cook have read a technique, passed a quiz of the earlier kind, which counts, and asked to be watched."""
    k, now = served.kitchen, served.clock()
    key = f"{cook}-{technique.id}"
    studying.acknowledge_reading(k, cook=cook, technique=technique.id, now=now, key=f"{key}-read")
    edition = technique.edition_on(k.today(now)).number
    body = {"technique": technique.id, "edition": edition, "seed": 7, "grader": 5, "questions": []}
    body |= {"right": 8, "asked": 10, "need": 8, "passed": True}
    k.file.book.append(NewEntry("quiz_sat", now, cook, cook, body, f"{key}-quiz"))
    asked = watching.ask_to_be_watched(k, cook=cook, technique=technique.id, now=now, key=f"{key}-ask")
    assert isinstance(asked, Saved)


def inside(limit: Limit) -> str:
    """Return a reading that meets a line, in its own unit."""
    found = limit.target or limit.highest or limit.lowest
    assert found is not None
    return number_text(found.amount, 3)


def outside(limit: Limit) -> str:
    """Return a reading that misses a line, and that a kitchen could show all the same."""
    if limit.highest is not None:
        return number_text(limit.highest.amount * 6 / 5, 3)
    assert limit.lowest is not None
    return number_text(limit.lowest.amount * 4 / 5, 3)


def readings_of(who: Somebody, point: Point, value: str) -> None:
    """Take every reading of a measured point."""
    inputs = who.page.locator(".readout input")
    assert inputs.count() == point.pieces
    assert point.limit is not None
    end = point.limit.target or point.limit.highest or point.limit.lowest
    assert end is not None
    who.page.locator(f'.unit-keys input[value="{end.unit.symbol}"]').check()
    for place in range(point.pieces):
        label = who.page.locator(f"label[for={inputs.nth(place).get_attribute('id')}]").inner_text()
        who.key_in(label, value)


def watch(who: Somebody, technique: Technique, missed: str = "") -> None:
    """Watch a practical from its first point to the record; at *missed* every reading lies outside."""
    for number, point in enumerate(technique.checklist, 1):
        assert f"Point {number} of {len(technique.checklist)}" in who.page.locator("header").inner_text()
        if point.limit is not None and point.judged != "ticked":
            readings_of(who, point, outside(point.limit) if point.id == missed else inside(point.limit))
        if point.id == missed:
            who.press(TICK)
            assert "decide" in who.work
            assert "Say not yet, or measure again." in who.work
            assert who.page.title().startswith("Error: ")
            who.press("Not yet")
        else:
            who.press(TICK)
    assert who.heading == "The record as it will be kept"


def sign(who: Somebody, pin: str = DEMO_PIN) -> None:
    """Sign the record with the PIN."""
    who.key_in("Your PIN", pin)
    who.press("Sign")
