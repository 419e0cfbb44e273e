"""How every action writes: under the book's own lock, once a key, after the kitchen has been asked."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.kitchen.book import Deed, Entry, Kind, canonical
from trainer.kitchen.entitlement import Day, Entitlement
from trainer.recipe_math.saying import say
from trainer.store.book import LONGEST_NAME
from trainer.store.problems import BookRefuses

if TYPE_CHECKING:
    from trainer.actions.open_kitchen import OpenKitchen

LONGEST_TEXT = 500
FIELDS = {"reason": say("reason"), "number": say("number"), "note": say("note")}
KEY_USED = Refused(say("This form was already sent with something else in it. Open it anew and send it again."))


def save(k: OpenKitchen, deed: Deed, refusal: Callable[[Day], Refused | None]) -> Outcome:
    """Return the deed's entry, or the refusal; the same key sent again returns the entry already there.

    The question and the writing are one transaction: what was true when it was asked is true when it is written.
    """
    with k.file.writing():
        there = k.file.book.find_key(deed.key)
        if there is not None:
            return Saved(there) if says_the_same(there, deed) else KEY_USED
        return refusal(k.day(k.today(deed.at))) or append(k, deed)


def append(k: OpenKitchen, deed: Deed) -> Outcome:
    """Return the deed's entry, or what the book will not take."""
    try:
        return Saved(k.file.book.append(deed))
    except BookRefuses as problem:
        return Refused(str(problem))


def says_the_same(there: Entry, deed: Deed) -> bool:
    """Return whether an entry is this deed; the moment does not count, as a second try is later than the first."""
    kept = (there.kind, there.cook, there.by, canonical(there.body))
    return kept == (deed.kind, deed.cook, deed.by, canonical(deed.body))


def saved_before(k: OpenKitchen, key: str, kind: Kind, by: str | None = None) -> Outcome | None:
    """Return what a key has saved already, for a deed whose draft is gone by then; None for a new key."""
    there = k.file.book.find_key(key)
    if there is None:
        return None
    return Saved(there) if there.kind == kind and by in (None, there.by) else KEY_USED


def unusable_key(k: OpenKitchen, key: str) -> Refused | None:
    """Return why a key cannot name a new draft: it names a draft or an entry already, or no book would take it."""
    if not key or len(key) > LONGEST_NAME or not key.isprintable():
        return Refused(say("A key has 1 to {most} printable characters. Open the form anew.", most=LONGEST_NAME))
    if k.file.drafts.get(key) is not None or k.file.book.find_key(key) is not None:
        return KEY_USED
    return None


def unless(answer: Entitlement) -> Refused | None:
    """Return the refusal in an answer of the kitchen's, or None where it says yes."""
    return None if answer.may else Refused(answer.reason, answer.who_can)


def not_on_roster(cook: str, day: Day) -> Refused | None:
    """Return the refusal for somebody who does not belong to the kitchen that day."""
    if day.is_on_roster(cook):
        return None
    return Refused(say("{cook} is not on the roster.", cook=day.name(cook)), say("A manager."), "cook")


def wrong_text(text: str, field: str, *, may_be_blank: bool = False) -> Refused | None:
    """Return what is wrong with a text somebody typed: blank, too long, or not plain text."""
    name = FIELDS.get(field, field)
    if not text.strip() and not may_be_blank:
        return Refused(say("The {field} is blank.", field=name), "", field)
    if len(text) > LONGEST_TEXT:
        return Refused(
            say(
                "The {field} has {length} characters; it may have {most}.",
                field=name,
                length=len(text),
                most=LONGEST_TEXT,
            ),
            "",
            field,
        )
    if not all(sign.isprintable() or sign in "\n\r\t" for sign in text):
        return Refused(say("The {field} holds a sign that cannot be printed.", field=name), "", field)
    return None
