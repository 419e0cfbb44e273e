"""What lapses: once for all stations that ask for it, the nearest first, and a shift on which it could be watched."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from trainer.kitchen.clearance import Clearance
from trainer.kitchen.desk import Shift
from trainer.kitchen.lapses import Booking, Lapse, booking_for, lapses_by, lapses_together
from trainer.kitchen.requirements import Held

ON = date(2026, 11, 3)
NOW = datetime.fromisoformat("2026-11-03T12:00")


def at(day: int, hour: int = 17) -> datetime:
    """Return an hour of a day of November, by the kitchen's own clock."""
    return datetime.fromisoformat(f"2026-11-{day:02}T{hour}:00")


def held(what: str, until: date | None) -> Held:
    """Return one thing that is held to a day."""
    return Held(what, what, date(2026, 1, 1), until, ())


def cell(cook: str, station: str, *things: Held, cleared: bool = True) -> Clearance:
    """Return a clearance that holds these things."""
    state = "cleared" if cleared else "lapsed"
    return Clearance(cook, station, ON, state, (), things, None, ())  # type: ignore[arg-type]  # both are states


def shift(day: int, *on: str) -> Shift:
    """Return a dinner of a day of November with those who are on."""
    return Shift(at(day), at(day, 23), frozenset(on))


LAPSE = Lapse("ana", "practical:stock", held("practical:stock", date(2026, 11, 10)), date(2026, 11, 10), ("grill",))


def test_one_thing_of_two_stations_lapses_once() -> None:
    """The nearest first; what ends later, never, or of somebody who is not cleared, is not there."""
    near, far = held("practical:stock", date(2026, 11, 10)), held("quiz:stock", date(2027, 2, 1))
    soon = held("certificate:food_handler", date(2026, 11, 5))
    cells = [
        cell("ana", "grill", near, far, held("age", None)),
        cell("ana", "fry", near),
        cell("bo", "grill", soon),
        cell("dev", "grill", near, cleared=False),
    ]
    found = lapses_by(cells, date(2026, 12, 3))
    assert [(one.cook, one.what, one.stations) for one in found] == [
        ("bo", "certificate:food_handler", ("grill",)),
        ("ana", "practical:stock", ("grill", "fry")),
    ]
    assert [(one.technique, one.is_practical) for one in found] == [("", False), ("stock", True)]


@pytest.mark.parametrize(
    ("shifts", "signers", "found"),
    [
        ([shift(4, "ana"), shift(5, "ana", "bo")], ["bo"], Booking(at(5), "bo", is_late=False)),
        ([shift(10, "ana", "bo")], ["bo"], Booking(at(10), "bo", is_late=False)),
        ([shift(11, "ana", "bo")], ["bo"], Booking(at(11), "bo", is_late=True)),
        ([shift(4, "ana", "bo", "cleo")], ["cleo", "bo"], Booking(at(4), "cleo", is_late=False)),
        ([shift(4, "bo"), shift(5, "ana")], ["bo"], None),
        ([shift(2, "ana", "bo")], ["bo"], None),
        ([shift(4, "ana", "bo")], [], None),
        ([shift(4, "ana")], ["ana"], None),
    ],
)
def test_a_practical_is_booked_where_both_work(shifts: list[Shift], signers: list[str], found: Booking | None) -> None:
    """The first shift to come with the cook and one who may sign, never the cook; late once the last day is over."""
    assert booking_for(LAPSE, shifts, signers, NOW) == found


def test_what_ends_for_a_cook_on_one_day_stands_together() -> None:
    """By cook and day, in the sequence of the first of each."""
    days = {name: date(2026, 11, day) for name, day in (("stock", 10), ("fish", 10), ("grill", 12))}
    one = [Lapse("ana", f"quiz:{name}", held(name, day), day, ("grill",)) for name, day in days.items()]
    bo = Lapse("bo", "quiz:fish", held("fish", date(2026, 11, 10)), date(2026, 11, 10), ("grill",))
    assert lapses_together([one[0], bo, one[1], one[2]]) == ((one[0], one[1]), (bo,), (one[2],))
