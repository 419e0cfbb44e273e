"""Corrections: a later entry that voids an earlier one, or one question of it; never an edit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any, Literal, get_args

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.leaning import leaning_entries
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, save, validate_text
from trainer.actions.two_people import (
    POWER,
    Asked,
    Second,
    Waits,
    keep_waiting,
    need_of,
    said_by,
    until_of,
    waiting_for,
)
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import Snapshot, is_slip, is_stop, may_manage, may_void
from trainer.kitchen.quiz.rescoring import QuestionKey, key_of
from trainer.messages import message
from trainer.store.drafts import Draft

Counts = Literal["from today", "never"]
SLIP = "slip"
"""The reason of a writer's own void that gives none."""


@dataclass(frozen=True, slots=True)
class Correction:
    """The entry to void, by id, and why; its writer may leave the reason out for ten minutes.

    It counts no longer from today, or for no day at all (`never`); as a slip of its writer for no day.
    """

    entry: str
    reason: str
    counts: Counts = "from today"


@dataclass(frozen=True, slots=True)
class BadQuestion:
    """The question to void, by family and seed, the entry it was seen in (a sitting or an answer), and why."""

    entry: str
    family: str
    seed: int
    reason: str


def void_question(k: Kitchen, *, by: str, question: BadQuestion, now: datetime, key: str) -> Outcome:
    """Return the saved `question_voided`: from today every sitting that asked the question is scored without it.

    A manager voids it, with a reason, in a sitting that is not their own. The entry is about the cook whose sitting it
    was seen in, so that it stands in the record of anyone who asked about it.
    """
    entry, reason = k.file.book.find(question.entry), question.reason.strip()
    if entry is None or not questions_in(entry):
        return Refused(message("There is no sitting “{entry}”.", entry=question.entry), "", "entry")
    wanted = QuestionKey(question.family, question.seed)
    if all(key_of(asked) != wanted for asked in questions_in(entry)):
        return Refused(message("That question was not asked in this sitting."), "", "question")
    body = {"family": question.family, "seed": question.seed, "entry": entry.id, "reason": reason}
    return save(
        k,
        NewEntry("question_voided", now, entry.cook, by, body, key),
        lambda day: (
            denied_by(may_manage(by, entry.cook, day))
            or _void_already(entry, wanted, day)
            or validate_text(reason, "reason")
        ),
    )


def questions_in(entry: Entry) -> Sequence[Mapping[str, Any]]:
    """Return the questions an entry holds answers to, as the book keeps them: one of an answer, none of others."""
    if entry.kind == "answered":
        return (entry.body,)
    return tuple(entry.body["questions"]) if entry.kind == "quiz_sat" else ()


def _void_already(entry: Entry, wanted: QuestionKey, day: Snapshot) -> Refused | None:
    """Return the refusal of a question that counts no longer as it is."""
    if wanted in day.progress.record(entry.cook).questions_void_on(day.on):
        return Refused(message("That question is voided already."), "", "question")
    return None


def void_entry(k: Kitchen, *, by: str, correction: Correction, now: datetime, key: str) -> Outcome | Waits:
    """Return the saved `entry_voided`, with the entries that lean on what it voids: they count on, marked.

    From today the entry counts for nothing, or for no day at all. The void of a stop, of what others lean on, and of
    what took away a role that gives power, takes a second person.
    """
    entry = k.file.book.find(correction.entry)
    if entry is None:
        return Refused(message("There is no entry “{entry}”.", entry=correction.entry), "", "entry")
    with k.file.writing():
        deed, waits = _void_deed(k, by, entry, correction, now, key), waiting_for(k, key)
        gained = _power_given_back(k.day(k.today(now)), entry)
        if waits is not None:
            return Waits(key, until_of(waits))
        if k.file.book.find_key(key) is not None or not (is_stop(entry) or deed.body["leaning"] or gained):
            return _voided(k, deed, entry, correction.reason)
        args = {"entry": entry.id, "reason": correction.reason.strip(), "counts": deed.body["counts"]}
        asked = Asked("void", entry.cook, by, args, key, waits_alone=is_stop(entry) or "manager" in gained)
        need = need_of(k, asked, k.day(k.today(now)))
        if need == "nobody":
            return _voided(k, replace(deed, body={**deed.body, "second": None}), entry, correction.reason)
        refusal = refused_by_clock(k, now) or _not_voided(k.day(k.today(now)), deed, entry, correction.reason)
        return refusal or keep_waiting(k, asked, need, now)


def _power_given_back(day: Snapshot, entry: Entry) -> frozenset[str]:
    """Return the roles that give power which somebody would have again without an entry of the roster."""
    record = day.progress.record(entry.cook)
    left = [line for line in record.standing(record.roster, day.on) if line.entry != entry.id]
    return POWER & left[-1].roles - day.roles(entry.cook) if left else frozenset()


def enter_void(k: Kitchen, draft: Draft, second: Second | None, now: datetime) -> Outcome:
    """Return the void that waited, asked of the kitchen again as of now."""
    args = draft.body["args"]
    entry, correction = k.file.book.find(draft.body["args"]["entry"]), Correction(**args)
    if entry is None:
        return Refused(message("There is no entry “{entry}”.", entry=args["entry"]), "", "entry")
    deed = _void_deed(k, draft.by, entry, correction, now, draft.id)
    return _voided(k, replace(deed, body={**deed.body, **said_by(second, draft.at)}), entry, args["reason"])


def _void_deed(  # noqa: PLR0913, PLR0917 - an entry has so much
    k: Kitchen, by: str, entry: Entry, correction: Correction, now: datetime, key: str
) -> NewEntry:
    """Return the void of an entry: a writer's slip counts for no day, and says so where no reason was typed."""
    slip, reason = is_slip(by, entry, now), correction.reason.strip()
    counts: Counts = "never" if slip else correction.counts
    leaning = list(leaning_entries(k, entry.id))
    body = {"entry": entry.id, "counts": counts, "reason": reason or (SLIP if slip else ""), "leaning": leaning}
    return NewEntry("entry_voided", now, entry.cook, by, body, key)


def _voided(k: Kitchen, deed: NewEntry, entry: Entry, reason: str) -> Outcome:
    return save(k, deed, lambda day: _not_voided(day, deed, entry, reason))


def _not_voided(day: Snapshot, deed: NewEntry, entry: Entry, reason: str) -> Refused | None:
    """Return why an entry is not voided: not by this person, not without a reason, not as said."""
    wrong = None
    if deed.body["counts"] not in get_args(Counts):
        wrong = Refused(message("Choose from when it counts no longer."), "", "counts")
    may = denied_by(may_void(deed.by, entry, reason, deed.at, day.progress))
    return may or wrong or validate_text(reason.strip(), "reason", may_be_blank=True)
