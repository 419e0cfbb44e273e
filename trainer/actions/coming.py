"""The coming 90 days of every station, worked out once from the days on which each cook is cleared."""

from __future__ import annotations

from datetime import date

from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.coming_days import Strip, cleared_days, coming, need_at, strip_of


def stations_ahead(k: Kitchen, today: date) -> tuple[Strip, ...]:
    """Return the strip of every station of today, in their sequence, by what is known today."""
    progress, people, days = k.progress(), k.people(), coming(today)
    stations = k.board(today).stations
    here = (*progress.at_stations_on(today), *progress.at_stations_on(days.until, today))
    cooks = [people[cook] for cook in dict.fromkeys(here) if cook in people]
    found = [cleared_days(cook, stations, progress, k.content, days) for cook in cooks]
    return tuple(
        strip_of(one.id, [cleared[one.id] for cleared in found], need_at(one.id, progress.nights, today), days)
        for one in stations
    )
