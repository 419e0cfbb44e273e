"""The services of a day and their hours, in one list: which one runs, and which one comes next."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from trainer.kitchen.names import plain
from trainer.messages import Text, joined, message

NIGHT_ENDS = time(4)
"""The hour from which a day's first service can begin: what runs before it belongs to the day before."""


@dataclass(frozen=True, slots=True)
class Service:
    """One service of the day: its id as files and the book write it, its word, as a heading too, its usual hours.

    `earliest` lies well before any house opens: it only keeps a dinner from being signed as worked at noon. `names` are
    the house's own, by language, none where the program's words do; one that is off the house's list is not offered.
    """

    id: str
    title: Text
    heading: Text
    opens: time
    closes: time
    earliest: time
    names: tuple[tuple[str, str], ...] = ()
    is_offered: bool = True


STANDARD: tuple[Service, ...] = (
    Service("breakfast", message("breakfast"), message("Breakfast"), time(7), time(11), time(4)),
    Service("lunch", message("lunch"), message("Lunch"), time(11), time(15), time(10)),
    Service("dinner", message("dinner"), message("Dinner"), time(17), time(23), time(15)),
)
"""What a house has that names none of its own. The hours are common practice, and hold where it has set none."""


@dataclass(frozen=True, slots=True)
class HouseServices:
    """The services of a house, in the sequence of the day. An id that it does not know is printed as it is.

    `known` are those too that are off its list by now: the past goes on being read by their names.
    """

    known: tuple[Service, ...] = STANDARD

    @property
    def offered(self) -> tuple[Service, ...]:
        """Return the services on the house's list."""
        return tuple(one for one in self.known if one.is_offered)

    @property
    def ids(self) -> tuple[str, ...]:
        """Return the ids, in the sequence of the day."""
        return tuple(one.id for one in self.known)

    def find(self, service: str) -> Service | None:
        """Return a service by its id; None where the house has none such."""
        return next((one for one in self.known if one.id == service), None)

    def named(self, typed: str) -> Service | None:
        """Return the service that is typed by a name or its id, accents, marks and capitals let pass; None for none.

        One on the list goes before one that is off it, and a name before an id.
        """
        asked = _plain(typed)
        found = [one for one in self.known if asked in (_plain(name) for _, name in one.names)]
        found += [one for one in self.known if asked == _plain(one.id)]
        return next((one for one in found if one.is_offered), found[0] if found else None)

    def word(self, service: str) -> Text:
        """Return what a service is called within a sentence."""
        found = self.find(service)
        return found.title if found else service

    def heading(self, service: str) -> Text:
        """Return what a service is called where its name begins a line."""
        found = self.find(service)
        return found.heading if found else service

    def in_words(self) -> Text:
        """Return every service on the list by its word, in the sequence of the day."""
        return services_in_words(self.offered)

    def sequence(self, service: str) -> tuple[int, str]:
        """Return what services are sorted by: their place in the day; those that are none come last, by id."""
        ids = self.ids
        return (ids.index(service) if service in ids else len(ids), service)

    def usual_hours(self, service: str) -> tuple[time, time]:
        """Return from when to when a service usually runs; one that is none like the day's last."""
        found = self.find(service) or self.known[-1]
        return found.opens, found.closes

    def earliest(self, service: str) -> time:
        """Return before which hour nobody has worked at a service."""
        found = self.find(service)
        return found.earliest if found else time.min

    def among(self, ids: Iterable[str]) -> tuple[Service, ...]:
        """Return the services with these ids, in the sequence of the day; an id that is none is passed over."""
        wanted = set(ids)
        return tuple(one for one in self.known if one.id in wanted)

    def at(self, closes: Mapping[str, datetime], at: datetime) -> Service | None:
        """Return which of a day's services to show at a moment: the one that runs, else the next, else the day's last.

        *closes* says when each ends. One runs to the minute before it closes. None where the day has no service.
        """
        held = self.among(closes)
        to_come = [service for service in held if at < closes[service.id]]
        return to_come[0] if to_come else held[-1] if held else None


THE_THREE = HouseServices()


def _plain(text: str) -> str:
    return plain(text.replace("_", " ").replace("-", " "))


def services_in_words(services: Iterable[Service]) -> Text:
    """Return services by their words: breakfast, lunch and dinner."""
    told = [one.title for one in services]
    if len(told) < 2:
        return joined(told)
    return message("{first} and {last}", first=joined(told[:-1], ", "), last=told[-1])


def day_served(now: datetime) -> date:
    """Return the day of what was served last, on the kitchen's own clock: a night belongs to the day before it."""
    is_night = now.time() < NIGHT_ENDS
    return now.date() - timedelta(days=is_night)
