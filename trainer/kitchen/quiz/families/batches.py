"""Making more or less of a recipe: by the number of portions, by their size, by what there is of one food."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial

from trainer.kitchen.quiz.families.weights import KILOGRAM_WEIGHTS, POUND_WEIGHTS, Weights
from trainer.kitchen.quiz.family import Numbers, NumericFamily, Range, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.wording import figures, roughly
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.scaling import factor_by_ingredient, factor_by_portion, factor_by_yield

TENTH = Fraction(1, 10)
MOST = {"us": 30, "metric": 15}
"""No more of one food than a kitchen for seventy guests puts in a pot, in pounds and in kilograms."""


def _is_two_place_factor(factor: Fraction) -> bool:
    """Return whether a factor is one a cook would write down whole: two places, not 1, not above 6."""
    return (factor * 100).denominator == 1 and factor != 1 and factor <= 6


def _may_be_asked(u: Weights, amount: Fraction, factor: Fraction) -> bool:
    return _is_two_place_factor(factor) and 1 <= amount * factor <= MOST[u.system]


def _yield_factor(n: Numbers) -> Fraction:
    return factor_by_yield(n["old_portions"], n["new_portions"])


def _in_large(u: Weights, amount: Fraction) -> tuple[Sentence, ...]:
    """Return the line that brings an amount to pounds; none in kilograms, which are decimal already."""
    if u.system == "metric":
        return ()
    if amount.denominator == 1:
        return (sentence("work_in_pounds_lb", pounds=figures(amount)),)
    return (sentence("work_in_pounds_is", weight=u.written(amount), pounds=figures(amount)),)


def _ask_yield(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        old=n["old_portions"],
        amount=u.written(u.of("amount", n)),
        food=w["food"],
        new=n["new_portions"],
        unit=u.large,
    )


def _times_factor(u: Weights, amount: Fraction, factor: Fraction) -> Sentence:
    return sentence(
        "multiply_by_the_factor",
        amount=figures(amount),
        factor=figures(factor),
        result=roughly(amount * factor),
        unit=u.large,
    )


def _solve_yield(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    factor, amount = _yield_factor(n), u.of("amount", n)
    return (
        sentence(
            "factor_new_portions_over",
            new_portions=n["new_portions"],
            old_portions=n["old_portions"],
            result=figures(factor),
        ),
        *_in_large(u, amount),
        _times_factor(u, amount, factor),
    )


def _scale_by_yield(u: Weights, amounts: Range) -> NumericFamily:
    return NumericFamily(
        name="scale_by_yield",
        level="two steps",
        unit=u.large,
        system=u.system,
        ranges={
            f"amount_{u.large_name}": amounts,
            "old_portions": span(10, 80, 5, "portions the recipe makes"),
            "new_portions": span(12, 140, 1, "portions wanted"),
        },
        words=("food",),
        ask=partial(_ask_yield, u),
        right=lambda n: u.of("amount", n) * _yield_factor(n),
        solve=partial(_solve_yield, u),
        wrong={
            "factor_upside_down": lambda n: u.of("amount", n) / _yield_factor(n),
            "difference_added": lambda n: u.of("amount", n) + n["new_portions"] - n["old_portions"],
            "increase_only": lambda n: u.of("amount", n) * (_yield_factor(n) - 1),
            "factor_rounded_to_whole": lambda n: u.of("amount", n) * to_nearest(_yield_factor(n), Fraction(1)),
            "factor_rounded_to_one_place": lambda n: u.of("amount", n) * to_nearest(_yield_factor(n), TENTH),
            "times_new_portions": lambda n: u.of("amount", n) * n["new_portions"],
        },
        tolerance=u.tolerance,
        told=lambda n: (u.of("amount", n), n["old_portions"], n["new_portions"]),
        formula="amount × new portions / old portions",
        checked_against="Armed Forces Recipe Service, A. General Information No. 1: 1.25 lb × 348/100 = 4.35 lb.",
        fits=lambda n: _may_be_asked(u, u.of("amount", n), _yield_factor(n)),
    )


SCALE_BY_YIELD = replace(
    _scale_by_yield(POUND_WEIGHTS, span("5/4", 12, "1/4", "weight of the food in the recipe, in pounds")),
    other=_scale_by_yield(KILOGRAM_WEIGHTS, span("1/2", 6, "1/10", "weight of the food in the recipe, in kilograms")),
)


def _count_ratio(n: Numbers) -> Fraction:
    return n["new_portions"] / n["old_portions"]


def _size_ratio(u: Weights, n: Numbers) -> Fraction:
    return u.small_of("new", n) / u.small_of("old", n)


def _portion_factor(u: Weights, n: Numbers) -> Fraction:
    old, new = (n["old_portions"], u.small_of("old", n)), (n["new_portions"], u.small_of("new", n))
    return factor_by_portion(old, new)


def _portion_fits(u: Weights, n: Numbers) -> bool:
    size = _size_ratio(u, n)
    return size != 1 and _may_be_asked(u, u.of("amount", n), _count_ratio(n) * size)


def _ask_portion(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        amount=u.written(u.of("amount", n)),
        food=w["food"],
        old_portions=n["old_portions"],
        old_size=u.written_small(u.small_of("old", n)),
        new_portions=n["new_portions"],
        new_size=u.written_small(u.small_of("new", n)),
        unit=u.large,
    )


def _solve_portion(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    old_size, new_size = u.small_of("old", n), u.small_of("new", n)
    old, new = n["old_portions"] * old_size, n["new_portions"] * new_size
    factor, amount = _portion_factor(u, n), u.of("amount", n)
    return (
        sentence(
            "what_the_recipe_makes",
            old_portions=n["old_portions"],
            size=u.written_small(old_size),
            result=figures(old),
            unit=u.small,
        ),
        sentence(
            "what_you_need",
            new_portions=n["new_portions"],
            size=u.written_small(new_size),
            result=figures(new),
            unit=u.small,
        ),
        sentence("factor", new=figures(new), old=figures(old), result=figures(factor)),
        _times_factor(u, amount, factor),
    )


def _scale_by_portion(u: Weights, amounts: Range, sizes: tuple[int | str, int | str, int | str]) -> NumericFamily:
    return NumericFamily(
        name="scale_by_portion",
        level="two steps",
        unit=u.large,
        system=u.system,
        ranges={
            f"amount_{u.large_name}": amounts,
            "old_portions": span(10, 80, 10, "portions the recipe makes"),
            f"old_{u.small_name}": span(*sizes, f"size of a portion in the recipe, in {u.small_name}"),
            "new_portions": span(12, 140, 2, "portions wanted"),
            f"new_{u.small_name}": span(*sizes, f"size of a portion wanted, in {u.small_name}"),
        },
        words=("food",),
        ask=partial(_ask_portion, u),
        right=lambda n: u.of("amount", n) * _portion_factor(u, n),
        solve=partial(_solve_portion, u),
        wrong={
            "portion_size_ignored": lambda n: u.of("amount", n) * _count_ratio(n),
            "portion_count_ignored": lambda n: u.of("amount", n) * _size_ratio(u, n),
            "size_upside_down": lambda n: u.of("amount", n) * _count_ratio(n) / _size_ratio(u, n),
            "ratios_added": lambda n: u.of("amount", n) * (_count_ratio(n) + _size_ratio(u, n)),
            "factor_upside_down": lambda n: u.of("amount", n) / _portion_factor(u, n),
        },
        tolerance=u.tolerance,
        told=lambda n: (u.of("amount", n), *(u.small_of(when, n) / u.small_in_large for when in ("old", "new"))),
        formula="amount × (new number × new size) / (old number × old size)",
        checked_against="Armed Forces Recipe Service, A. General Information No. 1: factor 3/4 × 348/100 = 2.61.",
        fits=partial(_portion_fits, u),
    )


SCALE_BY_PORTION = replace(
    _scale_by_portion(
        POUND_WEIGHTS, span("3/2", 10, "1/4", "weight of the food in the recipe, in pounds"), (3, 8, "1/2")
    ),
    other=_scale_by_portion(
        KILOGRAM_WEIGHTS, span("1/2", 5, "1/10", "weight of the food in the recipe, in kilograms"), (80, 240, 10)
    ),
)


def _stock_factor(u: Weights, n: Numbers) -> Fraction:
    return factor_by_ingredient(u.of("called", n), u.of("stock", n))


def _ask_ingredient(u: Weights, n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        called=u.written(u.of("called", n)),
        base=w["base"],
        amount=u.written(u.of("amount", n)),
        food=w["food"],
        stock=u.written(u.of("stock", n)),
        unit=u.large,
    )


def _solve_ingredient(u: Weights, n: Numbers) -> tuple[Sentence, ...]:
    factor, amount = _stock_factor(u, n), u.of("amount", n)
    return (
        sentence(
            "factor_what_you_have",
            stock=figures(u.of("stock", n)),
            called=figures(u.of("called", n)),
            result=figures(factor),
        ),
        *_in_large(u, amount),
        _times_factor(u, amount, factor),
    )


def _scale_by_ingredient(u: Weights, called: Range, stock: Range, amounts: Range) -> NumericFamily:
    return NumericFamily(
        name="scale_by_ingredient",
        level="two steps",
        unit=u.large,
        system=u.system,
        ranges={
            f"called_{u.large_name}": called,
            f"stock_{u.large_name}": stock,
            f"amount_{u.large_name}": amounts,
        },
        words=("base", "food"),
        ask=partial(_ask_ingredient, u),
        told=lambda n: (u.of("called", n), u.of("stock", n), u.of("amount", n)),
        right=lambda n: u.of("amount", n) * _stock_factor(u, n),
        solve=partial(_solve_ingredient, u),
        wrong={
            "factor_upside_down": lambda n: u.of("amount", n) / _stock_factor(u, n),
            "difference_added": lambda n: u.of("amount", n) + u.of("stock", n) - u.of("called", n),
            "increase_only": lambda n: u.of("amount", n) * (_stock_factor(u, n) - 1),
            "factor_rounded_to_whole": lambda n: u.of("amount", n) * to_nearest(_stock_factor(u, n), Fraction(1)),
            "times_what_there_is": lambda n: u.of("amount", n) * u.of("stock", n),
        },
        tolerance=u.tolerance,
        formula="amount × on hand / called for",
        checked_against="Armed Forces Recipe Service, A. General Information No. 1, card 1(3): 102 lb on hand, 30 lb "
        "called for, factor 3.40.",
        fits=lambda n: _may_be_asked(u, u.of("amount", n), _stock_factor(u, n)),
    )


SCALE_BY_INGREDIENT = replace(
    _scale_by_ingredient(
        POUND_WEIGHTS,
        span(5, 40, 1, "what the recipe takes of the ingredient that sets the size, in pounds"),
        span(6, 80, 1, "what there is of it, in pounds"),
        span("5/4", 8, "1/4", "what the recipe takes of the other, in pounds"),
    ),
    other=_scale_by_ingredient(
        KILOGRAM_WEIGHTS,
        span(2, 20, "1/2", "what the recipe takes of the ingredient that sets the size, in kilograms"),
        span(3, 40, "1/2", "what there is of it, in kilograms"),
        span("1/2", 4, "1/10", "what the recipe takes of the other, in kilograms"),
    ),
)
