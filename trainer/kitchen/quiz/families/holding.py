"""Keeping food within minutes and hours: cooling in two stages, time as the control.

The limits are ranges of one value, so that a content file can set those of its own local code. Defaults: FDA Food
Code 2022, sections 3-501.14 (cooling) and 3-501.19 (time as the control).
"""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, only, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import ON_THE_CLOCK
from trainer.kitchen.quiz.wording import clock, fahrenheit, figures

_FROM = {"from_fahrenheit": only(135, "where the cooling clock starts, in Fahrenheit")}
_TO_FIRST = {"first_fahrenheit": only(70, "where the first stage ends, in Fahrenheit")}
_TO_LAST = {"last_fahrenheit": only(41, "where cooling ends, in Fahrenheit")}
_FIRST_HOURS = {"first_hours": only(2, "hours allowed for the first stage")}
_ALL_HOURS = {"all_hours": only(6, "hours allowed for both stages together")}
_STARTS = {"starts_at": span(600, 1260, 1, "when the clock starts, in minutes past midnight")}


def _lacks_minutes(start: Fraction, end: Fraction) -> bool:
    """Return whether taking one clock time from another needs an hour broken into minutes."""
    return end % 60 < start % 60


def _slip_of_hundred(start: Fraction, end: Fraction) -> Fraction | None:
    """Return the time gone for who breaks an hour into 100 minutes; None where no hour needs breaking."""
    return end - start + 40 if _lacks_minutes(start, end) else None


def _less(limit: Fraction, gone: Fraction | None) -> Fraction | None:
    """Return what is left of a limit in minutes; None where nothing was worked out or the limit is over."""
    return None if gone is None or gone > limit else limit - gone


def _gone(n: Numbers) -> Fraction:
    return n["minutes_gone"]


def _now(n: Numbers) -> Fraction:
    return n["starts_at"] + n["minutes_gone"]


def _ask_first(n: Numbers, w: Words) -> Sentence:
    first = fahrenheit(n["first_fahrenheit"])
    return sentence(
        "ask",
        food=w["food"],
        hot=fahrenheit(n["from_fahrenheit"]),
        start=clock(n["starts_at"]),
        cool=first,
        hours=figures(n["first_hours"]),
        now=clock(_now(n)),
    )


def _solve_first(n: Numbers) -> tuple[Sentence, ...]:
    limit = 60 * n["first_hours"]
    return (
        sentence(
            "time_gone_from_to",
            start=clock(n["starts_at"]),
            now=clock(_now(n)),
            gone=_gone(n),
        ),
        sentence("the_limit_min", hours=figures(n["first_hours"]), result=limit),
        sentence("left_min", limit=limit, gone=_gone(n), result=limit - _gone(n)),
    )


COOLING_FIRST_STAGE = NumericFamily(
    name="cooling_first_stage",
    level="one step",
    unit="min",
    ranges={
        **_STARTS,
        "minutes_gone": span(15, 115, 1, "minutes gone since then"),
        **_FIRST_HOURS,
        **_FROM,
        **_TO_FIRST,
    },
    words=("food",),
    ask=_ask_first,
    right=lambda n: 60 * n["first_hours"] - _gone(n),
    solve=_solve_first,
    wrong={
        "time_gone": _gone,
        "hour_of_hundred_minutes": lambda n: _less(60 * n["first_hours"], _slip_of_hundred(n["starts_at"], _now(n))),
        "limit_in_hundreds": lambda n: 100 * n["first_hours"] - _gone(n),
        "limit_for_both_stages": lambda n: 3 * 60 * n["first_hours"] - _gone(n),
        "limit_for_second_stage": lambda n: 2 * 60 * n["first_hours"] - _gone(n),
    },
    off=("copied",),
    tolerance=ON_THE_CLOCK,
    formula="first limit - time gone",
    checked_against="FDA Food Code 2022, section 3-501.14(A)(1): 135 °F to 70 °F within 2 hours.",
    fits=lambda n: _gone(n) < 60 * n["first_hours"],
    safety=True,
)


def _stages_gone(n: Numbers) -> Fraction:
    return n["first_stage_minutes"] + n["minutes_since"]


def _first_broken(n: Numbers) -> bool:
    return n["first_stage_minutes"] > 60 * n["first_hours"]


def _left_of_all(n: Numbers) -> Fraction:
    return 60 * n["all_hours"] - _stages_gone(n)


def _right_stage(n: Numbers) -> Fraction:
    return Fraction(0) if _first_broken(n) else _left_of_all(n)


def _stage_ends(n: Numbers) -> tuple[Fraction, Fraction, Fraction]:
    """Return when cooling started, when the first stage ended, and the time now."""
    middle = n["starts_at"] + n["first_stage_minutes"]
    return n["starts_at"], middle, middle + n["minutes_since"]


