"""A ring of second places: each place shares a cook with the next one, and the last with the first.

Such a ring brings nearly all that everybody everywhere would, at a fraction of the training (Jordan and Graves,
"Principles on the Benefits of Manufacturing Process Flexibility", Management Science 41, 1995; from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from dataclasses import dataclass
from itertools import pairwise

from trainer.kitchen.assignment import cheapest
from trainer.kitchen.training_plan import Line, Situation, hands_filled

FEWEST_PLACES = 3
"""Two places that share a cook are a pair, and no ring."""
NEARLY_ALL_IN_100 = 95
Cost = Callable[[int, int], int]


@dataclass(frozen=True, slots=True)
class Ring:
    """What there is to train so that the places stand in a ring, and what it brings.

    Of `hands` that are needed over all situations, so many are filled now, with the ring, and if everybody who may be
    trained could stand everywhere.
    """

    lines: tuple[Line, ...]
    hands: int
    now: int
    filled: int
    at_most: int

    @property
    def brings_nearly_all(self) -> bool:
        """Return whether nearly all that training can bring comes with the ring."""
        can_be_gained = self.at_most - self.now
        return can_be_gained > 0 and 100 * (self.filled - self.now) >= NEARLY_ALL_IN_100 * can_be_gained


def ring_of(able: Sequence[Set[int]], costs: Mapping[Line, int], situations: Sequence[Situation]) -> Ring | None:
    """Return a ring through all places at little cost; None where there is none, or where it stands already.

    *able* has for each place the cooks who may stand there now; *costs* what each line that may be trained costs, above
    0. Every two neighbours in the ring share a cook of their own, who stands at one of them already.
    """
    lines = _lines(able, costs) if len(able) >= FEWEST_PLACES else None
    if not lines:
        return None
    hands = sum(len(one.slots) for one in situations)
    now, filled, at_most = (hands_filled(able, each, situations) for each in ((), lines, costs))
    return Ring(lines, hands, now, filled, at_most)


def _lines(able: Sequence[Set[int]], costs: Mapping[Line, int]) -> tuple[Line, ...] | None:
    """Return what is to be trained for a ring, empty where it stands; None where no ring can be made.

    The best one has a cook of each place learn the next, so that every place gains one. Where that cannot be, either
    of two neighbours may learn the other's.
    """
    cooks = sorted(set().union(*able))
    learned = {(cook, *two): _learns(cook, *two, able, costs) for cook in cooks for two in _both(able)}
    onwards = {link: lines for link, lines in learned.items() if link[0] in able[link[1]]}
    found = (_ring(len(able), cooks, links, costs) for links in (onwards, learned))
    return next((lines for lines in found if lines is not None), None)


def _ring(
    places: int,
    cooks: Sequence[int],
    learned: Mapping[tuple[int, int, int], tuple[Line, ...] | None],
    costs: Mapping[Line, int],
) -> tuple[Line, ...] | None:
    """Return a ring of links that there are, by cook and the two places joined; a cook of its own for each link."""
    never = sum(costs.values()) + 1

    def price(cook: int, one: int, other: int) -> int:
        lines = learned.get((cook, one, other))
        return never if lines is None else sum(costs[line] for line in lines)

    def link(one: int, other: int) -> int:
        return min(price(cook, one, other) for cook in cooks)

    links = list(pairwise(_round(places, link)))
    if len(links) > len(cooks):
        return None
    chosen = cheapest([[price(cook, *two) for cook in cooks] for two in links])
    found = [learned.get((cooks[column], *two)) for column, two in zip(chosen, links, strict=True)]
    return None if None in found else tuple(line for lines in found for line in lines or ())


def _both(able: Sequence[Set[int]]) -> list[Line]:
    """Return every two places, either way round."""
    return [(one, other) for one in range(len(able)) for other in range(len(able)) if one != other]


def _learns(
    cook: int, one: int, other: int, able: Sequence[Set[int]], costs: Mapping[Line, int]
) -> tuple[Line, ...] | None:
    """Return what a cook has to learn to stand at both of two places: at most one of them; None where they cannot."""
    lacking = [place for place in (one, other) if cook not in able[place]]
    if not lacking:
        return ()
    line = cook, lacking[0]
    return (line,) if len(lacking) == 1 and line in costs else None


def _round(places: int, link: Cost) -> list[int]:
    """Return a way round through all places and back to the first: each put in where it costs least, then moved."""
    way = [0, 1, 2, 0]
    for place in range(3, places):
        way = _put_in(way, place, link)
    while True:
        moved = min((_put_in(_without(way, place), place, link) for place in way[1:-1]), key=lambda w: _length(w, link))
        if _length(moved, link) >= _length(way, link):
            return way
        way = moved


def _put_in(way: list[int], place: int, link: Cost) -> list[int]:
    """Return a way with one place more, where that costs least."""
    ways = ([*way[:at], place, *way[at:]] for at in range(1, len(way)))
    return min(ways, key=lambda found: _length(found, link))


def _without(way: list[int], place: int) -> list[int]:
    return [one for one in way if one != place]


def _length(way: list[int], link: Cost) -> int:
    return sum(link(one, other) for one, other in pairwise(way))
