"""Puts a copy back: what would be lost is known first, the copy is whole first, and what it replaces is kept aside."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

from trainer.kitchen.book import LOCAL, THE_BOOK, NewEntry
from trainer.kitchen.short_head import ShortHead
from trainer.kitchen.tree import leaf_of, peaks_of, root_of
from trainer.store.backup import CONTENT, Manifest, unpack
from trainer.store.connections import BUSY_SECONDS
from trainer.store.disk import sync
from trainer.store.engine import engine
from trainer.store.identity import new_id
from trainer.store.kitchen_file import DATABASE, KitchenFile
from trainer.store.problems import BadCopy, CannotSave

BELONGINGS = (DATABASE, f"{DATABASE}-wal", f"{DATABASE}-shm", f"{DATABASE}-journal", CONTENT)


@dataclass(frozen=True, slots=True)
class LostEntry:
    """An entry that is in the kitchen now and not in the copy."""

    seq: int
    at: str
    kind: str
    cook: str
    by: str


@dataclass(frozen=True, slots=True)
class Losses:
    """What putting a copy back would lose. `is_readable` is whether the book that is there could be read to its end.

    `head` is the short head of that book, as far as it could be read.
    """

    there: int
    entries: tuple[LostEntry, ...]
    kitchen: str = ""
    is_readable: bool = True
    head: str = ""


class Restore:
    """A copy unpacked beside the kitchen and found whole. Use `ready` to get one."""

    def __init__(self, folder: Path, room: Path, manifest: Manifest) -> None:
        self.folder = folder
        self.manifest = manifest
        self._room = room

    @classmethod
    @contextmanager
    def ready(cls, archive: Path, folder: Path) -> Iterator[Restore]:
        """Unpack a copy and check it whole; what is not put in place by the end is deleted again."""
        is_new = not folder.exists()
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        room = Path(mkdtemp(prefix=".restoring-", dir=folder))
        try:
            manifest = unpack(archive, room / "new")
            _open_once(room / "new")
            yield cls(folder, room / "new", manifest)
        finally:
            shutil.rmtree(room, ignore_errors=True)
            if is_new:
                with suppress(OSError):
                    folder.rmdir()  # only where it is empty

    def losses(self) -> Losses:
        """Return what is in the kitchen now and not in the copy."""
        return _losses(self.folder / DATABASE, self._room / DATABASE)

    def is_over_something(self) -> bool:
        """Return whether there is anything in the folder that would be replaced."""
        return any((self.folder / name).exists() for name in BELONGINGS)

    def put_in_place(self, agreed: Losses, at: datetime) -> Path | None:
        """Put the copy in place; return the folder with what was there, or None where nothing was.

        Anyone who writes waits meanwhile. Where entries are lost, the book put back says so in its next entry. Raise
        `BadCopy` where something was written since the losses were agreed to.
        """
        if not self.is_over_something():
            self._move_in()
            return None
        aside = self._room_aside(at)
        with _nobody_writes(self.folder / DATABASE):
            now = self.losses()
            if len(now.entries) != len(agreed.entries):
                more = f"{len(now.entries)} entries would be lost now, not {len(agreed.entries)}"
                aside.rmdir()
                raise BadCopy(f"Somebody wrote in the book meanwhile: {more}. Stop the server, then try again.")
            _enter_losses(self._room, now, at)
            moved = self._move_aside(aside)
            try:
                self._move_in()
            except OSError:
                for path in moved:
                    (aside / path.name).rename(path)
                raise
        return aside

    def _room_aside(self, at: datetime) -> Path:
        """Return a new folder for what is replaced, named by the moment."""
        named = self.folder / f"replaced-{at.astimezone(UTC):%Y-%m-%dT%H-%M-%SZ}"
        number = 1
        while (aside := named if number == 1 else named.with_name(f"{named.name}-{number}")).exists():
            number += 1
        aside.mkdir(mode=0o700)
        return aside

    def _move_aside(self, aside: Path) -> list[Path]:
        """Move what is there into the folder aside, the database and its journal together.

        Content stays where the copy has none: what is taught never goes because a copy does not have it.
        """
        moved = []
        replaced = [name for name in BELONGINGS if name != CONTENT or (self._room / name).exists()]
        for path in (self.folder / name for name in replaced):
            if path.exists() or path.is_symlink():
                path.rename(aside / path.name)
                moved.append(path)
        return moved

    def _move_in(self) -> None:
        """Move the copy's files to their places, the database last: without it there is no kitchen."""
        for name in (CONTENT, DATABASE):
            if (self._room / name).exists():
                (self._room / name).rename(self.folder / name)
        sync(self.folder)


