"""One kitchen on the disk: a folder with its database and its key file, opened as one object."""

from __future__ import annotations

import os
import secrets
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from trainer.kitchen.spans import in_short
from trainer.messages import Text, joined, message
from trainer.store import settings as kept_settings
from trainer.store.book import Book
from trainer.store.book_check import BookCheck, check_end, verify_file
from trainer.store.calendar_feeds import CalendarFeeds
from trainer.store.connections import Connections, engine
from trainer.store.demo_cast import DemoCast
from trainer.store.disk import sync
from trainer.store.drafts import Drafts
from trainer.store.file_watch import damage_in_words
from trainer.store.first_codes import FirstCodes
from trainer.store.last_copy import last_copy
from trainer.store.people import People
from trainer.store.problems import CannotSave, DamagedKitchen, NotAKitchen
from trainer.store.recovery_sheets import RecoverySheets
from trainer.store.schema import EDITION, bring_up_to_date, edition_of
from trainer.store.sessions import Devices, Sessions
from trainer.store.settings import Settings
from trainer.store.shifts import Shifts
from trainer.store.throttle import Throttle
from trainer.store.words_seen import WordsSeen

DATABASE = "kitchen.db"
KEY_FILE = "secret_key"
KEY_BYTES = 32


class KitchenFile:
    """An open kitchen. Safe to share between threads: each has its own connection, and one writes at a time."""

    def __init__(self, folder: Path, connections: Connections, settings: Settings) -> None:
        """Use `KitchenFile.create` or `KitchenFile.open`."""
        kitchen = settings.kitchen
        self.folder = folder
        self.settings = settings
        self._connections = connections
        connections.watch.kitchen = kitchen
        self.book = Book(connections, kitchen, settings.timezone)
        self.people = People(connections, kitchen)
        self.sessions = Sessions(connections, kitchen)
        self.devices = Devices(connections, kitchen)
        self.throttle = Throttle(connections, kitchen)
        self.first_codes = FirstCodes(connections, kitchen)
        self.recovery_sheets = RecoverySheets(connections, kitchen)
        self.drafts = Drafts(connections, kitchen)
        self.shifts = Shifts(connections, kitchen, lambda: self.settings.services)
        self.calendar_feeds = CalendarFeeds(connections, kitchen)
        self.demo_cast = DemoCast(connections, kitchen)
        self.words_seen = WordsSeen(connections, kitchen)

    @classmethod
    def create(cls, folder: Path, settings: Settings) -> KitchenFile:
        """Return a new, empty kitchen in *folder*; a kitchen that is there already is never written over."""
        wrong = kept_settings.validate(settings)
        if wrong:
            raise ValueError(wrong)
        path = folder / DATABASE
        if path.exists():
            raise NotAKitchen(f"There is a kitchen in {folder} already. Name another folder, or use the one there.")
        _make_private_folder(folder)
        connections = Connections(path, make=True)
        own = replace(settings, kitchen=settings.kitchen or secrets.token_hex(8))
        try:
            bring_up_to_date(connections)
            kept_settings.keep(connections, own)
            path.chmod(0o600)
        except BaseException:
            connections.close()
            path.unlink(missing_ok=True)
            raise
        return cls(folder, connections, own)

    @classmethod
    def open(cls, folder: Path, *, copy_first: bool = True) -> KitchenFile:
        """Return the kitchen in *folder*, its tables brought up to date; raise a `KitchenProblem` that says why not.

        A file of an older program is copied whole first, unless *copy_first* says that it is a copy itself.
        """
        path = folder / DATABASE
        if not path.is_file():
            raise NotAKitchen(
                f"There is no kitchen in {folder}. Make one with: trainer new, or: trainer demo. "
                "One that was lost comes back with: trainer restore FILE"
            )
        connections = Connections(path)
        try:
            if path.stat().st_size == 0:
                raise DamagedKitchen(
                    f"{path} is empty: it was cut short. Take the last good backup with: trainer restore FILE"
                )
            if copy_first and 0 < edition_of(connections) < EDITION:
                _copy_before_new_tables(cls(folder, connections, kept_settings.kept(connections)))
            bring_up_to_date(connections)
            opened = cls(folder, connections, kept_settings.kept(connections))
            connections.watch.begin_at(*opened.book.end())
            return opened
        except BaseException:
            connections.close()
            raise

    @property
    def path(self) -> Path:
        """Return where the database is."""
        return self.folder / DATABASE

    def change_settings(self, settings: Settings) -> None:
        """Keep new settings; the kitchen's id stays."""
        wrong = kept_settings.validate(settings)
        if wrong:
            raise ValueError(wrong)
        own = replace(settings, kitchen=self.settings.kitchen)
        kept_settings.keep(self._connections, own)
        self.settings = own
        self.book.timezone = own.timezone

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Hold one transaction: all that is written in the body is kept, or none of it."""
        with self._connections.writing():
            yield

    def reading_only(self) -> Text:
        """Return why nothing can be written to this kitchen, by a glance at its folder; "" where it can."""
        return self._connections.watch.reason_not_to_write()

    def check_while_open(self) -> BookCheck:
        """Return what a check of the whole book finds; from then on a damaged book is only read."""
        return self._only_read_if_damaged(self.verify())

    def check_end(self) -> BookCheck:
        """Return what a check of the last entries and the head finds, at once; a damaged book is only read then."""
        return self._only_read_if_damaged(check_end(self.path, self.settings.kitchen))

    def _only_read_if_damaged(self, found: BookCheck) -> BookCheck:
        """Refuse every write from now on where a check found damage: the reason names the last good copy."""
        if found.problems:
            self._connections.watch.stop_writing(joined([damage_in_words(found), self._last_good_copy()], " "))
        return found

    def _last_good_copy(self) -> Text:
        """Return in one sentence when the last copy was made, whose book was checked then."""
        found = last_copy(self.folder)
        made = found.made()
        if made is None:
            return message("No backup of it is known.")
        here = made.astimezone(ZoneInfo(self.settings.timezone))
        return message(
            "Last good backup: {day} {time}, {entries} entries.",
            day=in_short(here.date(), with_year=True),
            time=f"{here:%H:%M}",
            entries=f"{found.entries:,}",
        )

    def secret_key(self) -> bytes:
        """Return the kitchen's own secret key, made at the first call; refused if others on the machine can read it."""
        path = self.folder / KEY_FILE
        if not path.exists():
            _write_private(path, secrets.token_bytes(KEY_BYTES))
        if os.name == "posix" and path.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO):
            raise NotAKitchen(f"Others can read {path}. Make it private first: chmod 600 {path}")
        return path.read_bytes()

    def verify(self, kept_head: str = "") -> BookCheck:
        """Return what a check of the whole book finds; see `trainer.store.book.verify_file`."""
        return self.book.verify(kept_head)

    def back_up(self, target: Path) -> None:
        """Write a whole copy to *target* while others go on writing; the copy appears complete or not at all."""
        part = target.with_name(target.name + ".part")
        part.unlink(missing_ok=True)
        try:
            _copy(self._connections, part)
            sync(part)
            part.replace(target)
            sync(target.parent)
        except engine.Error as problem:
            raise CannotSave(f"The copy could not be written ({problem}).") from problem
        finally:
            part.unlink(missing_ok=True)

    def wipe(self) -> None:
        """Make sure that what was just erased is nowhere in the file nor in its journal."""
        self._connections.wipe()

    def close(self) -> None:
        """Close every connection."""
        self._connections.close()


