"""Paths: a cook goes for a station by a day; it is opened, put off by another in its place, and closed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal, get_args

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.open_paths import is_too_far, may_end_path, may_open_path, paths_of, works_here
from trainer.kitchen.paths import open_path
from trainer.kitchen.record import PathOpened
from trainer.kitchen.spans import in_words
from trainer.messages import joined, message

PathEnd = Literal["reached", "dropped"]


@dataclass(frozen=True, slots=True)
class NewPath:
    """Who goes for which station, to be cleared by the end of a day, and who helps (nobody yet: "")."""

    cook: str
    station: str
    by_day: date
    mentor: str = ""


@dataclass(frozen=True, slots=True)
class PathClosing:
    """Which path of whom ends (by the entry that opened it), how, and why."""

    cook: str
    path: str
    outcome: str
    reason: str = ""


def start_path(k: Kitchen, *, by: str, path: NewPath, now: datetime, key: str) -> Outcome:
    """Return the saved `path_opened`; where one to the station is open, this one takes its place.

    A cook opens one for themselves, an assessor or a manager for anybody.
    """
    body = {"station": path.station, "by_day": path.by_day.isoformat(), "mentor": path.mentor}
    deed = NewEntry("path_opened", now, path.cook, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        return (
            denied_by(may_open_path(by, path.cook, day))
            or not_on_roster(path.cook, day)
            or _works_nowhere(path.cook, day)
            or _no_station(path, day)
            or _wrong_day(path.by_day, day.on)
            or _wrong_mentor(path, day)
            or _in_the_way(by, path, day)
        )

    return save(k, deed, refusal)


def _works_nowhere(cook: str, day: Snapshot) -> Refused | None:
    if works_here(cook, day):
        return None
    return Refused(message("{name} works no station: a cook or an assessor does.", name=day.name(cook)), "", "cook")


def _no_station(path: NewPath, day: Snapshot) -> Refused | None:
    """Return the refusal of a station the house does not have, or at which the cook is cleared."""
    station = day.rules.stations.get(path.station)
    if station is None:
        return Refused(message("There is no station “{station}”.", station=path.station), "", "station")
    if day.is_cleared(path.cook, station):
        words = message("{name} is cleared there already: {station}.", name=day.name(path.cook), station=station.name)
        return Refused(words, "", "station")
    return None


def _wrong_day(by_day: date, today: date) -> Refused | None:
    if by_day < today:
        return Refused(message("{day} is past. Choose today or a day to come.", day=in_words(by_day)), "", "by_day")
    if is_too_far(by_day, today):
        words = message("{day} is more than two years ahead. Choose an earlier day.", day=in_words(by_day))
        return Refused(words, "", "by_day")
    return None


def _wrong_mentor(path: NewPath, day: Snapshot) -> Refused | None:
    """Return what is wrong with who helps: the cook themselves, or nobody here."""
    if path.mentor and path.mentor == path.cook:
        return Refused(message("Nobody is their own mentor. Choose somebody else, or nobody yet."), "", "mentor")
    if path.mentor and not day.is_on_roster(path.mentor):
        return Refused(message("{name} is not on the roster.", name=day.name(path.mentor)), "", "mentor")
    return None


def _in_the_way(by: str, path: NewPath, day: Snapshot) -> Refused | None:
    """Return why the path open now stays: it is not this person's to end, or it says the same.

    Another person may say the same as the cook did: so they agree to it.
    """
    found = open_path(day.record(path.cook), path.station)
    if found is None or (found.by == path.cook != by):
        return None
    if (found.by_day, found.mentor) == (path.by_day, path.mentor):
        words = message("This path is open already, to the same day: {day}.", day=in_words(path.by_day))
        return Refused(words, "", "by_day")
    return denied_by(may_end_path(by, path.cook, found, day))


def close_path(k: Kitchen, *, by: str, closing: PathClosing, now: datetime, key: str) -> Outcome:
    """Return the saved `path_closed`: reached, where the cook was cleared since it was opened; else dropped, and why.

    Somebody cleared has reached their path without this entry: it only takes the path off the list.
    """
    reason = closing.reason.strip()
    body = {"path": closing.path, "outcome": closing.outcome, "reason": reason}
    deed = NewEntry("path_closed", now, closing.cook, by, body, key)

    def refusal(day: Snapshot) -> Refused | None:
        found = path_named(closing.cook, closing.path, day)
        if found is None:
            return Refused(message("That path is not open: it was closed, replaced or voided."), "", "path")
        is_dropped = closing.outcome == "dropped"
        return (
            denied_by(may_end_path(by, closing.cook, found, day))
            or _wrong_outcome(closing, found, day)
            or validate_text(reason, "reason", may_be_blank=not is_dropped)
        )

    return save(k, deed, refusal)


def path_named(cook: str, entry: str, day: Snapshot) -> PathOpened | None:
    """Return the open path that an entry opened; None where it is open no longer."""
    record = day.record(cook)
    found = next((line for line in record.paths if line.entry == entry), None)
    return found if found is not None and open_path(record, found.station) == found else None


def _wrong_outcome(closing: PathClosing, path: PathOpened, day: Snapshot) -> Refused | None:
    """Return why a path does not end so: no such end, or reached before its cook is cleared."""
    if closing.outcome not in get_args(PathEnd):
        return Refused(message("Choose how it ends: reached or dropped."), "", "outcome")
    if closing.outcome == "dropped":
        return None
    standing = next((one for one in paths_of(closing.cook, day) if one.path == path), None)
    if standing is not None and standing.state == "reached":
        return None
    left = joined(one.text for one in standing.clearance.missing[:1]) if standing else ""
    words = message("{name} is not cleared there yet.", name=day.name(closing.cook))
    return Refused(joined(part for part in (words, left) if part), "", "outcome")
