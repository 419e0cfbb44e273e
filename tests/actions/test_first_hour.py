"""The first hour: what is done and what comes next, from an empty book to the first clearance by watching."""

from __future__ import annotations

from tests.actions.crew import TODAY, Crew, saved
from tests.actions.test_planning import DINNER, publish, rows, set_week
from trainer.actions.first_hour import first_hour, is_under_way


def done(crew: Crew) -> set[str]:
    """Return what is done."""
    return {one.what for one in first_hour(crew.k, TODAY) if one.is_done}


def test_the_steps_stand_in_their_order(crew: Crew) -> None:
    """People come first, the clearance last; two may wait."""
    steps = first_hour(crew.k, TODAY)
    assert [one.what for one in steps] == [
        "people",
        "device",
        "assessor",
        "signers",
        "known",
        "services",
        "plan",
        "clearance",
    ]
    assert [one.what for one in steps if one.may_wait] == ["known", "services"]


def test_each_step_is_ticked_by_what_was_done(crew: Crew) -> None:
    """The crew has people, an assessor and, on the cold side, somebody cleared; the rest follows one by one."""
    assert done(crew) == {"people", "assessor", "clearance"}
    crew.k.file.devices.enrol("Pass tablet", "mara", crew.now)
    assert done(crew) >= {"device"}
    saved(set_week(crew, weekly=[DINNER | {"weekday": 1}]))
    rows(crew, (TODAY, "sous", "cold_side"))
    saved(publish(crew, TODAY, TODAY))
    assert done(crew) == {"people", "device", "assessor", "services", "plan", "clearance"}


def test_who_may_sign_is_counted_for_the_stations_somebody_goes_for(crew: Crew) -> None:
    """With no path every station counts; with one, that station alone. Sous may sign on the cold side."""
    signed = {one.what: one for one in first_hour(crew.k, TODAY)}["signers"]
    assert (signed.number, signed.of, signed.is_done) == (1, len(crew.k.content.stations), False)
    crew.write("path_opened", "ada", {"station": "cold_side", "by_day": "2026-04-01", "mentor": ""})
    signed = {one.what: one for one in first_hour(crew.k, TODAY)}["signers"]
    assert (signed.number, signed.of, signed.is_done) == (1, 1, True)


def test_what_is_known_from_before_is_no_first_clearance(crew: Crew) -> None:
    """An honest clearance was watched: a cell that is only known does not tick it."""
    cell = {"cook": "ada", "station": "cold_side", "techniques": ["cold_sauces"], "until": "2026-05-01", "asked": []}
    before = {one.what: one.number for one in first_hour(crew.k, TODAY)}["clearance"]
    crew.write("known_before", "ada", {"cells": [cell], "basis": "x"})
    steps = {one.what: one for one in first_hour(crew.k, TODAY)}
    assert (steps["known"].number, steps["clearance"].number) == (1, before)


def test_it_is_under_way_until_a_plan_or_a_clearance(crew: Crew) -> None:
    """The crew has a clearance: the list is on its own page, and no longer on the board."""
    assert not is_under_way(crew.k, TODAY)
    crew.write("cook_left", "sous", {"reason": "x"})
    assert is_under_way(crew.k, TODAY)
