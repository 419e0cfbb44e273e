"""A watched run through a checklist, and the verdict that follows from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Seen = Literal["meets it", "not yet", "unsafe"]
VerdictWord = Literal["meets it", "not yet", "stopped"]


@dataclass(frozen=True, slots=True)
class PointSeen:
    """What the assessor saw at one point; `readings` are the measurements as typed, in the order taken."""

    point: str
    seen: Seen
    readings: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class Verdict:
    """The word, and every reason for it in plain words."""

    word: VerdictWord
    reasons: tuple[str, ...]
