"""A quiz sitting: started with a seed, answered one question at a time, finished once.

A quiz of fixed length is handed in; one that decides ends by itself with the answer that decides it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import append, not_on_roster, saved_before, unusable_key
from trainer.kitchen.book import Deed, Entry
from trainer.kitchen.clearance import technique_standing
from trainer.kitchen.entitlement import Day
from trainer.kitchen.quiz.cooling_off import DAYS, may_sit_from
from trainer.kitchen.quiz.deciding import Standing, decided, kept, standing
from trainer.kitchen.quiz.drawing import GRADER, CannotDraw, draw_sitting
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.in_turn import draw_in_turn, is_about_safety
from trainer.kitchen.quiz.question import Grade, Question
from trainer.kitchen.quiz.sitting import Count, result
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Technique
from trainer.recipe_math.saying import say
from trainer.store.drafts import Draft

NOT_OPEN = Refused(say("That sitting is not open any more. Start a new one."), "", "sitting")


@dataclass(frozen=True, slots=True)
class Sitting:
    """A sitting under way: the questions as drawn, and the answers given so far by place (0 is the first).

    In a quiz that decides the questions are the most it may ask, and `standing` is how it stands; else that is None.
    """

    id: str
    cook: str
    technique: str
    edition: int
    seed: int
    questions: tuple[Question, ...]
    answers: Mapping[int, str]
    started: datetime
    standing: Standing | None = None

    @property
    def decides(self) -> bool:
        """Return whether answers stand once given and the sitting ends by itself."""
        return self.standing is not None

    @property
    def unanswered(self) -> tuple[int, ...]:
        """Return the places without an answer; none once a quiz that decides is decided."""
        if self.standing is not None and self.standing.outcome != "go on":
            return ()
        return tuple(place for place in range(len(self.questions)) if place not in self.answers)

    @property
    def next_unanswered(self) -> int | None:
        """Return the first place without an answer, or None when every question has one."""
        return next(iter(self.unanswered), None)


@dataclass(frozen=True, slots=True)
class Answered:
    """What the answer was understood as, and kept; or the `problem`, and nothing kept: ask again.

    Right or wrong is not told before the sitting is finished. `left` is how many questions at most are left in a quiz
    that decides; `entry` is the finished sitting, where this answer ended it.
    """

    index: int
    understood: str
    problem: str | None = None
    left: int | None = None
    entry: Entry | None = None


def start_sitting(  # noqa: PLR0913 - who, what, when and key as every action has them, and the seed
    k: OpenKitchen, *, cook: str, technique: str, seed: int, now: datetime, key: str
) -> Sitting | Refused:
    """Return the cook's open sitting of this technique, or a new one with this seed; `key` becomes its id."""
    with k.file.writing():
        taught, day = k.content.techniques.get(technique), k.day(k.today(now))
        if taught is None:
            return Refused(say("There is no technique “{technique}”.", technique=technique), "", "technique")
        return (
            _refusal(cook, taught, day)
            or _resumed(k, cook, technique)
            or _too_soon(cook, taught, day)
            or _begun(k, cook, taught, seed, now, key)
        )


def _refusal(cook: str, technique: Technique, day: Day) -> Refused | None:
    """Return why a cook may not sit the quiz today."""
    if not technique.questions:
        return Refused(say("{title} has no quiz.", title=technique.title), "", "technique")
    if not technique_standing(cook, technique, day.progress, day.on).is_read:
        edition = technique.edition_on(day.on).number
        return not_on_roster(cook, day) or Refused(
            say("Read {title}, edition {edition}, first.", title=technique.title, edition=edition),
            say("The cook reads it, and then sits the quiz."),
        )
    return not_on_roster(cook, day)


def sits_again_from(cook: str, technique: str, day: Day) -> date | None:
    """Return the first day a cook may sit a quiz again after failing it, where that is still to come."""
    record = day.progress.record(cook).as_of(day.on)
    sat = (line for line in record.sat if line.technique == technique)
    taught = day.content.techniques.get(technique)
    first = may_sit_from(sat, taught.waits if taught else DAYS, {line.sitting for line in record.waits_lifted})
    return first if first is not None and first > day.on else None


