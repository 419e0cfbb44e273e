"""The services of a day and their hours, in one list: which one runs, and which one comes next."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Literal

from trainer.messages import Text, message

ServiceId = Literal["breakfast", "lunch", "dinner"]


@dataclass(frozen=True, slots=True)
class Service:
    """One service of the day: its id as files and the book write it, its word, as a heading too, its usual hours.

    `earliest` lies well before any house opens: it only keeps a dinner from being signed as worked at noon.
    """

    id: ServiceId
    title: Text
    heading: Text
    opens: time
    closes: time
    earliest: time


SERVICES: tuple[Service, ...] = (
    Service("breakfast", message("breakfast"), message("Breakfast"), time(7), time(11), time(4)),
    Service("lunch", message("lunch"), message("Lunch"), time(11), time(15), time(10)),
    Service("dinner", message("dinner"), message("Dinner"), time(17), time(23), time(15)),
)
"""In the sequence of the day. The hours are common practice, and hold where the house has set none of its own."""

SERVICE_IDS: tuple[ServiceId, ...] = tuple(service.id for service in SERVICES)
SERVICE_WORDS: Mapping[str, Text] = {service.id: service.title for service in SERVICES}
SERVICE_HEADINGS: Mapping[str, Text] = {service.id: service.heading for service in SERVICES}
EARLIEST: Mapping[str, time] = {service.id: service.earliest for service in SERVICES}
NIGHT_ENDS = min(EARLIEST.values())
"""The hour from which a day's first service can begin: what runs before it belongs to the day before."""


def services_in(ids: Iterable[str]) -> tuple[Service, ...]:
    """Return the services with these ids, in the sequence of the day; an id that is none is passed over."""
    wanted = set(ids)
    return tuple(service for service in SERVICES if service.id in wanted)


def service_at(closes: Mapping[str, datetime], at: datetime) -> Service | None:
    """Return which of a day's services to show at a moment: the one that runs, else the next, else the day's last.

    *closes* says when each ends. One runs to the minute before it closes. None where the day has no service.
    """
    held = services_in(closes)
    to_come = [service for service in held if at < closes[service.id]]
    return to_come[0] if to_come else held[-1] if held else None


def day_served(now: datetime) -> date:
    """Return the day of what was served last, on the kitchen's own clock: a night belongs to the day before it."""
    is_night = now.time() < NIGHT_ENDS
    return now.date() - timedelta(days=is_night)


def has_begun(service: str, on: date, now: datetime) -> bool:
    """Return whether a service of a day can have begun by a moment of the kitchen's own clock."""
    return (on, EARLIEST.get(service, time.min)) <= (now.date(), now.time())
