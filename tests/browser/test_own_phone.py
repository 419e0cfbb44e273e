"""Thirty seconds on a phone at 360 × 740: from a pocket back to the step that was left, every tap counted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from tests.browser.engine import SHORT_PHONE, Screen, Served
from tests.browser.journeys import person_id
from tests.browser.somebody import Somebody
from tests.browser.test_keypad import REACH, amiss
from trainer.actions import enrolling
from trainer.actions.demo_door import doors
from trainer.web import guard

FIGURES = 8
KEY_WIDTH, KEY_HEIGHT, APART = 77, 58, 8
KEYS = """() => [...document.querySelectorAll(".keypad button")].map(key => {
  const box = key.getBoundingClientRect();
  return {left: box.left, right: box.right, top: box.top, bottom: box.bottom, width: box.width, height: box.height};
})"""


def at_a_phone(served: Served, sit_down: Callable[..., Somebody], screen: Screen = SHORT_PHONE) -> Somebody:
    """Let somebody sit down with an enrolled phone; the kitchen is no demo any more."""
    manager = person_id(served, "Manager")
    enrolled = enrolling.enrol_device(served.kitchen, name="Phone", by=manager, now=served.clock())
    assert isinstance(enrolled, enrolling.Enrolled)
    served.kitchen.file.change_settings(replace(served.kitchen.file.settings, is_demo=False))
    who = sit_down(served, screen)
    who.context.add_cookies([{"name": guard.DEVICE, "value": enrolled.secret, "url": served.address}])
    return who


def type_pin(who: Somebody, pin: str) -> None:
    """Press the figures of a PIN on the page's own keys."""
    for figure in pin:
        who.page.locator(f".keypad [data-key='{figure}']").click()


@pytest.fixture
def hire(quernstone: Served) -> str:
    """Return the new hire's id, looked up while the kitchen is a demo still."""
    return person_id(quernstone, "New hire")


@pytest.fixture
def pin(quernstone: Served, hire: str) -> str:
    """Return the new hire's PIN."""
    found = doors(quernstone.kitchen, quernstone.kitchen.today(quernstone.clock()))
    return next(door.secret for door in found if door.person == hire)


def test_back_at_the_step_in_two_taps_and_the_pin(
    quernstone: Served, sit_down: Callable[..., Somebody], pin: str
) -> None:
    """The first time: name, tick, PIN, Sign in. Within the shift: nothing. After it: the PIN and one press."""
    noor = at_a_phone(quernstone, sit_down)
    noor.open("/names")
    noor.press_starting("Noor")
    noor.page.get_by_label("This is my phone").check()
    type_pin(noor, pin)
    noor.next_act()
    technique = next(iter(quernstone.kitchen.content.techniques))
    left = f"/techniques/{technique}/steps/2"
    noor.open(left)

    quernstone.clock.put_forward(minutes=16)
    noor.taps = 0
    noor.close_and_come_back()
    assert (noor.path, noor.taps) == (left, 0)

    quernstone.clock.put_forward(hours=12)
    noor.close_and_come_back()
    assert "Noor" in noor.heading
    assert not noor.page.locator(".names").count()
    type_pin(noor, pin)
    noor.next_act()
    assert noor.path == left
    assert noor.taps <= 2


def test_the_keys_of_a_pin_are_large_and_apart(
    quernstone: Served, sit_down: Callable[..., Somebody], hire: str
) -> None:
    """77 × 58 and 8 apart at the least, figures alone, above the bar with the tick there, before and after an error."""
    noor = at_a_phone(quernstone, sit_down)
    noor.open(f"/names/{hire}")
    before = noor.page.evaluate(KEYS)
    assert len(before) == 12
    for number, key in enumerate(before):
        assert key["width"] >= KEY_WIDTH
        assert key["height"] >= KEY_HEIGHT
        for other in before[number + 1 :]:
            aside = max(key["left"] - other["right"], other["left"] - key["right"])
            above = max(key["top"] - other["bottom"], other["top"] - key["bottom"])
            assert max(aside, above) >= APART - 0.01
    assert not amiss(noor.page.evaluate(REACH))
    assert noor.page.locator("input[name=secret]").get_attribute("inputmode") == "numeric"
    type_pin(noor, "11112222")
    noor.next_act()
    assert noor.page.locator(".in-place.problems").count() == 1
    assert noor.page.evaluate(KEYS) == before


def test_a_pin_can_be_looked_at_and_erased(quernstone: Served, sit_down: Callable[..., Somebody], hire: str) -> None:
    """One key shows what was typed, one erases a figure, one all of it; it is hidden again before it is sent."""
    noor = at_a_phone(quernstone, sit_down)
    noor.open(f"/names/{hire}")
    field = noor.page.locator("input[name=secret]")
    type_pin(noor, "1234")
    assert field.get_attribute("type") == "password"
    show = noor.page.get_by_role("button", name="Show")
    show.click()
    assert (field.get_attribute("type"), show.get_attribute("aria-pressed")) == ("text", "true")
    noor.page.get_by_role("button", name="Erase one").click()
    assert field.input_value() == "123"
    noor.page.get_by_role("button", name="Clear").click()
    assert field.input_value() == ""
    show.click()
    assert field.get_attribute("type") == "password"


def test_without_script_the_field_is_enough(quernstone: Served, sit_down: Callable[..., Somebody], pin: str) -> None:
    """No keys, no Show; the PIN is typed in two groups, and the names are searched."""
    noor = at_a_phone(quernstone, sit_down, replace(SHORT_PHONE, script=False))
    noor.open("/names")
    noor.fill("Find a name", "haddad")
    noor.press("Find")
    noor.press_starting("Noor")
    assert not noor.page.locator(".keypad:visible, .show:visible").count()
    noor.page.locator("input[name=secret]").fill(f"{pin[:4]} {pin[4:]}")
    noor.next_act()
    assert noor.path == "/rail"


@pytest.mark.parametrize("width", [320, 360, 768])
def test_the_names_are_rows_for_a_thumb(quernstone: Served, sit_down: Callable[..., Somebody], width: int) -> None:
    """64 px high at the least, 8 apart, nothing sideways."""
    noor = at_a_phone(quernstone, sit_down, replace(SHORT_PHONE, width=width))
    noor.open("/names")
    rows = noor.page.evaluate(
        "() => [...document.querySelectorAll('.names a')].map(row => row.getBoundingClientRect().height)"
    )
    assert min(rows) >= 64
    assert noor.page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0
