"""Calendars other programs read (iCalendar, RFC 5545): shifts with their hours, and days on which something ends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from trainer.exports.asking import Asked
from trainer.exports.plan import planned_hours
from trainer.exports.spreadsheet import Say
from trainer.kitchen.lapses import Lapse, lapses_by
from trainer.messages import Text, joined, message

PRODUCT = "-//Kitchen trainer//EN"
REFRESH = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class Event:
    """One event: `starts` and `ends` are moments with their zone, or for a whole day `starts` is the day alone.

    `uid` stays the same for as long as the same thing is meant, so that a calendar changes what it has.
    """

    uid: str
    title: Text
    told: Text
    starts: datetime | date
    ends: datetime | None = None


def shift_events(asked: Asked, last: date, cook: str = "") -> Iterator[Event]:
    """Yield the planned places from the day asked about to the last one: of everybody, or of one cook."""
    kitchen, zone = asked.k.file.settings.kitchen, ZoneInfo(asked.k.file.settings.timezone)
    for one in planned_hours(asked, last):
        place = one.place
        if cook not in ("", place.cook):
            continue
        station, service = asked.station(place.station), asked.k.services.word(place.service)
        told = [message("{station}, {service}", station=station, service=service)]
        if not cook:
            told.insert(0, message("{name}:", name=asked.person(place.cook)))
        charge: Text = message("In charge: {name}.", name=asked.person(one.in_charge)) if one.in_charge else ""
        yield Event(
            f"shift-{one.day}-{place.service}-{place.station}-{place.cook}@{kitchen}",
            joined(told),
            charge,
            one.starts.replace(tzinfo=zone),
            one.ends.replace(tzinfo=zone),
        )


def lapse_events(asked: Asked, last: date, cook: str = "") -> Iterator[Event]:
    """Yield a day for everything that ends by the last day: of everybody, or of one cook."""
    kitchen = asked.k.file.settings.kitchen
    rows = (row for row in asked.k.board(asked.on).rows if cook in ("", row.cook.id))
    for lapse in lapses_by((found for row in rows for found in row.clearances), last):
        yield Event(
            f"lapse-{lapse.what}-{lapse.cook}@{kitchen}",
            _lapse_title(asked, lapse, is_own=bool(cook)),
            message("Stations: {stations}.", stations=joined(map(asked.station, lapse.stations), ", ")),
            lapse.until,
        )


def path_events(asked: Asked, cook: str = "") -> Iterator[Event]:
    """Yield the day by which each station that somebody goes for is to be reached: of everybody, or of one cook."""
    kitchen = asked.k.file.settings.kitchen
    for row in asked.k.board(asked.on).rows:
        for found in row.clearances if cook in ("", row.cook.id) else ():
            path = found.path
            if path is not None and not found.is_cleared and path.by_day >= asked.on:
                ready = message("Ready by today: {station}", station=asked.station(found.station))
                title = ready if cook else joined([message("{name}:", name=row.cook.name), ready])
                yield Event(f"path-{path.entry}@{kitchen}", title, "", path.by_day)


def _lapse_title(asked: Asked, lapse: Lapse, *, is_own: bool) -> Text:
    ends = message("Last good day: {what}", what=asked.named(lapse.held.text))
    return ends if is_own else joined([message("{name}:", name=asked.person(lapse.cook)), ends])


def calendar_of(name: Text, events: Iterable[Event], now: datetime, say: Say) -> bytes:
    """Return a calendar; moments are written in UTC, which every reader shows in its own zone."""
    from icalendar import Calendar
    from icalendar import Event as Component

    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("name", say(name))  # RFC 7986, 5.1
    calendar.add("refresh-interval", REFRESH, parameters={"VALUE": "DURATION"})  # RFC 7986, 5.7
    for one in events:
        event = Component()
        event.add("uid", one.uid)
        event.add("dtstamp", now.astimezone(UTC))
        event.add("summary", say(one.title))
        if one.told:
            event.add("description", say(one.told))
        event.add("dtstart", one.starts.astimezone(UTC) if isinstance(one.starts, datetime) else one.starts)
        if one.ends is not None:
            event.add("dtend", one.ends.astimezone(UTC))
        event.add("transp", "OPAQUE" if one.ends else "TRANSPARENT")
        calendar.add_component(event)
    return bytes(calendar.to_ical())
