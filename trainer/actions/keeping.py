"""What a manager enters about the book itself: what was lost with another book, and a check value kept outside."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, save, validate_text
from trainer.actions.two_people import Second, seconds_for
from trainer.kitchen.book import THE_BOOK, NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.messages import joined, message


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


def say_what_was_lost(  # noqa: PLR0913 - who, what, with whom, when, once
    k: Kitchen, *, by: str, lost: Lost, now: datetime, key: str, second: Second | None = None
) -> Outcome:
    """Return the saved `book_restored`: a manager says that the book is this one now, and which entries it lacks.

    At once, and where there is another manager, with their word on the spot: nothing waits, since waiting would only
    lose more.
    """
    word = {"by": second.by, "proof": dict(second.proof), "reason": second.reason} if second else None
    body = {"lost_from": lost.first, "lost_to": lost.last, "head": lost.head, "second": word}
    deed = NewEntry("book_restored", now, THE_BOOK, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        return denied_by(may_manage(by, THE_BOOK, day)) or _lacks_second(k, by, second, day)

    return save(k, deed, refusal)


def _lacks_second(k: Kitchen, by: str, second: Second | None, day: Snapshot) -> Refused | None:
    """Return the refusal of what was lost where another manager could say so too, and has not."""
    able = seconds_for(k, by, THE_BOOK, day)
    if not able or (second is not None and second.by in able):
        return None
    names = joined((day.name(who) for who in able), ", ")
    words = message("To go on with a book that lacks entries takes a second manager.")
    return Refused(words, message("Who can: {names}.", names=names), "second")


def keep_head_outside(k: Kitchen, *, by: str, kept: Kept, now: datetime, key: str) -> Outcome:
    """Return the saved `head_witnessed`: the book's head as it is now went out of the house, and who has it."""
    with k.file.writing():
        head = k.file.book.head()
        body = {"size": head.seq, "root": head.root.hex(), "how": kept.how, "whom": kept.whom.strip()}
        deed = NewEntry("head_witnessed", now, THE_BOOK, by, body, key)
        return save(k, deed, lambda day: denied_by(may_manage(by, THE_BOOK, day)) or validate_text(kept.whom, "what"))
