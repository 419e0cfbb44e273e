"""A cook hears a step, asks for help with one tap, is shown it; and hears what came of a wrong answer."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.browser.engine import SHORT_PHONE, TABLET_AT_NIGHT, Screen, Served
from tests.browser.journeys import step_in
from tests.browser.somebody import Somebody

VOICES = """
const voices = [{ lang: "en-US" }, { lang: "es-MX" }];
window.said = [];
window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
Object.defineProperty(window, "speechSynthesis", { value: {
  getVoices: () => voices,
  speak: (one) => window.said.push([one.lang, one.text]),
  cancel: () => window.said.push(["", "stop"]),
  addEventListener: () => {},
} });
"""
"""In place of the browser's own voices, of which a browser without a screen has none: what they are given is kept.
Web Speech API (W3C Community Group, 2024), section 4.2: getVoices, speak, cancel, lang and text."""
STEP = "/techniques/safe_holding/steps/1"


def said(who: Somebody) -> list[list[str]]:
    """Return what the voice was given on this page."""
    found: list[list[str]] = who.page.evaluate("() => window.said")
    return found


@pytest.mark.parametrize("screen", [SHORT_PHONE, TABLET_AT_NIGHT], ids=lambda screen: screen.name)
def test_a_step_is_heard_and_help_is_asked_and_shown(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """The button reads cautions first and stops at the second press; one tap asks, one tap at the desk says shown."""
    noor = sit_down(quernstone, screen)
    noor.page.add_init_script(VOICES)
    step_in(noor, quernstone, "New hire")
    noor.open(STEP)
    listen = noor.page.get_by_role("button", name="Listen")
    listen.click()
    spoken = [text for lang, text in said(noor) if lang == "en"]
    assert spoken
    assert not any("°" in text or "1/2" in text for text in spoken)
    assert listen.get_attribute("aria-pressed") == "true"
    listen.click()
    assert said(noor)[-1] == ["", "stop"]
    assert listen.get_attribute("aria-pressed") == "false"
    noor.page.locator(".asks-help button").click()
    assert "not seen yet." in noor.work
    renzo = sit_down(quernstone, screen)
    step_in(renzo, quernstone, "Sous chef")
    renzo.open("/ready")
    renzo.page.get_by_role("button", name="Shown").first.click()
    renzo.page.wait_for_load_state("load")
    assert "Asked for help" not in renzo.work
    noor.open(STEP)
    assert "not seen yet." not in noor.work


def test_without_a_voice_no_button_promises_one(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """A browser that has none shows none, and every act is still there."""
    noor = sit_down(quernstone, SHORT_PHONE)
    step_in(noor, quernstone, "New hire")
    noor.open(STEP)
    assert not noor.page.get_by_role("button", name="Listen").is_visible()
    assert noor.page.get_by_role("link", name="Next").is_visible()
