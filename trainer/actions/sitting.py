"""A quiz sitting: started with a seed, answered one question at a time, finished once.

A quiz of fixed length is handed in; one that decides ends by itself with the answer that decides it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.in_force import standard_number
from trainer.actions.open_kitchen import Kitchen, Units
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import append, not_on_roster, saved_before, unusable_key
from trainer.actions.sitting_drafts import (
    PutAside,
    Sitting,
    count_of,
    draft_of,
    drawn,
    put_aside,
    question_told,
    sitting_of,
    standing_after,
    told_in,
)
from trainer.kitchen.book import Entry, NewEntry, digest_of
from trainer.kitchen.clearance import technique_standing
from trainer.kitchen.currency import in_currency
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.quiz.drawing import GRADER, CannotDraw
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.keeping import answered, answered_before
from trainer.kitchen.quiz.question import Grade, Question
from trainer.kitchen.quiz.retry_wait import DAYS, may_sit_from
from trainer.kitchen.quiz.rules import rules_of
from trainer.kitchen.quiz.seen_text import SeenQuestion, seen_question, sitting_paper
from trainer.kitchen.quiz.sitting import Tally
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Technique
from trainer.messages import Text, message
from trainer.store.catalogues import translations

__all__ = [
    "Answered",
    "Sitting",
    "answer_question",
    "ended_by_itself",
    "find_sitting",
    "finish_sitting",
    "open_sitting",
    "sits_again_from",
    "start_sitting",
]

NOT_OPEN = Refused(message("That sitting is not open any more. Start a new one."), "", "sitting")


@dataclass(frozen=True, slots=True)
class Answered:
    """What the answer was understood as, and kept; or the `problem`, and nothing kept: ask again.

    Right or wrong is not told before the sitting is finished. `left` is how many questions at most are left in a quiz
    that decides; `entry` is the finished sitting, where this answer ended it.
    """

    index: int
    understood: Text
    problem: Text | None = None
    left: int | None = None
    entry: Entry | None = None


def start_sitting(  # noqa: PLR0913 - who, what, when and key as every action has them, the seed and what was told
    k: Kitchen, *, cook: str, technique: str, seed: int, now: datetime, key: str, told: str = ""
) -> Sitting | Refused:
    """Return the cook's open sitting of this technique, or a new one with this seed; `key` becomes its id.

    A sitting that cannot be opened any more is dropped for the new one only where the cook was told so: `told` is its
    id. Else that is the refusal.
    """
    with k.file.writing():
        taught, day = k.content.techniques.get(technique), k.day(k.today(now))
        refused = refused_by_clock(k, now)
        if refused is not None:
            return refused
        if taught is None:
            return Refused(message("There is no technique “{technique}”.", technique=technique), "", "technique")
        return (
            _refusal(cook, taught, day)
            or open_sitting(k, cook=cook, technique=technique)
            or _too_soon(cook, taught, day)
            or _to_be_told(k, cook, technique, told)
            or _begun(k, cook, taught, seed, now, key)
        )


def _to_be_told(k: Kitchen, cook: str, technique: str, told: str) -> Refused | None:
    """Return what the cook has to be told before a new sitting takes the place of one that cannot be opened."""
    for aside in put_aside(k, cook=cook):
        if aside.technique == technique and aside.id != told:
            return Refused(aside.words, "", "told")
    return None


def _refusal(cook: str, technique: Technique, day: Snapshot) -> Refused | None:
    """Return why a cook may not sit the quiz today."""
    if not technique.questions:
        return Refused(message("{title} has no quiz.", title=technique.title), "", "technique")
    if not technique_standing(cook, technique, day.progress, day.on).is_read:
        edition = technique.edition_on(day.on).number
        return not_on_roster(cook, day) or Refused(
            message("Read {title}, edition {edition}, first.", title=technique.title, edition=edition),
            message("The cook reads it, and then sits the quiz."),
        )
    return not_on_roster(cook, day)


def sits_again_from(cook: str, technique: str, day: Snapshot) -> date | None:
    """Return the first day a cook may sit a quiz again after failing it, where that is still to come."""
    record = day.progress.record(cook).as_of(day.on)
    sat = (line for line in record.sat if line.technique == technique)
    taught = day.content.techniques.get(technique)
    first = may_sit_from(sat, taught.waits if taught else DAYS, {line.sitting for line in record.waits_lifted})
    return first if first is not None and first > day.on else None


def _too_soon(cook: str, technique: Technique, day: Snapshot) -> Refused | None:
    """Return the refusal of a quiz failed too short a time ago."""
    first = sits_again_from(cook, technique.id, day)
    if first is None:
        return None
    words = message(
        "The quiz of {title} was not passed. It may be sat again on {first}: go through it first.",
        title=technique.title,
        first=in_words(first),
    )
    return Refused(words, message("A manager can lift the wait."), "technique")


def _begun(  # noqa: PLR0913, PLR0917 - as `start_sitting`
    k: Kitchen, cook: str, technique: Technique, seed: int, now: datetime, key: str
) -> Sitting | Refused:
    unusable = unusable_key(k, key)
    if unusable is not None:
        return unusable
    content = k.content
    try:
        questions = drawn(technique, seed, content.question_words)
    except CannotDraw as problem:
        return Refused(
            message("{title}: its questions cannot be drawn ({problem}).", title=technique.title, problem=str(problem)),
            message("Whoever keeps the content can mend it."),
        )
    edition, rules = technique.edition_on(k.today(now)).number, rules_of(technique)
    sitting = Sitting(
        id=key,
        cook=cook,
        technique=technique.id,
        title=technique.title,
        edition=edition,
        seed=seed,
        grader=GRADER,
        questions=told_in(questions, technique, content),
        answers={},
        started=now,
        rules=rules,
        standing=rules.standing_of(Tally(0, 0)),
        drawn=questions,
        standard=standard_number(k.day(k.today(now))),
    )
    for aside in put_aside(k, cook=cook):
        if aside.technique == technique.id:
            k.file.drafts.delete(aside.id)
    k.file.drafts.put(draft_of(sitting))
    return sitting


def find_sitting(k: Kitchen, sitting: str) -> Sitting | None:
    """Return an open sitting by id; the caller sees to it that a cook meets only their own."""
    found = _found(k, sitting)
    return found if isinstance(found, Sitting) else None


def _found(k: Kitchen, sitting: str, asked: int | None = None) -> Sitting | PutAside | None:
    """Return an open sitting, with all its questions told or with what answering one takes."""
    draft = k.file.drafts.get(sitting)
    return sitting_of(k, draft, asked) if draft is not None and draft.kind == "sitting" else None


def open_sitting(k: Kitchen, *, cook: str, technique: str) -> Sitting | None:
    """Return the cook's open sitting of a technique, if there is one."""
    drafts = (draft for draft in k.file.drafts.list("sitting", cook=cook) if draft.about == technique)
    found = (sitting_of(k, draft) for draft in drafts)
    return next((sitting for sitting in found if isinstance(sitting, Sitting)), None)


