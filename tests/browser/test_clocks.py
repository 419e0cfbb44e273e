"""A clock in a real browser: it goes on through page turns, reloads and a closed browser, and its end is not missed."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from tests.browser import looks
from tests.browser.engine import NO_SCRIPT, SHORT_PHONE, Served
from tests.browser.journeys import person_id, ready_to_show, step_in
from tests.browser.somebody import Somebody
from trainer.actions import watching
from trainer.kitchen.technique import Technique

HEARD = """window.tones = 0;
window.AudioContext = class {
  state = "running"; currentTime = 0; destination = {};
  resume() { return Promise.resolve(); }
  createOscillator() { window.tones += 1; return { frequency: {}, connect() {}, start() {}, stop() {} }; }
};"""
"""In place of the browser's own sound: counts the tones."""
BAND = ".running .clock-line"
HALF_A_MINUTE, A_MOMENT = 30, 10


def timed(served: Served) -> tuple[Technique, int]:
    """Return a technique of the kitchen with a step of half a minute or more, and the number of that step."""
    for technique in served.kitchen.content.techniques.values():
        for number, step in enumerate(technique.steps, 1):
            if (step.seconds or 0) >= HALF_A_MINUTE:
                return technique, number
    raise AssertionError("no step takes its time")


def nearly_over(served: Served, technique: Technique, number: int) -> None:
    """Let all but three seconds of a clock go by."""
    served.clock.put_forward(seconds=(technique.steps[number - 1].seconds or 0) - 3)


def start(who: Somebody, technique: Technique, number: int) -> None:
    """Start the clock of a step."""
    who.open(f"/techniques/{technique.id}/steps/{number}")
    with who.page.expect_navigation():
        who.press("Start the clock")


@pytest.fixture
def noor(quernstone: Served, sit_down: Callable[..., Somebody]) -> Somebody:
    """Return the new hire at a short phone that counts its tones."""
    who = sit_down(quernstone, SHORT_PHONE)
    who.context.add_init_script(HEARD)
    step_in(who, quernstone, "New hire")
    return who


def test_a_clock_goes_on_when_the_page_turns_and_the_browser_closes(quernstone: Served, noor: Somebody) -> None:
    """It is counted from the start that the kitchen keeps, in a band of 60 px on whatever page."""
    technique, number = timed(quernstone)
    start(noor, technique, number)
    for turn in (lambda: noor.open("/rail"), noor.page.reload, noor.close_and_come_back):
        quernstone.clock.put_forward(seconds=5)
        turn()
        band = noor.page.locator(BAND)
        assert technique.steps[number - 1].title in band.inner_text()
        box = band.bounding_box()
        assert box is not None
        assert round(box["height"]) == 60
    seconds = technique.steps[number - 1].seconds or 0
    minutes, rest = noor.page.locator(f"{BAND} .ticks").inner_text().split(":")
    assert seconds - 15 - A_MOMENT <= int(minutes) * 60 + int(rest) <= seconds - 15
    assert looks.small_controls(noor.page) + looks.small_text(noor.page) + looks.faint_text(noor.page) == []


def test_the_end_is_seen_and_heard_until_it_was_seen(quernstone: Served, noor: Somebody) -> None:
    """The band turns, the title says it, it rings; what is being typed stays, and *Seen* ends it."""
    technique, number = timed(quernstone)
    start(noor, technique, number)
    nearly_over(quernstone, technique, number)
    noor.open("/bench/cooling")
    noor.page.locator("textarea").fill("0 135")
    title = noor.page.title()
    expect(noor.page).to_have_title(f"Time is up: {title}")
    assert noor.page.locator(BAND).evaluate("line => line.classList.contains('is-over')")
    assert "TIME IS UP" in noor.page.locator(BAND).inner_text()
    assert noor.page.evaluate("window.tones") >= 3
    noor.press("Seen")
    expect(noor.page.locator(".running")).to_have_count(0)
    assert noor.page.title() == title
    assert noor.page.locator("textarea").input_value() == "0 135"
    assert quernstone.kitchen.file.drafts.list("clock") == ()


def test_without_script_it_says_until_when_and_the_step_says_the_end(
    quernstone: Served, sit_down: Callable[..., Somebody]
) -> None:
    """No script runs: the band has the time of day, and the page of a step reads itself anew at the end."""
    who = sit_down(quernstone, NO_SCRIPT)
    step_in(who, quernstone, "New hire")
    technique, number = timed(quernstone)
    start(who, technique, number)
    nearly_over(quernstone, technique, number)
    who.page.reload()
    assert "until " in who.page.locator(BAND).inner_text()
    who.page.wait_for_selector(f"{BAND}.is-over")
    assert who.page.title().startswith("Time is up: ")


def test_a_step_is_seen_whole_below_its_clock(quernstone: Served, noor: Somebody) -> None:
    """At 360 by 740, in the longer words of Spanish, every timed step is in one view while its clock runs above it."""
    noor.speak("es")
    found = []
    for technique in quernstone.kitchen.content.techniques.values():
        for number, step in enumerate(technique.steps, 1):
            if step.seconds or step.timers:
                noor.open(f"/techniques/{technique.id}/steps/{number}")
                with noor.page.expect_navigation():
                    noor.page.locator("form.clock button").first.click()
                found += [f"{technique.id} {number}: {line}" for line in looks.below_the_view(noor.page)]
    assert found == []


def test_a_stopwatch_goes_on_and_waits_to_be_judged(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """Started at its point it stands above every other page; stopped there it takes nothing of what is typed."""
    hire, sous = (person_id(quernstone, role) for role in ("New hire", "Sous chef"))
    k, technique = quernstone.kitchen, quernstone.kitchen.content.techniques["cold_side_basics"]
    ready_to_show(quernstone, hire, technique)
    begun = watching.start_practical(
        k, by=sous, watch=watching.Watch(hire, technique.id), now=quernstone.clock(), key="timed"
    )
    assert isinstance(begun, watching.Practical)
    timed_point = next(n for n, point in enumerate(technique.checklist, 1) if point.judged == "timed")
    renzo = sit_down(quernstone, SHORT_PHONE)
    step_in(renzo, quernstone, "Sous chef")
    renzo.open(f"/practicals/timed/{timed_point}")
    with renzo.page.expect_navigation():
        renzo.press("Start the watch")
    assert ":" in renzo.page.locator(".stopwatch .ticks").inner_text()
    quernstone.clock.put_forward(seconds=21)
    renzo.open(f"/practicals/timed/{timed_point + 1}")
    renzo.page.reload()
    assert renzo.page.locator(f"{BAND} .ticks").inner_text().startswith("0:2")
    renzo.page.locator("details.note summary").click()
    renzo.page.locator("textarea").fill("Gloves on.")
    renzo.page.locator(f"{BAND} button").click()
    expect(renzo.page.locator(f"{BAND} .judge")).to_be_visible()
    assert renzo.page.locator("textarea").input_value() == "Gloves on."
    renzo.press("Judge it")
    assert renzo.page.locator("input[name=reading_1]").input_value().startswith("2")
    renzo.press("Meets it")
    renzo.open("/practicals/timed/record")
    assert "s, by the watch" in renzo.work
    assert renzo.page.locator(".running").count() == 0
