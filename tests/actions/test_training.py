"""Which training would help most: only what training brings, of those who may be trained, with a reason."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from tests.actions.crew import Crew
from trainer.actions.training import training_plan, watched_by
from trainer.store.shifts import PlannedShift

DAY = date(2026, 3, 9)
FIRST = date(2026, 3, 3)


def plans(crew: Crew, *cooks: str, station: str = "cold_side") -> None:
    crew.k.file.shifts.add(PlannedShift(DAY, "dinner", cook, station) for cook in cooks)


def test_a_second_cook_is_trained_where_one_alone_is_cleared(crew: Crew) -> None:
    """Without Sous nobody is left for the cold side: one of the others is trained, and the line says so."""
    plans(crew, "sous", "ada", "ben")
    found = training_plan(crew.k, FIRST, 14)
    assert [(one.station, one.without) for one in found.trainings] == [("cold_side", "sous")]
    assert found.trainings[0].cook in ("ada", "ben")
    assert found.trainings[0].service.on == DAY
    assert found.minutes == found.trainings[0].minutes > 0
    assert found.short == 0


def test_a_line_taken_out_gives_way_to_the_other_cook(crew: Crew) -> None:
    """With both taken out the place stays empty, and is counted."""
    plans(crew, "sous", "ada", "ben")
    (first,) = training_plan(crew.k, FIRST, 14).trainings
    (second,) = training_plan(crew.k, FIRST, 14, out=[(first.cook, "cold_side")]).trainings
    assert {first.cook, second.cook} == {"ada", "ben"}
    both = [(cook, "cold_side") for cook in ("ada", "ben", "nils", "mara")]
    nothing = training_plan(crew.k, FIRST, 14, out=both)
    assert (nothing.trainings, nothing.short) == ((), 1)


def test_nobody_is_proposed_whom_something_bars(crew: Crew) -> None:
    """A cook taken off the station, or one a paper is missing for, is trained elsewhere: not here."""
    plans(crew, "sous", "ada", "ben")
    crew.write("stood_down", "ada", {"station": "cold_side", "reason": "not safe today"})
    assert [one.cook for one in training_plan(crew.k, FIRST, 14).trainings] == ["ben"]


def test_without_a_plan_there_is_nothing_to_plan_for(crew: Crew) -> None:
    """No service, no training."""
    found = training_plan(crew.k, FIRST, 14)
    assert (found.trainings, found.services, found.minutes) == ((), (), 0)


def test_what_is_watched_goes_by_the_minutes_of_a_week(crew: Crew) -> None:
    """A week is full before the next begins; without any minutes nothing is put off."""
    plans(crew, "sous", "ada", "ben")
    (one,) = training_plan(crew.k, FIRST, 14).trainings
    two = [replace(one, watching=60), replace(one, watching=30)]
    assert watched_by(two, 60, FIRST) == (date(2026, 3, 10), date(2026, 3, 17))
    assert watched_by(two, 90, FIRST) == (date(2026, 3, 10), date(2026, 3, 10))
    assert watched_by(two, 0, FIRST) == (FIRST, FIRST)
    assert 0 < one.watching <= one.minutes
