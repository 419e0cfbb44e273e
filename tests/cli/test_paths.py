"""Paths at the command line, on the demo kitchen."""

from __future__ import annotations

import json
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Run
from trainer.cli.exits import REFUSED, USAGE
from trainer.store.kitchen_file import KitchenFile


def listed(run: Run, *more: str) -> list[dict[str, Any]]:
    """Return the open paths."""
    found: list[dict[str, Any]] = json.loads(run("path", "list", "--json", *more).output)
    return found


def board(run: Run, *more: str) -> dict[str, dict[str, Any]]:
    """Return the board's states and what is missing, by cook."""
    lines = run("board", "--json", *more).output.splitlines()
    return {row["id"]: row["stations"] for row in map(json.loads, lines) if "stations" in row}


def test_a_path_is_opened_listed_put_off_and_closed(run: Run, demo: Path) -> None:
    """Each is an entry by whoever sat at the machine."""
    ids = {row["name"]: row["cook"] for row in listed(run)}
    done = run("path", "open", "Noor", "pastry", "--by", "2027-01-15", "--mentor", "Renzo")
    assert done.exit_code == 0, done.output
    assert "goes for pastry by 2027-01-15. Entry " in done.output
    (one,) = [each for each in listed(run) if each["station"] == "pastry" and each["name"].startswith("Noor")]
    assert (one["by_day"], one["days_left"], one["path"]) == ("2027-01-15", 51, "open")
    assert one["mentor"]
    assert one["missing"]
    assert run("path", "open", "Noor", "pastry", "--by", "2027-02-01").exit_code == 0
    (one,) = [each for each in listed(run) if each["station"] == "pastry" and each["name"].startswith("Noor")]
    assert (one["by_day"], one["mentor"]) == ("2027-02-01", None)
    closed = run("path", "close", "Noor", "pastry", "--dropped", "--reason", "Grill first")
    assert closed.exit_code == 0, closed.output
    assert {row["name"]: row["cook"] for row in listed(run)} == ids
    with closing(KitchenFile.open(demo)) as file:
        assert [entry.by for entry in file.book.since(0)[-4:] if entry.kind.startswith("path_")][-3:] == ["local"] * 3


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (("open", "Noor", "pastry", "--by", "2020-01-01"), REFUSED, "1 January 2020 is past."),
        (("open", "Noor", "moon", "--by", "2027-01-01"), REFUSED, "There is no station “moon”."),
        (("open", "Nobody", "pastry", "--by", "2027-01-01"), USAGE, "There is no cook 'Nobody'."),
        (("open", "Noor", "pastry", "--by", "soon"), USAGE, "'soon' is not a date."),
        (("close", "Noor", "pastry", "--dropped"), USAGE, "has no open path to 'pastry'"),
        (("close", "Noor", "pastry"), USAGE, "--reached or --dropped"),
    ],
)
def test_bad_input_is_refused_by_name(run: Run, args: tuple[str, ...], code: int, words: str) -> None:
    """The value and the rule are named, and the exit code says which kind of wrong it is."""
    result = run("path", *args)
    assert result.exit_code == code, result.output
    assert words in result.output


def test_the_list_in_words_marks_what_is_late(run: Run) -> None:
    """Each line names cook, station, day, what is left of the time, the state, and how much is missing."""
    told, late = run("path", "list").output, run("path", "list", "--late").output
    rows = listed(run)
    assert rows
    assert all(any(row["name"] in line and row["station"] in line for line in told.splitlines()) for row in rows)
    assert "days left" in told
    assert any(row["path"] == "late" for row in rows) == ("late" in told)
    assert len(listed(run, "--late")) == sum(row["path"] == "late" for row in rows)
    assert ("No path is late." in late) == (not listed(run, "--late"))


def test_opening_a_path_changes_no_past_board(run: Run) -> None:
    """The boards of the days before are the same, cell by cell, as they were before the path was opened."""
    days = ("2025-12-01", "2026-05-03", "2026-10-01", "2026-11-24")
    before = [board(run, "--on", day) for day in days]
    assert run("path", "open", "Noor", "pastry", "--by", "2027-01-15").exit_code == 0
    assert [board(run, "--on", day) for day in days] == before
    assert all(before)
