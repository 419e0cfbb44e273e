"""What trimming and cooking leave, and what it costs: yield tests, butcher cards and cooking-loss cards."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.recipe_math.buying import amount_to_buy, edible_share
from trainer.recipe_math.costs import UnitPrice
from trainer.recipe_math.quantity import Quantity, QuantityProblem, WrongDimension
from trainer.recipe_math.rounding import to_cents
from trainer.recipe_math.yields import (
    ButcherCard,
    Trim,
    Yielded,
    two_step_share,
    yield_percent,
)

CENT_EITHER_WAY = Fraction("0.005")


def pounds(amount: int | str) -> Quantity:
    return Quantity.of(amount, "lb")


def dollars(amount: int | str) -> Quantity:
    return Quantity.of(amount, "$")


def trim(weight: str, price: str) -> Trim:
    return Trim(pounds(weight), UnitPrice.of(price, "lb"))


PERCENTS = [
    (
        "80 oz",
        "71.2 oz",
        "89",
        "0.05",
        "The Ultimate Guide to Recipe Calculation (Culinary Institute of America): 8.8 oz",
    ),
    ("5.2 kg", "4.6 kg", "88.5", "0.05", "G. Wall, Trade Calculations, objective 4, examples 1-3"),
    ("192 oz", "186.5 oz", "97", "0.5", "worked answer, celery: 12 lb and 5.5 oz of trim"),
]


@pytest.mark.parametrize(("bought", "usable", "percent", "tolerance", "source"), PERCENTS, ids=[r[4] for r in PERCENTS])
def test_the_yield_is_what_is_usable_of_what_was_bought(
    bought: str, usable: str, percent: str, tolerance: str, source: str
) -> None:
    """Printed percentages, each within its last figure."""
    assert source
    found = yield_percent(Quantity.of(*bought.split()), Quantity.of(*usable.split()))
    assert abs(found - Fraction(percent)) <= Fraction(tolerance)


WEIGHED_OUT = [(2500, 750, 1750), (7750, 2750, 5000)]


CARD_A6 = [
    ("asparagus", "1.89", "52.9"), ("green beans", "1.14", "87.7"), ("broccoli", "1.64", "61.0"),
    ("broccoli florets", "2.2", "45.5"), ("brussels sprouts", "1.11", "90.1"), ("cabbage", "1.16", "86.2"),
    ("cabbage cored", "1.25", "80.0"), ("carrot", "1.22", "82.0"), ("cauliflower", "1.2", "83.3"),
    ("celery", "1.37", "73.0"), ("cucumber seeded", "1.67", "59.9"), ("cucumber pared", "1.19", "84.0"),
    ("cucumber", "1.05", "95.2"), ("eggplant pared", "1.23", "81.3"), ("eggplant", "1.03", "97.1"),
    ("endive", "1.11", "90.1"), ("escarole", "1.11", "90.1"), ("green onion", "1.2", "83.3"),
    ("parsnip", "1.18", "84.7"),
    ("garlic", "1.06", "94.3"), ("kale", "1.41", "70.9"), ("collard", "1.18", "84.7"), ("lettuce", "1.08", "92.6"),
    ("mushroom", "1.1", "90.9"), ("onion", "1.11", "90.1"), ("parsley", "1.02", "98.0"),
    ("pepper", "1.22", "82.0"), ("pepper, ends off", "2.08", "48.1"), ("potato", "1.23", "81.3"),
]  # fmt: skip


def test_two_losses_multiply() -> None:
    """Theory only, by hand: 5 kg through 80 and 75 percent is 8.333 kg; the mean would say 6.45, the sum 9.09."""
    bought = amount_to_buy(Quantity.of(5, "kg"), two_step_share(Fraction(4, 5), Fraction(3, 4)))
    assert bought == Quantity.of(Fraction(25, 3), "kg")


LAMB = ButcherCard(pounds(12), UnitPrice.of("6.65", "lb"), pounds(6), (trim("1", "6.10"), trim("1.5", "4.60")))
FOREQUARTER = ButcherCard(
    pounds(81),
    UnitPrice.of("4.50", "lb"),
    pounds(24),
    (trim("18", "1.89"), trim("13", "2.25"), trim("10", "0.20"), trim("12", "1.95")),
)


def test_the_lamb_loin_comes_out_as_on_the_card() -> None:
    """Butcher test card, exercise 6.3: 79.80 - 13.00 = 66.80; 11.13 a pound; 5 oz 3.48; cost factor 1.67."""
    assert LAMB.total_cost() == dollars("79.80")
    assert LAMB.trim_value() == dollars("13.00")
    usable = LAMB.usable_part()
    assert usable.cost == dollars("66.80")
    assert to_cents(usable.price().for_one("lb")) == dollars("11.13")
    assert to_cents(usable.portion_cost(Quantity.of(5, "oz"))) == dollars("3.48")
    assert abs(usable.cost_factor() - Fraction("1.67")) <= CENT_EITHER_WAY
    assert LAMB.yield_percent() == 50


def test_the_roasted_lamb_comes_out_as_on_the_card() -> None:
    """The same card, cooking loss: 79.80 / 5 lb = 15.96; 5 oz 4.99; cost factor 15.96 / 6.65 = 2.4."""
    served = Yielded(pounds(5), LAMB.total_cost(), LAMB.price)
    assert served.price().for_one("lb") == dollars("15.96")
    assert abs(served.portion_cost(Quantity.of(5, "oz")).amount - Fraction("4.99")) <= CENT_EITHER_WAY
    assert served.cost_factor() == Fraction("2.4")


def test_the_forequarter_comes_out_as_on_the_sheet() -> None:
    """Butcher test to find the yield cost, work sheet, solved copy: 364.50 - 88.67 = 275.83 for 24 lb; 7 oz 5.03.

    The sheet elsewhere prints 11.19 a pound, a slip: 275.83 / 24 is 11.49.
    """
    assert FOREQUARTER.total_cost() == dollars("364.50")
    assert FOREQUARTER.trim_value() == dollars("88.67")
    assert FOREQUARTER.usable_part().cost == dollars("275.83")
    portion = FOREQUARTER.usable_part().portion_cost(Quantity.of(7, "oz"))
    assert abs(portion.amount - Fraction("5.03")) <= CENT_EITHER_WAY


def test_a_rib_costs_less_by_what_its_trims_are_worth() -> None:
    """By hand: 36.40 - 8.00 = 28.40 (a stored sheet prints 22.40, a slip); over 16 lb 1.775."""
    rib = ButcherCard(pounds(28), UnitPrice.of("1.30", "lb"), pounds(16), (trim("4", "2.00"),)).usable_part()
    assert rib.cost == dollars("28.40")
    assert rib.price().for_one("lb") == dollars("1.775")


def test_parts_never_outweigh_the_whole() -> None:
    """Weighed wrong: the message says both sides."""
    with pytest.raises(QuantityProblem, match="weigh again"):
        ButcherCard(pounds(5), UnitPrice.of(1, "lb"), pounds(4), (trim("1.5", "0"),))
    with pytest.raises(QuantityProblem, match="at most 1"):
        yield_percent(pounds(5), pounds(6))
    with pytest.raises(WrongDimension):
        yield_percent(pounds(5), Quantity.of(1, "cup"))


def test_trims_are_never_worth_more_than_the_whole() -> None:
    """By hand: 4 lb of trim at 2.00 on 5.00 paid."""
    with pytest.raises(QuantityProblem, match="prices"):
        ButcherCard(pounds(5), UnitPrice.of(1, "lb"), pounds(1), (trim("4", "2"),))


def test_nothing_to_serve_is_refused() -> None:
    """The message names the value."""
    with pytest.raises(QuantityProblem, match="cannot be served"):
        Yielded(pounds(0), dollars(5), UnitPrice.of(1, "lb"))
    with pytest.raises(QuantityProblem, match="at most 1"):
        two_step_share(Fraction(80), Fraction(1, 2))


@given(
    st.fractions(Fraction(1, 100), 100, max_denominator=100),
    st.fractions(Fraction(1, 100), 1, max_denominator=100),
)
def test_a_yield_and_what_is_bought_by_it_undo_each_other(bought: Fraction, share: Fraction) -> None:
    """Buying for what was left gives back what was bought; the share from trim and from usable are the same."""
    whole = Quantity(bought, pounds(1).unit)
    usable = whole * share
    assert amount_to_buy(usable, share) == whole
    assert edible_share(whole, whole - usable) == share == yield_percent(whole, usable) / 100


@given(
    st.fractions(Fraction(1, 100), 1, max_denominator=100),
    st.fractions(Fraction(1, 100), 50, max_denominator=100),
)
def test_cards_spread_the_cost_over_what_is_served(share: Fraction, price: Fraction) -> None:
    """What is served costs, all together, what was paid; with no trim the cost factor is one over the share."""
    card = ButcherCard(pounds(10), UnitPrice.of(price, "lb"), pounds(10) * share)
    usable = card.usable_part()
    assert usable.portion_cost(usable.weight) == card.total_cost()
    assert usable.cost_factor() == 1 / share
