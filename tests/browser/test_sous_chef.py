"""A sous chef: finds who waits, watches point by point, signs with the PIN; numbers outside make it *not yet*."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.browser.engine import SHORT_PHONE, Screen, Served
from tests.browser.journeys import TICK, begin, first_name, person_id, ready_to_show, sign, step_in, watch
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
    assert renzo.heading.startswith("Dinner, Fri 27 Nov")
    renzo.taps = renzo.figures = 0
    renzo.press_starting(f"Watch {first_name(served, 'New hire')}")
    assert renzo.heading == technique.title
    for hazard in technique.hazards:
        assert " ".join(hazard.caution.split()) in renzo.work
    begin(renzo, technique)


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
    said = sum(len(point.choices) for point in technique.checklist if point.judged == "says")
    by_hand = sum(point.judged == "timed" for point in technique.checklist)
    saves = sum(point.pieces - 1 for point in technique.checklist)
    assert taps <= len(technique.checklist) + said + saves + by_hand + BESIDES_THE_POINTS
    assert renzo.heading.startswith("Saved 18:")
    assert renzo.heading.startswith("Saved ")
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


def test_the_line_tonight_is_the_first_view(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """On a short phone the service, every station with who is planned, and the bar, without a tap or a scroll."""
    renzo = sit_down(quernstone, SHORT_PHONE)
    step_in(renzo, quernstone, "Sous chef")
    stations = renzo.page.locator(".line-rows > div")
    assert stations.count() == len(quernstone.kitchen.content.stations)
    last, bar = stations.last.bounding_box(), renzo.page.locator(".bar").bounding_box()
    assert last
    assert bar
    assert last["y"] + last["height"] <= bar["y"]
    assert bar["y"] + bar["height"] <= SHORT_PHONE.height


def test_the_swaps_are_made_in_two_taps(quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen) -> None:
    """The line as it will stand, then it is made; the manager reads who did it on the board."""
    renzo = sit_down(quernstone, screen)
    step_in(renzo, quernstone, "Sous chef")
    renzo.taps = 0
    renzo.next_act()
    assert "Every station has its hand" in renzo.work
    renzo.next_act()
    assert renzo.taps == 2
    assert "Holds as planned" in renzo.work
    ottilie = sit_down(quernstone, screen)
    step_in(ottilie, quernstone, "Manager")
    assert "Changed by Renzo, 18:" in ottilie.work


def test_somebody_is_off_a_station_in_four_taps_and_the_pin(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Whom, why off the list, done: it counts at once, on the line and for the manager."""
    renzo = sit_down(quernstone, screen)
    step_in(renzo, quernstone, "Sous chef")
    renzo.taps = renzo.figures = 0
    renzo.press("Take off the station")
    renzo.tap(renzo.page.locator("a.row").first)
    name = renzo.heading
    renzo.tap(renzo.page.locator('input[name="why"][value="not safe"]'))
    renzo.fill("Your PIN or passphrase", DEMO_PIN)
    renzo.next_act()
    assert renzo.taps == 4
    assert renzo.heading == f"{name} is off the line"
    renzo.next_act()
    assert f"{name} off every station since 18:" in renzo.work


def test_the_shifts_of_the_plan_are_signed_in_one_tap_and_the_pin(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """Those of last night stand ticked, with the guests of the plan."""
    renzo = sit_down(quernstone, screen)
    step_in(renzo, quernstone, "Sous chef")
    before = len(quernstone.kitchen.file.book.of_kind("shift_worked"))
    ticked = renzo.page.locator("input[name=shift]:checked").count()
    assert ticked
    renzo.taps = 0
    renzo.fill("Your PIN or passphrase", DEMO_PIN)
    renzo.press("Sign the list")
    assert renzo.taps == 1
    assert len(quernstone.kitchen.file.book.of_kind("shift_worked")) == before + ticked
    assert "I signed" in renzo.work
