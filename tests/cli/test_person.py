"""What is kept about one person, at the command line: erasing somebody who has left, and the record on a sheet."""

from __future__ import annotations

import csv
import json
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

from tests.cli.conftest import NOW, Run
from trainer.actions.outcome import Saved
from trainer.actions.standing import Leaving, cook_leaves
from trainer.cli.opening import open_here
from trainer.kitchen.clearance import Clearance, clearances_of

HIRE = "Leilani Kahananui"


def leaves(demo: Path, name: str, days: int = 1) -> str:
    """Let a cook of the demo kitchen leave; return the id."""
    k = open_here(demo)
    found = next(person.id for person in k.people().values() if person.name == name)
    manager = next(c for c in k.progress().cooks_on(k.today(NOW)) if "manager" in k.progress().roles(c, k.today(NOW)))
    left = cook_leaves(k, by=manager, leaving=Leaving(found, "Moved to Duluth"), now=NOW, key="left")
    assert isinstance(left, Saved), left
    k.file.close()
    return found


def past_cells(demo: Path, cook: str) -> list[Any]:
    """Return the cells of one cook on every day of the demo kitchen's past, and everybody's on every fortieth."""
    k = open_here(demo)
    first = k.file.book.since(0)[0].day
    days = [first + timedelta(days=n) for n in range((k.today(NOW) - first).days)]
    stations = tuple(k.content.stations.values())
    cells = [each for on in days for each in clearances_of(k.people()[cook], stations, k.progress(), k.content, on)]
    cells += [each for on in days[::40] for row in k.board(on).rows for each in row.clearances]
    k.file.close()
    return sorted(((c.cook, c.station, c.on, c.state, _missing(c), c.until, c.proof) for c in cells), key=repr)


def _missing(found: Clearance) -> list[str]:
    return [each.what for each in found.missing]


def test_whoever_left_is_erased_and_no_board_of_the_past_changes(run: Run, demo: Path, tmp_path: Path) -> None:
    """Their cells of all days of the demo kitchen's eighteen months are the same; verify finds nothing wrong."""
    cook, into = leaves(demo, HIRE), tmp_path / "held.json"
    before = past_cells(demo, cook)
    assert sum(cell[0] == cook for cell in before) > 2500
    assert len({cell[3] for cell in before if cell[0] == cook}) > 2
    done = run("erase", HIRE, "--into", str(into), input=f"{HIRE}\n")
    assert done.exit_code == 0, done.output
    assert past_cells(demo, cook) == before
    checked = run("book", "verify")
    assert checked.exit_code == 0, checked.output
    assert "texts about people were dropped on 2026-11-25" in checked.output
    board = run("board", "--on", "2026-11-24", "--json").output
    assert HIRE not in board
    assert next(row for row in map(json.loads, board.splitlines()) if row["id"] == cook)["cook"] == "erased person"
    held = json.loads(into.read_text(encoding="utf-8"))
    assert (held["person"]["name"], into.stat().st_mode & 0o077) == (HIRE, 0)
    assert any(json.loads(text).get("text") == "Moved to Duluth" for text in held["papers"].values())


def test_another_name_typed_erases_nobody(run: Run, demo: Path, tmp_path: Path) -> None:
    """Nothing is written, no file either."""
    leaves(demo, HIRE)
    into = tmp_path / "held.json"
    done = run("erase", HIRE, "--into", str(into), input="Leilani\n")
    assert (done.exit_code, "Nothing was erased" in done.output, into.exists()) == (3, True, False)
    assert run("why", HIRE, "cold_side").exit_code == 0


@pytest.mark.parametrize(
    ("name", "words"),
    [("Ottilie Brandvold", "is the only manager"), (HIRE, "is on the roster")],
)
def test_whoever_is_on_the_roster_is_not_erased(run: Run, tmp_path: Path, name: str, words: str) -> None:
    """They leave first."""
    done = run("erase", name, "--into", str(tmp_path / "held.json"), "--yes")
    assert (done.exit_code, words in done.output) == (3, True)


