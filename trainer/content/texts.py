"""The files of a content folder as texts under their digests, so that a book can keep them and lay them out again."""

from __future__ import annotations

import json
import os
import secrets
import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from trainer.content.photo_files import ENDING
from trainer.kitchen.book import canonical, digest_of

TAUGHT = (".yaml", ".yml", ".svg", ENDING)
"""What a content folder teaches by; a README, a schema for an editor and whatever else lies there is not published."""


class MissingText(Exception):
    """A published text that is not there, or that no file may be made of. Its message names the file."""


@dataclass(frozen=True, slots=True)
class Texts:
    """Every text of a content folder by its path in it, with forward slashes."""

    by_path: Mapping[str, bytes]

    @property
    def manifest(self) -> bytes:
        """Return the paths with the digests of their texts, as one text of its own (canonical JSON)."""
        return canonical({path: digest_of(text) for path, text in self.by_path.items()}).encode()

    @property
    def digest(self) -> str:
        """Return the one digest that stands for all texts."""
        return digest_of(self.manifest)


def texts_in(folder: Path) -> Texts:
    """Return the texts of a folder; OSError where one cannot be read."""
    return Texts({path: file.read_bytes() for path, file in _files(folder)})


def _files(folder: Path) -> Iterator[tuple[str, Path]]:
    """Yield the files that teach, by their paths in order; links are followed once."""
    seen: set[str] = set()
    found: list[tuple[str, Path]] = []
    for at, folders, names in os.walk(folder, followlinks=True):
        seen.add(os.path.realpath(at))
        folders[:] = [name for name in folders if os.path.realpath(Path(at, name)) not in seen and name[0] != "."]
        paths = [Path(at, name) for name in names if name.endswith(TAUGHT) and name[0] != "."]
        found += [(path.relative_to(folder).as_posix(), path) for path in paths]
    yield from sorted(found)


def stamp_of(folder: Path) -> tuple[tuple[str, int, int], ...]:
    """Return what tells at a glance that no file of a folder has changed: paths, sizes, moments of change."""
    return tuple((path, stat.st_size, stat.st_mtime_ns) for path, file in _files(folder) for stat in [file.stat()])


def paths_in(manifest: bytes) -> Mapping[str, str]:
    """Return a manifest's digests by path."""
    found: Mapping[str, str] = json.loads(manifest)
    return found


def changed_paths(before: Mapping[str, str], after: Mapping[str, str]) -> tuple[str, ...]:
    """Return the paths whose texts differ between two manifests, in order: changed, new and gone ones."""
    return tuple(sorted(path for path in {*before, *after} if before.get(path) != after.get(path)))


def lay_out(digest: str, paper: Callable[[str], bytes | None], folder: Path) -> None:
    """Make *folder* hold the texts of a manifest, as they were published and nothing else.

    `paper` gives a kept text by its digest. A folder that already is what was published stays; another one is laid out
    anew. `MissingText` where a text is not there.
    """
    if folder.is_dir() and texts_in(folder).digest == digest:
        return
    part = folder.with_name(f"{folder.name}.{secrets.token_hex(4)}")
    try:
        _write(part, dict(_published(digest, paper)))
        shutil.rmtree(folder, ignore_errors=True)
        part.rename(folder)
    finally:
        shutil.rmtree(part, ignore_errors=True)


def _published(digest: str, paper: Callable[[str], bytes | None]) -> Iterator[tuple[str, bytes]]:
    """Yield the texts of a manifest by their paths."""
    manifest = paper(digest)
    if manifest is None:
        raise MissingText(f"the list of texts {digest[:12]}")
    for path, name in paths_in(manifest).items():
        text = paper(name)
        if text is None or PurePosixPath(path).is_absolute() or ".." in PurePosixPath(path).parts:
            raise MissingText(path)
        yield path, text


def _write(folder: Path, texts: Mapping[str, bytes]) -> None:
    folder.mkdir(mode=0o700, parents=True)
    for path, text in texts.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(text)
