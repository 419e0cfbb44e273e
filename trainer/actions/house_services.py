"""The house's own services, changed by a manager: named, added, taken off the list, put back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from trainer.actions.kitchen_settings import change_settings
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import saved_before
from trainer.actions.signing_in import NOT_MANAGER, is_manager
from trainer.kitchen.book import LOCAL
from trainer.kitchen.entitlement import A_MANAGER
from trainer.kitchen.own_services import ServiceWanted, Wrong, with_listed, with_wanted
from trainer.kitchen.services import STANDARD, HouseServices, Service
from trainer.kitchen.spans import EVERY_WEEKDAY, in_words
from trainer.messages import Text, joined, message, translate
from trainer.store.catalogues import languages, translations


@dataclass(frozen=True, slots=True)
class Listing:
    """A service, by its id, to take off the house's list or to put back."""

    service: str
    is_offered: bool


Change = ServiceWanted | Listing


def change_services(k: Kitchen, *, by: str, changes: Sequence[Change], now: datetime, key: str) -> Outcome:
    """Return the saved `kitchen_set` after services were named, added, taken off or put back: all of it or nothing.

    By a manager, or at the machine itself. A service that the set week still holds is not taken off. One that is off is
    planned no more; what was planned, closed and signed goes on being read by its name.
    """
    if by != LOCAL and not is_manager(k, by, now):
        return Refused(NOT_MANAGER, A_MANAGER)
    with k.file.writing():
        before = saved_before(k, key, "kitchen_set", by)
        if before is not None:
            return before
        house = k.services
        for change in changes:
            changed = _changed(k, house, change, k.today(k.moment(now)))
            if isinstance(changed, Refused):
                return changed
            house = changed
        wanted = replace(k.file.settings, services=house)
        return change_settings(k, settings=wanted, now=now, key=key, by=by)


def _changed(k: Kitchen, house: HouseServices, change: Change, today: date) -> HouseServices | Refused:
    if isinstance(change, Listing):
        held = "" if change.is_offered else _held(k, house, change.service, today)
        if held:
            return Refused(held, message("Take it off these days first, in Services of the week."), "service")
        found = with_listed(house, change.service, is_offered=change.is_offered)
    else:
        found = with_wanted(house, change, words_of_program())
    return Refused(found.words, "", found.field) if isinstance(found, Wrong) else found


def words_of_program() -> Mapping[str, tuple[str, ...]]:
    """Return how the program calls the three services, in every language it speaks, by id."""
    return {one.id: tuple(translate(one.title, translations(tag)) for tag in languages()) for one in STANDARD}


def names_of(service: Service) -> Mapping[str, str]:
    """Return what a service is called in each language: by the house, else by the program."""
    return dict(service.names) or dict(zip(languages(), words_of_program()[service.id], strict=True))


def _held(k: Kitchen, house: HouseServices, service: str, today: date) -> Text:
    """Return on which weekdays and days the house holds a service from today on; "" where on none."""
    nights = k.progress().nights
    weeks = [
        nights.week(day, today, today) for day in (today, *(one.since for one in nights.weeks if one.since > today))
    ]
    weekdays = {one.weekday for week in weeks if week for one in week.weekly if one.service == service}
    days = {one.day for week in weeks if week for one in week.days if one.service == service and one.day >= today}
    told = [*(EVERY_WEEKDAY[number - 1] for number in sorted(weekdays)), *map(in_words, sorted(days))]
    if not told:
        return ""
    return message("{service} is held: {days}.", service=house.heading(service), days=joined(told, ", "))
