"""Services, the plan and closing at the command line, and the disparities as a join anybody can write."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import Run
from trainer import clock

FIRST = datetime(2026, 11, 25, 20, 0, tzinfo=UTC)  # 15:00 in New York
DAYS = [(FIRST + timedelta(days=number)).date().isoformat() for number in range(7)]
UNPLANNED = "2026-12-11"  # after the last day of the demo's own plan
WEEK = {
    "since": "2026-11-25",
    "weekly": [
        {
            "weekday": weekday,
            "service": "dinner",
            "opens": "17:00",
            "closes": "23:00",
            "guests": 90,
            "needs": [{"stations": ["grill", "saute"], "hands": 1}, {"stations": ["pasta_room"], "hands": 1}],
        }
        for weekday in range(1, 8)
    ],
    "days": [{"day": "2026-11-26", "service": "dinner", "closed": True}],
}


@pytest.fixture
def at(monkeypatch: pytest.MonkeyPatch) -> Any:
    """Return a function that turns the clock: so many days on, at an hour of New York."""

    def turn(days: int, hour: int = 22) -> None:
        moment = FIRST + timedelta(days=days, hours=hour - 15)
        monkeypatch.setattr(clock, "now", lambda: moment)

    return turn


def told(run: Run, *args: str) -> Any:
    """Return what a command prints as JSON."""
    result = run(*args)
    assert result.exit_code == 0, result.output
    return json.loads(result.output)


def boards(run: Run, day: str) -> Mapping[tuple[str, str], str]:
    """Return every cell of the board of a day, as the command prints it."""
    rows = [json.loads(line) for line in run("board", "--on", day, "--json").output.splitlines()]
    return {(row["id"], station): cell["state"] for row in rows for station, cell in row["stations"].items()}


def joined_by_hand(run: Run, entries: list[Any], services: Any) -> Iterator[tuple[str, str, str, str, str]]:
    """Yield each disparity as a join of closed services with the boards of their days and the needs of the week."""
    closed = {
        (one["happened"], one["body"]["service"]): one["body"]
        for one in entries
        if one["kind"] == "service_stood" and one["happened"] >= DAYS[0]
    }
    for (day, service), body in sorted(closed.items()):
        cells = boards(run, day)
        stations = {station for _, station in cells}
        needs = needs_of(services, day, service)
        if needs is None:
            yield day, service, "", "", "no service"
        held: dict[str, list[str]] = {}
        for line in body["stood"]:
            cook, station, runs = line["cook"], line["station"], line["as"] == "runs"
            state = cells.get((cook, station), "not on the board" if station in stations else "no such station")
            bad = state not in ("cleared", "due again") if runs else state in ("not allowed", "stood down")
            if bad or state in ("not on the board", "no such station"):
                yield day, service, cook, station, state
            held.setdefault(cook, []).extend([station] if runs else [])
            together = set(held[cook])
            if runs and len(together) > 1 and not any(together <= set(need["stations"]) for need in needs or []):
                yield day, service, cook, station, "two stations"


def needs_of(services: Any, day: str, service: str) -> Any:
    """Return the needs of a service of a day; None where it is not held."""
    for own in services["days"]:
        if (own["day"], own["service"]) == (day, service):
            return None if own.get("closed") else own["needs"]
    weekday = datetime.fromisoformat(day).isoweekday()
    return next((x["needs"] for x in services["weekly"] if (x["weekday"], x["service"]) == (weekday, service)), None)


def test_a_week_set_for_later_stays_when_a_sooner_one_is_set(run: Run, tmp_path: Path, at: Any) -> None:
    """The command says so; no service is lost without a word."""
    at(0, 15)
    file = tmp_path / "week.json"
    for since in ("2027-03-01", DAYS[0]):
        file.write_text(json.dumps({**WEEK, "since": since, "days": []}))
        set_now = run("services", "set", str(file))
        assert set_now.exit_code == 0, set_now.output
    assert "The week set from 2027-03-01 on stays as it is." in set_now.output


def test_disparities_are_a_join_of_what_stood_and_the_boards(run: Run, tmp_path: Path, at: Any) -> None:
    """A week of dinners: as planned, with a leaver, a minor, two stations, somebody uncleared, a closed day."""
    at(0, 15)
    (tmp_path / "week.json").write_text(json.dumps(WEEK))
    assert run("services", "set", str(tmp_path / "week.json")).exit_code == 0
    assert told(run, "services", "--json") == WEEK
    assert "weekday 3 dinner 17:00-23:00, 90 guests: grill+saute 1, pasta_room 1" in run("services").output
    assert run("plan", "publish", "--from", DAYS[0], "--to", DAYS[-1]).exit_code == 3
    plan = told(run, "plan", "publish", "--from", DAYS[0], "--to", DAYS[-1], "--replace", "--json")
    assert {one["reason"] for one in plan["left_out"]} >= {"That service is not held that day."}
    cells = boards(run, DAYS[0])
    cleared = {cook: station for (cook, station), state in cells.items() if state == "cleared"}
    able = next(
        cook for cook in cleared if {cells[cook, name] for name in ("grill", "saute")} <= {"cleared", "due again"}
    )
    minor = next((cook, station) for (cook, station), state in cells.items() if state == "not allowed")
    learner = next((cook, station) for (cook, station), state in cells.items() if state == "studying")
    manager = next(
        one for one in entries_of(run, tmp_path) if one["kind"] == "cook_joined" and one["body"]["roles"] == ["manager"]
    )
    nights = {
        0: None,
        1: [(able, "grill", "runs")],
        2: [(able, "grill", "runs"), (able, "saute", "runs")],
        3: [(able, "grill", "runs"), (able, "pasta_room", "runs"), (*minor, "trails")],
        4: [(*learner, "runs"), (manager["cook"], "grill", "trails")],
        5: [(*learner, "trails"), (able, "saute", "runs")],
    }
    for number, stood in nights.items():
        at(number)
        close(run, tmp_path, DAYS[number], stood)
    services = told(run, "services", "--json")
    found = told(run, "service", "disparities", "--from", DAYS[0], "--to", DAYS[-1], "--json")
    rows = [(one["day"], one["service"], one["cook"], one["station"], one["state"]) for one in found]
    assert sorted(rows) == sorted(joined_by_hand(run, entries_of(run, tmp_path), services))
    assert {row[4] for row in rows} >= {"no service", "two stations", "not allowed", "studying", "not on the board"}
    assert all(one["reason"] == "So it was." for one in found)
    assert not [row for row in rows if row[0] in (DAYS[2], DAYS[5])]
    text = run("service", "disparities", "--from", DAYS[0]).output
    assert text.count("So it was.") == len(found)


def close(run: Run, folder: Path, day: str, stood: list[tuple[str, str, str]] | None) -> None:
    """Close a dinner; write a reason for whatever is asked for one."""
    if stood is None:
        assert run("service", "close", day, "dinner", "--as-planned").exit_code == 0
        return
    states = [
        "lapsed", "studying", "not started", "not allowed", "supervised", "ready to show", "stood down",
        "not on the board", "two stations",
    ]  # fmt: skip
    lines = [{"cook": cook, "station": station, "as": how} for cook, station, how in stood]
    reasons = [{**line, "state": state, "reason": "So it was."} for line in lines for state in states]
    reasons.append({"cook": "", "station": "", "state": "no service", "reason": "So it was."})
    (folder / "stood.json").write_text(json.dumps({"stood": lines, "guests": 70, "reasons": reasons}))
    result = run("service", "close", day, "dinner", "--stood", str(folder / "stood.json"))
    assert result.exit_code == 0, result.output


def entries_of(run: Run, folder: Path) -> list[Any]:
    """Return the book as it is exported."""
    into = folder / f"book-{len(list(folder.iterdir()))}.jsonl"
    assert run("export", "book", "--into", str(into)).exit_code == 0
    return [json.loads(line) for line in into.read_text().splitlines()]


def test_the_plan_of_a_day_is_shown(run: Run) -> None:
    """Before it is published as the planned rows; then as the plan with its entry, and who is in charge."""
    before = told(run, "plan", "show", "--on", UNPLANNED, "--json")
    assert before["entry"] is None
    assert before["lines"]
    assert "as" not in before["lines"][0]
    assert run("plan", "show", "--on", UNPLANNED).output.startswith(f"Plan for {UNPLANNED}, not published\n")
    published = told(
        run, "plan", "publish", "--from", UNPLANNED, "--to", UNPLANNED, "--in-charge", "Ottilie Brandvold", "--json"
    )
    after = told(run, "plan", "show", "--on", UNPLANNED, "--json")
    assert after["entry"] == published["entry"]
    assert after["in_charge"]
    key = ("service", "cook", "station")
    assert {tuple(line[name] for name in key) for line in after["lines"]} == {
        tuple(line[name] for name in key) for line in published["lines"]
    }
    assert "trails" in run("plan", "show", "--on", UNPLANNED).output
    assert run("plan", "show", "--on", "2026-01-01").output.endswith("Nobody is planned.\n")


@pytest.mark.parametrize(
    ("args", "code", "words"),
    [
        (["plan", "publish", "--from", "2026-11-20", "--to", "2026-11-21"], 3, "20 November 2026 is over."),
        (["plan", "publish", "--from", "2026-11-25", "--to", "Sunday"], 2, "'Sunday' is not a date."),
        (["plan", "publish", "--from", "2026-11-25", "--to", "2026-11-25", "--in-charge", "Nobody"], 2, "Nobody"),
        (["service", "close", "2026-11-24", "dinner", "--as-planned"], 3, "is closed already, in entry"),
        (["service", "close", "2026-11-20", "dinner", "--as-planned"], 3, "No plan is published for dinner"),
        (
            ["service", "close", "2026-11-24", "brunch", "--as-planned"],
            3,
            "“brunch”: there are breakfast, lunch and dinner.",
        ),
        (["service", "close", "2026-11-26", "dinner", "--as-planned"], 3, "is still to come"),
        (["service", "close", "2026-11-24", "dinner"], 2, "Say either --as-planned"),
        (
            ["service", "disparities", "--from", "2026-11-24", "--to", "2026-11-20"],
            2,
            "2026-11-20 is before 2026-11-24.",
        ),
    ],
)
def test_what_cannot_be_done_is_said_with_the_rule(run: Run, args: list[str], code: int, words: str) -> None:
    """Refused is 3, wrong use 2."""
    result = run(*args)
    assert result.exit_code == code, result.output
    assert words in result.output


def test_a_file_that_does_not_say_who_stood_is_named(run: Run, tmp_path: Path) -> None:
    """Wrong use, with the file's name; services that are no JSON, or not of their form, change nothing."""
    before = run("services", "--json").output
    for text in ("{", "[]", '{"stood": [{}]}', '{"stood": [], "when": 1}', '{"stood": [], "guests": "x"}'):
        (tmp_path / "stood.json").write_text(text)
        result = run("service", "close", "2026-11-24", "dinner", "--stood", str(tmp_path / "stood.json"))
        assert result.exit_code == 2
        assert "does not say who stood where" in result.output
    assert run("services", "set", str(tmp_path / "stood.json")).exit_code == 3
    assert run("services", "--json").output == before
