"""An act that may take over two seconds says that it works, with the script and without."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import FilePayload, expect

from tests.browser.engine import NO_SCRIPT, PHONE, Served
from tests.browser.journeys import step_in
from tests.browser.somebody import Somebody

WORKING = "Working: do not press again"
ROSTER: FilePayload = {"name": "roster.csv", "mimeType": "text/csv", "buffer": b"name,roles\nZoe Long,cook\n"}


def test_a_file_that_is_sent_counts_the_seconds(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """The button says that it works and a line counts; a second press is not sent."""
    who = sit_down(quernstone, PHONE)
    step_in(who, quernstone, "Manager")
    who.open("/roster")
    who.page.evaluate(
        "() => document.addEventListener('submit', (event) => {"
        " window.sent = (window.sent || 0) + !event.defaultPrevented; event.preventDefault(); })"
    )
    button = who.page.locator("button.enamel")
    button.click()
    expect(button).to_have_text(WORKING)
    expect(who.page.locator(".waiting")).to_have_text(f"{WORKING} 2 s")
    button.click()
    assert who.page.evaluate("() => window.sent") == 1


def test_a_file_handed_out_comes_and_the_button_is_itself_again(
    quernstone: Served, sit_down: Callable[..., Somebody]
) -> None:
    """It says that it works until the file is there, and keeps the file's own name."""
    who = sit_down(quernstone, PHONE)
    step_in(who, quernstone, "Manager")
    who.open("/hand-out")
    link = who.page.locator("a[download]").first
    words = link.inner_text()
    with who.page.expect_download() as coming:
        link.click()
    assert coming.value.suggested_filename.endswith(".csv")
    expect(who.page.locator(".waiting")).to_have_count(0)
    assert link.inner_text() == words


def test_without_the_script_the_pressed_button_says_so(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """It stands above too, and the file comes in all the same."""
    who = sit_down(quernstone, NO_SCRIPT)
    step_in(who, quernstone, "Manager")
    who.open("/roster")
    assert "Press once; a second press changes nothing." in who.page.inner_text("main")
    who.page.set_input_files("input[type=file]", ROSTER)
    who.page.locator("button.enamel").click()
    assert "Nothing is changed yet." in who.page.inner_text("main")