def answer_question(  # noqa: PLR0913 - which question of which sitting, what was typed, when, and how it was read
    k: Kitchen, *, sitting: str, index: int, text: str, now: datetime, read_in: tuple[str, Units] | None = None
) -> Answered | Refused:
    """Return what the answer was read as, after keeping it; with `problem` set nothing was kept.

    In a quiz of fixed length an answer may be given again until it is handed in; the last one counts. In one that
    decides each answer stands, and the one that decides finishes the sitting. `now` dates that and nothing else.
    `read_in` is the language and the units it was read in, None for the kitchen's own: what was read is kept.
    """
    with k.file.writing():
        found = _found(k, sitting, index)
        if not isinstance(found, Sitting):
            return NOT_OPEN if found is None else Refused(found.words, "", "sitting")
        if not 0 <= index < len(found.questions):
            return Refused(message("There is no question {index}.", index=index + 1), "", "index")
        refusal = _out_of_turn(k, found, index, now) if found.decides else None
        if refusal is not None:
            return refusal
        grade_now = _graded(k, found.questions[index], text)
        if grade_now.problem is not None:
            return Answered(index, "", grade_now.problem)
        answers = {**found.answers, index: text.strip()}
        after = standing_after(k, found.rules, found.questions, answers)
        seen = {**found.seen, **_seen(k, found, index, text, read_in)}
        kept = replace(found, answers=answers, standing=after, seen=seen)
        k.file.drafts.put(draft_of(kept))
        return _ended(k, kept, Answered(index, grade_now.understood), now)


def _seen(
    k: Kitchen, sitting: Sitting, place: int, text: str, read_in: tuple[str, Units] | None
) -> dict[int, SeenQuestion]:
    """Return what was read of a question, by its place; nothing of a sitting that keeps its words itself."""
    if not sitting.drawn:
        return {}
    own = k.file.settings
    language, units = read_in or (own.language, own.units_first)
    content = k.content_for(language, units)
    told = sitting.questions[place] if content is k.content else question_told(sitting, place, content)
    return {
        place: seen_question(told, _graded(k, told, text), language, in_currency(translations(language), own.currency))
    }


