"""A sitting on a page: how it stands, how it was scored before a question was voided, which wrong methods it showed."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.rescoring import Score, key_of
from trainer.kitchen.quiz.sequential_test import evidence_in_words, plan_kept, standing
from trainer.kitchen.quiz.sitting import count_kept, needed_in_words
from trainer.kitchen.record import CookRecord
from trainer.kitchen.sitting_result import SittingResult
from trainer.kitchen.wrong_methods import ShownMethod, methods_answered, methods_shown
from trainer.messages import Text, message, plural
from trainer.web import guard, reading


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a sitting comes to today, in words, with the evidence; `scored_again` says what it was before."""

    right: int
    asked: int
    passed: bool
    word: Text
    how: tuple[Text, ...]
    scored_again: Text


def outcome_today(entry: Entry) -> Outcome:
    """Return what a `quiz_sat` entry comes to today, voided questions left out."""
    record = guard.kitchen().progress().record(entry.cook)
    sat = _sat_today(record, entry.id)
    if sat is None:
        body = entry.body
        return Outcome(body["right"], body["asked"], body["passed"], word_for(body["passed"]), (), "")
    word = word_for(sat.passed, undecided=sat.undecided)
    return Outcome(sat.right, sat.asked, sat.passed, word, _evidence(sat), scored_again(sat, entry))


def word_for(passed: bool, *, undecided: bool = False) -> Text:
    """Return the one word for how a sitting came out."""
    return message("Passed") if passed else message("Not decided any more") if undecided else message("Not yet")


def _sat_today(record: CookRecord, entry: str) -> SittingResult | None:
    """Return the line of an entry as it counts today; None where it is voided."""
    return next((line for line in record.as_of(guard.today()).sat if line.entry == entry), None)


def _evidence(sat: SittingResult) -> tuple[Text, ...]:
    """Return what passes, and in a quiz that decides what the answers tell; scored again, its lines are others."""
    count = count_kept(sat.kept)
    if not sat.kept.get("plan"):
        return (needed_in_words(count, sat.need, sat.kept.get("safety_percent", 0)),)
    plan = plan_kept(sat.kept["plan"])
    if not count.asked:
        return ()
    return ("" if sat.before else standing(plan, count).words, evidence_in_words(plan, count))


def scored_again(sat: SittingResult, entry: Entry) -> Text:
    """Return both results of a sitting a question of which is voided; nothing where none is."""
    if sat.before is None:
        return ""
    left = {key_of(asked) for asked in sat.kept["questions"]}
    numbers = [str(place) for place, asked in enumerate(entry.body["questions"], 1) if key_of(asked) not in left]
    now = Score(sat.right, sat.asked, sat.need, sat.passed, sat.undecided)
    return plural(
        "Scored again without question {questions}: {now}. Before: {before}.",
        "Scored again without questions {questions}: {now}. Before: {before}.",
        len(numbers),
        questions=", ".join(numbers),
        now=_score_words(now),
        before=_score_words(sat.before),
    )


def _score_words(score: Score) -> Text:
    counted = {"right": score.right, "asked": score.asked}
    if score.passed:
        return message("{right} of {asked} right, passed", **counted)
    if score.undecided:
        return message("{right} of {asked} right, not decided any more", **counted)
    return message("{right} of {asked} right, not yet", **counted)


def methods_of(cook: str, technique: str, upto: str = "") -> tuple[ShownMethod, ...]:
    """Return the wrong methods a cook's sittings of a technique show today, up to one entry if it is named."""
    lines = guard.kitchen().progress().record(cook).as_of(guard.today()).sat
    mine = [line for line in lines if line.technique == technique]
    places = [place for place, line in enumerate(mine, 1) if line.entry == upto]
    return methods_shown(mine[: places[0]] if places else mine)


def teacher_lines(cook: str, technique: str) -> tuple[Text, ...]:
    """Return a line a wrong method shown, for the teacher."""
    content = reading.content()
    taught = content.techniques.get(technique)
    if taught is None or not taught.knowledge:
        return tuple(method.for_teacher(content.question_words) for method in methods_of(cook, technique))
    answers = guard.kitchen().progress().record(cook).as_of(guard.today()).skills
    shown = methods_answered(answers, {skill.id for skill in taught.knowledge})
    return tuple(method.for_teacher(content.question_words) for method in shown)
