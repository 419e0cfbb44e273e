"""A clock that was set while the program ran, or a book silent for a month: somebody types today's date first.

The clocks are our own: one that shows the time and one that nobody sets (on Linux CLOCK_BOOTTIME, clock_gettime(2)).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from threading import Event, Thread

import pytest

from tests.actions.crew import NOON, TODAY, Crew, refused, saved
from tests.printed import english
from trainer import clock
from trainer.actions.certifying import Paper, show_certificate
from trainer.actions.clock_setting import confirm_clock
from trainer.actions.outcome import Outcome
from trainer.actions.roster import apply_import, plan_import
from trainer.actions.sitting import start_sitting
from trainer.actions.standing import (
    Grant,
    Leaving,
    NewRoles,
    PutBack,
    TakenOff,
    change_roles,
    cook_leaves,
    open_station,
    put_back,
    take_off,
)
from trainer.actions.watching import Look, Watch, start_practical
from trainer.actions.working import SupervisedShift, work_shift
from trainer.kitchen.book import LOCAL


@dataclass
class Machine:
    """A machine with two clocks; sleeping moves both, setting the time only one."""

    crew: Crew
    ran: float = 1000.0

    def __post_init__(self) -> None:
        """Let the crew's kitchen run on it."""
        self.crew.k.keep_time(lambda: self.crew.now, lambda: self.ran)

    def runs(self, **time: float) -> None:
        """Let time pass, awake or asleep."""
        self.crew.later(**time)
        self.ran += timedelta(**time).total_seconds()

    def is_set(self, **time: float) -> None:
        """Set the clock on, or back."""
        self.crew.later(**time)


@pytest.fixture
def machine(crew: Crew) -> Machine:
    """Return a machine the crew's kitchen runs on."""
    return Machine(crew)


def confirms(crew: Crew, by: str = "mara", typed: date | None = None) -> Outcome:
    """Type today's date, or another one."""
    return confirm_clock(crew.k, by=by, typed=typed or crew.now.date(), now=crew.now, key=crew.key())


AHEAD = "This machine's clock was set ahead by {} while the program ran. Nothing was saved."


@pytest.mark.parametrize(
    ("jump", "said"),
    [
        ({"minutes": 6}, AHEAD.format("6 minutes")),
        ({"hours": 3}, AHEAD.format("3 hours")),
        ({"days": 5 * 365 + 1}, AHEAD.format("1826 days")),
    ],
)
def test_a_clock_set_ahead_writes_nothing_until_somebody_types_the_date(
    machine: Machine, jump: dict[str, float], said: str
) -> None:
    """By more than five minutes, up to five years."""
    crew = machine.crew
    machine.is_set(**jump)
    before = crew.k.file.book.end()
    found = refused(crew.reads("ada", "cold_sauces"))
    assert english(found.reason) == said
    assert "today's date" in english(found.who_can)
    assert crew.k.file.book.end() == before
    assert saved(confirms(crew)).body == {"day": crew.now.date().isoformat()}
    saved(crew.reads("ada", "cold_sauces"))


def test_five_minutes_are_let_pass_and_a_night_asleep_is_no_jump(machine: Machine) -> None:
    """A time service moves a clock a little; a machine that slept went on on both clocks."""
    machine.is_set(minutes=5)
    saved(machine.crew.reads("ada", "cold_sauces"))
    machine.runs(hours=9)
    saved(machine.crew.reads("ben", "cold_sauces"))


def test_a_clock_set_back_but_not_behind_the_book_is_doubted_too(machine: Machine) -> None:
    """An hour after the last entry it is set back by a quarter of an hour."""
    machine.runs(hours=1)
    machine.is_set(minutes=-15)
    found = refused(machine.crew.reads("ada", "cold_sauces"))
    assert english(found.reason).startswith("This machine's clock was set back by 15 minutes while the program ran.")


@pytest.mark.parametrize(("days", "is_doubted"), [(30, False), (31, True)])
def test_a_book_silent_for_more_than_thirty_days_asks_for_the_date(
    machine: Machine, days: int, is_doubted: bool
) -> None:
    """A machine that lost its time while nobody was there would not be noticed."""
    machine.runs(days=days)
    outcome = machine.crew.reads("ada", "cold_sauces")
    if not is_doubted:
        saved(outcome)
        return
    assert english(refused(outcome).reason) == (
        "The last entry is 31 days old, so this machine's clock is to be looked at first. Nothing was saved."
    )
    saved(confirms(machine.crew))
    saved(machine.crew.reads("ada", "cold_sauces"))


@pytest.mark.parametrize("by", ["mara", "sous", LOCAL])
def test_a_manager_an_assessor_and_the_machine_itself_may_say_so(machine: Machine, by: str) -> None:
    """Whoever works alone tonight with an assessor gets on."""
    machine.is_set(hours=1)
    assert saved(confirms(machine.crew, by)).by == by


def test_a_cook_may_not(machine: Machine) -> None:
    """Nothing is written, and the next act is refused still."""
    machine.is_set(hours=1)
    assert english(refused(confirms(machine.crew, "ada")).reason) == (
        "Only a manager or an assessor says that the clock is right."
    )
    refused(machine.crew.reads("ada", "cold_sauces"))


def test_another_date_than_the_clock_shows_is_refused_and_both_are_named(machine: Machine) -> None:
    """That is what the typing is for."""
    machine.is_set(days=365)
    found = refused(confirms(machine.crew, typed=TODAY))
    assert english(found.reason) == "This machine's clock says 2 March 2027, not 2 March 2026."
    assert found.field == "day"
    refused(machine.crew.reads("ada", "cold_sauces"))


