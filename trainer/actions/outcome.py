"""What comes of an action: saved, or refused with the reason and who can."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.kitchen.book import Entry
from trainer.messages import Text


@dataclass(frozen=True, slots=True)
class Saved:
    """The entry is in the book and the commit has returned."""

    entry: Entry


@dataclass(frozen=True, slots=True)
class Refused:
    """Nothing was written. `field` names the input at fault, if one is; `who_can` says who may do it instead."""

    reason: Text
    who_can: Text = ""
    field: str = ""


Outcome = Saved | Refused
