"""Questions without a mouse or a finger: Tab, Enter and figures; what is focused is always to be seen."""

from __future__ import annotations

from collections.abc import Callable

from tests.browser.engine import TABLET_AT_NIGHT, Served
from tests.browser.journeys import person_id, question_before, right
from tests.browser.somebody import Somebody
from tests.kitchen.quiz.asking import Asked
from trainer.actions.studying import acknowledge_reading

FOCUSED = """() => {
  const e = document.activeElement;
  if (e === document.body) return ["", true];
  const label = e.labels && e.labels.length ? e.labels[0].innerText : "";
  const around = e.closest(".readout") || e.closest(".ticket")?.querySelector(".paper") || e;
  const style = getComputedStyle(around);
  const outlined = parseFloat(style.outlineWidth) >= 2 && style.outlineStyle !== "none";
  const seen = outlined || style.boxShadow.includes("inset");
  return [label || e.innerText || "", seen];
}"""


def tab_to(who: Somebody, words: str) -> None:
    """Press Tab until what is focused has these words; every stop on the way must be seen to be focused."""
    for _ in range(80):
        who.page.keyboard.press("Tab")
        named, is_seen = who.page.evaluate(FOCUSED)
        named = " ".join(named.split())
        assert is_seen or not named, f"nothing shows that {named!r} is focused"
        if named == words:
            return
    raise AssertionError(f"Tab never comes to {words!r} on {who.path}")


def press_enter(who: Somebody) -> None:
    """Press Enter and wait for the page that follows."""
    with who.page.expect_navigation():
        who.page.keyboard.press("Enter")


def test_questions_by_keyboard_alone(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """From the door: a number is typed, Enter sends it, a problem takes the focus to itself; a choice by its arrows."""
    k, cook = quernstone.kitchen, person_id(quernstone, "New hire")
    technique = k.content.techniques["pasta_nesting"]
    acknowledge_reading(k, cook=cook, technique=technique.id, now=quernstone.clock(), key="read")
    noor = sit_down(quernstone, TABLET_AT_NIGHT)
    noor.open("/")
    tab_to(noor, "Step in as Noor")
    press_enter(noor)
    noor.open(f"/techniques/{technique.id}")
    tab_to(noor, f"Answer questions: {technique.title}")
    press_enter(noor)
    answered: set[str] = set()
    numbers = 0
    while question_before(noor, quernstone, cook)[0] not in answered:
        skill, question = question_before(noor, quernstone, cook)
        if question.choices:
            give(noor, question)
        else:
            tab_to(noor, "Your answer")
            if not numbers:
                send_no_number(noor)
            numbers += 1
            noor.page.keyboard.press("Control+A")
            noor.page.keyboard.type(right(question))
        press_enter(noor)
        assert noor.heading == "Right"
        answered.add(skill)
        tab_to(noor, "Next question")
        press_enter(noor)
    assert answered == {one.id for one in technique.knowledge}
    assert numbers


def send_no_number(who: Somebody) -> None:
    """Send a word where a number is asked for, and go back into the field from what is said of it."""
    who.page.keyboard.type("some")
    press_enter(who)
    assert who.page.evaluate("() => document.activeElement.getAttribute('role')") == "alert"
    who.page.keyboard.press("Tab")
    press_in_place(who)


def give(who: Somebody, question: Asked) -> None:
    """Give the right keys: of one choice, of all that fit, of an act and then of why, or of a name for each picture."""
    keys = right(question).split()
    if question.answering == "all":
        for choice in question.choices:
            tab_to_a(who, "checkbox")
            if choice.key in keys:
                who.page.keyboard.press("Space")
    elif question.answering == "names":
        for key in keys:
            tab_to_a(who, "select-one")
            arrow_to(who, key)
    elif question.answering == "reason":
        choose(who, keys[0])
        press_enter(who)
        choose(who, keys[1])
    else:
        choose(who, keys[0])


def tab_to_a(who: Somebody, kind: str) -> None:
    """Press Tab until a control of a kind is focused."""
    for _ in range(80):
        who.page.keyboard.press("Tab")
        if who.page.evaluate("() => document.activeElement.type") == kind:
            return
    raise AssertionError(f"Tab never comes to a {kind} on {who.path}")


def arrow_to(who: Somebody, key: str) -> None:
    """Press the arrow down until the focused control has this key."""
    for _ in range(8):
        who.page.keyboard.press("ArrowDown")
        if who.page.evaluate("() => document.activeElement.value") == key:
            return
    raise AssertionError(f"the arrows never come to {key} on {who.path}")


def choose(who: Somebody, key: str) -> None:
    """Press Tab until one of the choices is focused, then the arrow down until it is the one with this key."""
    tab_to_a(who, "radio")
    arrow_to(who, key)
    assert who.page.evaluate(FOCUSED)[1], "nothing shows which choice is focused"


def press_in_place(who: Somebody) -> None:
    """Follow the summary's link to the field it names: the field has the focus then."""
    who.page.keyboard.press("Enter")
    who.page.wait_for_function("() => document.activeElement.tagName === 'INPUT' || location.hash")
    if who.page.evaluate("() => document.activeElement.tagName") != "INPUT":
        who.page.keyboard.press("Tab")
    assert who.page.evaluate("() => document.activeElement.tagName") == "INPUT"
