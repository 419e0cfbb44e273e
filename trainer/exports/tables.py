"""A table as it is handed out: its name, its heads and its rows, in words that are printed last."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from trainer.messages import Text

Cell = Text | int | date | None


@dataclass(frozen=True, slots=True)
class Table:
    """One sheet: rows of as many cells as there are heads. The rows may be read once."""

    name: Text
    heads: tuple[Text, ...]
    rows: Iterable[tuple[Cell, ...]]
