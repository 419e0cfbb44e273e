"""A practical that cannot lie: what a hurried, a wrong or an interrupted hand may send, and what is kept of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType
from typing import Any

import pytest

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import ask, clear
from tests.web.small_content import NESTS
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import Limit, Point
from trainer.recipe_math.quantity import Quantity

GUARD, WEIGHED, LAST = NESTS.checklist
COLD = Limit("cold_holding", None, Quantity.of(41, "°F"), None, "house")
WASH = Limit("handwash", Quantity.of(20, "s"), None, None, "house")
PANS = Point("cold", "Two pans are probed.", True, "measured", COLD, 2, 2)
WASHED = Point("washed", "Washes hands.", True, "timed", WASH)
READINGS = ("4.5", "128 g", "4 1/2 oz", "4.4", "4.6")


def teach(kitchen: Kitchen, *points: Point) -> None:
    """Let the nests be watched by these points."""
    nests = replace(kitchen.content.techniques["nests"], checklist=points)
    kitchen.content = replace(
        kitchen.content, techniques=MappingProxyType({**kitchen.content.techniques, "nests": nests})
    )


def at_the_first(bo: Hands, kitchen: Kitchen) -> Seen:
    """Let Bo watch Ana at the first point."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    return bo.follow("Start")


def come_back(sign_in: Callable[[str], Hands]) -> Hands:
    """Return Bo at another browser, back where the practical was left."""
    bo = sign_in("bo")
    bo.open("/ready")
    page = bo.follow("Go on")
    bo.open(str(page.soup.select(".bar .enamel")[0]["href"]))
    return bo


def kept(kitchen: Kitchen) -> list[str]:
    """Return what the draft holds: a word a point that was judged, and every reading taken."""
    (draft,) = kitchen.file.drafts.list("practical")
    found: list[str] = []
    for point in draft.body["points"]:
        found += [text for text in point.get("gathered", ()) if text]
        for look in point["looks"]:
            found += [one[2] for one in look.get("readings", ())]
            found.append(look["seen"])
    return found


def asked_back(kitchen: Kitchen) -> list[tuple[str, str]]:
    """Return what was asked back in the signed practical: as it was read first, and what was kept."""
    entry = next(e for e in kitchen.file.book.of_kind("practical_watched") if e.cook == "ana")
    readings = [one for point in entry.body["points"] for look in point["looks"] for one in look.get("readings", ())]
    return [(ways[0], one[2]) for one in readings if len(one) > 3 for ways in one[3]]


