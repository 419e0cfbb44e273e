"""How a hand or a dish looks on the way: drawings in a row, and three that tell too little from right from too far."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from trainer.kitchen.limit_text import InOne, shortest_text
from trainer.messages import Text, message

if TYPE_CHECKING:
    from trainer.kitchen.reading_units import System
    from trainer.kitchen.technique import Limit

Side = Literal["under", "right", "over"]
SIDES: tuple[Side, ...] = ("under", "right", "over")


@dataclass(frozen=True, slots=True)
class StripFrame:
    """One drawing of a strip: its file, a number or a word, and up to three words more."""

    figure: str
    word: str
    more: str = ""


@dataclass(frozen=True, slots=True)
class TriplePicture:
    """One of three drawings: its file, what it looks like, and what to do then."""

    figure: str
    look: str
    act: str


@dataclass(frozen=True, slots=True)
class Triple:
    """Too little, right and too far, drawn. The numbers of `line` stand below where there is one."""

    under: TriplePicture
    right: TriplePicture
    over: TriplePicture
    line: Limit | None = None

    @property
    def pictures(self) -> tuple[tuple[Side, TriplePicture], ...]:
        """Return the three in their order, each with the side it is on."""
        return tuple(zip(SIDES, (self.under, self.right, self.over), strict=True))

    def number(self, side: Side, units: System) -> Text:
        """Return the number of one side in one system of measures; empty where the line has no end there."""
        if self.line is None:
            return ""
        write, low, high = InOne(units), self.line.lowest, self.line.highest
        if side == "right":
            return shortest_text(self.line, write)
        if side == "under":
            return message("under {lowest}", lowest=write.amount(low)) if low is not None else ""
        return message("over {highest}", highest=write.amount(high)) if high is not None else ""


@dataclass(frozen=True, slots=True)
class StepGroup:
    """Steps that belong together, under one name: the numbers of the first and of the last."""

    id: str
    name: str
    first: int
    last: int
