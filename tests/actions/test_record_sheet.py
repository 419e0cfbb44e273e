"""A cook's record on a sheet answers ten questions and has the five things California asks of each training."""

from __future__ import annotations

import csv
import hashlib
import io
import json
from datetime import date

import pytest

from tests.actions.crew import NOON, Crew, refused, saved
from tests.printed import english
from trainer.actions.certifying import Paper, show_certificate
from trainer.actions.people_on_record import ProofOfAge, Written, see_age
from trainer.actions.record_sheet import Giving, as_data, attempts_as_data, give_record, may_open_record, record_sheet
from trainer.actions.standing import TakenOff, take_off
from trainer.exports.record_csv import as_csv
from trainer.exports.spreadsheet import safe_cell


@pytest.fixture
def known(crew: Crew) -> Crew:
    """Return the crew; Ada was watched at cold sauces, showed a certificate, an age, and was taken off the grill."""
    saved(see_age(crew.k, proof=ProofOfAge("ada", date(1990, 5, 5), "passport"), written=written(crew)))
    practical = crew.begins_practical("ada")
    crew.sees(practical)
    crew.later(minutes=35)
    saved(crew.signs(practical))
    paper = Paper("ada", "first_aid", "FA-77", date(2026, 1, 1), date(2027, 1, 1))
    saved(show_certificate(crew.k, by="mara", paper=paper, now=crew.now, key=crew.key()))
    off = TakenOff("ada", ("grill",), "seen", "A burn on the hand")
    saved(take_off(crew.k, by="mara", off=off, now=crew.now, key=crew.key()))
    return crew


def written(crew: Crew, by: str = "mara") -> Written:
    """Return what somebody writes now."""
    return Written(by, crew.now, crew.key())


def test_the_ten_items_stand_in_the_sequence_of_the_law(known: Crew) -> None:
    """14 CFR 135.63(a)(4)(i)-(x), edition of 2008: name; certificate and ratings; experience; duties and since when;
    medical certificate (what the law lets the person do); checks with date and result; time; check authority; release
    for disqualification; completion of training.
    """
    data = as_data(record_sheet(known.k, "ada", known.now))
    assert [item["as"].rpartition("(")[2].rstrip(")") for item in data["items"]] == [
        "i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x",
    ]  # fmt: skip
    assert [item["title"] for item in data["items"]] == [
        "Name",
        "Certificates",
        "Experience here",
        "Duties and since when",
        "Age and law",
        "Checks, date and result",
        "Time of training",
        "May watch others",
        "Stopped or taken off",
        "Training completed",
    ]
    lines = {item["title"]: "; ".join(item["lines"]) for item in data["items"]}
    assert lines["Name"].startswith("Ada")
    assert lines["Certificates"] == "First aid, number FA-77, shown 2 Mar 2026, good to 1 Jan 2027"
    assert "Cold side: cleared, 2 Mar 2026 to 2 Mar 2027" in lines["Duties and since when"]
    assert lines["Age and law"] == "18 years: reached before joining; no station is barred"
    assert "1 meet the standard, 0 not yet" in lines["Checks, date and result"]
    assert lines["Time of training"].startswith("Practicals 0 h 35 min")
    assert lines["May watch others"] == "No."
    assert lines["Stopped or taken off"] == "Taken off on 2 Mar 2026: Grill"
    assert lines["Training completed"] == "1 of 1 techniques; the last on 2 Mar 2026"


def test_each_training_has_the_five_things_california_asks(known: Crew) -> None:
    """Labor Code 1198.5 as amended by SB 513, in force from 1 January 2026 (as law firms report it): the employee's
    name, the provider's, duration and date, competencies with skills in equipment, the resulting qualification.
    """
    (row,) = as_data(record_sheet(known.k, "ada", known.now))["trainings"]
    assert (row["employee"], row["provider"]) == ("Ada", "Quernstone")
    assert (row["watched"], row["watched_minutes"]) == ("2026-03-02", 35)
    assert (row["competency"], row["equipment"]) == ("Cold sauces", [])
    assert (row["result"], row["good_to"]) == ("signed off", "2027-03-02")


