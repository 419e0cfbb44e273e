"""What a cook does next, and who covers a day, at the command line."""

from __future__ import annotations

import json
from datetime import date, timedelta

from tests.cli.conftest import Run

TODAY = "2026-11-25"
TWO_WEEKS = [(date.fromisoformat(TODAY) + timedelta(days=number)).isoformat() for number in range(14)]


def test_next_says_what_a_new_hire_does_first(run: Run) -> None:
    """Each line has the technique, the state and the sentence of the cook's own page; the same as records."""
    output = run("next", "Noor Haddad-Silva").output.splitlines()
    assert output[0] == f"Noor Haddad-Silva, {TODAY}"
    records = [json.loads(line) for line in run("next", "Noor Haddad-Silva", "--json").output.splitlines()]
    assert len(records) == len(output) - 1
    for line, record in zip(output[1:], records, strict=True):
        assert line.startswith(record["title"])
        assert line.endswith(record["words"])
        assert record["state"] in line


def test_nothing_is_next_for_who_works_no_station(run: Run) -> None:
    """A manager who only manages has no tasks, and the command says so as wrong use."""
    result = run("next", "Ottilie Brandvold")
    assert result.exit_code == 2
    assert "Ottilie Brandvold is not on the roster as a cook today" in result.output


def test_cover_says_whether_each_service_holds(run: Run) -> None:
    """A service that is short names the stations; as a record it has who is on, where each may stand, and the moves."""
    text = run("cover", "--on", TODAY).output
    records = [json.loads(line) for line in run("cover", "--json").output.splitlines()]
    assert text.startswith(f"Cover for {TODAY}\n")
    assert [record["service"] for record in records] == ["dinner"]
    for record in records:
        assert record["day"] == TODAY
        assert record["holds"] == (not record["reason"])
        assert record["reason"].split(" ", 3)[0] in text
        assert not record["planned_holds"] or (record["holds"] and not record["cure"])
        assert all(move["station"] in record["can"][move["cook"]] for move in record["cure"])
        assert set(record["can"]) == set(record["on"])
        assert {cook for cooks in record["planned"].values() for cook in cooks} >= set(record["on"])


def test_most_services_of_the_demos_coming_two_weeks_hold(run: Run) -> None:
    """Every day has a dinner, weekends a lunch; most hold, some with a swap, and a few do not, for a reason."""
    lines = [line for day in TWO_WEEKS for line in run("cover", "--on", day, "--json").output.splitlines()]
    records = [json.loads(line) for line in lines]
    assert len(records) == 14 + 4
    holding = [record for record in records if record["holds"]]
    assert 13 <= len(holding) <= 16
    assert 2 <= sum(not record["planned_holds"] for record in holding) <= 5
    assert all(record["reason"] for record in records if not record["holds"])


def test_a_day_without_a_plan_says_so(run: Run) -> None:
    """Nobody planned is no cover at all, and no service is printed."""
    assert run("cover", "--on", "2026-01-01").output == "Cover for 2026-01-01\nNobody is planned.\n"
    assert run("cover", "--on", "2026-01-01", "--json").output == ""
