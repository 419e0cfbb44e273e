"""A short code for each station and technique, to be typed from a printed card: four signs nobody takes for another.

A code is made from the id alone, so a card stays good while the id does. With 31 signs there are 923,521 codes.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import Literal

from trainer.kitchen.technique import Content

SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"  # without 0, 1, I, L, O
LENGTH = 4
Kind = Literal["station", "technique"]


@dataclass(frozen=True, slots=True)
class Coded:
    """What a code stands for."""

    kind: Kind
    id: str


def short_code(kind: Kind, name: str) -> str:
    """Return the code of a station or a technique.

    >>> len(short_code("station", "pasta_room"))
    4
    """
    number = int.from_bytes(hashlib.sha256(f"{kind}:{name}".encode()).digest())
    signs = []
    for _ in range(LENGTH):
        number, place = divmod(number, len(SIGNS))
        signs.append(SIGNS[place])
    return "".join(signs)


def found_by(code: str, content: Content) -> Coded | None:
    """Return what a typed code stands for; small letters and blanks are let pass, and None is what no card says."""
    typed = "".join(code.split()).upper()
    return next((each for each in _cards(content) if short_code(each.kind, each.id) == typed), None)


def sharing(content: Content) -> tuple[tuple[Coded, Coded], ...]:
    """Return each station or technique whose card has the code of an earlier one, beside that."""
    first: dict[str, Coded] = {}
    pairs = ((each, first.setdefault(short_code(each.kind, each.id), each)) for each in _cards(content))
    return tuple((each, other) for each, other in pairs if each is not other)


def _cards(content: Content) -> tuple[Coded, ...]:
    """Return everything that has a card."""
    stations = (Coded("station", name) for name in content.stations)
    return (*stations, *(Coded("technique", name) for name in content.techniques))
