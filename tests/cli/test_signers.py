"""Who could sign, at the command line, on the demo kitchen's played past."""

from __future__ import annotations

import json
from contextlib import closing
from pathlib import Path

from tests.cli.conftest import Run
from trainer.cli.exits import USAGE
from trainer.cli.opening import open_here
from trainer.kitchen.entitlement import signers
from trainer.store.kitchen_file import KitchenFile


def test_every_past_signer_is_in_the_answer_of_that_day(demo: Path) -> None:
    """Surface Force Training Manual, Section 3, Subsection B, 16-18: a record of who may sign, kept for two years."""
    kitchen = open_here(demo)
    with closing(kitchen.file) as file:
        signed = [entry for kind in ("practical_watched", "shift_worked") for entry in file.book.of_kind(kind)]
        asked = {(entry.body["station"], entry.day): entry for entry in signed}
        answers = {
            key: {one.cook for one in signers(kitchen.content.stations[key[0]], kitchen.day(key[1]))} for key in asked
        }
        assert len(signed) > 200
        assert [entry.seq for entry in signed if entry.by not in answers[entry.body["station"], entry.day]] == []


def test_the_answer_is_a_list_with_entries_and_last_day(run: Run, demo: Path) -> None:
    """Each id is an entry of the book; in words the same names stand."""
    found = json.loads(run("signers", "pasta_room", "--on", "2026-05-03", "--json").output)
    assert found
    with closing(KitchenFile.open(demo)) as file:
        kinds = {file.book.find(entry).kind for one in found for entry in one["because"]}  # type: ignore[union-attr]
    assert {"authority_given", "practical_watched", "cook_joined"} <= kinds
    assert all(one["until"] > "2026-05-03" for one in found)
    told = run("signers", "pasta_room", "--on", "2026-05-03").output
    assert all(f"  {one['name']}, to {one['until']}" in told for one in found)
    assert not any(entry in told for one in found for entry in one["because"])
    assert "    by entries 6, 7, " in told


def test_nobody_could_sign_before_the_kitchen_began(run: Run) -> None:
    """An empty list, and a plain word."""
    assert json.loads(run("signers", "grill", "--on", "2020-01-01", "--json").output) == []
    assert "Nobody." in run("signers", "grill", "--on", "2020-01-01").output


def test_an_unknown_station_is_wrong_use(run: Run) -> None:
    """The stations there are are named."""
    result = run("signers", "bar")
    assert result.exit_code == USAGE
    assert "pasta_room" in result.output
