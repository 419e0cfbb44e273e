"""The practical an assessor has in hand: theirs alone, with its technique and the words for how far it has come."""

from __future__ import annotations

from dataclasses import dataclass

from flask import abort

from trainer.actions import watching
from trainer.actions.watching import Practical
from trainer.kitchen.practical import next_unseen
from trainer.kitchen.technique import Point, Technique
from trainer.kitchen.watched_points import WatchedPoint
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.cook.helping import first_name
from trainer.web.entry_words import Naming
from trainer.web.filters import clock_time, local, moment
from trainer.web.page import go


def so_far_words(practical: Practical) -> Text:
    """Return how far a practical has come: ``3 of 6 points seen``."""
    points = plural("{number} point", "{number} points", len(practical.points))
    return message("{seen} of {points} seen.", seen=len(practical.seen), points=points)


def watched_by_words(cook: str, technique: str, part: str = "") -> tuple[Text, ...]:
    """Return who else watches a cook at a technique, or at a part of it, already, and since when."""
    me = guard.person().id
    others = watching.watched_by_others(guard.kitchen(), by=me, cook=cook, technique=technique, part=part)
    return tuple(
        message(
            "{name} watches this already, since {since}. Only one can be signed: the first.",
            name=naming().person(one.by),
            since=clock_time(one.started) if local(one.started).date() == guard.today() else moment(one.started),
        )
        for one in others
    )


def outdated_words(practical: Practical) -> tuple[Text, ...]:
    """Return why a practical cannot be gone on with, before a point more is seen; nothing where it can."""
    k = guard.kitchen()
    found = watching.outdated(k, practical, k.day(guard.today()))
    return (joined([found.reason, found.who_can]),) if found is not None else ()


@dataclass(frozen=True, slots=True)
class InHand:
    """A practical under way, and the technique it is about; points are numbered from 1."""

    practical: Practical
    technique: Technique

    @property
    def points(self) -> tuple[Point, ...]:
        """Return the points that are asked in the case that was picked, in the reader's words."""
        return self.technique.points_in(self.practical.case, self.practical.part)

    def point(self, number: int) -> Point:
        """Return a point of the checklist, or answer that there is none; without a case picked there is none yet."""
        if self.practical.needs_case:
            abort(go("assessor.practical.resume", practical=self.practical.id))
        if not 1 <= number <= len(self.points):
            abort(404)
        return self.points[number - 1]

    def next_unseen(self, after: int = 0, besides: str = "") -> int | None:
        """Return the number of the first point after this one that is not seen; *besides* was seen just now."""
        return next_unseen(self.points, {*self.practical.done, besides}, after=after)


def in_hand(practical: str) -> InHand:
    """Return this assessor's own practical under way; nobody else's is there for them.

    One whose technique was taken out of the content cannot go on: its record says so, and is signed or put away.
    """
    found = mine(practical)
    technique = reading.content().techniques.get(found.technique)
    if technique is None:
        abort(go("assessor.signing.record", practical=practical))
    return InHand(found, technique)


def tools_of(point: Point | WatchedPoint) -> tuple[str, ...]:
    """Return what a point is measured with, in the reader's words."""
    known = reading.content().instruments
    return tuple(known[id].title if id in known else id.replace("_", " ") for id in point.tools)


def mine(practical: str) -> Practical:
    """Return this assessor's own practical under way, taught or not; nobody else's is there for them."""
    found = watching.find_practical(guard.kitchen(), practical)
    if found is None or found.by != guard.person().id:
        abort(404, message("This practical is not in your hand. It may be signed already, or put away."))
    return found


def called(cook: str) -> str:
    """Return how a cook is called beside the stop, where there is little room."""
    return first_name(cook, guard.kitchen().day(guard.today()))


def naming() -> Naming:
    """Return what turns ids into words."""
    k = guard.kitchen()
    return Naming(k.people(), reading.content())
