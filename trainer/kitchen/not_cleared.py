"""Services run by somebody who was not cleared: how many of those closed lately, and whether that is too many.

Only what was written down when a service was closed counts: a night nobody confirmed says nothing of who stood. A share
is said from 30 services on, with its interval; below that there are only counts.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from trainer.kitchen.disparities import TWO_STATIONS
from trainer.kitchen.nights import ServiceStood
from trainer.recipe_math.statistics import Interval, wilson_interval

DAYS_BACK = 90
FEWEST_SERVICES = 30
"""Of fewer a bare share says little: see `first_tries.FEWEST_COOKS`."""


@dataclass(frozen=True, slots=True)
class NotCleared:
    """How many services were closed, and at how many of them somebody ran a station they were not cleared for."""

    number: int
    services: int

    @property
    def is_enough(self) -> bool:
        """Return whether as many services were closed as a share needs to mean something."""
        return self.services >= FEWEST_SERVICES

    def is_above(self, limit_in_100: int) -> bool:
        """Return whether the share is above the house's limit, compared in whole numbers; never of too few services."""
        return self.is_enough and 100 * self.number > limit_in_100 * self.services

    @property
    def likely(self) -> Interval:
        """Return between which shares the share of all services lies, at 95 percent."""
        return wilson_interval(self.number, self.services)


def run_not_cleared(closings: Iterable[ServiceStood], today: date) -> NotCleared:
    """Return the services closed in the 90 days that end today, and at how many somebody not cleared ran a station."""
    late = [one for one in closings if today - timedelta(days=DAYS_BACK) < one.on <= today]
    return NotCleared(sum(map(_is_run_not_cleared, late)), len(late))


def _is_run_not_cleared(service: ServiceStood) -> bool:
    """Return whether one of those who ran a station was not cleared for it; who holds two at once may be."""
    ran = {(place.cook, place.station) for place in service.stood if place.runs}
    against = (one for one in service.disparities if one.state != TWO_STATIONS)
    return any((one.cook, one.station) in ran for one in against)
