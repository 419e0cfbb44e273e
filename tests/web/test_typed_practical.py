"""A practical by law, result and craft on its pages: the case, a pair, what is said, three sides, a second try."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from tests.kitchen.test_typed_points import LINE, LIST, SAYS
from tests.web.conftest import PIN
from tests.web.hands import Hands, Seen, take_all
from tests.web.kitchen_people import ask, clear, study
from tests.web.small_content import NESTS
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.watching import practicals_by
from trainer.kitchen.technique import ChecklistPart, Instrument, PointChoice

CASES = (PointChoice("raw", "Raw eggs"), PointChoice("pasteurized", "Pasteurized yolk"))
GOOD = {"Temperature 1 of 2": "156", "Time 1 of 2": "18", "Temperature 2 of 2": "160", "Time 2 of 2": "20"}


@pytest.fixture
def typed(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen whose nests are watched by a typed checklist with cases."""
    nests = replace(NESTS, checklist=LIST, scored_needed=1, cases=CASES)
    techniques = MappingProxyType({**kitchen.content.techniques, "nests": nests})
    tools = {"stopwatch": Instrument("stopwatch", "Stopwatch")}
    kitchen.content = replace(kitchen.content, techniques=techniques, instruments=tools)
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    return kitchen


@pytest.fixture
def hazards(bo: Hands, typed: Kitchen) -> Hands:
    """Return Bo, who is about to watch Ana."""
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    return bo


@pytest.fixture
def watching(hazards: Hands) -> Hands:
    """Return Bo at the first point of raw eggs."""
    hazards.press("Raw eggs")
    return hazards


def says(bo: Hands, *said: str, words: str = "Meets it") -> Seen:
    """Tick what was said, and press an answer."""
    return bo.press(words, said=list(said))


def test_the_case_is_picked_before_the_first_point(hazards: Hands) -> None:
    """Without one the page says so; a point's address leads back to it."""
    assert "What is watched here?" in hazards.page.work
    (form,) = hazards.page.soup.select("form#case")
    nothing_picked = {str(field["name"]): str(field["value"]) for field in form.select("input")}
    page = hazards.client.post(str(form["action"]), data=nothing_picked)
    assert "Pick first what is watched here." in page.text
    address = hazards.address.removesuffix("/case")
    assert "What is watched here?" in hazards.open(f"{address}/1").work
    assert hazards.press("Pasteurized yolk").heading == "Says it."


def test_a_pair_has_two_lines_each_with_its_own_readings_and_units(watching: Hands) -> None:
    """A temperature in either degree, a time in seconds or minutes."""
    page = watching.page
    assert "at or above 155 °F" in page.work
    assert "at least 17 s" in page.work
    take_all(watching, {**GOOD, "Temperature 1 of 2": "154"})
    assert "1 of 2 inside the line, 2 needed" in watching.page.problems[0]
    watching.open(str(watching.page.soup.select(".slots a")[0]["href"]))
    metric = {**GOOD, "Temperature 1 of 2": "69", "Temperature 2 of 2": "72", "Time 1 of 2": "1", "Time 2 of 2": "1"}
    page = take_all(watching, metric, unit="°C", unit_2="min")
    assert page.heading == "Says it."


def test_a_reading_of_a_pair_is_asked_back_by_its_own_name(watching: Hands) -> None:
    """An hour on a stopwatch; what was typed beside it goes with it."""
    page = take_all(watching, {**GOOD, "Time 1 of 2": "3600"})
    assert "Time 1 of 2: You typed 3600 s." in page.work
    watching.press("Yes, it was 3600 s (1 h)")
    assert take_all(watching, GOOD).heading == "Says it."


def test_each_page_says_the_type_of_its_point(watching: Hands) -> None:
    """Law, result, craft, at the same place as critical before."""
    pages = [
        watching.page,
        take_all(watching, GOOD),
        says(watching, "heat", "time"),
        watching.press("Just right right"),
        watching.press("Just right right"),
    ]
    found = [page.soup.select(".top-title span b")[0].get_text() for page in pages]
    assert found == ["Law.", "Law.", "Result.", "Craft.", "Craft."]
    assert "With: Stopwatch" in watching.page.work


def test_what_was_ticked_decides_and_stays_ticked(watching: Hands) -> None:
    """Two of three are needed; one is not yet, and the refusal keeps the tick."""
    take_all(watching, GOOD)
    page = watching.page
    assert "2 of 3: meets it." in page.work
    page = says(watching, "heat")
    assert "1 of 2 ticked." in page.problems[0]
    ticked = [box["value"] for box in page.soup.select("input[name=said]") if box.has_attr("checked")]
    assert ticked == ["heat"]
    assert says(watching, "heat", words="Not yet").heading == "Stays open."


