"""The training plan: the fewest hours of training after which any one person may be missing and every place is filled.

Greedy, then what is not needed is left out, then lines are exchanged one for one. Within 5 % of the least there is on
the instances tried against a solver; exact answers take a solver that a kitchen need not install.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate

Line = tuple[int, int]
"""A cook to be trained for a place, both by their number."""
MOST_BEGINNINGS = 12  # plans worked out from another first line, before the best of them is taken


@dataclass(frozen=True, slots=True)
class Situation:
    """One crew that has to fill its places: the hands each place needs, and who may be called on, both by number."""

    hands: tuple[tuple[int, int], ...]
    crew: int

    @property
    def slots(self) -> tuple[int, ...]:
        """Return the place of every hand that is needed."""
        return tuple(place for place, count in self.hands for _ in range(count))


class _Seating:
    """The most hands of one situation that can be filled, where each place has these cooks."""

    def __init__(self, slots: tuple[int, ...], able: Mapping[int, int]) -> None:
        """Seat as many as can be: `able` has for each place the cooks of the crew who may stand there, a bit each."""
        self._slots, self._able = slots, able
        self._at: dict[int, int] = {}  # cook's bit -> slot
        self._short = [slot for slot in range(len(slots)) if not self._seat(slot, able, self._at, [0])]
        self._tried: dict[Line, bool] = {}
        self.short = len(self._short)

    def _seat(self, slot: int, able: Mapping[int, int], at: dict[int, int], seen: list[int]) -> bool:
        """Seat a slot, moving others on where that takes it."""
        left = able[self._slots[slot]] & ~seen[0]
        while left:
            cook = left & -left
            left ^= cook
            seen[0] |= cook
            other = at.get(cook)
            if other is None or self._seat(other, able, at, seen):
                at[cook] = slot
                return True
            left &= ~seen[0]
        return False

    @cached_property
    def reach(self) -> tuple[set[int], int]:
        """Return the places that compete with an empty one, and the cooks they have; they have no others (Hall)."""
        places = {self._slots[slot] for slot in self._short}
        cooks, to_look_at = 0, list(places)
        while to_look_at:
            new = self._able[to_look_at.pop()] & ~cooks
            cooks |= new
            for cook in _bits(new):
                place = self._slots[self._at[cook]] if cook in self._at else None
                if place is not None and place not in places:
                    places.add(place)
                    to_look_at.append(place)
        return places, cooks

    def fills(self, line: Line) -> bool:
        """Return whether a line fills a hand that is empty: its cook is free, or can be freed."""
        if line not in self._tried:
            cook, place = line
            able, at = {**self._able, place: self._able[place] | 1 << cook}, dict(self._at)
            self._tried[line] = any(self._seat(slot, able, at, [0]) for slot in self._short)
        return self._tried[line]


class _SeatingCache:
    """The seatings of one situation's crew, each worked out once."""

    def __init__(self, situation: Situation) -> None:
        """Begin with none."""
        self.slots, self.crew = situation.slots, situation.crew
        self._places = tuple(place for place, _ in situation.hands)
        self._seatings: dict[tuple[int, ...], _Seating] = {}

    def seating(self, masks: Sequence[int]) -> _Seating:
        """Return the seating where each place has the cooks of *masks*, a bit each."""
        own = tuple(masks[place] & self.crew for place in self._places)
        if own not in self._seatings:
            self._seatings[own] = _Seating(self.slots, dict(zip(self._places, own, strict=True)))
        return self._seatings[own]


def fewest_hours(
    able: Sequence[Set[int]], costs: Mapping[Line, int], situations: Iterable[Situation], kept: Iterable[Line] = ()
) -> tuple[tuple[Line, ...], int]:
    """Return the lines to train, and how many hands stay empty whatever is trained.

    *able* has for each place the cooks who may stand there now; *costs* what each line that may be trained costs, above
    0; lines of *kept* are in the plan whatever they bring.
    """
    search = _Search(_masks(able), [_SeatingCache(one) for one in dict.fromkeys(situations)])
    first = list(dict.fromkeys(kept))
    best = search.plan(costs, first)
    beginnings = search.beginnings(costs, first)[:MOST_BEGINNINGS] if best else []
    while True:
        without = (search.plan({k: c for k, c in costs.items() if k != line}, first) for line in best)
        begun = (search.plan(costs, first, [line]) for line in beginnings)
        better = min((*without, *begun), key=lambda plan: search.worth(plan, costs, first), default=best)
        if search.worth(better, costs, first) >= search.worth(best, costs, first):
            return (*first, *best), search.short([*first, *best])
        best = better


def is_needed(
    line: Line, plan: Iterable[Line], able: Sequence[Set[int]], situations: Sequence[Situation]
) -> Situation | None:
    """Return a situation that fails, or fails by more, without this line of a plan; None where none does."""
    masks = _masks(able)
    whole = _with(masks, plan)
    less = _with(masks, [one for one in plan if one != line])
    caches = ((one, _SeatingCache(one)) for one in situations)
    return next((one for one, cache in caches if cache.seating(less).short > cache.seating(whole).short), None)


def hands_filled(able: Sequence[Set[int]], lines: Iterable[Line], situations: Iterable[Situation]) -> int:
    """Return how many hands of these situations can be filled once some lines are trained."""
    masks = _with(_masks(able), lines)
    return sum(len(one.slots) - _SeatingCache(one).seating(masks).short for one in situations)


