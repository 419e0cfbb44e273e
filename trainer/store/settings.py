"""A kitchen's own settings: its id, name, time zone, language and how it writes numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from trainer.store.connections import Connections
from trainer.store.problems import NotAKitchen

COLUMNS = "kitchen, name, timezone, language, units_first, decimal_mark, is_demo"


@dataclass(frozen=True, slots=True)
class Settings:
    """One kitchen's settings. `kitchen` is its permanent id and the first part of every key; "" asks for a new one.

    `timezone` is an IANA name; `units_first` says which units print first; `decimal_mark` is "." or ",".
    """

    kitchen: str
    name: str
    timezone: str = "UTC"
    language: str = "en"
    units_first: Literal["us", "metric"] = "us"
    decimal_mark: Literal[".", ","] = "."
    is_demo: bool = False


def validate(settings: Settings) -> str:
    """Return what is wrong with the settings, in one sentence; "" when nothing is."""
    if not settings.name.strip() or len(settings.name) > 120:
        return "A kitchen's name has 1 to 120 characters."
    try:
        ZoneInfo(settings.timezone)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return f"There is no time zone {settings.timezone!r}. Name one like America/New_York or Europe/Rome."
    if settings.units_first not in ("us", "metric"):
        return f"Units come first in 'us' or 'metric', not in {settings.units_first!r}."
    return (
        "" if settings.decimal_mark in (".", ",") else f"A decimal mark is '.' or ',', not {settings.decimal_mark!r}."
    )


def keep(connections: Connections, settings: Settings) -> None:
    """Write the settings, in place of any that are there."""
    s = settings
    row = (s.kitchen, s.name, s.timezone, s.language, s.units_first, s.decimal_mark, int(s.is_demo))
    connections.write(f"INSERT OR REPLACE INTO settings ({COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?)", row)  # noqa: S608


def kept(connections: Connections) -> Settings:
    """Return the settings of the kitchen in a file."""
    rows = connections.read(f"SELECT {COLUMNS} FROM settings ORDER BY kitchen LIMIT 1")  # noqa: S608 - fixed columns
    if not rows:
        raise NotAKitchen(f"{connections.path} holds no kitchen's settings.")
    kitchen, name, timezone, language, units_first, decimal_mark, is_demo = rows[0]
    return Settings(kitchen, name, timezone, language, units_first, decimal_mark, bool(is_demo))
