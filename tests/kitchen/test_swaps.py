"""Swaps: two cooks at a time, the plan after them, and what of a day was changed."""

from __future__ import annotations

from datetime import date
from random import Random

import pytest

from trainer.kitchen.nights import Place
from trainer.kitchen.swaps import Move, Moved, Swap, moved_between, places_after, swaps_of

DAY = date(2026, 11, 28)


def place(cook: str, station: str, *, service: str = "dinner", runs: bool = True, beside: str = "") -> Place:
    """Return a place of the day."""
    return Place(DAY, service, cook, station, runs, beside)


def test_two_who_want_each_others_place_change_once() -> None:
    """One swap names both and where each goes."""
    found = swaps_of((Move("ana", "grill", "saute"), Move("bo", "saute", "grill")))
    assert found == (Swap("ana", "saute", "bo", "grill"),)


def test_two_pairs_at_the_same_stations_are_two_swaps() -> None:
    """Not three: each of two grill cooks changes with one of the sauté."""
    moves = [Move(cook, "grill", "saute") for cook in "ab"] + [Move(cook, "saute", "grill") for cook in "cd"]
    assert len(swaps_of(moves)) == 2


def test_moves_that_are_no_exchange_are_no_swaps() -> None:
    """Bo goes to a station nobody leaves."""
    assert swaps_of((Move("bo", "grill", "saute"),)) == ()


@pytest.mark.parametrize("seed", range(200))
def test_the_swaps_lead_everybody_where_they_are_to_stand(seed: int) -> None:
    """Carried out one after another on a drawn exchange they end in it, in fewer swaps than cooks who move."""
    draw = Random(seed)  # noqa: S311 - for a test
    stations = [draw.choice(["cold", "grill", "pasta", "pastry", "saute"]) for _ in range(draw.randint(2, 8))]
    goals = draw.sample(stations, len(stations))
    pairs = zip(stations, goals, strict=True)
    moves = tuple(Move(f"cook{n}", at, to) for n, (at, to) in enumerate(pairs) if at != to)
    at = {move.cook: move.planned for move in moves}
    swaps = swaps_of(moves)
    for one in swaps:
        at[one.one], at[one.other] = at[one.other], at[one.one]
        assert (at[one.one], at[one.other]) == (one.one_goes, one.other_goes)
    assert at == {move.cook: move.stands for move in moves}
    assert len(swaps) < max(len(moves), 1)


def test_the_plan_after_the_moves() -> None:
    """Who moves runs the new station; who trailed beside stays, beside whoever comes; lunch stands as it did."""
    before = (
        place("zoe", "pastry", runs=False),
        place("kwabena", "saute"),
        place("lucja", "saute", runs=False, beside="kwabena"),
        place("zoe", "grill", service="lunch"),
    )
    moves = (Move("zoe", "pastry", "saute"), Move("kwabena", "saute", "pastry"))
    assert places_after(before, "dinner", moves) == (
        place("zoe", "saute"),
        place("kwabena", "pastry"),
        place("lucja", "saute", runs=False, beside="zoe"),
        place("zoe", "grill", service="lunch"),
    )


def test_a_hand_that_holds_two_stations_stands_at_both() -> None:
    """Zoë takes cold side and grill together; Ana, who held them, goes to the sauté alone."""
    before = (place("zoe", "saute"), place("ana", "cold"), place("ana", "grill"))
    moves = (Move("zoe", "saute", "cold+grill"), Move("ana", "cold+grill", "saute"))
    assert places_after(before, "dinner", moves) == (place("zoe", "cold"), place("zoe", "grill"), place("ana", "saute"))


def test_what_was_changed_is_told_by_cook_and_service() -> None:
    """Somebody new at a service was not moved, and who stands where they were is no change."""
    before = (place("ana", "grill"), place("bo", "saute"))
    after = (place("ana", "saute"), place("bo", "saute"), place("eve", "grill"))
    assert moved_between(before, after) == (Moved("ana", "dinner", "grill", "saute"),)
