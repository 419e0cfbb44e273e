"""A measured limit in words: one wording for every page, for the content and for the command line.

    at or below 41 °F (5 °C)     at or above 57 °C (135 °F)     at most 2 hours     at least 15 seconds
    from 4.3 to 4.7 oz           4.5 oz (128 g), give or take 0.2 oz (6 g)          within 2 °F (1 °C)

The limit is the value; who prints it says how an amount is written: in both systems of measures, as in a sentence, or
in one, as in large figures beside a reading. Both ends of a limit are inside it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Protocol

from trainer.kitchen.reading_units import System
from trainer.kitchen.technique import Limit
from trainer.messages import Message, Text, joined, message, plural
from trainer.recipe_math.printing import (
    Measure,
    as_given,
    both_ways,
    in_a_row,
    measures,
    measures_as_given,
    number_text,
)
from trainer.recipe_math.quantity import TEMPERATURE, TEMPERATURE_DIFFERENCE, Quantity
from trainer.recipe_math.units import word_of

HOUR, DAY = 3600, 86_400
LONGEST_IN_HOURS = 48 * HOUR
WHOLE_GRAMS = 10
OTHER: dict[System, System] = {"us": "metric", "metric": "us"}
TWO_SYSTEMS = frozenset({"mass", "volume", "length", TEMPERATURE})


class AmountWriter(Protocol):
    """How the amounts of a limit are written."""

    def amount(self, quantity: Quantity) -> Text:
        """Return one amount."""
        ...

    def ends(self, lowest: Quantity, highest: Quantity) -> tuple[Text, Text]:
        """Return the two ends of a limit, as they stand in one sentence."""
        ...


def limit_text(limit: Limit, first: System = "us") -> Text:
    """Return a measured limit in words, in both systems of measures; one with a target says what it may give or take.

    Nothing where it has no value.
    """
    write, target = InBoth(first), limit.target
    if target is None or limit.highest is None:
        return ends_text(limit, write)
    room = write.room(limit.highest - target, target)
    return message("{target}, give or take {room}", target=write.amount(target), room=room)


def ends_text(limit: Limit, write: AmountWriter) -> Text:
    """Return where a measured limit ends, in words, whatever it aims at; its target where it has no ends."""
    low, high = limit.lowest, limit.highest
    if low is not None and high is not None:
        lowest, highest = write.ends(low, high)
        return message("from {lowest} to {highest}", lowest=lowest, highest=highest)
    if high is not None:
        return _at_most(high, write.amount(high))
    if low is not None:
        return _at_least(low, write.amount(low))
    return write.amount(limit.target) if limit.target is not None else ""


def label_text(limit: Limit, first: System = "us") -> Text:
    """Return a measured line as short as a drawing's label: 2 fl oz (59 mL), 176–185 °F (80–85 °C), 2–3 min.

    A target is told without what it may give or take; a line with one end alone is told in words.
    """
    end, is_closed = limit.target or limit.highest or limit.lowest, None not in (limit.lowest, limit.highest)
    if end is None or end.unit.dimension == TEMPERATURE_DIFFERENCE or (limit.target is None and not is_closed):
        return limit_text(limit, first)
    own, other = (shortest_text(limit, InOne(system)) for system in (first, OTHER[first]))
    return joined([own, joined(["(", other, ")"], "")]) if end.unit.dimension in TWO_SYSTEMS else own


def shortest_text(limit: Limit, write: InOne) -> Text:
    """Return the target of a line, both its ends with a stroke between, or its one end in words."""
    if limit.target is not None:
        return write.amount(limit.target)
    if limit.lowest is None or limit.highest is None:
        return ends_text(limit, write)
    return joined(write.ends(limit.lowest, limit.highest), "–")


def _at_most(highest: Quantity, amount: Text) -> Message:
    """Return a highest value in words: a tool is within, a temperature at or below, the rest at most."""
    if highest.unit.dimension == TEMPERATURE_DIFFERENCE:
        return message("within {highest}", highest=amount)
    if highest.unit.dimension == TEMPERATURE:
        return message("at or below {highest}", highest=amount)
    return message("at most {highest}", highest=amount)


def _at_least(lowest: Quantity, amount: Text) -> Message:
    if lowest.unit.dimension == TEMPERATURE:
        return message("at or above {lowest}", lowest=amount)
    return message("at least {lowest}", lowest=amount)


@dataclass(frozen=True, slots=True)
class InBoth:
    """Amounts in both systems of measures, one of them in front; times in words, as in a sentence."""

    first: System = "us"

    def amount(self, quantity: Quantity) -> Text:
        """Return an amount both ways; a time in days, hours, minutes and seconds."""
        if quantity.unit.dimension == "duration":
            return _time(quantity)
        if quantity.unit.dimension == TEMPERATURE_DIFFERENCE:
            return self._degrees_apart(quantity)
        return both_ways(quantity, self.first)

    def ends(self, lowest: Quantity, highest: Quantity) -> tuple[Text, Text]:
        """Return each end whole."""
        return self.amount(lowest), self.amount(highest)

    def room(self, room: Quantity, target: Quantity) -> Text:
        """Return a tolerance; converted to grams it is whole grams, as the target beside it is."""
        is_fine = target.base < WHOLE_GRAMS or room.base < 2
        if room.unit.dimension != "mass" or room.unit.system == "metric" or is_fine:
            return self.amount(room)
        return self._pair(as_given(room), f"{number_text(room.base, 0)} g")

    def _degrees_apart(self, quantity: Quantity) -> Text:
        """Return a difference of temperatures, to the nearest degree in the unit it was not given in."""
        us, metric = (_degrees(quantity.to(f"{symbol} difference"), quantity) for symbol in ("°F", "°C"))
        return self._pair(us, metric)

    def _pair(self, us: Text, metric: Text) -> Text:
        front, back = (us, metric) if self.first == "us" else (metric, us)
        return joined([front, joined(["(", back, ")"], "")])


@dataclass(frozen=True, slots=True)
class InOne:
    """Amounts in one system of measures, unrounded in the one they were given in, as large figures show them."""

    system: System

    def amount(self, quantity: Quantity) -> Text:
        """Return an amount in the system."""
        return in_a_row(self._measures(quantity))

    def ends(self, lowest: Quantity, highest: Quantity) -> tuple[Text, Text]:
        """Return two ends; a unit both share is said once, but not beside mixed units (13 oz to 1 lb 3 oz)."""
        low, high = self._measures(lowest), self._measures(highest)
        shares = len(low) == len(high) == 1 and _pattern(low[0][1]) == _pattern(high[0][1])
        return (low[0][0] if shares else in_a_row(low)), in_a_row(high)

    def _measures(self, quantity: Quantity) -> list[Measure]:
        """Return an amount; in its own system it stays in its own unit, since the limit is what it says."""
        own = quantity.unit
        if (own.system == "metric") != (self.system == "metric"):
            return measures(quantity, self.system)
        given = measures_as_given(quantity)
        poured_out = own.dimension == "volume" and len(given) > 1
        word = word_of(own.symbol, max(1, ceil(quantity.amount)))
        return [(number_text(quantity.amount, 2), word)] if poured_out else given


def _pattern(unit: Text) -> str:
    """Return which unit a word is, whatever it counts."""
    return unit.pattern if isinstance(unit, Message) else unit


def duration_text(seconds: Fraction | int) -> Text:
    """Return a time as said: 1 minute 30 seconds, 2 hours, 7 days; up to two days stay hours.

    >>> from trainer.messages import translate
    >>> [translate(duration_text(seconds)) for seconds in (90, 86_400, 7 * 86_400)]
    ['1 minute 30 seconds', '24 hours', '7 days']
    """
    return joined(_spans(Fraction(seconds))) or _seconds(Fraction(0))


def _spans(left: Fraction) -> Iterable[Message]:
    days, left = divmod(left, DAY) if left > LONGEST_IN_HOURS else (0, left)
    hours, left = divmod(left, HOUR)
    minutes, left = divmod(left, 60)
    if days:
        yield plural("{number} day", "{number} days", days)
    if hours:
        yield plural("{number} hour", "{number} hours", hours)
    if minutes:
        yield plural("{number} minute", "{number} minutes", minutes)
    if left:
        yield _seconds(left)


def _seconds(seconds: Fraction) -> Message:
    """Return seconds, to a tenth."""
    return plural("{seconds} second", "{seconds} seconds", seconds, seconds=number_text(seconds, 1))


def _time(quantity: Quantity) -> Text:
    """Return a time; in days where it was typed in days."""
    if quantity.unit.symbol == "days" and quantity.amount.denominator == 1:
        return plural("{number} day", "{number} days", int(quantity.amount))
    return duration_text(quantity.base)


def _degrees(each: Quantity, given: Quantity) -> Text:
    """Return a number of degrees: exact as given, else to a whole degree, or a tenth below one."""
    number = number_text(each.amount, 1 if each.unit == given.unit or each.amount < 1 else 0)
    return f"{number} {each.unit.symbol.split()[0]}"
