"""The clock at the command line: saying that it is right, and letting entries count from another day."""

from __future__ import annotations

from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from tests.cli.conftest import NOW, Run
from trainer import clock
from trainer.kitchen.book import Entry, NewEntry
from trainer.store.kitchen_file import KitchenFile

LATER = NOW + timedelta(days=1826)


def entries(folder: Path) -> list[Entry]:
    """Return the kitchen's entries."""
    with closing(KitchenFile.open(folder)) as file:
        return file.book.since(0)


@pytest.fixture
def ahead(demo: Path) -> int:
    """Write two entries with a clock five years ahead; return the number of the first."""
    with closing(KitchenFile.open(demo)) as file:
        cook = next(iter(file.people.all()))
        for number in (1, 2):
            deed = NewEntry("watch_asked", LATER, cook, cook, {"technique": "sauce"}, f"ahead-{number}")
            seq = file.book.append(deed).seq
    return seq - 1


def test_a_silent_month_refuses_a_secret_until_the_date_is_typed(
    run: Run, demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Exit code 3; with the date the book says so, and the command goes on."""
    monkeypatch.setattr(clock, "now", lambda: NOW + timedelta(days=40))
    new = "copper pans over the pass\n"
    refused = run("secret", "Ottilie Brandvold", input=new * 2)
    assert refused.exit_code == 3
    assert "days old, so this machine's clock is to be looked at first." in refused.output
    wrong = run("clock", "confirm", "2026-11-25")
    assert wrong.exit_code == 3
    assert "This machine's clock says 4 January 2027, not 25 November 2026." in wrong.output
    typed = run("clock", "confirm", input="2027-01-04\n")
    assert typed.exit_code == 0, typed.output
    assert (entries(demo)[-1].kind, entries(demo)[-1].by) == ("clock_confirmed", "local")
    assert run("secret", "Ottilie Brandvold", input=new * 2).exit_code == 0


def test_a_correction_shows_what_it_changes_and_asks_for_the_number(run: Run, demo: Path, ahead: int) -> None:
    """Two entries, each with both days; with their number typed they count from today."""
    result = run("clock", "correct", "--from", str(ahead), "--day", "2026-11-25", input="2\n")
    assert result.exit_code == 0, result.output
    assert f"entry {ahead}: watch_asked" in result.output
    assert "2031-11-25 becomes 2026-11-25" in result.output
    assert f"2 entries count from 2026-11-25. Entry {ahead + 2} of the book says so." in result.output
    assert [entry.day.isoformat() for entry in entries(demo)[-3:]] == ["2026-11-25"] * 3
    assert run("book", "verify").exit_code == 0


@pytest.mark.parametrize("typed", ["1\n", "yes\n", "\n"])
def test_another_number_changes_nothing(run: Run, demo: Path, ahead: int, typed: str) -> None:
    """Nor does a yes, or nothing."""
    end = entries(demo)[-1].seq
    result = run("clock", "correct", "--from", str(ahead), "--day", "2026-11-25", input=typed)
    assert result.exit_code in (1, 3)
    assert entries(demo)[-1].seq == end


def test_an_entry_may_be_named_by_its_id(run: Run, demo: Path, ahead: int) -> None:
    """One that is not there is wrong use; one that leaves an entry in the future is refused."""
    last = entries(demo)[-1].id
    name = entries(demo)[ahead - 1].id
    assert run("clock", "correct", "--from", "nothing", "--day", "2026-11-25").exit_code == 2
    day = ("--day", "2026-11-25")
    assert run("clock", "correct", "--from", name, "--to", str(ahead), *day).exit_code == 3
    assert run("clock", "correct", "--from", name, "--to", last, *day, input="2\n").exit_code == 0
