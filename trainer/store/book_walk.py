"""Walks one kitchen's rows from the first to the last, and notes each place where they do not hold together."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Any

from trainer.kitchen.book import EDITION, FIRST, FORM, KINDS, digest_of, entry_hash
from trainer.kitchen.papers import FIELDS_WITH_PAPERS, MARK, papers_named
from trainer.kitchen.short_head import ShortHead
from trainer.kitchen.tree import Peaks, as_bytes, leaf_of, peaks_of, root_of
from trainer.messages import Text, message
from trainer.store.book_rows import hashed_columns

MOST_PROBLEMS = 20  # named of one kitchen
GUARDS_LOST = message("the guards that refuse changes to the book are not all there")
KNOWN_KINDS = frozenset(KINDS)
FORM_KEY = f'"{FORM}":'
FORM_NOW = (f"{FORM_KEY}{EDITION},", f"{FORM_KEY}{EDITION}}}")


@dataclass(frozen=True, slots=True)
class BookProblem:
    """An entry at which a book does not hold together (0: the file, or the book as a whole), and why."""

    seq: int
    problem: Text
    is_of_text: bool = False
    """Whether the entries are as they were, and only a text beside them is gone."""


@dataclass(frozen=True, slots=True)
class KitchenCheck:
    """What the check of one kitchen's book found: its entries, the last one's hash, the tree's root, the problems."""

    kitchen: str
    entries: int
    head: str
    root: bytes
    problems: tuple[BookProblem, ...]
    dropped: tuple[tuple[str, int], ...] = ()
    """On which days texts beside the book were dropped, as entries say, and how many."""

    @property
    def short_head(self) -> str:
        """Return the head as it is printed; "" for a book without entries."""
        return ShortHead.of(self.entries, self.root).as_text() if self.entries else ""


@dataclass(slots=True)
class KitchenWalk:
    """One kitchen's rows so far. `begins` are the first signs of a hash that is looked for, `found` where they are."""

    kitchen: str
    begins: str = ""
    count: int = 0
    previous: str = FIRST
    edition: int = 1
    leaves: list[bytes] = field(default_factory=list)
    found: list[int] = field(default_factory=list)
    problems: list[BookProblem] = field(default_factory=list)
    texts: dict[str, int] = field(default_factory=dict)
    dropped: dict[str, str] = field(default_factory=dict)
    _peaks: Peaks | None = None

    def note(self, seq: int, problem: Text, *, is_of_text: bool = False) -> None:
        """Note a problem, up to as many as anybody reads."""
        if len(self.problems) < MOST_PROBLEMS:
            self.problems.append(BookProblem(seq, problem, is_of_text))

    def take(self, row: tuple[Any, ...]) -> None:
        """Check one row against the one before it."""
        seq, own_hash, edition = row[1], row[13], row[14]
        wrong = self._wrong_with(row)
        if wrong:
            self.note(seq if isinstance(seq, int) else self.count + 1, wrong)
        self.previous = str(own_hash)
        self.leaves.append(_leaf(self.previous))
        self.count = seq if isinstance(seq, int) and seq > self.count else self.count + 1
        self.edition = edition if isinstance(edition, int) else self.edition
        self._note_texts(row)
        if self.begins and self.previous.startswith(self.begins):
            self.found.append(self.count)

    def _note_texts(self, row: tuple[Any, ...]) -> None:
        """Note which texts an entry names, or that it says that one was dropped."""
        kind, day, body = row[3], row[5], row[10]
        if kind == "paper_dropped":
            self.dropped.update(dict.fromkeys(re.findall('"digest":"([0-9a-f]{64})"', str(body)), str(day)))
        elif kind in FIELDS_WITH_PAPERS or MARK in str(body):
            self.texts.update((digest, self.count) for digest in papers_named(kind, str(body)))

    def compare_texts(self, there: Collection[str]) -> None:
        """Compare the texts the entries name with those that are there."""
        for digest, seq in self.texts.items():
            if digest not in there and digest not in self.dropped:
                gone = message("a text it names is not there any more: {digest}", digest=digest[:12])
                self.note(seq, gone, is_of_text=True)
        for digest in self.dropped:
            if digest in there:
                self.note(0, message("a text that was dropped is still there: {digest}", digest=digest[:12]))

    def _wrong_with(self, row: tuple[Any, ...]) -> Text:
        """Return what is wrong with a row, or ""."""
        edition = row[14]
        if row[1] != self.count + 1:
            return message("an entry is missing before this one: {due} was due", due=self.count + 1)
        if row[12] != self.previous:
            return message("it does not follow the entry before it: one of the two was changed")
        try:
            if edition not in (1, EDITION) or edition < self.edition or (edition == 1 and (row[5] + row[6] + row[9])):
                return message("its edition was changed, or it was written by a newer program")
            if entry_hash(hashed_columns(row)) != row[13]:
                return message("what it says does not match its check value: it was changed")
        except TypeError:
            return message("a column holds something that is not text")
        return _unknown(row[3], row[10])

    def compare_head(self, head: tuple[Any, ...] | None) -> None:
        """Compare the entries with the head kept beside them."""
        count = len(self.leaves)
        if head is None:
            self.note(0, message("the head kept beside the book is not there"))
        elif head[0] != count:
            self.note(0, message("the book has {count} entries and its head says {seq}", count=count, seq=head[0]))
        elif head[1:] != (self.previous, as_bytes(self.peaks())):
            self.note(0, message("the head kept beside the book is that of another book"))

    def peaks(self) -> Peaks:
        """Return the peaks of the tree over all entries, worked out once."""
        if self._peaks is None:
            self._peaks = peaks_of(self.leaves)
        return self._peaks

    def root(self, size: int) -> bytes:
        """Return the root of the tree over the first *size* entries."""
        return root_of(peaks_of(self.leaves[:size]))

    def result(self) -> KitchenCheck:
        """Return the outcome for this kitchen."""
        root = root_of(self.peaks())
        dropped = tuple(sorted(Counter(self.dropped.values()).items()))
        return KitchenCheck(self.kitchen, len(self.leaves), self.previous, root, tuple(self.problems), dropped)


def _leaf(own_hash: str) -> bytes:
    """Return the leaf of an entry; of one whose check value is damaged, that of the damaged text."""
    try:
        return leaf_of(own_hash)
    except ValueError:
        return leaf_of(digest_of(own_hash.encode("utf-8", "surrogateescape")))


def _unknown(kind: str, body: str) -> Text:
    """Return what this program does not know about an entry that is whole, or ""."""
    if kind not in KNOWN_KINDS:
        return message("there is no kind of entry {kind}", kind=repr(kind))
    at = body.find(FORM_KEY)
    if body[at : at + len(FORM_KEY) + 2] in FORM_NOW and body.find(FORM_KEY, at + 1) < 0:
        return ""  # the one place that can say the form says the one of now: no need to read the body
    said = json.loads(body)
    return "" if said.get(FORM, 1) <= EDITION else message("its form was written by a newer program")
