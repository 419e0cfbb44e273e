"""What another birth date changes at stations that ask for an age. 29 CFR 570.61-62: 18 years at powered machines."""

from __future__ import annotations

from datetime import date

import pytest

from trainer.kitchen.ages import AgeChange, age_change
from trainer.kitchen.technique import Station

ON = date(2026, 11, 25)
STATIONS = (
    Station("pasta_room", "Pasta room", (), (), 18, "powered dough sheeter", 0),
    Station("fry", "Fry", (), (), 16, "fat fryer", 0),
    Station("cold_side", "Cold side", (), (), None, "", 0),
)
ADULT, SEVENTEEN, FIFTEEN = date(1990, 3, 4), date(2009, 3, 4), date(2011, 3, 4)


@pytest.mark.parametrize(
    ("before", "after", "change"),
    [
        (ADULT, date(1991, 3, 4), AgeChange()),
        (ADULT, SEVENTEEN, AgeChange(bars=("pasta_room",))),
        (ADULT, FIFTEEN, AgeChange(bars=("pasta_room", "fry"))),
        (SEVENTEEN, ADULT, AgeChange(frees=("pasta_room",))),
        (None, ADULT, AgeChange(frees=("pasta_room", "fry"))),
        (ADULT, None, AgeChange(bars=("pasta_room", "fry"))),
        (FIFTEEN, SEVENTEEN, AgeChange(frees=("pasta_room", "fry"))),
        (SEVENTEEN, date(2009, 3, 5), AgeChange(bars=("pasta_room",))),
    ],
)
def test_a_birth_date_bars_where_it_puts_the_day_off_and_frees_where_it_brings_it_on(
    before: date | None, after: date | None, change: AgeChange
) -> None:
    """A station without an age is never named; nor is one whose age was reached and still is."""
    assert age_change(before, after, STATIONS, ON) == change


@pytest.mark.parametrize(("born", "frees"), [(date(2008, 11, 25), ("pasta_room",)), (date(2008, 11, 26), ())])
def test_the_day_of_the_birthday_is_the_first_day_allowed(born: date, frees: tuple[str, ...]) -> None:
    """Eighteen on the day itself: freed at once, against a person who is so a day later."""
    assert age_change(date(2008, 11, 26), born, STATIONS, ON).frees == frees
