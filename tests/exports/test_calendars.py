"""Calendars are read by a general library, keep their uids, and have the hours a clock on the wall shows."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
import vobject

from tests.actions.crew import TODAY, Crew
from tests.printed import english
from trainer.exports.asking import Asked
from trainer.exports.calendars import calendar_of, lapse_events, path_events, shift_events
from trainer.messages import message
from trainer.store.shifts import PlannedShift

LATE = {"weekday": 6, "service": "dinner", "opens": "17:30", "closes": "01:00", "guests": 80, "needs": []}
LATE_SUNDAY = {**LATE, "weekday": 7}


def asked(crew: Crew, on: date = TODAY) -> Asked:
    return Asked(crew.k, crew.k.content, on)


def events(data: bytes) -> list[Any]:
    """Return the events another program reads."""
    return list(getattr(vobject.readOne(data.decode()), "vevent_list", []))


def shifts_of(crew: Crew, *days: date) -> None:
    crew.write("services_set", "mara", {"since": "2026-01-01", "weekly": [LATE, LATE_SUNDAY], "days": []})
    crew.k.file.shifts.add([PlannedShift(day, "dinner", "ada", "cold_side") for day in days])


@pytest.mark.parametrize(
    ("day", "starts", "ends"),
    [
        # New York leaves standard time on 8 March 2026 at 2:00 and comes back to it on 1 November 2026 at 2:00
        # (Energy Policy Act of 2005, sec. 110): UTC-5 before, UTC-4 between.
        (date(2026, 3, 7), datetime(2026, 3, 7, 22, 30, tzinfo=UTC), datetime(2026, 3, 8, 6, 0, tzinfo=UTC)),
        (date(2026, 3, 8), datetime(2026, 3, 8, 21, 30, tzinfo=UTC), datetime(2026, 3, 9, 5, 0, tzinfo=UTC)),
        (date(2026, 10, 31), datetime(2026, 10, 31, 21, 30, tzinfo=UTC), datetime(2026, 11, 1, 5, 0, tzinfo=UTC)),
    ],
)
def test_a_shift_has_its_hours_across_midnight_and_the_change_of_clocks(
    crew: Crew, day: date, starts: datetime, ends: datetime
) -> None:
    """A dinner from half past five to one at night lasts as long as the clocks make it last."""
    shifts_of(crew, day)
    data = calendar_of(message("Plan"), shift_events(asked(crew, day), day), crew.now, english)
    (found,) = events(data)
    assert (found.dtstart.value, found.dtend.value) == (starts, ends)


def test_uids_stay_and_tell_people_apart(crew: Crew) -> None:
    """The same plan, asked for again, has the same uids; no two events share one (RFC 5545, 3.8.4.7)."""
    shifts_of(crew, date(2026, 3, 7), date(2026, 3, 8))
    crew.k.file.shifts.add([PlannedShift(date(2026, 3, 7), "dinner", "ben", "cold_side")])

    def uids() -> list[str]:
        last = TODAY + timedelta(days=14)
        crew.later(hours=1)
        return [one.uid.value for one in events(calendar_of("", shift_events(asked(crew), last), crew.now, english))]

    first = uids()
    assert len(set(first)) == len(first) == 3
    assert uids() == first


def test_a_cook_gets_only_what_is_their_own(crew: Crew) -> None:
    """Of somebody else's shifts and papers a cook's calendar says nothing, and names nobody."""
    shifts_of(crew, date(2026, 3, 7))
    crew.k.file.shifts.add([PlannedShift(date(2026, 3, 7), "dinner", "ben", "cold_side")])
    last = TODAY + timedelta(days=400)
    own = [*shift_events(asked(crew), last, "ben"), *lapse_events(asked(crew), last, "ben")]
    told = calendar_of("", [*own, *path_events(asked(crew), "ben")], crew.now, english).decode()
    assert "Ben" not in told
    assert "Ada" not in told
    assert len(own) == 1


def test_what_ends_is_a_day_of_the_calendar(crew: Crew) -> None:
    """A sign-off's last good day is a whole day, not a moment (RFC 5545, 3.6.1), with the stations that go with it."""
    last = TODAY + timedelta(days=731)
    found = events(calendar_of("", lapse_events(asked(crew), last, "sous"), crew.now, english))
    assert found
    assert all(isinstance(one.dtstart.value, date) and not isinstance(one.dtstart.value, datetime) for one in found)
    assert all("Cold side" in one.description.value for one in found)


def test_no_line_is_longer_than_75_octets(crew: Crew) -> None:
    """RFC 5545, 3.1: longer lines are folded."""
    shifts_of(crew, date(2026, 3, 7))
    data = calendar_of(message("Plan"), shift_events(asked(crew), TODAY + timedelta(days=9)), crew.now, english)
    assert max(map(len, data.split(b"\r\n"))) <= 75
