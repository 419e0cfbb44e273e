"""How dates, times, names and amounts are written on a page; the one module templates format through."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from trainer.kitchen.technique import Limit
from trainer.recipe_math import printing
from trainer.web import guard

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def day(value: date) -> str:
    """Return a date without a digit order to guess: 3 Nov 2026."""
    return f"{value.day} {MONTHS[value.month - 1]} {value.year}"


def weekday(value: date) -> str:
    """Return a date with its day of the week: Tue 3 Nov 2026."""
    return f"{DAYS[value.weekday()]} {day(value)}"


def local(value: datetime) -> datetime:
    """Return a moment on the kitchen's own clock."""
    return value.astimezone(ZoneInfo(guard.kitchen().file.settings.timezone))


def clock_time(value: datetime) -> str:
    """Return the time of day on the kitchen's own clock: 16:42."""
    return f"{local(value):%H:%M}"


def moment(value: datetime) -> str:
    """Return date and time on the kitchen's own clock: 3 Nov 2026, 16:42."""
    return f"{day(local(value).date())}, {clock_time(value)}"


def waited(since: datetime) -> str:
    """Return how long somebody has waited by now, in the largest whole unit: 3 days, 2 hours, 5 minutes.

    Under a minute it says so.
    """
    minutes = max(0, int((guard.now() - since).total_seconds())) // 60
    for size, word in ((1440, "day"), (60, "hour")):
        if minutes >= size:
            return counted(minutes // size, word)
    return counted(minutes, "minute") if minutes else "less than a minute"


def counted(number: int, word: str, plural: str = "") -> str:
    """Return a number with its word: 1 step, 2 steps."""
    return f"{number} {word if number == 1 else plural or word + 's'}"


def amount(quantity: Any) -> str:  # noqa: ANN401 - a Quantity, given by a template
    """Return a quantity in both unit systems, the kitchen's own first."""
    return printing.both_ways(quantity, guard.kitchen().file.settings.units_first)


def line(limit: Limit) -> str:
    """Return a measured line in words and numbers: 57 °C (135 °F) or more."""
    low, high, target = limit.lowest, limit.highest, limit.target
    if target is not None and low is not None and high is not None:
        return f"{amount(target)}, from {amount(low)} to {amount(high)}"
    if low is not None and high is not None:
        return f"{amount(low)} to {amount(high)}"
    if low is not None:
        return f"{amount(low)} or more"
    if high is not None:
        return f"{amount(high)} or less"
    return amount(target) if target is not None else ""


def aim(limit: Limit) -> str:
    """Return the one number of a measured line to work to: its target, or else its ends."""
    return amount(limit.target) if limit.target is not None else line(limit)


def stray(limit: Limit) -> str:
    """Return how far from its target a measured line lets the work stray; empty where it has no target or ends."""
    if limit.target is None or limit.lowest is None or limit.highest is None:
        return ""
    return f"from {amount(limit.lowest)} to {amount(limit.highest)}"


def clock_span(seconds: int) -> str:
    """Return a duration as a timer shows it: 90 seconds is 1 min 30 s."""
    minutes, rest = divmod(seconds, 60)
    return " ".join(part for part in (f"{minutes} min" if minutes else "", f"{rest} s" if rest else "") if part)


def initials(name: str) -> str:
    """Return the first letters of a name: Ana Pardo is AP."""
    return "".join(part[0] for part in name.split()[:3]).upper()


FILTERS: dict[str, Callable[..., str]] = {
    "day": day,
    "weekday": weekday,
    "clock_time": clock_time,
    "moment": moment,
    "waited": waited,
    "counted": counted,
    "amount": amount,
    "line": line,
    "aim": aim,
    "stray": stray,
    "clock_span": clock_span,
    "initials": initials,
}