def test_of_one_thing_to_be_said_the_verdict_is_all(bo: Hands, typed: Kitchen) -> None:
    """It stands there to be heard, with nothing to tick; "not yet" keeps that it was not said."""
    says_one = replace(SAYS, choices=SAYS.choices[:1], need=1)
    nests = replace(typed.content.techniques["nests"], checklist=(says_one, LINE), cases=(), scored_needed=0)
    typed.content = replace(typed.content, techniques={**typed.content.techniques, "nests": nests})
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    page = bo.follow("Start")
    assert page.soup.select(".expected")[0].get_text() == "155 °F"
    assert not page.soup.select("input[name=said]")
    first = bo.address
    bo.press("Meets it")
    (begun,) = practicals_by(typed, "bo")
    assert (begun.seen["says"].seen, begun.seen["says"].said) == ("meets it", ("heat",))
    bo.open(first)
    bo.press("Not yet")
    (begun,) = practicals_by(typed, "bo")
    assert (begun.seen["says"].seen, begun.seen["says"].said) == ("not yet", ())


def test_a_result_is_made_once_more(watching: Hands, typed: Kitchen) -> None:
    """The record offers the try; the page names it; the spike says which one met it."""
    take_all(watching, GOOD)
    says(watching, "heat", "time")
    watching.press("Too far over")
    watching.press("Too little under")
    watching.press("Meets it")
    record = watching.page
    assert "Not yet: over" in record.work
    watching.follow("One more try point 3")
    assert "The cook made one more: try 2 of 2." in watching.page.work
    watching.press("Just right right")
    page = watching.open(watching.address) if watching.page.heading == "The record as it will be kept" else None
    assert page is not None
    assert "Try 2 of 2." in page.work
    kept = watching.press("Sign", {"Your PIN": PIN})
    assert "Every law and every result met." in kept.work
    assert "1 of 2 craft points met, 1 needed." in kept.work
    assert "Craft: Tastes it, not yet (said: under)" in kept.work
    assert "Raw eggs" in kept.work
    (entry,) = [one for one in typed.file.book.since(0) if one.kind == "practical_watched" and one.cook == "ana"]
    assert entry.body["verdict"] == "meets it"


def test_a_stop_keeps_what_was_ticked(watching: Hands, typed: Kitchen) -> None:
    """It is asked once more, and goes on with all that was typed."""
    take_all(watching, GOOD)
    says(watching, "heat", words="Stop: unsafe")
    boxes = watching.page.soup.select("input[name=said]")
    assert [box["value"] for box in boxes] == ["heat"]
    watching.press("Yes, it was unsafe")
    (draft,) = typed.file.drafts.list("practical")
    point = next(one for one in draft.body["points"] if one["point"] == "says")
    assert (point["looks"][-1]["seen"], point["looks"][-1]["said"]) == ("unsafe", ["heat"])


def test_a_cook_reads_what_is_watched(ana: Hands, typed: Kitchen) -> None:
    """By type, with lines and cases; not the key of what is to be said."""
    study(typed, "dev")
    page = ana.open("/techniques/nests")
    assert "Law: always needed" in page.work
    assert "Craft: 1 of these needed" in page.work
    assert "at or above 155 °F (68 °C)" in page.work
    assert "Watched in one case: Raw eggs, Pasteurized yolk." in page.work
    sheet = ana.open("/techniques/nests/sheet")
    assert "Result: always needed" in sheet.work


def test_a_part_is_picked_and_stands_on_the_record(bo: Hands, typed: Kitchen) -> None:
    """The first one left is offered; the spike says which was watched."""
    parts = (
        ChecklistPart("says", "What is said", ("heat", "says"), 0),
        ChecklistPart("hands", "What is done", ("line", "taste", "spoon"), 1),
    )
    nests = replace(typed.content.techniques["nests"], parts=parts, cases=())
    typed.content = replace(typed.content, techniques={**typed.content.techniques, "nests": nests})
    waiting = bo.open("/ready")
    assert "Left to watch: What is said, What is done" in waiting.work
    page = bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    picked = [box["value"] for box in page.soup.select("input[name=part]") if box.has_attr("checked")]
    assert picked == ["says"]
    assert bo.press("Start", part="hands").heading == "Stays open."
    bo.press("Just right right")
    bo.press("Just right right")
    record = bo.press("Meets it")
    assert "What is done" in record.work
    bo.press("Sign", {"Your PIN": PIN})
    entry = typed.file.book.since(0)[-1]
    assert (entry.kind, entry.body["part"]) == ("practical_watched", ["hands", "What is done"])
