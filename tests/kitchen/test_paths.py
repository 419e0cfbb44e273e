"""Paths: who goes for which station by when, and which cells of the board are blank.

Hand-made cases; that a house sees only what somebody goes for, and not every by-product of shared techniques, is common
practice of training plans (from memory).
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from tests.kitchen.kitchen_for_tests import Scribe, small_content
from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.next_change import next_change
from trainer.kitchen.record import AsKnown

D = date
ON = D(2026, 3, 2)
LATER = D(2026, 3, 20)
"""Cold side and grill share their only technique; the pasta room's two are its own."""


@pytest.fixture
def scribe() -> Scribe:
    """Return a scribe with Ada and Ben, both cooks, and cold sauces read by Ada."""
    scribe = Scribe()
    for cook in ("ada", "ben"):
        scribe.joins(cook, D(2026, 1, 5))
    scribe.reads("ada", "cold_sauces", D(2026, 2, 1))
    return scribe


def goes(scribe: Scribe, cook: str = "ada", station: str = "cold_side", when: date = ON, **more: Any) -> str:
    """Write that a path is opened, to be ready by 1 May."""
    body = {"station": station, "by_day": "2026-05-01", "mentor": "", **more}
    return scribe.write("path_opened", cook, when, body)


def ends(scribe: Scribe, path: str, when: date = LATER, outcome: str = "dropped", cook: str = "ada") -> str:
    """Write that a path is closed."""
    return scribe.write("path_closed", cook, when, {"path": path, "outcome": outcome, "reason": "x"})


def cell(scribe: Scribe, station: str = "cold_side", on: date = ON, cook: str = "ada") -> Clearance:
    """Return a cook's cell."""
    return scribe.clearance(cook, station, on)


def test_a_house_without_paths_sees_what_it_always_saw(scribe: Scribe) -> None:
    """Nothing is blank before the first path: what a cook did for any station is said at all that ask for it."""
    assert [(cell(scribe, name).state, cell(scribe, name).blank) for name in ("cold_side", "pasta_room")] == [
        ("ready to show", False),
        ("not started", False),
    ]


def test_shared_techniques_begin_no_station(scribe: Scribe) -> None:
    """From the day of the first path on, even of somebody else's, a cell nobody goes for is blank, and not before."""
    goes(scribe, "ben", "pasta_room")
    assert (cell(scribe).state, cell(scribe).blank) == ("not started", True)
    assert (cell(scribe, on=ON - timedelta(days=1)).state, cell(scribe, on=ON - timedelta(days=1)).blank) == (
        "ready to show",
        False,
    )
    assert cell(scribe).missing, "what is missing is told all the same"


def test_a_path_shows_what_is_done_for_it(scribe: Scribe) -> None:
    """With an open path the cell says how far its cook has come; the station beside it stays blank."""
    entry = goes(scribe)
    found = cell(scribe)
    assert (found.state, found.blank) == ("ready to show", False)
    assert found.path is not None
    assert (found.path.entry, found.path.by_day) == (entry, D(2026, 5, 1))
    assert cell(scribe, "grill").path is None


def test_a_new_cook_on_a_path_has_not_started_and_is_not_blank(scribe: Scribe) -> None:
    """Not started on a path is said; not started without one is a blank."""
    goes(scribe, "ben")
    found = cell(scribe, cook="ben")
    assert (found.state, found.blank) == ("not started", False)


def test_a_path_closed_leaves_a_blank_from_its_day(scribe: Scribe) -> None:
    """To the day before it is closed the cell stays as it was."""
    ends(scribe, goes(scribe))
    assert not cell(scribe, on=LATER - timedelta(days=1)).blank
    assert (cell(scribe, on=LATER).blank, cell(scribe, on=LATER).path) == (True, None)


