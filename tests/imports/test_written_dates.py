"""Dates as people write them: read where they can mean one day, asked where two, refused where none."""

from __future__ import annotations

from datetime import date

import pytest

from tests.printed import english
from trainer.imports.written_dates import NoDate, TwoWays, read_date


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2026-11-25", date(2026, 11, 25)),
        ("2026/1/5", date(2026, 1, 5)),
        ("2026-11-25 00:00:00", date(2026, 11, 25)),
        (" 25/11/2026 ", date(2026, 11, 25)),
        ("11/25/2026", date(2026, 11, 25)),
        ("25.11.2026", date(2026, 11, 25)),
        ("13-1-2026", date(2026, 1, 13)),
        ("4/4/2001", date(2001, 4, 4)),
        ("29/02/2024", date(2024, 2, 29)),
        ("2/29/2024", date(2024, 2, 29)),
    ],
)
def test_a_date_that_can_mean_one_day_is_read(text: str, expected: date) -> None:
    """ISO 8601, and either order where the other makes no day."""
    assert read_date(text) == expected


def test_a_date_that_can_mean_two_days_comes_back_as_both() -> None:
    """3 April or 4 March: nobody guesses."""
    assert read_date("03/04/2001") == TwoWays(date(2001, 4, 3), date(2001, 3, 4))


def test_an_answer_settles_what_reads_two_ways_and_nothing_else() -> None:
    """A date that can mean one day means it under either order."""
    assert read_date("03/04/2001", "dmy") == date(2001, 4, 3)
    assert read_date("03/04/2001", "mdy") == date(2001, 3, 4)
    assert read_date("25/11/2026", "mdy") == date(2026, 11, 25)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("31/02/1998", "no such day"),
        ("2025-02-29", "no such day"),
        ("29/02/2025", "no such day"),
        ("0000-01-01", "no such day"),
        ("1/2/99", "four figures"),
        ("012/1/2020", "four figures"),
        ("45992", "day number"),
        ("soon", "not a date"),
        ("2026-11", "not a date"),
        ("1/2-2020", "not a date"),
        ("١٢/٠٥/٢٠٢٠", "not a date"),
        ("2026-11-25 14:30", "not a date"),
    ],
)
def test_what_is_no_date_is_refused_with_the_way_to_write_one(text: str, reason: str) -> None:
    """The reason and the hint are both given."""
    read = read_date(text)
    assert isinstance(read, NoDate)
    assert reason in english(read.reason)
    assert "2026-11-25" in english(read.mend)
