"""A kitchen in one file: its database and its own content, with a manifest, checked before the file gets its name."""

from __future__ import annotations

import hashlib
import json
import os
import re
import stat
import zipfile
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import IO

from trainer.messages import joined, translate
from trainer.store.book_check import verify_file
from trainer.store.disk import sync
from trainer.store.file_watch import damage_in_words
from trainer.store.kitchen_file import DATABASE, KitchenFile
from trainer.store.last_copy import LastCopy, note_copy
from trainer.store.problems import BadCopy, CannotSave, DamagedKitchen

MANIFEST, CONTENT = "manifest.json", "content"
FORMAT = 2
NAMED = re.compile(r"([a-z0-9-]+?)-(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ)(?:-(\d+))?\.zip")
BY_HAND, NIGHTLY, BEFORE_EDITION = "kitchen", "nightly", "before-edition"
"""What the name of a copy begins with: one asked for, one a server made, one made before new tables."""
ALWAYS = (1980, 1, 1, 0, 0, 0)  # every member's date, so that the same kitchen makes the same bytes
PIECE = 1 << 20


@dataclass(frozen=True, slots=True)
class Member:
    """One file in a copy."""

    name: str
    size: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a copy holds: whose kitchen, how many entries, the last one's hash, the head as printed, and every file.

    A copy of format 1 does not say the head as printed: "".
    """

    format: int
    kitchen: str
    name: str
    entries: int
    head: str
    short_head: str
    files: tuple[Member, ...]


def backups_of(folder: Path) -> Path:
    """Return where a kitchen's copies go if nobody says where: beside its folder, so as not to be lost with it.

    >>> backups_of(Path("/srv/our-kitchen")).name, backups_of(Path("/srv/.kitchen")).name
    ('our-kitchen-backups', 'kitchen-backups')
    """
    own = folder.resolve()
    return own.with_name(f"{own.name.lstrip('.')}-backups")


def copies_in(folder: Path, named: str = BY_HAND) -> list[Path]:
    """Return the copies of one sort in a folder, the oldest first, by the moment in their names."""
    found = ((NAMED.fullmatch(path.name), path) for path in folder.glob("*.zip"))
    own = [(match[2], int(match[3] or 1), path) for match, path in found if match and match[1] == named]
    return [path for _, _, path in sorted(own)]


def back_up(file: KitchenFile, into: Path, at: datetime, named: str = BY_HAND) -> tuple[Path, Manifest]:
    """Return a new copy of an open kitchen in a folder, and what it holds; others go on writing meanwhile.

    The copy is read back and its book checked before it gets its name; an earlier copy is never written over. The
    kitchen's folder says afterwards when and where it was made.
    """
    try:
        into.mkdir(parents=True, exist_ok=True, mode=0o700)
        with TemporaryDirectory(prefix=".copying-", dir=into) as room:
            path = Path(room) / "copy.zip"
            manifest = _written(file, path)
            unpack(path, Path(room) / "tried")
            made = _named_at_last(path, into, f"{named}-{at.astimezone(UTC):%Y-%m-%dT%H-%M-%SZ}")
        note = LastCopy(at.isoformat(), str(made.resolve()), manifest.entries, manifest.short_head)
        note_copy(file.folder, note)
        return made, manifest
    except BadCopy as problem:
        raise CannotSave(
            f"The copy could not be read back as it was written ({problem}). Nothing was kept."
        ) from problem


def drop_older(folder: Path, kitchen: str, keep: int, named: str = BY_HAND) -> list[Path]:
    """Delete all but the newest copies of one kitchen and sort in a folder; return those deleted. Other files stay."""
    own = [path for path in copies_in(folder, named) if _is_of(path, kitchen)]
    for path in own[:-keep]:
        path.unlink()
    return own[:-keep]


def manifest_of(archive: zipfile.ZipFile) -> Manifest:
    """Return what a copy says it holds; raise `BadCopy` where it does not say so."""
    try:
        if archive.getinfo(MANIFEST).file_size > 20 * PIECE:
            raise BadCopy("Its manifest is too long.")
        said = json.loads(archive.read(MANIFEST))
        if said["format"] not in range(1, FORMAT + 1):
            raise BadCopy("It was written by a newer edition of this program. Use that one.")
        files = tuple(Member(str(each["name"]), int(each["size"]), str(each["sha256"])) for each in said["files"])
        kitchen, name, head = (str(said[key]) for key in ("kitchen", "name", "head"))
        short_head = str(said["short_head"]) if said["format"] > 1 else ""
        return Manifest(int(said["format"]), kitchen, name, int(said["entries"]), head, short_head, files)
    except (KeyError, TypeError, ValueError) as problem:
        raise BadCopy("It has no manifest that can be read.") from problem


def unpack(path: Path, into: Path) -> Manifest:
    """Return what a copy holds, unpacked into a new folder and whole: every file, and the book from end to end.

    Raise `BadCopy` for anything else: not a copy, damaged, or made to write outside the folder or to fill the disk.
    """
    from trainer.store.unpacking import unpacked

    manifest = unpacked(path, into)
    check = verify_file(into / DATABASE, manifest.head if manifest.entries else "")
    if check.problems or check.not_found:
        wrong = joined([p.problem for p in check.problems] or [check.not_found], "; ")
        raise BadCopy(f"Its book is not whole: {translate(wrong)}.")
    is_other = check.entries and check.up_to != manifest.entries
    if is_other or (check.entries, check.short_head) != (manifest.entries, manifest.short_head or check.short_head):
        raise BadCopy(f"Its book has {check.entries} entries, not {manifest.entries} as its manifest says.")
    return manifest


def _written(file: KitchenFile, path: Path) -> Manifest:
    """Write the zip, synced, and return what is in it."""
    database = path.with_name(DATABASE)
    file.back_up(database)
    check = verify_file(database)
    if check.problems:
        raise DamagedKitchen(
            f"{translate(damage_in_words(check))} No copy was made of it: keep the copies made before."
        )
    with open(os.open(path, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o600), "w+b") as out:
        with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
            sources = [(DATABASE, database), *_content_files(file.folder / CONTENT)]
            members = tuple(_put(archive, name, source) for name, source in sources)
            settings = file.settings
            heads = (check.entries, check.head, check.short_head)
            manifest = Manifest(FORMAT, settings.kitchen, settings.name, *heads, members)
            text = json.dumps(asdict(manifest), ensure_ascii=False, indent=1)
            archive.writestr(_member(MANIFEST), text.encode("utf-8"))
        out.flush()
        os.fsync(out.fileno())
    return manifest


def _content_files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Yield a kitchen's own content files by their names in the copy, in order; links are followed once."""
    seen: set[str] = set()
    found: list[tuple[str, Path]] = []
    for at, folders, names in os.walk(folder, followlinks=True):
        seen.add(os.path.realpath(at))
        folders[:] = [name for name in folders if os.path.realpath(Path(at, name)) not in seen]
        paths = [Path(at, name) for name in names]
        found += [(f"{CONTENT}/{path.relative_to(folder).as_posix()}", path) for path in paths if path.is_file()]
    yield from sorted(found)


