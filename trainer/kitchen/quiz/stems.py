"""What makes a question one that was asked before: its scene, its fault, its word; of a calculation, nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from trainer.kitchen.quiz.family import Numbers

Taken = tuple[tuple[str, ...], ...]


def no_stem(numbers: Numbers, picks: Taken) -> str:
    """Return nothing: other numbers make another question."""
    return ""


def _first_pick(numbers: Numbers, picks: Taken) -> str:
    """Return the first id that was picked: a scene."""
    return picks[0][0]


def _asked_of_first(numbers: Numbers, picks: Taken) -> str:
    """Return the fault, or the steps, and which of the two questions is asked of it."""
    return f"{int(numbers['asks'])}:{'+'.join(sorted(picks[0]))}"


def _word(numbers: Numbers, picks: Taken) -> str:
    """Return the word of a packet and how it is asked for."""
    return f"{int(numbers['asks'])}:{int(numbers['word'])}"


def _cut(numbers: Numbers, picks: Taken) -> str:
    """Return the cut."""
    return str(int(numbers["cut"]))


STEMS: Mapping[str, Callable[[Numbers, Taken], str]] = MappingProxyType(
    {
        "decide": _first_pick,
        "choose_fault": _asked_of_first,
        "order_steps": _asked_of_first,
        "find_allergen": _word,
        "name_cut": _cut,
    }
)
"""The stem of each family that has stems, from its numbers and picks."""
