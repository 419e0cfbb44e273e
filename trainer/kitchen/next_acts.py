"""What is missing at a station, told by what to do next: a station asks for many things, and each act fixes several."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from trainer.kitchen.requirements import Missing
from trainer.kitchen.technique import ContentName
from trainer.messages import Text, joined, message

NEAREST = ("practical", "quiz", "reading", "shifts", "practice")
"""What is nearest to a clearance first; whatever bars or is a paper comes before all of it."""


@dataclass(frozen=True, slots=True)
class NextAct:
    """One act, and everything it is the next step of: each a technique with all it wants, or another missing thing."""

    act: Text
    things: tuple[Text, ...]


def next_acts(missing: Iterable[Missing]) -> tuple[NextAct, ...]:
    """Return the acts to come, the one nearest to a clearance first; nothing that is missing is left out.

    Of a technique only the first thing missing decides its act: the quiz comes after the reading, the practical after
    both.
    """
    wants: dict[ContentName | str, list[Missing]] = {}
    for one in missing:
        wants.setdefault(one.subject or one.what, []).append(one)
    acts: dict[Text, list[Text]] = {}
    for found in sorted(wants.values(), key=lambda of_one: _rank(of_one[0])):
        acts.setdefault(found[0].next_act, []).append(_told(found))
    return tuple(NextAct(act, tuple(things)) for act, things in acts.items())


def _rank(first: Missing) -> int:
    """Return how near the act for a missing thing is; 0 is nearest."""
    kind = first.what.partition(":")[0]
    return NEAREST.index(kind) + 1 if kind in NEAREST else 0


def _told(found: list[Missing]) -> Text:
    """Return all that one technique wants in one sentence; another thing in its own words."""
    if len(found) == 1:
        return found[0].text
    return message("{subject}: {gap}.", subject=found[0].subject or "", gap=joined((one.gap for one in found), "; "))
