"""The services of the coming two weeks: which hold, which do not and why, and what becomes of them without somebody."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from flask import Blueprint, Response, request, url_for

from trainer.actions.absences import Absence, absences_of, not_replaced, services_ahead
from trainer.actions.covering import ServiceCover
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.filters import weekday
from trainer.web.manager.cover_view import Called, bands
from trainer.web.night.stood_words import StoodWords, stood_words
from trainer.web.page import Page, show

pages = Blueprint("ahead", __name__)
DAYS = 14


@dataclass(frozen=True, slots=True)
class ServiceAhead:
    """One service to come: its day, and in words whether it holds; `is_gap` where it does not."""

    when: Text
    words: Text
    lines: tuple[Text, ...]
    is_gap: bool


@dataclass(frozen=True, slots=True)
class IfGone:
    """One service without the cook asked about, in words; `is_gap` where it would not hold even with a call."""

    when: Text
    words: Text
    is_gap: bool


@dataclass(frozen=True, slots=True)
class CookOn:
    """A cook who is on at some service to come."""

    cook: str
    name: str
    is_asked: bool


@dataclass(frozen=True, kw_only=True)
class AheadPage(Page):
    """Every service to come, what they come to in one sentence, and what becomes of them without one cook.

    `gone` is empty until somebody is asked about; `gone_words` says it in one sentence.
    """

    template: ClassVar[str] = "night/ahead.html"
    told: Text
    stood: StoodWords | None
    services: tuple[ServiceAhead, ...]
    cooks: tuple[CookOn, ...]
    gone_words: Text
    gone: tuple[IfGone, ...]
    own_url: str


@pages.get("/nights")
@guard.needs(guard.EITHER)
def ahead() -> Response:
    """Show the coming services, and with `ill` what becomes of them without that cook."""
    k = guard.kitchen()
    services = services_ahead(k, guard.today(), DAYS, reading.content())
    names = {cook: str(person.name) for cook, person in k.people().items()}
    called = Called(names, {station.id: station.title for station in reading.content().stations.values()})
    asked = request.args.get("ill", "")
    absences = absences_of(services, asked)
    on = dict.fromkeys(cook for found in services for cook in found.can)
    shown = [_shown(found, called) for found in services]
    return show(
        AheadPage(
            title=message("The coming {days} days", days=DAYS),
            told=_in_short(services, [not_replaced(found) for found in services]),
            stood=stood_words(),
            services=tuple(shown),
            cooks=tuple(CookOn(cook, name, cook == asked) for cook, name in names.items() if cook in on),
            gone_words=_without_words(absences, names.get(asked, "")) if asked in on else "",
            gone=tuple(_gone(one, called) for one in absences),
            own_url=url_for(".ahead"),
        )
    )


def _in_short(services: Sequence[ServiceCover], alone: Iterable[tuple[str, ...]]) -> Text:
    """Return how many services there are, and how many do not hold, hold with moves, or hang on one person."""
    gaps = sum(not found.cover.holds for found in services)
    moved = sum(found.cover.holds and bool(found.cover.moves) for found in services)
    thin = sum(bool(cooks) for cooks in alone)
    parts: list[Text] = [plural("{number} service is planned.", "{number} services are planned.", len(services))]
    if gaps:
        parts.append(plural("{number} does not hold.", "{number} do not hold.", gaps))
    if moved:
        parts.append(plural("{number} holds once somebody moves.", "{number} hold once somebody moves.", moved))
    if thin:
        parts.append(plural("{number} hangs on one person.", "{number} hang on one person.", thin))
    return joined(parts) if services else message("Nobody is planned in the coming {days} days.", days=DAYS)


def _shown(found: ServiceCover, called: Called) -> ServiceAhead:
    (band,) = bands([found], called)
    alone = not_replaced(found)
    thin = [message("Nobody could stand in for {cooks}.", cooks=called.everybody(alone))] if alone else []
    return ServiceAhead(_when(found), band.words, (*band.lines, *thin), band.is_black)


def _when(found: ServiceCover) -> Text:
    day: date = found.on
    return weekday(day)


def _without_words(absences: Sequence[Absence], name: str) -> Text:
    """Return in one sentence what becomes of the services a cook is on at, without that cook."""
    counts = {outcome: sum(one.outcome == outcome for one in absences) for outcome in ("with a call", "does not hold")}
    held = len(absences) - sum(counts.values())
    parts: list[Text] = [
        plural("Without {name}: {number} service.", "Without {name}: {number} services.", len(absences), name=name)
    ]
    if held:
        parts.append(plural("{number} holds by itself.", "{number} hold by themselves.", held))
    if counts["with a call"]:
        parts.append(plural("{number} holds with a call.", "{number} hold with a call.", counts["with a call"]))
    if counts["does not hold"]:
        parts.append(plural("{number} does not hold.", "{number} do not hold.", counts["does not hold"]))
    return joined(parts)


def _gone(one: Absence, called: Called) -> IfGone:
    return IfGone(
        joined([_when(one.service), one.service.service.title], ", "),
        _gone_words(one, called),
        one.outcome == "does not hold",
    )


def _gone_words(one: Absence, called: Called) -> Text:
    moves = joined(
        [
            message("{cook} to {station}", cook=called.everybody([move.cook]), station=called.places([move.stands]))
            for move in one.seated.moves
        ],
        ", ",
    )
    calls = joined(
        [
            message("{cook} to {station}", cook=called.everybody([cook]), station=called.places([place]))
            for cook, place in one.calls
        ],
        ", ",
    )
    if one.outcome == "does not hold":
        short = [place.station for place in one.seated.stations if place.missing]
        return message("Does not hold: nobody for {stations}, not even with a call.", stations=called.places(short))
    told: list[Text] = (
        [message("Holds.")] if one.outcome == "holds" else [message("Holds with a call: {calls}.", calls=calls)]
    )
    return joined([*told, *([message("Moves: {moves}.", moves=moves)] if moves else [])])
