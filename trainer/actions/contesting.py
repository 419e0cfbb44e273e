"""A cook contests an entry about themselves; another manager decides, and the entry stays as it is.

ISO/IEC 17024:2012, 9.8 (heading): complaints and appeals are decided by somebody who did not make the decision.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Literal, get_args

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, save, validate_text
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import ANOTHER_MANAGER, Snapshot, may_manage
from trainer.messages import message

GOOD_FOR = timedelta(days=14)
Outcomes = Literal["stands", "wrong"]


@dataclass(frozen=True, slots=True)
class Contest:
    """Which entry is contested, and what the cook says is wrong."""

    entry: str
    words: str


@dataclass(frozen=True, slots=True)
class Decision:
    """What comes of a contest: the entry stands, or it is wrong and is voided next; and why."""

    contest: str
    outcome: str
    reason: str


def can_contest(entry: Entry, cook: str, day: Snapshot) -> bool:
    """Return whether an entry is about a cook, by somebody else, and not older than 14 days."""
    is_own = entry.cook == cook and entry.by != cook and entry.kind not in ("entry_contested", "contest_decided")
    return is_own and day.on - entry.day <= GOOD_FOR


def open_contests(k: Kitchen) -> tuple[Entry, ...]:
    """Return the contests nobody has decided, oldest first."""
    decided = {each.body["contest"] for each in k.file.book.of_kind("contest_decided")}
    return tuple(each for each in k.file.book.of_kind("entry_contested") if each.id not in decided)


def contest_entry(k: Kitchen, *, by: str, contest: Contest, now: datetime, key: str) -> Outcome:
    """Return the saved `entry_contested`: the cook says in their own words what is wrong; the entry counts on."""
    found, said = k.file.book.find(contest.entry), contest.words.strip()
    if found is None:
        return Refused(message("There is no entry “{entry}”.", entry=contest.entry), "", "entry")
    body = {"entry": found.id, "words": said}
    deed = NewEntry("entry_contested", now, by, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        if found.cook != by or found.by == by:
            return Refused(message("You contest what somebody else wrote about you."), "", "entry")
        if not can_contest(found, by, day):
            return Refused(message("That is more than 14 days ago. Tell a manager."), ANOTHER_MANAGER, "entry")
        if any(each.body["entry"] == found.id for each in open_contests(k)):
            return Refused(message("You have contested this already; a manager will decide."), "", "entry")
        return validate_text(contest.words, "words")

    return save(k, deed, refusal)


def decide_contest(k: Kitchen, *, by: str, decision: Decision, now: datetime, key: str) -> Outcome:
    """Return the saved `contest_decided`, by another manager than who wrote the entry.

    The only manager decides alone, and the entry says so (`alone`). Nothing is voided by it: that is the next act.
    """
    contest, reason = k.file.book.find(decision.contest), decision.reason.strip()
    if contest is None or contest.kind != "entry_contested":
        return Refused(message("There is no contest “{entry}”.", entry=decision.contest), "", "contest")
    entry, day = k.file.book.find(contest.body["entry"]), k.day(k.today(now))
    managers = [who for who in day.cooks() if "manager" in day.roles(who) and who != contest.cook]
    is_own, alone = entry is not None and entry.by == by, managers == [by]
    body: dict[str, Any] = {"contest": contest.id, "outcome": decision.outcome, "reason": reason}
    body |= {"alone": True} if is_own and alone else {}

    def refusal(then: Snapshot) -> Refused | None:
        own = Refused(message("You wrote the entry that is contested."), ANOTHER_MANAGER)
        return (
            denied_by(may_manage(by, contest.cook, then))
            or (own if is_own and not alone else None)
            or _not_open(k, contest, decision.outcome)
            or validate_text(decision.reason, "reason")
        )

    return save(k, NewEntry("contest_decided", now, contest.cook, by, body, key), refusal)


def _not_open(k: Kitchen, contest: Entry, outcome: str) -> Refused | None:
    if all(each.id != contest.id for each in open_contests(k)):
        return Refused(message("That contest is decided already."), "", "contest")
    if outcome not in get_args(Outcomes):
        return Refused(message("Choose what comes of it."), "", "outcome")
    return None
