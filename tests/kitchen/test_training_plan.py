"""The training plan against a solver: as many places filled as can be, for the least hours there are or nearly so."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix

from trainer.kitchen.training_plan import Line, Situation, fewest_hours, is_needed

WITHIN = 1.05  # of the least hours there are

Instance = tuple[Any, Any, list[int]]


def instance(seed: int, cooks: int, slots: list[int], density: float) -> Instance:
    """Return who is cleared where, what each training costs (4 to 16 hours), and the hands of each station."""
    rng = np.random.default_rng(seed)
    cleared = rng.random((cooks, len(slots))) < density
    costs = rng.integers(4, 17, (cooks, len(slots)))
    costs[cleared] = 0
    return cleared, costs, slots


def planned(found: Instance) -> tuple[list[Line], int, int]:
    """Return our plan for any one cook missing: its lines, the places that stay empty, its hours."""
    cleared, costs, slots = found
    cooks, places = cleared.shape
    able = [{cook for cook in range(cooks) if cleared[cook, place]} for place in range(places)]
    priced = {(c, p): int(costs[c, p]) for c in range(cooks) for p in range(places) if not cleared[c, p]}
    lines, short = fewest_hours(able, priced, situations(cooks, slots))
    return list(lines), short, sum(priced[line] for line in lines)


def situations(cooks: int, slots: list[int]) -> list[Situation]:
    everybody = (1 << cooks) - 1
    return [Situation(tuple(enumerate(slots)), everybody & ~(1 << gone)) for gone in range(cooks)]


def least_hours(found: Instance) -> float:
    """Return the least hours there are, by HiGHS: who stands where without each cook, in one mixed-integer program."""
    cleared, costs, slots = found
    cooks, places = cleared.shape
    pairs = cooks * places
    rows: list[tuple[dict[int, int], float, float]] = []
    for gone in range(cooks):
        base = pairs * (gone + 1)
        for cook in range(cooks):
            for place in range(places):
                own = {base + cook * places + place: 1}
                if cook != gone and not cleared[cook, place]:
                    own[cook * places + place] = -1
                rows.append((own, -np.inf, int(cook != gone and cleared[cook, place])))
            rows.append(({base + cook * places + place: 1 for place in range(places)}, -np.inf, 1))
        rows += [
            ({base + cook * places + place: 1 for cook in range(cooks)}, slots[place], slots[place])
            for place in range(places)
        ]
    matrix = lil_matrix((len(rows), pairs * (cooks + 1)))
    for number, (row, _, _) in enumerate(rows):
        for column, value in row.items():
            matrix[number, column] = value
    cost = np.concatenate([costs.ravel(), np.zeros(pairs * cooks)])
    limits = LinearConstraint(matrix.tocsr(), [low for _, low, _ in rows], [high for _, _, high in rows])
    whole = np.concatenate([np.ones(pairs), np.zeros(pairs * cooks)])
    solved = milp(cost, constraints=limits, integrality=whole, bounds=Bounds(0, 1))
    assert solved.success
    return float(solved.fun)


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("density", [0.15, 0.3])
def test_the_hours_are_the_least_there_are_or_nearly(seed: int, density: float) -> None:
    """Twelve cooks and six stations, any one cook missing: within 5 % of what HiGHS proves to be the least."""
    found = instance(seed, 12, [1] * 6, density)
    lines, short, hours = planned(found)
    assert short == 0
    assert hours <= WITHIN * least_hours(found) + 1e-6
    assert len(set(lines)) == len(lines)


def test_stations_that_need_two_hands() -> None:
    """Twenty cooks and eight stations, two of which need two hands."""
    found = instance(5, 20, [1, 1, 1, 2, 1, 1, 1, 2], 0.1)
    _, short, hours = planned(found)
    assert short == 0
    assert hours == pytest.approx(least_hours(found))


@pytest.mark.parametrize("seed", range(6))
def test_no_line_of_a_plan_is_needless(seed: int) -> None:
    """Each line has a situation that fails without it, and nobody is trained for what they may do already."""
    cleared, costs, slots = instance(seed, 12, [1] * 6, 0.2)
    lines, _, _ = planned((cleared, costs, slots))
    able = [{cook for cook in range(12) if cleared[cook, place]} for place in range(6)]
    asked = situations(12, slots)
    assert all(is_needed(line, lines, able, asked) is not None for line in lines)
    assert not any(cleared[line] for line in lines)


def test_what_no_training_fills_is_counted() -> None:
    """Two hands and one cook: one place stays empty whatever is trained, and nobody is trained in vain."""
    lines, short = fewest_hours([{0}, set()], {(0, 1): 5}, [Situation(((0, 1), (1, 1)), 1)])
    assert (lines, short) == ((), 1)


def test_a_line_that_is_kept_stays_and_counts() -> None:
    """What somebody wants in the plan is in it, and nothing dearer is added beside it."""
    situation = [Situation(((0, 1),), 0b11)]
    assert fewest_hours([set()], {(0, 0): 5, (1, 0): 9}, situation) == (((0, 0),), 0)
    assert fewest_hours([set()], {(0, 0): 5, (1, 0): 9}, situation, kept=[(1, 0)]) == (((1, 0),), 0)


def test_nothing_to_plan_for() -> None:
    """Without a service, or with everybody cleared, nothing is trained."""
    assert fewest_hours([], {}, []) == ((), 0)
    assert fewest_hours([{0, 1}], {}, situations(2, [1])) == ((), 0)
