"""How dates, times, names and amounts are written on a page; the one module templates format through."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from trainer.kitchen.limit_text import InBoth, InOne, ends_text, limit_text, shortest_text
from trainer.kitchen.practical import WORDS
from trainer.kitchen.spans import how_long, in_short, with_weekday
from trainer.kitchen.state_words import state_word
from trainer.kitchen.technique import Limit
from trainer.messages import Message, Text, joined, message
from trainer.web import guard, reading
from trainer.web.spoken import spoken


def day(value: date) -> Text:
    """Return a date without a digit order to guess: 3 Nov 2026."""
    return in_short(value, with_year=True)


def weekday(value: date) -> Text:
    """Return a date with its day of the week: Tue 3 Nov 2026."""
    return with_weekday(value)


def local(value: datetime) -> datetime:
    """Return a moment on the kitchen's own clock."""
    return value.astimezone(ZoneInfo(guard.kitchen().file.settings.timezone))


def clock_time(value: datetime) -> str:
    """Return the time of day on the kitchen's own clock: 16:42."""
    return f"{local(value):%H:%M}"


def clock_second(value: datetime) -> str:
    """Return the time of day to the second: 16:42:10."""
    return f"{local(value):%H:%M:%S}"


def moment(value: datetime) -> Text:
    """Return date and time on the kitchen's own clock: 3 Nov 2026, 16:42."""
    return joined([day(local(value).date()), clock_time(value)], ", ")


def waited(since: datetime) -> Message:
    """Return how long a person has waited by now."""
    return how_long(since, guard.now())


def amount(quantity: Any) -> Text:  # noqa: ANN401 - a Quantity, given by a template
    """Return a quantity in both unit systems, the reader's own first."""
    return InBoth(reading.now().units).amount(quantity)


def line(limit: Limit) -> Text:
    """Return a measured limit in words, in both unit systems: at or above 57 °C (135 °F)."""
    return limit_text(limit, reading.now().units)


def own_label(limit: Limit) -> Text:
    """Return a measured line in the reader's own units alone, as short as it can be: 176–185 °F."""
    return shortest_text(limit, InOne(reading.now().units))


def aim(limit: Limit) -> Text:
    """Return the one number of a measured line to work to: its target, or else its ends."""
    return amount(limit.target) if limit.target is not None else line(limit)


def stray(limit: Limit) -> Text:
    """Return how far from its target a measured line lets the work stray; empty where it has no target or ends."""
    if limit.target is None or limit.lowest is None or limit.highest is None:
        return ""
    return ends_text(limit, InBoth(reading.now().units))


def clock_span(seconds: int) -> str:
    """Return a duration as a timer shows it: 90 seconds is 1 min 30 s."""
    minutes, rest = divmod(seconds, 60)
    return " ".join(part for part in (f"{minutes} min" if minutes else "", f"{rest} s" if rest else "") if part)


KNOWN = {
    "read": message("read"),
    "computed": message("worked out"),
    "from memory": message("from memory"),
    "common practice": message("common practice"),
    "house": message("house"),
}


def known(word: str) -> Text:
    """Return how a source is known, to be said in any language."""
    return KNOWN.get(word, word)


def judged(word: str) -> Text:
    """Return the word for a point or a practical, to be said in any language."""
    return WORDS.get(word, word)


def listed(parts: Iterable[str], by: str = ", ") -> Text:
    """Return several texts as one: milk, egg, wheat."""
    return joined(parts, by)


def capital(words: str) -> str:
    """Return words in the reader's language with a capital first letter."""
    told = str(reading.said(words))
    return told[:1].upper() + told[1:]


_UNITS = "lb|oz|fl|g|kg|gal|qt|mL|L|mm|cm|in|min|s|h|ppm|days?|hours?|minutes?|seconds?|días?|horas?|minutos?|segundos?"
_PARTED = re.compile(rf"(?<=[0-9]) (?=[%°]|[0-9]+/[0-9]|(?:{_UNITS})\b)")
NO_BREAK = "\N{NO-BREAK SPACE}"


def unbroken(words: str) -> str:
    """Return a text in which no line ends between a number and its unit, or inside a number like 1 1/2."""
    return _PARTED.sub(NO_BREAK, str(reading.said(words)))


def to_say(parts: Iterable[Any], language: str = "") -> str:
    """Return printed texts as a voice should say them, in the reader's language or the one they are in."""
    told = [reading.plainly(part, language) for part in parts]
    return spoken(told, lambda words: reading.plainly(words, language))


FILTERS: dict[str, Callable[..., Any]] = {
    "said": reading.said,
    "listed": listed,
    "capital": capital,
    "state_word": state_word,
    "judged": judged,
    "known": known,
    "day": day,
    "weekday": weekday,
    "clock_second": clock_second,
    "moment": moment,
    "line": line,
    "aim": aim,
    "amount": amount,
    "own_label": own_label,
    "stray": stray,
    "clock_span": clock_span,
    "unbroken": unbroken,
    "to_say": to_say,
}