class _Search:
    """Plans for the same cooks, places and situations."""

    def __init__(self, masks: list[int], caches: Sequence[_SeatingCache]) -> None:
        self.masks, self.caches = masks, caches

    def short(self, lines: Iterable[Line]) -> int:
        """Return how many hands stay empty once these lines are trained."""
        return _short(_with(self.masks, lines), self.caches)

    def beginnings(self, costs: Mapping[Line, int], first: Sequence[Line]) -> list[Line]:
        """Return the lines that fill something by themselves, those that fill the most for their cost first."""
        masks = _with(self.masks, first)
        filled = _filled(masks, costs, self.caches)
        return sorted((line for line in filled if filled[line]), key=lambda line: (-filled[line] / costs[line], line))

    def worth(self, plan: Iterable[Line], costs: Mapping[Line, int], first: Sequence[Line]) -> tuple[int, int]:
        """Return how many hands stay empty, then what the plan costs: the less the better."""
        return self.short([*first, *plan]), sum(costs[line] for line in plan)

    def plan(self, costs: Mapping[Line, int], first: Sequence[Line], begun: Sequence[Line] = ()) -> list[Line]:
        """Return a plan beside *first*: greedy from what is *begun*, then less what is needless, then exchanged."""
        masks = _with(self.masks, first)
        lines = [*begun, *_greedy(_with(masks, begun), costs, self.caches)]
        least = _short(_with(masks, lines), self.caches)
        lines = _without_needless(masks, lines, costs, self.caches, least)
        return _exchanged(masks, lines, costs, self.caches, least)


def _greedy(masks: list[int], costs: Mapping[Line, int], caches: Sequence[_SeatingCache]) -> Iterator[Line]:
    """Yield lines, each the one that fills the most empty hands for its cost, until none fills any."""
    masks = list(masks)
    while True:
        caches = [cache for cache in caches if cache.seating(masks).short]
        line = _best(masks, costs, caches)
        if line is None:
            return
        yield line
        masks[line[1]] |= 1 << line[0]


def _best(masks: list[int], costs: Mapping[Line, int], caches: Sequence[_SeatingCache]) -> Line | None:
    filled = _filled(masks, costs, caches)
    best = max(filled, key=lambda line: (filled[line] / costs[line], -costs[line], line), default=None)
    return best if best is not None and filled[best] else None


def _filled(masks: list[int], costs: Mapping[Line, int], caches: Sequence[_SeatingCache]) -> dict[Line, int]:
    """Return how many empty hands each line fills that could fill any: a cook beside those the places compete for."""
    filled: dict[Line, int] = {}
    for cache in caches:
        seating = cache.seating(masks)
        places, cooks = seating.reach
        others = cache.crew & ~cooks
        for line in costs:
            cook, place = line
            if place in places and others >> cook & 1:
                filled[line] = filled.get(line, 0) + seating.fills(line)
    return filled


def _without_needless(
    masks: list[int],
    lines: list[Line],
    costs: Mapping[Line, int],
    caches: Sequence[_SeatingCache],
    least: int,
) -> list[Line]:
    """Return the lines without those the others make needless, the dearest first."""
    for line in sorted(lines, key=lambda one: (-costs[one], one)):
        fewer = [one for one in lines if one != line]
        if not _leaves_more_empty(_with(masks, fewer), caches, least):
            lines = fewer
    return lines


def _exchanged(
    masks: list[int],
    lines: list[Line],
    costs: Mapping[Line, int],
    caches: Sequence[_SeatingCache],
    least: int,
) -> list[Line]:
    """Return the lines with each exchanged for a cheaper one that does as well, as often as one is found."""
    is_better = True
    while is_better:
        is_better = False
        for line in sorted(lines, key=lambda one: (-costs[one], one)):
            fewer = [one for one in lines if one != line]
            without = _with(masks, fewer)
            lacking = [cache for cache in caches if cache.seating(without).short]
            cheaper = sorted((c, one) for one, c in costs.items() if c < costs[line] and one not in lines)
            other = next(
                (one for _, one in cheaper if not _leaves_more_empty(_with(without, [one]), lacking, least)), None
            )
            if other is not None:
                lines, is_better = [*fewer, other], True
                lines = _without_needless(masks, lines, costs, caches, least)
                break
    return lines


def _masks(able: Sequence[Set[int]]) -> list[int]:
    """Return the cooks of each place as one number, a bit each."""
    return [sum(1 << cook for cook in cooks) for cooks in able]


def _with(masks: Sequence[int], lines: Iterable[Line]) -> list[int]:
    more = list(masks)
    for cook, place in lines:
        more[place] |= 1 << cook
    return more


def _short(masks: Sequence[int], caches: Iterable[_SeatingCache]) -> int:
    return sum(cache.seating(masks).short for cache in caches)


def _leaves_more_empty(masks: Sequence[int], caches: Iterable[_SeatingCache], least: int) -> bool:
    """Return whether more hands than *least* stay empty; stops at the first of them."""
    return any(empty > least for empty in accumulate(cache.seating(masks).short for cache in caches))


def _bits(mask: int) -> Iterator[int]:
    while mask:
        bit = mask & -mask
        yield bit
        mask ^= bit
