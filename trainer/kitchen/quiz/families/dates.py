"""The date mark: how many days a food may still be kept, the day of making being day one.

The limits are ranges that a content file can set to its own local code. Default: FDA Food Code 2022, section 3-501.17.
"""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, only, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import WHOLE
from trainer.kitchen.quiz.wording import fahrenheit, figures

MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
_NEW_YEAR = date(2025, 1, 1)


def _day(n: Numbers, later: Fraction = Fraction(0)) -> date:
    return _NEW_YEAR + timedelta(days=int(n["made_on"] - 1 + later))


def _written_day(day: date) -> Sentence:
    return sentence("day_and_month", day=day.day, month=sentence(MONTHS[day.month - 1]))


def _days_left(n: Numbers) -> Fraction:
    return n["days_allowed"] - n["days_later"]


def _date_fits(n: Numbers) -> bool:
    """Return whether food is still inside its days, and no leap day could lie between the two dates."""
    today = _day(n, n["days_later"])
    over_february = (_day(n).month, today.month) == (2, 3)
    return n["days_later"] < n["days_allowed"] and not over_february


def _if_new(n: Numbers, value: Fraction) -> Fraction | None:
    """Return a value, or None where it is one the other methods give and so would name nobody's method."""
    left = _days_left(n)
    return None if value in (left - 1, left, left + 1, n["days_allowed"]) else value


def _left_by_the_code(n: Numbers) -> Fraction | None:
    """Return the days left by the code's own limit; None where the days used up come to the same."""
    left = n["code_days"] - n["days_later"]
    return None if left == n["days_later"] + 1 else _if_new(n, left)


def _ask_date(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        day=_written_day(_day(n)),
        days=figures(n["days_allowed"]),
        cold=fahrenheit(n["keep_fahrenheit"]),
        today=_written_day(_day(n, n["days_later"])),
    )


def _solve_date(n: Numbers) -> tuple[Sentence, ...]:
    last = _day(n, n["days_allowed"] - 1)
    return (
        sentence("is_day_so_today", day=_written_day(_day(n)), number=n["days_later"] + 1),
        sentence("the_last_day_is", number=n["days_allowed"], last=_written_day(last)),
        sentence(
            "from_today_to_the",
            result=_days_left(n),
            allowed=n["days_allowed"],
            gone=n["days_later"],
        ),
    )


DATE_MARK = NumericFamily(
    name="date_mark",
    level="one step",
    unit="days",
    ranges={
        "made_on": span(1, 358, 1, "day of the year it was made"),
        "days_later": span(1, 6, 1, "days from then to today"),
        "days_allowed": span(6, 7, 1, "days the kitchen keeps it, the day of making counted"),
        "keep_fahrenheit": only(41, "temperature it is kept at or below, in Fahrenheit"),
        "code_days": only(7, "the most days the local code allows"),
    },
    words=("food",),
    ask=_ask_date,
    right=_days_left,
    solve=_solve_date,
    wrong={
        "day_of_making_not_counted": lambda n: _days_left(n) + 1,
        "today_left_out": lambda n: _days_left(n) - 1,
        "counted_from_today": lambda n: n["days_allowed"],
        "days_used_up": lambda n: _if_new(n, n["days_later"] + 1),
        "code_limit_for_house_limit": _left_by_the_code,
    },
    off=("copied",),
    tolerance=WHOLE,
    formula="days kept - days gone, the day of making counted",
    checked_against="FDA Food Code 2022, section 3-501.17(A): 7 days at 41 °F, the day of preparation is day 1.",
    fits=_date_fits,
    safety=True,
)
