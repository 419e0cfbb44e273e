"""A sous chef: finds who waits, watches point by point, signs with the PIN; numbers outside make it *not yet*."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.browser.engine import Screen, Served
from tests.browser.journeys import TICK, first_name, person_id, ready_to_show, sign, step_in, watch
from tests.browser.somebody import Somebody
from trainer.actions.demo_door import DEMO_PIN
from trainer.kitchen.technique import Technique

BESIDES_THE_POINTS = 12  # 18 taps for 6 points, 8 of them the PIN: to the cook, start, sign, and one to spare


@pytest.fixture
def technique(quernstone: Served) -> Technique:
    """Return the technique the new hire asked to be watched at."""
    found = quernstone.kitchen.content.techniques["pasta_nesting"]
    ready_to_show(quernstone, person_id(quernstone, "New hire"), found)
    return found


def start(renzo: Somebody, served: Served, technique: Technique) -> None:
    """Go from the demo's door to the first point."""
    step_in(renzo, served, "Sous chef")
    assert renzo.heading == "Ready to show"
    renzo.taps = renzo.figures = 0
    renzo.press_starting(f"Watch {first_name(served, 'New hire')}")
    assert renzo.heading == technique.title
    for hazard in technique.hazards:
        assert " ".join(hazard.caution.split()) in renzo.work
    renzo.next_act()


def test_a_practical_is_watched_and_signed(
    quernstone: Served, technique: Technique, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Readings inside, the PIN asked at signing, the record shown, "Saved"; within the taps allowed."""
    renzo = sit_down(quernstone, screen)
    start(renzo, quernstone, technique)
    watch(renzo, technique)
    readings = renzo.figures
    assert "Verdict: Meets it" in renzo.work
    sign(renzo)
    taps = renzo.taps + renzo.figures - readings
    assert taps <= len(technique.checklist) + BESIDES_THE_POINTS
    assert renzo.heading.startswith("Saved 18:")
    assert "on the spike" in renzo.heading
    assert technique.title in renzo.work
    renzo.next_act()
    assert renzo.page.get_by_role("button", name=f"Watch {first_name(quernstone, 'New hire')}").count() == 0
    print(f"\n{screen.name}: {len(technique.checklist)} points, {taps} taps and {readings} figures of readings")


def test_one_reading_outside_makes_it_not_yet(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Numbers decide: nobody can say *meets it* over them, and a critical point missed makes the verdict *not yet*."""
    technique = quernstone.kitchen.content.techniques["egg_tempering"]
    ready_to_show(quernstone, person_id(quernstone, "New hire"), technique)
    missed = next(point for point in technique.checklist if point.limit is not None and point.critical)
    renzo = sit_down(quernstone, screen)
    start(renzo, quernstone, technique)
    watch(renzo, technique, missed.id)
    assert "Verdict: Not yet" in renzo.work
    sign(renzo)
    assert renzo.heading.startswith("Saved 18:")
    assert "Verdict: Not yet" in renzo.work


def test_the_pin_is_asked_at_signing(
    quernstone: Served, technique: Technique, sit_down: Callable[..., Somebody], night: Screen
) -> None:
    """Without the PIN, and with a wrong one, nothing is saved and nothing that was seen is lost."""
    renzo = sit_down(quernstone, night)
    start(renzo, quernstone, technique)
    watch(renzo, technique)
    renzo.press("Sign")
    assert "Type your PIN or passphrase again. Nothing was saved yet." in renzo.work
    sign(renzo, "11112222")
    assert renzo.page.title().startswith("Error: ")
    sign(renzo, DEMO_PIN)
    assert renzo.heading.startswith("Saved 18:")


def test_a_practical_is_kept_through_a_closed_browser(
    quernstone: Served, technique: Technique, sit_down: Callable[..., Somebody], night: Screen
) -> None:
    """Anyone who closes the browser in the middle comes back to the next point, with what was seen."""
    renzo = sit_down(quernstone, night)
    start(renzo, quernstone, technique)
    renzo.press(TICK)
    renzo.close_and_come_back()
    renzo.press("Go on")
    assert renzo.next_act() == "Go on at point 2"
    assert "Point 2 of" in renzo.page.locator("header").inner_text()
