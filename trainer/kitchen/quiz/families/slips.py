"""A sum worked out line by line, with a slip in one line: which line is it.

The slips are those found in print: a borrow gone wrong (36.40 - 8.00 "= 22.40", a butcher's work sheet), a figure
misread (275.83 / 24 "= 11.19"), two figures swapped (1.654 for 1.645, an old page of the NIST e-Handbook), a round
number for the exact one (750 - 300 "= 400"), the point one place off.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache
from random import Random

from trainer.kitchen.quiz.families import batches, butchery, buying, costs, dough, solutions, stock, yields
from trainer.kitchen.quiz.family import (
    ChoiceFamily,
    ChoiceItem,
    Counted,
    Draw,
    Numbers,
    NumericFamily,
    Option,
    counted,
    random_of,
    span,
)
from trainer.kitchen.quiz.picks import Picks
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.wording import digits, with_digits

SUMS: tuple[NumericFamily, ...] = (
    batches.SCALE_BY_YIELD,
    batches.SCALE_BY_PORTION,
    batches.SCALE_BY_INGREDIENT,
    yields.YIELD_PERCENT,
    butchery.BUTCHER_CARD,
    butchery.BUTCHER_PORTION,
    dough.BAKERS_PERCENT,
    dough.HYDRATION_WITH_EGGS,
    dough.FLOUR_FROM_DOUGH,
    costs.COST_PER_PORTION,
    solutions.SALT_BRINE,
    stock.PAR_LEVEL,
    stock.CANS_FOR_GUESTS,
    buying.PACKS_TO_BUY,
)
"""Sums of three lines or more, so that nobody finds the slip by tossing a coin."""

DECIMALS = re.compile(r"\d+(?:\.\d+)?")
LEAST_OFF = Fraction(3, 100)


def _swapped(picks: Picks, figures: str) -> str:
    """Return the number with two neighbouring figures swapped."""
    places = [str(place) for place in range(len(figures) - 1) if figures[place : place + 2].isdigit()]
    if not places:
        return figures
    place = int(picks.one(places))
    return figures[:place] + figures[place + 1] + figures[place] + figures[place + 2 :]


def _one_figure(picks: Picks, figures: str) -> int:
    """Return the place of one figure of a number."""
    return int(picks.one([str(place) for place, figure in enumerate(figures) if figure.isdigit()]))


def _misread(picks: Picks, figures: str) -> str:
    """Return the number with one figure taken for another."""
    place, off = _one_figure(picks, figures), int(picks.one([str(each) for each in range(2, 9)]))
    return figures[:place] + str((int(figures[place]) + off) % 10) + figures[place + 1 :]


def _one_borrow_off(picks: Picks, figures: str) -> str:
    """Return the number with one figure too much or too little, as a forgotten carry or borrow leaves it."""
    place = _one_figure(picks, figures)
    figure = int(figures[place])
    return figures[:place] + str(figure - 1 if figure else 1) + figures[place + 1 :]


def _round_number(_: Picks, figures: str) -> str:
    """Return the number with nothing left after its first figure."""
    whole = figures.split(".", maxsplit=1)[0]
    return whole[0] + "0" * (len(whole) - 1)


def _point_moved(_: Picks, figures: str) -> str:
    """Return the number ten times as large."""
    whole, part = figures.partition(".")[::2]
    moved = whole + (part[:1] or "0") + (f".{part[1:]}" if part[1:] else "")
    return moved.lstrip("0") or figures


SLIPS: tuple[tuple[str, Callable[[Picks, str], str]], ...] = (
    ("figures_swapped", _swapped),
    ("figure_misread", _misread),
    ("carry_forgotten", _one_borrow_off),
    ("round_number", _round_number),
    ("point_moved", _point_moved),
)


def _result(line: Sentence) -> str:
    """Return the figures a line comes to; empty where it comes to no plain number."""
    found = digits(line.values.get("result", ""))
    return found if DECIMALS.fullmatch(found) else ""


def _slipped(picks: Picks, slip: Callable[[Picks, str], str], line: Sentence) -> Sentence | None:
    """Return a line with a slip in its result; None where it would be mere rounding."""
    right = _result(line)
    wrong = slip(picks, right)
    leads_with_zero = wrong.startswith("0") and not wrong.startswith("0.")
    if leads_with_zero or abs(Fraction(wrong) - Fraction(right)) <= LEAST_OFF * Fraction(right):
        return None
    return replace(line, values={**line.values, "result": with_digits(line.values["result"], wrong)})


@cache
def _ranges_of(place: int) -> Mapping[str, Counted]:
    return {name: counted(each[:3]) for name, each in SUMS[place].ranges.items()}


def _sum_drawn(rng: Random, numbers: Numbers) -> Numbers:
    """Return the numbers with those of the sum that is worked out."""
    kind = SUMS[int(numbers["sum"]) - 1]
    return {**numbers, **kind.more(rng, random_of(rng, _ranges_of(int(numbers["sum"]) - 1)))}


def _asked(draw: Draw, kind: NumericFamily) -> Sentence:
    """Return the sum as it is asked, its words picked."""
    lists = draw.words.families[kind.name].words
    picked = {
        slot: lists[slot][int(draw.picks.one([str(place) for place in range(len(lists[slot]))]))] for slot in kind.words
    }
    return replace(kind.ask(draw.numbers, picked), family=kind.name)


def _choose_line(draw: Draw) -> ChoiceItem | None:
    """Return a sum with its lines, one of them slipped; None where the draw does not fit."""
    kind = SUMS[int(draw.numbers["sum"]) - 1]
    if not kind.fits(draw.numbers):
        return None
    asked = _asked(draw, kind)
    lines = [replace(line, family=kind.name, price="") for line in kind.solve(draw.numbers)]
    how, slip = SLIPS[int(draw.numbers["slip"]) - 1]
    place = int(draw.picks.one([str(each) for each, line in enumerate(lines) if _result(line)]))
    wrong = _slipped(draw.picks, slip, lines[place])
    if wrong is None:
        return None
    shown = [*lines[:place], wrong, *lines[place + 1 :]]
    return ChoiceItem(
        sentence("ask", asked=asked),
        tuple(_as_option(number, line, number == place) for number, line in enumerate(shown)),
        (
            sentence("line_should_read", number=place + 1, line=lines[place]),
            sentence("what_went_wrong", slip=sentence(how)),
        ),
    )


def _as_option(number: int, line: Sentence, is_slip: bool) -> Option:
    if is_slip:
        return Option(str(number), line)
    return Option(str(number), line, "right_line_doubted", sentence("line_is_right", number=number + 1))


SPOT_SLIP = ChoiceFamily(
    name="spot_slip",
    level="in a shift",
    unit="",
    ranges={
        "sum": span(1, len(SUMS), 1, "which kind of sum"),
        "slip": span(1, len(SLIPS), 1, "which slip: swapped, misread, carry, round number, point"),
    },
    words=(),
    formula="the line whose own sum does not hold",
    checked_against="Each line worked out anew in the tests. Slips as seen in print: 36.40 - 8.00 '= 22.40', "
    "275.83 / 24 '= 11.19', z '= 1.654', 750 - 300 '= 400'.",
    choose=_choose_line,
    slips=("right_line_doubted",),
    more=_sum_drawn,
)
