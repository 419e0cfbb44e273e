"""The open paths of a house: who goes for which station by when, how far they are, and who may open and close one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from trainer.kitchen.book import LOCAL
from trainer.kitchen.clearance import Clearance
from trainer.kitchen.entitlement import YES, Entitlement, Snapshot
from trainer.kitchen.paths import open_path
from trainer.kitchen.record import PathOpened
from trainer.kitchen.roles import works_a_station
from trainer.kitchen.technique import Station
from trainer.messages import Text, message, plural

PathState = Literal["open", "late", "reached"]
DECIDES = frozenset({"assessor", "manager"})
"""The roles that open and close anybody's path."""
DAYS_A_TECHNIQUE, DAYS_A_SHIFT, FEWEST_DAYS = 3, 2, 14
WHO_DECIDES = message("An assessor or a manager can do this.")


@dataclass(frozen=True, slots=True)
class PathStanding:
    """One open path on a day, with its cook's clearance at the station."""

    path: PathOpened
    clearance: Clearance

    @property
    def cook(self) -> str:
        """Return whose path it is."""
        return self.clearance.cook

    @property
    def days_left(self) -> int:
        """Return the days from today to its day; less than none once that is past."""
        return (self.path.by_day - self.clearance.on).days

    @property
    def state(self) -> PathState:
        """Return whether its cook was cleared since it was opened, which no entry says; else whether its day is past.

        Somebody who is cleared and then lapses has still reached it.
        """
        found = self.clearance
        if found.is_cleared or (found.until is not None and found.until >= self.path.on):
            return "reached"
        return "late" if self.days_left < 0 else "open"

    @property
    def words(self) -> Text:
        """Return how long there is left: the days, that it is the last one, how late it is, or that it is reached."""
        if self.state == "reached":
            return message("reached")
        if self.days_left < 0:
            return plural("{number} day late", "{number} days late", -self.days_left)
        left = plural("{number} day left", "{number} days left", self.days_left)
        return left if self.days_left else message("that is today")


def proposed_day(clearance: Clearance, station: Station) -> date:
    """Return by which day a cook may well be cleared at a station, to open a path in one tap.

    Three days for each technique in which something is missing, two for each supervised shift, and no less than two
    weeks (common practice: a technique is read, asked over two days, and shown on a shift).
    """
    missing = {one.subject for one in clearance.missing if one.subject}
    days = DAYS_A_TECHNIQUE * len(missing) + DAYS_A_SHIFT * station.supervised_shifts
    return clearance.on + timedelta(days=max(FEWEST_DAYS, days))


def wishes(day: Snapshot) -> tuple[PathStanding, ...]:
    """Return the paths that cooks opened themselves and nobody has agreed to, the earliest day first."""
    asking = (cook for cook in day.cooks() if any(path.by == cook for path in day.record(cook).paths))
    own = (one for cook in asking for one in paths_of(cook, day) if one.path.by == cook and one.state != "reached")
    return tuple(sorted(own, key=lambda one: one.path.by_day))


def path_standing(clearance: Clearance) -> PathStanding | None:
    """Return the open path of a clearance; None where there is none."""
    return PathStanding(clearance.path, clearance) if clearance.path else None


def paths_of(cook: str, day: Snapshot) -> tuple[PathStanding, ...]:
    """Return a cook's open paths, the earliest day first; one to a station the house no longer has is left out."""
    if cook not in day.people or not day.is_on_roster(cook):
        return ()
    record = day.record(cook)
    stations = day.rules.stations.values() if record.paths else ()
    going = [station for station in stations if open_path(record, station.id)]
    found = (path_standing(day.clearance(day.people[cook], station)) for station in going)
    return tuple(sorted((one for one in found if one), key=lambda one: one.path.by_day))


def all_paths(day: Snapshot) -> tuple[PathStanding, ...]:
    """Return the open paths of everybody on the roster, the earliest day first."""
    found = (one for cook in day.cooks() for one in paths_of(cook, day))
    return tuple(sorted(found, key=lambda one: one.path.by_day))


def may_open_path(by: str, cook: str, day: Snapshot) -> Entitlement:
    """Return whether somebody may open a path for a cook: a cook for themselves, an assessor or a manager for anybody.

    So may a command on the machine itself.
    """
    if by in (cook, LOCAL) or DECIDES & day.roles(by):
        return YES
    return Entitlement(False, message("A cook opens a path only for themselves."), WHO_DECIDES)


def may_end_path(by: str, cook: str, path: PathOpened, day: Snapshot) -> Entitlement:
    """Return whether somebody may close a path or put another in its place.

    A cook only one they opened themselves; nobody drops their own that somebody else opened.
    """
    if by == cook and path.by != by:
        words = message("{name} opened this path. Ask them, or another assessor or manager.", name=_opener(path, day))
        return Entitlement(False, words)
    return may_open_path(by, cook, day)


def _opener(path: PathOpened, day: Snapshot) -> Text:
    return message("Somebody at the machine") if path.by == LOCAL else day.name(path.by)


def works_here(cook: str, day: Snapshot) -> bool:
    """Return whether a person works stations on the day, and so may go for one."""
    return works_a_station(day.roles(cook))


def is_too_far(by_day: date, on: date) -> bool:
    """Return whether a day is more than two years ahead: a path is planned by weeks and months (common practice)."""
    return (by_day - on).days > 2 * 366
