"""What a change of the week's services would do to the services to come, before it is entered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.actions.covering import ServiceCover, days_planned, planned_on, services_with
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.weeks_set import weeks_after
from trainer.kitchen.book import canonical, digest_of
from trainer.kitchen.nights import PlanPublished
from trainer.kitchen.planned import LOOK_AHEAD, Planned
from trainer.kitchen.technique import Content
from trainer.kitchen.week import Week, week_of


@dataclass(frozen=True, slots=True)
class NotHeld:
    """A service that somebody is planned at and that would not be held; `plan` is None where only rows say so."""

    on: date
    service: str
    planned: tuple[Planned, ...]
    plan: PlanPublished | None


@dataclass(frozen=True, slots=True)
class ServicesPreview:
    """What a change does in the coming days: services that hold no longer, or hold then, or are no longer held.

    `nobody_for` are stations the services need and nobody is cleared for on its `first` day, as things stand.
    """

    no_longer: tuple[ServiceCover, ...]
    then: tuple[ServiceCover, ...]
    not_held: tuple[NotHeld, ...]
    first: date
    nobody_for: tuple[str, ...]


def change_mark(before: Mapping[str, Any], told: Mapping[str, Any], later: Iterable[Mapping[str, Any]]) -> str:
    """Return what stands for a change as it was shown: from what, to what, and what is set for later."""
    shown = {"before": dict(before), "told": dict(told), "later": [dict(body) for body in later]}
    return digest_of(canonical(shown).encode())


def services_preview(
    k: Kitchen, told: Mapping[str, Any], today: date, content: Content | None = None
) -> ServicesPreview:
    """Return what a change of the services would do to those planned in the first 14 days, as long as it counts."""
    week = week_of("", today, told)
    first = max(today, week.since)
    ends = next((body["since"] for body in weeks_after(k, week.since)), f"{date.max}")
    days = [on for on in days_planned(k, first, first + LOOK_AHEAD) if on.isoformat() < ends]
    pairs = [pair for on in days if _is_touched(k, on, week) for pair in services_with(k, on, week, content)]
    held = [(old, new) for old, new in pairs if week.needs(new.on, new.service.id) is not None]
    return ServicesPreview(
        tuple(new for old, new in held if old.cover.holds and not new.cover.holds),
        tuple(new for old, new in held if new.cover.holds and not old.cover.holds),
        tuple(one for on in days for one in _not_held(k, on, week)),
        first,
        tuple(_nobody_for(k, week, first)),
    )


def _is_touched(k: Kitchen, on: date, week: Week) -> bool:
    """Return whether some service planned on a day would need other hands."""
    now = k.progress().nights.week(on, on, on)
    return any(week.needs(on, one.service) != (now.needs(on, one.service) if now else ()) for one in planned_on(k, on))


def _not_held(k: Kitchen, on: date, week: Week) -> Iterator[NotHeld]:
    """Yield the services of a day at which somebody is planned, held now and not with the change."""
    nights, planned = k.progress().nights, planned_on(k, on)
    now = nights.week(on, on, on)
    for service in dict.fromkeys(one.service for one in planned):
        was_held = now is None or now.needs(on, service) is not None
        if was_held and week.needs(on, service) is None:
            here = tuple(one for one in planned if one.service == service)
            yield NotHeld(on, service, here, nights.plan(on, on, on))


def _nobody_for(k: Kitchen, week: Week, on: date) -> Iterator[str]:
    """Yield the stations that some service needs and nobody is cleared for on a day."""
    needs = [*(need for one in week.weekly for need in one.needs), *(need for one in week.days for need in one.needs)]
    cleared = {cell.station for row in k.board(on).rows for cell in row.clearances if cell.is_cleared}
    yield from (
        station for station in dict.fromkeys(one for need in needs for one in need.stations) if station not in cleared
    )
