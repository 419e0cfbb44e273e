"""The training plan: the fewest hours of training after which any one person may be missing and every place is filled.

Greedy, then what is not needed is left out, then lines are exchanged one for one. Within 5 % of the least there is on
the instances tried against a solver; exact answers take a solver that a kitchen need not install.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from functools import cached_property

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


class _Crew:
    """The crew of one situation, and every seating of it that was worked out."""

    def __init__(self, situation: Situation) -> None:
        """Begin with none."""
        self.slots, self.crew = situation.slots, situation.crew
        self._places = tuple(place for place, _ in situation.hands)
        self._seatings: dict[tuple[int, ...], _Seating] = {}

    def seated(self, masks: Sequence[int]) -> _Seating:
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
    search = _Search(
        [sum(1 << cook for cook in cooks) for cooks in able], [_Crew(one) for one in dict.fromkeys(situations)]
    )
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
    masks = [sum(1 << cook for cook in cooks) for cooks in able]
    whole = _with(masks, plan)
    less = _with(masks, [one for one in plan if one != line])
    crews = ((one, _Crew(one)) for one in situations)
    return next((one for one, crew in crews if crew.seated(less).short > crew.seated(whole).short), None)


def hands_filled(able: Sequence[Set[int]], lines: Iterable[Line], situations: Iterable[Situation]) -> int:
    """Return how many hands of these situations can be filled once some lines are trained."""
    masks = _with([sum(1 << cook for cook in cooks) for cooks in able], lines)
    return sum(len(one.slots) - _Crew(one).seated(masks).short for one in situations)


class _Search:
    """Plans for the same cooks, places and situations."""

    def __init__(self, masks: list[int], asked: Sequence[_Crew]) -> None:
        self.masks, self.asked = masks, asked

    def short(self, lines: Iterable[Line]) -> int:
        """Return how many hands stay empty once these lines are trained."""
        return _short(_with(self.masks, lines), self.asked)

    def beginnings(self, costs: Mapping[Line, int], first: Sequence[Line]) -> list[Line]:
        """Return the lines that fill something by themselves, those that fill the most for their cost first."""
        masks = _with(self.masks, first)
        filled = _filled(masks, costs, self.asked)
        return sorted((line for line in filled if filled[line]), key=lambda line: (-filled[line] / costs[line], line))

    def worth(self, plan: Iterable[Line], costs: Mapping[Line, int], first: Sequence[Line]) -> tuple[int, int]:
        """Return how many hands stay empty, then what the plan costs: the less the better."""
        return self.short([*first, *plan]), sum(costs[line] for line in plan)

    def plan(self, costs: Mapping[Line, int], first: Sequence[Line], begun: Sequence[Line] = ()) -> list[Line]:
        """Return a plan beside *first*: greedy from what is *begun*, then less what is needless, then exchanged."""
        masks = _with(self.masks, first)
        lines = [*begun, *_greedy(_with(masks, begun), costs, self.asked)]
        least = _short(_with(masks, lines), self.asked)
        lines = _without_needless(masks, lines, costs, self.asked, least)
        return _exchanged(masks, lines, costs, self.asked, least)


def _greedy(masks: list[int], costs: Mapping[Line, int], asked: Sequence[_Crew]) -> Iterator[Line]:
    """Yield lines, each the one that fills the most empty hands for its cost, until none fills any."""
    masks = list(masks)
    while True:
        asked = [one for one in asked if one.seated(masks).short]
        line = _best(masks, costs, asked)
        if line is None:
            return
        yield line
        masks[line[1]] |= 1 << line[0]


def _best(masks: list[int], costs: Mapping[Line, int], asked: Sequence[_Crew]) -> Line | None:
    filled = _filled(masks, costs, asked)
    best = max(filled, key=lambda line: (filled[line] / costs[line], -costs[line], line), default=None)
    return best if best is not None and filled[best] else None


def _filled(masks: list[int], costs: Mapping[Line, int], asked: Sequence[_Crew]) -> dict[Line, int]:
    """Return how many empty hands each line fills that could fill any: a cook beside those the places compete for."""
    filled: dict[Line, int] = {}
    for one in asked:
        seating = one.seated(masks)
        places, cooks = seating.reach
        could = one.crew & ~cooks
        for line in costs:
            cook, place = line
            if place in places and could >> cook & 1:
                filled[line] = filled.get(line, 0) + seating.fills(line)
    return filled


def _without_needless(
    masks: list[int],
    lines: list[Line],
    costs: Mapping[Line, int],
    asked: Sequence[_Crew],
    least: int,
) -> list[Line]:
    """Return the lines without those the others make needless, the dearest first."""
    for line in sorted(lines, key=lambda one: (-costs[one], one)):
        fewer = [one for one in lines if one != line]
        if not _leaves_more(_with(masks, fewer), asked, least):
            lines = fewer
    return lines


def _exchanged(
    masks: list[int],
    lines: list[Line],
    costs: Mapping[Line, int],
    asked: Sequence[_Crew],
    least: int,
) -> list[Line]:
    """Return the lines with each exchanged for a cheaper one that does as well, as often as one is found."""
    is_better = True
    while is_better:
        is_better = False
        for line in sorted(lines, key=lambda one: (-costs[one], one)):
            fewer = [one for one in lines if one != line]
            without = _with(masks, fewer)
            lacking = [one for one in asked if one.seated(without).short]
            cheaper = sorted((c, one) for one, c in costs.items() if c < costs[line] and one not in lines)
            other = next((one for _, one in cheaper if not _leaves_more(_with(without, [one]), lacking, least)), None)
            if other is not None:
                lines, is_better = [*fewer, other], True
                lines = _without_needless(masks, lines, costs, asked, least)
                break
    return lines


def _with(masks: Sequence[int], lines: Iterable[Line]) -> list[int]:
    more = list(masks)
    for cook, place in lines:
        more[place] |= 1 << cook
    return more


def _short(masks: Sequence[int], asked: Iterable[_Crew]) -> int:
    return sum(one.seated(masks).short for one in asked)


def _leaves_more(masks: Sequence[int], asked: Iterable[_Crew], least: int) -> bool:
    """Return whether more hands than *least* stay empty; this looks no further than to the first of them."""
    found = 0
    for one in asked:
        found += one.seated(masks).short
        if found > least:
            return True
    return False


def _bits(mask: int) -> Iterator[int]:
    while mask:
        bit = mask & -mask
        yield bit
        mask ^= bit