def test_a_file_that_is_there_is_not_written_over(run: Run, demo: Path, tmp_path: Path) -> None:
    """And nobody is erased whose papers could not be handed over."""
    cook, into = leaves(demo, HIRE), tmp_path / "held.json"
    into.write_text("mine", encoding="utf-8")
    done = run("erase", HIRE, "--into", str(into), "--yes")
    assert (done.exit_code, into.read_text(encoding="utf-8")) == (3, "mine")
    with closing(sqlite3.connect(demo / "kitchen.db")) as file:
        assert file.execute("SELECT name FROM people WHERE id = ?", (cook,)).fetchone() == (HIRE,)


def test_whoever_was_erased_is_not_erased_again(run: Run, demo: Path, tmp_path: Path) -> None:
    """Named by the id, as there is no name any more."""
    cook = leaves(demo, HIRE)
    assert run("erase", cook, "--into", str(tmp_path / "1.json"), "--yes").exit_code == 0
    again = run("erase", cook, "--into", str(tmp_path / "2.json"), "--yes")
    assert (again.exit_code, "erased already" in again.output) == (3, True)
    assert not (tmp_path / "2.json").exists()


def test_the_demo_has_a_name_and_an_age_of_everybody(demo: Path) -> None:
    """Whoever is on its roster joined by a file, and the book was told of it then."""
    k = open_here(demo)
    on = k.progress().cooks_on(date(2026, 11, 24))
    named = {entry.cook for entry in k.file.book.of_kind("person_named")}
    assert set(on) <= named
    k.file.close()


def test_a_record_is_printed_in_four_forms(run: Run, tmp_path: Path) -> None:
    """For a person, for programs, as a page of its own, and for a spreadsheet; all say the same."""
    text = run("record", HIRE)
    assert text.exit_code == 0, text.output
    assert "10. Training completed" in text.output
    data = json.loads(run("record", HIRE, "--as", "json").output)
    assert [item["number"] for item in data["items"]] == list(range(1, 11))
    titles = [row["competency"] for row in data["trainings"]]
    assert len(titles) > 3
    page = BeautifulSoup(run("record", HIRE, "--as", "html").output, "lxml")
    assert [li.find("b").get_text() for li in page.select("ol li")] == [item["title"] for item in data["items"]]  # type: ignore[union-attr]
    assert [td.get_text() for td in page.select("tr td:first-child")] == titles
    into = tmp_path / "record.csv"
    assert run("record", HIRE, "--as", "csv", "--into", str(into)).exit_code == 0
    with into.open(encoding="utf-8", newline="") as file:
        assert [row["competency"] for row in csv.DictReader(file)] == titles


def test_a_folder_takes_every_form_and_replaces_nothing(run: Run, tmp_path: Path) -> None:
    """A PDF begins with its mark (ISO 32000-1, 7.5.2); the second time nothing is written."""
    into = tmp_path / "records"
    assert run("record", HIRE, "--into", str(into)).exit_code == 0
    files = sorted(into.iterdir())
    assert [path.suffix for path in files] == [".csv", ".html", ".json", ".pdf", ".txt"]
    assert len({path.stem for path in files}) == 1
    assert files[3].read_bytes().startswith(b"%PDF-")
    assert json.loads(files[2].read_text(encoding="utf-8"))["items"][0]["number"] == 1
    again = run("record", HIRE, "--into", str(into))
    assert (again.exit_code, "is there already. Nothing was written" in again.output) == (3, True)
    assert run("record", HIRE, "--into", str(tmp_path / "one.pdf")).exit_code == 0
    assert (tmp_path / "one.pdf").read_bytes().startswith(b"%PDF-")
    assert run("record", HIRE, "--as", "pdf").exit_code == 3


def test_a_record_given_is_written_down(run: Run, demo: Path) -> None:
    """By the machine, to whom and what for."""
    given = run("record", HIRE, "--to", "The Anchor", "--for", "a new job")
    assert given.exit_code == 0, given.output
    k = open_here(demo)
    (entry,) = k.file.book.of_kind("record_given")
    k.file.close()
    assert (entry.by, entry.body["to"], entry.body["for"]) == ("local", "The Anchor", "a new job")
