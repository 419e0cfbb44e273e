"""Readings on the pages of a practical: the unit told beside them, what is asked back, and the time a look takes."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest

from tests.web.conftest import PIN
from tests.web.hands import Hands, Seen, take_all
from tests.web.kitchen_people import ask, clear
from tests.web.small_content import NESTS
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import Limit, Point
from trainer.recipe_math.quantity import Quantity

COLD = Limit("cold_holding", None, Quantity.of(41, "°F"), None, "house")
PROBED = Point("cold", "Two pans are probed.", True, "measured", COLD, 2, 2)


@pytest.fixture
def probed(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with two pans to be probed after the guard."""
    nests = replace(NESTS, checklist=(NESTS.checklist[0], PROBED, NESTS.checklist[2]))
    techniques = MappingProxyType({**kitchen.content.techniques, "nests": nests})
    kitchen.content = replace(kitchen.content, techniques=techniques)
    return kitchen


def metric_first(kitchen: Kitchen) -> None:
    """Put metric units first in the house."""
    kitchen.file.change_settings(replace(kitchen.file.settings, units_first="metric"))


def at_the_pans(bo: Hands, kitchen: Kitchen) -> Seen:
    """Let Bo watch Ana up to the two pans."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    bo.follow("Start")
    return bo.press("Meets it")


def reads(bo: Hands, first: str, second: str, words: str = "Meets it", **changes: Any) -> Seen:
    """Key in both readings and press an answer."""
    return take_all(bo, {"Temperature 1 of 2": first, "Temperature 2 of 2": second}, words, **changes)


def kept(kitchen: Kitchen) -> dict[str, Any]:
    """Return the points kept of the one practical under way."""
    (draft,) = kitchen.file.drafts.list("practical")
    return {point["point"]: point["looks"][-1] for point in draft.body["points"] if point["looks"]}


def readings(kitchen: Kitchen) -> list[str]:
    """Return the readings of the two pans as they were kept, each with its unit."""
    return [text for _, _, text, *_ in kept(kitchen)["cold"]["readings"]]


def test_a_metric_reader_is_told_degrees_celsius_beside_the_fields(bo: Hands, probed: Kitchen) -> None:
    """The line in °C first, °C pressed, °F the other key."""
    metric_first(probed)
    page = at_the_pans(bo, probed)
    assert "at or below 5 °C (at or below 41 °F)" in page.work
    keys = {str(key["value"]): key.has_attr("checked") for key in page.soup.select("input[name=unit]")}
    assert keys == {"°C": True, "°F": False}


def test_a_bare_number_is_read_in_the_unit_told(bo: Hands, probed: Kitchen) -> None:
    """8 and 8 beside °C are 46 °F: over 41 °F, so nobody says that they meet it."""
    metric_first(probed)
    at_the_pans(bo, probed)
    page = reads(bo, "8", "8")
    assert page.status == 400
    assert "the readings decide" in page.problems[0]
    bo.open(str(page.soup.select(".slots a")[0]["href"]))
    reads(bo, "4", "5")
    assert readings(probed) == ["4 °C", "5 °C"]


def test_the_unit_key_decides_over_the_readers_own(bo: Hands, probed: Kitchen) -> None:
    """A probe that shows °C in a house of °F: the key is pressed, and stays pressed after an error."""
    at_the_pans(bo, probed)
    page = reads(bo, "8", "8", unit="°C")
    assert "the readings decide" in page.problems[0]
    (pressed,) = page.soup.select("input[name=unit][checked]")
    assert pressed["value"] == "°C"


def test_a_unit_that_was_not_told_is_asked_for(bo: Hands, probed: Kitchen) -> None:
    """A form without its unit key says nothing of what 8 was."""
    at_the_pans(bo, probed)
    assert reads(bo, "8", "8", unit="").problems == ["Press the unit of the reading, then send it again."]


def test_a_reading_no_kitchen_shows_is_asked_back(bo: Hands, probed: Kitchen) -> None:
    """721 °F in a cooler: what was typed, what a probe shows here, and the way to read it again; nothing is judged."""
    at_the_pans(bo, probed)
    page = reads(bo, "38", "721")
    assert page.heading == "Is that what you read?"
    assert page.button("Yes, it was 721 °F (383 °C)")
    assert "Temperature 2 of 2: You typed 721 °F. Here a probe shows from 23 °F (-5 °C) to 88 °F (31 °C)." in page.work
    assert "cold" not in kept(probed)
    page = bo.press("Read the probe again")
    assert page.heading == "Two pans are probed."
    assert page.field("Temperature 2 of 2")["value"] == "721"
    bo.press("Meets it", {"Temperature 2 of 2": "39"})
    assert kept(probed)["cold"]["readings"][1] == ["39", "°F", "39 °F", [["721 °F"]]]


def test_an_answer_is_judged_and_both_stay_in_the_record(bo: Hands, probed: Kitchen) -> None:
    """4 beside °F was 4 °C: answered in one tap each, it meets the line; the record says what was typed."""
    at_the_pans(bo, probed)
    page = reads(bo, "4", "38")
    ways = [button.get_text() for button in page.soup.select("#asked button")]
    assert ways == ["4 °F (-16 °C)", "4 °C (39 °F)"]
    bo.press("4 °C (39 °F)")
    bo.press("Meets it", {"Temperature 2 of 2": "38"}, unit="°F")
    assert readings(probed) == ["4 °C", "38 °F"]
    bo.press("Meets it")
    assert "Asked back: typed 4 °F, answered 4 °C." in bo.page.work
    bo.press("Sign", {"Your PIN": PIN})
    assert "Asked back: typed 4 °F, answered 4 °C." in bo.page.work
    (entry,) = (e for e in probed.file.book.since(0) if e.kind == "practical_watched" and e.cook == "ana")
    assert entry.body["points"][1]["looks"][0]["readings"][0] == ["4", "°C", "4 °C", [["4 °F", "4 °C"]]]


def test_two_readings_are_asked_back_one_after_the_other(bo: Hands, probed: Kitchen) -> None:
    """Each piece is asked back by itself, before it is kept."""
    at_the_pans(bo, probed)
    reads(bo, "4", "3")
    bo.press("4 °C (39 °F)")
    page = bo.press("Meets it", {"Temperature 2 of 2": "3"}, unit="°F")
    assert "Temperature 2 of 2: You typed 3 °F." in page.work
    bo.press("3 °C (37 °F)")
    assert readings(probed) == ["4 °C", "3 °C"]


def test_the_sign_page_shows_every_reading_open(bo: Hands, probed: Kitchen) -> None:
    """No press opens them: each reading with its line, and Change at each point."""
    at_the_pans(bo, probed)
    reads(bo, "38", "39")
    page = bo.press("Meets it")
    assert not [fold for fold in page.soup.select("main details") if fold.select(".kept-points")]
    points = page.soup.select(".kept-points li")
    assert [bool(point.select_one("a")) for point in points] == [True] * 3
    words = " ".join(points[1].get_text(" ").split())
    assert "Line: at or below 41 °F (at or below 5 °C)" in words
    assert "Meets it: 38 °F, 39 °F" in words


def test_what_is_changed_comes_back_with_its_unit(bo: Hands, probed: Kitchen) -> None:
    """4 °C and 5 °C come back as 4 and 5 with °C pressed, in a house of °F."""
    at_the_pans(bo, probed)
    reads(bo, "4", "5", unit="°C")
    page = bo.open(bo.page.link("Two pans are probed. meets it"))
    assert page.field("Temperature 2 of 2")["value"] == "5"
    assert page.soup.select("input[name=unit][checked]")[0]["value"] == "°C"


def test_two_quick_taps_judge_one_point(bo: Hands, probed: Kitchen) -> None:
    """The second tap falls on a page nobody has seen: it comes again with what was typed, and nothing was judged."""
    at_the_pans(bo, probed)
    bo.looks = lambda: None
    page = reads(bo, "38", "39")
    assert page.status == 400
    assert page.problems == ["That was quick. Did you see it?"]
    assert page.field("Temperature 1 of 2")["value"] == "38"
    assert list(kept(probed)) == ["guard_on"]


def test_a_look_is_long_enough_after_the_first_sending(bo: Hands, probed: Kitchen, clock: Any) -> None:
    """0.8 s after the page was first sent, also where it was sent again meanwhile."""
    at_the_pans(bo, probed)
    bo.looks = lambda: None
    clock.pass_by(seconds=0.7)
    page = reads(bo, "38", "39")
    assert page.problems == ["That was quick. Did you see it?"]
    clock.pass_by(seconds=0.1)
    reads(bo, "38", "39")
    assert "cold" in kept(probed)


def test_a_verdict_on_a_page_never_sent_is_refused(bo: Hands, probed: Kitchen) -> None:
    """Sent straight to a point behind: its page was never on this device."""
    page = at_the_pans(bo, probed)
    bo.page = replace(page, path=page.path)
    form = page.soup.find("form", id="point")
    assert form
    bo.page.response.set_data(str(page.soup).replace(str(form["action"]), str(form["action"])[:-1] + "3"))
    page = bo.press("Save 1 of 2")
    assert page.problems == ["That was quick. Did you see it?"]
    assert "tray" not in kept(probed)


def test_a_stop_waits_for_nothing(bo: Hands, probed: Kitchen) -> None:
    """A person could be hurt: no look is asked for."""
    at_the_pans(bo, probed)
    bo.looks = lambda: None
    bo.press("Stop: unsafe")
    page = bo.press("Yes, it was unsafe")
    assert "Verdict: Stopped" in page.work
