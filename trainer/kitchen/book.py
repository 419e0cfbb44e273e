"""The record book's one line, its kinds, and the hash that chains the lines. Pure: nothing here opens the book."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from json.encoder import encode_basestring
from typing import Any, Literal, get_args

Kind = Literal[
    "kitchen_set",
    "cook_joined",
    "cook_changed",
    "cook_left",
    "technique_read",
    "notice_read",
    "quiz_sat",
    "answered",
    "drill_done",
    "drill_given",
    "watch_asked",
    "help_asked",
    "help_given",
    "practical_watched",
    "rechecked",
    "shift_worked",
    "certificate_shown",
    "known_before",
    "path_opened",
    "path_closed",
    "station_opened",
    "stood_down",
    "restored",
    "words_added",
    "entry_voided",
    "question_voided",
    "wait_lifted",
    "stop_released",
    "roster_taken_in",
    "device_enrolled",
    "device_revoked",
    "phone_made_own",
    "phone_shared",
    "first_code_given",
    "secret_changed",
    "recovery_used",
    "locked_out",
    "person_named",
    "age_seen",
    "technique_taught",
    "founder_stands",
    "entry_upheld",
    "entry_contested",
    "contest_decided",
    "authority_given",
    "authority_ended",
    "book_restored",
    "day_closed",
    "head_witnessed",
    "clock_confirmed",
    "clock_corrected",
    "standard_published",
    "book_upgraded",
    "person_erased",
    "paper_dropped",
    "record_given",
    "retention_set",
    "services_set",
    "plan_published",
    "service_stood",
]
KINDS: tuple[Kind, ...] = get_args(Kind)
FIRST = "0" * 64
EDITION, FORM = 2, "v"
"""The edition of entries written now, and where a body says it."""
LOCAL, PROGRAM = "local", "program"
"""In place of a person: anyone who gave a command on the machine itself, and the program."""
THE_BOOK = "book"
"""In place of the cook an entry is about, where it is about the book itself."""


@dataclass(frozen=True, slots=True)
class NewEntry:
    """What a person did, before it has a place in the book. `key` is made before the first try to save it.

    `cook` is whom it is about, `by` who did it; `at` is UTC. `body` holds only strings, whole numbers, lists, dicts,
    true, false and null, so that its canonical JSON is the same everywhere (RFC 8785 for this subset).
    `happened` is the day it is claimed to have happened on, None the day it is written; `papers` are texts kept beside
    the book, whose digests (`digest_of`) stand in the body.
    """

    kind: Kind
    at: datetime
    cook: str
    by: str
    body: Mapping[str, Any]
    key: str
    happened: date | None = None
    papers: tuple[bytes, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the book, as kept. `seq` gives the order; never the clock.

    `day` is the kitchen's own day when it was written, `happened` the day claimed, never a later one. `device` is an
    enrolled device, `local` or `import`; nothing in an entry of edition 1, whose two days are those of its moment.
    A body is kept with the edition of its form in it (`v`), and is read without.
    """

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
    day: date
    happened: date
    device: str = ""
    edition: int = 1


def canonical(body: Mapping[str, Any]) -> str:
    """Return the body as canonical JSON: sorted keys, no spaces, no escapes beyond JSON's own."""
    return _CANONICAL.encode(body)


_CANONICAL = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def moment_text(at: datetime) -> str:
    """Return a moment as RFC 3339 UTC with milliseconds."""
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def digest_of(text: bytes) -> str:
    """Return the digest under which a text is kept beside the book: SHA-256 in hexadecimal signs."""
    return hashlib.sha256(text).hexdigest()


def entry_hash(columns: Iterable[str]) -> str:
    """Return SHA-256 over every column in order, the previous hash last, as one JSON array of strings.

    Which columns these are: `store.book_rows.hashed_columns`.
    """
    line = f"[{','.join(map(encode_basestring, columns))}]"  # as json.dumps writes it, in half the time
    return hashlib.sha256(line.encode("utf-8", "surrogatepass")).hexdigest()
