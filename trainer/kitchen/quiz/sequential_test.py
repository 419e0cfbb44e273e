"""Questions until the evidence suffices: Wald's sequential test of one share, in whole numbers.

Wald, Sequential Analysis (1947): after each answer the chance of what was seen is weighed for a cook who knows
`too_little` against one who knows `enough`. Where one is likelier by far, the quiz ends; at the most questions the
likelier of the two decides. The lines are worked out once as whole numbers, so that no rounding ever passes a cook.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import comb, log
from typing import Any, Literal, NamedTuple

from trainer.kitchen.quiz.sitting import SAFETY_PERCENT, Result, Tally, floor_in_words, need_for
from trainer.messages import Text, joined, message
from trainer.recipe_math.figures import number_text

Outcome = Literal["pass", "fail", "go on"]

FEWEST, MOST = 5, 60
"""Between these lies the most questions a sitting may have."""


@dataclass(frozen=True, slots=True)
class Plan:
    """When a quiz may stop. `too_little` is the share a cook may know and should not pass; `enough` should pass.

    `false_pass` and `false_fail` are the risks the lines are drawn for; `true_rates` says what they are with the most
    questions at `at_most`. `safety_percent` of the safety questions must be right (NRC GL 84-06 asks for 70 % in each
    category beside 80 % of the whole).
    """

    too_little: Fraction = Fraction(60, 100)
    enough: Fraction = Fraction(85, 100)
    false_pass: Fraction = Fraction(5, 100)
    false_fail: Fraction = Fraction(10, 100)
    at_most: int = 25
    safety_percent: int = SAFETY_PERCENT


_SHARES = {"from": "too_little", "to": "enough", "false_pass": "false_pass", "false_fail": "false_fail"}


def kept(plan: Plan) -> dict[str, Any]:
    """Return a plan as the book keeps it: exact shares as texts, the rest whole numbers."""
    shares = {name: str(getattr(plan, field)) for name, field in _SHARES.items()}
    return {**shares, "at_most": plan.at_most, "safety_percent": plan.safety_percent}


def plan_kept(body: Mapping[str, Any]) -> Plan:
    """Return the plan the book keeps."""
    shares = {field: Fraction(body[name]) for name, field in _SHARES.items()}
    return Plan(**shares, at_most=body["at_most"], safety_percent=body["safety_percent"])


class DecisionLines(NamedTuple):
    """For each number asked (the place is the number): the fewest right that pass and the most right that fail.

    Where nothing passes yet the fewest is one more than was asked; where nothing fails yet the most is -1.
    """

    passes: tuple[int, ...]
    fails: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SequentialState:
    """Where a sitting stands: the outcome so far, how it stands in words, and how many questions at most are left."""

    outcome: Outcome
    words: Text
    left: int


@dataclass(frozen=True, slots=True)
class Rates:
    """What a plan really does, exactly: the share of false passes and false fails, and the average lengths."""

    false_pass: Fraction
    false_fail: Fraction
    length_too_little: Fraction
    length_enough: Fraction


@lru_cache(maxsize=256)
def lines_of(plan: Plan) -> DecisionLines:
    """Return the lines of a plan, compared as exact fractions: no logarithm is rounded."""
    pass_odds = (1 - plan.false_fail) / plan.false_pass
    fail_odds = plan.false_fail / (1 - plan.false_pass)
    passes, fails = [1], [-1]
    for asked in range(1, plan.at_most):
        odds = [_odds(plan, right, asked) for right in range(asked + 1)]
        passes.append(sum(one < pass_odds for one in odds))
        fails.append(sum(one <= fail_odds for one in odds) - 1)
    likelier = sum(_odds(plan, right, plan.at_most) < 1 for right in range(plan.at_most + 1))
    return DecisionLines((*passes, likelier), (*fails, likelier - 1))


def first_pass(plan: Plan) -> int:
    """Return the fewest questions after which all right passes.

    >>> first_pass(Plan())
    9
    """
    return next(asked for asked, need in enumerate(lines_of(plan).passes) if need <= asked)


def _odds(plan: Plan, right: int, asked: int) -> Fraction:
    """Return how much likelier the answers are from a cook who knows enough than from one who knows too little.

    More right answers always make for longer odds, so a line lies where they change sides.
    """
    right_odds, wrong_odds = plan.enough / plan.too_little, (1 - plan.enough) / (1 - plan.too_little)
    return Fraction(right_odds**right) * wrong_odds ** (asked - right)


def outcome_of(plan: Plan, count: Tally) -> Outcome:
    """Return what a count of answers means: whole numbers compared, nothing rounded.

    A pass waits for the safety questions; at the most questions there is no more waiting.
    """
    lines, safe = lines_of(plan), count.meets_minimum(plan.safety_percent)
    asked = min(count.asked, plan.at_most)
    if count.right >= lines.passes[asked]:
        if safe:
            return "pass"
        return "fail" if count.asked >= plan.at_most else "go on"
    return "fail" if count.right <= lines.fails[asked] else "go on"


def decided(plan: Plan, count: Tally) -> Result:
    """Return the result of a sitting that ended here; the need is the fewest right of those asked that pass."""
    need = lines_of(plan).passes[min(count.asked, plan.at_most)]
    return Result(count.right, count.asked, need, outcome_of(plan, count) == "pass")


def standing(plan: Plan, count: Tally) -> SequentialState:
    """Return where a sitting stands after these answers."""
    outcome = outcome_of(plan, count)
    left = 0 if outcome != "go on" else plan.at_most - count.asked
    return SequentialState(outcome, _words(plan, count, outcome), left)


def _words(plan: Plan, count: Tally, outcome: Outcome) -> Text:
    """Return how a sitting stands as a cook reads it: the evidence first, then what it is measured by."""
    asked = min(count.asked, plan.at_most)
    need, most = lines_of(plan).passes[asked], lines_of(plan).fails[asked]
    seen = {"right": count.right, "asked": count.asked}
    if outcome == "pass":
        return message(
            "{right} of {asked} right. After {asked}, {need} or more right is enough to pass.", **seen, need=need
        )
    if count.right >= need:
        return floor_in_words(count, plan.safety_percent)
    if outcome == "go on":
        return message("{right} of {asked} right: too close to tell, so more questions are needed.", **seen)
    return message("{right} of {asked} right. After {asked}, more than {most} must be right.", **seen, most=most)


def true_rates(plan: Plan, safety: Sequence[bool] = ()) -> Rates:
    """Return the exact rates of a plan, the most questions and the safety floor taken in.

    *safety* says for each place whether that question is about safety; where it ends, none is.
    """
    false_pass, length_too_little = _walk(plan, plan.too_little, tuple(safety))
    passed, length_enough = _walk(plan, plan.enough, tuple(safety))
    return Rates(false_pass, 1 - passed, length_too_little, length_enough)


def pass_rate(plan: Plan, knows: Fraction, safety: Sequence[bool] = ()) -> Fraction:
    """Return how often a cook who knows this share passes, exactly."""
    return _walk(plan, knows, tuple(safety))[0]


def average_length(plan: Plan, knows: Fraction, safety: Sequence[bool] = ()) -> Fraction:
    """Return how many questions a cook who knows this share is asked on average, exactly."""
    return _walk(plan, knows, tuple(safety))[1]


@lru_cache(maxsize=256)
def _walk(plan: Plan, knows: Fraction, safety: tuple[bool, ...]) -> tuple[Fraction, Fraction]:
    """Return the chance to pass and the average length, by going through every count that can come up."""
    open_counts = {Tally(0, 0): Fraction(1)}
    passed, length = Fraction(0), Fraction(0)
    for place in range(plan.at_most):
        is_safety = place < len(safety) and safety[place]
        length += sum(open_counts.values())
        after: dict[Tally, Fraction] = {}
        for count, chance in open_counts.items():
            for is_right, part in ((True, knows), (False, 1 - knows)):
                more = count.plus(is_right=is_right, is_safety=is_safety)
                after[more] = after.get(more, Fraction(0)) + chance * part
        passed += sum(chance for count, chance in after.items() if outcome_of(plan, count) == "pass")
        open_counts = {count: chance for count, chance in after.items() if outcome_of(plan, count) == "go on"}
    return passed, length


def fixed_rates(need: int, asked: int, plan: Plan, safety_asked: int = 0) -> Rates:
    """Return the exact rates of a quiz of fixed length, for the two cooks a plan names.

    So many of its questions are about safety, and `plan.safety_percent` of them must be right.
    """
    floor = need_for(plan.safety_percent, safety_asked)
    false_pass, passed = (
        _passes(need, asked, (floor, safety_asked), knows) for knows in (plan.too_little, plan.enough)
    )
    return Rates(false_pass, 1 - passed, Fraction(asked), Fraction(asked))


def _passes(need: int, asked: int, floor: tuple[int, int], knows: Fraction) -> Fraction:
    """Return the chance of enough right in all, with at least so many of the safety questions right among them."""
    lowest, safety_asked = floor
    others = asked - safety_asked
    chances = (
        exactly(safe, safety_asked, knows) * at_least(max(need - safe, 0), others, knows)
        for safe in range(lowest, safety_asked + 1)
    )
    return sum(chances, Fraction(0))


def exactly(right: int, asked: int, knows: Fraction) -> Fraction:
    """Return the chance of just so many right, from a cook who knows this share (the binomial, exactly)."""
    return comb(asked, right) * knows**right * (1 - knows) ** (asked - right)


def at_least(right: int, asked: int, knows: Fraction) -> Fraction:
    """Return the chance of so many right or more, from a cook who knows this share (the binomial, exactly)."""
    return sum((exactly(each, asked, knows) for each in range(right, asked + 1)), Fraction(0))


def knows_more_than(share: Fraction, right: int, asked: int) -> Fraction:
    """Return how sure these answers alone make it that a cook knows more than a share, every share as likely before.

    It is the upper part of a beta distribution (right + 1, wrong + 1), exactly, by way of the binomial.
    """
    return 1 - at_least(right + 1, asked + 1, share)


def evidence_in_words(plan: Plan, count: Tally) -> Text:
    """Return what these answers alone say about a cook, as a chance in 100."""
    much, little = (knows_more_than(share, count.right, count.asked) for share in (plan.enough, plan.too_little))
    return message(
        "On these answers alone, the chance to know more than {too_little} of this is {little} in 100, and to know "
        "more than {enough} it is {much}.",
        too_little=_percent(plan.too_little),
        little=_tenths(100 * little),
        enough=_percent(plan.enough),
        much=_tenths(100 * much),
    )


def rates_in_words(plan: Plan, rates: Rates) -> Text:
    """Return in plain words how often a plan is wrong, and how long it takes."""
    words = message(
        "Somebody who knows {too_little} passes {passes} times in 100; somebody who knows {enough} is held back "
        "{fails} times in 100.",
        too_little=_percent(plan.too_little),
        passes=_tenths(100 * rates.false_pass),
        enough=_percent(plan.enough),
        fails=_tenths(100 * rates.false_fail),
    )
    one, other = (_tenths(length) for length in (rates.length_too_little, rates.length_enough))
    if one == other:
        return words
    return joined([words, message("On average they are asked {one} and {other} questions.", one=one, other=other)])


def _percent(share: Fraction) -> str:
    return f"{number_text(100 * share, 2)} %"


def _tenths(number: Fraction) -> str:
    return number_text(number, 1)


class WaldLine(NamedTuple):
    """Wald's straight lines as the handbooks print them: pass at `h1` + `s` n right, fail at `h0` + `s` n."""

    h0: float
    h1: float
    s: float


def wald_line(plan: Plan) -> WaldLine:
    """Return the slope and the two intercepts for a reader to compare; nothing is decided by them."""
    enough, little = float(plan.enough), float(plan.too_little)
    k = log(enough * (1 - little) / (little * (1 - enough)))
    h1 = log((1 - plan.false_fail) / plan.false_pass) / k
    h0 = log(plan.false_fail / (1 - plan.false_pass)) / k
    return WaldLine(h0, h1, log((1 - little) / (1 - enough)) / k)
