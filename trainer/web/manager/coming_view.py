"""A station's coming 90 days in words: where it is thin or breaks, and what turns on which day; and its strip."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from markupsafe import Markup

from trainer.kitchen.coming_days import DAYS, Stretch, Strip, Turn
from trainer.kitchen.requirements import Requirement
from trainer.kitchen.spans import in_short
from trainer.messages import Text, joined, message
from trainer.web.entry_words import Naming
from trainer.web.manager.strip import strip_drawn

LOST: dict[str, Text] = {
    "practice": message("Out of practice."),
    "roster": message("Leaves the kitchen."),
    "stood down": message("Off the station."),
}
HEADING = message("The coming {days} days", days=DAYS)


@dataclass(frozen=True, slots=True)
class TurnDay:
    """A day on which the count of a station turns: the day with the count from then on, and a line for each cook."""

    head: Text
    lines: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class ComingDays:
    """A station's strip, where it is thin or breaks in sentences, and the days it turns, numbered as on the strip."""

    svg: Markup
    heading: Text
    lines: tuple[Text, ...]
    days: tuple[TurnDay, ...]


def coming_view(strip: Strip, title: Text, naming: Naming) -> ComingDays:
    """Return a station's coming days as a page shows them."""
    lines = _lines(strip.stretches)
    heading = message("{station}: the coming {days} days", station=title, days=DAYS)
    days = tuple(
        TurnDay(_head(day, strip.stretches), _turn_lines(turns, naming))
        for day, turns in groupby(strip.turns, key=lambda turn: turn.on)
    )
    return ComingDays(strip_drawn(strip, heading, joined(lines)), HEADING, lines, days)


def _lines(stretches: Sequence[Stretch]) -> tuple[Text, ...]:
    """Return a sentence for each stretch that is thin or breaks; one alone where there is none."""
    found = tuple(_line(one) for one in stretches if one.level != "enough")
    return found or (message("On each day more are cleared than it needs."),)


def _line(one: Stretch) -> Text:
    if not one.cleared:
        return message("No one cleared {days}.", days=_days(one))
    words = message("{cleared} cleared, {need} needed", cleared=one.cleared, need=one.need)
    if one.level == "short":
        return message("Too few {days}: {words}.", days=_days(one), words=words)
    return message("Thin {days}: {words}.", days=_days(one), words=words)


def _days(one: Stretch) -> Text:
    if one.since == one.until:
        return message("on {day}", day=_day(one.since))
    return message("from {first} to {last}", first=_day(one.since), last=_day(one.until))


def _day(day: date) -> Text:
    return in_short(day, with_year=True)


def _head(day: date, stretches: Iterable[Stretch]) -> Text:
    cleared = next(one.cleared for one in stretches if one.since <= day <= one.until)
    if not cleared:
        return message("{day}: no one cleared", day=_day(day))
    return message("{day}: {cleared} cleared", day=_day(day), cleared=cleared)


def _turn_lines(turns: Iterable[Turn], naming: Naming) -> tuple[Text, ...]:
    """Return who comes to be cleared or is no longer, and why; those with the same reason in one line."""
    alike: dict[tuple[bool, tuple[str, ...]], list[Turn]] = {}
    for turn in turns:
        alike.setdefault((turn.is_gain, tuple(one.what for one in turn.missing)), []).append(turn)
    return tuple(_turn_words(found, naming) for found in alike.values())


def _turn_words(turns: Sequence[Turn], naming: Naming) -> Text:
    first, names = turns[0], joined([naming.person(turn.cook) for turn in turns], ", ")
    gained, lost = message("From then on: {names}.", names=names), message("No longer: {names}.", names=names)
    return joined([gained if first.is_gain else lost, _why(first, naming)])


def _why(turn: Turn, naming: Naming) -> Text:
    """Return what ends or begins on the day, each kind in one sentence."""
    kinds: dict[str, list[Requirement]] = {}
    for one in turn.missing:
        kinds.setdefault(one.what.partition(":")[0], []).append(one)
    say = _gained if turn.is_gain else _lost
    return joined(dict.fromkeys(say(kind, found, naming) for kind, found in kinds.items()))


def _lost(kind: str, found: Sequence[Requirement], naming: Naming) -> Text:
    """Return what a cook lacks from a day on."""
    named = _named(kind, found, naming)
    if kind == "quiz":
        return message("Questions to answer again: {techniques}.", techniques=named)
    if kind == "practical":
        return message("To be watched again: {techniques}.", techniques=named)
    if kind == "reading":
        return message("To be read again: {techniques}.", techniques=named)
    if kind == "certificate":
        return message("Paper ends: {papers}.", papers=named)
    return LOST.get(kind, message("The rules of that day."))


def _gained(kind: str, found: Sequence[Requirement], naming: Naming) -> Text:
    """Return what a cook has from a day on."""
    if kind in ("quiz", "practical", "reading", "certificate"):
        return message("Counts from then on: {what}.", what=_named(kind, found, naming))
    return found[0].text or message("The rules of that day.")


def _named(kind: str, found: Iterable[Requirement], naming: Naming) -> Text:
    name = naming.certificate if kind == "certificate" else naming.technique
    return joined([name(one.what.partition(":")[2]) for one in found], ", ")
