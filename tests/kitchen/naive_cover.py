"""Cover worked out a second time, by trying every seating there is: slow, plain, and with nothing taken from ours."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from itertools import combinations, product


def best_seating(slots: Sequence[str], cleared: Mapping[str, Set[str]], planned: Mapping[str, str]) -> tuple[int, int]:
    """Return how many slots can be filled at most, and the fewest cooks who then stand elsewhere than planned."""
    best = (0, 0)
    for seating in product(["", *cleared], repeat=len(slots)):
        seated = [cook for cook in seating if cook]
        if len(set(seated)) < len(seated):
            continue
        if any(cook and slot not in cleared[cook] for slot, cook in zip(slots, seating, strict=True)):
            continue
        moved = sum(bool(cook) and planned.get(cook) != slot for slot, cook in zip(slots, seating, strict=True))
        best = max(best, (len(seated), -moved))
    return best[0], -best[1]


def worst_lack(slots: Sequence[str], cleared: Mapping[str, Set[str]]) -> int:
    """Return the most hands any set of slots lacks: so many slots less the cooks cleared for any of them."""
    return max(
        len(some) - sum(1 for may in cleared.values() if may & set(some))
        for size in range(len(slots) + 1)
        for some in combinations(slots, size)
    )