def verify_folder(folder: Path, kept_head: str = "") -> BookCheck:
    """Return what a check of a kitchen's book finds, even where the kitchen is too damaged to be opened."""
    return verify_file(folder / DATABASE, kept_head)


def _copy_before_new_tables(file: KitchenFile) -> None:
    """Keep a copy of a kitchen of an older program, checked, before its tables change; raise where none can be kept.

    It is named by the edition to come and by when the file was last written, and no copy made later takes its place. It
    lies with the other copies, or in the kitchen's own folder where nothing can be written beside that.
    """
    from trainer.store.backup import BEFORE_EDITION, back_up, backups_of

    written = datetime.fromtimestamp(file.path.stat().st_mtime, UTC)
    problem: Exception | None = None
    for into in (backups_of(file.folder), file.folder / "backups"):
        try:
            back_up(file, into, written, f"{BEFORE_EDITION}-{EDITION}")
        except DamagedKitchen as found:
            words = f"{found} It is not brought up to date. Take the last good backup with: trainer restore FILE"
            raise DamagedKitchen(words) from found
        except OSError as found:
            problem = problem or found
        else:
            return
    raise CannotSave(
        f"{file.path} is of an older program, and is brought up to date only after a copy of it: that could not be "
        f"written ({problem}). Nothing was changed. Free some room on the disk, then start again"
    )


def _make_private_folder(folder: Path) -> None:
    """Make the folder, for its owner alone."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)


def _write_private(path: Path, content: bytes) -> None:
    """Write a new file that only its owner can read; a file that another person wrote first is left as it is."""
    part = path.with_name(f"{path.name}.{secrets.token_hex(4)}")
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if not path.exists():
            part.replace(path)
    finally:
        part.unlink(missing_ok=True)


def _copy(connections: Connections, target: Path) -> None:
    """Copy a live database with the engine's own backup call: copying the file itself can tear it."""
    copy = engine.connect(str(target))
    try:
        connections.borrowed().backup(copy)
        copy.execute("PRAGMA journal_mode=DELETE")
    finally:
        copy.close()