def test_old_quizzes_and_practicals_are_counted_and_listed_on_request(known: Crew) -> None:
    """The sheet has the last of each and how many there were; the second list has every one, the oldest first."""
    known.later(days=1)
    second = known.begins_practical("ada")
    known.sees(second)
    saved(known.signs(second))
    sheet = record_sheet(known.k, "ada", known.now)
    (row,) = as_data(sheet)["trainings"]
    assert (row["watched"], row["practicals"]) == ("2026-03-03", 2)
    practicals = [one for one in attempts_as_data(sheet) if one["what"] == "practical"]
    assert [(one["day"], one["competency"], one["result"]) for one in practicals] == [
        ("2026-03-02", "Cold sauces", "meets it"),
        ("2026-03-03", "Cold sauces", "meets it"),
    ]
    quizzes = [one for one in attempts_as_data(sheet) if one["what"] == "quiz"]
    assert len(quizzes) == row["quizzes"] == len(known.k.file.book.of_kind("quiz_sat"))
    assert all("right" in one["result"] for one in quizzes)


def test_every_entry_named_is_in_the_book_and_about_the_cook(known: Crew) -> None:
    """What the sheet says rests on entries, and these can be looked up."""
    data = as_data(record_sheet(known.k, "ada", known.now))
    named = [entry for item in (*data["items"], *data["trainings"]) for entry in item["entries"]]
    assert len(named) > 5
    for each in named:
        entry = known.k.file.book.find(each)
        assert entry is not None
        assert entry.cook == "ada"


def test_who_may_watch_others_is_said_with_the_day(known: Crew) -> None:
    """Of an assessor, by the authority they hold."""
    items = record_sheet(known.k, "sous", known.now).items
    assert english(items[7].title) == "May watch others"
    assert english(items[7].lines[0]).startswith("Yes")


def test_a_record_of_nothing_says_so(known: Crew) -> None:
    """A new cook's sheet has all ten items too."""
    sheet = record_sheet(known.k, "ben", known.now)
    assert (len(sheet.items), sheet.trainings) == (10, ())
    assert english(sheet.items[8].lines[0]) == "Never."


def test_giving_a_record_is_an_entry_with_its_digest(known: Crew) -> None:
    """SHA-256 (FIPS 180-4) of the sheet's canonical JSON; to whom and what for are texts that can be erased."""
    sheet = record_sheet(known.k, "ada", known.now)
    entry = saved(give_record(known.k, sheet=sheet, giving=Giving("The county", "a visit"), written=written(known)))
    text = json.dumps(as_data(sheet), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert entry.body["record"] == hashlib.sha256(text.encode()).hexdigest()
    assert (entry.body["to"], entry.body["for"], entry.cook) == ("The county", "a visit", "ada")
    assert "The county" not in str(known.k.file.book.rows_about("ada")[-1])


@pytest.mark.parametrize(
    ("by", "may"), [("ada", True), ("mara", True), ("local", True), ("ben", False), ("sous", False)]
)
def test_who_opens_a_record(known: Crew, by: str, may: bool) -> None:
    """One's own, or anybody's as a manager or at the machine."""
    assert (may_open_record(by, "ada", known.k.day(date(2026, 3, 2))) is None) == may
    sheet = record_sheet(known.k, "ada", known.now)
    outcome = give_record(known.k, sheet=sheet, giving=Giving("me", ""), written=written(known, by))
    if not may:
        assert "Only a manager" in english(refused(outcome).reason)
    assert known.now >= NOON


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r", "\0"])
def test_nothing_in_a_table_is_taken_for_a_formula(known: Crew, sign: str) -> None:
    """OWASP ASVS 5.0.0, 1.2.10: = + - @, tab and NUL; a carriage return as well. Read back, the cell is a text."""
    data = as_data(record_sheet(known.k, "ada", known.now))
    data["trainings"][0]["competency"] = f"{sign}1+1"
    header, row = csv.reader(io.StringIO(as_csv(data), newline=""))
    assert dict(zip(header, row, strict=True))["competency"] == f"'{sign}1+1"
    assert dict(zip(header, row, strict=True))["employee"] == "Ada"
    assert safe_cell("1-1") == "1-1"