def _out_of_turn(k: Kitchen, sitting: Sitting, index: int, now: datetime) -> Refused | None:
    """Return why a quiz that decides takes no answer to this question now."""
    if index in sitting.answers:
        return Refused(message("Your answer to question {index} stands.", index=index + 1), "", "index")
    if index != sitting.next_unanswered:
        return Refused(message("Question {index} is not asked yet.", index=index + 1), "", "index")
    return _off(k, sitting, now)


def _ended(k: Kitchen, sitting: Sitting, answered: Answered, now: datetime) -> Answered | Refused:
    """Return what was answered, and the finished sitting where that answer decides it."""
    if sitting.standing is None:
        return answered
    if sitting.standing.outcome == "go on":
        return replace(answered, left=sitting.standing.left)
    outcome = _finished(k, sitting, now, sitting.id)
    return outcome if isinstance(outcome, Refused) else replace(answered, left=0, entry=outcome.entry)


def _graded(k: Kitchen, question: Question, text: str) -> Grade:
    return grade(question, text, k.file.settings.decimal_mark)


def finish_sitting(k: Kitchen, *, sitting: str, now: datetime, key: str) -> Outcome:
    """Return the saved `quiz_sat`, every answer graded and the wrong methods named; the sitting is open no more.

    Questions without an answer are asked for first. A quiz that decides and has ended by itself gives its entry.
    """
    with k.file.writing():
        before = saved_before(k, key, "quiz_sat")
        if before is not None:
            return before
        found = _found(k, sitting)
        if isinstance(found, PutAside):
            return Refused(found.words, "", "sitting")
        if found is None:
            ended = ended_by_itself(k, sitting)
            return NOT_OPEN if ended is None else Saved(ended)
        refusal = _unfinished(found) or _off(k, found, now)
        return refusal or _finished(k, found, now, key)


def ended_by_itself(k: Kitchen, sitting: str) -> Entry | None:
    """Return the entry of a quiz that decides and has ended, by the sitting's id; whose it is the caller sees to."""
    there = k.file.book.find_key(sitting)
    return there if there is not None and there.kind == "quiz_sat" else None


def _finished(k: Kitchen, sitting: Sitting, now: datetime, key: str) -> Outcome:
    """Return the saved `quiz_sat`; the draft goes with it."""
    papers = (_paper(k, sitting),) if sitting.drawn else ()
    body = _body(k, sitting) | ({"shown": digest_of(papers[0])} if papers else {})
    outcome = append(k, NewEntry("quiz_sat", now, sitting.cook, sitting.cook, body, key, papers=papers))
    if not isinstance(outcome, Refused):
        k.file.drafts.delete(sitting.id)
    return outcome


def _paper(k: Kitchen, sitting: Sitting) -> bytes:
    """Return what was read in a sitting; of an answer given to an older program, what would be read now."""
    read: dict[int, SeenQuestion] = dict(sitting.seen)
    for place in sitting.answers.keys() - read.keys():
        read |= _seen(k, sitting, place, sitting.answers[place], None)
    questions = [read[place] for place in sorted(read)]
    told = k.content_for(questions[-1].language, k.file.settings.units_first).techniques.get(sitting.technique)
    return sitting_paper(told.title if told else sitting.title, questions)


def _off(k: Kitchen, sitting: Sitting, now: datetime) -> Refused | None:
    return not_on_roster(sitting.cook, k.day(k.today(now)))


def _unfinished(sitting: Sitting) -> Refused | None:
    if not sitting.unanswered:
        return None
    if sitting.decides:
        return Refused(message("The answers do not decide yet: go on with the next question."), "", "answers")
    places = ", ".join(str(place + 1) for place in sitting.unanswered)
    return Refused(message("These questions have no answer yet: {places}.", places=places), "", "answers")


def _body(k: Kitchen, sitting: Sitting) -> dict[str, Any]:
    """Return what the book keeps: each question by its numbers and picks, with the answer and its grade.

    A sitting that was begun with its words kept keeps them in the book, too.
    """
    questions = sitting.questions[: len(sitting.answers)]
    outcome = sitting.rules.result_of(count_of(k, questions, sitting.answers))
    return {
        "technique": sitting.technique,
        "edition": sitting.edition,
        "standard": sitting.standard,
        "seed": sitting.seed,
        "grader": sitting.grader,
        "questions": [_kept(k, sitting, place) for place in range(len(questions))],
        "right": outcome.right,
        "asked": outcome.asked,
        "need": outcome.need,
        "passed": outcome.passed,
        **sitting.rules.judged(),
    }


def _kept(k: Kitchen, sitting: Sitting, place: int) -> dict[str, Any]:
    """Return one answered question as the book keeps it."""
    question, text = sitting.questions[place], sitting.answers[place]
    given = _graded(k, question, text)
    if sitting.drawn:
        return answered(sitting.drawn[place], question, text, given)
    return answered_before(question, text, given)
