"""What is decided about people: off a station at once and put back, roles, leaving, opening a station."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.actions.authorizing import give_with_role
from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.handing_back import hand_back, told_back
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import KEY_USED, append, denied_by, not_on_roster, save, saved_before, validate_text
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
from trainer.kitchen.entitlement import Snapshot, may_manage, may_open_station, may_take_off
from trainer.kitchen.off_station import EVERY_STATION, WHYS, off_now, off_since
from trainer.kitchen.roles import ROLES, in_sequence
from trainer.messages import message
from trainer.store.drafts import Draft


@dataclass(frozen=True, slots=True)
class TakenOff:
    """A cook off stations (none named: off every one), why by the list, and what may be said besides, now or later."""

    cook: str
    stations: tuple[str, ...]
    why: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class LaterWords:
    """The entry that took somebody off, and the words for it."""

    entry: str
    words: str


@dataclass(frozen=True, slots=True)
class PutBack:
    """A cook back on stations (none named: on every one they are off), and why."""

    cook: str
    stations: tuple[str, ...]
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


def take_off(k: Kitchen, *, by: str, off: TakenOff, now: datetime, key: str) -> Outcome:
    """Return the saved `stood_down`: at once the cook is cleared there no more, until a manager puts them back.

    By a manager or an assessor, never about themselves. The words besides the reason may come later (`add_words`).
    """
    body = {"stations": list(off.stations) or EVERY_STATION, "why": off.why, "reason": off.words.strip()}
    deed = NewEntry("stood_down", now, off.cook, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        return (
            denied_by(may_take_off(by, off.cook, day))
            or not_on_roster(off.cook, day)
            or next((wrong for one in off.stations if (wrong := _no_station(one, day))), None)
            or _no_such_why(off.why)
            or validate_text(off.words, "words", may_be_blank=True)
            or _off_already(off, day)
        )

    return save(k, deed, refusal)


def add_words(k: Kitchen, *, by: str, later: LaterWords, now: datetime, key: str) -> Outcome:
    """Return the saved `words_added`: what was seen of somebody taken off, by anyone who may take them off."""
    found, words = k.file.book.find(later.entry), later.words.strip()
    if found is None or found.kind != "stood_down":
        return Refused(message("There is no entry “{entry}”.", entry=later.entry), "", "entry")
    deed = NewEntry("words_added", now, found.cook, by, {"entry": later.entry, "words": words}, key)
    return save(k, deed, lambda day: denied_by(may_take_off(by, found.cook, day)) or validate_text(words, "words"))


def put_back(k: Kitchen, *, by: str, back: PutBack, now: datetime, key: str) -> Outcome:
    """Return the saved `restored`: from today what took the cook off these stations counts no more."""
    body = {"stations": list(back.stations) or EVERY_STATION, "reason": back.reason.strip()}
    deed = NewEntry("restored", now, back.cook, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        return (
            denied_by(may_manage(by, back.cook, day))
            or not_on_roster(back.cook, day)
            or next((wrong for one in back.stations if (wrong := _no_station(one, day))), None)
            or validate_text(back.reason, "reason")
            or _not_off(back, day)
        )

    return save(k, deed, refusal)


def _no_station(station: str, day: Snapshot) -> Refused | None:
    return (
        None
        if station in day.content.stations
        else Refused(message("There is no station “{station}”.", station=station), "", "station")
    )


def _no_such_why(why: str) -> Refused | None:
    return None if why in WHYS else Refused(message("Choose the reason."), "", "why")


def _off_already(off: TakenOff, day: Snapshot) -> Refused | None:
    """Return the refusal of what would change nothing: the cook is off each of these stations already."""
    record, stations = day.record(off.cook), off.stations or tuple(day.content.stations)
    if any(off_since(record, one) is None for one in stations):
        return None
    return Refused(message("{cook} is stood down there already.", cook=day.name(off.cook)), "", "station")


def _not_off(back: PutBack, day: Snapshot) -> Refused | None:
    """Return the refusal of putting somebody back who is off none of these stations."""
    if off_now(day.record(back.cook), back.stations or tuple(day.content.stations)):
        return None
    return Refused(message("{cook} is not stood down there.", cook=day.name(back.cook)), "", "station")


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
    """Return the saved `cook_left`: from today the cook is cleared nowhere and has no role.

    Places at services that have not begun are handed back in the same act: the cook goes out of rows and plans, and the
    entry names the places, which stand open until somebody takes them.
    """

    def refusal(day: Snapshot) -> Refused | None:
        may = may_manage(by, leaving.cook, day)
        return denied_by(may) or not_on_roster(leaving.cook, day) or validate_text(leaving.reason, "reason")

    with k.file.writing():
        there = saved_before(k, key, "cook_left", by)
        if there is not None:
            return there
        at, body = k.moment(now), {"reason": leaving.reason.strip()}
        places = told_back(k, leaving.cook, at)
        own = {**body, "places": places} if places else body
        outcome = save(k, NewEntry("cook_left", now, leaving.cook, by, own, key), refusal)
        if isinstance(outcome, Saved):
            hand_back(k, leaving.cook, by, at, f"{key}:plan")
    return outcome


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
