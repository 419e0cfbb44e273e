"""Keeping food within minutes and hours: cooling in two stages, time as the control.

The limits are ranges of one value, so that a content file can set those of its own local code. Defaults: FDA Food
Code 2022, sections 3-501.14 (cooling) and 3-501.19 (time as the control).
"""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, only, span
from trainer.kitchen.quiz.tolerances import MINUTES
from trainer.kitchen.quiz.wording import any_of, clock, fahrenheit, figures
from trainer.recipe_math.saying import say

FOODS = any_of(
    "Bean soup|Chicken stock|Meat sauce|Rice pudding|Lentil stew|Tomato soup|Beef stew|Cream soup|Chili|Curry"
)
COOLING = say(
    "Food that cools too slowly can make people ill, and a later chill does not undo it: when in doubt, throw it out."
)
DISCARD = say("Food held past its time can make people ill, however good it looks: throw it out.")

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


HOUR_AS_HUNDRED = say("You took an hour as 100 minutes. It has 60.")
TIME_GONE = say("You gave the time that has gone. The question asks for the time that is left.")


def _ask_first(n: Numbers, w: Words) -> str:
    first = fahrenheit(n["first_fahrenheit"])
    return say(
        "{food} is at {hot} at {start} and starts to cool. It must reach {cool} within "
        "{hours} hours. At {now} it is not there yet. How many minutes are left?",
        food=w["food"],
        hot=fahrenheit(n["from_fahrenheit"]),
        start=clock(n["starts_at"]),
        cool=first,
        hours=figures(n["first_hours"]),
        now=clock(_now(n)),
    )


def _solve_first(n: Numbers) -> tuple[str, ...]:
    limit = 60 * n["first_hours"]
    return (
        say(
            "Time gone: from {start} to {now} is {gone} min.",
            start=clock(n["starts_at"]),
            now=clock(_now(n)),
            gone=_gone(n),
        ),
        say("The limit: {hours} h × 60 = {result} min.", hours=figures(n["first_hours"]), result=limit),
        say("Left: {limit} - {gone} = {result} min.", limit=limit, gone=_gone(n), result=limit - _gone(n)),
    )


