"""A technique is written: its files in the kitchen's own content folder are changed, one change after the other.

Nothing of it is in the book: what is written is a draft until a standard is published.
"""

from __future__ import annotations

import secrets
import shutil
from collections.abc import Callable, Collection, Mapping
from datetime import date
from pathlib import Path

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.content.new_technique import CannotBegin, begin_technique
from trainer.content.round_trip import NotWritable, parse, with_item, without
from trainer.content.shipped import shipped
from trainer.content.written import WrittenTechnique, write_whole
from trainer.messages import message

Change = Callable[[WrittenTechnique], WrittenTechnique | Refused]
"""What becomes of a technique's files as they are at that moment, or why nothing does."""


def own_folder(k: Kitchen) -> Path | None:
    """Return the folder of files this kitchen may write to; None where it teaches what came with the program."""
    if k.teaching is None or k.teaching.drafts == shipped("content"):
        return None
    return k.teaching.drafts


def begin_own_content(k: Kitchen) -> Path:
    """Give the kitchen a copy of what came with the program, to be changed, and return it; one that is there stays."""
    own = k.file.folder / "content"
    with k.file.writing():
        if not own.is_dir():
            part = own.with_name(f".content.{secrets.token_hex(4)}")
            try:
                shutil.copytree(shipped("content"), part)
                part.rename(own)
            finally:
                shutil.rmtree(part, ignore_errors=True)
    if k.teaching is not None:
        k.teaching.drafts = own
    return own


def begin(k: Kitchen, folder: Path, name: str, today: date) -> str | Refused:
    """Return the id of a technique begun; refused where the name will not do, or is there already."""
    with k.file.writing():
        try:
            return begin_technique(folder, name, today).name
        except CannotBegin as problem:
            return Refused(problem.told, field="called")


def write(k: Kitchen, folder: Path, change: Change) -> Refused | None:
    """Change the files of a technique; refused, with nothing written, where the change says so or cannot be written."""
    with k.file.writing():
        try:
            before = WrittenTechnique.read(folder)
            after = change(before)
        except NotWritable as problem:
            words = message(
                "“{typed}” cannot be written in this form. Close each bracket; of several lines, write each as "
                "word: what it means.",
                typed=str(problem)[:80],
            )
            return Refused(words)
        if isinstance(after, Refused):
            return after
        after.keep(before)
        return None


def asking_stations(folder: Path, technique: str) -> Mapping[str, bool]:
    """Return every station whose file can be read, by its id, and whether it asks for a technique."""
    found = {}
    for path in sorted(folder.glob("stations/*.yaml")):
        try:
            found[path.stem] = technique in (parse(path.read_text(encoding="utf-8-sig")).get("techniques") or ())
        except (NotWritable, OSError):
            continue
    return found


def ask_for(k: Kitchen, folder: Path, technique: str, stations: Collection[str]) -> None:
    """Let these stations ask for a technique, and no others; the rest of their files stays as it is."""
    with k.file.writing():
        for id, asks in asking_stations(folder, technique).items():
            if asks == (id in stations):
                continue
            path = folder / "stations" / f"{id}.yaml"
            text = path.read_text(encoding="utf-8-sig")
            there = list(parse(text).get("techniques") or ())
            after = (
                without(text, "techniques", there.index(technique))
                if asks
                else with_item(text, "techniques", technique, len(there) - 1)
            )
            write_whole(path, after.encode())
