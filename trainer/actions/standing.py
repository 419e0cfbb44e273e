"""What a manager decides about people: roles, leaving, standing down, putting back, opening a station."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class AtStation:
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


def stand_down(k: OpenKitchen, *, by: str, at: AtStation, now: datetime, key: str) -> Outcome:
    """Return the saved `stood_down`."""
    raise NotImplementedError


def restore(k: OpenKitchen, *, by: str, at: AtStation, now: datetime, key: str) -> Outcome:
    """Return the saved `restored`."""
    raise NotImplementedError


def open_station(k: OpenKitchen, *, by: str, grant: Grant, now: datetime, key: str) -> Outcome:
    """Return the saved `station_opened`."""
    raise NotImplementedError


def cook_leaves(k: OpenKitchen, *, by: str, leaving: Leaving, now: datetime, key: str) -> Outcome:
    """Return the saved `cook_left`."""
    raise NotImplementedError


def change_roles(k: OpenKitchen, *, by: str, change: NewRoles, now: datetime, key: str) -> Outcome:
    """Return the saved `cook_changed`."""
    raise NotImplementedError
