"""Every fault of a roster or shift file, with the message it gets."""

from __future__ import annotations

from datetime import date

import pytest

from tests.printed import all_english, english
from trainer.imports.roster_files import roster_from
from trainer.imports.roster_plan import Choices, KnownPeople, RosterPlan, RosterRow, ShiftRow
from trainer.imports.table_files import read_table
from trainer.kitchen.progress import Person
from trainer.store.people import Listed

PEOPLE = (
    Listed(Person("p1", "Ana Brandt", None), "001"),
    Listed(Person("p2", "Zoë Roux", None), "002"),
    Listed(Person("p3", "Zoë Roux", None), "003"),
)
KNOWN = KnownPeople(PEOPLE, {"pasta_room": "Pasta room", "grill": "Grill"}, date(2026, 11, 25))
NONE = Choices()


def plan_of(text: str, choices: Choices = NONE) -> RosterPlan:
    """Return the plan of a file."""
    return roster_from(read_table(text.encode()), choices, KNOWN)


def roster(*rows: str, choices: Choices = NONE) -> RosterPlan:
    """Return the plan of a roster with these rows."""
    return plan_of("\r\n".join(("number,name,birth date,roles,started,language", *rows)), choices)


def shifts(*rows: str, header: str = "date,sitting,name,station", choices: Choices = NONE) -> RosterPlan:
    """Return the plan of a shift file with these rows."""
    return plan_of("\r\n".join((header, *rows)), choices)


def test_a_whole_row_is_read_as_it_is_meant() -> None:
    """Leading zeros, accents, several roles in one cell."""
    plan = roster('007,Zoë  Roux,1990-02-28,"Assessor, cook",2020-01-31,fr')
    assert plan.rows == (
        RosterRow(2, "007", "Zoë Roux", date(1990, 2, 28), ("cook", "assessor"), date(2020, 1, 31), "fr"),
    )
    assert plan.is_ready


def test_empty_cells_are_read_as_nothing_given() -> None:
    """Number and name are enough, in any order of columns, however the headers are spelled."""
    assert plan_of("Name;NUMBER\r\nAna;1\r\n").rows == (RosterRow(2, "1", "Ana", None, (), None, ""),)
    assert roster("1,Ana,,,,").problems == ()


ROSTER_FAULTS = [
    (",Ana,,,,", "number", "number is missing", "own number"),
    ("123456789012345678901,Ana,,,,", "number", "at most 20", "Shorten"),
    ("1,,,,,", "name", "name is missing", "leave the row out"),
    ("1," + "x" * 121 + ",,,,", "name", "at most 120", "Shorten"),
    ("1,Ana\u202eB,,,,", "name", "cannot be seen", "Type the name again"),
    ("1,Ana,31/02/1998,,,", "birth date", "no such day", "year-month-day"),
    ("1,Ana,1899-12-31,,,", "birth date", "before 1900", "Look at the year"),
    ("1,Ana,2026-11-26,,,", "birth date", "not come yet", "Look at the year"),
    ("1,Ana,1990-01-01,,1990-01-01,", "started", "not after the birth date", "both dates"),
    ("1,Ana,,,45992,", "started", "day number", "Format the column"),
    ("1,Ana,,cok,,", "roles", "no role “cok”", "Did you mean “cook”?"),
    ("1,Ana,,queen,,", "roles", "no role “queen”", "cook, assessor, manager"),
    ("1,Ana,,,,English", "language", "no language tag", "Write en"),
]


@pytest.mark.parametrize(("row", "column", "reason", "mend"), ROSTER_FAULTS)
def test_each_fault_of_a_roster_row_is_named(row: str, column: str, reason: str, mend: str) -> None:
    """Row, column, why, and how to fix it; leaving the row out fixes it too."""
    (problem,) = roster(row).problems
    assert (problem.row, problem.column) == (2, column)
    assert reason in english(problem.reason)
    assert mend in english(problem.hint)
    left = roster(row, "2,Bo,,,,", choices=Choices(left_out=frozenset({2})))
    assert (left.is_ready, left.left_out, len(left.rows)) == (True, (2,), 1)


def test_a_joiner_inside_a_name_is_part_of_the_name() -> None:
    """Persian and Indian names are written with it (The Unicode Standard, chapter 23.2)."""
    assert roster("1,علی\u200cرضا,,,,").problems == ()


def test_a_number_given_twice_names_both_rows() -> None:
    """Whichever is left out, the other is taken."""
    rows = ("001,Ana,,,,", "002,Bo,,,,", "001,Cy,,,,")
    (problem,) = roster(*rows).problems
    assert problem.row == 4
    assert "row 2 already (Ana)" in english(problem.reason)
    assert english(problem.hint) == "Leave out row 2 or 4."
    assert roster(*rows, choices=Choices(left_out=frozenset({2}))).is_ready


def test_the_same_name_and_birth_date_under_two_numbers_names_both_rows() -> None:
    """Two people of one name and different birth dates are two people."""
    (problem,) = roster("1,Ana Roux,1990-01-01,,,", "2,ANA roux,1990-01-01,,,").problems
    assert (problem.row, "row 2 already (number 1)" in english(problem.reason)) == (3, True)
    assert roster("1,Ana Roux,1990-01-01,,,", "2,Ana Roux,1991-01-01,,,").is_ready


