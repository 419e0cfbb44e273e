"""Notices of the house: somebody says that they have read and understood one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import not_on_roster, save
from trainer.kitchen.book import NewEntry, digest_of
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.notices import NOTICES, read_of
from trainer.kitchen.papers import packed
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class NoticeSeen:
    """A notice as it was on the page: its edition, and its lines in the reader's language."""

    notice: str
    edition: int
    language: str
    lines: Sequence[str]


def acknowledge_notice(k: Kitchen, *, by: str, seen: NoticeSeen, now: datetime, key: str) -> Outcome:
    """Return the saved `notice_read`, with the text as it was read; an edition that is no longer in use is refused."""
    paper = packed({"language": seen.language, "lines": list(seen.lines)})
    body = {"notice": seen.notice, "edition": seen.edition, "shown": digest_of(paper)}
    deed = NewEntry("notice_read", now, by, by, body, key, papers=(paper,))
    return save(k, deed, lambda day: not_on_roster(by, day) or _not_in_use(seen) or _read_already(by, seen, day))


def _not_in_use(seen: NoticeSeen) -> Refused | None:
    found = NOTICES.get(seen.notice)
    if found is not None and found.edition == seen.edition:
        return None
    return Refused(message("The notice has changed since you opened it. Read it once more."))


def _read_already(by: str, seen: NoticeSeen, day: Snapshot) -> Refused | None:
    there = read_of(day.record(by), seen.notice, seen.edition)
    return Refused(message("You have said so already.")) if there else None