def _put(archive: zipfile.ZipFile, name: str, source: Path) -> Member:
    """Put one file into the zip piece by piece, and return its size and SHA-256 as it went in."""
    digest, size = hashlib.sha256(), 0
    with source.open("rb") as read, archive.open(_member(name), "w", force_zip64=True) as write:
        for piece in pieces(read):
            digest.update(piece)
            size += len(piece)
            write.write(piece)
    return Member(name, size, digest.hexdigest())


def _member(name: str) -> zipfile.ZipInfo:
    """Return a member's entry: the same date and rights for each, whatever the disk says."""
    info = zipfile.ZipInfo(name, ALWAYS)
    info.compress_type = zipfile.ZIP_DEFLATED
    info.create_system = 3
    info.external_attr = (stat.S_IFREG | 0o600) << 16
    return info


def pieces(file: IO[bytes]) -> Iterator[bytes]:
    """Yield a file in pieces."""
    while piece := file.read(PIECE):
        yield piece


def _named_at_last(path: Path, into: Path, name: str) -> Path:
    """Return the copy under its name, which no earlier copy has."""
    for number in range(1, 1000):
        target = into / f"{name}{f'-{number}' if number > 1 else ''}.zip"
        if target.exists():
            continue
        try:
            os.link(path, target)
        except FileExistsError:
            continue
        except OSError:  # a disk without second names, like many a USB stick
            path.rename(target)
        sync(into)
        return target
    raise CannotSave(f"There is no name left for a copy of this second in {into}.")


def _is_of(path: Path, kitchen: str) -> bool:
    """Return whether a file is a copy of this kitchen, by its own manifest."""
    try:
        with zipfile.ZipFile(path) as archive:
            return manifest_of(archive).kitchen == kitchen
    except (OSError, zipfile.BadZipFile, BadCopy):
        return False
