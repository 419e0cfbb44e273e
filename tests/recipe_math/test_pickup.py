"""All of a ticket lands together: the slowest thing starts first."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.recipe_math.pickup import Item, starts
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension


def minutes(amount: int | str | Fraction) -> Quantity:
    return Quantity.of(amount, "min")


def test_the_slowest_starts_first_and_its_rest_counts() -> None:
    """By hand: steak 9 + 4 = 13; fish 6, after 7; pasta 2 1/2, after 10 1/2."""
    ticket = [Item("pasta", Quantity.of(150, "s")), Item("steak", minutes(9), minutes(4)), Item("fish", minutes(6))]
    found = [(start.name, start.after_first, start.before_plate) for start in starts(ticket)]
    assert found == [
        ("steak", minutes(0), minutes(13)),
        ("fish", minutes(7), minutes(6)),
        ("pasta", minutes("10.5"), minutes("2.5")),
    ]


def test_things_as_slow_as_each_other_keep_their_order() -> None:
    """By hand: both at once."""
    found = starts([Item("b", minutes(5)), Item("a", minutes(3), minutes(2))])
    assert [(start.name, start.after_first) for start in found] == [("b", minutes(0)), ("a", minutes(0))]


@given(st.lists(st.fractions(Fraction(1, 4), 600, max_denominator=60), min_size=1, max_size=12))
def test_everything_lands_at_the_same_minute(times: list[Fraction]) -> None:
    """Start and time together are the same for all; the first starts at nothing; nobody starts before it."""
    items = [Item(str(number), minutes(time)) for number, time in enumerate(times)]
    found = starts(items)
    assert {(start.after_first + start.before_plate).amount for start in found} == {max(times)}
    afters = [start.after_first.amount for start in found]
    assert afters == sorted(afters)
    assert afters[0] == 0


def test_what_takes_no_time_or_is_none_is_refused() -> None:
    """The message names the thing."""
    with pytest.raises(QuantityProblem, match="salt takes no time"):
        Item("salt", minutes(0))
    with pytest.raises(QuantityProblem, match="fish: a time of -1 min"):
        Item("fish", minutes(-1))
    with pytest.raises(WrongDimension, match="fish: 6 g is mass"):
        Item("fish", Quantity.of(6, "g"))
    with pytest.raises(QuantityProblem, match="nothing to start"):
        starts([])
    with pytest.raises(QuantityProblem, match="fish is on the ticket twice"):
        starts([Item("fish", minutes(6)), Item("fish", minutes(7))])
    assert Item("cured ham", minutes(0), minutes(1)).altogether() == minutes(1)