def test_the_path_opened_last_takes_the_place_of_the_one_before(scribe: Scribe) -> None:
    """Another day or mentor is a new path; closing it closes the way there, and voiding it brings the old one back."""
    first = goes(scribe)
    second = goes(scribe, when=D(2026, 3, 10), by_day="2026-06-01")
    assert [cell(scribe, on=on).path.entry for on in (ON, LATER)] == [first, second]  # type: ignore[union-attr]
    scribe.voids(second, LATER)
    assert cell(scribe, on=LATER).path.entry == first  # type: ignore[union-attr]


def test_closing_what_was_replaced_closes_nothing(scribe: Scribe) -> None:
    """Only the path that holds is closed."""
    first = goes(scribe)
    goes(scribe, when=D(2026, 3, 10))
    ends(scribe, first)
    assert cell(scribe, on=LATER).path is not None


def test_a_path_voided_as_a_slip_never_was(scribe: Scribe) -> None:
    """With the only path gone from every day the house has no paths, as known now; as known then it had one."""
    entry = goes(scribe, "ben", "pasta_room")
    body = {"entry": entry, "reason": "slip", "counts": "never"}
    scribe.write("entry_voided", "ben", LATER, body)
    assert cell(scribe).blank
    now = clearance_of(
        scribe.people["ada"],
        scribe.content.stations["cold_side"],
        scribe.progress(),
        scribe.content,
        AsKnown(ON, LATER),
    )
    assert (now.state, now.blank) == ("ready to show", False)


@pytest.mark.parametrize("kind", ["read", "quiz", "request", "practical", "shift", "known"])
def test_what_only_that_station_asks_for_begins_it(scribe: Scribe, kind: str) -> None:
    """A cook who has done something of the station's own is learning there, path or not."""
    goes(scribe, "ben")
    said = {"cook": "ada", "station": "pasta_room", "techniques": ["pasta_nesting"], "until": "2026-06-01", "asked": []}
    begin = {
        "read": lambda: scribe.reads("ada", "fresh_pasta", ON),
        "quiz": lambda: scribe.sits("ada", "fresh_pasta", ON, passed=False),
        "request": lambda: scribe.asks("ada", "pasta_nesting", ON),
        "practical": lambda: scribe.watched("ada", "pasta_nesting", ON, "not yet"),
        "shift": lambda: scribe.works("ada", "pasta_room", ON),
        "known": lambda: scribe.write("known_before", "ada", ON, {"basis": "x", "cells": [said]}),
    }
    assert cell(scribe, "pasta_room").blank
    begin[kind]()
    assert not cell(scribe, "pasta_room").blank


def test_what_was_held_is_never_blank(scribe: Scribe) -> None:
    """Cleared once, a cell says cleared, due again or lapsed for ever, path or not."""
    goes(scribe, "ben", "pasta_room")
    scribe.watched("ada", "cold_sauces", D(2026, 2, 3))
    assert cell(scribe).state == "cleared"
    found = cell(scribe, on=D(2027, 6, 1))
    assert (found.state, found.blank) == ("lapsed", False)


def test_what_bars_and_what_takes_off_is_always_said(scribe: Scribe) -> None:
    """A bar and a standing down are no by-products: they are said where nobody goes for the station."""
    goes(scribe, "ben", "pasta_room")
    assert cell(scribe, "grill").state == "not allowed"
    scribe.stands_down("ada", "cold_side", ON)
    assert (cell(scribe).state, cell(scribe).blank) == ("stood down", False)


def test_what_others_share_is_looked_up_in_the_whole_house(scribe: Scribe) -> None:
    """A book without standards, asked about one station alone, knows which others ask for the same."""
    goes(scribe, "ben", "pasta_room")
    assert cell(scribe).blank
    alone = small_content().stations["cold_side"]
    scribe.content = replace(scribe.content, stations={"cold_side": alone})
    assert not cell(scribe).blank


def test_no_day_to_come_changes_a_path(scribe: Scribe) -> None:
    """The day somebody wanted to be ready by passes without a change: nothing but an entry closes a path."""
    goes(scribe)
    person, place = scribe.people["ada"], scribe.content.stations["cold_side"]
    assert next_change(person, place, scribe.progress(), scribe.content, ON) is None
    assert cell(scribe, on=D(2026, 5, 2)).path is not None
