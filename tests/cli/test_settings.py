"""The kitchen's settings at the command line."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from tests.cli.conftest import Run
from trainer.store.kitchen_file import KitchenFile


def test_settings_are_shown_and_changed(run: Run, demo: Path) -> None:
    """Those that are named; the book says so as it did at its beginning, and the board of a past day is the same."""
    assert "time zone: America/New_York" in run("settings").output
    before = run("board", "--on", "2026-03-01", "--json").output
    changed = run("settings", "--timezone", "America/Los_Angeles", "--decimal-mark", ",")
    assert changed.exit_code == 0, changed.output
    assert "Changed. Entry" in changed.output
    assert "time zone: America/Los_Angeles" in changed.output
    assert run("board", "--on", "2026-03-01", "--json").output == before
    with closing(KitchenFile.open(demo)) as file:
        zones = [entry.body["zone"] for entry in file.book.of_kind("kitchen_set")]
    assert zones == ["America/New_York", "America/Los_Angeles"]


def test_a_zone_there_is_not_is_refused_by_its_name(run: Run) -> None:
    """With exit code 3, and nothing is changed."""
    refused = run("settings", "--timezone", "Mars/Olympus")
    assert refused.exit_code == 3
    assert "There is no time zone 'Mars/Olympus'." in refused.output
    assert "time zone: America/New_York" in run("settings").output


def test_devices_are_listed_with_their_owners(run: Run, demo: Path) -> None:
    """Whose own phone one is, and which are shared; one that was revoked is not in use."""
    with closing(KitchenFile.open(demo)) as file:
        manager = next(iter(file.people.all()))
        at = file.book.head().at
        assert at is not None
        phone, _ = file.devices.enrol("Little phone", manager, at)
        gone, _ = file.devices.enrol("Lost phone", manager, at)
        file.devices.enrol("Pass tablet", manager, at)
        file.devices.give_to(phone.id, manager)
        file.devices.revoke(gone.id, at)
        name = file.people.all()[manager].name
    lines = run("device", "list").output.splitlines()
    assert any(line.startswith(f"Little phone: own phone of {name}, enrolled ") for line in lines)
    assert any(line.startswith("Pass tablet: shared, enrolled ") for line in lines)
    assert "Lost phone" not in "".join(lines)


def test_hours_no_shift_has_are_refused_at_the_command_line(run: Run) -> None:
    """With exit code 3, the value and the rule."""
    refused = run("settings", "--pin-hours", "13")
    assert refused.exit_code == 3
    assert "1 to 12 hours on one's own phone, not for 13" in refused.output
    assert "own phone: asking" in run("settings", "--own-phone", "asking").output


def test_the_limit_of_services_run_by_somebody_not_cleared_is_set(run: Run) -> None:
    """Ten in a hundred at first; none is refused with exit code 3 and the value, and what is set is printed."""
    assert "not cleared in 100: 10" in run("settings").output
    refused = run("settings", "--not-cleared-in-100", "0")
    assert refused.exit_code == 3
    assert "1 to 50 may be run by somebody not cleared, not 0." in refused.output
    assert "not cleared in 100: 5" in run("settings", "--not-cleared-in-100", "5").output


def test_a_house_names_its_services_at_the_command_line(run: Run) -> None:
    """Added with its hours, called otherwise, taken off and put back; the commands find it by its name."""
    added = run("settings", "--service", "Sunday brunch", "10:00", "14:30")
    assert added.exit_code == 0, added.output
    assert "services: breakfast, Sunday brunch, lunch and dinner" in added.output
    assert "breakfast, Jazz brunch, lunch" in run("settings", "--call", "sunday brunch", "Jazz brunch", "").output
    assert "breakfast, Jazz brunch and dinner" not in run("settings", "--take-off", "lunch").output
    assert "services: Jazz brunch, lunch and dinner" in run("settings", "--take-off", "breakfast").output
    assert "services: breakfast, Jazz brunch, lunch" in run("settings", "--put-back", "Breakfast").output
    shown = run("inspection", "--on", "2026-11-24", "--service", "JAZZ BRUNCH")
    assert shown.exit_code == 0, shown.output


def test_a_service_that_cannot_be_is_refused_at_the_command_line(run: Run) -> None:
    """By its name and the rule; a kitchen of the three shows its settings as ever."""
    refused = run("settings", "--service", "=1", "10:00", "14:30")
    assert (refused.exit_code, "a spreadsheet takes it for a formula" in refused.output) == (3, True)
    unknown = run("settings", "--call", "tea", "Tea", "")
    assert (unknown.exit_code, "There is no service 'tea'" in unknown.output) == (2, True)
    held = run("settings", "--take-off", "lunch")
    assert (held.exit_code, "Lunch is held: Saturdays, Sundays" in held.output) == (3, True)
    assert "services:" not in run("settings").output


def test_the_plan_and_a_closed_service_are_told_by_the_houses_name(run: Run) -> None:
    """In what people read; JSON keeps the id."""
    run("settings", "--call", "dinner", "Supper", "")
    assert "weekday 2 Supper 17:30-22:30" in run("services").output
    assert "Supper" in run("plan", "show", "--on", "2026-11-25").output
    assert '"service": "dinner"' in run("plan", "show", "--on", "2026-11-25", "--json").output
    closed = run("service", "close", "2026-11-24", "supper", "--as-planned")
    assert "Supper on 24 November 2026 is closed already" in closed.output