COOLING_FIRST_STAGE = Sum(
    name="cooling_first_stage",
    title=say("Minutes left of the first cooling stage"),
    level="one step",
    unit="min",
    ranges={
        **_STARTS,
        "minutes_gone": span(15, 115, 1, "minutes gone since then"),
        **_FIRST_HOURS,
        **_FROM,
        **_TO_FIRST,
    },
    words={"food": FOODS},
    ask=_ask_first,
    right=lambda n: 60 * n["first_hours"] - _gone(n),
    solve=_solve_first,
    wrong=(
        WrongWay("time_gone", _gone, TIME_GONE, say("Gives the time gone instead of the time left.")),
        WrongWay(
            "hour_of_hundred_minutes",
            lambda n: _less(60 * n["first_hours"], _slip_of_hundred(n["starts_at"], _now(n))),
            say("You borrowed 100 minutes for an hour. Borrow 60."),
            say("Subtracts clock times as if they were decimals."),
        ),
        WrongWay(
            "limit_in_hundreds",
            lambda n: 100 * n["first_hours"] - _gone(n),
            HOUR_AS_HUNDRED,
            say("Takes an hour as 100 minutes when writing the limit in minutes."),
        ),
        WrongWay(
            "limit_for_both_stages",
            lambda n: 3 * 60 * n["first_hours"] - _gone(n),
            say("You used the limit for both stages. The first stage has its own, and it is much shorter."),
            say("Uses the limit of both stages for the first one."),
        ),
        WrongWay(
            "limit_for_second_stage",
            lambda n: 2 * 60 * n["first_hours"] - _gone(n),
            say("You used the hours that are left for the second stage. The first stage has fewer."),
            say("Uses the hours of the second stage for the first one."),
        ),
    ),
    tolerance=MINUTES,
    formula="first limit - time gone",
    checked_against="FDA Food Code 2022, section 3-501.14(A)(1): 135 °F to 70 °F within 2 hours.",
    fits=lambda n: _gone(n) < 60 * n["first_hours"],
    caution=COOLING,
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


def _ask_stage(n: Numbers, w: Words) -> str:
    start, middle, now = (clock(moment) for moment in _stage_ends(n))
    first, last = fahrenheit(n["first_fahrenheit"]), fahrenheit(n["last_fahrenheit"])
    return say(
        "{food} is at {hot} at {start} and starts to cool. It is at {cool} at {middle}. Now it is "
        "{now}. Two limits hold: {hours} hours to {cool}, and {hours_in_all} hours in all to {cold}. How "
        "many minutes are left to reach {cold}? If a limit is broken, answer 0.",
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


def _solve_stage(n: Numbers) -> tuple[str, ...]:
    start, middle, now = (clock(moment) for moment in _stage_ends(n))
    took, limit, gone = n["first_stage_minutes"], 60 * n["first_hours"], _stages_gone(n)
    first = say(
        "First stage: {start} to {middle} is {took} min. The limit is {limit} min.",
        start=start,
        middle=middle,
        took=took,
        limit=limit,
    )
    if _first_broken(n):
        return (
            first,
            say(
                "{took} is more than {limit}: the limit is broken, so the answer is 0, whatever comes later.",
                took=took,
                limit=limit,
            ),
        )
    return (
        say("{first} It holds.", first=first),
        say("Time gone in all: {start} to {now} is {gone} min.", start=start, now=now, gone=gone),
        say(
            "Left of {limit} min: {limit} - {gone} = {result} min.",
            limit=60 * n["all_hours"],
            gone=gone,
            result=_left_of_all(n),
        ),
    )


COOLING_STAGE = Sum(
    name="cooling_stage",
    title=say("Cooling as two limits: minutes left in all"),
    level="in a shift",
    unit="min",
    ranges={
        **_STARTS,
        "first_stage_minutes": span(60, 145, 1, "minutes the first stage took"),
        "minutes_since": span(10, 180, 1, "minutes since the first stage ended"),
        **_FIRST_HOURS,
        **_ALL_HOURS,
        **_FROM,
        **_TO_FIRST,
        **_TO_LAST,
    },
    words={"food": FOODS},
    ask=_ask_stage,
    told=lambda n: (60 * n["first_hours"], 60 * n["all_hours"]),
    right=_right_stage,
    solve=_solve_stage,
    wrong=(
        WrongWay(
            "first_limit_not_checked",
            lambda n: _left_of_all(n) if _first_broken(n) else None,
            say("You looked at the limit in all alone. The first stage took too long: that limit is broken for good."),
            say("Checks the total and not the first stage."),
        ),
        WrongWay(
            "second_stage_started_anew",
            lambda n: _less(60 * (n["all_hours"] - n["first_hours"]), n["minutes_since"]),
            say("You gave the second stage hours of its own. The clock runs on from the start, for both stages."),
            say("Restarts the clock for the second stage with the hours left between the two limits."),
        ),
        WrongWay(
            "all_hours_started_anew",
            lambda n: _less(60 * n["all_hours"], n["minutes_since"]),
            say("You started the whole limit again at the end of the first stage. It runs from the start of cooling."),
            say("Counts the whole limit from the end of the first stage."),
        ),
        WrongWay("time_gone", _stages_gone, TIME_GONE, say("Gives the time gone instead of the time left.")),
        WrongWay(
            "hour_of_hundred_minutes",
            lambda n: _less(60 * n["all_hours"], _slip_of_hundred(n["starts_at"], _stage_ends(n)[2])),
            say("You borrowed 100 minutes for an hour. Borrow 60."),
            say("Subtracts clock times as if they were decimals."),
        ),
        WrongWay(
            "limit_in_hundreds",
            lambda n: _less(100 * n["all_hours"], _stages_gone(n)),
            HOUR_AS_HUNDRED,
            say("Takes an hour as 100 minutes when writing the limit in minutes."),
        ),
    ),
    tolerance=MINUTES,
    formula="limit in all - time gone; 0 if the first limit is broken",
    checked_against="FDA Food Code 2022, section 3-501.14(A): 2 hours to 70 °F and 6 hours in all to 41 °F; "
    "2 h 10 min for the first stage breaks it.",
    fits=lambda n: _left_of_all(n) > 0,
    caution=COOLING,
)


def _other_limit(n: Numbers) -> int:
    return 6 if n["limit_hours"] == 4 else 4


def _ask_discard(n: Numbers, w: Words) -> str:
    return say(
        "{food} left the heat at {start}. Your kitchen holds it by time alone: {hours} hours, then "
        "out. It is {now}. How many minutes are left until it must be thrown out?",
        food=w["food"],
        start=clock(n["starts_at"]),
        hours=figures(n["limit_hours"]),
        now=clock(_now(n)),
    )


def _solve_discard(n: Numbers) -> tuple[str, ...]:
    limit = 60 * n["limit_hours"]
    return (
        say(
            "Time gone: from {start} to {now} is {gone} min.",
            start=clock(n["starts_at"]),
            now=clock(_now(n)),
            gone=_gone(n),
        ),
        say("The limit: {hours} h × 60 = {result} min.", hours=figures(n["limit_hours"]), result=limit),
        say(
            "Left: {limit} - {gone} = {result} min. Out at {end}.",
            limit=limit,
            gone=_gone(n),
            result=limit - _gone(n),
            end=clock(n["starts_at"] + limit),
        ),
    )


DISCARD_TIME = Sum(
    name="discard_time",
    title=say("Minutes until food held by time is thrown out"),
    level="one step",
    unit="min",
    ranges={
        **_STARTS,
        "minutes_gone": span(20, 235, 1, "minutes gone since then"),
        "limit_hours": only(4, "hours food may be held by time alone"),
    },
    words={
        "food": any_of(
            "A butter sauce|A tray of rice|A fried chicken|A potato bake|A pasta bake|Pilaf|A tray of dumplings"
        )
    },
    ask=_ask_discard,
    right=lambda n: 60 * n["limit_hours"] - _gone(n),
    solve=_solve_discard,
    wrong=(
        WrongWay("time_gone", _gone, TIME_GONE, say("Gives the time gone instead of the time left.")),
        WrongWay(
            "hour_of_hundred_minutes",
            lambda n: _less(60 * n["limit_hours"], _slip_of_hundred(n["starts_at"], _now(n))),
            say("You borrowed 100 minutes for an hour. Borrow 60."),
            say("Subtracts clock times as if they were decimals."),
        ),
        WrongWay(
            "limit_in_hundreds",
            lambda n: 100 * n["limit_hours"] - _gone(n),
            HOUR_AS_HUNDRED,
            say("Takes an hour as 100 minutes when writing the limit in minutes."),
        ),
        WrongWay(
            "another_limit",
            lambda n: _less(Fraction(60 * _other_limit(n)), _gone(n)),
            say("You used another limit. Read the hours your kitchen holds this food for."),
            say("Mixes up the limits of 4 and 6 hours."),
        ),
        WrongWay(
            "clock_started_anew",
            lambda n: 60 * n["limit_hours"],
            say("You started the clock again now. It runs from when the food left the heat."),
            say("Counts the whole limit from now."),
        ),
    ),
    tolerance=MINUTES,
    formula="limit - time gone",
    checked_against="FDA Food Code 2022, section 3-501.19(B): served or thrown out within 4 hours.",
    fits=lambda n: _gone(n) < 60 * n["limit_hours"],
    caution=DISCARD,
)
