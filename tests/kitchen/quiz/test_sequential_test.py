"""A quiz that decides: where its lines lie, what it really does, and how it stands in words.

The table of plans was worked out outside this project by dynamic programming over Wald's test (Wald, Sequential
Analysis, 1947), the plan rounded to two to four places; see each test for the rest.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import NamedTuple

import pytest
from scipy.stats import beta, binom

from tests.printed import english, in_english
from trainer.kitchen.quiz.sequential_test import (
    DecisionLines,
    Plan,
    SequentialState,
    WaldLine,
    at_least,
    average_length,
    decided,
    evidence_in_words,
    first_pass,
    fixed_rates,
    kept,
    knows_more_than,
    lines_of,
    outcome_of,
    pass_rate,
    plan_kept,
    rates_in_words,
    standing,
    true_rates,
    wald_line,
)
from trainer.kitchen.quiz.sitting import Result, Tally

UNCUT = 260  # by then every sitting of these plans is decided but for a few in ten thousand at the worst


def plan(little: str, enough: str, false_pass: str, false_fail: str, at_most: int = 25) -> Plan:
    """Return a plan without a safety floor."""
    return Plan(Fraction(little), Fraction(enough), Fraction(false_pass), Fraction(false_fail), at_most, 0)


class Row(NamedTuple):
    """One plan of the table, with an end at 25 (`cut`) and without one."""

    shares: tuple[str, str, str, str]
    line: tuple[float, float, float]  # h1, h0, s
    straight: tuple[int, int]  # fewest that pass all right, and that fail all wrong
    lengths: tuple[float, float, float]  # average: a cook at the lower share, half way, at the upper share
    uncut: tuple[float, float]  # false passes, false fails
    cut: tuple[float, float]


PLANS = [
    Row(("0.6", "0.85", "0.05", "0.1"), (2.175, -1.694, 0.7379), (9, 3),
        (13.52, 23.56, 18.19), (0.0433, 0.0646), (0.0773, 0.0871)),
    Row(("0.6", "0.85", "0.1", "0.1"), (1.653, -1.653, 0.7379), (7, 3),
        (11.95, 17.9, 13.77), (0.0855, 0.0691), (0.103, 0.0868)),
    Row(("0.7", "0.9", "0.05", "0.1"), (2.141, -1.668, 0.8138), (12, 3),
        (15.84, 27.93, 22.5), (0.0469, 0.0668), (0.0929, 0.1089)),
    Row(("0.6", "0.9", "0.05", "0.05"), (1.643, -1.643, 0.7737), (8, 3),
        (10.8, 19.33, 13.27), (0.0405, 0.0271), (0.0495, 0.0402)),
    Row(("0.8", "0.98", "0.05", "0.05"), (1.175, -1.175, 0.919), (15, 2),
        (11.88, 21.67, 18.86), (0.0471, 0.0229), (0.0989, 0.0239)),
]  # fmt: skip


@pytest.mark.parametrize("row", PLANS, ids=lambda row: "/".join(row.shares))
def test_every_plan_of_the_table_comes_out_as_printed(row: Row) -> None:
    """Lines, straight runs, average lengths and error rates, with an end at 25 and without one."""
    short, long = plan(*row.shares), plan(*row.shares, at_most=UNCUT)
    h0, h1, s = wald_line(short)
    assert (h1, h0, s) == pytest.approx(row.line, abs=6e-4)
    lines = lines_of(long)
    assert next(n for n in range(1, UNCUT) if lines.passes[n] <= n) == row.straight[0]
    assert next(n for n in range(1, UNCUT) if lines.fails[n] >= 0) == row.straight[1]
    rates, middle = true_rates(long), average_length(long, (short.too_little + short.enough) / 2)
    found = (rates.length_too_little, middle, rates.length_enough)
    assert [float(length) for length in found] == pytest.approx(row.lengths, abs=6e-3)
    assert (float(rates.false_pass), float(rates.false_fail)) == pytest.approx(row.uncut, abs=6e-5)
    ended = true_rates(short)
    assert (float(ended.false_pass), float(ended.false_fail)) == pytest.approx(row.cut, abs=6e-5)


def test_the_lines_are_those_the_handbook_prints() -> None:
    """NIST/SEMATECH handbook, sequential sampling: p1 .01, p2 .10, alpha .05, beta .10 (values from memory).

    The handbook counts what is bad, so its accept line is the pass line here read from the other side.
    """
    h0, h1, s = wald_line(plan("0.90", "0.99", "0.10", "0.05"))
    accept, reject, slope = h1, -h0, 1 - s
    assert (accept, reject) == pytest.approx((0.939, 1.205), abs=6e-4)
    assert slope == pytest.approx(0.0397, abs=6e-5)


@pytest.mark.parametrize("shares", [row.shares for row in PLANS])
def test_the_whole_numbers_lie_where_walds_line_lies(shares: tuple[str, str, str, str]) -> None:
    """Before the last question a line is the next whole number inside h + s n."""
    short = plan(*shares)
    h0, h1, s = wald_line(short)
    lines = lines_of(short)
    for asked in range(1, short.at_most):
        assert h1 + s * asked <= lines.passes[asked] or lines.passes[asked] == asked + 1
        assert lines.passes[asked] - 1 < h1 + s * asked
        assert lines.fails[asked] <= h0 + s * asked < lines.fails[asked] + 1 or lines.fails[asked] == -1


def test_nine_straight_right_pass_and_three_straight_wrong_fail() -> None:
    """At .60 and .85: eight right are not enough to tell, two wrong are not either."""
    usual = Plan()
    assert [outcome_of(usual, Tally(n, n)) for n in (8, 9)] == ["go on", "pass"]
    assert [outcome_of(usual, Tally(0, n)) for n in (2, 3)] == ["go on", "fail"]


def test_at_the_most_questions_the_likelier_cook_decides() -> None:
    """S n is 0.7379 * 25 = 18.4: nineteen right come likelier from a cook who knows enough, eighteen do not."""
    assert [outcome_of(Plan(), Tally(right, 25)) for right in (18, 19)] == ["fail", "pass"]
    assert [outcome_of(Plan(), Tally(right, 26)) for right in (18, 19)] == ["fail", "pass"]


def test_the_lines_never_fall_and_never_meet_before_the_end() -> None:
    """Between them the quiz goes on; at the end every count is one or the other."""
    for shares in (row.shares for row in PLANS):
        passes, fails = lines_of(plan(*shares))
        assert all(lower <= higher for lower, higher in pairwise(passes[:-1]))
        assert all(lower <= higher for lower, higher in pairwise(fails))
        assert all(most + 1 < fewest for most, fewest in zip(fails[:-1], passes[:-1], strict=True))
        assert fails[-1] + 1 == passes[-1]


def test_an_exact_tie_counts_as_reached() -> None:
    """At 1/4 and 1/2 a right answer doubles the odds: 2 ** 4 is 16, which is (1 - 1/5) / (1/20) exactly."""
    tied = replace(plan("1/4", "1/2", "1/20", "1/5"), at_most=10)
    assert [outcome_of(tied, Tally(right, right)) for right in (3, 4)] == ["go on", "pass"]


@pytest.mark.parametrize(("sittings", "off"), [(2_000, 0.0256), pytest.param(20_000, 0.0081, marks=pytest.mark.bench)])
def test_a_simulation_agrees_with_the_exact_rates(sittings: int, off: float) -> None:
    """So many sittings a cook, seed 7: within four standard errors, 4 * sqrt(.09 * .91 / sittings)."""
    usual, rng = Plan(), Random(7)  # noqa: S311 - a simulation
    for knows, expected in (
        (usual.too_little, true_rates(usual).false_pass),
        (usual.enough, 1 - true_rates(usual).false_fail),
    ):
        passed = sum(_simulated(usual, float(knows), rng) == "pass" for _ in range(sittings))
        assert passed / sittings == pytest.approx(float(expected), abs=off)


def _simulated(usual: Plan, knows: float, rng: Random) -> str:
    """Return how one sitting ends, answer by answer."""
    count = Tally(0, 0)
    while outcome_of(usual, count) == "go on":
        count = count.plus(is_right=rng.random() < knows)
    return outcome_of(usual, count)


@pytest.mark.parametrize(("sittings", "off"), [(2_000, 0.0329), pytest.param(20_000, 0.0104, marks=pytest.mark.bench)])
def test_a_safety_floor_makes_passing_harder_and_never_easier(sittings: int, off: float) -> None:
    """Exactly so for every share known, with one question in five about safety, and the simulation agrees.

    It may be off by four standard errors: 4 * sqrt(.16 * .84 / sittings).
    """
    usual, places = Plan(), [place % 5 == 4 for place in range(25)]
    without = replace(usual, safety_percent=0)
    for knows in (Fraction(1, 2), Fraction(6, 10), Fraction(85, 100)):
        assert pass_rate(usual, knows, places) < pass_rate(without, knows, places)
    rng = Random(11)  # noqa: S311 - a simulation
    passed = 0
    for _ in range(sittings):
        count = Tally(0, 0)
        while outcome_of(usual, count) == "go on":
            count = count.plus(is_right=rng.random() < 0.85, is_safety=places[count.asked])
        passed += outcome_of(usual, count) == "pass"
    assert passed / sittings == pytest.approx(float(pass_rate(usual, Fraction(85, 100), places)), abs=off)


def test_whoever_knows_everything_or_nothing_takes_the_straight_way() -> None:
    """A cook who knows all passes after nine; one who knows nothing is held back after three."""
    assert (pass_rate(Plan(), Fraction(1)), average_length(Plan(), Fraction(1))) == (Fraction(1), Fraction(9))
    assert (pass_rate(Plan(), Fraction(0)), average_length(Plan(), Fraction(0))) == (Fraction(0), Fraction(3))


def test_a_pass_waits_for_the_safety_questions() -> None:
    """70 % of each category beside the whole (US NRC, Generic Letter 84-06): 7 of 10, in whole numbers."""
    usual = Plan()
    assert outcome_of(usual, Tally(18, 20, 6, 10)) == "go on"
    assert outcome_of(usual, Tally(18, 20, 7, 10)) == "pass"
    assert outcome_of(usual, Tally(22, 25, 6, 9)) == "fail"
    assert outcome_of(usual, Tally(22, 25, 7, 9)) == "pass"


def test_no_floor_is_passed_by_rounding() -> None:
    """78 of 98 is 79.59 % and not 80 (US NRC, CLI-97-10, 7 August 1997); here 2 of 3 is 66.7 % and not 70."""
    assert outcome_of(Plan(), Tally(19, 20, 2, 3)) == "go on"
    assert outcome_of(Plan(), Tally(20, 20, 3, 3)) == "pass"


def test_a_count_grows_by_one_answer() -> None:
    """A wrong answer about safety counts among those asked only."""
    count = Tally(0, 0).plus(is_right=True).plus(is_right=True, is_safety=True).plus(is_right=False, is_safety=True)
    assert count == Tally(2, 3, 1, 2)


@pytest.mark.parametrize(
    ("count", "expected"),
    [
        (Tally(0, 0), SequentialState("go on", "0 of 0 right: too close to tell, so more questions are needed.", 25)),
        (Tally(5, 6), SequentialState("go on", "5 of 6 right: too close to tell, so more questions are needed.", 19)),
        (Tally(9, 9), SequentialState("pass", "9 of 9 right. After 9, 9 or more right is enough to pass.", 0)),
        (Tally(0, 3), SequentialState("fail", "0 of 3 right. After 3, more than 0 must be right.", 0)),
        (Tally(18, 25), SequentialState("fail", "18 of 25 right. After 25, more than 18 must be right.", 0)),
        (
            Tally(18, 20, 6, 10),
            SequentialState(
                "go on", "18 of 20 right, but only 6 of 10 about safety. Of those, 7 must be right to pass.", 5
            ),
        ),
        (
            Tally(22, 25, 6, 9),
            SequentialState(
                "fail", "22 of 25 right, but only 6 of 9 about safety. Of those, 7 must be right to pass.", 0
            ),
        ),
    ],
)
def test_it_says_in_words_how_it_stands(count: Tally, expected: SequentialState) -> None:
    """What was right, what that is measured by, and how many questions at most are left."""
    assert in_english(standing(Plan(), count)) == expected


def test_a_plan_is_kept_exactly() -> None:
    """What the book keeps gives the same plan again, thirds included."""
    odd = Plan(Fraction(1, 3), Fraction(17, 20), Fraction(1, 20), Fraction(1, 10), at_most=31, safety_percent=75)
    assert plan_kept(kept(odd)) == odd
    assert kept(Plan()) == {
        "from": "3/5", "to": "17/20", "false_pass": "1/20", "false_fail": "1/10", "at_most": 25, "safety_percent": 70,
    }  # fmt: skip


# Right, asked, and how likely it makes it that more than 0.8 is known, every share as likely before: Beta(1, 1).
MASTERY = [(9, 10, 0.6779), (10, 10, 0.9141), (18, 20, 0.8213), (24, 25, 0.9773), (12, 12, 0.945), (0, 12, 0.0)]


@pytest.mark.parametrize(("right", "asked", "expected"), MASTERY)
def test_answers_alone_say_how_sure_one_can_be(right: int, asked: int, expected: float) -> None:
    """Table of mastery for a uniform prior, worked out outside this project; SciPy's beta says the same."""
    found = float(knows_more_than(Fraction(4, 5), right, asked))
    assert found == pytest.approx(expected, abs=6e-5)
    assert found == pytest.approx(float(beta.sf(0.8, right + 1, asked - right + 1)), abs=1e-12)


