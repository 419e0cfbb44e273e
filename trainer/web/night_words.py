"""Entries about services and plans in words: what the house asks for, who was planned, who stood."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from trainer.kitchen.disparities import disparity_word
from trainer.kitchen.nights import place_of
from trainer.kitchen.spans import EVERY_WEEKDAY
from trainer.messages import Text, joined, message, plural
from trainer.web.filters import weekday

if TYPE_CHECKING:
    from trainer.actions.training import Training
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "services_set": message("Services set"),
    "plan_published": message("Plan published"),
    "service_stood": message("Service closed"),
}


def _day(text: str) -> Text:
    return weekday(date.fromisoformat(text))


def _services(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return from when, and each service with its weekday, its hours and the hands it needs."""
    return [
        message("From {day} on", day=_day(body["since"])),
        *(hours_line(one, naming) for one in body["weekly"]),
        *(one_day_line(own, naming) for own in body["days"]),
    ]


def hours_line(one: Mapping[str, Any], naming: Naming) -> Text:
    """Return one service of a weekday, its hours and the hands it needs."""
    return message(
        "{weekday}, {service} {opens} to {closes}, {guests} guests: {needs}",
        weekday=EVERY_WEEKDAY[one["weekday"] - 1],
        service=naming.service(one["service"]),
        opens=one["opens"],
        closes=one["closes"],
        guests=one["guests"],
        needs=_needs(one["needs"], naming),
    )


def one_day_line(own: Mapping[str, Any], naming: Naming) -> Text:
    """Return a service of a day that is not like its weekday."""
    needs = message("closed") if own.get("closed") else _needs(own["needs"], naming)
    service = naming.service(own["service"])
    return message("{day}, {service}: {needs}", day=_day(own["day"]), service=service, needs=needs)


def _needs(needs: Iterable[Mapping[str, Any]], naming: Naming) -> Text:
    """Return the hands of a service; stations one hand holds together are joined by a plus."""
    told = [f"{' + '.join(map(naming.station, need['stations']))} {need['hands']}" for need in needs]
    return joined(told, ", ") if told else message("no hands")


def _plan(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the days, and why anybody runs a station they are not cleared for. The places are on the plan's page."""
    days = message("{first} to {last}", first=_day(body["from"]), last=_day(body["to"]))
    lines: list[Text] = [
        message(
            "{cook}, {station}, {service} on {day}, despite what is missing: {reason}",
            cook=naming.person(one["cook"]),
            station=naming.station(one["station"]),
            service=naming.service(one["service"]),
            day=_day(one["day"]),
            reason=one["reason"],
        )
        for one in body["despite"]
    ]
    return [days, *lines, *(message("Replaces entry {entry}", entry=naming.entry(one)) for one in body["replaces"])]


def _stood(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which service, who stood where, and what spoke against it."""
    service = naming.service(body["service"])
    head = message("{service}, as planned", service=service) if body["as_planned"] else service
    guests = [plural("{number} guest", "{number} guests", body["guests"])] if body["guests"] is not None else []
    return [
        joined([head, *guests], ", "),
        *(place_words(one, naming) for one in body["stood"]),
        *(against_words(one, naming) for one in body["disparities"]),
    ]


def place_words(told: Mapping[str, Any], naming: Naming) -> Text:
    """Return who stood where: ran the station, or trailed."""
    place = place_of({"day": "2026-01-01", "service": "", **told})
    cook, station = naming.person(place.cook), naming.station(place.station)
    if place.runs:
        return message("{cook} at {station}", cook=cook, station=station)
    if place.beside:
        beside = naming.person(place.beside)
        return message("{cook} trails at {station} beside {beside}", cook=cook, station=station, beside=beside)
    return message("{cook} trails at {station}", cook=cook, station=station)


def against_words(one: Mapping[str, Any], naming: Naming) -> Text:
    """Return what spoke against one place, and the reason given."""
    state = disparity_word(one["state"])
    if not one["cook"]:
        return message("{state}: {reason}", state=state, reason=one["reason"])
    return message(
        "{cook} at {station}: {state}. {reason}",
        cook=naming.person(one["cook"]),
        station=naming.station(one["station"]),
        state=state,
        reason=one["reason"],
    )


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "services_set": _services,
    "plan_published": _plan,
    "service_stood": _stood,
}


def why_trained(one: Training, names: Mapping[str, str], stations: Mapping[str, str]) -> Text:
    """Return the service that shows what a training is for, and without whom it would be short there."""
    found = {
        "day": weekday(one.service.on),
        "service": one.service.service.title,
        "station": stations.get(one.station, one.station),
    }
    if not one.without:
        return message("Short at {service} on {day}: {station} has nobody left.", **found)
    cook = names.get(one.without, one.without)
    return message("Without {cook}, {station} has nobody left at {service} on {day}.", cook=cook, **found)
