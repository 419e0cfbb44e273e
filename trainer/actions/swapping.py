"""The line of a day changed on the day: swaps made by the person in charge or a manager, and what was changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.covering import ServiceCover, services_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.planning import PlanWanted, plan_draft
from trainer.actions.saving import save
from trainer.kitchen.book import THE_BOOK, NewEntry
from trainer.kitchen.entitlement import Entitlement, Snapshot
from trainer.kitchen.nights import Place, PlanPublished, plan_text
from trainer.kitchen.spans import in_words
from trainer.kitchen.swaps import Move, Moved, moved_between, places_after
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class SwapsWanted:
    """A service of a day, and the moves as they were seen: other ones are not made in their place."""

    day: date
    service: str
    moves: tuple[Move, ...]


@dataclass(frozen=True, slots=True)
class Changed:
    """A change of a day's line: whose place, by whom, in which entry."""

    by: str
    entry: str
    moved: tuple[Moved, ...]


def in_charge_of(k: Kitchen, day: date) -> str:
    """Return who is in charge on a day, by its plan; "" where nobody is named."""
    plan = k.progress().nights.plan(day, day, day)
    return plan.in_charge.get(day, "") if plan else ""


def may_change_line(k: Kitchen, by: str, on: date, day: Snapshot) -> Entitlement:
    """Return whether a person may change the line of a day: a manager, and whoever is in charge, on the day itself."""
    charge = in_charge_of(k, on)
    if "manager" in day.roles(by) or (by == charge and on == day.on):
        return Entitlement(may=True)
    if by == charge:
        words = message("The person in charge changes the line on the day itself.")
        return Entitlement(False, words, message("Before that day a manager can do it."))
    named = message("{name} is in charge and can do it, or a manager.", name=day.name(charge)) if charge else ""
    words = message("You are not in charge on {day}.", day=in_words(on))
    return Entitlement(False, words, named or message("Nobody is named in charge: a manager can do it."))


def make_swaps(k: Kitchen, *, by: str, wanted: SwapsWanted, now: datetime, key: str) -> Outcome:
    """Return the saved `plan_published`: the plan of one day after the swaps, in place of the one before.

    The moves must be those the line still asks for. What else is planned that day stands as it did.
    """
    with k.file.writing():
        today = k.today(k.moment(now))
        deed = NewEntry("plan_published", now, THE_BOOK, by, _body(k, wanted, today), key)
        found = _cover_of(k, wanted)
        return save(k, deed, lambda day: _refusal(k, by, wanted, found, day))


def changes_of(k: Kitchen, day: date) -> tuple[Changed, ...]:
    """Return what was changed of a day's line by plans of that day alone, the latest first."""
    nights = k.progress().nights
    counting = [one for one in nights.ledger.counting(nights.plans, day, day) if one.covers(day)]
    found = []
    for number, plan in enumerate(counting):
        if plan.since == plan.until == day and number:
            moved = moved_between(_on(counting[number - 1].places, day), _on(plan.places, day))
            found += [Changed(plan.by, plan.entry, moved)] if moved else []
    return tuple(reversed(found))


def _on(places: Iterable[Place], day: date) -> tuple[Place, ...]:
    return tuple(place for place in places if place.day == day)


def _cover_of(k: Kitchen, wanted: SwapsWanted) -> ServiceCover | None:
    return next((one for one in services_of(k, wanted.day) if one.service.id == wanted.service), None)


def _refusal(k: Kitchen, by: str, wanted: SwapsWanted, found: ServiceCover | None, day: Snapshot) -> Refused | None:
    may = may_change_line(k, by, wanted.day, day)
    if not may.may:
        return Refused(may.reason, may.who_can)
    if wanted.day < day.on:
        words = message("{day} is over. A plan is published for today and days to come.", day=in_words(wanted.day))
        return Refused(words)
    if found is None or not wanted.moves or set(found.cover.moves) != set(wanted.moves):
        service = k.services.word(wanted.service)
        return Refused(message("The line for {service} has changed since you looked. Look again.", service=service))
    return None


def _body(k: Kitchen, wanted: SwapsWanted, today: date) -> dict[str, object]:
    """Return the plan of the day after the swaps."""
    day, plan = wanted.day, k.progress().nights.plan(wanted.day, today, today)
    places = _on(plan.places, day) if plan else plan_draft(k, PlanWanted(day, day), today).places
    after = places_after(places, wanted.service, wanted.moves)
    charge = {day: plan.in_charge[day]} if plan and day in plan.in_charge else {}
    away = [one for one in plan.away if one[1] <= day <= one[2]] if plan else []
    return {
        "from": day.isoformat(),
        "to": day.isoformat(),
        "plan": plan_text(after, charge, away),
        "despite": _despite(plan, after) if plan else [],
        "replaces": [plan.entry] if plan else [],
    }


def _despite(plan: PlanPublished, after: Iterable[Place]) -> list[dict[str, str]]:
    """Return the reasons that stand of places that did not change."""
    return [
        {
            "day": place.day.isoformat(),
            "service": place.service,
            "cook": place.cook,
            "station": place.station,
            "reason": plan.despite[place],
        }
        for place in after
        if place in plan.despite
    ]
