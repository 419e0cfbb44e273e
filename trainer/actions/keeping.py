"""What a manager enters about the book itself: what was lost with another book, and a check value kept outside."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome
from trainer.actions.saving import denied_by, save, validate_text
from trainer.kitchen.book import THE_BOOK, NewEntry
from trainer.kitchen.entitlement import may_manage


@dataclass(frozen=True, slots=True)
class Lost:
    """The numbers of the first and the last entry that is lost, and the short head of the book that had them."""

    first: int
    last: int
    head: str

    @property
    def count(self) -> int:
        """Return how many entries are lost."""
        return self.last - self.first + 1


@dataclass(frozen=True, slots=True)
class Kept:
    """How a check value went out of the house, and to whom."""

    how: Literal["printed", "mailed"]
    whom: str


def say_what_was_lost(k: Kitchen, *, by: str, lost: Lost, now: datetime, key: str) -> Outcome:
    """Return the saved `book_restored`: a manager says that the book is this one now, and which entries it lacks.

    One person, at once: where the book is another one, waiting for a second would only lose more.
    """
    body = {"lost_from": lost.first, "lost_to": lost.last, "head": lost.head}
    deed = NewEntry("book_restored", now, THE_BOOK, by, body, key)
    return save(k, deed, lambda day: denied_by(may_manage(by, THE_BOOK, day)))


def keep_head_outside(k: Kitchen, *, by: str, kept: Kept, now: datetime, key: str) -> Outcome:
    """Return the saved `head_witnessed`: the book's head as it is now went out of the house, and who has it."""
    with k.file.writing():
        head = k.file.book.head()
        body = {"size": head.seq, "root": head.root.hex(), "how": kept.how, "whom": kept.whom.strip()}
        deed = NewEntry("head_witnessed", now, THE_BOOK, by, body, key)
        return save(k, deed, lambda day: denied_by(may_manage(by, THE_BOOK, day)) or validate_text(kept.whom, "what"))
