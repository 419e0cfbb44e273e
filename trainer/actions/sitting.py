"""A quiz sitting: started with a seed, answered one question at a time, finished once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import append, not_on_roster, saved_before, unusable_key
from trainer.kitchen.book import Deed
from trainer.kitchen.clearance import technique_standing
from trainer.kitchen.entitlement import Day
from trainer.kitchen.quiz.drawing import GRADER, CannotDraw, draw_sitting
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Grade, Question
from trainer.kitchen.quiz.sitting import result
from trainer.kitchen.technique import Technique
from trainer.store.drafts import Draft

NOT_OPEN = Refused("That sitting is not open any more. Start a new one.", "", "sitting")


@dataclass(frozen=True, slots=True)
class Sitting:
    """A sitting under way: the questions as drawn, and the answers given so far by place (0 is the first)."""

    id: str
    cook: str
    technique: str
    edition: int
    seed: int
    questions: tuple[Question, ...]
    answers: Mapping[int, str]
    started: datetime

    @property
    def unanswered(self) -> tuple[int, ...]:
        """Return the places without an answer."""
        return tuple(place for place in range(len(self.questions)) if place not in self.answers)

    @property
    def next_unanswered(self) -> int | None:
        """Return the first place without an answer, or None when every question has one."""
        return next(iter(self.unanswered), None)


@dataclass(frozen=True, slots=True)
class Answered:
    """What the answer was understood as, and kept; or the `problem`, and nothing kept: ask again.

    Right or wrong is not told before the sitting is finished, as an answer may be changed until then.
    """

    index: int
    understood: str
    problem: str | None = None


def start_sitting(  # noqa: PLR0913 - who, what, when and key as every action has them, and the seed
    k: OpenKitchen, *, cook: str, technique: str, seed: int, now: datetime, key: str
) -> Sitting | Refused:
    """Return the cook's open sitting of this technique, or a new one with this seed; `key` becomes its id."""
    with k.file.writing():
        taught, day = k.content.techniques.get(technique), k.day(k.today(now))
        if taught is None:
            return Refused(f"There is no technique {technique!r}.", "", "technique")
        return _refusal(cook, taught, day) or _resumed(k, cook, technique) or _begun(k, cook, taught, seed, now, key)


def _refusal(cook: str, technique: Technique, day: Day) -> Refused | None:
    """Return why a cook may not sit the quiz today."""
    if not technique.questions:
        return Refused(f"{technique.title} has no quiz.", "", "technique")
    if not technique_standing(cook, technique, day.progress, day.on).is_read:
        edition = technique.edition_on(day.on).number
        return not_on_roster(cook, day) or Refused(f"Read {technique.title}, edition {edition}, first.", "The cook.")
    return not_on_roster(cook, day)


def _resumed(k: OpenKitchen, cook: str, technique: str) -> Sitting | None:
    """Return the open sitting; one whose questions are drawn otherwise by now is put away."""
    for draft in k.file.drafts.list("sitting", cook=cook):
        found = _sitting(k, draft)
        if found is None:
            k.file.drafts.delete(draft.id)
        elif found.technique == technique:
            return found
    return None


def _begun(  # noqa: PLR0913, PLR0917 - as `start_sitting`
    k: OpenKitchen, cook: str, technique: Technique, seed: int, now: datetime, key: str
) -> Sitting | Refused:
    unusable = unusable_key(k, key)
    if unusable is not None:
        return unusable
    try:
        questions = draw_sitting(technique, seed)
    except CannotDraw as problem:
        return Refused(f"{technique.title}: its questions cannot be drawn ({problem}).", "Whoever keeps the content.")
    edition = technique.edition_on(k.today(now)).number
    sitting = Sitting(key, cook, technique.id, edition, seed, questions, {}, now)
    k.file.drafts.put(_draft(sitting))
    return sitting


def _draft(sitting: Sitting) -> Draft:
    body = {
        "edition": sitting.edition,
        "seed": sitting.seed,
        "grader": GRADER,
        "shown": _shown(sitting.questions),
        "answers": {str(place): text for place, text in sitting.answers.items()},
    }
    return Draft(sitting.id, "sitting", sitting.technique, sitting.cook, sitting.cook, body, sitting.started)


def _shown(questions: Sequence[Question]) -> list[list[str]]:
    """Return all that a cook sees of each question, as it is kept in a draft."""
    return [[str(part) for part in question.shown] for question in questions]


