"""Sign-offs looked at again by somebody who has not seen what was found: which, by whom, and what came of it.

They are drawn by the book and picked by nobody: each has a lot, SHA-256 of its entry's id, and the lowest comes first.
Every sign-off has the same chance. Techniques of safety do not come first: what was found of a sample that leans to
them would say nothing of the rest, and those are the ones a manager may have watched anew at any time.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Literal, get_args

from trainer.kitchen.agreement import Agreement
from trainer.kitchen.entitlement import YES, Entitlement, Snapshot, may_sign
from trainer.kitchen.progress import Progress
from trainer.kitchen.record import CookRecord, Rechecked, Watched
from trainer.messages import Text, message

Found = Literal["same", "not yet"]
FOUND: tuple[Found, ...] = get_args(Found)
MEETS = "meets it"
DAYS_BACK = 90
"""Older sign-offs are not looked at again: who has cooked it since for a season has become another cook."""
DAYS_COUNTED = 365
"""Sign-offs of so many days are counted."""


@dataclass(frozen=True, slots=True)
class SignOff:
    """A practical that met the standard, and whose it is."""

    cook: str
    line: Watched


@dataclass(frozen=True, slots=True)
class NotYet:
    """A sign-off that was found not to hold, and by which look again."""

    sign_off: SignOff
    found: Rechecked


@dataclass(frozen=True, slots=True)
class LookedAgain:
    """How many sign-offs there are, and how those that were looked at again came out: in all, and signer by signer."""

    sign_offs: int
    all: Agreement
    by_signer: Mapping[str, Agreement]


def lot(entry: str) -> str:
    """Return the lot of a sign-off: the same whenever it is drawn, and known to nobody before it is written."""
    return hashlib.sha256(entry.encode()).hexdigest()


def drawn(day: Snapshot) -> tuple[SignOff, ...]:
    """Return every sign-off of the roster that can be looked at again on a day, by lot."""
    found = (SignOff(cook, line) for cook in day.cooks() for line in day.record(cook).watched)
    can_be = (one for one in found if not why_closed(day.record(one.cook), one.line, day.on))
    return tuple(sorted(can_be, key=lambda one: lot(one.line.entry)))


def why_closed(record: CookRecord, line: Watched, on: date) -> Text:
    """Return why a practical in a record as it stood on a day cannot be looked at again; "" where it can."""
    if line.verdict != MEETS:
        return message("That practical is no sign-off: only what was signed off is looked at again.")
    if any(one.practical == line.entry for one in record.rechecked):
        return message("Somebody has looked at this one again already: the first to sign counts. Take the next.")
    if _is_watched_since(record, line, line.seq):
        return message("The cook was watched at this again since, and that counts now. Take the next.")
    if line.on <= on - timedelta(days=DAYS_BACK):
        return message("That was signed off more than {days} days ago. Take the next.", days=DAYS_BACK)
    return ""


def _is_watched_since(record: CookRecord, line: Watched, seq: int) -> bool:
    """Return whether a later practical than a place of the book judged the same: the technique, and that part of it."""
    since = (one for one in record.watched if one.seq > seq and one.technique == line.technique)
    return any(not line.part or one.shows(line.part) for one in since)


def who_saw(by: str, body: Mapping[str, Any]) -> frozenset[str]:
    """Return who knows what was found in a practical: its signer, whoever looked at a point, who signed with them."""
    looks = (look for point in body.get("points", ()) for look in point.get("looks", ()))
    second = body.get("second") or {}
    return frozenset(who for who in (by, second.get("by", ""), *(look.get("by", "") for look in looks)) if who)


def may_look_again(by: str, one: SignOff, saw: Collection[str], day: Snapshot) -> Entitlement:
    """Return whether a person may look at a sign-off again on a day; *saw* are those who know what was found.

    It takes what a signature takes there; authority to look at sign-offs again stands in for that to sign, but not for
    the clearance. Who looked at it before is blind no more, though a manager voided that.
    """
    before = (each.by for each in day.progress.record(one.cook).rechecked if each.practical == one.line.entry)
    if by != one.cook and by in {*saw, *before}:
        return Entitlement(False, message("You saw what was found the first time: somebody else looks again."))
    may = may_sign(by, one.cook, one.line.technique, one.line.station, day)
    if may.may or by == one.cook or _by_recheck(by, one.line, day):
        return may if by == one.cook else YES
    return Entitlement(False, may.reason)


def _by_recheck(by: str, line: Watched, day: Snapshot) -> bool:
    """Return whether an authority to look at sign-offs again covers it, of somebody cleared at that very station."""
    station = day.rules.stations.get(line.station)
    if station is None or line.technique not in station.techniques:
        return False
    given = any(one.allows("recheck", station.id, line.technique) for one in day.authorities(by))
    return given and day.ground(by, station) is not None


def not_yet_open(day: Snapshot) -> tuple[NotYet, ...]:
    """Return the sign-offs found not to hold that nothing has been done about, the oldest finding first.

    Done about it is: watched again since, or the sign-off voided.
    """
    found = [one for cook in day.cooks() for one in _not_yet(cook, day.record(cook))]
    return tuple(sorted(found, key=lambda one: one.found.seq))


def _not_yet(cook: str, record: CookRecord) -> Iterator[NotYet]:
    lines = {line.entry: line for line in record.watched}
    for one in record.rechecked:
        line = lines.get(one.practical)
        if one.found != "same" and line is not None and not _is_watched_since(record, line, one.seq):
            yield NotYet(SignOff(cook, line), one)


def looked_again(progress: Progress, on: date) -> LookedAgain:
    """Return what came of the sign-offs of the last 365 days, those of people who have left among them.

    A sign-off that was found not to hold and is voided since counts on: else the worst would leave the sample.
    """
    number, pairs = 0, []
    for cook in progress.everybody():
        record = progress.record(cook)
        again = {one.practical: one.found for one in record.standing(record.rechecked, on)}
        standing = {line.entry for line in record.standing(record.watched, on)}
        for line in record.watched:
            if _is_counted(line, on) and (line.entry in standing or line.entry in again):
                number += 1
                pairs += [(line.by, again[line.entry])] if line.entry in again else []
    return LookedAgain(number, _agreement(pairs), _by_signer(pairs))


def _is_counted(line: Watched, on: date) -> bool:
    return line.verdict == MEETS and on - timedelta(days=DAYS_COUNTED) < line.on <= on


def _agreement(pairs: Collection[tuple[str, str]]) -> Agreement:
    return Agreement(sum(found == "same" for _, found in pairs), len(pairs))


def _by_signer(pairs: Iterable[tuple[str, str]]) -> dict[str, Agreement]:
    """Return the counts by who signed first, most looked at first."""
    kept = list(pairs)
    signers = Counter(by for by, _ in kept).most_common()
    return {who: _agreement([one for one in kept if one[0] == who]) for who, _ in signers}
