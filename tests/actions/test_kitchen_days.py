"""Which day it is in a kitchen: nights on which the clock changes, a leap day, the date line, another zone."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from trainer.kitchen.book import Entry, NewEntry
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings

NEW_YORK, APIA, KIRITIMATI, NIUE = "America/New_York", "Pacific/Apia", "Pacific/Kiritimati", "Pacific/Niue"


def kitchen(folder: Path, zone: str) -> KitchenFile:
    """Return an empty kitchen in a zone."""
    return KitchenFile.create(folder / "kitchen", Settings("", "Quernstone", zone))


def write(file: KitchenFile, at: datetime) -> Entry:
    """Write an entry at a moment."""
    body = {"technique": "sauce", "edition": 1}
    return file.book.append(NewEntry("technique_read", at, "ada", "ada", body, at.isoformat()))


@pytest.mark.parametrize(
    ("at", "day"),
    [
        # 15 U.S.C. 260a: from 2:00 a.m. on the second Sunday of March to 2:00 a.m. on the first Sunday of November
        (datetime(2026, 3, 8, 4, 59, tzinfo=UTC), date(2026, 3, 7)),  # 23:59 standard time, UTC-5
        (datetime(2026, 3, 8, 5, 0, tzinfo=UTC), date(2026, 3, 8)),
        (datetime(2026, 3, 8, 7, 0, tzinfo=UTC), date(2026, 3, 8)),  # 03:00 summer time: 02:30 never was
        (datetime(2026, 3, 9, 3, 59, tzinfo=UTC), date(2026, 3, 8)),  # 23:59 summer time, UTC-4: a day of 23 hours
        (datetime(2026, 3, 9, 4, 0, tzinfo=UTC), date(2026, 3, 9)),
        (datetime(2026, 11, 1, 3, 59, tzinfo=UTC), date(2026, 10, 31)),  # 23:59 summer time
        (datetime(2026, 11, 1, 5, 30, tzinfo=UTC), date(2026, 11, 1)),  # 01:30 the first time
        (datetime(2026, 11, 1, 6, 30, tzinfo=UTC), date(2026, 11, 1)),  # 01:30 once more
        (datetime(2026, 11, 2, 4, 59, tzinfo=UTC), date(2026, 11, 1)),  # a day of 25 hours
        (datetime(2026, 11, 2, 5, 0, tzinfo=UTC), date(2026, 11, 2)),
    ],
)
def test_both_nights_on_which_the_clock_changes(tmp_path: Path, at: datetime, day: date) -> None:
    """In New York in 2026; an entry is of the day that is there on the wall."""
    file = kitchen(tmp_path, NEW_YORK)
    assert file.book.day_at(at) == day
    assert write(file, at).day == day


def test_an_hour_that_comes_twice_stays_in_the_order_it_was_lived(tmp_path: Path) -> None:
    """1:30 before and 1:30 after: neither is a clock gone back, as moments are kept in UTC."""
    file = kitchen(tmp_path, NEW_YORK)
    moments = [datetime(2026, 11, 1, 5, 30, tzinfo=UTC) + timedelta(minutes=30 * number) for number in range(4)]
    assert [write(file, at).at for at in moments] == moments
    assert {entry.day for entry in file.book.since(0)} == {date(2026, 11, 1)}


@pytest.mark.parametrize(
    ("at", "day"),
    [
        (datetime(2028, 2, 29, 17, tzinfo=UTC), date(2028, 2, 29)),
        (datetime(2028, 3, 1, 4, 59, tzinfo=UTC), date(2028, 2, 29)),
        (datetime(2027, 3, 1, 4, 59, tzinfo=UTC), date(2027, 2, 28)),
        (datetime(2100, 3, 1, 4, 59, tzinfo=UTC), date(2100, 2, 28)),  # no leap year: Inter gravissimas, 1582
    ],
)
def test_a_leap_day_is_a_day(tmp_path: Path, at: datetime, day: date) -> None:
    """And there is none where there is none."""
    assert write(kitchen(tmp_path, NEW_YORK), at).day == day


def test_two_kitchens_at_the_date_line_have_two_days_at_one_moment(tmp_path: Path) -> None:
    """Kiritimati is UTC+14, Niue UTC-11 (tz database): at 10:30 UTC they are two dates apart."""
    at = datetime(2026, 6, 1, 10, 30, tzinfo=UTC)
    days = [kitchen(tmp_path / zone[-4:], zone).book.day_at(at) for zone in (KIRITIMATI, NIUE)]
    assert days == [date(2026, 6, 2), date(2026, 5, 31)]


def test_a_day_that_was_left_out_is_on_no_entry(tmp_path: Path) -> None:
    """Samoa had no 30 December 2011 (tz database: UTC-10 became UTC+14 at the end of the 29th)."""
    file = kitchen(tmp_path, APIA)
    before, after = datetime(2011, 12, 30, 9, 59, tzinfo=UTC), datetime(2011, 12, 30, 10, 0, tzinfo=UTC)
    assert [write(file, at).day for at in (before, after)] == [date(2011, 12, 29), date(2011, 12, 31)]


def test_a_kitchen_that_moves_west_does_not_live_a_day_twice(tmp_path: Path) -> None:
    """From Kiritimati to Niue: today stays the last entry's day until Niue has come there."""
    file = kitchen(tmp_path, KIRITIMATI)
    at = datetime(2026, 6, 1, 10, 30, tzinfo=UTC)
    assert write(file, at).day == date(2026, 6, 2)
    file.change_settings(replace(file.settings, timezone=NIUE))
    assert write(file, at + timedelta(minutes=1)).day == date(2026, 6, 2)
    assert file.book.day_at(datetime(2026, 6, 3, 10, 59, tzinfo=UTC)) == date(2026, 6, 2)
    assert file.book.day_at(datetime(2026, 6, 3, 11, 0, tzinfo=UTC)) == date(2026, 6, 3)
