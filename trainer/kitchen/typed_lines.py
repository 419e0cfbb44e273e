"""What a cook types a line each: readings of time and temperature, and weights; every bad line told by its number."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from trainer.kitchen.reading import read_quantity
from trainer.messages import Text, joined, message
from trainer.recipe_math.estimates import TimedReading, Writing, in_celsius, in_minutes
from trainer.recipe_math.quantity import TEMPERATURE, Quantity, QuantityProblem
from trainer.recipe_math.refusals import NotAQuantity

MOST_LINES = 200
COLDEST_CELSIUS, HOTTEST_CELSIUS = -60, 300
DAY, HALF_DAY = 1440, 720
_CLOCK = re.compile(r"(?P<h>[0-9]{1,2}):(?P<m>[0-9]{2})\s*(?P<half>[ap]\.?m\.?)?[\s,;]+(?P<rest>\S.*)", re.IGNORECASE)
_SPAN = re.compile(
    r"(?P<span>(?:[0-9]+(?:[.,][0-9]+)?\s*h(?:ours?|rs?)?\.?\s*)?(?:[0-9]+(?:[.,][0-9]+)?\s*min(?:ute)?s?\.?)?)[\s,;]+(?P<rest>\S.*)",
    re.IGNORECASE,
)
_MINUTES = re.compile(r"(?P<span>[0-9]{1,5})[\s,;]+(?P<rest>\S.*)")
_BARE = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_FORM = message("Write a time and a temperature, like 14:05 135 F, or 20 min 57 C.")


@dataclass(frozen=True, slots=True)
class LineProblem:
    """A line that cannot be taken: its number, what stands there, and the rule."""

    line: int
    text: str
    rule: Text

    def as_text(self) -> Text:
        """Return it as one sentence to show."""
        return message("Line {line}, “{text}”: {rule}", line=self.line, text=self.text, rule=self.rule)


def _problem(number: int, text: str, problem: QuantityProblem) -> LineProblem:
    """Return a line's problem; where the message would name the whole line again, its rule alone."""
    if isinstance(problem, NotAQuantity) and problem.text == text:
        return LineProblem(number, text[:40], problem.rule)
    return LineProblem(number, text[:40], problem.reason)


@dataclass(frozen=True, slots=True)
class CoolingLog:
    """Readings in order; minutes count from midnight where a clock was typed. Problems, one a bad line."""

    readings: tuple[TimedReading, ...] = ()
    by_the_clock: bool = False
    problems: tuple[LineProblem, ...] = ()


@dataclass(frozen=True, slots=True)
class Weights:
    """Weights as typed, in order, with one problem a text that is none."""

    weights: tuple[Quantity, ...] = ()
    problems: tuple[LineProblem, ...] = ()


@dataclass
class _Reader:
    """Lines being read, with what the lines before said."""

    degrees: str | None
    decimal_mark: str | None
    readings: list[TimedReading] = field(default_factory=list)
    problems: list[LineProblem] = field(default_factory=list)
    by_the_clock: bool | None = None

    def take(self, number: int, text: str) -> None:
        """Read one line; whatever is wrong with it is noted."""
        try:
            by_clock, minutes, rest = _time_of(text, self.decimal_mark)
            read = self._temperature(rest)
            if self.by_the_clock is None:
                self.by_the_clock = by_clock
            minutes = self._in_order(by_clock, minutes, text)
            self.readings.append(TimedReading(minutes, in_celsius(read), is_celsius=read.unit.symbol == "°C"))
        except QuantityProblem as problem:
            self.problems.append(_problem(number, text, problem))

    def _temperature(self, text: str) -> Quantity:
        if not any(letter.isdigit() for letter in text):
            raise QuantityProblem(_FORM)
        read = read_quantity(text, self.degrees, self.decimal_mark, kind=TEMPERATURE)
        if read.unit.dimension != TEMPERATURE:
            raise QuantityProblem(message("{text} is no temperature. Write degrees, like 135 F or 57 C.", text=text))
        celsius = in_celsius(read)
        if not COLDEST_CELSIUS <= celsius <= HOTTEST_CELSIUS:
            write = Writing("us" if self.degrees == "°F" else "metric", self.decimal_mark or ".").degrees
            coldest, hottest = write(COLDEST_CELSIUS), write(HOTTEST_CELSIUS)
            raise QuantityProblem(
                message(
                    "{text} is outside what a kitchen measures: {coldest} to {hottest}.",
                    text=text,
                    coldest=coldest,
                    hottest=hottest,
                )
            )
        return read

    def _in_order(self, by_clock: bool, minutes: float, text: str) -> float:
        """Return the minutes after those of the line before; a clock may pass midnight, by less than half a day."""
        if by_clock is not self.by_the_clock:
            raise QuantityProblem(message("Write all times by the clock, or all as minutes from the start."))
        if not self.readings:
            return minutes
        before = self.readings[-1].minutes
        if by_clock:
            minutes += before // DAY * DAY
            minutes += DAY if minutes < before and minutes + DAY - before <= HALF_DAY else 0
        if minutes <= before:
            late = message("It is not later than the line before ({time}).", time=when_text(before, by_clock))
            hint = [message("Write the afternoon as 13:15 or 1:15 pm.")] if by_clock else []
            raise QuantityProblem(joined([late, *hint]))
        return minutes


