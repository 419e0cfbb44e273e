"""The first hour of a kitchen: what comes next before anybody is cleared, in order, and what of it is done."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from trainer.actions.covering import days_planned
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.entitlement import Snapshot, signers
from trainer.kitchen.open_paths import all_paths
from trainer.kitchen.planned import LOOK_AHEAD
from trainer.kitchen.roles import works_a_station

What = Literal["people", "device", "assessor", "signers", "known", "services", "plan", "clearance"]


@dataclass(frozen=True, slots=True)
class FirstStep:
    """One thing to do: whether it is done, how many there are of it, of how many; and whether it may be left out."""

    what: What
    is_done: bool
    number: int
    of: int = 0
    may_wait: bool = False


def first_hour(k: Kitchen, on: date) -> tuple[FirstStep, ...]:
    """Return the steps from an empty book to the first clearance by a watched practical, in their order."""
    day = k.day(on)
    cooks = [cook for cook in day.cooks() if works_a_station(day.roles(cook))]
    assessors = [cook for cook in cooks if "assessor" in day.roles(cook)]
    wanted = _stations_wanted(day)
    signed = sum(bool(signers(day.rules.stations[name], day)) for name in wanted)
    known = len(k.file.book.of_kind("known_before"))
    nights = k.progress().nights
    week, plans = nights.week(on, on, on), nights.ledger.counting(nights.plans, on, on)
    cleared = cleared_by_watching(k, on)
    devices = sum(one.revoked_at is None for one in k.file.devices.all())
    return (
        FirstStep("people", len(cooks) > 0, len(cooks)),
        FirstStep("device", devices > 0, devices),
        FirstStep("assessor", len(assessors) > 0, len(assessors)),
        FirstStep("signers", 0 < len(wanted) == signed, signed, len(wanted)),
        FirstStep("known", known > 0, known, may_wait=True),
        FirstStep("services", week is not None, len(week.weekly) if week else 0, may_wait=True),
        FirstStep("plan", bool(plans), len(days_planned(k, on, on + LOOK_AHEAD))),
        FirstStep("clearance", cleared > 0, cleared),
    )


def cleared_by_watching(k: Kitchen, on: date) -> int:
    """Return how many cells of the board are cleared by what was watched, and not by what is known from before."""
    return sum(1 for _ in _cleared_by_watching(k, on))


def _cleared_by_watching(k: Kitchen, on: date) -> Iterator[Clearance]:
    return (one for row in k.board(on).rows for one in row.clearances if one.is_cleared and not one.known)


def is_under_way(k: Kitchen, on: date) -> bool:
    """Return whether the first hour goes on: no plan is published, and nobody is cleared by watching."""
    nights = k.progress().nights
    return not nights.ledger.counting(nights.plans, on, on) and not any(True for _ in _cleared_by_watching(k, on))


def _stations_wanted(day: Snapshot) -> tuple[str, ...]:
    """Return the stations somebody goes for; where no path is open, every one of the kitchen."""
    wanted = {one.path.station for one in all_paths(day)}
    return tuple(name for name in day.rules.stations if name in wanted or not wanted)
