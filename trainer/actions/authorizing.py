"""Authority in writing: given with the role of an assessor, narrowed, ended and renewed by a manager."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.clock_watch import after_the_last, refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.actions.signed import with_proof
from trainer.kitchen.authority import (
    ASSESSOR,
    EVERYTHING,
    MAY,
    MOST_MONTHS,
    Scope,
    latest_end,
)
from trainer.kitchen.book import Entry, NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.spans import in_words
from trainer.messages import message

NOT_IN_FORCE = message("That authority is not in force: it has ended.")


@dataclass(frozen=True, slots=True)
class NewAuthority:
    """Who may sign what, from a day to the end of another, and for which acts."""

    assessor: str
    scope: Scope
    since: date
    until: date
    may: tuple[str, ...] = MAY


@dataclass(frozen=True, slots=True)
class Ending:
    """Which authority of whom ends today, and why; `instead` is what they may sign from now on, None nothing."""

    assessor: str
    authority: str
    reason: str
    instead: NewAuthority | None = None


def give_with_role(k: Kitchen, roles: Entry, before: Iterable[str], now: datetime) -> Entry | None:
    """Return the `authority_given` that goes with the role of an assessor: everything, for 24 months.

    Called in the transaction that wrote the roles; None where the entry gives no such role, or it was held before.
    """
    if ASSESSOR in before or ASSESSOR not in roles.body.get("roles", ()):
        return None
    given = NewAuthority(roles.cook, EVERYTHING, roles.day, latest_end(roles.day))
    return _written(k, roles.by, given, now, f"{roles.key}:authority")


def _body(given: NewAuthority) -> dict[str, object]:
    since, until = given.since.isoformat(), given.until.isoformat()
    return {"scope": given.scope.body, "from": since, "until": until, "may": list(given.may)}


def give_authority(k: Kitchen, *, by: str, given: NewAuthority, now: datetime, key: str) -> Outcome:
    """Return the saved `authority_given`; it counts beside any other the assessor has."""
    deed = NewEntry("authority_given", now, given.assessor, by, _body(given), key)
    return save(k, deed, lambda day: _refusal(by, given, day))


def _refusal(by: str, given: NewAuthority, day: Snapshot) -> Refused | None:
    """Return why an authority cannot be given: to anyone but an assessor, over nothing known, or too long."""
    return (
        denied_by(may_manage(by, given.assessor, day))
        or not_on_roster(given.assessor, day)
        or _no_assessor(given.assessor, day)
        or _wrong_scope(given.scope, day)
        or _wrong_days(given, day.on)
        or _wrong_acts(given.may)
    )


def _no_assessor(cook: str, day: Snapshot) -> Refused | None:
    if ASSESSOR in day.roles(cook):
        return None
    words = message("{name} is no assessor.", name=day.name(cook))
    return Refused(words, message("Give the role first; the authority comes with it."), "assessor")


def _wrong_scope(scope: Scope, day: Snapshot) -> Refused | None:
    """Return what is wrong with what an authority covers: nothing, two kinds at once, or a name nobody knows."""
    if sum((scope.everything, bool(scope.stations), bool(scope.techniques))) != 1:
        return Refused(message("Choose everything, or some stations, or some techniques."), "", "scope")
    for station in scope.stations:
        if station not in day.content.stations:
            return Refused(message("There is no station “{station}”.", station=station), "", "stations")
    for technique in scope.techniques:
        if technique not in day.content.techniques:
            return Refused(message("There is no technique “{technique}”.", technique=technique), "", "techniques")
    return None


def _wrong_days(given: NewAuthority, today: date) -> Refused | None:
    """Return what is wrong with the days: begun in the past, ended before it begins, or longer than 24 months."""
    if given.since < today:
        words = message("{day} is past. An authority begins today or later.", day=in_words(given.since))
        return Refused(words, "", "since")
    if given.until < given.since:
        words = message(
            "{day} is before it begins, on {since}.", day=in_words(given.until), since=in_words(given.since)
        )
        return Refused(words, "", "until")
    latest = latest_end(given.since)
    if given.until > latest:
        words = message(
            "{day} is too late: an authority is good for {months} months at the most, to {latest}.",
            day=in_words(given.until),
            months=MOST_MONTHS,
            latest=in_words(latest),
        )
        return Refused(words, message("Renew it before it ends."), "until")
    return None


def _wrong_acts(may: Sequence[str]) -> Refused | None:
    if not may:
        return Refused(message("Choose what it allows: sign, beside or recheck."), "", "may")
    unknown = next((act for act in may if act not in MAY), "")
    return Refused(message("“{act}”: sign, beside or recheck.", act=unknown), "", "may") if unknown else None


def end_authority(k: Kitchen, *, by: str, ending: Ending, now: datetime, key: str) -> Outcome:
    """Return the saved `authority_ended`; with `instead`, the narrower authority is given in the same act."""
    reason = ending.reason.strip()
    body = {"authority": ending.authority, "reason": reason}
    deed = NewEntry("authority_ended", now, ending.assessor, by, body, key)
    with k.file.writing():
        outcome = save(k, deed, lambda day: _not_to_be_ended(by, ending, day) or validate_text(reason, "reason"))
        if isinstance(outcome, Saved) and ending.instead is not None:
            _written(k, by, ending.instead, now, f"{key}:instead")
        return outcome


def _not_to_be_ended(by: str, ending: Ending, day: Snapshot) -> Refused | None:
    """Return why an authority does not end: not this manager's to end, not live, or what comes instead will not do."""
    refusal = denied_by(may_manage(by, ending.assessor, day))
    if refusal is not None:
        return refusal
    if all(one.entry != ending.authority for one in day.authorities(ending.assessor)):
        return Refused(NOT_IN_FORCE, "", "authority")
    return _refusal(by, ending.instead, day) if ending.instead is not None else None


def renew_authorities(k: Kitchen, *, by: str, renewed: Sequence[tuple[str, str]], now: datetime, key: str) -> Outcome:
    """Return the last `authority_given` of a list of (assessor, authority), each renewed from today for 24 months.

    One proof signs the list, shown whole; all of it is kept or none.
    """
    if not renewed:
        return Refused(message("Tick whose authority goes on."), "", "renewed")
    with k.file.writing():
        there = k.file.book.find_key(f"{key}:{len(renewed) - 1}")
        if there is not None:
            return Saved(there)
        day = k.day(k.today(now))
        refusal = refused_by_clock(k, now)
        if refusal is not None:
            return refusal
        asked = []
        for assessor, entry in renewed:
            one = _renewal(by, assessor, entry, day)
            if isinstance(one, Refused):
                return one
            asked.append(one)
        written = [_written(k, by, one, now, f"{key}:{place}") for place, one in enumerate(asked)]
        return Saved(written[-1])


def _renewal(by: str, assessor: str, entry: str, day: Snapshot) -> NewAuthority | Refused:
    """Return a live authority as it would go on from today, or why it does not."""
    old = next((one for one in day.authorities(assessor) if one.entry == entry), None)
    if old is None:
        return Refused(NOT_IN_FORCE, "", "renewed")
    given = NewAuthority(assessor, old.scope, day.on, latest_end(day.on), old.may)
    return _refusal(by, given, day) or given


def _written(k: Kitchen, by: str, given: NewAuthority, now: datetime, key: str) -> Entry:
    """Return the entry of an authority that nothing stands against, inside the open transaction."""
    deed = NewEntry("authority_given", now, given.assessor, by, _body(given), key)
    return k.file.book.append(with_proof(after_the_last(k, deed)))
