"""Which training would help most: only what training brings, of those who may be trained, with a reason."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from tests.actions.crew import TODAY, Crew, crew_in, saved
from tests.kitchen.kitchen_for_tests import small_content, with_technique
from trainer.actions.sitting import finish_sitting
from trainer.actions.training import training_plan, watched_by
from trainer.actions.training_waits import Wait, wait_of
from trainer.kitchen.book import Entry
from trainer.kitchen.requirements import Missing
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


def stopped(crew: Crew, cook: str) -> Entry:
    """Write a practical of cold sauces that was stopped."""
    crew.write("technique_read", cook, {"technique": "cold_sauces", "edition": 1})
    seen = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", "points": [], "reasons": [], "note": ""}
    at = {"started": "2026-03-02T16:00:00.000Z"}
    return crew.write("practical_watched", cook, {**seen, **at, "verdict": "stopped"})


def test_nobody_is_proposed_whose_stop_waits_to_be_released(crew: Crew) -> None:
    """Until a manager has released it nothing can be watched: the other of the two is trained."""
    plans(crew, "sous", "ada", "ben")
    (proposed,) = training_plan(crew.k, FIRST, 14).trainings
    stopped(crew, proposed.cook)
    (instead,) = training_plan(crew.k, FIRST, 14).trainings
    assert {proposed.cook, instead.cook} == {"ada", "ben"}


def stopped_until(crew: Crew, cook: str, day: date) -> None:
    """Write a practical that was stopped, and its release with the day of the retry."""
    taught = [{"by": "sous", "what": "The guard", "minutes": 15}]
    crew.write("stop_released", cook, {"stop": stopped(crew, cook).id, "taught": taught, "retry_from": day.isoformat()})


def test_who_may_not_be_watched_yet_is_planned_from_the_day_of_the_retry(crew: Crew) -> None:
    """Ada's stop was released with a retry on 20 March; the week in which she is watched is the one after that."""
    plans(crew, "sous", "ada")
    crew.write("stood_down", "ben", {"station": "cold_side", "reason": "not safe today"})
    stopped_until(crew, "ada", date(2026, 3, 20))
    (one,) = training_plan(crew.k, FIRST, 14).trainings
    assert (one.cook, one.wait.begins, one.wait.all_from) == ("ada", date(2026, 3, 20), date(2026, 3, 20))
    assert watched_by([one], one.watching, FIRST) == (date(2026, 3, 27),)


def test_a_failed_quiz_is_waited_for(crew: Crew) -> None:
    """A day after the first fail (the house's own wait); who can read something else begins today all the same."""
    wants = {"fresh_pasta": "quiz", "pasta_nesting": "reading"}
    sitting = crew.begins_sitting("ada")
    crew.answers(sitting, right=0)
    saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    missing = [Missing(f"{kind}:{technique}", "", "") for technique, kind in wants.items()]
    day = crew.k.day(TODAY)
    assert wait_of("ada", missing[:1], day) == Wait(date(2026, 3, 3), date(2026, 3, 3))
    assert wait_of("ada", missing, day) == Wait(TODAY, date(2026, 3, 3))
    assert wait_of("ada", missing, crew.k.day(date(2026, 3, 3))).all_from == date(2026, 3, 3)
    assert wait_of("ben", missing, day) == Wait(TODAY, TODAY)


def ring_crew(folder: Path) -> Crew:
    """Return a kitchen of three stations, a technique each: six cooks, each cleared at one station, two at each."""
    content = small_content(
        pasta_room={"techniques": ("pasta_nesting",), "certificates": (), "minimum_age": None, "supervised_shifts": 0},
        grill={"techniques": ("fresh_pasta",), "certificates": ()},
    )
    crew = crew_in(folder, with_technique(content, "fresh_pasta", questions=(), need_right=0))
    one_each = [{"stations": [station], "hands": 1} for station in content.stations]
    monday = {"weekday": 1, "service": "dinner", "opens": "17:00", "closes": "23:00", "guests": 40, "needs": one_each}
    crew.write("services_set", "mara", {"since": "2026-01-01", "weekly": [monday], "days": []})
    cooks = iter(("ada", "ben", "cleo", "dev", "eva", "finn"))
    for station, technique in (("cold_side", "cold_sauces"), ("pasta_room", "pasta_nesting"), ("grill", "fresh_pasta")):
        for cook in (next(cooks), next(cooks)):
            if cook not in crew.k.people():
                crew.joins(cook, "cook")
            crew.clears(cook, technique, station)
            plans(crew, cook, station=station)
    return crew


def test_a_ring_of_second_stations_is_advised_where_it_brings_nearly_all(tmp_path: Path) -> None:
    """Two cooks at each of three stations, one hand at each: a ring fills every place, whichever two are missing."""
    crew = ring_crew(tmp_path)
    found = training_plan(crew.k, FIRST, 14).ring
    assert found is not None
    assert len({cook for cook, *_ in found.learns}) == len(found.learns)
    assert {station for _, station, _ in found.learns} == {"cold_side", "pasta_room", "grill"}
    assert found.minutes == sum(minutes for *_, minutes in found.learns)
    # 15 pairs at 3 places, by hand: three pairs leave a station empty; each is filled from the next station's pair.
    assert (found.brings.now, found.brings.filled, found.brings.at_most, found.brings.hands) == (42, 45, 45, 45)
