"""The keys under a hand on a phone: none under the bar, none that moves after an error, and a new figure after it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Locator

from tests.browser.engine import Screen, Served
from tests.browser.journeys import person_id, ready_to_show, step_in
from tests.browser.somebody import Somebody
from tests.browser.test_question_pages import asking_everything
from trainer.actions import enrolling, watching
from trainer.cli.opening import content_from_files
from trainer.kitchen.technique import Point
from trainer.web import guard

PHONES = (Screen("phone", 360, 740), Screen("short phone at night", 360, 640, night=True))
NOT_YET_SEEN = 900  # ms: the answers are held for 800 ms
WORST = "1.2.3"  # the refusal with the longest sentence the keys can bring about, in both languages
REACH = """() => {
  const keys = [...document.querySelectorAll(".keypad button, .pad label, .erase")]
    .filter(key => key.checkVisibility()).map(key => key.getBoundingClientRect());
  return {
    under: Math.max(...keys.map(key => key.bottom)) - document.querySelector(".bar").getBoundingClientRect().top,
    small: keys.filter(key => key.width < 47.5 || key.height < 47.5).length,
    aside: document.documentElement.scrollWidth - innerWidth,
    top: Math.min(...keys.map(key => key.top)),
  };
}"""


@pytest.fixture(params=PHONES, ids=lambda screen: screen.name)
def phone(request: pytest.FixtureRequest) -> Screen:
    """Return a phone by day, and a short one at night."""
    chosen: Screen = request.param
    return chosen


def watching_at(served: Served, technique: str) -> tuple[watching.Practical, tuple[Point, ...]]:
    """Let the sous chef, or anyone who may, begin a practical of the new hire; return it with the checklist."""
    hire, found = person_id(served, "New hire"), served.kitchen.content.techniques[technique]
    ready_to_show(served, hire, found)
    (station, *_) = served.kitchen.content.stations_asking_for(technique)
    sous = person_id(served, "Sous chef")
    watch = watching.Watch(hire, technique, station.id)
    begun = watching.start_practical(served.kitchen, by=sous, watch=watch, now=served.clock(), key=f"w-{technique}")
    assert isinstance(begun, watching.Practical), begun
    return begun, found.checklist


def single_readings(checklist: tuple[Point, ...]) -> Iterator[int]:
    """Return the numbers of the points with one reading, which has keys on the page."""
    for number, point in enumerate(checklist, 1):
        if point.limit is not None and point.judged != "ticked" and point.pieces == 1:
            yield number


def reads_in(who: Somebody, served: Served, language: str) -> None:
    """Choose a language; the other one comes with the other units first."""
    files = content_from_files(served.folder)
    served.kitchen._library = lambda language, units: files.read(language, units)[0]
    who.open("/language")
    who.page.check(f"input[name=language][value={language}]")
    who.page.check(f"input[name=units][value={'us' if language == 'en' else 'metric'}]")
    who.tap(who.page.locator("button.enamel"))


def by_hand(who: Somebody) -> None:
    """Open the keys of a point that is timed; elsewhere they are there."""
    closed = who.page.locator(".by-hand:not([open]) summary")
    if closed.count():
        who.tap(closed)


def amiss(found: dict[str, float]) -> bool:
    """Return whether a key is under the bar, too small for a fingertip, or off to the side."""
    return found["under"] > 0 or found["small"] > 0 or found["aside"] > 0


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_key_of_a_reading_is_under_the_bar(
    quernstone: Served, sit_down: Callable[..., Somebody], phone: Screen, language: str
) -> None:
    """Before and after the longest error every key is whole above the bar; where it has its three lines, none moves."""
    renzo = sit_down(quernstone, phone)
    step_in(renzo, quernstone, "Sous chef")
    reads_in(renzo, quernstone, language)
    wrong = {}
    begun, checklist = watching_at(quernstone, "pasta_nesting")
    for number in single_readings(checklist):
        renzo.open(f"/practicals/{begun.id}/{number}")
        by_hand(renzo)
        before = renzo.page.evaluate(REACH)
        for typed in ("", WORST):
            renzo.page.locator(".readout input").fill(typed)
            renzo.page.wait_for_timeout(NOT_YET_SEEN)
            renzo.tap(renzo.page.locator(".decisions .plain").first)
            assert renzo.page.locator(".in-place.problems").count() == 1
            after = renzo.page.evaluate(REACH)
            if amiss(before) or amiss(after) or (not typed and after["top"] != before["top"]):
                wrong[number, typed] = (before, after)
    assert wrong == {}


def test_after_an_error_the_next_key_begins_a_new_figure(
    quernstone: Served, sit_down: Callable[..., Somebody], phone: Screen
) -> None:
    """17 was too little: it shows selected, and 2, 3 make 23, never 1723."""
    renzo = sit_down(quernstone, phone)
    step_in(renzo, quernstone, "Sous chef")
    begun, checklist = watching_at(quernstone, "pasta_nesting")
    number = next(n for n in single_readings(checklist) if checklist[n - 1].id == "in_time")
    renzo.open(f"/practicals/{begun.id}/{number}")
    by_hand(renzo)
    renzo.page.wait_for_timeout(NOT_YET_SEEN)
    for key in ("4", "7"):
        renzo.press(key)
    renzo.press("Meets it")
    assert "decide" in renzo.work
    figure = renzo.page.locator(".readout input")
    assert figure.input_value() == "47"
    assert renzo.page.locator(".readout.old").count() == 1
    renzo.press("2")
    renzo.press("3")
    assert figure.input_value() == "23"


def test_a_unit_key_closes_a_part(quernstone: Served, sit_down: Callable[..., Somebody], phone: Screen) -> None:
    """4, lb, 14 is four pounds and fourteen ounces; the unit beside the figure goes on to ounces."""
    renzo = sit_down(quernstone, phone)
    step_in(renzo, quernstone, "Sous chef")
    begun, checklist = watching_at(quernstone, "pasta_nesting")
    number = next(n for n in single_readings(checklist) if checklist[n - 1].id == "tray_weighed")
    renzo.open(f"/practicals/{begun.id}/{number}")
    renzo.press("4")
    renzo.page.locator(".unit-keys label", has_text="lb").click()
    renzo.page.locator(".unit-keys label", has_text="oz").click()
    renzo.page.locator(".unit-keys label", has_text="lb").click()
    renzo.press("1")
    renzo.press("4")
    assert renzo.page.locator(".readout input").input_value() == "4 lb 14"
    assert renzo.page.locator(".readout .unit:visible").all_inner_texts() == ["oz"]
    renzo.page.wait_for_timeout(NOT_YET_SEEN)
    renzo.press("Meets it")
    kept = watching.find_practical(quernstone.kitchen, begun.id)
    assert kept is not None
    assert kept.seen["tray_weighed"].readings == ("4 lb 14 oz",)


def double_tap(who: Somebody, what: Locator) -> None:
    """Tap a place twice, 150 ms apart, and wait until its answers are no longer held."""
    box = what.bounding_box()
    assert box is not None
    at = (box["x"] + 20, box["y"] + 20)
    who.page.mouse.click(*at)
    who.page.wait_for_timeout(150)
    who.page.mouse.click(*at)
    who.page.wait_for_timeout(NOT_YET_SEEN)


def test_a_double_tap_signs_nothing(quernstone: Served, sit_down: Callable[..., Somebody], phone: Screen) -> None:
    """Two taps 150 ms apart judge the point on screen, and not the one behind it."""
    renzo = sit_down(quernstone, phone)
    step_in(renzo, quernstone, "Sous chef")
    begun, checklist = watching_at(quernstone, "pasta_nesting")
    renzo.open(f"/practicals/{begun.id}/1")
    renzo.page.wait_for_timeout(NOT_YET_SEEN)
    double_tap(renzo, renzo.page.locator(".decisions .plain").first)
    kept = watching.find_practical(quernstone.kitchen, begun.id)
    assert kept is not None
    assert list(kept.seen) == [checklist[0].id]


def test_answers_are_held_without_motion_too(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """Who asks for less motion meets no error for a second tap: it falls on nothing, as for everybody."""
    renzo = sit_down(quernstone, PHONES[0])
    renzo.page.emulate_media(reduced_motion="reduce")
    step_in(renzo, quernstone, "Sous chef")
    begun, checklist = watching_at(quernstone, "pasta_nesting")
    held = {}
    for number, point in enumerate(checklist, 1):
        renzo.open(f"/practicals/{begun.id}/{number}")
        for button in renzo.page.locator(".point .bar button:visible").all():
            held[point.judged, button.get_attribute("name")] = button.evaluate("b => getComputedStyle(b).animationName")
    assert set(held.values()) == {"held", "unpressed"}, held
    renzo.open(f"/practicals/{begun.id}/1")
    renzo.page.wait_for_timeout(NOT_YET_SEEN)
    double_tap(renzo, renzo.page.locator(".decisions .plain").first)
    assert "That was quick" not in renzo.work
    kept = watching.find_practical(quernstone.kitchen, begun.id)
    assert kept is not None
    assert list(kept.seen) == [checklist[0].id]


def test_no_key_of_a_pin_is_under_the_bar(quernstone: Served, sit_down: Callable[..., Somebody], phone: Screen) -> None:
    """A wrong PIN at the door: the sentence stands where the label stood, and every key is where it was."""
    manager, sous = person_id(quernstone, "Manager"), person_id(quernstone, "Sous chef")
    enrolled = enrolling.enrol_device(quernstone.kitchen, name="Pass", by=manager, now=quernstone.clock())
    assert isinstance(enrolled, enrolling.Enrolled)
    renzo = sit_down(quernstone, phone)
    renzo.context.add_cookies([{"name": guard.DEVICE, "value": enrolled.secret, "url": quernstone.address}])
    renzo.open(f"/names/{sous}")
    before = renzo.page.evaluate(REACH)
    for key in "11112222":
        renzo.press(key)
    renzo.next_act()
    after = renzo.page.evaluate(REACH)
    assert renzo.page.locator(".in-place.problems").count() == 1
    assert not amiss(before), before
    assert not amiss(after), after
    assert after["top"] == before["top"]


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_key_of_a_sum_is_under_the_bar_after_an_error(
    quernstone: Served, sit_down: Callable[..., Somebody], language: str
) -> None:
    """A long sum of every kind at 360 × 740: the error stands where the label stood, every key above the bar."""
    noor, cook = sit_down(quernstone, PHONES[0]), person_id(quernstone, "New hire")
    pages = asking_everything(quernstone, cook, "us" if language == "en" else "metric")
    step_in(noor, quernstone, "New hire")
    reads_in(noor, quernstone, language)
    wrong = {}
    for family, page in pages.items():
        noor.open(page)
        noor.page.locator(".readout input").fill(WORST)
        noor.tap(noor.page.locator(".bar .enamel"))
        assert noor.page.locator(".in-place.problems").count() == 1
        found = noor.page.evaluate(REACH)
        if amiss(found):
            wrong[family] = found
    assert wrong == {}
