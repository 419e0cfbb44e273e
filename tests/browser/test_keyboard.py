"""A quiz without a mouse or a finger: Tab, Enter and figures; what is focused is always to be seen."""

from __future__ import annotations

from collections.abc import Callable

from tests.browser.engine import TABLET_AT_NIGHT, Served
from tests.browser.journeys import person_id, questions_of, typed
from tests.browser.somebody import Somebody
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


def test_a_quiz_by_keyboard_alone(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """From the door to the result: the number is typed, Enter keeps it, a problem takes the focus to itself."""
    k, cook = quernstone.kitchen, person_id(quernstone, "New hire")
    technique = k.content.techniques["pasta_nesting"]
    acknowledge_reading(k, cook=cook, technique=technique.id, now=quernstone.clock(), key="read")
    noor = sit_down(quernstone, TABLET_AT_NIGHT)
    noor.open("/")
    tab_to(noor, "Step in as Noor")
    press_enter(noor)
    tab_to(noor, f"Sit the quiz: {technique.title}")
    press_enter(noor)
    tab_to(noor, "Start the quiz")
    press_enter(noor)
    for number, question in enumerate(questions_of(quernstone, cook), 1):
        if number == 1:
            tab_to(noor, "Your answer")
            noor.page.keyboard.type("some")
            press_enter(noor)
            assert noor.page.evaluate("() => document.activeElement.getAttribute('role')") == "alert"
            noor.page.keyboard.press("Tab")
            press_in_place(noor)
            noor.page.keyboard.press("Control+A")
        elif question.choices:
            choose(noor, typed(question.answer.value))
            press_enter(noor)
            continue
        else:
            tab_to(noor, "Your answer")
        noor.page.keyboard.type(typed(question.answer.value))
        press_enter(noor)
    tab_to(noor, "Hand in")
    press_enter(noor)
    assert f"{technique.asked} of {technique.asked} right" in noor.work


def choose(who: Somebody, key: str) -> None:
    """Press Tab until one of the choices is focused, then the arrow down until it is the one with this key."""
    for _ in range(80):
        who.page.keyboard.press("Tab")
        if who.page.evaluate("() => document.activeElement.type") == "radio":
            break
    for _ in range(8):
        who.page.keyboard.press("ArrowDown")
        if who.page.evaluate("() => document.activeElement.value") == key:
            assert who.page.evaluate(FOCUSED)[1], "nothing shows which choice is focused"
            return
    raise AssertionError(f"the arrows never come to choice {key} on {who.path}")


def press_in_place(who: Somebody) -> None:
    """Follow the summary's link to the field it names: the field has the focus then."""
    who.page.keyboard.press("Enter")
    who.page.wait_for_function("() => document.activeElement.tagName === 'INPUT' || location.hash")
    if who.page.evaluate("() => document.activeElement.tagName") != "INPUT":
        who.page.keyboard.press("Tab")
    assert who.page.evaluate("() => document.activeElement.tagName") == "INPUT"
