"""What a manager decides about people: roles, leaving, standing down, putting back, opening a station."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.authorizing import give_with_role
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage, may_open_station
from trainer.kitchen.requirements import not_stood_down
from trainer.kitchen.roles import ROLES, in_sequence
from trainer.messages import message


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


def change_roles(k: Kitchen, *, by: str, change: NewRoles, now: datetime, key: str) -> Outcome:
    """Return the saved `cook_changed`: the roles named are the cook's from now on, and no others.

    With the role of an assessor goes authority in writing over everything, which may be narrowed afterwards.
    """
    deed = NewEntry("cook_changed", now, change.cook, by, {"roles": list(in_sequence(change.roles))}, key)

    def refusal(day: Snapshot) -> Refused | None:
        may = may_manage(by, change.cook, day)
        return denied_by(may) or not_on_roster(change.cook, day) or _wrong_roles(change, day)

    with k.file.writing():
        before = k.progress().roles(change.cook, k.today(now))
        outcome = save(k, deed, refusal)
        if isinstance(outcome, Saved):
            give_with_role(k, outcome.entry, before, now)
        return outcome


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
