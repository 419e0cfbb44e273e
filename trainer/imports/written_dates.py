"""Dates as people and spreadsheets write them: ISO, day first or month first; what reads two ways is asked."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Literal

from trainer.messages import Text, message

Order = Literal["dmy", "mdy"]
PARTS = re.compile(r"([0-9]{1,4})([./-])([0-9]{1,2})\2([0-9]{1,4})(?:[ T]00:00(?::00)?)?")
SERIAL = re.compile(r"[0-9]{4,6}")
AS_ISO = message("Write it as year-month-day, like 2026-11-25.")


@dataclass(frozen=True, slots=True)
class TwoWays:
    """A date that is two dates: with the day first, and with the month first."""

    day_first: date
    month_first: date


@dataclass(frozen=True, slots=True)
class NoDate:
    """A text that is no date, and why."""

    reason: Text
    mend: Text = AS_ISO


def read_date(text: str, order: Order | Literal[""] = "") -> date | TwoWays | NoDate:
    """Return the one date a text can mean; where it can mean two, `order` decides, or else both come back.

    >>> read_date("25/11/2026")
    datetime.date(2026, 11, 25)
    >>> read_date("03/04/2026").month_first
    datetime.date(2026, 3, 4)
    """
    found = PARTS.fullmatch(text.strip())
    if found is None:
        if SERIAL.fullmatch(text.strip()):
            return NoDate(
                message("This is a spreadsheet's day number, not a date."),
                message("Format the column as a date, as year-month-day, like 2026-11-25."),
            )
        return NoDate(message("This is not a date."))
    first, _, middle, last = found.groups()
    if len(first) == 4:
        return _day(first, middle, last) or NoDate(message("There is no such day."))
    if len(last) != 4 or len(first) > 2:
        return NoDate(message("The year needs four figures."))
    return _either(_day(last, middle, first), _day(last, first, middle), order)


def _either(day_first: date | None, month_first: date | None, order: str) -> date | TwoWays | NoDate:
    """Return the reading that exists; of two different ones, the one the order picks, or both."""
    readings = {reading for reading in (day_first, month_first) if reading is not None}
    if len(readings) == 1:
        return readings.pop()
    if day_first is None or month_first is None:
        return NoDate(message("There is no such day."))
    if order:
        return day_first if order == "dmy" else month_first
    return TwoWays(day_first, month_first)


def _day(year: str, month: str, day: str) -> date | None:
    """Return a day, or None where the calendar has none."""
    try:
        return date(int(year), int(month), int(day))
    except ValueError:
        return None