def _open_once(folder: Path) -> None:
    """Open a kitchen just unpacked, its tables brought up to date, and sign everybody out of it."""
    file = KitchenFile.open(folder, copy_first=False)
    try:
        file.sessions.close_all()
    finally:
        file.close()


def _enter_losses(folder: Path, losses: Losses, at: datetime) -> None:
    """Write into the book about to be put back which entries are lost by that, no earlier than its last entry."""
    if not losses.entries:
        return
    file = KitchenFile.open(folder, copy_first=False)
    try:
        body = {"lost_from": losses.entries[0].seq, "lost_to": losses.entries[-1].seq, "head": losses.head}
        when = max(at, file.book.last_at() or at)
        file.book.append(NewEntry("book_restored", when, THE_BOOK, LOCAL, body, new_id(at)))
    finally:
        file.close()


@contextmanager
def _nobody_writes(path: Path) -> Iterator[None]:
    """Hold the write lock of a database, where there is one that can be locked."""
    connection: Any = None
    try:
        if path.is_file() and path.stat().st_size:
            connection = engine.connect(
                f"{path.resolve().as_uri()}?mode=rw", uri=True, timeout=BUSY_SECONDS, isolation_level=None
            )
            with suppress(engine.DatabaseError):
                _lock(connection)
        yield
    finally:
        if connection is not None:
            connection.close()


def _lock(connection: Any) -> None:  # noqa: ANN401 - either SQLite module's connection
    """Take the write lock; raise `CannotSave` where another person keeps it. A damaged file has none to take."""
    try:
        connection.execute("BEGIN IMMEDIATE")
    except engine.OperationalError as problem:
        if "locked" in str(problem):
            raise CannotSave("somebody writes in the book all the time; stop the server first") from problem


def _losses(there: Path, copy: Path) -> Losses:
    """Return the entries of one book that another lacks: all from the first on which they differ."""
    if not there.is_file() or not there.stat().st_size:
        return Losses(0, ())
    own, is_readable = _entries(there)
    kept = {entry[0]: entry[1] for entry in _entries(copy)[0]}
    same = 0
    for seq, own_hash, *_ in own:
        if kept.get(seq) != own_hash:
            break
        same += 1
    lost = tuple(LostEntry(seq, *(str(text) for text in rest)) for seq, _, _, *rest in own[same:])
    return Losses(len(own), lost, str(own[0][2]) if own else "", is_readable, _head_of([each[1] for each in own]))


def _head_of(hashes: list[str]) -> str:
    """Return the short head of a book, from its entries' hashes; "" for one without entries, or with a damaged hash."""
    try:
        root = root_of(peaks_of(map(leaf_of, hashes)))
    except ValueError:
        return ""
    return ShortHead.of(len(hashes), root).as_text() if hashes else ""


def _entries(path: Path) -> tuple[list[tuple[Any, ...]], bool]:
    """Return the entries of a book, as many as can be read, with people by name; and whether that was all of them."""
    sql = (
        "SELECT book.seq, book.hash, book.kitchen, book.at, book.kind, coalesce(about.name, book.cook),"
        ' coalesce(doing.name, book."by") FROM book'
        " LEFT JOIN people AS about ON about.kitchen = book.kitchen AND about.id = book.cook"
        ' LEFT JOIN people AS doing ON doing.kitchen = book.kitchen AND doing.id = book."by" ORDER BY book.seq'
    )
    found: list[tuple[Any, ...]] = []
    connection: Any = None
    try:
        connection = engine.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True, timeout=BUSY_SECONDS)
        connection.text_factory = lambda raw: raw.decode("utf-8", "replace")
        for row in connection.execute(sql):
            found.append(row)
    except engine.Error:
        return found, False
    finally:
        if connection is not None:
            connection.close()
    return found, True
