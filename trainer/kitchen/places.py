"""Places: a station, or several that one hand holds together at a service."""

from __future__ import annotations

from collections.abc import Iterable

JOINED = "+"
"""Stands between stations that one hand holds together: `grill+saute` is a place like any single station."""


def joined_place(stations: Iterable[str]) -> str:
    """Return the place of one hand that holds all these stations at once."""
    return JOINED.join(stations)


def stations_at(place: str) -> tuple[str, ...]:
    """Return the stations a hand at a place holds."""
    return tuple(place.split(JOINED))
