"""The wall: it turns to the next service by itself, and says of when it is while the kitchen does not answer."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import expect

from tests.browser.engine import WIDE, Served
from tests.browser.journeys import step_in
from tests.browser.somebody import Somebody

A_MINUTE = 61_000  # ms, and a little


def test_the_wall_reads_itself_anew_each_minute(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """Friday's dinner crew gives way to Saturday's lunch crew with nobody touching the screen."""
    ottilie = sit_down(quernstone, WIDE)
    step_in(ottilie, quernstone, "Manager")
    ottilie.page.clock.install()
    ottilie.open("/board/wall")
    assert ottilie.heading.casefold() == "dinner"
    quernstone.clock.put_forward(hours=18)
    ottilie.page.clock.fast_forward(A_MINUTE)
    expect(ottilie.page.get_by_role("heading", level=1)).to_have_text("Lunch", ignore_case=True)
    assert "Sat 28 Nov 2026" in ottilie.work


def test_a_wall_that_cannot_be_read_keeps_what_it_shows(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """The names stay, and beside the hour stands that it is the last one read."""
    ottilie = sit_down(quernstone, WIDE)
    step_in(ottilie, quernstone, "Manager")
    ottilie.page.clock.install()
    ottilie.open("/board/wall")
    stale = ottilie.page.get_by_text("Last read")
    expect(stale).to_be_hidden()
    ottilie.page.evaluate("() => { window.fetch = () => Promise.reject(new Error('no answer')) }")
    ottilie.page.clock.fast_forward(A_MINUTE)
    expect(stale).to_be_visible()
    assert ottilie.heading.casefold() == "dinner"
