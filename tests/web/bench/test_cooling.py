"""Cooling: the two conditions judged apart, the forecast, and bad lines."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

import pytest

from tests.web.bench.looking import asked, cells, plot_told
from tests.web.hands import Hands, Seen
from tests.web.small_content import CONTENT
from trainer.actions.open_kitchen import Kitchen


def states(page: Seen) -> list[str]:
    """Return the word at each limit."""
    found = [gate.select_one(".band, .big") for gate in page.soup.select(".gate")]
    return [word.get_text(strip=True) for word in found if word is not None]


def test_two_hours_ten_is_missed_though_41_is_met_at_five(ana: Hands) -> None:
    """135 to 70 °F in 2 h 10 min fails even if 41 °F is met at 5 h (FDA Food Code 2022, section 3-501.14(A))."""
    page = asked(ana, "cooling", readings="14:00 135 F\n16:10 70 F\n19:00 41 F")
    assert states(page) == ["Missed", "Met"]
    assert "135 °F (57 °C) to 70 °F (21 °C) within 2 h" in page.work
    assert "It took 2 h 10 min or more. The limit is 2 h." in page.work
    assert "Nobody serves this." in page.work
    assert "Part 3" in page.work


def test_a_pan_that_will_be_late_says_so_in_time_to_act(ana: Hands) -> None:
    """Gap from 55 to 45 °C in half an hour: ln(55/18.1)/0.00669 = 166 min to 70 °F, by hand; the limit is 120.

    So 16:46 by the curve alone: it is inside what is told, and even the earliest is late.
    """
    page = asked(ana, "cooling", readings="14:00 58 C\n14:30 48 C", around="3 C")
    assert states(page) == ["Will be late", "Will be late"]
    assert "comes to 70 °F (21 °C) between 16:" in page.work
    first, last = re.findall(r"between (\d\d:\d\d) and (\d\d:\d\d)", page.work)[0]
    assert first < "16:46" < last
    assert "Act now." in page.work
    assert "through two readings" in page.work


def test_who_decides_stands_on_the_page_before_and_after(ana: Hands) -> None:
    """An estimate, and the local code decides."""
    for page in (ana.open("/bench/cooling"), asked(ana, "cooling", readings="14:00 135 F\n15:00 100 F")):
        assert "Your local code decides; this is an estimate." in page.work
        assert "never says that food is safe" in page.work


def test_the_readings_are_shown_as_understood_and_drawn(ana: Hands) -> None:
    """A bare number is in the kitchen's own degrees; the plot says each reading in words."""
    page = asked(ana, "cooling", readings="2:00 pm 135\n3:00 pm 100")
    assert cells(page, "Readings as understood") == [["14:00", "135 °F (57 °C)"], ["15:00", "100 °F (38 °C)"]]
    assert "15:00: 100 °F (38 °C)" in plot_told(page)
    assert "Type how cold it is" in page.work


@pytest.mark.parametrize(
    ("readings", "word"),
    [
        ("14:00 150 F", "Not begun"),
        ("14:00 120 F", "Not shown"),
        ("14:00 136 F\n14:30 120 F", "Still cooling"),
        ("14:00 136 F\n17:00 60 F", "Not shown"),
    ],
)
def test_every_way_a_limit_can_stand_has_its_word_and_its_act(ana: Hands, readings: str, word: str) -> None:
    """What the log does not show is never called met."""
    page = asked(ana, "cooling", readings=readings)
    assert states(page)[0] == word
    assert all(gate.find("b") for gate in page.soup.select(".gate"))


def test_food_made_at_room_temperature_has_four_hours(ana: Hands) -> None:
    """From when it is made to 41 °F within 4 hours (FDA Food Code 2022, section 3-501.14(B))."""
    made = "10:00 70 F\n13:30 45 F\n"
    for end, word in (("14:00 41 F", "Met"), ("14:01 41 F", "Missed")):
        page = asked(ana, "cooling", start="room", readings=made + end)
        assert states(page) == [word]
    assert "41 °F (5 °C) within 4 h of being made" in page.work
    assert "It took 4 h 1 min or more. The limit is 4 h." in page.work
    assert "The clock begins with your first reading." in page.work
    assert page.soup.select_one("option[selected]")["value"] == "room"  # type: ignore[index]


def test_room_made_food_has_its_forecast(ana: Hands) -> None:
    """By hand: a gap of 32 °F to the fridge that halves each hour is 3 °F after log2(32/3) = 3.42 h, within 4 h.

    But an open pan left to stand may take longer than 4 h: it is not called on course. One just above freezing is.
    """
    page = asked(ana, "cooling", start="room", readings="0 70 F\n60 54 F", around="38 F")
    assert states(page) == ["May be late"]
    assert "Act as if it were late." in page.work
    known = {"depth": "1 in", "cover": "covered", "stirring": "stirred"}
    iced = asked(ana, "cooling", start="room", readings="0 70 F\n60 54 F", around="33 F", **known)
    assert states(iced) == ["On course"]


@pytest.mark.parametrize(("depth", "says"), [("0 in", "is nothing"), ("2 cups", "is not a length"), ("deep", "“deep”")])
def test_a_depth_that_is_none_is_told(ana: Hands, depth: str, says: str) -> None:
    """The value and the rule are named, and everything typed is kept."""
    page = asked(ana, "cooling", readings="0 135 F\n30 100 F", around="38 F", depth=depth)
    assert any(says in problem for problem in page.problems), page.problems
    assert states(page) == []


