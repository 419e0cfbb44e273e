"""What a kitchen teaches, kept ready in its own folder, so that a start with unchanged content reads no content file.

What is kept is good for the same files, read by the same program: a digest of both stands with it. It is only taken
where this kitchen wrote it (an HMAC with the kitchen's secret key, RFC 2104), it is part of no backup, and whenever
anything about it is in doubt, the files are read.
"""

from __future__ import annotations

import hashlib
import hmac
import os
import pickle
import secrets
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import trainer
from trainer.content.shipped import shipped

if TYPE_CHECKING:
    from trainer.content.files import Library
    from trainer.kitchen.technique import Content, Problem

PACKAGE = Path(trainer.__file__).parent
FOLDER = "ready"
PURPOSE = b"content kept ready, form 1:"
SIZE = hashlib.sha256().digest_size

Read = tuple["Content | None", tuple["Problem", ...]]


class ReadyContent:
    """The content of one kitchen in any language and with either units first, each kept ready once it was read.

    Without a key nothing is kept. The files are read once by this object, however many languages are asked for.
    """

    def __init__(self, content: Path, kept_in: Path, key: bytes | None) -> None:
        """Take the folder of the files, the one in which what was read is kept, and the kitchen's key."""
        self._content, self._folder, self._key = content, kept_in, key
        self._digest = digest_of(content) if key else None
        self._library: Library | None = None

    def read(self, language: str, first: Literal["us", "metric"]) -> Read:
        """Return the content and every problem in it: as it was kept, or read from the files and kept."""
        path = self._folder / f"{language}_{first}"
        kept = self._kept(path)
        if kept is not None:
            return kept
        if self._library is None:
            from trainer.content.files import Library

            self._library = Library(self._content)
        read = self._library.content(language, first), self._library.problems
        if self._digest and digest_of(self._content) == self._digest:
            self._keep(path, read)
        return read

    def _kept(self, path: Path) -> Read | None:
        """Return what was kept for these files by this kitchen; None where there is any doubt."""
        if not self._digest:
            return None
        try:
            sealed = path.read_bytes()
            seal, body = sealed[:SIZE], sealed[SIZE:]
            if not hmac.compare_digest(seal, self._seal(path, body)) or body[:SIZE] != self._digest:
                return None
            read: Read = pickle.loads(body[SIZE:])  # noqa: S301 - sealed by this kitchen with its own secret key
            return read
        except Exception:  # whatever is wrong with it, the files are there to be read
            return None

    def _keep(self, path: Path, read: Read) -> None:
        """Keep what was read; where that cannot be done, the files are read again the next time."""
        part = path.with_name(f"{path.name}.{secrets.token_hex(4)}")
        try:
            body = (self._digest or b"") + pickle.dumps(read, pickle.HIGHEST_PROTOCOL)
            path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            part.write_bytes(self._seal(path, body) + body)
            part.replace(path)
        except (OSError, pickle.PicklingError, TypeError, AttributeError):
            with suppress(OSError):
                part.unlink(missing_ok=True)

    def _seal(self, path: Path, body: bytes) -> bytes:
        """Return the seal of a file: it says whose it is, and for which language and units."""
        return hmac.digest(self._key or b"", PURPOSE + path.name.encode() + b":" + body, "sha256")


def digest_of(content: Path, package: Path = PACKAGE) -> bytes | None:
    """Return a digest of the files that say what is taught, of the names of drawings, and of the program that reads.

    None where they cannot all be read: then nothing is kept.
    """
    with suppress(OSError, RecursionError):
        return _digest_of(content, package)
    return None


def _digest_of(content: Path, package: Path) -> bytes:
    """Return that digest; raises where a file cannot be read."""
    found = hashlib.sha256(repr(sys.version_info[:3]).encode())
    for path, entry in _files(package):
        if path.endswith(".py"):
            stat = entry.stat()
            found.update(f"{path}:{stat.st_size}:{stat.st_mtime_ns};".encode())
    for path, entry in [*_files(content), *_files(shipped("content") / "questions")]:
        found.update(f"{path}:".encode())
        if path.endswith((".yaml", ".yml")):
            found.update(hashlib.sha256(Path(entry.path).read_bytes()).digest())
    return found.digest()


def _files(folder: Path, below: str = "") -> Iterator[tuple[str, os.DirEntry[str]]]:
    """Yield the files of a folder and of those in it, each with its path from there, in their order."""
    with os.scandir(folder) as found:
        entries = sorted(found, key=lambda entry: entry.name)
    for entry in entries:
        if entry.is_dir():
            yield from _files(Path(entry.path), f"{below}{entry.name}/")
        else:
            yield f"{below}{entry.name}", entry