def test_a_clock_behind_is_set_right_and_not_confirmed(machine: Machine) -> None:
    """Whatever is typed: the book itself says that it is wrong."""
    machine.is_set(days=-1)
    found = refused(confirms(machine.crew, typed=date(2026, 3, 1)))
    assert english(found.reason).startswith("This machine's clock is behind the last entry (2 Mar / 1 Mar).")


def test_what_a_command_confirms_counts_for_the_server_that_runs(machine: Machine) -> None:
    """The entry is all they share. A second jump is doubted anew."""
    crew = machine.crew
    machine.is_set(hours=1)
    crew.write("clock_confirmed", LOCAL, {"day": "2026-03-02"}, LOCAL)
    saved(crew.reads("ada", "cold_sauces"))
    machine.is_set(hours=1)
    refused(crew.reads("ben", "cold_sauces"))


def test_a_kitchen_whose_clock_runs_well_meets_none_of_it(machine: Machine) -> None:
    """A month of days, an entry a week."""
    for week in range(5):
        machine.runs(days=7)
        saved(machine.crew.reads("ada", ("cold_sauces", "fresh_pasta")[week % 2]))


ROSTER = b"number,name,birth date,roles\n7,Eve Fox,2001-05-01,cook\n"
OFF = TakenOff("ben", ("cold_side",), "not safe")
BACK = PutBack("ben", ("cold_side",), "well again")
ACTS: dict[str, Callable[[Crew], object]] = {
    "technique_read": lambda c: c.reads("ada", "cold_sauces"),
    "quiz begun": lambda c: start_sitting(c.k, cook="ada", technique="fresh_pasta", seed=1, now=c.now, key=c.key()),
    "practical begun": lambda c: start_practical(
        c.k, by="sous", watch=Watch("ada", "cold_sauces", "cold_side"), now=c.now, key=c.key()
    ),
    "shift_worked": lambda c: work_shift(
        c.k,
        by="sous",
        shift=SupervisedShift("ada", "cold_side", TODAY, "sous", 40, "dinner"),
        now=c.now,
        key=c.key(),
    ),
    "certificate_shown": lambda c: show_certificate(
        c.k, by="mara", paper=Paper("ada", "food_handler", "1", date(2026, 1, 1), None), now=c.now, key=c.key()
    ),
    "station_opened": lambda c: open_station(
        c.k, by="mara", grant=Grant("sous", "pasta_room", date(2031, 1, 1), "x"), now=c.now, key=c.key()
    ),
    "restored": lambda c: put_back(c.k, by="mara", back=BACK, now=c.now, key=c.key()),
    "cook_changed": lambda c: change_roles(
        c.k, by="mara", change=NewRoles("ada", ["cook", "assessor"]), now=c.now, key=c.key()
    ),
    "cook_left": lambda c: cook_leaves(c.k, by="mara", leaving=Leaving("ada", "x"), now=c.now, key=c.key()),
    "roster_taken_in": lambda c: apply_import(c.k, plan=plan_import(c.k, ROSTER, now=c.now), by="mara", now=c.now),
}
CLOCKS: dict[str, dict[str, float]] = {"-2 h": {"hours": -2}, "-300 d": {"days": -300}, "+5 y": {"days": 1826}}


@pytest.mark.parametrize("wrong", CLOCKS)
def test_every_act_is_refused_for_the_clock_before_anything_else_is_asked(machine: Machine, wrong: str) -> None:
    """Nothing is in the book afterwards."""
    machine.is_set(**CLOCKS[wrong])
    before = machine.crew.k.file.book.end()
    for name, act in ACTS.items():
        assert "clock" in english(refused(act(machine.crew)).reason), name
    assert machine.crew.k.file.book.end() == before


@pytest.mark.parametrize("wrong", CLOCKS)
def test_a_stop_and_a_standing_down_are_saved_whatever_the_clock_shows(crew: Crew, wrong: str) -> None:
    """And hold from then on."""
    crew.clears("ada")
    crew.clears("ben")
    practical = crew.begins_practical()
    crew.sees(practical, Look("guard_on", "unsafe"))
    machine = Machine(crew)
    machine.is_set(**CLOCKS[wrong])
    saved(crew.signs(practical))
    saved(take_off(crew.k, by="mara", off=OFF, now=crew.now, key=crew.key()))
    board = crew.k.board(crew.k.today(crew.now))
    states = {row.cook.id: row.clearances[1].state for row in board.rows}
    assert (states["ada"], states["ben"]) == ("stood down", "stood down")


def test_the_moment_is_read_when_it_is_ones_turn_to_write(machine: Machine) -> None:
    """A cook sends at noon and waits for another to finish writing: the entry says when it was written."""
    crew, holds, goes_on = machine.crew, Event(), Event()

    def hold() -> None:
        with crew.k.file.writing():
            holds.set()
            goes_on.wait(10)

    outcomes: list[Outcome] = []
    first = Thread(target=hold)
    first.start()
    holds.wait(10)
    second = Thread(target=lambda: outcomes.append(crew.reads("ada", "cold_sauces")))
    second.start()
    machine.runs(seconds=9)
    goes_on.set()
    first.join()
    second.join()
    assert saved(outcomes[0]).at == NOON + timedelta(seconds=9)


def test_the_steady_clock_goes_on_and_does_not_follow_the_time() -> None:
    """It counts seconds from a beginning of its own, as clock_gettime(2) says of CLOCK_BOOTTIME."""
    first, shown = clock.steady(), clock.now()
    second = clock.steady()
    assert 0 <= second - first < 60
    assert isinstance(shown, datetime)
