"""The looks themselves: each finds a fault put before it, so that an empty list means something."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Page

from tests.browser import looks

Look = Callable[[Page], list[str]]
FOOT = '<div class="bar" style="position: fixed; bottom: 0; left: 0; right: 0; height: 90px">bar</div>'
FAULTS: dict[str, tuple[Look, str]] = {
    "sideways": (looks.sideways, '<div style="width: 2000px; height: 9px">wide</div>'),
    "spaced": (
        looks.sideways_spaced,
        '<p style="white-space: nowrap; width: 350px">a line of words that only just fits as it is</p>',
    ),
    "faint": (looks.faint_text, '<p style="color: #777; background: #fff">grey</p>'),
    "small text": (looks.small_text, '<p style="font-size: 12px">small</p>'),
    "small control": (looks.small_controls, '<button style="height: 20px">small</button>'),
    "covered": (looks.under_the_bar, f'<main><p style="height: 640px">text</p><button>press</button></main>{FOOT}'),
    "below the view": (looks.below_the_view, f'<p style="height: 640px">a</p><p class="hazard">hot</p>{FOOT}'),
    "axe": (lambda page: looks.axe(page)[0], "<main><h1>one</h1><img src='data:,'></main>"),
}


@pytest.mark.parametrize("name", FAULTS)
def test_each_look_finds_its_fault(browser: Browser, name: str) -> None:
    """Put before a page with one thing wrong, a look says so."""
    look, fault = FAULTS[name]
    page = browser.new_context(viewport={"width": 360, "height": 700}).new_page()
    page.set_content(f'<!doctype html><html lang="en"><title>t</title><body style="font-size: 20px">{fault}')
    assert look(page)
    page.context.close()
