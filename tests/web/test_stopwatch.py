"""An assessor's stopwatches: at the point, in the band of every other page, and in the record as they were read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType

import pytest

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import ask, clear, study
from tests.web.small_content import NESTS
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.technique import Limit, Point
from trainer.recipe_math.parsing import parse_quantity

WASH = Limit("wash", parse_quantity("20 s"), None, None, "house")
COOL = Limit("cool", None, parse_quantity("2 h"), None, "house")
HOT = Limit("hot", parse_quantity("155 F"), None, None, "house")
LIST = (
    Point("hands", "Hands are washed.", True, "timed", WASH, type="law"),
    Point("tray", "The tray cools.", True, "timed", COOL, type="law"),
    Point("held", "It holds.", True, "pair", HOT, type="law", then=WASH),
    Point("neat", "It is neat.", False, "ticked", None, type="craft"),
)


@pytest.fixture
def bo_at_nests(bo: Hands, kitchen: Kitchen) -> Hands:
    """Return Bo, who watches Ana at the first point of four, three of them timed."""
    nests = replace(NESTS, checklist=LIST, scored_needed=1)
    kitchen.content = replace(
        kitchen.content, techniques=MappingProxyType({**kitchen.content.techniques, "nests": nests})
    )
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    bo.follow("Start")
    return bo


def at(bo: Hands, number: int) -> Seen:
    """Open a point of the practical Bo is at."""
    practical = bo.address.split("/")[2]
    return bo.open(f"/practicals/{practical}/{number}")


def record(bo: Hands) -> Seen:
    """Open the record of the practical Bo is at."""
    return bo.open(f"/practicals/{bo.address.split('/')[2]}/record")


def test_the_reading_is_filled_in_from_the_watch(bo_at_nests: Hands, clock: Clock) -> None:
    """Start, stop, and the verdict; the record says that the watch timed it."""
    bo = bo_at_nests
    bo.press("Start the watch")
    clock.pass_by(seconds=22.4)
    page = bo.press("Stop the watch")
    assert "as timed by the watch" in page.work
    assert page.field("Time")["value"] == "23"  # a second goes by before a page is pressed
    assert bo.press("Meets it").heading == "The tray cools."
    assert "Meets it: 23 s, by the watch" in record(bo).work


def test_timed_by_hand_is_marked_so(bo_at_nests: Hands, clock: Clock) -> None:
    """Whoever has a watch of their own keys the time in; so does whoever corrects what the watch showed."""
    bo = bo_at_nests
    assert "I timed it by hand" in bo.page.work
    bo.press("Meets it", {"Time": "21"})
    assert "Meets it: 21 s, by hand" in record(bo).work
    at(bo, 2)
    bo.press("Start the watch")
    clock.pass_by(minutes=12)
    bo.press("Stop the watch")
    bo.press("Meets it", {"Time": "11"}, unit="min")
    assert "Meets it: 11 min, by hand" in record(bo).work


def test_the_keys_of_hours_are_there_at_once(bo_at_nests: Hands, clock: Clock) -> None:
    """Two hours are read off a label, or timed beside other points; of seconds the watch comes first."""
    bo = bo_at_nests
    assert bo.page.soup.select(".by-hand .readout")
    assert bo.page.soup.select(".bar button[name=watch]")
    for words in ("Start the watch", "Stop the watch"):
        page = at(bo, 2)
        assert page.soup.select(".readout")
        assert not page.soup.select(".by-hand, .bar button[name=watch]")
        assert [button.get_text() for button in page.soup.select(".bar button")] == ["Meets it", "Not yet"]
        bo.press(words)
        clock.pass_by(minutes=12)
    assert str(bo.page.field("Time")["value"]).startswith("12 min")
    assert bo.press("Meets it").heading == "It holds."


def test_several_run_at_once_for_hours_through_page_turns(
    bo_at_nests: Hands, sign_in: Callable[[str], Hands], clock: Clock
) -> None:
    """Another point is watched while the tray cools, after signing in again: its watch stands above that page."""
    at(bo_at_nests, 2)
    page = bo_at_nests.press("Start the watch")
    assert page.running == ""
    clock.pass_by(minutes=98)
    bo = sign_in("bo")
    page = bo.open(f"/practicals/{bo_at_nests.address.split('/')[2]}/1")
    assert page.running == "Point 2: Ana Pardo since 12:00:01 Stop Judge it"
    bo.press("Start the watch")
    assert bo.open("/board").clocks == ["Point 2: Ana Pardo and 1 more", "Point 1: Ana Pardo"]
    assert bo.open("/clocks").work.count("Stop") == 2
    clock.pass_by(minutes=5)
    assert "since 12:00:01" in bo.open(str(bo.page.soup.select(".what")[0]["href"])).work


def test_stopped_from_the_band_it_waits_to_be_judged(bo_at_nests: Hands, clock: Clock) -> None:
    """The page that was open stays; the reading stands at its point, until that was looked at."""
    bo = bo_at_nests
    at(bo, 2)
    bo.press("Start the watch")
    clock.pass_by(minutes=11, seconds=5)
    at(bo, 4)
    address = bo.address
    page = bo.press("Stop")
    assert bo.address == address
    assert page.running == "Point 2: Ana Pardo 11 min 6 s Judge it"
    page = bo.follow("Judge it")
    assert page.field("Time")["value"] == "11 min 6 s"
    assert "Point 2" not in bo.press("Meets it").running
    assert "11 min 6 s, by the watch" in record(bo).work


def test_of_a_pair_what_is_typed_stays_while_the_watch_is_pressed(bo_at_nests: Hands, clock: Clock) -> None:
    """The probe was read and a note written: starting and stopping the watch loses neither."""
    bo = bo_at_nests
    at(bo, 3)
    page = bo.press("Start the watch", {"Temperature": "69", "Note": "Two probes."}, unit="°C")
    assert "Two probes." in str(page.field("Note"))
    clock.pass_by(seconds=20)
    page = bo.press("Stop the watch", unit="°C")
    assert (page.field("Temperature")["value"], page.field("Time")["value"]) == ("69", "21")
    bo.press("Meets it", unit="°C")
    assert "69 °C; 21 s, by the watch" in record(bo).work


def test_two_taps_of_one_finger_neither_stop_nor_judge(bo_at_nests: Hands, clock: Clock) -> None:
    """The watch that has just started goes on; a verdict right after it stopped was for the button before."""
    bo = bo_at_nests
    bo.press("Start the watch")
    bo.looks = lambda: None
    page = bo.press("Stop the watch")
    assert "Stop the watch" in page.work
    clock.pass_by(seconds=25)
    bo.press("Stop the watch")
    assert bo.press("Meets it").problems == ["That was quick. Did you see it?"]
    clock.pass_by(seconds=1)
    assert bo.press("Meets it").heading == "The tray cools."


def test_started_again_it_begins_at_nothing(bo_at_nests: Hands, clock: Clock) -> None:
    """A false start counts for nothing."""
    bo = bo_at_nests
    bo.press("Start the watch")
    bo.press("Stop the watch")
    page = bo.press("Start again")
    assert page.field("Time").get("value", "") == ""
    clock.pass_by(seconds=30)
    assert bo.press("Stop the watch").field("Time")["value"] == "31"


def test_it_goes_with_the_practical(bo_at_nests: Hands, kitchen: Kitchen) -> None:
    """Put away, nothing of it is left above a page; a watch that is not there cannot be pressed."""
    bo = bo_at_nests
    bo.press("Start the watch")
    practical = bo.address.split("/")[2]
    page = at(bo, 4)
    token = page.soup.select_one("input[name=csrf_token]")
    assert token is not None
    sent = {"csrf_token": token["value"], "key": "one", "clock": "0", "then": "/ready"}
    assert bo.client.post(f"/practicals/{practical}/4/watch", data=sent).status_code == 303
    assert bo.client.post(f"/practicals/{practical}/1/watch", data={**sent, "clock": "x"}).status_code == 404
    kitchen.file.drafts.delete(practical)
    assert bo.open("/ready").running == ""


def test_the_book_says_how_each_time_was_taken(bo_at_nests: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Signed, the entry keeps it beside the readings, and the page of the record tells it for ever."""
    bo = bo_at_nests
    study(kitchen, "ana")
    bo.press("Start the watch")
    clock.pass_by(seconds=24)
    bo.press("Stop the watch")
    bo.press("Meets it")
    bo.press("Meets it", {"Time": "97"}, unit="min")
    bo.press("Meets it", {"Temperature": "160", "Time": "20"})
    bo.press("Meets it")
    page = bo.press("Sign", {"Your PIN": PIN})
    entry = kitchen.file.book.of_kind("practical_watched")[-1]
    assert [look.get("timed") for point in entry.body["points"] for look in point["looks"]] == [
        ["watch"],
        ["hand"],
        ["", "hand"],
        None,
    ]
    for words in ("25 s, by the watch", "97 min, by hand", "160 °F; 20 s, by hand"):
        assert words in bo.open(f"/practicals/kept/{entry.id}").work, page.work
