"""A row of the book: its columns in order, and which of them its hash covers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

COLUMNS = 'kitchen, seq, id, kind, at, day, happened, cook, "by", device, body, key, previous, hash, edition'
NAMES = tuple(name.strip('" ') for name in COLUMNS.split(","))
COLUMNS_BEFORE = "kitchen, seq, id, kind, at, '', '', cook, \"by\", '', body, key, previous, hash, 1"
"""The same of a file whose tables are those of an earlier program: every entry in it is of edition 1."""
MARKS = ",".join("?" * 15)
KEEP_HEAD = "INSERT OR REPLACE INTO heads (kitchen, seq, hash, frontier, at, day) VALUES (?, ?, ?, ?, ?, ?)"
HASH, EDITION = 13, 14


def hashed_columns(row: Sequence[Any]) -> list[str]:
    """Return the texts a row's hash is over: of edition 2 fourteen, a "2" first; of edition 1 the ten of then."""
    kitchen, seq, entry_id, kind, at, day, happened, cook, by, device, body, key, previous, _, edition = row
    if edition == 1:
        return [str(seq), kitchen, entry_id, kind, at, cook, by, body, key, previous]
    return ["2", kitchen, str(seq), entry_id, kind, at, day, happened, cook, by, device, body, key, previous]
