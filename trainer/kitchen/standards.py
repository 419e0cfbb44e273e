"""The standards of a kitchen as its book has them: which rules held on which day, and since when that was known.

What is true of a day in the past follows from the rules in force that day, never from files edited since.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from typing import Any, NamedTuple, Protocol

from trainer.kitchen.book import Entry, canonical
from trainer.kitchen.rules import NewerRules, are_known, content_of
from trainer.kitchen.spans import ALWAYS, NO_END, ONE_DAY, Span
from trainer.kitchen.technique import Content, Technique

EditionKey = tuple[str, int]
"""A technique's id and the number of one of its editions."""


@dataclass(frozen=True)
class Standard:
    """All that was published under one number: in force from `since`, known from `on`, the day it was published.

    One that `is_from_before` was written when an older book was taken over: it holds for every day before it too.
    `texts` is the digest of the list of the texts it was published with.
    """

    number: int
    entry: str
    since: date
    on: date
    rules: Mapping[str, Any] = field(repr=False, compare=False)
    is_from_before: bool = False
    texts: str = ""
    late: Mapping[EditionKey, date] = field(default_factory=dict, repr=False, compare=False)
    """The editions that count later than their own day, since no standard held them before."""
    pool: dict[str, Technique] = field(default_factory=dict, repr=False, compare=False)
    """The techniques of all standards of the book: one whose rules nothing has changed is the same object in each."""

    @cached_property
    def content(self) -> Content:
        """Return the rules as content, worked out when first asked for; every title is an id."""
        found = content_of(self.rules)
        kept = {one["id"]: canonical(one) for one in self.rules["techniques"]}
        techniques = {name: self._pooled(kept[name], self._dated(one)) for name, one in found.techniques.items()}
        return replace(found, techniques=techniques)

    def _pooled(self, rules: str, technique: Technique) -> Technique:
        """Return the technique of the pool that has the same rules and days; the one given where it is the first."""
        days = " ".join(edition.since.isoformat() for edition in technique.editions)
        return self.pool.setdefault(f"{rules} {days}", technique)

    def _dated(self, technique: Technique) -> Technique:
        """Return a technique whose editions count from the day some standard held them."""
        days = [self.late.get((technique.id, edition.number), edition.since) for edition in technique.editions]
        editions = zip(technique.editions, days, strict=True)
        return replace(technique, editions=tuple(replace(edition, since=day) for edition, day in editions))


class _Rules(Protocol):
    """What holds rules as content, and since when: a standard, or content given where a book has none."""

    @property
    def content(self) -> Content: ...

    @property
    def since(self) -> date: ...


@dataclass(frozen=True, slots=True)
class _Given:
    """The content a book without a standard is judged by."""

    content: Content
    since: date = ALWAYS


class InForce(NamedTuple):
    """The rules of some days: from `since` to the end of `until`, both counted."""

    rules: _Rules
    since: date
    until: date

    @property
    def content(self) -> Content:
        """Return the rules as content."""
        return self.rules.content

    def holds(self, on: date) -> bool:
        """Return whether the rules are those of a day."""
        return self.since <= on <= self.until

    def clip(self, days: Span) -> Span:
        """Return those of the days on which the rules are in force; none is a span that ends before it begins."""
        return Span(max(days.since, self.since), min(days.until, self.until))


class Standards:
    """Every standard a book has, in the order of its numbers; it never changes, one more gives a new one."""

    def __init__(self, published: tuple[Standard, ...] = ()) -> None:
        """Take what was published, in order; nothing for a book of before."""
        self.published = published
        self._first_held: dict[EditionKey, date] = {}
        self._in_force: dict[int, tuple[InForce, ...]] = {}
        self._pool: dict[str, Technique] = {}

    def with_entry(self, entry: Entry) -> Standards:
        """Return the standards with that of a `standard_published` too; raise `NewerRules` for a newer program's."""
        body, rules = entry.body, entry.body["rules"]
        if not are_known(rules):
            raise NewerRules(f"Standard {body['number']} of the book was written by a newer program. Use that one.")
        since = date.fromisoformat(body["since"])
        first_held = self._first_held_with(rules, since)
        late = {key: max(day, first_held[key]) for key, day in _editions(rules)} if self.published else {}
        is_from_before = body.get("not_kept_before", False)
        known = (body["number"], entry.id, since, entry.day, rules, is_from_before, body.get("texts", ""))
        added = Standard(*known, late, self._pool)
        found = Standards((*self.published, added))
        found._pool = self._pool
        found._first_held = first_held
        return found

    def _first_held_with(self, rules: Mapping[str, Any], since: date) -> dict[EditionKey, date]:
        """Return the first day on which some standard, the last one among them, holds each edition.

        The first standard of a book holds on every day before it too.
        """
        found, day = dict(self._first_held), since if self.published else ALWAYS
        for key, _ in _editions(rules):
            found[key] = min(day, found.get(key, day))
        return found

    @property
    def latest(self) -> Standard | None:
        """Return the one published last; None where there is none."""
        return self.published[-1] if self.published else None

    def in_force(self, on: date, known: date | None = None) -> Standard | None:
        """Return the standard in force on a day, as was known by another (that day where none is named).

        That is the last one published by then whose `since` has come; before the first, the first. None where the book
        has none.
        """
        published = self._known_by(known or on)
        begun = (one for one in reversed(published) if one.since <= on)
        return next(begun, published[0] if published else None)

    def content_on(self, on: date, otherwise: Content, known: date | None = None) -> Content:
        """Return the rules in force on a day as content; *otherwise* where the book has no standard."""
        found = self.in_force(on, known)
        return found.content if found else otherwise

    def runs(self, known: date, otherwise: Content) -> tuple[InForce, ...]:
        """Return the rules of every day as was known by a day, the earliest first, without a gap."""
        published = self._known_by(known)
        if not published:
            return (InForce(_Given(otherwise), ALWAYS, NO_END),)
        if len(published) not in self._in_force:
            self._in_force[len(published)] = _runs(published)
        return self._in_force[len(published)]

    def _known_by(self, known: date) -> tuple[Standard, ...]:
        """Return what was published by a day; the first standard is that of the days before it, known or not."""
        count = sum(one.on <= known for one in self.published)
        return self.published[: max(count, 1)]


def _editions(rules: Mapping[str, Any]) -> list[tuple[EditionKey, date]]:
    """Return every edition in some rules with the day it is dated."""
    return [
        ((technique["id"], edition["number"]), date.fromisoformat(edition["since"]))
        for technique in rules["techniques"]
        for edition in technique["editions"]
    ]


def _runs(published: tuple[Standard, ...]) -> tuple[InForce, ...]:
    """Return the days of each standard: one published later takes over from its `since`, whatever came before."""
    runs: list[InForce] = []
    end = NO_END
    for one in reversed(published):
        if one.since <= end:
            runs.insert(0, InForce(one, one.since, end))
            end = one.since - ONE_DAY
    if runs[0].rules is published[0]:
        return (runs[0]._replace(since=ALWAYS), *runs[1:])
    return (InForce(published[0], ALWAYS, end), *runs)
