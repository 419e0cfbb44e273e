"""Writes a book as programs before edition 2 of entries did, by its own words: no line of the program helps."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Iterable
from pathlib import Path

from trainer.kitchen.book import NewEntry

MARKS = ",".join("?" * 11)


def write_old(path: Path, deeds: Iterable[NewEntry]) -> None:
    """Append deeds to the first kitchen of a file whose tables are those of an earlier program."""
    connection = sqlite3.connect(path)
    with connection:
        (kitchen,) = connection.execute("SELECT kitchen FROM settings").fetchone()
        for deed in deeds:
            last = connection.execute("SELECT seq, hash FROM book ORDER BY seq DESC LIMIT 1").fetchone()
            seq, previous = (last[0] + 1, last[1]) if last else (1, "0" * 64)
            body = json.dumps(deed.body, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
            at = deed.at.strftime("%Y-%m-%dT%H:%M:%S.000Z")
            columns = [str(seq), kitchen, f"id{seq:030}", deed.kind, at, deed.cook, deed.by, body, deed.key, previous]
            line = json.dumps(columns, ensure_ascii=False, separators=(",", ":"))
            own_hash = hashlib.sha256(line.encode()).hexdigest()
            connection.execute(f"INSERT INTO book VALUES ({MARKS})", (seq, *columns[1:], own_hash))  # noqa: S608
    connection.close()
