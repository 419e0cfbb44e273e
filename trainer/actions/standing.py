"""What a manager decides about people: roles, leaving, standing down, putting back, opening a station."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.actions.authorizing import give_with_role
from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import KEY_USED, append, denied_by, not_on_roster, save, validate_text
from trainer.actions.two_people import (
    POWER,
    Asked,
    Second,
    Waits,
    keep_waiting,
    need_of,
    said_by,
    until_of,
    waiting_for,
)
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage, may_open_station
from trainer.kitchen.requirements import not_stood_down
from trainer.kitchen.roles import ROLES, in_sequence
from trainer.messages import message
from trainer.store.drafts import Draft


@dataclass(frozen=True, slots=True)
class StationChange:
    """A cook, a station, and why."""

    cook: str
    station: str
    reason: str


@dataclass(frozen=True, slots=True)
class Grant:
    """A station opened for an assessor, to the end of `until`, and why."""

    assessor: str
    station: str
    until: date
    reason: str


@dataclass(frozen=True, slots=True)
class Leaving:
    """Who leaves, and why."""

    cook: str
    reason: str


@dataclass(frozen=True, slots=True)
class NewRoles:
    """Whose roles become which: of cook, assessor, manager."""

    cook: str
    roles: Collection[str]


def stand_down(k: Kitchen, *, by: str, at: StationChange, now: datetime, key: str) -> Outcome:
    """Return the saved `stood_down`: from today the cook is cleared there no more, until put back."""
    deed = NewEntry("stood_down", now, at.cook, by, {"station": at.station, "reason": at.reason.strip()}, key)

    def refusal(day: Snapshot) -> Refused | None:
        stood = Refused(message("{cook} is stood down there already.", cook=day.name(at.cook)), "", "station")
        return _refusal_at(by, at, day) or (stood if _is_stood_down(at, day) else None)

    return save(k, deed, refusal)


def restore(k: Kitchen, *, by: str, at: StationChange, now: datetime, key: str) -> Outcome:
    """Return the saved `restored`: from today the standing down counts no more."""
    deed = NewEntry("restored", now, at.cook, by, {"station": at.station, "reason": at.reason.strip()}, key)

    def refusal(day: Snapshot) -> Refused | None:
        not_stood = Refused(message("{cook} is not stood down there.", cook=day.name(at.cook)), "", "station")
        return _refusal_at(by, at, day) or (None if _is_stood_down(at, day) else not_stood)

    return save(k, deed, refusal)


def _refusal_at(by: str, at: StationChange, day: Snapshot) -> Refused | None:
    """Return what standing down and putting back are both refused for."""
    return (
        denied_by(may_manage(by, at.cook, day))
        or not_on_roster(at.cook, day)
        or _no_station(at.station, day)
        or validate_text(at.reason, "reason")
    )


def _no_station(station: str, day: Snapshot) -> Refused | None:
    return (
        None
        if station in day.content.stations
        else Refused(message("There is no station “{station}”.", station=station), "", "station")
    )


def _is_stood_down(at: StationChange, day: Snapshot) -> bool:
    record = day.progress.record(at.cook).as_of(day.on)
    return not_stood_down(record, day.content.stations[at.station], day.on).best is None


def open_station(k: Kitchen, *, by: str, grant: Grant, now: datetime, key: str) -> Outcome:
    """Return the saved `station_opened`: the assessor may sign there to the end of `until`."""
    body = {"station": grant.station, "until": grant.until.isoformat(), "reason": grant.reason.strip()}
    deed = NewEntry("station_opened", now, grant.assessor, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        past = (
            Refused(message("The last day of a grant is today or later."), "", "until")
            if grant.until < day.on
            else None
        )
        may = may_open_station(by, grant.assessor, grant.station, day)
        return denied_by(may) or past or validate_text(grant.reason, "reason")

    return save(k, deed, refusal)


def cook_leaves(k: Kitchen, *, by: str, leaving: Leaving, now: datetime, key: str) -> Outcome:
    """Return the saved `cook_left`: from today the cook is cleared nowhere and has no role."""
    deed = NewEntry("cook_left", now, leaving.cook, by, {"reason": leaving.reason.strip()}, key)

    def refusal(day: Snapshot) -> Refused | None:
        may = may_manage(by, leaving.cook, day)
        return denied_by(may) or not_on_roster(leaving.cook, day) or validate_text(leaving.reason, "reason")

    return save(k, deed, refusal)


def change_roles(k: Kitchen, *, by: str, change: NewRoles, now: datetime, key: str) -> Outcome | Waits:
    """Return the saved `cook_changed`: the roles named are the cook's from now on, and no others.

    With the role of an assessor goes authority in writing over everything, which may be narrowed afterwards. A role
    that gives power takes a second person: until then, what is taken away counts at once, and what is given waits.
    """
    deed = NewEntry("cook_changed", now, change.cook, by, {"roles": list(in_sequence(change.roles))}, key)
    with k.file.writing():
        there, waits, day = k.file.book.find_key(key), waiting_for(k, key), k.day(k.today(now))
        if waits is not None:
            return Waits(key, until_of(waits))
        if there is not None:
            return Saved(there) if _same_roles(there, deed) else KEY_USED
        gained = POWER & set(change.roles) - day.roles(change.cook)
        asked = Asked("roles", change.cook, by, deed.body, key, waits_alone="manager" in gained)
        need = need_of(k, asked, day) if gained else "nobody"
        if need == "nobody":
            return _roles_written(k, deed, change.roles, None)
        refusal = refused_by_clock(k, now) or _no_new_roles(by, change, day)
        if refusal is not None:
            return refusal
        _take_away(k, asked, day, now)
        return keep_waiting(k, asked, need, now)


def _same_roles(there: Entry, deed: NewEntry) -> bool:
    """Return whether an entry gives the roles a form asks for once more."""
    kept = (there.kind, there.cook, there.by, there.body.get("roles"))
    return kept == (deed.kind, deed.cook, deed.by, deed.body["roles"])


def _take_away(k: Kitchen, asked: Asked, day: Snapshot, now: datetime) -> None:
    """Take away at once what a change of roles takes away, before what it gives; somebody left with none is a cook."""
    before, wanted = day.roles(asked.cook), set(asked.args["roles"])
    left = wanted - (POWER - before) or {"cook"}
    if POWER & before - wanted:
        body = {"roles": list(in_sequence(left))}
        append(k, NewEntry("cook_changed", now, asked.cook, asked.by, body, f"{asked.key}:at-once"))


def enter_roles(k: Kitchen, draft: Draft, second: Second | None, now: datetime) -> Outcome:
    """Return the entry of roles that waited, asked of the kitchen again as of now."""
    roles = draft.body["args"]["roles"]
    deed = NewEntry("cook_changed", now, draft.cook, draft.by, {"roles": roles}, draft.id)
    return _roles_written(k, deed, roles, said_by(second, draft.at))


def _roles_written(k: Kitchen, deed: NewEntry, roles: Collection[str], said: Mapping[str, Any] | None) -> Outcome:
    """Return the entry of new roles, with the authority that goes with an assessor's."""
    before, change = k.progress().roles(deed.cook, k.today(deed.at)), NewRoles(deed.cook, roles)
    word = (said or {"second": None}) if POWER & set(roles) - before else {}
    own = replace(deed, body={**deed.body, **word})
    outcome = save(k, own, lambda day: _no_new_roles(deed.by, change, day))
    if isinstance(outcome, Saved):
        give_with_role(k, outcome.entry, before, deed.at)
    return outcome


def _no_new_roles(by: str, change: NewRoles, day: Snapshot) -> Refused | None:
    """Return why the roles of a person cannot become these."""
    may = may_manage(by, change.cook, day)
    return denied_by(may) or not_on_roster(change.cook, day) or _wrong_roles(change, day)


def _wrong_roles(change: NewRoles, day: Snapshot) -> Refused | None:
    unknown = sorted(set(change.roles) - set(ROLES))
    if unknown:
        return Refused(
            message("There is no role “{unknown}”: cook, assessor or manager.", unknown=unknown[0]), "", "roles"
        )
    if not change.roles:
        return Refused(message("Somebody on the roster has a role at least."), "", "roles")
    if day.roles(change.cook) == frozenset(change.roles):
        return Refused(message("{cook} has these roles already.", cook=day.name(change.cook)), "", "roles")
    return None
