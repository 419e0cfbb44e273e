"""The record book's one line, its kinds, and the hash that chains the lines. Pure: nothing here opens the book."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Literal, get_args

from trainer.messages import Text, message

Kind = Literal[
    "cook_joined",
    "cook_changed",
    "cook_left",
    "technique_read",
    "quiz_sat",
    "watch_asked",
    "practical_watched",
    "shift_worked",
    "certificate_shown",
    "station_opened",
    "stood_down",
    "restored",
    "entry_voided",
    "question_voided",
    "wait_lifted",
    "stop_released",
    "roster_taken_in",
    "secret_changed",
    "locked_out",
]
KINDS: tuple[Kind, ...] = get_args(Kind)
FIRST = "0" * 64
LOCAL, PROGRAM = "local", "program"
"""In place of a person: anyone who gave a command on the machine itself, and the program."""
FEWEST_SIGNS = 12  # of a check value: as many as the board prints


@dataclass(frozen=True, slots=True)
class NewEntry:
    """What a person did, before it has a place in the book. `key` is made before the first try to save it.

    `cook` is whom it is about, `by` who did it; `at` is UTC. `body` holds only strings, whole numbers, lists, dicts,
    true, false and null, so that its canonical JSON is the same everywhere (RFC 8785 for this subset).
    """

    kind: Kind
    at: datetime
    cook: str
    by: str
    body: Mapping[str, Any]
    key: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the book, as kept. `seq` gives the order; never the clock."""

    seq: int
    kitchen: str
    id: str
    kind: Kind
    at: datetime
    cook: str
    by: str
    body: Mapping[str, Any]
    key: str
    previous: str
    hash: str


def canonical(body: Mapping[str, Any]) -> str:
    """Return the body as canonical JSON: sorted keys, no spaces, no escapes beyond JSON's own."""
    return json.dumps(body, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def moment_text(at: datetime) -> str:
    """Return a moment as RFC 3339 UTC with milliseconds."""
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def entry_hash(columns: Iterable[str]) -> str:
    """Return SHA-256 over every column in table order, the previous hash last, as one JSON array of strings."""
    line = json.dumps(list(columns), ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(line.encode("utf-8", "surrogatepass")).hexdigest()


def typed_head(text: str) -> str:
    """Return a check value as it is kept, from one typed off paper: blanks do not count, nor capital letters.

    >>> typed_head("1A2B 3C4D 5E6F")
    '1a2b3c4d5e6f'
    """
    return "".join(text.split()).lower()


def unreadable_head(head: str) -> Text:
    """Return why a text can be no check value nor the beginning of one; "" where it can."""
    strange = next((sign for sign in head if sign not in "0123456789abcdef"), "")
    if strange:
        return message("A check value has the figures 0 to 9 and the letters a to f only, not “{sign}”.", sign=strange)
    if not FEWEST_SIGNS <= len(head) <= len(FIRST):
        return message(
            "A check value has 64 signs; the first {fewest} are enough. This has {count}.",
            fewest=FEWEST_SIGNS,
            count=len(head),
        )
    return ""
