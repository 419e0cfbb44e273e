"""Months, birthdays and runs of days."""

from __future__ import annotations

from datetime import date

import pytest

from tests.printed import english
from trainer.kitchen.spans import NO_END, Span, best_on, birthday, in_words, intersection, months_later, union

D = date


@pytest.mark.parametrize(
    ("day", "months", "later"),
    [
        (D(2026, 1, 15), 1, D(2026, 2, 15)),
        (D(2026, 1, 31), 1, D(2026, 2, 28)),
        (D(2028, 1, 31), 1, D(2028, 2, 29)),
        (D(2024, 2, 29), 12, D(2025, 2, 28)),
        (D(2024, 2, 29), 48, D(2028, 2, 29)),
        (D(2026, 10, 31), 1, D(2026, 11, 30)),
        (D(2026, 11, 30), 3, D(2027, 2, 28)),
        (D(2026, 12, 31), 2, D(2027, 2, 28)),
        (D(2026, 5, 31), 0, D(2026, 5, 31)),
        (D(2026, 12, 1), 1, D(2027, 1, 1)),
    ],
)
def test_months_later_ends_where_the_month_ends(day: date, months: int, later: date) -> None:
    """ISO/IEC 9075-2 (SQL), datetime plus interval of months, as databases print it: 31 January + 1 month is the last
    day of February. Values from memory.
    """
    assert months_later(day, months) == later


def test_months_past_the_last_year_have_no_end() -> None:
    """A proof good for thousands of years has no end, and is no error."""
    assert months_later(D(9999, 6, 1), 12) == NO_END


@pytest.mark.parametrize(
    ("born", "age", "first_day"),
    [
        (D(2008, 5, 3), 18, D(2026, 5, 3)),
        (D(2008, 2, 29), 18, D(2026, 3, 1)),
        (D(2008, 2, 29), 20, D(2028, 2, 29)),
        (D(2000, 2, 29), 100, D(2100, 3, 1)),
        (D(2008, 12, 31), 18, D(2026, 12, 31)),
    ],
)
def test_a_birthday_on_29_february_falls_on_1_march_in_a_common_year(born: date, age: int, first_day: date) -> None:
    """Hong Kong, Age of Majority (Related Provisions) Ordinance, Cap. 410, section 5: born on 29 February, an age is
    reached on 1 March of a common year (from memory). 2100 is no leap year (ISO 8601, Gregorian calendar).
    """
    assert birthday(born, age) == first_day


def test_a_birthday_past_the_last_year_never_comes() -> None:
    """An age nobody can reach on the calendar bars for good."""
    assert birthday(D(9990, 1, 1), 18) == NO_END


def test_a_span_holds_its_first_and_its_last_day() -> None:
    """Both ends count."""
    span = Span(D(2026, 3, 1), D(2026, 3, 31))
    assert span.holds(D(2026, 3, 1))
    assert span.holds(D(2026, 3, 31))
    assert not span.holds(D(2026, 2, 28))
    assert not span.holds(D(2026, 4, 1))


def test_union_joins_spans_that_overlap_or_touch() -> None:
    """1 to 5 and 6 to 9 are one run of days; 11 to 12 is another; a span that ends before it begins is none."""
    spans = [
        Span(D(2026, 1, 6), D(2026, 1, 9)),
        Span(D(2026, 1, 11), D(2026, 1, 12)),
        Span(D(2026, 1, 1), D(2026, 1, 5)),
        Span(D(2026, 1, 2), D(2026, 1, 3)),
        Span(D(2026, 1, 20), D(2026, 1, 19)),
    ]
    assert union(spans) == [Span(D(2026, 1, 1), D(2026, 1, 9)), Span(D(2026, 1, 11), D(2026, 1, 12))]


def test_union_takes_spans_without_beginning_or_end() -> None:
    """Two open spans are one open run."""
    assert union([Span(date.min, D(2026, 1, 1)), Span(date.min, date.max)]) == [Span(date.min, date.max)]


def test_intersection_keeps_the_days_in_both() -> None:
    """Each run with each other, and nothing where they do not meet."""
    left = [Span(D(2026, 1, 1), D(2026, 1, 10)), Span(D(2026, 2, 1), D(2026, 2, 10))]
    right = [Span(D(2026, 1, 10), D(2026, 2, 1))]
    assert intersection(left, right) == [Span(D(2026, 1, 10), D(2026, 1, 10)), Span(D(2026, 2, 1), D(2026, 2, 1))]


def test_best_on_is_the_span_that_ends_last() -> None:
    """Of two proofs good today, the later end counts."""
    short, long = Span(D(2026, 1, 1), D(2026, 6, 1), ("a",)), Span(D(2026, 1, 5), D(2026, 9, 1), ("b",))
    assert best_on([short, long], D(2026, 2, 1)) == long
    assert best_on([short, long], D(2026, 1, 2)) == short
    assert best_on([short, long], D(2027, 1, 2)) is None


def test_a_day_in_words_reads_one_way() -> None:
    """The month is spelt out: 3/5 would be March to one cook and May to another."""
    assert english(in_words(D(2027, 5, 3))) == "3 May 2027"
