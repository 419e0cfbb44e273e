"""What the reader signed lately, and for ten minutes the one press that takes it back."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from flask import url_for

from trainer.actions.desk import MySigned, signed_lately
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry
from trainer.kitchen.entitlement import is_stop
from trainer.kitchen.practical import WORDS
from trainer.messages import Text, joined, message
from trainer.web import guard, reading
from trainer.web.entry_words import KIND_WORDS, Naming
from trainer.web.filters import clock_time
from trainer.web.forms import PlainForm

MOST = 6


@dataclass(frozen=True, slots=True)
class SignedLine:
    """One entry: about whom, what, when; `form` takes it back while its minutes last."""

    who: Text
    what: Text
    when: Text
    undo: Text
    url: str
    form: PlainForm | None


def signed_lines(k: Kitchen) -> tuple[SignedLine, ...]:
    """Return what the reader signed in the hours of a shift, the newest first."""
    naming = Naming(k.people(), reading.content())
    return tuple(_line(one, naming) for one in signed_lately(k, by=guard.person().id, now=guard.now())[:MOST])


def _line(one: MySigned, naming: Naming) -> SignedLine:
    minutes = ceil((one.until - guard.now()).total_seconds() / 60) if one.until else 0
    by_whom = message("A stop: a manager releases it.") if is_stop(one.entry) else message("A manager can void it.")
    when = clock_time(one.entry.at)
    return SignedLine(
        who=naming.person(one.entry.cook),
        what=_what(one.entry, naming),
        when=when if one.until else joined([when, by_whom], ". "),
        undo=message("Undo {minutes} min", minutes=minutes),
        url=url_for("desk.undo", entry=one.entry.id),
        form=PlainForm(is_fresh=True) if one.until else None,
    )


def _what(entry: Entry, naming: Naming) -> Text:
    """Return what was signed, in a few words."""
    body = entry.body
    if entry.kind == "practical_watched":
        title = naming.technique(body["technique"])
        return message("{technique}: {verdict}", technique=title, verdict=WORDS[body["verdict"]])
    if entry.kind == "shift_worked":
        return message("shift at {station}", station=naming.station(body["station"]))
    return KIND_WORDS[entry.kind]