def _too_soon(cook: str, technique: Technique, day: Day) -> Refused | None:
    """Return the refusal of a quiz failed too short a time ago."""
    first = sits_again_from(cook, technique.id, day)
    if first is None:
        return None
    words = say(
        "The quiz of {title} was not passed. It may be sat again on {first}: go through it first.",
        title=technique.title,
        first=in_words(first),
    )
    return Refused(words, say("A manager can lift the wait."), "technique")


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
        questions = _drawn(k, technique, seed)
    except CannotDraw as problem:
        return Refused(
            say("{title}: its questions cannot be drawn ({problem}).", title=technique.title, problem=problem),
            say("Whoever keeps the content can mend it."),
        )
    edition = technique.edition_on(k.today(now)).number
    at_start = _standing(k, technique, questions, {})
    sitting = Sitting(key, cook, technique.id, edition, seed, questions, {}, now, at_start)
    k.file.drafts.put(_draft(sitting))
    return sitting


def _drawn(k: OpenKitchen, technique: Technique, seed: int) -> tuple[Question, ...]:
    """Return the questions of a sitting; of a quiz that decides, the most it may ask. Each sitting is drawn once."""

    def draw() -> tuple[Question, ...]:
        return draw_in_turn(technique, seed, technique.asked) if technique.plan else draw_sitting(technique, seed)

    return k.drawn_once(technique, seed, draw)


def _standing(
    k: OpenKitchen, technique: Technique, questions: Sequence[Question], answers: Mapping[int, str]
) -> Standing | None:
    """Return how a quiz that decides stands after its answers; None for one of fixed length."""
    return None if technique.plan is None else standing(technique.plan, _count(k, questions, answers))


def _count(k: OpenKitchen, questions: Sequence[Question], answers: Mapping[int, str]) -> Count:
    """Return how many answers are right, and how many of those about safety."""
    count = Count(0, 0)
    for place, text in sorted(answers.items()):
        question = questions[place]
        is_right = _graded(k, question, text).is_right is True
        count = count.plus(is_right=is_right, is_safety=is_about_safety(question.family))
    return count


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
        questions = _drawn(k, technique, body["seed"])
    except CannotDraw:
        return None
    if _shown(questions) != body.get("shown"):
        return None
    answers = {int(place): text for place, text in body["answers"].items()}
    edition, seed, now = body["edition"], body["seed"], _standing(k, technique, questions, answers)
    return Sitting(draft.id, draft.cook, draft.about, edition, seed, questions, answers, draft.at, now)


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

    In a quiz of fixed length an answer may be given anew until it is handed in; the last one counts. In one that
    decides each answer stands, and the one that decides finishes the sitting. `now` dates that and nothing else.
    """
    with k.file.writing():
        found = find_sitting(k, sitting)
        if found is None:
            return NOT_OPEN
        if not 0 <= index < len(found.questions):
            return Refused(say("There is no question {index}.", index=index + 1), "", "index")
        refusal = _out_of_turn(k, found, index, now) if found.decides else None
        if refusal is not None:
            return refusal
        grade_now = _graded(k, found.questions[index], text)
        if grade_now.problem is not None:
            return Answered(index, "", grade_now.problem)
        answers = {**found.answers, index: text.strip()}
        after = _standing(k, k.content.techniques[found.technique], found.questions, answers)
        kept = replace(found, answers=answers, standing=after)
        k.file.drafts.put(_draft(kept))
        return _ended(k, kept, Answered(index, grade_now.understood), now)


def _out_of_turn(k: OpenKitchen, sitting: Sitting, index: int, now: datetime) -> Refused | None:
    """Return why a quiz that decides takes no answer to this question now."""
    if index in sitting.answers:
        return Refused(say("Your answer to question {index} stands.", index=index + 1), "", "index")
    if index != sitting.next_unanswered:
        return Refused(say("Question {index} is not asked yet.", index=index + 1), "", "index")
    return _off(k, sitting, now)


def _ended(k: OpenKitchen, sitting: Sitting, answered: Answered, now: datetime) -> Answered | Refused:
    """Return what was answered, and the finished sitting where that answer decides it."""
    if sitting.standing is None:
        return answered
    if sitting.standing.outcome == "go on":
        return replace(answered, left=sitting.standing.left)
    outcome = _finished(k, sitting, now, sitting.id)
    return outcome if isinstance(outcome, Refused) else replace(answered, left=0, entry=outcome.entry)


def _graded(k: OpenKitchen, question: Question, text: str) -> Grade:
    return grade(question, text, k.file.settings.decimal_mark)


def finish_sitting(k: OpenKitchen, *, sitting: str, now: datetime, key: str) -> Outcome:
    """Return the saved `quiz_sat`, every answer graded and the wrong methods named; the sitting is open no more.

    Questions without an answer are asked for first. A quiz that decides and has ended by itself gives its entry.
    """
    with k.file.writing():
        before = saved_before(k, key, "quiz_sat")
        if before is not None:
            return before
        found = find_sitting(k, sitting)
        if found is None:
            ended = ended_by_itself(k, sitting)
            return NOT_OPEN if ended is None else Saved(ended)
        refusal = _unfinished(found) or _off(k, found, now)
        return refusal or _finished(k, found, now, key)


def ended_by_itself(k: OpenKitchen, sitting: str) -> Entry | None:
    """Return the entry of a quiz that decides and has ended, by the sitting's id; whose it is the caller sees to."""
    there = k.file.book.find_key(sitting)
    return there if there is not None and there.kind == "quiz_sat" else None


