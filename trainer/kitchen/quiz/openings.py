"""How a text of a technique begins: its first sentences, so that four or six of them stand on a phone at once."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from functools import lru_cache
from types import MappingProxyType

MOST = 64
"""Letters a choice holds, where whole sentences allow: two to three lines of a phone 360 px wide."""
LEAST = 24
"""A beginning of fewer letters ("Stop.") says too little by itself: the next sentence stands with it."""
_BETWEEN = re.compile(r"(?<=[.!?])\s+")


def opening(text: str) -> str:
    """Return as many first sentences of a text as keep within 64 letters, at least one, and 24 letters where it can.

    >>> opening("Stop. Throw out what was touched.")
    'Stop. Throw out what was touched.'
    >>> opening("Lay the knife down where all can see it. Tell the chef, and wash the board and the knife again.")
    'Lay the knife down where all can see it.'
    """
    first, *others = _BETWEEN.split(text.strip())
    for other in others:
        longer = f"{first} {other}"
        if len(first) >= LEAST and len(longer) > MOST:
            break
        first = longer
    return first


def openings(texts: Iterable[str]) -> Mapping[str, str]:
    """Return how each of these texts begins; whole where another begins alike, since they could not be told apart."""
    return _openings(tuple(texts))


@lru_cache(maxsize=512)
def _openings(texts: tuple[str, ...]) -> Mapping[str, str]:
    """Return it for the texts of one technique, which are asked for at every question drawn from them."""
    begun = {text: opening(text) for text in texts}
    times = Counter(begun.values())
    return MappingProxyType({text: first if times[first] == 1 else text for text, first in begun.items()})
