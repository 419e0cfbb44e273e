"""Pages that are printed as they stand: nothing to press on paper, and no line of a table over its words."""

from __future__ import annotations

from collections.abc import Callable

from tests.browser.engine import Screen, Served
from tests.browser.journeys import step_in
from tests.browser.somebody import Somebody

A4_ACROSS = Screen("A4", 1070, 740)
PRESSED = "main button, main a.plain, main a.back, main select"
OVER_WORDS = """() => [...document.querySelectorAll(".on-path, .is-planned")].filter((cell) => {
  const words = cell.querySelector(".cell-words"), line = parseFloat(getComputedStyle(cell).outlineWidth);
  if (!words || !cell.checkVisibility()) return false;
  const box = cell.getBoundingClientRect(), said = words.getBoundingClientRect();
  return said.top < box.top + line || said.bottom > box.bottom - line;
}).map((cell) => cell.textContent.trim())"""


def test_nothing_is_there_to_press_on_paper(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """The coming nights, the stations with their strips, the training plan, what is got wrong most."""
    who = sit_down(quernstone, A4_ACROSS)
    step_in(who, quernstone, "Manager")
    for path in ("/nights", "/stations", "/training-plan", "/most-wrong"):
        who.open(path)
        who.page.emulate_media(media="print")
        seen = [one.inner_text() for one in who.page.locator(PRESSED).all() if one.is_visible()]
        assert seen == [], path
        who.page.emulate_media(media="screen")


def test_no_outline_of_the_printed_board_runs_over_its_words(
    quernstone: Served, sit_down: Callable[..., Somebody]
) -> None:
    """Of who goes for a station, and of who is planned there: both lines of a cell stand inside its frame."""
    who = sit_down(quernstone, A4_ACROSS)
    step_in(who, quernstone, "Manager")
    who.open("/board")
    assert who.page.locator(".on-path, .is-planned").count() > 3
    who.page.emulate_media(media="print")
    assert who.page.evaluate(OVER_WORDS) == []
