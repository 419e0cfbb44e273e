"""Calendar days: months that end where the month ends, birthdays, and runs of days that can be intersected."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from trainer.messages import Message, Text, joined, message, plural

ALWAYS = date.min
NO_END = date.max
ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Span:
    """Days from `since` to the end of `until`, both counted, with the entries that prove them.

    `date.min` and `date.max` stand for no beginning and no end. A span that ends before it begins holds no day.
    """

    since: date
    until: date
    proof: tuple[str, ...] = ()

    def holds(self, on: date) -> bool:
        """Return whether a day lies in the span; the first and the last day do."""
        return self.since <= on <= self.until


def months_later(day: date, months: int) -> date:
    """Return the same day of a later month, or that month's last day where it has no such day.

    31 January and one month give 28 February, in a leap year 29 February. Past the year 9999 there is no end.
    """
    years, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    if years > date.max.year:
        return NO_END
    return date(years, month + 1, min(day.day, monthrange(years, month + 1)[1]))


def days_later(day: date, days: int) -> date:
    """Return the day so many days later; past the year 9999 there is no end."""
    return NO_END if NO_END - day < timedelta(days=days) else day + timedelta(days=days)


def birthday(born: date, age: int) -> date:
    """Return the first day a person is *age* years old; born on 29 February, that is 1 March in a common year.

    Law differs by place on that one day (28 February or 1 March); the later one keeps a bar a day longer.
    """
    year = born.year + age
    if year > date.max.year:
        return NO_END
    if (born.month, born.day) == (2, 29) and monthrange(year, 2)[1] == 28:
        return date(year, 3, 1)
    return born.replace(year=year)


def union(spans: Iterable[Span]) -> list[Span]:
    """Return the same days as runs that neither overlap nor touch, earliest first; proofs are left behind."""
    runs: list[Span] = []
    for span in sorted((s for s in spans if s.since <= s.until), key=lambda s: s.since):
        if runs and (span.since <= runs[-1].until or span.since - ONE_DAY == runs[-1].until):
            runs[-1] = Span(runs[-1].since, max(runs[-1].until, span.until))
        else:
            runs.append(Span(span.since, span.until))
    return runs


def intersection(left: Sequence[Span], right: Sequence[Span]) -> list[Span]:
    """Return the days in both; both are runs as `union` gives them."""
    both = (Span(max(a.since, b.since), min(a.until, b.until)) for a in left for b in right)
    return [span for span in both if span.since <= span.until]


def ends_of(spans: Iterable[Span]) -> Iterator[date]:
    """Yield the first day of each span, and the first day after it."""
    for span in spans:
        yield span.since
        if span.until < NO_END:
            yield span.until + ONE_DAY


def best_on(spans: Iterable[Span], on: date) -> Span | None:
    """Return the span that holds a day and ends last, or None where no span holds it."""
    return max((span for span in spans if span.holds(on)), key=lambda span: span.until, default=None)


MONTHS = (
    message("January"), message("February"), message("March"), message("April"), message("May"), message("June"),
    message("July"), message("August"), message("September"), message("October"),
    message("November"), message("December"),
)  # fmt: skip


SHORT_MONTHS = (
    message("Jan"), message("Feb"), message("Mar"), message("Apr"), message("May"), message("Jun"),
    message("Jul"), message("Aug"), message("Sep"), message("Oct"), message("Nov"), message("Dec"),
)  # fmt: skip


EVERY_WEEKDAY: tuple[Text, ...] = (
    message("Mondays"),
    message("Tuesdays"),
    message("Wednesdays"),
    message("Thursdays"),
    message("Fridays"),
    message("Saturdays"),
    message("Sundays"),
)
"""As they repeat, Monday first."""
SHORT_WEEKDAYS = (
    message("Mon"),
    message("Tue"),
    message("Wed"),
    message("Thu"),
    message("Fri"),
    message("Sat"),
    message("Sun"),
)


def in_short(day: date, *, with_year: bool) -> Message:
    """Return a day as short as a line allows: 3 May, or 3 May 2027."""
    if with_year:
        return message("{day} {month} {year}", day=day.day, month=SHORT_MONTHS[day.month - 1], year=day.year)
    return message("{day} {month}", day=day.day, month=SHORT_MONTHS[day.month - 1])


def in_words(day: date) -> Text:
    """Return a day as people write it, the month spelt out so that it reads one way: 3 May 2027."""
    return message("{day} {full_month} {year}", day=day.day, full_month=MONTHS[day.month - 1], year=day.year)


def with_weekday(day: date, *, with_year: bool = True) -> Text:
    """Return a day with its day of the week: Tue 3 Nov 2026, or Tue 3 Nov."""
    return joined([SHORT_WEEKDAYS[day.weekday()], in_short(day, with_year=with_year)])


def how_long(since: datetime, now: datetime) -> Message:
    """Return how long it has been by now, in the largest whole unit: 3 days, 2 hours, 5 minutes.

    Under a minute it says so.
    """
    minutes = max(0, int((now - since).total_seconds())) // 60
    if minutes >= 1440:
        return plural("{number} day", "{number} days", minutes // 1440)
    if minutes >= 60:
        return plural("{number} hour", "{number} hours", minutes // 60)
    return plural("{number} minute", "{number} minutes", minutes) if minutes else message("less than a minute")