def _ask_stage(n: Numbers, w: Words) -> Sentence:
    start, middle, now = (clock(moment) for moment in _stage_ends(n))
    first, last = fahrenheit(n["first_fahrenheit"]), fahrenheit(n["last_fahrenheit"])
    return sentence(
        "ask",
        food=w["food"],
        hot=fahrenheit(n["from_fahrenheit"]),
        start=start,
        cool=first,
        middle=middle,
        now=now,
        hours=figures(n["first_hours"]),
        hours_in_all=figures(n["all_hours"]),
        cold=last,
    )


def _solve_stage(n: Numbers) -> tuple[Sentence, ...]:
    start, middle, now = (clock(moment) for moment in _stage_ends(n))
    took, limit, gone = n["first_stage_minutes"], 60 * n["first_hours"], _stages_gone(n)
    first = sentence(
        "first_stage_to_is",
        start=start,
        middle=middle,
        took=took,
        limit=limit,
    )
    if _first_broken(n):
        return (
            first,
            sentence(
                "is_more_than_the",
                took=took,
                limit=limit,
            ),
        )
    return (
        sentence("it_holds", first=first),
        sentence("time_gone_in_all", start=start, now=now, gone=gone),
        sentence(
            "left_of_min_min",
            limit=60 * n["all_hours"],
            gone=gone,
            result=_left_of_all(n),
        ),
    )


COOLING_STAGE = NumericFamily(
    name="cooling_stage",
    level="in a shift",
    unit="min",
    ranges={
        **_STARTS,
        "first_stage_minutes": span(45, 137, 1, "minutes the first stage took"),
        "minutes_since": span(10, 180, 1, "minutes since the first stage ended"),
        **_FIRST_HOURS,
        **_ALL_HOURS,
        **_FROM,
        **_TO_FIRST,
        **_TO_LAST,
    },
    words=("food",),
    ask=_ask_stage,
    told=lambda n: (60 * n["first_hours"], 60 * n["all_hours"]),
    right=_right_stage,
    solve=_solve_stage,
    wrong={
        "first_limit_not_checked": lambda n: _left_of_all(n) if _first_broken(n) else None,
        "second_stage_started_anew": lambda n: _less(60 * (n["all_hours"] - n["first_hours"]), n["minutes_since"]),
        "all_hours_started_anew": lambda n: _less(60 * n["all_hours"], n["minutes_since"]),
        "time_gone": _stages_gone,
        "hour_of_hundred_minutes": lambda n: _less(
            60 * n["all_hours"], _slip_of_hundred(n["starts_at"], _stage_ends(n)[2])
        ),
        "limit_in_hundreds": lambda n: _less(100 * n["all_hours"], _stages_gone(n)),
    },
    off=("copied",),
    tolerance=ON_THE_CLOCK,
    formula="limit in all - time gone; 0 if the first limit is broken",
    checked_against="FDA Food Code 2022, section 3-501.14(A): 2 hours to 70 °F and 6 hours in all to 41 °F; "
    "2 h 10 min for the first stage breaks it.",
    fits=lambda n: _left_of_all(n) > 0,
    safety=True,
)


def _other_limit(n: Numbers) -> int:
    return 6 if n["limit_hours"] == 4 else 4


def _ask_discard(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        food=w["food"],
        start=clock(n["starts_at"]),
        hours=figures(n["limit_hours"]),
        now=clock(_now(n)),
    )


def _solve_discard(n: Numbers) -> tuple[Sentence, ...]:
    limit = 60 * n["limit_hours"]
    return (
        sentence(
            "time_gone_from_to",
            start=clock(n["starts_at"]),
            now=clock(_now(n)),
            gone=_gone(n),
        ),
        sentence("the_limit_min", hours=figures(n["limit_hours"]), result=limit),
        sentence(
            "left_min_out_at",
            limit=limit,
            gone=_gone(n),
            result=limit - _gone(n),
            end=clock(n["starts_at"] + limit),
        ),
    )


DISCARD_TIME = NumericFamily(
    name="discard_time",
    level="one step",
    unit="min",
    ranges={
        **_STARTS,
        "minutes_gone": span(20, 235, 1, "minutes gone since then"),
        "limit_hours": only(4, "hours food may be held by time alone"),
    },
    words=("food",),
    ask=_ask_discard,
    right=lambda n: 60 * n["limit_hours"] - _gone(n),
    solve=_solve_discard,
    wrong={
        "time_gone": _gone,
        "hour_of_hundred_minutes": lambda n: _less(60 * n["limit_hours"], _slip_of_hundred(n["starts_at"], _now(n))),
        "limit_in_hundreds": lambda n: 100 * n["limit_hours"] - _gone(n),
        "another_limit": lambda n: _less(Fraction(60 * _other_limit(n)), _gone(n)),
        "clock_started_anew": lambda n: 60 * n["limit_hours"],
    },
    tolerance=ON_THE_CLOCK.erring("low", Fraction(5)),
    formula="limit - time gone",
    checked_against="FDA Food Code 2022, section 3-501.19(B): served or thrown out within 4 hours.",
    fits=lambda n: _gone(n) < 60 * n["limit_hours"],
    safety=True,
)
