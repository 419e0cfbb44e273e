"""The wrong methods several answers show, across cooks: whom to talk to, and what the method means.

Counts of answers and of cooks, and no share of anything: with a dozen cooks a share says nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from flask import url_for

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.wrong_methods import AcrossCooks, methods_across
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading

DAYS = 90
MOST = 5


@dataclass(frozen=True, slots=True)
class CookLink:
    """A cook, and the page with their answers."""

    name: str
    href: str


@dataclass(frozen=True, slots=True)
class TalkLine:
    """One wrong method: what it gives, who showed it and how often, how to talk about it."""

    words: Text
    who: Text
    how: Text
    times: int
    cooks: tuple[CookLink, ...]


def talk_lines(k: Kitchen) -> tuple[TalkLine, ...]:
    """Return the first few methods of the last 90 days, those of most cooks first."""
    return all_talk_lines(k)[:MOST]


def all_talk_lines(k: Kitchen) -> tuple[TalkLine, ...]:
    """Return the methods of the last 90 days, those of most cooks first; the reader's own answers are left out."""
    on, people, progress = guard.today(), k.people(), k.progress()
    cooks = [cook for cook in progress.at_stations_on(on) if cook in people and cook != guard.person().id]
    since = on - timedelta(days=DAYS)
    answers = {cook: [one for one in progress.record(cook).as_of(on).skills if one.on > since] for cook in cooks}
    return tuple(_line(one, k) for one in methods_across(answers))


def _line(one: AcrossCooks, k: Kitchen) -> TalkLine:
    people, words = k.people(), reading.content().question_words
    told = plural("{number} answer", "{number} answers", one.times)
    names = joined([people[cook].name for cook in one.cooks], ", ")
    return TalkLine(
        words=words.for_teacher(one.family, one.name) or words.clauses(one.family, one.name).once or one.name,
        who=joined([names, told], ": "),
        times=one.times,
        how=words.for_cook(one.family, one.name) or message("Let the cook say how the answer came about."),
        cooks=tuple(CookLink(people[cook].name, url_for("knowledge.table", cook=cook)) for cook in one.cooks),
    )
