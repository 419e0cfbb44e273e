"""The demo's own files: made again by their script, faults and all."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from tests.printed import english
from trainer.content.shipped import shipped
from trainer.imports.roster_files import roster_from
from trainer.imports.roster_plan import Choices, KnownPeople, RosterRow, ShiftRow
from trainer.imports.table_files import read_table
from trainer.kitchen.progress import Person
from trainer.store.people import Listed

STATIONS = {name: name for name in ("pasta_room", "saute", "cold_side", "grill", "pastry")}
ANSWERS = Choices(date_order="dmy", left_out=frozenset({14, 18}))


def read(name: str) -> bytes:
    """Return one of the demo's files."""
    return (shipped("demo_roster") / name).read_bytes()


@pytest.fixture(scope="module")
def people() -> tuple[RosterRow, ...]:
    """Return the rows of the roster once its faults are left out."""
    plan = roster_from(read_table(read("roster.csv")), ANSWERS, KnownPeople())
    assert plan.is_ready
    return tuple(row for row in plan.rows if isinstance(row, RosterRow))


def test_the_script_writes_the_files_that_are_kept(tmp_path: Path) -> None:
    """The same start gives the same bytes."""
    script = shipped("demo_roster") / "make_files.py"
    subprocess.run([sys.executable, str(script), "--start", "2026-11-25", "--into", str(tmp_path)], check=True)
    for name in ("roster.csv", "shifts.csv"):
        assert (tmp_path / name).read_bytes() == read(name)


def test_the_roster_is_written_as_a_spreadsheet_would() -> None:
    """Byte order mark, semicolons, CRLF, an empty line at the end."""
    data = read("roster.csv")
    assert data.startswith(b"\xef\xbb\xbfnumber;name;")
    assert data.endswith(b"\r\n;;;;;\r\n")


def test_its_three_faults_are_found_and_nothing_else() -> None:
    """One duplicate, one impossible date, one date that reads two ways."""
    plan = roster_from(read_table(read("roster.csv")), Choices(), KnownPeople())
    assert [(p.row, english(p.column)) for p in plan.problems] == [(14, "number"), (18, "birth date")]
    assert [(q.row, q.column) for q in plan.questions] == [(10, "birth date")]


def test_14_cooks_and_a_manager_are_left(people: tuple[RosterRow, ...]) -> None:
    """Two of the cooks are assessors, one is under 18, one began two days ago."""
    roles = [row.roles for row in people]
    day = date(2026, 11, 25)
    young = [row.number for row in people if row.born and row.born.replace(year=row.born.year + 18) > day]
    new = [row.number for row in people if row.started and (day - row.started).days < 7]
    assert (len(people), roles.count(("manager",)), roles.count(("cook", "assessor"))) == (15, 1, 2)
    assert (young, new) == (["014"], ["015"])


def test_the_shifts_name_people_of_the_roster_alone(people: tuple[RosterRow, ...]) -> None:
    """Every row is taken; nobody under 18 stands in the pasta room; they end with December."""
    listed = tuple(Listed(Person(row.number, row.name, row.born), row.number) for row in people)
    plan = roster_from(read_table(read("shifts.csv")), Choices(), KnownPeople(listed, STATIONS))
    rows = [row for row in plan.rows if isinstance(row, ShiftRow)]
    assert plan.is_ready
    assert not [row for row in rows if row.cook == "014" and row.station == "pasta_room"]
    assert (min(row.on for row in rows), max(row.on for row in rows)) == (date(2026, 11, 25), date(2026, 12, 31))
    dinners = {(row.on, row.station) for row in rows if row.sitting == "dinner"}
    mondays = {on for on, _ in dinners if on.weekday() == 0}
    assert len(dinners) == 5 * len({on for on, _ in dinners}) - len(mondays)  # the pastry section rests then


def test_everybody_planned_has_a_week_one_can_work(people: tuple[RosterRow, ...]) -> None:
    """Nobody is on twice a day, nor more than five days of a week: two days off (common practice)."""
    listed = tuple(Listed(Person(row.number, row.name, row.born), row.number) for row in people)
    plan = roster_from(read_table(read("shifts.csv")), Choices(), KnownPeople(listed, STATIONS))
    worked = [(row.cook, row.on) for row in plan.rows if isinstance(row, ShiftRow)]
    assert len(worked) == len(set(worked))
    weeks = Counter((cook, on.isocalendar()[:2]) for cook, on in worked)
    assert max(weeks.values()) == 5
    assert {cook for cook, _ in worked} == {row.number for row in people} - {"001"}
