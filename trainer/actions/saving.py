"""How every action writes: under the book's own lock, once a key, after the kitchen has been asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from trainer.actions.clock_watch import after_the_last, keeps_away, refused_by_clock
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.signed import with_proof
from trainer.kitchen.book import Entry, Kind, NewEntry, canonical
from trainer.kitchen.entitlement import Entitlement, Snapshot
from trainer.messages import message
from trainer.store.book import LONGEST_NAME
from trainer.store.problems import BookRefuses

if TYPE_CHECKING:
    from trainer.actions.open_kitchen import Kitchen

LONGEST_TEXT = 500
WORKED_OUT = frozenset({"happened", "entitled_by", "taught_by", "leaning", "second", "proof"})
FIELDS = {
    "reason": message("reason"),
    "number": message("number"),
    "note": message("note"),
    "what": message("text"),
    "basis": message("reason"),
    "words": message("text"),
}
KEY_USED = Refused(message("This form was already sent with something else in it. Open it anew and send it again."))


def save(k: Kitchen, deed: NewEntry, refusal: Callable[[Snapshot], Refused | None]) -> Outcome:
    """Return the deed's entry, or the refusal; the same key sent again returns the entry already there.

    The question and the writing are one transaction: what was true when it was asked is true when it is written. The
    moment is read when it is this one's turn to write, so that waiting for others is no clock gone back.
    """
    with k.file.writing():
        there = k.file.book.find_key(deed.key)
        if there is not None:
            return Saved(there) if says_the_same(there, deed) else KEY_USED
        own = replace(deed, at=k.moment(deed.at))
        return _clock_refuses(k, own) or refusal(k.day(k.today(own.at))) or _written(k, own)


def append(k: Kitchen, deed: NewEntry) -> Outcome:
    """Return the deed's entry, or what the clock or the book will not take."""
    with k.file.writing():
        own = replace(deed, at=k.moment(deed.at))
        return _clock_refuses(k, own) or _written(k, own)


def _written(k: Kitchen, deed: NewEntry) -> Outcome:
    try:
        return Saved(k.file.book.append(with_proof(after_the_last(k, deed))))
    except BookRefuses as problem:
        return Refused(str(problem))


def _clock_refuses(k: Kitchen, deed: NewEntry) -> Refused | None:
    """Return the refusal of a clock nobody can believe; what keeps a cook from a station is never refused for it."""
    return None if keeps_away(deed) else refused_by_clock(k, deed.at)


def says_the_same(there: Entry, deed: NewEntry) -> bool:
    """Return whether an entry is this deed; moment, day and proof do not count: a second try is later."""
    kept = (there.kind, there.cook, there.by, canonical(_as_typed(there.body)))
    return kept == (deed.kind, deed.cook, deed.by, canonical(_as_typed(deed.body)))


def _as_typed(body: Mapping[str, Any]) -> dict[str, Any]:
    """Return a body without what the program works out at the moment of writing, which a second try does not repeat."""
    return {name: value for name, value in body.items() if name not in WORKED_OUT}


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
