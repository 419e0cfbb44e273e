"""Dates on food that is held: the last day on a mark, and the day that counts for combined food.

The days to keep are passed in, since codes differ: the FDA Food Code 2022 has seven in section 3-501.17.

Caution: a mark says how many days have gone, never that food is safe. Food whose time is up, or cannot be shown, is for
the local code and the person in charge; smell and taste show nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.messages import message
from trainer.recipe_math.quantity import QuantityProblem


@dataclass(frozen=True, slots=True)
class DateMark:
    """The last day food may be kept, and which day of keeping a day is: the day of preparation is day one."""

    prepared: date
    last_day: date
    days_frozen: int


def date_mark(prepared: date, days: int, frozen: Iterable[tuple[date, date]] = ()) -> DateMark:
    """Return the last day for food kept so many days, the day of preparation counted as day one.

    The whole days between going into the freezer and coming out do not count; both of those days do. At least one day;
    spans in the freezer lie one after another, from the day of preparation on (QuantityProblem). Rule: FDA Food Code
    2022, sections 3-501.17 and 3-501.18, where it is 7 days at 41 °F; the local code may have fewer.

    >>> date_mark(date(2026, 3, 2), 7).last_day
    datetime.date(2026, 3, 8)
    """
    if days < 1:
        raise QuantityProblem(
            message("{days} days is no time to keep food: the day of preparation is day one.", days=days)
        )
    last, paused, free_from = prepared + timedelta(days=days - 1), 0, prepared
    for went_in, came_out in sorted(frozen):
        if went_in < free_from or came_out < went_in:
            raise QuantityProblem(
                message(
                    "In the freezer from {went_in} to {came_out} does not fit the days around it.",
                    went_in=str(went_in),
                    came_out=str(came_out),
                )
            )
        if went_in > last:
            raise QuantityProblem(
                message(
                    "On {went_in}, when it was to be frozen, the last day {last} was over.",
                    went_in=str(went_in),
                    last=str(last),
                )
            )
        away = max(0, (came_out - went_in).days - 1)
        last, paused, free_from = last + timedelta(days=away), paused + away, came_out
    return DateMark(prepared, last, paused)


def combined_day(prepared: Iterable[date]) -> date:
    """Return the day that counts for combined food: that of the part prepared first; at least one (QuantityProblem).

    Rule: FDA Food Code 2022, section 3-501.17(D)(3), from memory.

    >>> combined_day([date(2026, 3, 4), date(2026, 3, 2)])
    datetime.date(2026, 3, 2)
    """
    days = sorted(prepared)
    if not days:
        raise QuantityProblem(message("No day of preparation is given: there must be at least one."))
    return days[0]