def _sitting(k: OpenKitchen, draft: Draft) -> Sitting | None:
    """Return a draft as a sitting, its questions drawn again; None where they come out otherwise than were asked."""
    technique, body = k.content.techniques.get(draft.about), draft.body
    if technique is None or body["grader"] != GRADER:
        return None
    try:
        questions = draw_sitting(technique, body["seed"])
    except CannotDraw:
        return None
    if _shown(questions) != body.get("shown"):
        return None
    answers = {int(place): text for place, text in body["answers"].items()}
    edition, seed = body["edition"], body["seed"]
    return Sitting(draft.id, draft.cook, draft.about, edition, seed, questions, answers, draft.at)


def find_sitting(k: OpenKitchen, sitting: str) -> Sitting | None:
    """Return an open sitting by id; whoever calls sees to it that a cook meets only their own."""
    draft = k.file.drafts.get(sitting)
    return _sitting(k, draft) if draft is not None and draft.kind == "sitting" else None


def open_sitting(k: OpenKitchen, *, cook: str, technique: str) -> Sitting | None:
    """Return the cook's open sitting of a technique, if there is one."""
    found = (_sitting(k, draft) for draft in k.file.drafts.list("sitting", cook=cook) if draft.about == technique)
    return next((sitting for sitting in found if sitting is not None), None)


def answer_question(k: OpenKitchen, *, sitting: str, index: int, text: str, now: datetime) -> Answered | Refused:
    """Return what the answer was read as, after keeping it; with `problem` set nothing was kept.

    An answer may be given anew until the sitting is finished; the last one counts. `now` dates nothing: a sitting keeps
    the moment it was started.
    """
    with k.file.writing():
        found = find_sitting(k, sitting)
        if found is None:
            return NOT_OPEN
        if not 0 <= index < len(found.questions):
            return Refused(f"There is no question {index + 1}.", "", "index")
        grade_now = _graded(k, found.questions[index], text)
        if grade_now.problem is not None:
            return Answered(index, "", grade_now.problem)
        k.file.drafts.put(_draft(replace(found, answers={**found.answers, index: text.strip()})))
        return Answered(index, grade_now.understood)


def _graded(k: OpenKitchen, question: Question, text: str) -> Grade:
    return grade(question, text, k.file.settings.decimal_mark)


def finish_sitting(k: OpenKitchen, *, sitting: str, now: datetime, key: str, blanks_are_wrong: bool = False) -> Outcome:
    """Return the saved `quiz_sat`, every answer graded and the wrong methods named; the sitting is open no more.

    Questions without an answer are asked for first.
    """
    with k.file.writing():
        before = saved_before(k, key, "quiz_sat")
        if before is not None:
            return before
        found = find_sitting(k, sitting)
        if found is None:
            return NOT_OPEN
        refusal = _unfinished(found) or _off(k, found, now)
        if refusal is not None:
            return refusal
        outcome = append(k, Deed("quiz_sat", now, found.cook, found.cook, _body(k, found), key))
        if not isinstance(outcome, Refused):
            k.file.drafts.delete(found.id)
        return outcome


def _off(k: OpenKitchen, sitting: Sitting, now: datetime) -> Refused | None:
    return not_on_roster(sitting.cook, k.day(k.today(now)))


def _unfinished(sitting: Sitting) -> Refused | None:
    if not sitting.unanswered:
        return None
    places = ", ".join(str(place + 1) for place in sitting.unanswered)
    return Refused(f"These questions have no answer yet: {places}.", "", "answers")


def _body(k: OpenKitchen, sitting: Sitting) -> dict[str, Any]:
    """Return what the book keeps: each question as it was asked, so that it can be shown again exactly, whatever the
    content says by then; and the seeds, so that it can be drawn again as well.
    """
    technique = k.content.techniques[sitting.technique]
    texts = [sitting.answers[place] for place in range(len(sitting.questions))]
    grades = [_graded(k, question, text) for question, text in zip(sitting.questions, texts, strict=True)]
    outcome = result(grades, technique.need_right)
    return {
        "technique": sitting.technique,
        "edition": sitting.edition,
        "seed": sitting.seed,
        "grader": GRADER,
        "questions": _answered(sitting.questions, texts, grades),
        "right": outcome.right,
        "asked": outcome.asked,
        "need": outcome.need,
        "passed": outcome.passed,
    }


def _answered(questions: Sequence[Question], texts: Sequence[str], grades: Sequence[Grade]) -> list[dict[str, Any]]:
    """Return each question with what was given for it, and the wrong method that gives the same, if one does."""
    return [
        {
            "family": q.family,
            "seed": q.seed,
            "text": q.text,
            "figure": q.figure,
            "figure_alt": q.figure_alt,
            "choices": {choice.key: choice.text for choice in q.choices},
            "answer": str(q.answer.value),
            "unit": q.answer.unit,
            "solution": list(q.solution),
            "given": text,
            "right": g.is_right is True,
            "method": g.method,
            "says": g.says,
        }
        for q, text, g in zip(questions, texts, grades, strict=True)
    ]
