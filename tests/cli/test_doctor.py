"""`trainer doctor`: every fault that was seeded is found by its name, and a sound kitchen has none."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.store.kitchens import NOON, deed, new_kitchen, tampered
from trainer import clock
from trainer.cli import trainer
from trainer.kitchen.book import NewEntry, digest_of
from trainer.kitchen.short_head import ShortHead
from trainer.store import doctor, machine
from trainer.store.backup import back_up
from trainer.store.device_heads import note_device_head
from trainer.store.kitchen_file import KitchenFile
from trainer.store.last_copy import note_failure

NAME = b'{"name":"Ana Pardo","salt":"00"}'
LOCAL_DISK = "27 1 254:1 / / rw,relatime - ext4 /dev/vda1 rw\n"
NETWORK = "40 27 0:50 / {folder} rw,relatime shared:1 - {kind} server:/share rw\n"


def examined(folder: Path, *options: str) -> Result:
    """Return what the command says of a kitchen."""
    return CliRunner().invoke(trainer, ["--kitchen", str(folder), "doctor", *options])


def names_found(folder: Path) -> list[str]:
    """Return the names of what was found."""
    return [each["name"] for each in json.loads(examined(folder, "--json").output)["findings"]]


@pytest.fixture
def sound(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a kitchen with nothing wrong, on a sound machine, copied an hour ago."""
    mounts = tmp_path / "mounts"
    mounts.write_text(LOCAL_DISK)
    monkeypatch.setattr(machine, "MOUNTS", mounts)
    monkeypatch.setattr(doctor, "clock_is_kept_right", lambda: True)
    monkeypatch.setattr(doctor, "wal_is_sound", lambda _: True)
    monkeypatch.setattr(clock, "now", lambda: NOON + timedelta(hours=1))
    file = new_kitchen(tmp_path / "kitchen")
    named = NewEntry("person_named", NOON, "ana", "cleo", {"name": digest_of(NAME)}, "named", papers=(NAME,))
    file.book.append(named)
    file.book.append(deed(1))
    file.secret_key()
    back_up(file, tmp_path / "copies", NOON)
    file.close()
    return tmp_path / "kitchen"


def test_a_sound_kitchen_has_no_finding(sound: Path) -> None:
    """Exit code 0, one line; and no file of the kitchen is changed by it."""
    before = {path: path.stat().st_mtime_ns for path in sound.iterdir()}
    result = examined(sound)
    assert (result.exit_code, result.output.count("\n")) == (0, 1)
    assert "Nothing found" in result.output
    assert names_found(sound) == []
    assert {path: path.stat().st_mtime_ns for path in before} == before


def change(sound: Path, *statements: str, keep_guards: bool = True) -> None:
    """Change the book as its owner could, past the program."""
    tampered(sound / "kitchen.db", *statements, keep_guards=keep_guards).replace(sound / "kitchen.db")