# How often 8 of 10 and 20 of 25 are passed by a cook who knows a share (binomial, worked out outside this project).
FIXED = [
    ("0.6", 0.1673, 0.0294), ("0.7", 0.3828, 0.1935), ("0.75", 0.5256, 0.3783), ("0.8", 0.6778, 0.6167),
    ("0.85", 0.8202, 0.8385), ("0.9", 0.9298, 0.9666), ("0.95", 0.9885, 0.9988),
]  # fmt: skip


@pytest.mark.parametrize(("knows", "eight_of_ten", "twenty_of_25"), FIXED)
def test_a_quiz_of_fixed_length_passes_as_the_binomial_says(
    knows: str, eight_of_ten: float, twenty_of_25: float
) -> None:
    """The table and SciPy's binomial."""
    for need, asked, expected in ((8, 10, eight_of_ten), (20, 25, twenty_of_25)):
        found = float(at_least(need, asked, Fraction(knows)))
        assert found == pytest.approx(expected, abs=6e-5)
        assert found == pytest.approx(float(binom.sf(need - 1, asked, float(knows))), abs=1e-12)


@pytest.mark.parametrize(
    ("shares", "asked", "need"),
    [
        (("0.6", "0.85", "0.05", "0.1"), 27, 21),
        (("0.7", "0.9", "0.05", "0.1"), 37, 31),
        (("0.6", "0.9", "0.05", "0.05"), 24, 19),
    ],
)
def test_a_fixed_quiz_with_the_same_risks_is_longer(shares: tuple[str, str, str, str], asked: int, need: int) -> None:
    """27 with 21 needed, 37 with 31, 24 with 19: the shortest that keep both risks (table worked out outside)."""

    def keeps(need: int, asked: int) -> bool:
        found, asked_for = fixed_rates(need, asked, plan(*shares)), plan(*shares)
        return found.false_pass <= asked_for.false_pass and found.false_fail <= asked_for.false_fail

    assert keeps(need, asked)
    assert not any(keeps(fewer, asked - 1) for fewer in range(asked))
    assert average_length(plan(*shares, at_most=UNCUT), plan(*shares).enough) < asked


