"""Who is held up by a birth date nobody wrote down: a station that begins to ask for an age bars them too."""

from __future__ import annotations

from collections.abc import Iterable

from trainer.kitchen.clearance import Clearance
from trainer.kitchen.requirements import AGE_UNKNOWN


def held_up_at(clearances: Iterable[Clearance]) -> tuple[str, ...]:
    """Return the ids of the stations where nothing is missing but a birth date on record."""
    return tuple(each.station for each in clearances if [missing.what for missing in each.missing] == [AGE_UNKNOWN])