def cooling_log(text: str, *, degrees: str | None = None, decimal_mark: str | None = None) -> CoolingLog:
    """Return the readings of a text, one a line: a time by the clock or in minutes, then a temperature.

    *degrees* is the unit of a bare temperature; without it a bare one is refused. Times go forward; a clock may pass
    midnight. At most 200 lines, from -60 to 300 °C. Every bad line is told, and the rest is read.

    >>> [reading.minutes for reading in cooling_log("23:50 135 F; 0:20 110 F").readings]
    [1430.0, 1460.0]
    """
    lines = [line.strip() for line in re.split(r"[\n;]", text)]
    if len(lines) > MOST_LINES:
        too_many = message("At most {most} lines are read.", most=MOST_LINES)
        return CoolingLog(problems=(LineProblem(MOST_LINES + 1, "…", too_many),))
    reader = _Reader(degrees, decimal_mark)
    for number, line in enumerate(lines, 1):
        if line:
            reader.take(number, line)
    return CoolingLog(tuple(reader.readings), bool(reader.by_the_clock), tuple(reader.problems))


def typed_weights(text: str, *, default_unit: str | None = None, decimal_mark: str | None = None) -> Weights:
    r"""Return the weights of a text: one a line, or apart by semicolons, or bare numbers apart by blanks.

    *default_unit* is the unit of a bare number. Every text that is no weight above zero is told, and the rest is read.

    >>> [str(weight) for weight in typed_weights("6.4 6.6\n190 g", default_unit="oz").weights]
    ['6.4 oz', '6.6 oz', '190 g']
    """
    weights: list[Quantity] = []
    problems: list[LineProblem] = []
    for number, piece in _pieces(text):
        if len(weights) + len(problems) >= MOST_LINES:
            too_many = message("At most {most} weights are read.", most=MOST_LINES)
            problems.append(LineProblem(number, piece[:40], too_many))
            break
        try:
            weights.append(_weight(piece, default_unit, decimal_mark))
        except QuantityProblem as problem:
            problems.append(_problem(number, piece, problem))
    return Weights(tuple(weights), tuple(problems))


def when_text(minutes: float, by_the_clock: bool) -> Text:
    """Return a moment of a log as it was typed: by the clock, or as hours and minutes from the start.

    >>> when_text(1460, True), when_text(130, False)
    ('0:20 the next day', '2 h 10 min')
    """
    if not by_the_clock:
        hours, rest = divmod(round(minutes), 60)
        return " ".join([*([f"{hours} h"] if hours else []), *([f"{rest} min"] if rest or not hours else [])])
    days, rest = divmod(round(minutes), DAY)
    time = f"{rest // 60}:{rest % 60:02d}"
    if days == 0:
        return time
    return (
        message("{time} the next day", time=time)
        if days == 1
        else message("{time} {days} days later", time=time, days=days)
    )


def _time_of(text: str, decimal_mark: str | None) -> tuple[bool, float, str]:
    """Return whether a line begins with a clock, its minutes, and the rest of it."""
    clock = _CLOCK.fullmatch(text)
    if clock:
        return True, _by_clock(clock), clock["rest"]
    span = _SPAN.fullmatch(text)
    if span and span["span"].strip():
        return False, in_minutes(read_quantity(span["span"], None, decimal_mark, kind="duration")), span["rest"]
    minutes = _MINUTES.fullmatch(text)
    if minutes:
        return False, float(minutes["span"]), minutes["rest"]
    raise QuantityProblem(_FORM)


def _by_clock(clock: re.Match[str]) -> float:
    hours, minutes, half = int(clock["h"]), int(clock["m"]), (clock["half"] or "")[:1].lower()
    if minutes > 59 or hours > 23 or (half and not 1 <= hours <= 12):
        typed = f"{clock['h']}:{clock['m']} {clock['half'] or ''}".strip()
        raise QuantityProblem(message("{typed} is no time of day.", typed=typed))
    if half:
        hours = hours % 12 + (12 if half == "p" else 0)
    return float(hours * 60 + minutes)


def _pieces(text: str) -> list[tuple[int, str]]:
    """Return each text that should be a weight, with its line."""
    found = []
    for number, line in enumerate(text.split("\n"), 1):
        for part in re.split(r";|,\s+|\t", line):
            words = part.split()
            alone = len(words) > 1 and all(_BARE.fullmatch(word) for word in words)
            found += [(number, word) for word in (words if alone else [part.strip()]) if word]
    return found


def _weight(text: str, default_unit: str | None, decimal_mark: str | None) -> Quantity:
    read = read_quantity(text, default_unit, decimal_mark)
    if read.unit.dimension != "mass":
        raise QuantityProblem(message("{text} is no weight. Write ounces or grams.", text=text))
    if read.amount <= 0:
        raise QuantityProblem(message("{text} weighs nothing: leave it out.", text=text))
    return read
