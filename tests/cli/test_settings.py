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
