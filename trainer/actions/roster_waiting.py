"""What of a roster row takes two people, like the single acts it stands for: a role with power, an age that frees.

The rest of the row counts at once, and so does whatever bars.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.people_on_record import ProofOfAge, lifts_a_bar
from trainer.actions.two_people import POWER, Act, Asked, Need, Second, keep_waiting, need_of, said_by
from trainer.kitchen.ages import NOT_SEEN
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import ANOTHER_MANAGER, Snapshot
from trainer.kitchen.roles import in_sequence
from trainer.messages import Text, joined, message

if TYPE_CHECKING:
    from trainer.actions.roster import Match

WAITS_WORDS: Mapping[tuple[str, Need], Text] = {
    ("roles", "a second"): message("The new role waits until another manager confirms it."),
    ("roles", "a day"): message("The new role counts after a day, since there is no other manager to confirm it."),
    ("age", "a second"): message("The birth date waits until another manager confirms it."),
    ("age", "a day"): message("The birth date counts after a day, since there is no other manager to confirm it."),
}
KIND_OF = {"cook_joined": "roles", "cook_changed": "roles", "age_seen": "age"}


@dataclass(frozen=True, slots=True)
class Freed:
    """What a row gives or frees, as the single act: what it takes, whether it waits a day alone, what it waits for."""

    act: Act
    args: Mapping[str, Any]
    waits_alone: bool
    need: Need


@dataclass(frozen=True, slots=True)
class Parts:
    """A row as it counts at once, with all that it frees; `said` is what entries say of who was the second."""

    now: Match
    freed: tuple[Freed, ...]
    said: Mapping[str, Any]

    @property
    def waits(self) -> tuple[Freed, ...]:
        """Return what does not count at once."""
        return tuple(one for one in self.freed if one.need != "nobody")

    @property
    def words(self) -> Text:
        """Return what of the row waits, and for what; "" where all of it counts at once."""
        told = [WAITS_WORDS[one.act, one.need] for one in self.waits]
        return joined(told) if told else ""

    def with_second(self, deed: NewEntry) -> NewEntry:
        """Return an entry of what counts at once, with who was the second where it frees."""
        at_once = {one.act for one in self.freed if one.need == "nobody"}
        return replace(deed, body={**deed.body, **self.said}) if KIND_OF.get(deed.kind) in at_once else deed


def in_parts(k: Kitchen, match: Match, by: str, day: Snapshot, second: tuple[Second, datetime] | None = None) -> Parts:
    """Return a row in its two parts; with a second person's word, and when, there is nothing to wait for."""
    who = match.there.person.id if match.there else ""
    freed = []
    for act, args, waits_alone in _what_frees(k, match, day):
        asked = Asked(act, who, by, args, "", waits_alone)
        freed.append(Freed(act, args, waits_alone, "nobody" if second else _need(k, asked, match, day)))
    waits, row = {one.act for one in freed if one.need != "nobody"}, match.row
    if "roles" in waits:
        row = replace(row, roles=in_sequence(set(match.wanted) - (POWER - match.roles)) or ("cook",))
    if "age" in waits:
        row = replace(row, born=None)
    return Parts(replace(match, row=row), tuple(freed), said_by(*second) if second else {"second": None})


def _need(k: Kitchen, asked: Asked, match: Match, day: Snapshot) -> Need:
    """Return what an act of a row waits for, like the single act.

    A manager who is alone and has no birth date yet gives their own, as they might have when the kitchen was made.
    """
    need = need_of(k, asked, day)
    has_none = asked.act == "age" and match.there is not None and match.there.person.born is None
    return "nobody" if need == "a day" and has_none and asked.cook == asked.by else need


def _what_frees(k: Kitchen, match: Match, day: Snapshot) -> list[tuple[Act, dict[str, Any], bool]]:
    """Return the acts in a row that free: a role with power, and another birth date that lifts a bar."""
    found: list[tuple[Act, dict[str, Any], bool]] = []
    gained, born = POWER & set(match.wanted) - match.roles, match.person.born
    if gained:
        found.append(("roles", {"roles": list(match.wanted)}, "manager" in gained))
    who = match.there.person.id if match.there is not None and match.is_born_anew else ""
    if who and born is not None and lifts_a_bar(k, ProofOfAge(who, born, NOT_SEEN), day):
        found.append(("age", {"born": born.isoformat(), "seen": NOT_SEEN}, True))
    return found


def keep_parts(k: Kitchen, parts: Parts, asked: NewEntry) -> None:
    """Keep what of a row waits; `asked` says of whom, by whom, when, and the key of the row."""
    for one in parts.waits:
        key = f"{asked.key}:waits:{one.act}"
        keep_waiting(k, Asked(one.act, asked.cook, asked.by, one.args, key, one.waits_alone), one.need, asked.at)


def frees_oneself(parts: Parts, by: str) -> Refused | None:
    """Return why a row may not lift a bar off the one who takes the file in."""
    there, frees = parts.now.there, any(one.act == "age" for one in parts.waits)
    if there is None or there.person.id != by or not frees:
        return None
    reason = message(
        "Row {row} changes your own birth date and lifts a bar."
        " Nobody decides that about themselves: leave the row out.",
        row=parts.now.row.row,
    )
    return Refused(reason, ANOTHER_MANAGER, "birth date")
