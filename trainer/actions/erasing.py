"""Erasing a person who has left: their name and all texts about them go, what the book says of their work stays."""

from __future__ import annotations

import json
from base64 import b64encode
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal, get_args

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.people_on_record import Written, deeds_for_one
from trainer.actions.saving import append, saved_before
from trainer.kitchen.book import LOCAL, THE_BOOK, NewEntry, moment_text
from trainer.kitchen.entitlement import A_MANAGER, ANOTHER_MANAGER
from trainer.kitchen.nights import NIGHT_KINDS
from trainer.kitchen.papers import is_packed, papers_about, papers_named, papers_on_people, plain_texts
from trainer.messages import Text, message
from trainer.store.book_rows import HASH, hashed_columns

Why = Literal["asked for it", "kept long enough", "entered by mistake"]
WHYS: tuple[Why, ...] = get_args(Why)
KIND, BODY = 3, 10


@dataclass(frozen=True, slots=True)
class Erasure:
    """Who is erased, and why: the reason is one of a list, so that nobody is named in it."""

    cook: str
    why: Why


@dataclass(frozen=True, slots=True)
class Held:
    """What is held about a person: the texts that would go, and how many of older entries would stay."""

    texts: tuple[str, ...]
    older_texts: int


def held_about(k: Kitchen, cook: str) -> Held:
    """Return the digests of the texts about a person, and how many an older program wrote into the book itself."""
    texts: dict[str, None] = {}
    older = 0
    for row in k.file.book.rows_about(cook):
        texts.update(dict.fromkeys(papers_on_people(row[KIND], row[BODY])))
        older += plain_texts(row[KIND], json.loads(row[BODY]))
    for row in k.file.book.rows_about(THE_BOOK):
        if row[KIND] in NIGHT_KINDS:
            texts.update(dict.fromkeys(papers_about(cook, json.loads(row[BODY]))))
    return Held(tuple(digest for digest in texts if k.file.book.paper(digest) is not None), older)


def export_of(k: Kitchen, cook: str, now: datetime) -> dict[str, Any]:
    """Return all that is held about a person, as JSON for whoever shall have it: nothing of it is kept here.

    `entries` have the columns that are hashed, and the hash; `papers` the texts by their digests, names and birth dates
    among them, with their salts: who holds this file can show later which entries are about them. `packed` is what they
    read of a notice, were asked and answered: zlib (RFC 1950) in base 64.
    """
    listed = next((one for one in k.file.people.listed() if one.person.id == cook), None)
    rows = k.file.book.rows_about(cook)
    named = dict.fromkeys(digest for row in rows for digest in papers_named(row[KIND], row[BODY]))
    papers = {digest: text for digest in named if (text := k.file.book.paper(digest)) is not None}
    settings = k.file.settings
    return {
        "format": 1,
        "kitchen": {"id": settings.kitchen, "name": settings.name, "zone": settings.timezone},
        "written": moment_text(now),
        "person": {
            "id": cook,
            "name": listed.person.name if listed else None,
            "born": listed.person.born.isoformat() if listed and listed.person.born else None,
            "number": listed.number if listed else None,
        },
        "entries": [{"seq": row[1], "columns": hashed_columns(row), "hash": row[HASH]} for row in rows],
        "papers": {digest: text.decode() for digest, text in papers.items() if not is_packed(text)},
        "packed": {digest: b64encode(text).decode() for digest, text in papers.items() if is_packed(text)},
    }


def may_not_erase(k: Kitchen, cook: str, by: str, now: datetime) -> Refused | None:
    """Return why a person cannot be erased, or not by this one; whoever sits at the machine itself may.

    Nobody erases themselves, nor anyone who is on the roster: they leave first, and so a manager always stays.
    """
    today, progress = k.today(now), k.progress()
    if by != LOCAL and "manager" not in progress.roles(by, today):
        return Refused(message("Only a manager erases somebody."), A_MANAGER)
    if by == cook:
        return Refused(message("Nobody erases themselves."), ANOTHER_MANAGER)
    if cook in progress.erased:
        return Refused(message("This person is erased already."))
    if cook not in k.file.people.all():
        return Refused(message("There is no such person here any more."))
    if progress.is_on_roster(cook, today):
        return Refused(*_still_here(k, cook, now))
    return None


def _still_here(k: Kitchen, cook: str, now: datetime) -> tuple[Text, Text]:
    """Return why nobody on the roster is erased, and what comes first."""
    day = k.day(k.today(now))
    managers = [one for one in day.progress.cooks_on(day.on) if "manager" in day.roles(one)]
    if managers == [cook]:
        words = message("{name} is the only manager. Somebody else becomes manager first.", name=day.name(cook))
        return words, message("Give another person the role, then {name} can leave.", name=day.name(cook))
    words = message("{name} is on the roster. Whoever is erased has left.", name=day.name(cook))
    return words, message("Take {name} off the roster first.", name=day.name(cook))


def erase_person(k: Kitchen, *, erasure: Erasure, written: Written) -> Outcome:
    """Return the saved `person_erased`. All of it or none: every text about them dropped, with an entry each.

    Their name, number, birth date, secret, sessions, waits and drafts go too. Before that the book is given what it
    lacks of their name and age, so that boards of days gone by stay as they were.
    """
    with k.file.writing():
        there = saved_before(k, written.key, "person_erased", written.by)
        refusal = there or refused_by_clock(k, written.now) or may_not_erase(k, erasure.cook, written.by, written.now)
        if refusal is not None:
            return refusal
        outcome = _erase(k, erasure, written)
    k.file.wipe()
    return outcome


def _erase(k: Kitchen, erasure: Erasure, written: Written) -> Outcome:
    """Return the saved entry, inside the open transaction."""
    cook, now = erasure.cook, written.now
    for deed in deeds_for_one(k, k.file.people.all()[cook], now):
        append(k, deed)
    texts = held_about(k, cook).texts
    what = ["name", "birth date", "secret", "texts"]
    body = {"what": what, "why": erasure.why}
    outcome = append(k, NewEntry("person_erased", now, cook, written.by, body, written.key))
    if not isinstance(outcome, Saved):
        return outcome
    for place, digest in enumerate(texts):
        dropped = {"digest": digest, "because": outcome.entry.id}
        append(k, NewEntry("paper_dropped", now, cook, written.by, dropped, f"{written.key}:{place}"))
        k.file.book.drop_paper(digest)
    k.file.people.erase(cook)
    return outcome