def seed_old_library(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Use a SQLite library with the fault."""
    patch.setattr(doctor, "wal_is_sound", lambda _: False)


def seed_network(kind: str) -> Callable[[Path, pytest.MonkeyPatch], None]:
    """Return what puts the kitchen on another machine's disk."""

    def seed(sound: Path, patch: pytest.MonkeyPatch) -> None:
        machine.MOUNTS.write_text(LOCAL_DISK + NETWORK.format(folder=sound.resolve(), kind=kind))

    return seed


def seed_clock(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Set the clock two hours back."""
    patch.setattr(clock, "now", lambda: NOON - timedelta(hours=2))


def seed_long_ago(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Let three days pass with no copy."""
    patch.setattr(clock, "now", lambda: NOON + timedelta(days=3))


def copy_in(sound: Path) -> Path:
    """Return the kitchen's one copy."""
    (copy,) = (sound.parent / "copies").iterdir()
    return copy


def no_copy(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Forget that a copy was made."""
    (sound / "last_copy.json").unlink()


def broken(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Flip a bit in the middle of the copy."""
    data = bytearray(copy_in(sound).read_bytes())
    data[len(data) // 2] ^= 1
    copy_in(sound).write_bytes(data)


def changed_guard(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Leave a guard of the same name that guards nothing."""
    no_guard = "CREATE TRIGGER book_is_never_changed BEFORE UPDATE ON book WHEN 0 BEGIN SELECT 1; END"
    path = tampered(sound / "kitchen.db")
    change(path.parent, keep_guards=False)
    file = KitchenFile.open(sound)
    file._connections.write(no_guard)
    file.close()
    path.unlink(missing_ok=True)


def other_head(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Let a device report two entries that are not the book's, and more entries than it has."""
    file = KitchenFile.open(sound)
    root = file.book.head().root
    file.close()
    right = ShortHead.of(2, root)
    note_device_head(sound, "Pass tablet", right.as_text(), NOON)
    assert names_found(sound) == []
    note_device_head(sound, "Grill phone", ShortHead(2, right.bits ^ 1).as_text(), NOON)


def longer_head(sound: Path, patch: pytest.MonkeyPatch) -> None:
    """Let a device report more entries than the book has."""
    note_device_head(sound, "Pass tablet", ShortHead(9, 5).as_text(), NOON)


FAULTS: dict[str, tuple[Callable[[Path, pytest.MonkeyPatch], object], str]] = {
    "library": (seed_old_library, "old_library"),
    "nfs": (seed_network("nfs4"), "network_disk"),
    "sshfs": (seed_network("fuse.sshfs"), "network_disk"),
    "book to others": (lambda sound, _: (sound / "kitchen.db").chmod(0o644), "readable_file"),
    "key to others": (lambda sound, _: (sound / "secret_key").chmod(0o640), "readable_file"),
    "guards": (lambda sound, _: change(sound, keep_guards=False), "guards"),
    "guard of the same name": (changed_guard, "guards"),
    "entry": (lambda sound, _: change(sound, "UPDATE book SET cook = 'bo' WHERE seq = 2"), "book"),
    "clock": (seed_clock, "clock_behind"),
    "no time server": (lambda _, patch: patch.setattr(doctor, "clock_is_kept_right", lambda: False), "clock_unchecked"),
    "old copy": (seed_long_ago, "old_copy"),
    "no copy": (no_copy, "no_copy"),
    "copy gone": (lambda sound, _: copy_in(sound).unlink(), "lost_copy"),
    "copy damaged": (broken, "broken_copy"),
    "night failed": (lambda sound, _: note_failure(sound, NOON, "No space left on device"), "failed_copy"),
    "head of a device": (other_head, "device_head"),
    "book cut": (longer_head, "device_head"),
    "text gone": (lambda sound, _: change(sound, "DELETE FROM papers"), "missing_paper"),
}


@pytest.mark.parametrize(("seed", "name"), FAULTS.values(), ids=FAULTS)
def test_a_seeded_fault_is_found_by_its_name(
    sound: Path, monkeypatch: pytest.MonkeyPatch, seed: Callable[[Path, pytest.MonkeyPatch], object], name: str
) -> None:
    """Each alone: its name, what to do, exit code 1; and nothing else is found."""
    seed(sound, monkeypatch)
    result = examined(sound)
    assert result.exit_code == 1
    assert result.output.startswith(f"{name}: ")
    assert names_found(sound) == [name]
    assert all(each["act"] for each in json.loads(examined(sound, "--json").output)["findings"])


def test_faults_do_not_hide_one_another(sound: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Seven at once: seven names."""
    for fault in ("library", "nfs", "key to others", "clock", "copy damaged", "book cut", "text gone"):
        FAULTS[fault][0](sound, monkeypatch)
    names = ["old_library", "network_disk", "readable_file", "clock_behind", "broken_copy", "device_head"]
    names.append("missing_paper")
    assert names_found(sound) == names


def test_a_head_the_book_says_was_lost_is_no_fault(sound: Path) -> None:
    """`book_restored` names the entries that were lost with it."""
    note_device_head(sound, "Pass tablet", ShortHead(9, 5).as_text(), NOON)
    file = KitchenFile.open(sound)
    body = {"lost_from": 3, "lost_to": 9, "head": ""}
    file.book.append(NewEntry("book_restored", NOON, "book", "local", body, "restored"))
    file.close()
    assert names_found(sound) == []


def test_what_cannot_be_read_of_the_reports_is_no_report(sound: Path) -> None:
    """A file somebody tore; and a report that was made before is kept once."""
    (sound / "device_heads.json").write_text('[{"device": ')
    assert names_found(sound) == []
    for _ in range(2):
        note_device_head(sound, "Pass tablet", ShortHead(9, 5).as_text(), NOON)
    assert names_found(sound) == ["device_head"]


def test_a_text_that_was_dropped_is_not_missed(sound: Path) -> None:
    """Erasing a person takes their texts away, and an entry says so."""
    file = KitchenFile.open(sound)
    file.book.append(replace(deed(2), kind="locked_out"))
    file.close()
    row = f"UPDATE book SET kind = 'paper_dropped', body = json_object('digest', '{digest_of(NAME)}') WHERE seq = 3"  # noqa: S608
    change(sound, "DELETE FROM papers", row)
    assert "missing_paper" not in names_found(sound)


def test_a_folder_without_a_kitchen_is_said_so(sound: Path, tmp_path: Path) -> None:
    """No traceback where there is nothing to look at."""
    assert names_found(tmp_path / "none") == ["book", "no_copy"]


@pytest.mark.skipif(os.name != "posix", reason="no table of mounts")
def test_the_longest_mount_above_a_folder_counts_and_blanks_stand_as_octal_figures(tmp_path: Path) -> None:
    """proc(5), /proc/pid/mountinfo: the file system's type follows a dash; a blank in a path is written 040."""
    mounts = tmp_path / "mounts"
    rows = (
        LOCAL_DISK,
        NETWORK.format(folder="/srv/our\\040kitchens", kind="cifs"),
        NETWORK.format(folder="/s", kind="9p"),
    )
    mounts.write_text("".join(rows))
    assert machine.disk_of(Path("/srv/our kitchens/one"), mounts) == "cifs"
    assert machine.disk_of(Path("/srv/our"), mounts) == "ext4"
    assert machine.disk_of(Path("/srv"), tmp_path / "none") == ""
