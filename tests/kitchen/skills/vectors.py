"""The rows of the rule's table: histories of answers in a short notation, chances, and lengths.

A copy of the table lies beside this file; the environment variable MASTERY_VECTORS names another of the same columns.
"""

from __future__ import annotations

import csv
import os
import re
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

from trainer.kitchen.skills.fold import Act, Happening, SkillFold
from trainer.kitchen.skills.rule import Terms
from trainer.kitchen.skills.skill import Outcome, Skill

TABLE = Path(os.environ.get("MASTERY_VECTORS") or Path(__file__).with_name("mastery_vectors.csv"))
DAY_ZERO = date(2026, 1, 1)
ACTS: dict[str, Act] = {
    "R": "right",
    "W": "wrong",
    "E": "rounded_early",
    "A": "asked_again",
    "L": "drill",
    "P": "drill_by_person",
    "T": "wait_lifted",
    "OR": "old_right",
    "OW": "old_wrong",
}
TOKEN = re.compile(r"(?P<act>[A-Z]+)(?:\.(?P<skill>\w+))?(?:=(?P<name>\w+))?")

Row = dict[str, str]


def rows(kind: str) -> list[Row]:
    """Return the rows of a kind."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["kind"] == kind]


def day(number: int) -> date:
    """Return a day of the table's count."""
    return DAY_ZERO + timedelta(days=number)


def day_number(on: date | None) -> str:
    """Return a day as the table counts it; nothing for none."""
    return str((on - DAY_ZERO).days) if on else ""


def happenings(row: Row) -> Iterator[Happening]:
    """Yield what happened in a row, in order."""
    terms = terms_of(row)
    for group in row["events"].split():
        number, tokens = group.split(":")
        for token in tokens.split(","):
            found = TOKEN.fullmatch(token)
            assert found, token
            yield Happening(
                day(int(number)), found["skill"] or "a", ACTS[found["act"]], terms, found["name"] or "", entry=token
            )


def terms_of(row: Row) -> Terms:
    """Return what the skills of a row ask for."""
    return Terms(base=int(row["base"]), days=int(row["valid_days"]))


def folded(row: Row) -> tuple[Skill, list[Outcome]]:
    """Return the skill a row reads, on the day it reads it, and how each happening counted."""
    fold = SkillFold()
    outcomes = [fold.take(happening) for happening in happenings(row)]
    return fold.settled(row["skill"], terms_of(row), day(int(row["read_on"]))), outcomes