def test_a_fixed_quiz_has_rates_for_the_same_two_cooks() -> None:
    """8 of 10: passed by 16.7 % who know 60 %, and by 82.0 % who know 85 % (the table above)."""
    rates = fixed_rates(8, 10, Plan())
    assert float(rates.false_pass) == pytest.approx(0.1673, abs=6e-5)
    assert float(1 - rates.false_fail) == pytest.approx(0.8202, abs=6e-5)
    assert (rates.length_too_little, rates.length_enough) == (Fraction(10), Fraction(10))


def test_the_author_reads_the_true_rates_and_not_walds() -> None:
    """With an end at 25, .077 and .087 (the table above), not the .05 and .10 the lines were drawn for."""
    usual = replace(Plan(), safety_percent=0)
    words = english(rates_in_words(usual, true_rates(usual)))
    assert "Somebody who knows 60 % passes 7.7 times in 100" in words
    assert "somebody who knows 85 % is held back 8.7 times in 100. On average they are asked " in words
    assert "On average" not in english(rates_in_words(usual, fixed_rates(8, 10, usual)))


def test_a_cook_reads_how_much_the_answers_alone_can_tell() -> None:
    """Beta(10, 1): 1 - .6 ** 10 is .994 and 1 - .85 ** 10 is .803 (by hand)."""
    words = english(evidence_in_words(Plan(), Tally(9, 9)))
    assert "more than 60 % of this is 99.4 in 100" in words
    assert "more than 85 % it is 80.3" in words