def test_a_date_that_reads_two_ways_is_asked_with_both_readings() -> None:
    """One answer for the file, or one for the row; a row left out is not asked about."""
    row = "1,Ana,03/04/2001,,,"
    plan = roster(row)
    (question,) = plan.questions
    assert not plan.is_ready
    assert (question.name, question.row, question.column) == ("date_order", 2, "birth date")
    readings = all_english(reading.text for reading in question.readings)
    assert readings == ["day first: 3 April 2001", "month first: 4 March 2001"]
    for choices, born in (
        (Choices(date_order="dmy"), date(2001, 4, 3)),
        (Choices(date_order="mdy"), date(2001, 3, 4)),
        (Choices(date_order="dmy", row_orders={2: "mdy"}), date(2001, 3, 4)),
    ):
        (read,) = roster(row, choices=choices).rows
        assert isinstance(read, RosterRow)
        assert read.born == born
    assert roster(row, "2,Bo,,,,", choices=Choices(left_out=frozenset({2}))).questions == ()


@pytest.mark.parametrize(
    ("text", "column", "reason", "mend"),
    [
        ("number,nmae\r\n1,Ana", "nmae", "no column “nmae”", "Did you mean “name”?"),
        ("number,name,shoe\r\n1,Ana,9", "shoe", "no column “shoe”", "Leave the column out"),
        ("number,name,Name\r\n1,Ana,B", "Name", "“name” is there twice", "one of the two"),
        ("name\r\nAna", "number", "“number” is missing", "number, name, birth date"),
        ("date,sitting,station\r\n2026-12-01,dinner,grill", "name (or number)", "is missing", "date, sitting"),
    ],
)
def test_each_fault_of_a_header_is_named(text: str, column: str, reason: str, mend: str) -> None:
    """The nearest header we know is offered."""
    problem = plan_of(text).problems[0]
    assert (problem.row, english(problem.column)) == (1, column)
    assert reason in english(problem.reason)
    assert mend in english(problem.hint)


def test_an_unknown_column_can_be_left_out() -> None:
    """The rest is read."""
    text = "number,name,shoe\r\n1,Ana,9"
    assert plan_of(text, Choices(columns_left_out=frozenset({"shoe"}))).is_ready


def test_a_file_with_no_rows_says_so() -> None:
    """A header alone is nothing to take in."""
    assert "no row" in english(plan_of("number,name\r\n").problems[0].reason)


def test_a_file_full_of_faults_is_read_only_so_far() -> None:
    """Nobody reads a hundred thousand messages; where reading stopped is said."""
    plan = roster(*(f"{n},,,,," for n in range(2000)))
    assert 500 < len(plan.problems) < 510
    assert "were not read" in english(plan.problems[-1].reason)


def test_a_shift_row_is_read_with_ids() -> None:
    """A name or a number, a station by id or by title, a sitting in any case."""
    assert shifts('2026-12-01,Dinner,"ana BRANDT",Pasta Room').rows == (
        ShiftRow(2, date(2026, 12, 1), "dinner", "p1", "pasta_room"),
    )
    by_number = shifts("1/12/2026,lunch,003,grill", header="date,sitting,number,station", choices=Choices("dmy"))
    assert by_number.rows == (ShiftRow(2, date(2026, 12, 1), "lunch", "p3", "grill"),)


SHIFT_FAULTS = [
    (",dinner,Ana Brandt,grill", "date", "date is missing", "Write it"),
    ("2026-12-32,dinner,Ana Brandt,grill", "date", "no such day", "year-month-day"),
    ("2026-12-01,diner,Ana Brandt,grill", "sitting", "no sitting “diner”", "Did you mean “dinner”?"),
    ("2026-12-01,,Ana Brandt,grill", "sitting", "sitting is missing", "lunch, dinner"),
    ("2026-12-01,dinner,Ana Brand,grill", "name", "nobody with the name “Ana Brand”", "Did you mean “Ana Brandt”?"),
    ("2026-12-01,dinner,Xu,grill", "name", "nobody with the name “Xu”", "Take in the roster first"),
    ("2026-12-01,dinner,,grill", "name", "name is missing", "who works"),
    ("2026-12-01,dinner,Zoë Roux,grill", "name", "2 people are called Zoë Roux", "002, 003"),
    ("2026-12-01,dinner,Ana Brandt,gril", "station", "no station “gril”", "Did you mean “grill”?"),
]


@pytest.mark.parametrize(("row", "column", "reason", "mend"), SHIFT_FAULTS)
def test_each_fault_of_a_shift_row_is_named(row: str, column: str, reason: str, mend: str) -> None:
    """Row, column, why, and how to fix it."""
    (problem,) = shifts(row).problems
    assert (problem.row, problem.column) == (2, column)
    assert reason in english(problem.reason)
    assert mend in english(problem.hint)


def test_a_cook_twice_in_one_sitting_names_both_rows() -> None:
    """Nobody stands at two stations at once."""
    (problem,) = shifts("2026-12-01,dinner,Ana Brandt,grill", "2026-12-01,dinner,Ana Brandt,pasta_room").problems
    assert (problem.row, "Row 2 has this person" in english(problem.reason)) == (3, True)
