"""A sum worked out line by line, with a slip in one line: which line is it.

The slips are those found in print: a borrow gone wrong (36.40 - 8.00 "= 22.40", a butcher's work sheet), a figure
misread (275.83 / 24 "= 11.19"), two figures swapped (1.654 for 1.645, an old page of the NIST e-Handbook), a round
number for the exact one (750 - 300 "= 400"), the point one place off.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from fractions import Fraction
from random import Random
from typing import Any

from trainer.kitchen.quiz.choices import in_order
from trainer.kitchen.quiz.families import batches, butchery, buying, costs, dough, solutions, stock, yields
from trainer.kitchen.quiz.family import Choosing, Drawn, Posed, Sum, span
from trainer.kitchen.quiz.making import drawn, one_of
from trainer.kitchen.quiz.question import Choice
from trainer.recipe_math.saying import Saying, joined, say

SUMS: tuple[Sum, ...] = (
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

RESULT = re.compile(r"(?<== )(about )?(\d+(?:\.\d+)?)(?=[^=]*$)")
IN_DOLLARS = re.compile(r": \$[\d.]+( a pound)?\.$")
LEAST_OFF = Fraction(3, 100)


def _swapped(rng: Random, figures: str) -> str:
    """Return the number with two neighbouring figures swapped."""
    places = [place for place in range(len(figures) - 1) if figures[place : place + 2].isdigit()]
    if not places:
        return figures
    place = rng.choice(places)
    return figures[:place] + figures[place + 1] + figures[place] + figures[place + 2 :]


def _misread(rng: Random, figures: str) -> str:
    """Return the number with one figure taken for another."""
    place = rng.choice([place for place, figure in enumerate(figures) if figure.isdigit()])
    return figures[:place] + str((int(figures[place]) + rng.randint(2, 8)) % 10) + figures[place + 1 :]


def _one_borrow_off(rng: Random, figures: str) -> str:
    """Return the number with one figure too much or too little, as a forgotten carry or borrow leaves it."""
    place = rng.choice([place for place, figure in enumerate(figures) if figure.isdigit()])
    figure = int(figures[place])
    return figures[:place] + str(figure - 1 if figure else 1) + figures[place + 1 :]


def _round_number(_: Random, figures: str) -> str:
    """Return the number with nothing left after its first figure."""
    whole = figures.split(".", maxsplit=1)[0]
    return whole[0] + "0" * (len(whole) - 1)


def _point_moved(_: Random, figures: str) -> str:
    """Return the number ten times as large."""
    whole, part = figures.partition(".")[::2]
    moved = whole + (part[:1] or "0") + (f".{part[1:]}" if part[1:] else "")
    return moved.lstrip("0") or figures


SLIPS: tuple[tuple[str, Callable[[Random, str], str]], ...] = (
    (say("two figures were swapped"), _swapped),
    (say("one figure was misread"), _misread),
    (say("a carry or a borrow was forgotten"), _one_borrow_off),
    (say("a round number took the place of the result"), _round_number),
    (say("the point was moved one place"), _point_moved),
)


def _slipped(rng: Random, slip: Callable[[Random, str], str], found: re.Match[str]) -> str | None:
    """Return the line a result was found in, with a slip in the result; None where it would be mere rounding."""
    line, right = found.string, found[2]
    wrong = slip(rng, right)
    leads_with_zero = wrong.startswith("0") and not wrong.startswith("0.")
    if leads_with_zero or abs(Fraction(wrong) - Fraction(right)) <= LEAST_OFF * Fraction(right):
        return None
    wanted = line[: found.start(2)] + wrong + line[found.end(2) :]
    return next((changed for changed in _with_value(line, right, wrong) if changed == wanted), wanted)


def _with_value(line: Any, right: str, wrong: str) -> Iterator[str]:  # noqa: ANN401 - whatever a line is filled with
    """Return a line with one of its values put wrong, once for each value that is the right one."""
    if not isinstance(line, Saying):
        yield from [wrong] if str(line) == right else []
        return
    for name, value in line.values.items():
        for changed in _with_value(value, right, wrong):
            yield say(line.pattern, **{**line.values, name: changed})


def _unpriced(line: str) -> str:
    """Return a line without the price it comes to, which would tell whether its result is right."""
    return joined([line.values["part0"], "."], "") if isinstance(line, Saying) and IN_DOLLARS.search(line) else line


def _worked(rng: Random, kind: Sum) -> tuple[str, tuple[str, ...]] | None:
    """Return a sum as asked, and its lines, from one draw; None where the draw does not fit."""
    numbers = kind.more(rng, drawn(rng, {name: each[:3] for name, each in kind.ranges.items()}))
    chosen = {name: one_of(rng, text) for name, text in kind.words.items()}
    return (kind.ask(numbers, chosen), kind.solve(numbers)) if kind.fits(numbers) else None


def _choose_line(draw: Drawn) -> Posed | None:
    rng = draw.rng
    worked = _worked(rng, SUMS[int(draw.numbers["sum"]) - 1])
    if worked is None:
        return None
    asked, lines = worked[0], [_unpriced(line) for line in worked[1]]
    how, slip = SLIPS[int(draw.numbers["slip"]) - 1]
    results = [(place, found) for place, line in enumerate(lines) if (found := RESULT.search(line))]
    place, found = results[rng.randrange(len(results))]
    wrong = _slipped(rng, slip, found)
    if wrong is None:
        return None
    shown = [*lines[:place], wrong, *lines[place + 1 :]]
    return Posed(
        say(
            "{asked} Here is how a cook worked it out. One line has a slip in its own sum; the others are right. "
            "Which line is it?",
            asked=asked,
        ),
        in_order(_as_choice(number, line, number == place) for number, line in enumerate(shown)),
        (
            say("Line {number} should read: {line}", number=place + 1, line=lines[place]),
            say("What went wrong there: {slip}.", slip=how),
        ),
    )


def _as_choice(number: int, line: str, is_slip: bool) -> Choice:
    if is_slip:
        return Choice("", line, is_right=True)
    says = say(
        "Line {number} is right. Work out each line anew and compare what stands after its last equals sign.",
        number=number + 1,
    )
    return Choice("", line, is_right=False, name="right_line_doubted", says=says)


SPOT_SLIP = Choosing(
    name="spot_slip",
    title=say("Which line of a worked sum has a slip"),
    level="in a shift",
    unit="",
    ranges={
        "sum": span(1, len(SUMS), 1, "which kind of sum"),
        "slip": span(1, len(SLIPS), 1, "which slip: swapped, misread, carry, round number, point"),
    },
    words={},
    formula="the line whose own sum does not hold",
    checked_against="Each line worked out anew in the tests. Slips as seen in print: 36.40 - 8.00 '= 22.40', "
    "275.83 / 24 '= 11.19', z '= 1.654', 750 - 300 '= 400'.",
    choose=_choose_line,
    tells={"right_line_doubted": say("Takes a line that holds for the one with the slip.")},
    advises={"right_line_doubted": say("You took a line that holds. Work out every line by itself before you choose.")},
)
