"""The week's services as they are typed into a file or a form: read, or the first thing wrong with value and rule."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date, time, timedelta
from itertools import combinations
from typing import Any

from trainer.kitchen.services import NIGHT_ENDS, HouseServices
from trainer.messages import Text, joined, message

MOST_GUESTS, MOST_HANDS = 10_000, 100
WEEKLY = frozenset({"weekday", "service", "opens", "closes", "guests", "needs"})
ONE_DAY = frozenset({"day", "service", "closed", "needs"})
TOP = frozenset({"since", "weekly", "days"})
WEEK = timedelta(days=7)


def wrong_week(told: object, stations: Collection[str], house: HouseServices) -> Text:
    """Return the first thing wrong with what is asked of the services: where, the value and the rule; "" if none.

    *told* is the body of a `services_set`: `since`, `weekly`, `days`.
    """
    return next(_problems(told, stations, house), "")


def _problems(told: object, stations: Collection[str], house: HouseServices) -> Iterator[Text]:
    if not isinstance(told, Mapping):
        yield message("The services are an object with “since”, “weekly” and “days”.")
        return
    yield from _unknown(told, TOP, "")
    yield from _not_a_day(told.get("since"), "since")
    seen: set[object] = set()
    weekly: list[tuple[str, Mapping[str, Any]]] = []
    for where, one in _each(told, "weekly"):
        if isinstance(one, str):
            yield message("{where}: each is an object.", where=where)
            continue
        yield from _wrong_hours(one, where, stations, house)
        yield from _twice(seen, (one.get("weekday"), one.get("service")), where)
        weekly.append((where, one))
    yield from _wrong_together(weekly, house)
    for where, one in _each(told, "days"):
        if isinstance(one, str):
            yield message("{where}: each is an object.", where=where)
            continue
        yield from _wrong_day(one, where, stations, house)
        yield from _twice(seen, (one.get("day"), one.get("service")), where)


def _wrong_together(weekly: Iterable[tuple[str, Mapping[str, Any]]], house: HouseServices) -> Iterator[Text]:
    """Yield services that close before they open, then those that overlap; each line is right by itself."""
    places = [(where, one) for where, one in weekly if _is_time(one.get("opens")) and _is_time(one.get("closes"))]
    for where, one in places:
        wrong = closes_too_late(one)
        if wrong:
            yield message("{where}: {problem}", where=where, problem=wrong)
    for one, other in overlaps(one for _, one in places):
        where = next(where for where, line in places if line is other)
        yield message("{where}: {problem}", where=where, problem=overlap_text(one, other, house))


def closes_too_late(one: Mapping[str, Any]) -> Text:
    """Return what is wrong with a service that closes by day and before it opens; "" where it ends in the night."""
    opens, closes = time.fromisoformat(one["opens"]), time.fromisoformat(one["closes"])
    if closes > opens or closes <= NIGHT_ENDS:
        return ""
    return message(
        "It opens at {opens} and would close at {closes}. One that goes on past midnight closes by {latest}.",
        opens=one["opens"],
        closes=one["closes"],
        latest=f"{NIGHT_ENDS:%H:%M}",
    )


def overlaps(weekly: Iterable[Mapping[str, Any]]) -> Iterator[tuple[Mapping[str, Any], Mapping[str, Any]]]:
    """Yield each two services that run at the same time; Sunday's night lies before Monday."""
    for one, other in combinations(weekly, 2):
        (begins, ends), (then, later) = _minutes(one), _minutes(other)
        if any(begins < later + turn and then + turn < ends for turn in (-WEEK, timedelta(), WEEK)):
            yield one, other


def overlap_text(one: Mapping[str, Any], other: Mapping[str, Any], house: HouseServices) -> Text:
    """Return that two services run at the same time."""
    return message(
        "{service}, {opens} to {closes}, and {other}, {begins} to {ends}, overlap. One closes before the next opens.",
        service=house.word(one["service"]),
        opens=one["opens"],
        closes=one["closes"],
        other=house.word(other["service"]),
        begins=other["opens"],
        ends=other["closes"],
    )


def _minutes(one: Mapping[str, Any]) -> tuple[timedelta, timedelta]:
    """Return when a service begins and ends, from the week's first midnight."""
    opens, closes = time.fromisoformat(one["opens"]), time.fromisoformat(one["closes"])
    begins, ends = (timedelta(days=one["weekday"] - 1, hours=at.hour, minutes=at.minute) for at in (opens, closes))
    return begins, ends + timedelta(days=closes <= opens)


