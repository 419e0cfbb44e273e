"""Takes the demo roster and its shifts in, the way a manager does: preview, answers, apply."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date, datetime, timedelta
from uuid import NAMESPACE_URL, uuid5

from trainer.actions import roster
from trainer.actions.kitchen_settings import enter_settings
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.content.shipped import shipped
from trainer.demo.cast import FAULTY_ROWS
from trainer.imports.roster_plan import Choices, RosterPlan, RosterRow

ISO_DATE = re.compile(rb"\d{4}-\d\d-\d\d")
ANSWERS = Choices(date_order="dmy", left_out=FAULTY_ROWS)


class RosterProblem(RuntimeError):
    """The demo roster could not be taken in: its faults and the answers given do not agree."""


def first_manager(kitchen: Kitchen, name: str, when: datetime) -> str:
    """Return the id of the manager who begins the book."""
    outcome = roster.first_manager(kitchen, name=name, now=when, key=str(uuid5(NAMESPACE_URL, f"first manager {name}")))
    if isinstance(outcome, Refused):
        raise RosterProblem(outcome.reason)
    enter_settings(kitchen, by=outcome.entry.cook, now=when, key=str(uuid5(NAMESPACE_URL, "settings")))
    return outcome.entry.cook


def join(kitchen: Kitchen, numbers: set[str], by: str, when: datetime) -> Mapping[str, str]:
    """Return the ids by staff number after taking in the rows of those who have joined by then."""
    data = (shipped("demo_roster") / "roster.csv").read_bytes()
    whole = _ready(roster.plan_import(kitchen, data, ANSWERS, now=when))
    later = {row.row for row in whole.rows if isinstance(row, RosterRow) and not _has_joined(row, numbers)}
    answers = replace(ANSWERS, left_out=ANSWERS.left_out | later)
    _take_in(kitchen, data, answers, by, when)
    return {listed.number: listed.person.id for listed in kitchen.file.people.listed() if listed.number}


def plan_shifts(kitchen: Kitchen, by: str, begins: date, when: datetime) -> date:
    """Take in the planned shifts, moved on by whole weeks so that *begins* is in the first week; return its first day.

    So a Saturday's lunch stays on a Saturday.
    """
    data = (shipped("demo_roster") / "shifts.csv").read_bytes()
    moved = moved_on(data, begins)
    _take_in(kitchen, moved, Choices(), by, when)
    return min(_dates(moved))


def moved_on(data: bytes, begins: date) -> bytes:
    """Return a file's bytes with every ISO date moved on by the whole weeks between its first date and *begins*."""
    weeks = timedelta(weeks=(begins - min(_dates(data))).days // 7)
    return ISO_DATE.sub(lambda found: (date.fromisoformat(found.group().decode()) + weeks).isoformat().encode(), data)


def _dates(data: bytes) -> list[date]:
    return [date.fromisoformat(found.decode()) for found in ISO_DATE.findall(data)]


def _has_joined(row: RosterRow, numbers: set[str]) -> bool:
    return row.number in numbers or "manager" in row.roles


def _ready(plan: RosterPlan) -> RosterPlan:
    if not plan.is_ready:
        raise RosterProblem(f"{plan.problems} {plan.questions}")
    return plan


def _take_in(kitchen: Kitchen, data: bytes, answers: Choices, by: str, when: datetime) -> None:
    """Preview a file with these answers and take all of it in."""
    plan = _ready(roster.plan_import(kitchen, data, answers, now=when))
    outcome = roster.apply_import(kitchen, plan=plan, by=by, now=when)
    if isinstance(outcome, Refused):
        raise RosterProblem(outcome.reason)
