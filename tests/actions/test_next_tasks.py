"""What a cook does next: one act a technique, the nearest first."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from tests.actions.crew import TODAY, Crew, saved
from tests.kitchen.kitchen_for_tests import technique
from tests.printed import english
from trainer.actions.next_tasks import next_task, tasks_to_do
from trainer.actions.sitting import finish_sitting
from trainer.actions.studying import keep_place
from trainer.actions.watching import Look, ask_to_be_watched
from trainer.kitchen.tasks import Task
from trainer.kitchen.technique import Step
from trainer.store.shifts import PlannedShift

STEPS = tuple(Step(name, "do", name, "", "", "", "", ()) for name in ("mix", "rest", "roll"))


def task(crew: Crew, name: str = "fresh_pasta", cook: str = "ada", **changes: Any) -> Task:
    """Return what a person does next on one technique."""
    taught = technique(name, **changes) if changes else crew.k.content.techniques[name]
    return next_task(crew.k, cook=cook, technique=taught, day=crew.k.day(TODAY))


def told(crew: Crew, found: Task) -> tuple[str, str, int]:
    """Return the act, its words and how near it is."""
    return found.act, english(found.words(crew.now)), found.rank


def test_reading_comes_first_and_goes_on_where_it_stopped(crew: Crew) -> None:
    """Before the first step the number of steps is told; after it the step come to, and the act is nearer."""
    pasta = technique("pasta_nesting", steps=STEPS)
    assert told(crew, task(crew, "pasta_nesting", steps=STEPS)) == ("read", "Read it: 3 steps.", 5)
    keep_place(crew.k, cook="ada", technique=pasta, step="rest", now=crew.now)
    begun = task(crew, "pasta_nesting", steps=STEPS)
    assert told(crew, begun) == ("read", "You are at step 2 of 3.", 4)
    assert begun.state == "studying"


def test_after_reading_comes_the_quiz_and_an_open_one_comes_before_all(crew: Crew) -> None:
    """A quiz not begun says how many questions it asks; one left open is the nearest act there is."""
    saved(crew.reads("ada", "fresh_pasta"))
    assert told(crew, task(crew)) == ("sit quiz", "Sit the quiz: 4 questions.", 3)
    sitting = crew.begins_sitting()
    assert told(crew, task(crew)) == ("finish quiz", "Your quiz is open.", 0)
    assert task(crew).under_way.sitting == sitting.id


def test_a_failed_quiz_waits_for_its_day(crew: Crew) -> None:
    """2 March 2026 was a Monday; the day after the first fail is named with its weekday."""
    sitting = crew.begins_sitting()
    crew.answers(sitting, right=0)
    saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))
    found = task(crew)
    assert (found.act, found.rank, found.under_way.quiz_from) == ("wait for quiz", 4, date(2026, 3, 3))
    assert english(found.words(crew.now)) == "Sit the quiz again from Tue 3 Mar 2026."


def test_a_passed_quiz_is_shown_and_asking_is_a_wait(crew: Crew) -> None:
    """The cook asks to be watched, and is told how long they have waited."""
    crew.passes_quiz("ada")
    assert told(crew, task(crew)) == ("ask to be watched", "Show it to a sous chef.", 2)
    saved(ask_to_be_watched(crew.k, cook="ada", technique="fresh_pasta", now=crew.now, key=crew.key()))
    crew.later(hours=2)
    assert told(crew, task(crew)) == ("wait to be watched", "You asked to be watched. Waiting 2 hours.", 2)


def test_a_stop_comes_before_everything(crew: Crew) -> None:
    """What was stopped for safety waits for a manager, and nothing else on it is next."""
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe"))
    saved(crew.signs(practical))
    found = task(crew, "cold_sauces")
    assert (found.act, found.rank, found.state) == ("be released", 0, "stood down")
    assert "manager" in english(found.words(crew.now))


def test_what_is_signed_is_done_until_it_lapses(crew: Crew) -> None:
    """A quiz of 12 months that has run out takes the sign-off with it, and then comes before what was never signed."""
    crew.passes_quiz("ada")
    crew.clears("ada", "fresh_pasta", "pasta_room")
    assert told(crew, task(crew)) == ("nothing", "Signed.", 9)
    assert "fresh_pasta" not in {left.technique.id for left in tasks_to_do(crew.k, cook="ada", on=TODAY)}
    later = tasks_to_do(crew.k, cook="ada", on=date(2027, 3, 3))[0]
    assert (later.technique.id, later.state, later.act, later.rank) == ("fresh_pasta", "lapsed", "sit quiz", 1)


@pytest.mark.parametrize(("days", "first"), [(14, "cold_sauces"), (15, "fresh_pasta")])
def test_the_stations_of_coming_shifts_come_first(crew: Crew, days: int, first: str) -> None:
    """Of acts as near, what a shift in the next two weeks asks for; a shift after that changes nothing."""
    shift = PlannedShift(date.fromordinal(TODAY.toordinal() + days), "dinner", "ada", "cold_side")
    crew.k.file.shifts.add([shift])
    assert tasks_to_do(crew.k, cook="ada", on=TODAY)[0].technique.id == first