def _finished(k: OpenKitchen, sitting: Sitting, now: datetime, key: str) -> Outcome:
    """Return the saved `quiz_sat`; the draft goes with it."""
    outcome = append(k, Deed("quiz_sat", now, sitting.cook, sitting.cook, _body(k, sitting), key))
    if not isinstance(outcome, Refused):
        k.file.drafts.delete(sitting.id)
    return outcome


def _off(k: OpenKitchen, sitting: Sitting, now: datetime) -> Refused | None:
    return not_on_roster(sitting.cook, k.day(k.today(now)))


def _unfinished(sitting: Sitting) -> Refused | None:
    if not sitting.unanswered:
        return None
    if sitting.decides:
        return Refused(say("The answers do not decide yet: go on with the next question."), "", "answers")
    places = ", ".join(str(place + 1) for place in sitting.unanswered)
    return Refused(say("These questions have no answer yet: {places}.", places=places), "", "answers")


def _body(k: OpenKitchen, sitting: Sitting) -> dict[str, Any]:
    """Return what the book keeps: each question as it was asked, so that it can be shown again exactly, whatever the
    content says by then; and the seeds, so that it can be drawn again as well.
    """
    technique = k.content.techniques[sitting.technique]
    questions = sitting.questions[: len(sitting.answers)]
    texts = [sitting.answers[place] for place in range(len(questions))]
    grades = [_graded(k, question, text) for question, text in zip(questions, texts, strict=True)]
    lines = _answered(questions, texts, grades)
    count = _count(k, questions, sitting.answers)
    judged: dict[str, Any]
    if technique.plan is not None and sitting.standing is not None:
        outcome, judged = decided(technique.plan, count), {"plan": kept(technique.plan)}
    else:
        outcome = result(count, technique.need_right, technique.safety_percent)
        judged = {"safety_percent": technique.safety_percent}
    return {
        "technique": sitting.technique,
        "edition": sitting.edition,
        "seed": sitting.seed,
        "grader": GRADER,
        "questions": lines,
        "right": outcome.right,
        "asked": outcome.asked,
        "need": outcome.need,
        "passed": outcome.passed,
        **judged,
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
            "safety": is_about_safety(q.family),
            "method": g.method,
            "says": g.says,
        }
        for q, text, g in zip(questions, texts, grades, strict=True)
    ]
