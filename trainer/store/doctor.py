"""What could cost a kitchen its book, looked for before it does: one check a fault, each with what to do.

Nothing is changed, and a kitchen that cannot be opened is looked at all the same.
"""

from __future__ import annotations

import json
import os
import stat
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from trainer.kitchen.short_head import ShortHead, read_short_head, says_what_was_lost
from trainer.kitchen.tree import leaf_of, peaks_of, root_of
from trainer.messages import translate
from trainer.store.backup import backups_of, copies_in, unpack
from trainer.store.book_check import verify_file
from trainer.store.book_walk import GUARDS_LOST
from trainer.store.connections import wal_is_sound
from trainer.store.device_heads import device_heads
from trainer.store.engine import engine
from trainer.store.identity import moment
from trainer.store.kitchen_file import DATABASE, KEY_FILE
from trainer.store.last_copy import last_copy
from trainer.store.machine import clock_is_kept_right, disk_of
from trainer.store.problems import BadCopy
from trainer.store.reading import reading

COPY_IS_OLD = timedelta(days=2)
CLOCK_MAY_LAG = timedelta(minutes=1)
NETWORK_DISKS = frozenset({"nfs", "nfs4", "cifs", "smb3", "smbfs", "ncpfs", "afs", "ceph", "glusterfs", "9p", "davfs"})


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault: its name for scripts, what was found, and what to do."""

    name: str
    what: str
    act: str


@dataclass(frozen=True, slots=True)
class Patient:
    """The kitchen looked at, by its folder, and the moment."""

    folder: Path
    now: datetime

    @property
    def database(self) -> Path:
        """Return where the book is."""
        return self.folder / DATABASE

    def read(self, sql: str) -> list[tuple[Any, ...]]:
        """Return the rows of a query; none where the file or its tables cannot be read."""
        try:
            with reading(self.database) as file:
                return list(file.execute(sql))
        except engine.Error:
            return []


Check = Callable[[Patient], Iterable[Finding]]


def examine(patient: Patient, checks: Iterable[Check]) -> tuple[Finding, ...]:
    """Return everything the checks find, in their order."""
    return tuple(finding for check in checks for finding in check(patient))


def old_library(patient: Patient) -> Iterator[Finding]:
    """Find a SQLite library in which write-ahead logging can lose entries."""
    del patient
    if not wal_is_sound(engine.sqlite_version_info):
        yield Finding(
            "old_library",
            f"This SQLite library ({engine.sqlite_version}) has a fault in its fast journal; the slower one is used.",
            "Install the newer library: pip install pysqlite3-binary",
        )


def network_disk(patient: Patient) -> Iterator[Finding]:
    """Find a kitchen on a disk of another machine, where locks and syncs do not hold what they promise."""
    kind = disk_of(patient.folder)
    if kind in NETWORK_DISKS or kind.startswith("fuse."):
        yield Finding(
            "network_disk",
            f"The kitchen's folder is on a network disk ({kind}): two writers at once can tear the book.",
            "Move the folder to a disk of this machine, and make copies to the network: trainer backup DIR",
        )


def readable_file(patient: Patient) -> Iterator[Finding]:
    """Find a book or a key that others on the machine can read."""
    if os.name != "posix":
        return
    for path in (patient.database, patient.folder / KEY_FILE):
        if path.exists() and path.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO):
            what = f"Others on this machine can read {path.name}: names, birth dates, or the key of every sign-in."
            yield Finding("readable_file", what, f"chmod 600 {path}")


def book(patient: Patient) -> Iterator[Finding]:
    """Find guards that are lost or read otherwise, and whatever else the check of the whole book finds."""
    check = verify_file(patient.database)
    if any(problem.problem is GUARDS_LOST for problem in check.in_file):
        yield Finding(
            "guards",
            "The guards that refuse changes to the book are not all there, or were changed.",
            "Somebody changed the file past this program. Take the last good backup with: trainer restore FILE",
        )
    others = [problem for problem in check.problems if problem.problem is not GUARDS_LOST and not problem.is_of_text]
    if others:
        first = others[0]
        yield Finding(
            "book",
            f"The book is damaged at entry {first.seq}: {translate(first.problem)} ({len(others)} problems).",
            "See them all with: trainer book verify. Take the last good backup with: trainer restore FILE",
        )


def clock(patient: Patient) -> Iterator[Finding]:
    """Find a clock behind the last entry, and one that nothing keeps right."""
    for (at,) in patient.read("SELECT max(at) FROM book"):
        if at and moment(at) - patient.now > CLOCK_MAY_LAG:
            what = f"This machine's clock is behind the last entry ({at[:16]}). Nothing can be saved until then."
            yield Finding("clock_behind", what, "Set the clock right.")
    if clock_is_kept_right() is False:
        what = "No time server keeps this machine's clock right: entries could get a wrong day."
        yield Finding(
            "clock_unchecked", what, "Turn on the time service of the system (on Linux: timedatectl set-ntp true)."
        )


def copies(patient: Patient) -> Iterator[Finding]:
    """Find that there is no copy, an old one, one that is gone or not whole, or a night that made none."""
    known = last_copy(patient.folder)
    path = Path(known.path) if known.path else _newest_of(backups_of(patient.folder))
    is_demo = any(row[0] for row in patient.read("SELECT is_demo FROM settings"))
    if path is None:
        if not is_demo:
            yield Finding(
                "no_copy", "This kitchen was never copied.", "Make a copy on another disk: trainer backup DIR"
            )
        return
    made = known.made() or moment(path.stem.split("-", 1)[1][:10])
    if patient.now - made > COPY_IS_OLD and not is_demo:
        what = f"The last copy is of {made:%Y-%m-%d}."
        yield Finding("old_copy", what, "Make one now: trainer backup. Leave trainer serve on at night: it makes them.")
    if known.failed:
        what = f"A copy could not be made on {known.failed_at[:16]}: {known.failed}"
        yield Finding("failed_copy", what, "Put that right, then: trainer backup")
    yield from _not_whole(path)


def _newest_of(folder: Path) -> Path | None:
    """Return the newest copy in a folder, or None."""
    found = [*copies_in(folder), *copies_in(folder, "nightly")]
    return max(found, key=lambda path: path.name.split("-", 1)[1], default=None)


def _not_whole(path: Path) -> Iterator[Finding]:
    """Find a copy that is gone, or that could not be put back."""
    if not path.is_file():
        yield Finding(
            "lost_copy", f"The last copy is not in its place any more: {path}", "Make one now: trainer backup"
        )
        return
    try:
        with TemporaryDirectory(prefix="trainer-") as room:
            unpack(path, Path(room) / "tried")
    except (BadCopy, OSError) as problem:
        what = f"The last copy could not be put back: {path.name}: {problem}"
        yield Finding("broken_copy", what, "Make one now: trainer backup. Keep an older one until it is done.")


def missing_papers(patient: Patient) -> Iterator[Finding]:
    """Find entries that name a text by its digest that is not there, and that nobody dropped."""
    lost = [problem.seq for problem in verify_file(patient.database).problems if problem.is_of_text]
    if lost:
        more = f" and {len(lost) - 1} more" if len(lost) > 1 else ""
        what = f"A text that entry {lost[0]}{more} names is not beside the book, and no entry says that it was dropped."
        yield Finding("missing_paper", what, "Take the last good backup with: trainer restore FILE")


def heads_of_devices(patient: Patient) -> Iterator[Finding]:
    """Find heads that devices reported and the book does not have, where it does not say what was lost."""
    reported = [(each, read_short_head(each.head)) for each in device_heads(patient.folder)]
    if not reported:
        return
    hashes = [row[0] for row in patient.read("SELECT hash FROM book ORDER BY seq")]
    lost = [json.loads(row[0]) for row in patient.read("SELECT body FROM book WHERE kind = 'book_restored'")]
    for each, head in reported:
        if not isinstance(head, ShortHead) or any(says_what_was_lost(body, head.size) for body in lost):
            continue
        root = root_of(peaks_of(map(leaf_of, hashes[: head.size])))
        if len(hashes) >= head.size and ShortHead.of(head.size, root) == head:
            continue
        what = (
            f"The device {each.device} has seen {head.size:,} entries with the check value {each.head}"
            f" ({each.at[:16]}); the book has {len(hashes):,} now, and not these."
        )
        act = "Put the right file back: trainer restore FILE. Or say on that device, as a manager, what was lost."
        yield Finding("device_head", what, act)


CHECKS: tuple[Check, ...] = (
    old_library,
    network_disk,
    readable_file,
    book,
    clock,
    copies,
    heads_of_devices,
    missing_papers,
)
"""Every check of a kitchen's files; one that needs more than this floor knows is added where the command is."""