def test_a_log_in_celsius_is_judged_by_the_figures_the_code_prints(ana: Hands) -> None:
    """FDA Food Code 2022, section 3-501.14(A): 57 °C, 21 °C and 5 °C; the clock has begun at 57 °C."""
    assert states(asked(ana, "cooling", readings="14:00 57 C\n16:00 21 C\n20:00 5 C")) == ["Met", "Met"]
    assert states(asked(ana, "cooling", readings="14:00 57 C\n16:01 21 C\n20:01 5 C")) == ["Missed", "Missed"]


def test_what_was_hot_is_never_given_the_longer_time(ana: Hands) -> None:
    """A reading as hot as cooked food is no room temperature: it is said, and nothing is judged."""
    page = asked(ana, "cooling", start="room", readings="10:00 140 F\n11:00 70 F")
    assert page.status == 400
    assert any("140 °F (60 °C) is no room temperature" in problem for problem in page.problems)
    assert states(page) == []


def test_an_address_without_the_choice_is_judged_as_hot_food(ana: Hands) -> None:
    """The stricter limits hold where nobody chose."""
    assert len(states(asked(ana, "cooling", readings="14:00 135 F\n15:00 100 F"))) == 2


def test_surroundings_too_warm_are_told(ana: Hands) -> None:
    """Toward 50 °F food never comes to 41 °F."""
    page = asked(ana, "cooling", readings="0 136 F\n10 110 F", around="50 F")
    assert "It never gets to 41 °F (5 °C)" in page.work


BAD_LOGS: dict[str, tuple[Mapping[str, str], str]] = {
    "words": ({"readings": "14:00 hot"}, "Line 1, “14:00 hot”"),
    "backwards": ({"readings": "14:00 135 F\n13:00 70 F"}, "Line 2, “13:00 70 F”: It is not later"),
    "no such hour": ({"readings": "25:00 135 F"}, "25:00 is no time of day"),
    "surroundings in words": ({"readings": "14:00 135 F", "around": "cold"}, "“cold”"),
    "surroundings alone": ({"readings": "", "around": "38 F"}, "Readings is empty."),
    "blanks": ({"readings": " \n ", "around": "38 F"}, "Readings is empty."),
    "a book": ({"readings": "14:00 135 F\n" * 500}, "At most"),
    "a drawing": ({"readings": "🍝" * 40}, "Line 1"),
}


@pytest.mark.parametrize(("typed", "says"), BAD_LOGS.values(), ids=BAD_LOGS)
def test_a_bad_line_is_told_and_the_log_is_kept(ana: Hands, typed: Mapping[str, str], says: str) -> None:
    """The line is named by number; every line stays as typed; nothing is judged."""
    page = asked(ana, "cooling", **typed)
    assert page.status == 400
    assert any(says in problem for problem in page.problems), page.problems
    assert page.field("Readings").get_text().strip() == typed["readings"].strip()
    assert states(page) == []


def test_bad_lines_and_bad_surroundings_are_told_together(ana: Hands) -> None:
    """Nobody fixes one thing to be told of the next."""
    page = asked(ana, "cooling", readings="14:00 hot\n25:00 41 F", around="cold")
    assert len(page.problems) == 3


def test_a_code_without_limits_for_cooling_judges_nothing(ana: Hands, kitchen: Kitchen) -> None:
    """Without limits the page says so, and makes none up."""
    kitchen.content = replace(kitchen.content, code=CONTENT.code)
    page = asked(ana, "cooling", readings="14:00 135 F\n16:10 70 F")
    assert "has no limits for cooling" in page.work
    assert states(page) == []


@pytest.mark.parametrize(
    ("units", "says"),
    [
        ("us", (r"lies [\d.]+ °F \([\d.]+ °C\) off it", "-76 °F (-60 °C) to 572 °F (300 °C)", "at 120 °F (48.9 °C)")),
        (
            "metric",
            (r"lies [\d.]+ °C \([\d.]+ °F\) off it", "-60 °C (-76 °F) to 300 °C (572 °F)", "at 48.9 °C (120 °F)"),
        ),
    ],
)
def test_every_reason_gives_the_kitchens_own_units_first(
    ana: Hands, kitchen: Kitchen, units: Literal["us", "metric"], says: tuple[str, str, str]
) -> None:
    """How far the curve lies off, what cannot be measured, and what the food must be warmer than."""
    kitchen.file.change_settings(replace(kitchen.file.settings, units_first=units))
    miss, bounds, around = says
    moved = asked(ana, "cooling", readings="0 57 C\n60 50 C\n70 20 C\n80 8 C", around="1 C")
    assert re.search(miss, moved.work)
    assert any(bounds in problem for problem in asked(ana, "cooling", readings="0 400 C").problems)
    assert f"surroundings {around}" in asked(ana, "cooling", readings="0 135 F\n30 100 F", around="120 F").work


def test_how_far_the_curve_can_be_trusted_is_told(ana: Hands) -> None:
    """A pan moved to ice half way follows no one curve: little is expected of it, and none is drawn."""
    moved = asked(ana, "cooling", readings="0 57 C\n60 50 C\n70 20 C\n80 8 C", around="1 C")
    assert "expect little from it" in moved.work
    assert moved.soup.select("svg.plot polyline") == []
    steady = asked(ana, "cooling", readings="0 135 F\n30 118.7 F\n60 105 F", around="38 F")
    assert "of 3 readings lies" in steady.work
    assert "expect little" not in steady.work
    assert len(steady.soup.select("svg.plot polyline")) == 2  # the earliest and the latest way