def _each(told: Mapping[str, Any], name: str) -> Iterator[tuple[str, Any]]:
    """Yield every line of a list with where it stands; one that is no object as text."""
    lines = told.get(name)
    if not isinstance(lines, list):
        yield name, ""
        return
    for number, one in enumerate(lines):
        yield f"{name}[{number}]", one if isinstance(one, Mapping) else ""


def _wrong_hours(one: Mapping[str, Any], where: str, stations: Collection[str], house: HouseServices) -> Iterator[Text]:
    yield from _unknown(one, WEEKLY, where)
    if not _is_whole(one.get("weekday"), 1, 7):
        yield message(
            "{where}.weekday: “{value}”. Monday is 1, Sunday 7.", where=where, value=_short(one.get("weekday"))
        )
    yield from _wrong_service(one, where, house)
    for name in ("opens", "closes"):
        if not _is_time(one.get(name)):
            yield message(
                "{where}: “{value}” is no time. Write it like 17:30.",
                where=f"{where}.{name}",
                value=_short(one.get(name)),
            )
    if not _is_whole(one.get("guests"), 0, MOST_GUESTS):
        yield message(
            "{where}.guests: “{value}”. A whole number up to {most}.",
            where=where,
            value=_short(one.get("guests")),
            most=MOST_GUESTS,
        )
    yield from _wrong_needs(one.get("needs"), where, stations)


def _wrong_day(one: Mapping[str, Any], where: str, stations: Collection[str], house: HouseServices) -> Iterator[Text]:
    yield from _unknown(one, ONE_DAY, where)
    yield from _not_a_day(one.get("day"), f"{where}.day")
    yield from _wrong_service(one, where, house)
    if one.get("closed") not in (None, True, False) or bool(one.get("closed")) == ("needs" in one):
        yield message("{where}: a day has either “closed” true or its own “needs”.", where=where)
    elif not one.get("closed"):
        yield from _wrong_needs(one.get("needs"), where, stations)


def _wrong_service(one: Mapping[str, Any], where: str, house: HouseServices) -> Iterator[Text]:
    if one.get("service") not in [known.id for known in house.offered]:
        yield message(
            "{where}.service: “{value}”. There are: {known}.",
            where=where,
            value=_short(one.get("service")),
            known=joined([known.id for known in house.offered], ", "),
        )


def _wrong_needs(needs: object, where: str, stations: Collection[str]) -> Iterator[Text]:
    if not isinstance(needs, list):
        yield message("{where}.needs: a list of “stations” and “hands”.", where=where)
        return
    for number, need in enumerate(needs):
        place = f"{where}.needs[{number}]"
        held = need.get("stations") if isinstance(need, Mapping) else None
        if not isinstance(held, list) or not held or not all(isinstance(one, str) for one in held):
            yield message("{where}: a list of “stations” and “hands”.", where=place)
            continue
        for station in held:
            if station not in stations:
                yield message(
                    "{where}: there is no station “{value}”. There are: {known}.",
                    where=place,
                    value=_short(station),
                    known=joined(stations, ", "),
                )
        if len(set(held)) < len(held):
            yield message("{where}: a station stands there twice.", where=place)
        if not _is_whole(need.get("hands"), 1, MOST_HANDS):
            yield message(
                "{where}.hands: “{value}”. A whole number from 1 to {most}.",
                where=place,
                value=_short(need.get("hands")),
                most=MOST_HANDS,
            )
        yield from _unknown(need, frozenset({"stations", "hands"}), place)


def _twice(seen: set[object], key: tuple[object, object], where: str) -> Iterator[Text]:
    told = tuple(map(str, key))
    if told in seen:
        yield message("{where}: “{value}” stands there twice.", where=where, value=" ".join(told)[:40])
    seen.add(told)


def _unknown(one: Mapping[str, Any], known: Collection[str], where: str) -> Iterator[Text]:
    for name in one:
        if name not in known:
            yield message(
                "{where}: “{value}” is not known. Known: {known}.",
                where=where or "services",
                value=_short(name),
                known=joined(sorted(known), ", "),
            )


def _not_a_day(value: object, where: str) -> Iterator[Text]:
    try:
        date.fromisoformat(value if isinstance(value, str) and len(value) == 10 else "")
    except ValueError:
        yield message(
            "{where}: “{value}” is no day. Write year, month, day, like 2026-11-03.", where=where, value=_short(value)
        )


def _is_time(value: object) -> bool:
    try:
        time.fromisoformat(value if isinstance(value, str) and len(value) == 5 else "")
    except ValueError:
        return False
    return True


def _is_whole(value: object, least: int, most: int) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and least <= value <= most


def _short(value: object) -> str:
    return str(value)[:40]
