"""Corrections: a later entry that voids an earlier one, or one question of it; never an edit."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, save, validate_text
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage, may_void
from trainer.kitchen.quiz.rescoring import QuestionKey, key_of
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class Correction:
    """The entry to void, by id, and why; its writer may leave the reason out for ten minutes."""

    entry: str
    reason: str


@dataclass(frozen=True, slots=True)
class BadQuestion:
    """The question to void, by family and seed, the `quiz_sat` entry it was seen in, and why."""

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
    if entry is None or entry.kind != "quiz_sat":
        return Refused(message("There is no sitting “{entry}”.", entry=question.entry), "", "entry")
    wanted = QuestionKey(question.family, question.seed)
    if all(key_of(asked) != wanted for asked in entry.body["questions"]):
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


def _void_already(entry: Entry, wanted: QuestionKey, day: Snapshot) -> Refused | None:
    """Return the refusal of a question that counts no longer as it is."""
    if wanted in day.progress.record(entry.cook).questions_void_on(day.on):
        return Refused(message("That question is voided already."), "", "question")
    return None


def void_entry(k: Kitchen, *, by: str, correction: Correction, now: datetime, key: str) -> Outcome:
    """Return the saved `entry_voided`: from today the entry counts for nothing; earlier days stay as they were."""
    entry, reason = k.file.book.find(correction.entry), correction.reason.strip()
    if entry is None:
        return Refused(message("There is no entry “{entry}”.", entry=correction.entry), "", "entry")
    deed = NewEntry("entry_voided", now, entry.cook, by, {"entry": entry.id, "reason": reason}, key)
    return save(
        k,
        deed,
        lambda day: (
            denied_by(may_void(by, entry, reason, now, day.progress))
            or validate_text(reason, "reason", may_be_blank=True)
        ),
    )