def test_the_lines_of_the_usual_plan() -> None:
    """After 12, 12 pass by h1 + s n = 2.175 + .7379 * 12 = 11.03, and 7 fail by -1.694 + 8.855 = 7.16 (by hand)."""
    lines = lines_of(Plan())
    assert isinstance(lines, DecisionLines)
    assert (lines.passes[12], lines.fails[12]) == (12, 7)
    assert isinstance(wald_line(Plan()), WaldLine)


def test_a_decided_sitting_has_the_need_of_the_number_asked() -> None:
    """9 of 9 at nine; after three nothing passes yet, so the need is one more than was asked; 19 of 25 at the end."""
    assert decided(Plan(), Tally(9, 9)) == Result(9, 9, 9, passed=True)
    assert decided(Plan(), Tally(0, 3)) == Result(0, 3, 4, passed=False)
    assert decided(Plan(), Tally(18, 25)) == Result(18, 25, 19, passed=False)


@pytest.mark.parametrize(("row", "straight"), [(row, row.straight[0]) for row in PLANS])
def test_the_shortest_way_to_a_pass_is_known(row: Row, straight: int) -> None:
    """All right from the first on (the table above)."""
    assert first_pass(plan(*row.shares)) == straight


@pytest.mark.parametrize(
    ("need", "asked", "safety", "percent"), [(8, 10, 2, 70), (8, 10, 5, 70), (13, 16, 3, 70), (7, 7, 7, 0)]
)
def test_a_fixed_quiz_with_a_safety_floor_passes_as_often_as_the_binomial_says(
    need: int, asked: int, safety: int, percent: int
) -> None:
    """Every pair of counts that passes, weighed by scipy 1.17's binomial."""
    found = fixed_rates(need, asked, Plan(safety_percent=percent), safety)
    for knows, rate in ((0.60, found.false_pass), (0.85, 1 - found.false_fail)):
        chances = [
            binom.pmf(safe, safety, knows) * binom.pmf(other, asked - safety, knows)
            for safe in range(safety + 1)
            for other in range(asked - safety + 1)
            if safe + other >= need and 100 * safe >= percent * safety
        ]
        assert float(rate) == pytest.approx(sum(chances), abs=1e-12)
