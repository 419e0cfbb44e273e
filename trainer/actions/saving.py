"""How every action writes: under the book's own lock, once a key, after the kitchen has been asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.kitchen.book import Entry, Kind, NewEntry, canonical
from trainer.kitchen.entitlement import Entitlement, Snapshot
from trainer.kitchen.spans import in_short
from trainer.messages import Text, message
from trainer.store.book import LONGEST_NAME
from trainer.store.problems import BookRefuses

if TYPE_CHECKING:
    from trainer.actions.open_kitchen import Kitchen

LONGEST_TEXT = 500
CLOCK_MAY_LAG = timedelta(minutes=1)
YEAR = timedelta(days=365)
FIELDS = {"reason": message("reason"), "number": message("number"), "note": message("note")}
KEY_USED = Refused(message("This form was already sent with something else in it. Open it anew and send it again."))


def save(k: Kitchen, deed: NewEntry, refusal: Callable[[Snapshot], Refused | None]) -> Outcome:
    """Return the deed's entry, or the refusal; the same key sent again returns the entry already there.

    The question and the writing are one transaction: what was true when it was asked is true when it is written.
    """
    with k.file.writing():
        there = k.file.book.find_key(deed.key)
        if there is not None:
            return Saved(there) if says_the_same(there, deed) else KEY_USED
        return _clock_refuses(k, deed) or _refused_on(k, deed, refusal) or append(k, deed)


def _refused_on(k: Kitchen, deed: NewEntry, refusal: Callable[[Snapshot], Refused | None]) -> Refused | None:
    """Return the refusal on the deed's own day.

    With a clock behind, who joined since is not on the roster of that day: what keeps a cook away is refused only where
    the last entry's day refuses it too.
    """
    found, last = refusal(k.day(k.today(deed.at))), k.file.book.last_at()
    if found is None or not _keeps_away(deed) or last is None or last <= deed.at:
        return found
    return refusal(k.day(k.today(last)))


def append(k: Kitchen, deed: NewEntry) -> Outcome:
    """Return the deed's entry, or what the clock or the book will not take."""
    try:
        return _clock_refuses(k, deed) or Saved(k.file.book.append(after_the_last(k, deed)))
    except BookRefuses as problem:
        return Refused(str(problem))


def clock_behind(k: Kitchen, now: datetime) -> Refused | None:
    """Return the refusal where this machine's clock is behind the last entry: what was saved would get a wrong day.

    A minute is let pass, as anyone who waited for another to finish writing is behind by a moment.
    """
    last = k.file.book.last_at()
    if last is None or last - now <= CLOCK_MAY_LAG:
        return None
    first, second = _apart(k, last, now)
    words = message(
        "This machine's clock is behind the last entry ({last} / {now}). Nothing was saved.", last=first, now=second
    )
    return Refused(words, message("Set the clock right, then send this again."))


def _apart(k: Kitchen, last: datetime, now: datetime) -> tuple[Text, Text]:
    """Return two moments as short as tells them apart: two times of one day, or two days, with years at need."""
    zone = ZoneInfo(k.file.settings.timezone)
    first, second = last.astimezone(zone), now.astimezone(zone)
    if first.date() == second.date():
        return f"{first:%H:%M}", f"{second:%H:%M}"
    is_long = last - now > YEAR
    return in_short(first.date(), with_year=is_long), in_short(second.date(), with_year=is_long)


def _clock_refuses(k: Kitchen, deed: NewEntry) -> Refused | None:
    """Return the refusal of a clock that is behind; what keeps a cook from a station is never refused for it."""
    return None if _keeps_away(deed) else clock_behind(k, deed.at)


def _keeps_away(deed: NewEntry) -> bool:
    """Return whether a deed takes a cook off a station: a stop, or a standing down."""
    return deed.kind == "stood_down" or (deed.kind == "practical_watched" and deed.body.get("verdict") == "stopped")


def after_the_last(k: Kitchen, deed: NewEntry) -> NewEntry:
    """Return the deed, no earlier than the last entry: behind it, it takes that entry's moment.

    What keeps a cook away says then on which day it happened, and counts from that day.
    """
    last = k.file.book.last_at()
    if last is None or last <= deed.at:
        return deed
    happened = k.today(deed.at)
    is_told = _keeps_away(deed) and happened < k.today(last)
    return replace(deed, at=last, body={**deed.body, "happened": happened.isoformat()} if is_told else deed.body)


def says_the_same(there: Entry, deed: NewEntry) -> bool:
    """Return whether an entry is this deed; moment and day do not count, as a second try is later than the first."""
    kept = (there.kind, there.cook, there.by, canonical(_without_day(there.body)))
    return kept == (deed.kind, deed.cook, deed.by, canonical(_without_day(deed.body)))


def _without_day(body: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in body.items() if name != "happened"}


def saved_before(k: Kitchen, key: str, kind: Kind, by: str | None = None) -> Outcome | None:
    """Return what a key has saved already, for a deed whose draft is gone by then; None for a new key."""
    there = k.file.book.find_key(key)
    if there is None:
        return None
    return Saved(there) if there.kind == kind and by in (None, there.by) else KEY_USED


def unusable_key(k: Kitchen, key: str) -> Refused | None:
    """Return why a key cannot name a new draft: it names a draft or an entry already, or no book would take it."""
    if not key or len(key) > LONGEST_NAME or not key.isprintable():
        return Refused(message("A key has 1 to {most} printable characters. Open the form anew.", most=LONGEST_NAME))
    if k.file.drafts.get(key) is not None or k.file.book.find_key(key) is not None:
        return KEY_USED
    return None


def denied_by(answer: Entitlement) -> Refused | None:
    """Return the refusal in an answer of the kitchen's, or None where it says yes."""
    return None if answer.may else Refused(answer.reason, answer.who_can)


def not_on_roster(cook: str, day: Snapshot) -> Refused | None:
    """Return the refusal for a person who does not belong to the kitchen that day."""
    if day.is_on_roster(cook):
        return None
    return Refused(
        message("{cook} is not on the roster.", cook=day.name(cook)),
        message("A manager can put somebody on it."),
        "cook",
    )


def validate_text(text: str, field: str, *, may_be_blank: bool = False) -> Refused | None:
    """Return what is wrong with a text a person typed: blank, too long, or not plain text."""
    name = FIELDS.get(field, field)
    if not text.strip() and not may_be_blank:
        return Refused(message("The {field} is blank.", field=name), "", field)
    if len(text) > LONGEST_TEXT:
        return Refused(
            message(
                "The {field} has {length} characters; it may have {most}.",
                field=name,
                length=len(text),
                most=LONGEST_TEXT,
            ),
            "",
            field,
        )
    if not all(sign.isprintable() or sign in "\n\r\t" for sign in text):
        return Refused(message("The {field} holds a sign that cannot be printed.", field=name), "", field)
    return None