def test_a_browser_killed_at_any_tap_loses_nothing(sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """After every tap the browser is thrown away; another one goes on behind what was seen last."""
    at_the_first(sign_in("bo"), kitchen)
    taps: list[tuple[str, dict[str, Any], list[str]]] = [("Meets it", {}, ["meets it"])]
    units = ("4.5 oz", "128 g", "4 1/2 oz", "4.4 oz", "4.6 oz")
    for number, (text, with_unit) in enumerate(zip(READINGS, units, strict=True), 1):
        words = f"Save {number} of 5" if number < 5 else "Meets it"
        taps.append((words, {f"reading_{number}": text}, [with_unit] + (["meets it"] if number == 5 else [])))
    taps.append(("Meets it", {}, ["meets it"]))
    seen: list[str] = []
    for words, typed, more in taps:
        come_back(sign_in).press(words, **typed)
        seen += more
        assert kept(kitchen) == seen
    page = come_back(sign_in).press("Sign", {"Your PIN": PIN})
    assert "Meets it: 4.5 oz, 128 g, 4 1/2 oz, 4.4 oz, 4.6 oz" in page.work


def test_one_piece_a_page_with_what_was_read_above_it(bo: Hands, kitchen: Kitchen) -> None:
    """Each slot is a way back to its piece, which comes with its reading; the verdict waits for the last."""
    at_the_first(bo, kitchen)
    bo.press("Meets it")
    bo.press("Save 1 of 5", reading_1="4.5")
    page = bo.press("Save 2 of 5", reading_2="9 oz")
    slots = [" ".join(slot.get_text(" ").split()) for slot in page.soup.select(".slots a")]
    assert slots == ["1 of 5 4.5 oz", "2 of 5 9 oz", "3 of 5", "4 of 5", "5 of 5"]
    assert [a for a in page.soup.select("button") if a.get("name") == "seen" and a["value"] != "unsafe"] == []
    page = bo.open(str(page.soup.select(".slots a")[1]["href"]))
    assert page.field("Weight 2 of 5")["value"] == "9"
    bo.press("Save 2 of 5", reading_2="4.6")
    bo.press("Save 3 of 5", reading_3="4.5")
    bo.press("Save 4 of 5", reading_4="4.5")
    bo.press("Meets it", reading_5="4.5")
    assert kept(kitchen)[1:6] == ["4.5 oz", "4.6 oz", "4.5 oz", "4.5 oz", "4.5 oz"]


def test_a_second_tap_on_save_keeps_no_reading(bo: Hands, kitchen: Kitchen) -> None:
    """It falls on the next piece, where nothing is keyed in: refused by name, and the first stays."""
    at_the_first(bo, kitchen)
    bo.press("Meets it")
    bo.press("Save 1 of 5", reading_1="4.5")
    assert "the reading is missing" in bo.press("Save 2 of 5").problems[0]
    assert kept(kitchen) == ["meets it", "4.5 oz"]


def test_a_verdict_before_the_last_piece_is_refused(bo: Hands, kitchen: Kitchen) -> None:
    """A page of before, sent by hand: four of five are no verdict."""
    at_the_first(bo, kitchen)
    bo.press("Meets it")
    bo.press("Save 1 of 5", reading_1="4.5")
    page = bo.press("Save 2 of 5", reading_2="4.5", seen="meets it")
    assert "2 of 5 readings: take 5." in page.problems[0]
    assert kept(kitchen) == ["meets it", "4.5 oz"]


def test_readings_nobody_judged_say_so_in_the_record(bo: Hands, kitchen: Kitchen) -> None:
    """Ended in the middle of five nests: not looked at, and the two readings stand there all the same."""
    at_the_first(bo, kitchen)
    bo.press("Not yet")
    bo.press("Save 1 of 5", reading_1="4.5")
    page = bo.press("Save 2 of 5", reading_2="9 oz")
    page = bo.open(page.link("End here and sign what I saw"))
    told = "Read and not judged: 4.5 oz; 9 oz."
    assert told in page.work
    page = bo.press("Sign", {"Your PIN": PIN})
    assert told in page.work
    assert "Not looked at" in page.work


def test_celsius_typed_under_fahrenheit_is_asked_before_it_is_judged(bo: Hands, kitchen: Kitchen) -> None:
    """4 and 3 with °F pressed would pass a line of 41 °F; nothing is kept as such until a person says which."""
    teach(kitchen, GUARD, PANS, LAST)
    at_the_first(bo, kitchen)
    bo.press("Meets it")
    page = bo.press("Save 1 of 2", reading_1="4")
    assert "You typed 4 °F." in page.work
    assert kept(kitchen) == ["meets it"]
    bo.press("4 °C (39 °F)")
    bo.press("Meets it", reading_2="38", unit="°F")
    assert kept(kitchen) == ["meets it", "4 °C", "38 °F", "meets it"]
    bo.press("Meets it")
    bo.press("Sign", {"Your PIN": PIN})
    assert asked_back(kitchen) == [("4 °F", "4 °C")]


def test_a_browser_killed_while_asked_back_still_asks(
    bo: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen
) -> None:
    """721 °F, and the battery is empty: the piece is still to be read, and the record says what was typed first."""
    teach(kitchen, GUARD, PANS, LAST)
    at_the_first(bo, kitchen)
    bo.press("Meets it")
    bo.press("Save 1 of 2", reading_1="38")
    bo.press("Meets it", reading_2="721")
    again = come_back(sign_in)
    assert again.page.field("Temperature 2 of 2").get("value", "") == ""
    again.press("Meets it", reading_2="39")
    again.press("Meets it")
    again.press("Sign", {"Your PIN": PIN})
    assert asked_back(kitchen) == [("721 °F", "39 °F")]


@pytest.mark.parametrize("typed", ["99999", "99999 s", "27:46:39", "1667 min"])
def test_a_day_on_a_stopwatch_is_asked_back(bo: Hands, kitchen: Kitchen, typed: str) -> None:
    """Nobody washes hands for 27 hours: at least 20 s would have passed it."""
    teach(kitchen, WASHED, GUARD, LAST)
    at_the_first(bo, kitchen)
    page = bo.press("Meets it", reading_1=typed)
    assert page.heading == "Is that what you read?"
    assert kept(kitchen) == []


@pytest.mark.parametrize(
    ("typed", "reading"),
    [("4 grados C", "4 grados C"), ("4C", "4C"), ("39 F", "39 F"), (" 39\t", "39 °F"), ("39,5", "39,5 °F")],
)
def test_a_reading_pasted_with_its_unit_is_held_to_that_unit(
    bo: Hands, kitchen: Kitchen, typed: str, reading: str
) -> None:
    """Whatever key is pressed, the unit that stands there counts, and the record keeps the text."""
    teach(kitchen, PANS, GUARD, LAST)
    at_the_first(bo, kitchen)
    bo.press("Save 1 of 2", reading_1=typed)
    assert kept(kitchen) == [reading]


NO_READINGS = ("cuarenta", "forty", "39 lb", "about 39", "39 °F 38 °F", "NaN", "1e1", "15 5", "39 (pan)")


@pytest.mark.parametrize("typed", NO_READINGS)
def test_a_reading_that_is_none_is_refused_and_stays(bo: Hands, kitchen: Kitchen, typed: str) -> None:
    """Words, another kind of unit, two numbers: the sentence says the rule, and what was typed comes back."""
    teach(kitchen, PANS, GUARD, LAST)
    at_the_first(bo, kitchen)
    page = bo.press("Save 1 of 2", reading_1=typed)
    assert page.status == 400
    assert len(page.problems) == 1
    assert page.field("Temperature 1 of 2")["value"] == typed
    assert kept(kitchen) == []


def test_left_open_over_midnight_each_look_keeps_its_own_day(
    bo: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """Begun at noon, gone on with after midnight: the looks say when, the signature has the new day."""
    at_the_first(bo, kitchen)
    bo.press("Meets it")
    bo.press("Save 1 of 5", reading_1="4.5")
    clock.pass_by(hours=13)
    again = come_back(sign_in)
    for number in (2, 3, 4):
        again.press(f"Save {number} of 5", {f"Weight {number} of 5": "4.5"})
    again.press("Meets it", reading_5="4.5")
    again.press("Meets it")
    again.press("Sign", {"Your PIN": PIN})
    entry = next(e for e in kitchen.file.book.of_kind("practical_watched") if e.cook == "ana")
    days = [point["looks"][0]["at"][:10] for point in entry.body["points"]]
    assert (days, entry.day.isoformat()) == (["2026-11-03", "2026-11-04", "2026-11-04"], "2026-11-04")


@pytest.mark.parametrize("pieces", [3, 7])
def test_left_open_over_a_new_checklist_nothing_of_it_is_judged(
    bo: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen, pieces: int
) -> None:
    """Five nests are three now, or seven: the page opens, says so, and keeps no reading for the old ones."""
    at_the_first(bo, kitchen)
    bo.press("Meets it")
    bo.press("Save 1 of 5", reading_1="4.5")
    teach(kitchen, GUARD, replace(WEIGHED, pieces=pieces, pieces_inside=2), LAST)
    again = come_back(sign_in)
    page = again.press(f"Save 1 of {pieces}", reading_1="4.5")
    assert "has changed since you began" in page.problems[0]
    assert kept(kitchen) == ["meets it", "4.5 oz"]
