"""One answer to one question: judged and kept at once, for good. Whether it counts follows from the book."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from trainer.actions.asking_skills import OpenQuestion, context_for, draft_id, may_answer, question_of
from trainer.actions.in_force import standard_number
from trainer.actions.open_kitchen import Kitchen, Units
from trainer.actions.outcome import Refused, Saved
from trainer.actions.practising import not_an_assessor
from trainer.actions.saving import append, saved_before
from trainer.kitchen.book import Entry, NewEntry, digest_of, moment_text
from trainer.kitchen.currency import in_currency
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.papers import packed
from trainer.kitchen.quiz.choice_grading import as_keys, is_half
from trainer.kitchen.quiz.drawing import GRADER
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Grade, Question
from trainer.kitchen.quiz.seen_text import question_kept, seen_question
from trainer.kitchen.quiz.telling import CannotTell, tell
from trainer.kitchen.skills.rule import RULE
from trainer.messages import Text, message
from trainer.store.catalogues import translations

NOT_OPEN = Refused(message("That question is not open any more. Go on with the next one."), "", "answer")


@dataclass(frozen=True, slots=True)
class AskedAgain:
    """An answer that was no usable one, and why: nothing was kept, the question stays.

    `is_half`: an act was chosen, and why is asked next.
    """

    problem: Text
    is_half: bool = False


@dataclass(frozen=True, slots=True)
class Given:
    """What was answered: the skill's question by its seed, the text as typed, in which language and units it was read.

    `asked_by` is the assessor who read it aloud, nothing where the cook read it; `done_at` is when they answered, where
    that was without network and it is sent later.
    """

    cook: str
    skill: str
    seed: int
    text: str
    language: str
    units: Units
    asked_by: str = ""
    done_at: datetime | None = None


def answer(k: Kitchen, *, given: Given, now: datetime, key: str) -> Saved | AskedAgain | Refused:
    """Return the saved `answered`; or that the answer has to be given again, and nothing was kept.

    The same question answered twice, as from two phones, gives the entry that is there.
    """
    with k.file.writing():
        before = saved_before(k, key, "answered")
        if before is not None:
            return before
        draft, asked = k.file.drafts.get(draft_id(given.cook, given.skill)), k.content.skills.get(given.skill)
        found = question_of(draft, asked) if draft is not None and asked is not None else None
        if found is None or found.drawn.seed != given.seed:
            return _answered_already(k, given) or NOT_OPEN
        day = k.day(k.today(now))
        refused = _may_not(k, found, given, day)
        if refused is not None:
            return refused
        return _judged(k, found, given, now, key)


def _may_not(k: Kitchen, found: OpenQuestion, given: Given, day: Snapshot) -> Refused | None:
    """Return why this answer may not be given: by this cook today, or by whoever says they read it aloud."""
    technique = k.content.techniques.get(found.technique)
    if technique is None:
        return NOT_OPEN
    if given.asked_by:
        refused = not_an_assessor(given.asked_by, given.cook, day)
        if refused is not None:
            return refused
    return may_answer(given.cook, technique, day)


def _answered_already(k: Kitchen, given: Given) -> Saved | None:
    """Return the answer the book has to this very question."""
    lines = reversed(k.progress().record(given.cook).skills)
    there = next((line for line in lines if line.skill == given.skill and line.seed == given.seed), None)
    entry = k.file.book.find(there.entry) if there else None
    return Saved(entry) if entry is not None else None


def _judged(k: Kitchen, found: OpenQuestion, given: Given, now: datetime, key: str) -> Saved | AskedAgain | Refused:
    try:
        question = tell(found.drawn, context_for(found.skill, k.content))
    except CannotTell:
        k.file.drafts.delete(found.id)
        return NOT_OPEN
    judged = grade(question, given.text, k.file.settings.decimal_mark)
    if judged.problem is not None:
        return AskedAgain(judged.problem, is_half(question, given.text))
    paper = _paper(k, found, given, question, judged)
    on = _answered_on(k, found, given, now)
    body = _body(k, found, given, question, judged, on) | {"shown": digest_of(paper)}
    by = given.asked_by or given.cook
    happened = on if on < k.today(now) else None
    outcome = append(k, NewEntry("answered", now, given.cook, by, body, key, happened, (paper,)))
    if not isinstance(outcome, Refused):
        k.file.drafts.delete(found.id)
    return outcome


def _answered_on(k: Kitchen, found: OpenQuestion, given: Given, now: datetime) -> date:
    """Return the day an answer counts on: its own where it was given without network, as far as that can be.

    It was given after its question was drawn, and its skill's days never run back.
    """
    if given.done_at is None or not found.asked_at <= given.done_at <= now:
        return k.today(now)
    lines = k.progress().record(given.cook).skills
    return max([k.today(given.done_at), *(line.on for line in lines if line.skill == given.skill)])


def _body(  # noqa: PLR0913, PLR0917 - the question, what was given, how it was judged, and on which day
    k: Kitchen, found: OpenQuestion, given: Given, question: Question, judged: Grade, on: date
) -> dict[str, Any]:
    skill = found.skill
    technique = k.content.techniques[found.technique]
    return {
        "technique": found.technique,
        "skill": skill.id,
        "standard": standard_number(k.day(on)),
        "edition": technique.edition_on(on).number,
        **found.drawn.kept(),
        "stem": found.drawn.stem,
        "grader": GRADER,
        "rule": RULE,
        "luck": str(skill.luck),
        "base": skill.base,
        "months": skill.months,
        "answer": question.key,
        "unit": question.answer.unit,
        "given": as_keys(question, given.text.strip()),
        "verdict": judged.verdict,
        "name": judged.name or "",
        "asked_by": given.asked_by,
        "on_shift": any(shift.cook == given.cook for shift in k.file.shifts.between(on, on)),
        "asked_at": moment_text(found.asked_at),
    }


def _paper(k: Kitchen, found: OpenQuestion, given: Given, told: Question, judged: Grade) -> bytes:
    """Return what was read of the question, its solution and what was said of the answer, word for word.

    *told* and *judged* are the question and its grade in the kitchen's own words.
    """
    content = k.content_for(given.language, given.units)
    if content is not k.content:
        told = tell(found.drawn, context_for(found.skill, content))
        judged = grade(told, given.text, k.file.settings.decimal_mark)
    words = in_currency(translations(given.language), k.file.settings.currency)
    return packed(question_kept(seen_question(told, judged, given.language, words)))


def answer_entry(k: Kitchen, entry: str, cook: str) -> Entry | None:
    """Return an answer of a cook by its entry; None where it is not theirs."""
    found = k.file.book.find(entry)
    return found if found is not None and found.kind == "answered" and found.cook == cook else None
