"""Is this cook cleared for this station on this day, and if not, what is missing? A value with reasons."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

State = Literal[
    "not started",
    "studying",
    "ready to show",
    "supervised",
    "cleared",
    "due again",
    "lapsed",
    "stood down",
    "not allowed",
]


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that stands between a cook and a clearance: what it is, in words, and what to do next."""

    what: str
    text: str
    next_act: str


@dataclass(frozen=True, slots=True)
class Held:
    """One thing the station asks for that is there: in words, since when, until when, and the entries that prove it."""

    what: str
    text: str
    since: date | None
    until: date | None
    proof: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Clearance:
    """State, every missing thing, everything held, the last good day (None: no end), and the proving entry ids."""

    cook: str
    station: str
    on: date
    state: State
    missing: tuple[Missing, ...]
    held: tuple[Held, ...]
    until: date | None
    proof: tuple[str, ...]
    reason: str = ""

    @property
    def is_cleared(self) -> bool:
        """Return whether the cook may run the station on that day."""
        return self.state in ("cleared", "due again")
