"""Cover: a night holds where those on can be seated; otherwise the reason is true, and nobody stands uncleared."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_bipartite_matching

from tests.kitchen.naive_cover import best_seating, has_another, worst_lack
from trainer.kitchen.assignment import cheapest
from trainer.kitchen.cover import Cover, Shortage, cover
from trainer.kitchen.swaps import Move

ANY = frozenset({"grill", "pasta", "saute"})


def on(**cleared: str) -> dict[str, frozenset[str]]:
    """Return where each cook on is cleared, typed as one text."""
    return {cook: frozenset(places.split()) for cook, places in cleared.items()}


def standing(found: Cover) -> dict[str, tuple[str, ...]]:
    """Return who stands at each station."""
    return {one.station: one.standing for one in found.stations}


def test_everybody_stays_where_planned_when_cleared_there() -> None:
    """A plan that holds is left alone, anyone who else could stand there too."""
    found = cover({"grill": 1, "saute": 1}, on(ana="grill saute", bo="saute grill"), {"ana": "saute", "bo": "grill"})
    assert standing(found) == {"grill": ("bo",), "saute": ("ana",)}
    assert (found.holds, found.moves) == (True, ())


def test_a_planned_place_only_says_how() -> None:
    """Planned the wrong way round, the two swap and the service holds: no station cries."""
    found = cover({"grill": 1, "saute": 1}, on(ana="grill", bo="saute"), {"ana": "saute", "bo": "grill"})
    assert found.holds
    assert found.moves == (Move("ana", "saute", "grill"), Move("bo", "grill", "saute"))
    assert (found.swaps, found.no_one, found.shortages) == (1, (), ())


def test_a_ring_of_three_is_two_swaps() -> None:
    """Kwabena to pastry, Adaeze to sauté, Zoë to grill: three cooks move, in two swaps of two."""
    cleared = on(zoe="grill", adaeze="grill saute", kwabena="pastry")
    planned = {"zoe": "pastry", "adaeze": "grill", "kwabena": "saute"}
    found = cover({"grill": 1, "pastry": 1, "saute": 1}, cleared, planned)
    assert found.holds
    assert (len(found.moves), found.swaps) == (3, 2)


def test_who_is_planned_beside_a_cleared_cook_moves_last() -> None:
    """Either could take the grill: Zoë, whose pastry Kwabena takes, goes, and Farrukh goes on learning beside Thảo."""
    cleared = on(farrukh="grill", thao="pasta", kwabena="pastry", adaeze="saute grill", zoe="grill")
    planned = {"farrukh": "pasta", "thao": "pasta", "kwabena": "saute", "adaeze": "grill", "zoe": "pastry"}
    found = cover(dict.fromkeys(("grill", "pasta", "pastry", "saute"), 1), cleared, planned)
    assert [(move.cook, move.stands) for move in found.moves] == [
        ("kwabena", "pastry"),
        ("adaeze", "saute"),
        ("zoe", "grill"),
    ]
    assert (found.holds, found.swaps) == (True, 2)


def test_a_move_that_nobody_answers_is_no_swap() -> None:
    """Bo leaves a station where Ana is cleared as well."""
    found = cover({"grill": 1, "saute": 1}, on(ana="grill", bo="grill saute"), {"ana": "grill", "bo": "grill"})
    assert (found.holds, found.moves, found.swaps) == (True, (Move("bo", "grill", "saute"),), 0)


def test_nobody_on_is_cleared() -> None:
    """Ana is planned at the sauté and learns there: beside is no hand, and nobody else can."""
    found = cover({"grill": 1, "saute": 1}, on(ana="", bo="grill"), {"ana": "saute", "bo": "grill"})
    assert (found.holds, found.no_one, found.shortages) == (False, ("saute",), ())
    assert standing(found) == {"grill": ("bo",), "saute": ()}


def test_one_hand_short_though_each_station_has_somebody_cleared() -> None:
    """One cook is cleared for both: no station has no one, and together they are one hand short."""
    found = cover(
        {"grill": 1, "saute": 1, "pastry": 1}, on(ana="grill saute", bo="pastry"), {"ana": "grill", "bo": "pastry"}
    )
    assert (found.holds, found.no_one) == (False, ())
    assert found.shortages == (Shortage(("grill", "saute"), 2, ("ana",)),)
    assert found.shortages[0].short == 1
    assert standing(found)["grill"] == ("ana",)


def test_stations_that_compete_are_told_together_and_others_apart() -> None:
    """Two pairs of stations short by one each are two reasons; three that share two cooks are one."""
    two = cover(dict.fromkeys("abcd", 1), on(x="a b", y="c d"), {})
    assert [one.stations for one in two.shortages] == [("a", "b"), ("c", "d")]
    one = cover(dict.fromkeys(("grill", "pasta", "saute"), 1), {"x": ANY, "y": ANY}, {})
    assert one.shortages == (Shortage(("grill", "pasta", "saute"), 3, ("x", "y")),)


def test_a_station_may_need_two_hands() -> None:
    """Two hands at one station are two cooks."""
    found = cover({"pasta": 2}, on(x="pasta", y="", z="pasta"), {"x": "pasta"})
    assert standing(found) == {"pasta": ("x", "z")}
    assert cover({"pasta": 2}, on(x="pasta"), {}).shortages == (Shortage(("pasta",), 2, ("x",)),)


def test_a_service_without_needs_or_without_cooks() -> None:
    """Nothing needed holds; needed and nobody on is no one."""
    assert cover({}, on(x="pasta"), {}).holds
    assert cover({"pasta": 1}, {}, {}).no_one == ("pasta",)


def a_night(rng: Random, most: int) -> tuple[dict[str, int], dict[str, frozenset[str]], dict[str, str]]:
    """Return a random service of up to *most* stations and cooks."""
    stations = [f"s{place}" for place in range(rng.randint(1, most))]
    cooks = [f"c{place}" for place in range(rng.randint(0, most))]
    chance = rng.choice((0.2, 0.4, 0.7))
    cleared = {cook: frozenset(s for s in stations if rng.random() < chance) for cook in cooks}
    planned = {cook: rng.choice(stations) for cook in cooks if rng.random() < 0.8}
    return {station: rng.choice((1, 1, 1, 2)) for station in stations}, cleared, planned


def slots_of(needs: Mapping[str, int]) -> list[str]:
    """Return each station as often as it needs a hand."""
    return [station for station, hands in needs.items() for _ in range(hands)]


@pytest.mark.parametrize("seed", range(4))
def test_the_seating_is_the_best_of_all_there_are(seed: int) -> None:
    """Against every seating tried by brute force: as many stand, as few move, and each stands where cleared, once."""
    rng = Random(seed)  # noqa: S311 - a kept seed
    short = 0
    for _ in range(250):
        needs, cleared, planned = a_night(rng, 4)
        found, slots = cover(needs, cleared, planned), slots_of(needs)
        if len(slots) > 5:
            continue
        seated = [(cook, one.station) for one in found.stations for cook in one.standing]
        assert all(station in cleared[cook] for cook, station in seated)
        assert len({cook for cook, _ in seated}) == len(seated)
        moved = [cook for cook, station in seated if planned.get(cook) != station]
        parted = sum(has_another(cook, cleared, planned) for cook in moved)
        assert (len(seated), len(moved), parted) == best_seating(slots, cleared, planned)
        lack = sum(needs[station] for station in found.no_one) + sum(one.short for one in found.shortages)
        assert lack == len(slots) - len(seated) == worst_lack(slots, cleared)
        short += lack > 0
    assert short > 25


def test_every_reason_is_true_on_large_nights() -> None:
    """The stations of a shortage have no other cooks than those named, who are fewer than the hands (Hall 1935)."""
    rng, seen = Random(70), 0  # noqa: S311 - a kept seed
    for _ in range(300):
        needs, cleared, planned = a_night(rng, 14)
        for one in cover(needs, cleared, planned).shortages:
            named = {cook for cook, may in cleared.items() if may & set(one.stations)}
            assert named == set(one.cooks)
            assert len(named) < one.hands == sum(needs[station] for station in one.stations)
            seen += 1
    assert seen > 50


def test_as_many_stand_as_an_outside_matching_seats() -> None:
    """scipy.sparse.csgraph.maximum_bipartite_matching (Hopcroft and Karp) fills as many slots."""
    rng = Random(71)  # noqa: S311 - a kept seed
    for _ in range(200):
        needs, cleared, planned = a_night(rng, 12)
        slots = slots_of(needs)
        may = [[slot in cleared[cook] for cook in cleared] or [False] for slot in slots]
        outside = maximum_bipartite_matching(csr_matrix(may), perm_type="column")
        seated = sum(len(one.standing) for one in cover(needs, cleared, planned).stations)
        assert seated == int((outside >= 0).sum())


def test_the_cheapest_assignment_costs_what_an_outside_one_does() -> None:
    """scipy.optimize.linear_sum_assignment finds the same least cost."""
    rng = Random(72)  # noqa: S311 - a kept seed
    for _ in range(200):
        rows = rng.randint(1, 9)
        columns = rows + rng.randint(0, 5)
        costs = [[rng.randint(0, 9) for _ in range(columns)] for _ in range(rows)]
        given = cheapest(costs)
        assert len(set(given)) == rows
        row_ids, column_ids = linear_sum_assignment(np.array(costs))
        least = int(np.array(costs)[row_ids, column_ids].sum())
        assert sum(row[column] for row, column in zip(costs, given, strict=True)) == least


def test_nothing_to_assign_is_nothing() -> None:
    """No rows, no columns given."""
    assert cheapest([]) == ()
