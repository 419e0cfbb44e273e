"""Authority in writing: who may sign what, from when to when. The role of an assessor alone signs nothing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal, get_args

from trainer.kitchen.record import AuthorityGiven, CookRecord, OnRoster
from trainer.kitchen.spans import months_later

May = Literal["sign", "beside", "recheck"]
MAY: tuple[May, ...] = get_args(May)
"""Sign practicals, sign supervised shifts, check a sign-off again."""
MOST_MONTHS = 24
"""How long an authority is good for at the most. A list of those who may sign is kept for as long in the US Navy's
Surface Force Training Manual, Section 3, Subsection B, 16-18; that an authority runs out: DOE-HDBK-1001-96, 5."""
RENEW_DAYS = 30
ASSESSOR = "assessor"


@dataclass(frozen=True, slots=True)
class Scope:
    """What an authority covers: everything, or some stations, or some techniques wherever they are asked for."""

    everything: bool = False
    stations: tuple[str, ...] = ()
    techniques: tuple[str, ...] = ()

    def covers(self, station: str, technique: str = "") -> bool:
        """Return whether it covers a signature at a station, in a technique; a shift has none and needs the station."""
        return self.everything or station in self.stations or (bool(technique) and technique in self.techniques)

    @property
    def body(self) -> dict[str, Any]:
        """Return the scope as an entry keeps it."""
        if self.everything:
            return {"all": True}
        return {"stations": list(self.stations)} if self.stations else {"techniques": list(self.techniques)}


EVERYTHING = Scope(everything=True)


def scope_of(body: Mapping[str, Any]) -> Scope:
    """Return the scope an entry keeps.

    >>> scope_of({"stations": ["grill"]}).covers("grill")
    True
    """
    return Scope(bool(body.get("all")), tuple(body.get("stations", ())), tuple(body.get("techniques", ())))


def latest_end(since: date) -> date:
    """Return the last day an authority given from a day may be good to."""
    return months_later(since, MOST_MONTHS)


@dataclass(frozen=True, slots=True)
class Authority:
    """An authority that is live: the entry that gave it, what it covers, its last day (None: no end), and for what."""

    entry: str
    scope: Scope
    since: date
    until: date | None
    may: tuple[str, ...] = MAY

    def allows(self, act: May, station: str, technique: str = "") -> bool:
        """Return whether it allows an act at a station, in a technique."""
        return act in self.may and self.scope.covers(station, technique)


def authorities(record: CookRecord, on: date) -> tuple[Authority, ...]:
    """Return the authorities live on a day, of a record as it stood then; none without the role of an assessor.

    A role given in an entry of edition 1 is one of itself, for all stations without end: nothing else was written then.
    """
    if not record.roster or ASSESSOR not in record.roster[-1].roles:
        return ()
    ended = {line.authority for line in record.authority_ended}
    written = [_written(line) for line in record.authority_given]
    found = (*_by_role(record.roster), *written)
    return tuple(one for one in found if one.entry not in ended and is_live(one, on))


def is_live(one: Authority, on: date) -> bool:
    """Return whether a day lies in an authority, the first and the last day counted."""
    return one.since <= on and (one.until is None or on <= one.until)


def ends_last(found: Iterable[Authority]) -> Authority | None:
    """Return the authority that is good the longest, or None where there is none."""
    return max(found, key=lambda one: one.until or date.max, default=None)


def _written(line: AuthorityGiven) -> Authority:
    return Authority(line.entry, scope_of(line.scope), line.since, line.until, line.may)


def _by_role(roster: Iterable[OnRoster]) -> tuple[Authority, ...]:
    """Return the authority that lies in a role given in an entry of edition 1, while the role was kept."""
    begun: OnRoster | None = None
    for line in roster:
        if ASSESSOR not in line.roles:
            begun = None
        elif begun is None and line.edition == 1:
            begun = line
    return (Authority(begun.entry, EVERYTHING, begun.on, None),) if begun else ()
