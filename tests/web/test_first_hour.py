"""The first hour and the settings, as a manager meets them."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from tests.web.conftest import Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear
from trainer.actions.kitchen_settings import change_settings
from trainer.actions.open_kitchen import Kitchen

KEPT: dict[str, Any] = {"language": "en", "decimal_mark": ".", "currency": "USD"}
NAME, ZONE = "Name of the kitchen", "Time zone"


def steps(page: Seen) -> list[str]:
    """Return the steps as they are read."""
    return [" ".join(one.get_text(" ").split()) for one in page.soup.select(".first-steps > li")]


def test_the_list_says_what_is_done_and_what_is_next(cleo: Hands) -> None:
    """In order, each a link to where it is done."""
    cleo.open("/board")
    page = cleo.follow("The first hour")
    found = steps(page)
    assert [re.split(r" (Done|Next|Not|\d of)", one)[0] for one in found] == [
        "People on the roster",
        "A tablet or phone for everybody",
        "Somebody who assesses",
        "Who may sign at which station",
        "Known from before",
        "Services of the week",
        "The first plan",
        "The first clearance",
    ]
    assert "3 of 8 steps are done. Next: Who may sign at which station." in page.work
    assert found[0] == "People on the roster Done: 3"
    assert "Next , about 5 minutes" in found[3]
    assert cleo.follow("Services of the week").heading == "Services of the week"


def test_once_somebody_was_watched_it_leaves_the_board(cleo: Hands, kitchen: Kitchen) -> None:
    """The page stays."""
    clear(kitchen, "bo")
    assert "The first hour" not in cleo.open("/board").work
    assert "The first clearance Done: 1" in steps(cleo.open("/first-hour"))[-1]


def test_a_cook_has_no_first_hour(ana: Hands) -> None:
    """It is the manager's."""
    assert ana.open("/first-hour").status == 403


def test_a_change_of_settings_is_shown_before_it_is_saved(cleo: Hands, kitchen: Kitchen) -> None:
    """What it does stands there in words; only the second press writes."""
    before = kitchen.file.book.end()[0]
    cleo.open("/settings")
    page = cleo.press("Show what changes", {ZONE: "America/Chicago"}, units_first="metric", **KEPT)
    assert "Time zone: America/New_York → America/Chicago. It is 11:00 on Tue 3 Nov 2026 there." in page.work
    assert "Units: lb, oz, quarts, °F first → g, l, °C first." in page.work
    assert "Nothing is saved yet." in page.work
    assert kitchen.file.book.end()[0] == before
    page = cleo.press("Save this change", units_first="metric", **KEPT)
    assert page.status == 200
    assert (kitchen.file.settings.timezone, kitchen.file.settings.units_first) == ("America/Chicago", "metric")
    assert kitchen.file.book.of_kind("kitchen_set")[-1].by == "cleo"


def test_a_wrong_zone_and_no_name_are_told_and_stay_typed(cleo: Hands, kitchen: Kitchen) -> None:
    """With the nearest zone; nothing is written."""
    cleo.open("/settings")
    page = cleo.press("Show what changes", {NAME: "", ZONE: "America/New York City"}, units_first="us", **KEPT)
    assert page.status == 400
    assert page.problems == [
        "Write the name of the kitchen.",
        "There is no time zone “America/New York City”. Did you mean America/New_York?",
    ]
    assert page.field(ZONE)["value"] == "America/New York City"
    fill = {NAME: "Corner Kitchen", ZONE: "Nowhere", "Currency": "euro"}
    page = cleo.press("Show what changes", fill, units_first="us", language="en", decimal_mark=".")
    assert page.problems == [
        "There is no time zone “Nowhere”. Write it like America/New_York.",
        "There is no currency “euro”. Write its three capital letters, such as USD.",
    ]
    assert not kitchen.file.book.of_kind("kitchen_set")


def test_another_change_than_the_one_shown_is_not_saved(cleo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Typed over after it was shown, or changed by somebody else meanwhile: it is shown anew."""
    cleo.open("/settings")
    cleo.press("Show what changes", {NAME: "Green Door"}, units_first="us", **KEPT)
    page = cleo.press("Save this change", {NAME: "Blue Door"}, units_first="us", **KEPT)
    assert "This is not the change that was shown." in page.problems[0]
    assert "Name: Corner Kitchen → Blue Door." in page.work
    other = replace(kitchen.file.settings, name="Red Door")
    change_settings(kitchen, settings=other, now=clock(), key="other")
    page = cleo.press("Save this change", units_first="us", **KEPT)
    assert "Name: Red Door → Blue Door." in page.work
    assert kitchen.file.settings.name == "Red Door"


def test_what_is_set_already_is_no_change(cleo: Hands) -> None:
    """It says so."""
    cleo.open("/settings")
    page = cleo.press("Show what changes", units_first="us", **KEPT)
    assert page.problems == ["These are the kitchen's settings already."]
