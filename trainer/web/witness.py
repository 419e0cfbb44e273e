"""Enrolled devices remember where the book stood when a day was closed, and notice a book that says otherwise.

Each keeps the newest closed day's head in a cookie of this kitchen. At the first page of another day it is compared: a
book that is shorter, or whose first entries are others, is only read on that device until the book says what was lost
(`book_restored`), or the right file is back.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from flask import Flask, Response, current_app, g, request

from trainer.kitchen.short_head import ShortHead, read_short_head, says_what_was_lost
from trainer.messages import Text, message
from trainer.store.device_heads import note_device_head
from trainer.store.problems import ReadingOnly
from trainer.web import guard

HEAD = "head"
STILL_OPEN = ("door", "language")
"""The rooms in which a device may send something all the same: a manager must be able to sign in."""
SAY_WHAT_WAS_LOST = "manager.book.keeping.restored"


@dataclass(frozen=True, slots=True)
class Seen:
    """What a device remembers, where it disagrees: the head, and whether the book is shorter than that now."""

    head: ShortHead
    count: int

    @property
    def is_cut(self) -> bool:
        """Return whether the book has fewer entries than the device has seen."""
        return self.count < self.head.size

    @property
    def words(self) -> Text:
        """Return in one sentence what the device says."""
        seen, count = f"{self.head.size:,}", f"{self.count:,}"
        if self.is_cut:
            return message(
                "This device has seen {seen} entries of this book, which has {count} now. Reading only on this device.",
                seen=seen,
                count=count,
            )
        return message(
            "The first {seen} entries of this book are not those this device has seen. Reading only on this device.",
            seen=seen,
        )


def register(app: Flask) -> None:
    """Compare what each device remembers, before its pages; hand it the newest head once the two agree."""

    @app.before_request
    def compare() -> None:
        g.disagrees, g.newest_head = None, ""
        if guard.device() is None or request.endpoint == "static":
            return
        closed, kept = _newest_closed(), request.cookies.get(guard.cookie_name(HEAD), "")
        if closed is not None and kept == closed.as_text():
            return
        g.disagrees = _disagreement(kept)
        if g.disagrees is None:
            g.newest_head = closed.as_text() if closed else ""
            return
        note_device_head(guard.kitchen().file.folder, _device_name(), kept, guard.now())
        if request.method == "POST" and not _is_still_open():
            raise ReadingOnly(g.disagrees.words)

    @app.after_request
    def remember(response: Response) -> Response:
        if g.get("newest_head"):
            guard.set_cookie(response, HEAD, g.newest_head, guard.FIVE_YEARS)
        return response


def disagreement() -> Seen | None:
    """Return what this request's device remembers, where the book says otherwise; None where they agree."""
    found: Seen | None = g.get("disagrees")
    return found


def _device_name() -> str:
    """Return what this request's device is called."""
    found = (each.name for each in guard.kitchen().file.devices.all() if each.id == guard.device())
    return next(found, guard.device() or "")


def _is_still_open() -> bool:
    endpoint = request.endpoint or ""
    return endpoint == SAY_WHAT_WAS_LOST or endpoint.split(".", maxsplit=1)[0] in STILL_OPEN


def _newest_closed() -> ShortHead | None:
    """Return the head of the newest closed day, looked up once a day of the book."""
    day = guard.kitchen().file.book.head().day
    kept: dict[date, ShortHead | None] = current_app.extensions.setdefault("closed_days", {})
    if day not in kept:
        kept.clear()
        kept[day] = guard.kitchen().file.book.last_closed()
    return kept[day]


def _disagreement(kept: str) -> Seen | None:
    """Return what a device remembers, where the book is another one and does not say what was lost."""
    head, book = read_short_head(kept) if kept else "", guard.kitchen().file.book
    if not isinstance(head, ShortHead):
        return None
    root = book.root_at(head.size)
    if root is not None and ShortHead.of(head.size, root) == head:
        return None
    is_told = any(says_what_was_lost(entry.body, head.size) for entry in book.of_kind("book_restored"))
    return None if is_told else Seen(head, book.end()[0])
