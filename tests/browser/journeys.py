"""What people do at Quernstone, step by step: each function goes on from the page a person is at."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from tests.browser.engine import Served
from tests.browser.somebody import Somebody
from tests.kitchen.quiz.asking import Asked, printed
from tests.printed import english
from trainer.actions import practising, studying, watching
from trainer.actions.asking_skills import context_for, draft_id, question_of
from trainer.actions.demo_door import DEMO_PIN, Door, doors
from trainer.actions.outcome import Saved
from trainer.kitchen.book import NewEntry
from trainer.kitchen.practical import PICKED
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import Limit, Point, Technique
from trainer.recipe_math.figures import number_text

TICK = "Meets it"
HELD = 900  # ms: answers are held for 800
MOST_QUESTIONS = 18  # a day: a technique has nine skills at most, and two answers a day count in each


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
    assert who.next_act() == f"Start: {technique.steps[0].title}"
    for step in technique.steps:
        assert who.heading == step.title
        assert " ".join(step.text.split()) in who.work
        assert who.next_act() == "Next"
    assert who.heading == f"{technique.title}: check yourself"
    assert re.fullmatch(r"I have read edition \d+", who.next_act())
    assert re.search(r"Saved \d\d:\d\d", who.work)


def question_before(who: Somebody, served: Served, cook: str) -> tuple[str, Asked]:
    """Return the skill and the question of the page a cook has before them, as the cook reads it."""
    skill = who.page.locator("input[name=skill]").get_attribute("value") or ""
    draft, asked = served.kitchen.file.drafts.get(draft_id(cook, skill)), served.kitchen.content.skills[skill]
    assert draft is not None
    return skill, printed(tell(question_of(draft, asked).drawn, context_for(asked, served.kitchen.content)))


def question_alone(who: Somebody, served: Served) -> Asked:
    """Return the question of a practice that the cook does alone."""
    skill, seed = (who.page.locator(f"input[name={name}]").get_attribute("value") or "" for name in ("skill", "seed"))
    content, units = served.kitchen.content, served.kitchen.file.settings.units_first
    return printed(practising.alone(content.skills[skill], int(seed), content, units))


def right(question: Asked) -> str:
    """Return the right answer the way it is given: the number as it is typed, or the keys of what is chosen."""
    return question.key if question.every_choice else typed(question.answer.value)


def typed(value: Fraction) -> str:
    """Return a number the way a person types it."""
    return number_text(value, 4)


def answer(who: Somebody, text: str) -> None:
    """Answer the question on screen: a number by its keys, else by the keys of what is chosen, an act, then its why."""
    keys = text.split()
    if who.page.locator(".names-of").count():
        for place, key in enumerate(keys):
            who.page.locator(".names-of select").nth(place).select_option(key)
    elif who.page.get_by_role("checkbox").count():
        for key in keys:
            who.page.locator(f'input[type=checkbox][value="{key}"]').check()
    elif who.page.get_by_role("radio").count():
        for key in keys[:-1]:
            who.page.locator(f'input[type=radio][value="{key}"]').check()
            who.tap(who.page.locator("button.enamel"))
        who.page.locator(f'input[type=radio][value="{keys[-1]}"]').check()
    else:
        who.key_in("Your answer", text)
    who.tap(who.page.locator("button.enamel"))


def answer_all(who: Somebody, served: Served, cook: str) -> str:
    """Answer rightly, from the question on screen to the last that counts today; return what is next then."""
    for _ in range(MOST_QUESTIONS):
        answer(who, right(question_before(who, served, cook)[1]))
        assert who.heading == "Right"
        words = who.next_act()
        if words != "Next question":
            return words
    raise AssertionError("The questions never end.")


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


def readings_of(who: Somebody, point: Point, value_of: Callable[[Limit], str]) -> None:
    """Take every reading of a measured point, one piece a page, each as `value_of` its line says; save all but one."""
    for piece in range(1, point.pieces + 1):
        inputs, by_hand = who.page.locator(".readout input"), who.page.locator(".by-hand:not([open]) summary")
        if by_hand.count():
            who.tap(by_hand)
        assert inputs.count() == len(point.lines)
        for limit, name in zip(point.lines, ("unit", "unit_2"), strict=False):
            end = limit.target or limit.highest or limit.lowest
            assert end is not None
            who.page.locator(f'.unit-keys input[name="{name}"][value="{end.unit.symbol}"]').check()
        for place in range(inputs.count()):
            label = who.page.locator(f"label[for={inputs.nth(place).get_attribute('id')}]").inner_text()
            who.key_in(label, value_of(point.line_of(place)))
        if piece < point.pieces:
            save = who.page.locator(".bar button[name=save]")
            words = " ".join(save.inner_text().split())
            assert words == f"Save {piece} of {point.pieces}", (words, who.path)
            with who.page.expect_navigation():
                who.tap(save)
            assert who.page.locator(".in-place.problems").count() == 0, who.work


def begin(who: Somebody, technique: Technique) -> None:
    """Go from the hazards to the first point: by the first case where there are cases."""
    if technique.cases:
        who.page.wait_for_timeout(HELD)
        who.tap(who.page.locator(f'button[name="case"][value="{technique.cases[0].id}"]'))
    else:
        who.next_act()


def watch(
    who: Somebody, technique: Technique, missed: str = "", heading: str = "The record as it will be kept"
) -> None:
    """Watch a practical, of its first case, from the first point to the record; at *missed* no reading is inside."""
    points = technique.points_in(next((case.id for case in technique.cases), ""))
    for number, point in enumerate(points, 1):
        assert f"Point {number} of {len(points)}" in who.page.locator("header").inner_text()
        if point.limit is not None and point.judged != "ticked":
            readings_of(who, point, outside if point.id == missed else inside)
        if point.judged == "says" and len(point.choices) > 1:
            for choice in point.choices:
                who.tap(who.page.locator(f'input[name="said"][value="{choice.id}"]'))
        if point.judged in PICKED:
            who.tap(who.page.locator('button[name="said"][value="right"]'))
        elif point.id == missed:
            who.press(TICK)
            assert "decide" in who.work
            assert "Say not yet, or measure again." in who.work
            assert who.page.title().startswith("Error: ")
            who.press("Not yet")
        else:
            who.press(TICK)
    assert who.heading == heading


def sign(who: Somebody, pin: str = DEMO_PIN) -> None:
    """Sign the record with the PIN."""
    who.key_in("Your PIN", pin)
    who.press("Sign")
