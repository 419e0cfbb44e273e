"""Every page on a small phone in a language whose words are two fifths longer than English ones."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser import engine, looks
from tests.browser.conftest import FRIDAY_AT_SIX
from tests.browser.engine import Served
from tests.browser.lived_in import OPEN, Work, settle
from tests.browser.somebody import Somebody
from tests.browser.walking import SHARES, Found, at_the_door, places_of, reads_in, share_of
from tests.made_up_language import TAG, at_length, spoken
from trainer.kitchen.technique import Content

SMALL = (320, 640)
PHONE = (360, 780)

# In the header: how high it is, and each control that lies outside the screen, with its drawer open.
HEADER = """() => {
  const top = document.querySelector("header.top"), found = [], wide = document.documentElement.clientWidth;
  const high = Math.round(top.getBoundingClientRect().height);
  if (high > 88) found.push(`the header is ${high} px high`);
  const drawer = top.querySelector("details");
  if (drawer && drawer.checkVisibility()) drawer.open = true;
  for (const e of top.querySelectorAll("a, button, summary, .tape")) {
    const box = e.getBoundingClientRect();
    if (e.checkVisibility() && (box.left < -1 || box.right > wide + 1)) found.push(`outside: ${e.textContent.trim()}`);
  }
  if (drawer) drawer.open = false;
  return found;
}"""
# Words that run over the edge of what is pressed, or are cut off there.
OVER_THE_EDGE = """() => {
  const found = [];
  for (const e of document.querySelectorAll("a[href], button, summary")) {
    if (!e.checkVisibility() || getComputedStyle(e).display === "inline" || e.closest(".tape")) continue;
    if (e.scrollWidth > e.clientWidth + 1) found.push(`${e.scrollWidth - e.clientWidth} px: ${e.textContent.trim()}`);
  }
  return found;
}"""
# Keys under the bar, or below the screen; under a record that is read first, counted from the field they write into.
KEYS = """() => {
  const keys = [...document.querySelectorAll(".keypad button")].filter((e) => e.checkVisibility());
  if (!keys.length) return [];
  const input = document.getElementById(keys[0].closest(".keypad").dataset.keypad);
  const field = input.closest(".field").getBoundingClientRect().top + scrollY;
  const above = document.querySelector(".kept-points, .read-first") ? field : 0;
  const bar = [...document.querySelectorAll(".bar")].pop();
  const foot = innerHeight - (bar ? bar.getBoundingClientRect().height : 0);
  const low = Math.max(...keys.map((key) => key.getBoundingClientRect().bottom + scrollY));
  return low - above > foot ? [`the keys lie ${Math.round(low - above - foot)} px too low`] : [];
}"""


@pytest.fixture(scope="module")
def lived_in(made: Path, content: Content, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Return the demo kitchen with work under way in it, served in that language too."""
    folder = tmp_path_factory.mktemp("longer")
    (folder / "languages").mkdir()
    shutil.copytree(made, folder / "kitchen")
    with (
        spoken(folder / "languages", at_length),
        engine.serving(folder / "kitchen", content, FRIDAY_AT_SIX) as served,
    ):
        yield served


@pytest.fixture(scope="module")
def work(lived_in: Served) -> Work:
    """Return what is under way in the kitchen."""
    return settle(lived_in)


def reading_it(browser: Browser, served: Served, work: Work, role: str) -> Somebody:
    """Return a person signed in who reads that language; nobody is an enrolled device."""
    who = at_the_door(browser, served, role)
    reads_in(who, served, work, TAG)
    return who


def look_at(who: Somebody, where: str, found: Found) -> None:
    """Look at the page a person is at on both phones."""
    assert who.page.locator("html").get_attribute("lang") == TAG
    for width, height in (SMALL, PHONE):
        who.page.set_viewport_size({"width": width, "height": height})
        at = f"{where} at {width} px"
        found.add("sideways", at, looks.sideways(who.page))
        found.add("header", at, list(who.page.evaluate(HEADER)))
        found.add("over the edge", at, list(who.page.evaluate(OVER_THE_EDGE)))
    found.add("keys", where, list(who.page.evaluate(KEYS)))


@pytest.mark.parametrize("share", range(SHARES))
def test_longer_words_fit(browser: Browser, lived_in: Served, work: Work, share: int) -> None:
    """No page scrolls sideways, the header keeps its one row, words stay on their buttons, keys stay on the screen."""
    mine, found = share_of(places_of(lived_in, work), share), Found()
    for role in dict.fromkeys(role for _, role, _ in mine):
        who = reading_it(browser, lived_in, work, role)
        for path in [path for _, whose, path in mine if whose == role]:
            who.open(path)
            look_at(who, f"{role} {path}", found)
        who.context.close()
    assert mine
    assert found.faults == {}


def test_there_are_keys_to_look_at(browser: Browser, lived_in: Served, work: Work) -> None:
    """A question for a number has them."""
    who = reading_it(browser, lived_in, work, "New hire")
    who.open(f"/techniques/{OPEN}/questions?skill=buying_trimmed")
    assert who.page.locator(".keypad:visible").count()
    who.context.close()
