"""What the store's tests share: a kitchen made once and copied, deeds to write, and a moment to write them at."""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from trainer.kitchen.book import Kind, NewEntry
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
ROOT = Path(__file__).resolve().parents[2]


def new_kitchen(folder: Path, **settings: Any) -> KitchenFile:
    """Return a new kitchen in a folder."""
    return KitchenFile.create(folder, Settings(**{"kitchen": "", "name": "Quernstone", **settings}))


def deed(number: int, kind: Kind = "technique_read", cook: str = "ana", **body: Any) -> NewEntry:
    """Return a deed whose key and moment follow from its number."""
    said = body or {"technique": "pasta_nesting", "edition": number}
    return NewEntry(kind, NOON + timedelta(minutes=number), cook, "ana", said, f"key-{number}")


def fill(file: KitchenFile, count: int) -> None:
    """Write that many entries."""
    with file.writing():
        for number in range(1, count + 1):
            file.book.append(deed(number))


def closed_book(folder: Path, count: int) -> Path:
    """Return the database of a kitchen with so many entries, closed."""
    file = new_kitchen(folder)
    fill(file, count)
    file.close()
    return folder / "kitchen.db"


def tampered(path: Path, *statements: str, keep_guards: bool = True) -> Path:
    """Return a copy changed by a person who owns the file: guards off, statements run, guards put back."""
    copy = path.with_name("tampered.db")
    shutil.copy(path, copy)
    with sqlite3.connect(copy) as connection:
        guards = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            connection.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            connection.execute(statement)
        for _, sql in guards if keep_guards else ():
            connection.execute(sql)
    connection.close()
    return copy


def run_python(script: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    """Return the outcome of a script run by another process of the same Python."""
    command = [sys.executable, "-c", script, *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=120, check=False)
