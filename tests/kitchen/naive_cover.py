"""Cover worked out a second time, by trying every seating there is: slow, plain, and with nothing taken from ours."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from itertools import combinations, product


def best_seating(
    slots: Sequence[str], cleared: Mapping[str, Set[str]], planned: Mapping[str, str]
) -> tuple[int, int, int]:
    """Return how many slots can be filled at most, by how few moves, and how few of these part a cook from another.

    A move is a cook who stands elsewhere than planned; the other is planned and cleared where the move begins.
    """
    best = (0, 0, 0)
    for seating in product(["", *cleared], repeat=len(slots)):
        seated = [cook for cook in seating if cook]
        if len(set(seated)) < len(seated):
            continue
        if any(cook and slot not in cleared[cook] for slot, cook in zip(slots, seating, strict=True)):
            continue
        moved = [cook for slot, cook in zip(slots, seating, strict=True) if cook and planned.get(cook) != slot]
        best = max(best, (len(seated), -len(moved), -sum(has_another(cook, cleared, planned) for cook in moved)))
    return best[0], -best[1], -best[2]


def has_another(cook: str, cleared: Mapping[str, Set[str]], planned: Mapping[str, str]) -> bool:
    """Return whether another cook is planned at this cook's station and cleared for it."""
    return any(planned.get(o) == planned.get(cook) and planned.get(o) in cleared[o] for o in cleared if o != cook)


def worst_lack(slots: Sequence[str], cleared: Mapping[str, Set[str]]) -> int:
    """Return the most hands any set of slots lacks: so many slots less the cooks cleared for any of them."""
    return max(
        len(some) - sum(1 for may in cleared.values() if may & set(some))
        for size in range(len(slots) + 1)
        for some in combinations(slots, size)
    )
