"""A ring of second places brings nearly all that everybody everywhere would."""

from __future__ import annotations

from itertools import combinations, pairwise, permutations
from random import Random

import pytest

from trainer.kitchen.rings import Ring, ring_of
from trainer.kitchen.training_plan import Line, Situation, hands_filled

PLACES, UNIT = 10, 10


def jordan_and_graves(rng: Random) -> Situation:
    """Return one year of ten products, each asked for normally with mean 100 and deviation 40, 20 to 180, in tens."""
    asked: list[int] = []
    while len(asked) < PLACES:
        drawn = rng.gauss(100, 40)
        if 20 <= drawn <= 180:
            asked.append(round(drawn / UNIT))
    return Situation(tuple(enumerate(asked)), (1 << PLACES * 100 // UNIT) - 1)


@pytest.mark.parametrize(
    ("second", "sold"), [(0, 853.8), (1, 949.6), (PLACES - 1, 953.2)], ids=["one place each", "a ring", "everywhere"]
)
def test_ten_plants_sell_what_jordan_and_graves_say(second: int, sold: float) -> None:
    """Ten plants of 100 units each, in tens; a plant that makes the next product too closes the ring.

    Jordan and Graves 1995 (from memory): 853, 950 and 954 units; a simulation of 3,000 years: 853.8, 949.6 and 953.2,
    standard error 1.2. Here 150 years, standard error about 5.
    """
    years = [jordan_and_graves(rng) for rng in map(Random, range(150))]
    plants = [set(range(place * UNIT, (place + 1) * UNIT)) for place in range(PLACES)]
    lines = [
        (unit, (place + step) % PLACES)
        for place, units in enumerate(plants)
        for unit in units
        for step in range(1, second + 1)
    ]
    found = hands_filled(plants, lines, years) * UNIT / len(years)
    assert found == pytest.approx(sold, abs=12)


def one_each(places: int, costs: dict[Line, int] | None = None) -> tuple[list[set[int]], dict[Line, int]]:
    """Return as many cooks as places, each able at one, and what every other place costs each: 60 where not told."""
    able = [{place} for place in range(places)]
    told = {(cook, place): 60 for cook in range(places) for place in range(places) if cook != place}
    return able, told | (costs or {})


def test_each_place_shares_a_cook_of_its_own_with_the_next() -> None:
    """The lines join all places in one ring: each cook learns once, each place is learned once."""
    able, costs = one_each(6)
    found = ring_of(able, costs, [])
    assert found is not None
    joined = {frozenset({cook, place}) for cook, place in found.lines}
    assert len(found.lines) == len(joined) == 6
    way, left = [0], set(joined)
    while left:
        step = next(one for one in left if way[-1] in one)
        left.discard(step)
        way.append(next(iter(step - {way[-1]})))
    assert way[-1] == 0
    assert len(set(way)) == 6


def test_a_ring_costs_about_the_least_a_ring_can_cost() -> None:
    """Against every way round, over a hundred small kitchens: within a twentieth of the least."""
    ours = least = 0
    for seed in range(100):
        rng = Random(seed)  # noqa: S311 - a made kitchen
        able, costs = one_each(5, {(c, p): rng.randrange(10, 100) for c in range(5) for p in range(5) if c != p})
        found = ring_of(able, costs, [])
        assert found is not None
        ours += sum(costs[line] for line in found.lines)
        least += least_of_all(costs)
    assert least <= ours <= 1.05 * least


def least_of_all(costs: dict[Line, int]) -> int:
    """Return the least any ring of five costs whose cooks are able at one place each: all learn one way round."""
    ways = (list(pairwise([0, *rest, 0])) for rest in permutations(range(1, 5)))
    return min(sum(costs[line] for line in way) for way in ways)


def test_a_ring_that_stands_needs_no_training() -> None:
    """Where every two neighbours share a cook already, nothing is advised."""
    able = [{0, 2}, {1, 0}, {2, 1}]
    assert ring_of(able, {(0, 2): 60, (1, 0): 60, (2, 1): 60}, []) is None


def test_two_places_are_no_ring() -> None:
    """A pair is told by the plan itself."""
    able, costs = one_each(2)
    assert ring_of(able, costs, []) is None


def test_nobody_is_put_where_they_may_not_be_trained() -> None:
    """A place that no other cook may learn, and whose cook may learn nothing, lies in no ring."""
    able, costs = one_each(4)
    barred = {line: cost for line, cost in costs.items() if 3 not in line}
    assert ring_of(able, barred, []) is None


def test_a_ring_passes_a_spare_hand_on_to_where_it_is_missing() -> None:
    """Six cooks at four places, two of them doubled: any one missing, all hands are there; any two, most."""
    able, costs = one_each(4)
    able[0].add(4)
    able[1].add(5)
    hands = tuple((place, 1) for place in range(4))
    for missing, now in ((1, 22), (2, 48)):
        crews = [sum(1 << cook for cook in range(6) if cook not in gone) for gone in combinations(range(6), missing)]
        found = ring_of(able, costs, [Situation(hands, crew) for crew in crews])
        assert found is not None
        assert len(found.lines) == 4
        taught = [cooks | {cook for cook, place in found.lines if place == at} for at, cooks in enumerate(able)]
        here = [set(range(6)) - set(gone) for gone in combinations(range(6), missing)]
        assert (found.now, found.filled) == (now, sum(most_filled(taught, crew) for crew in here))
        assert found.now < found.filled


def most_filled(able: list[set[int]], crew: set[int]) -> int:
    """Return the most places that can be filled, every order of the crew tried."""
    return max(sum(cook in able[place] for place, cook in enumerate(order)) for order in permutations(crew, len(able)))


def test_a_ring_that_brings_little_is_not_advised() -> None:
    """With nobody to spare no training fills a place more, and half of what there is to gain is not nearly all."""
    able, costs = one_each(5)
    nobody_spare = ring_of(able, costs, [Situation(tuple((place, 1) for place in range(5)), 0b00111)])
    assert nobody_spare is not None
    assert not nobody_spare.brings_nearly_all
    assert not Ring((), hands=10, now=4, filled=7, at_most=10).brings_nearly_all
    assert Ring((), hands=100, now=0, filled=95, at_most=100).brings_nearly_all
