"""Unpacks a copy of a kitchen that anybody may have made: it writes its own files and no others, or is refused."""

from __future__ import annotations

import hashlib
import os
import shutil
import stat
import zipfile
import zlib
from pathlib import Path

from trainer.store.backup import CONTENT, MANIFEST, Manifest, Member, manifest_of, pieces
from trainer.store.disk import sync
from trainer.store.kitchen_file import DATABASE
from trainer.store.problems import BadCopy

MOST_FILES = 20_000
MOST_UNPACKED = 200  # times its own size, past
SMALL = 50_000_000  # bytes
STRANGE = frozenset('\\:*?"<>|')


def unpacked(path: Path, into: Path) -> Manifest:
    """Return the manifest of a copy, its files unpacked into a new folder, each of its size and SHA-256."""
    try:
        with zipfile.ZipFile(path) as archive:
            _refuse_the_list(archive, path)
            manifest = manifest_of(archive)
            _refuse_other_files(archive, manifest)
            _refuse_a_bomb(manifest, path, into.parent)
            into.mkdir(mode=0o700)
            for member in manifest.files:
                _write(archive, member, into / member.name)
            sync(into)
            return manifest
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError) as problem:
        raise BadCopy(f"It is damaged, or no copy of a kitchen ({problem}).") from problem


def _refuse_the_list(archive: zipfile.ZipFile, path: Path) -> None:
    """Raise `BadCopy` for a member that is no plain file of a kitchen's copy; nothing is unpacked before that."""
    infos = archive.infolist()
    if len(infos) > MOST_FILES:
        raise BadCopy(f"{path.name} has {len(infos)} files in it; a copy has at most {MOST_FILES}.")
    if len({info.filename.casefold() for info in infos}) != len(infos):
        raise BadCopy("It has two files of one name.")
    for info in infos:
        kind = stat.S_IFMT(info.external_attr >> 16)
        is_packed_so = info.compress_type in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED) and not info.flag_bits & 1
        if not is_plain_name(info.filename) or kind not in (0, stat.S_IFREG) or not is_packed_so:
            raise BadCopy(f"It has a file that no copy has: {info.filename[:80]!r}.")


def is_plain_name(name: str) -> bool:
    """Return whether a name can stand in a copy: the database, the manifest, or a file below content.

    >>> [is_plain_name(name) for name in ("kitchen.db", "content/en.yaml", "content/../x", "/etc/x", "secret_key")]
    [True, True, False, False, False]
    """
    if name in (DATABASE, MANIFEST):
        return True
    first, *rest = name.split("/")
    return first == CONTENT and bool(rest) and all(_is_plain_part(part) for part in rest)


def _is_plain_part(part: str) -> bool:
    return part.strip(". ") != "" and part.isprintable() and not STRANGE & set(part)


def _refuse_other_files(archive: zipfile.ZipFile, manifest: Manifest) -> None:
    """Raise `BadCopy` unless the files are those of the manifest, each of the size it says."""
    there = {info.filename: info.file_size for info in archive.infolist() if info.filename != MANIFEST}
    if there != {member.name: member.size for member in manifest.files} or DATABASE not in there:
        raise BadCopy("Its files are not those its manifest names.")


def _refuse_a_bomb(manifest: Manifest, path: Path, room: Path) -> None:
    """Raise `BadCopy` for files that unpack to far more than they should, or to more than the disk has room for."""
    total, packed = sum(member.size for member in manifest.files), path.stat().st_size
    if total > SMALL and total > MOST_UNPACKED * packed:
        raise BadCopy(f"It would unpack to {total} bytes from {packed}: that is no copy of a kitchen.")
    free = shutil.disk_usage(room).free
    if total > free:
        raise BadCopy(f"It needs {total} bytes of room, and the disk has {free}. Free some room first.")


def _write(archive: zipfile.ZipFile, member: Member, target: Path) -> None:
    """Write one file, and stop where it grows past its size or is not what the manifest says."""
    target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    digest, size = hashlib.sha256(), 0
    handle = os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with archive.open(member.name) as read, os.fdopen(handle, "wb") as write:
        for piece in pieces(read):
            size += len(piece)
            if size > member.size:
                break
            digest.update(piece)
            write.write(piece)
        write.flush()
        os.fsync(write.fileno())
    if size != member.size or digest.hexdigest() != member.sha256:
        raise BadCopy(f"{member.name} is not as it was when the copy was made.")
