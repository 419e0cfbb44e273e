"""What is kept of a practical and of an answer stays small, for every technique that is taught."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

from trainer.kitchen.book import canonical
from trainer.kitchen.practical import PointSeen
from trainer.kitchen.quiz.drawing import draw_sitting
from trainer.kitchen.quiz.drawn import context_of
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.keeping import answered
from trainer.kitchen.quiz.round_robin import draw_in_turn
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import Content, Technique
from trainer.kitchen.watched_points import WatchedPoint, look_taken, point_from, point_kept, points_of
from trainer.recipe_math.figures import number_text

MOST_PRACTICAL, MOST_ANSWER = 8_000, 1_000
NOON = datetime(2026, 3, 2, 17, tzinfo=UTC)
NOTE = "Slow at the start, and the board was wet; shown again."


SEEN_AGAIN = 4
"""So many points are seen to fall short first, with a note."""
MOST_IN_PARTS = 10_000
"""A list of two parts, all of it watched at one time."""


def looked_at(point: WatchedPoint, *, again: bool) -> WatchedPoint:
    """Return a point with a look at it, every reading taken; *again* with one before it that had a note."""
    lines = point.as_asked.lines if point.judged != "ticked" else ()
    ends = [end for line in lines for end in [line.target or line.highest or line.lowest] if end is not None]
    readings = tuple(f"{number_text(end.amount, 3)} {end.unit.symbol}" for end in ends) * point.pieces
    said = tuple(choice.id for choice in point.choices)
    looks = [
        look_taken(
            point.as_asked,
            PointSeen(point.id, "not yet", readings, note, said=said),
            by="0" * 32,
            at=NOON,
            decimal_mark=".",
        )
        for note in ((NOTE, "") if again else ("",))
    ]
    return replace(point, looks=tuple(looks))


def test_every_practical_is_kept_in_eight_kilobytes(content: Content) -> None:
    """Every point looked at with all its readings, four of them twice; 500 bytes for all but the points."""
    sizes = {}
    for technique in content.techniques.values():
        points = enumerate(points_of(technique))
        kept = [point_kept(looked_at(point, again=place < SEEN_AGAIN)) for place, point in points]
        sizes[technique.id] = len(canonical({"points": kept}).encode()) + 500
    assert {name: size for name, size in sizes.items() if size > max(MOST_PRACTICAL, MOST_IN_PARTS)} == {}


def test_every_line_comes_back_from_the_book_exactly(content: Content) -> None:
    """Number, unit and source of each: a limit that came back otherwise would judge and print otherwise."""
    for technique in content.techniques.values():
        for point in points_of(technique):
            # where in the source is no evidence
            line, then, law = (
                replace(each, place="") if each else None for each in (point.limit, point.then, point.law)
            )
            assert point_from(point_kept(point)) == replace(point, limit=line, then=then, law=law)


def test_every_answer_is_kept_in_one_kilobyte(content: Content) -> None:
    """Three sittings of every technique, each question answered: numbers, picks, answer, unit and grade."""
    sizes = [
        size for technique in content.techniques.values() if technique.questions for size in _sizes(technique, content)
    ]
    assert len(sizes) > 100
    assert max(sizes) <= MOST_ANSWER


def _sizes(technique: Technique, content: Content) -> list[int]:
    sizes = []
    for seed in range(3):
        words = content.question_words
        plan = technique.plan
        drawn = draw_in_turn(technique, seed, technique.asked, words) if plan else draw_sitting(technique, seed, words)
        for each in drawn:
            question = tell(each, context_of(technique, each.family, words))
            given = number_text(question.answer.value, 3)
            kept = answered(each, question, given, grade(question, given, "."))
            sizes.append(len(canonical(kept).encode()))
    return sizes
