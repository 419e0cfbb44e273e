"""A kitchen's own settings: its id, name, time zone, language and how it writes numbers."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Literal, get_args
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from trainer.kitchen.currency import CODES, USD
from trainer.kitchen.own_services import services_of_house, services_told
from trainer.kitchen.services import THE_THREE, HouseServices
from trainer.store.connections import Connections
from trainer.store.problems import NotAKitchen

COLUMNS = (
    "kitchen",
    "name",
    "timezone",
    "language",
    "units_first",
    "decimal_mark",
    "is_demo",
    "independence",
    "currency",
    "own_phone",
    "pin_hours",
    "not_cleared_in_100",
    "services",
)
"""In the order they were added; a file of an older program lacks the last ones."""

Independence = Literal["shown", "reason", "strict"]
"""What is asked of a signer who trained the cook: nothing but to show it, a reason, or a second signature."""


OwnPhone = Literal["nothing", "study", "asking"]
"""What the PIN of this shift still opens on one's own phone: nothing, study, or study and asking to be watched."""
MOST_PIN_HOURS = 12
MOST_NOT_CLEARED_IN_100 = 50


@dataclass(frozen=True, slots=True)
class Settings:
    """One kitchen's settings. `kitchen` is its permanent id and the first part of every key; "" asks for a new one.

    `timezone` is an IANA name; `units_first` says which units print first; `decimal_mark` is "." or ",";
    `currency` is a code of ISO 4217; `pin_hours` says for how long after a PIN `own_phone` holds. Above
    `not_cleared_in_100` of a hundred services run by somebody not cleared the house looks into it.
    """

    kitchen: str
    name: str
    timezone: str = "UTC"
    language: str = "en"
    units_first: Literal["us", "metric"] = "us"
    decimal_mark: Literal[".", ","] = "."
    is_demo: bool = False
    independence: Independence = "shown"
    currency: str = USD
    own_phone: OwnPhone = "study"
    pin_hours: int = MOST_PIN_HOURS
    not_cleared_in_100: int = 10
    services: HouseServices = THE_THREE


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
    if settings.independence not in get_args(Independence):
        return f"Independence is 'shown', 'reason' or 'strict', not {settings.independence!r}."
    if settings.currency not in CODES:
        return f"There is no currency {settings.currency!r}. Write its three capital letters, such as USD, MXN or EUR."
    return (
        _wrong_with_phones(settings)
        or _wrong_with_limit(settings.not_cleared_in_100)
        or (
            ""
            if settings.decimal_mark in (".", ",")
            else f"A decimal mark is '.' or ',', not {settings.decimal_mark!r}."
        )
    )


def _wrong_with_phones(settings: Settings) -> str:
    """Return what is wrong with what is open on people's own phones; "" when nothing is."""
    if settings.own_phone not in get_args(OwnPhone):
        return f"On one's own phone 'nothing', 'study' or 'asking' is open, not {settings.own_phone!r}."
    if not 1 <= settings.pin_hours <= MOST_PIN_HOURS:
        return f"A PIN holds for 1 to {MOST_PIN_HOURS} hours on one's own phone, not for {settings.pin_hours}."
    return ""


def _wrong_with_limit(in_100: int) -> str:
    """Return what is wrong with the limit of services run by somebody not cleared; "" when nothing is."""
    if 1 <= in_100 <= MOST_NOT_CLEARED_IN_100:
        return ""
    return f"Of 100 services 1 to {MOST_NOT_CLEARED_IN_100} may be run by somebody not cleared, not {in_100}."


def keep(connections: Connections, settings: Settings) -> None:
    """Write the settings, in place of any that are there."""
    s = settings
    numbers = (s.units_first, s.decimal_mark, int(s.is_demo))
    phones = (s.own_phone, s.pin_hours)
    row = (
        s.kitchen,
        s.name,
        s.timezone,
        s.language,
        *numbers,
        s.independence,
        s.currency,
        *phones,
        s.not_cleared_in_100,
        json.dumps(services_told(s.services), ensure_ascii=False),
    )
    columns = _columns(connections)
    places = ", ".join("?" * len(columns))
    sql = f"INSERT OR REPLACE INTO settings ({', '.join(columns)}) VALUES ({places})"  # noqa: S608 - fixed columns
    connections.write(sql, row[: len(columns)])


def kept(connections: Connections) -> Settings:
    """Return the settings of the kitchen in a file; one of an older program is read before its tables change."""
    columns = _columns(connections)
    names = ", ".join(columns)
    rows = connections.read(f"SELECT {names} FROM settings ORDER BY kitchen LIMIT 1")  # noqa: S608 - fixed columns
    if not rows:
        raise NotAKitchen(f"{connections.path} holds no kitchen's settings.")
    row = dict(zip(columns, rows[0], strict=True))
    services = services_of_house(json.loads(row.pop("services", "[]")))
    return Settings(**{**row, "is_demo": bool(row["is_demo"]), "services": services})


def _columns(connections: Connections) -> tuple[str, ...]:
    """Return the columns a file's table has, of those this program knows."""
    there = {row[1] for row in connections.read("PRAGMA table_info(settings)")}
    return tuple(name for name in COLUMNS if name in there)
