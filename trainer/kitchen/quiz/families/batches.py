"""Making more or less of a recipe: by the number of portions, and by the size of a portion as well."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, NumericFamily, Words, span
from trainer.kitchen.quiz.sentences import Sentence, sentence
from trainer.kitchen.quiz.tolerances import POUNDS
from trainer.kitchen.quiz.wording import figures, mixed, pounds, roughly
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.scaling import factor_by_ingredient, factor_by_portion, factor_by_yield

TENTH = Fraction(1, 10)


def _is_two_place_factor(factor: Fraction) -> bool:
    """Return whether a factor is one a cook would write down whole: two places, not 1, not above 6."""
    return (factor * 100).denominator == 1 and factor != 1 and factor <= 6


def _yield_factor(n: Numbers) -> Fraction:
    return factor_by_yield(n["old_portions"], n["new_portions"])


def _in_pounds(amount: Fraction) -> Sentence:
    """Return the line that brings an amount to pounds, where it is not in pounds already."""
    if amount.denominator == 1:
        return sentence("work_in_pounds_lb", pounds=figures(amount))
    return sentence("work_in_pounds_is", weight=pounds(amount), pounds=figures(amount))


def _yield_fits(n: Numbers) -> bool:
    return _is_two_place_factor(_yield_factor(n)) and 2 <= n["amount_pounds"] * _yield_factor(n) < 60


def _ask_yield(n: Numbers, w: Words) -> Sentence:
    amount, old, new = pounds(n["amount_pounds"]), n["old_portions"], n["new_portions"]
    return sentence(
        "ask",
        old=old,
        amount=amount,
        food=w["food"],
        new=new,
    )


def _solve_yield(n: Numbers) -> tuple[Sentence, ...]:
    factor, amount = _yield_factor(n), n["amount_pounds"]
    return (
        sentence(
            "factor_new_portions_over",
            new_portions=n["new_portions"],
            old_portions=n["old_portions"],
            result=figures(factor),
        ),
        _in_pounds(amount),
        sentence(
            "multiply_by_the_factor",
            amount=figures(amount),
            factor=figures(factor),
            result=roughly(amount * factor),
        ),
    )


SCALE_BY_YIELD = NumericFamily(
    name="scale_by_yield",
    level="two steps",
    unit="lb",
    ranges={
        "amount_pounds": span("5/4", 12, "1/4", "weight of the food in the recipe, in pounds"),
        "old_portions": span(20, 100, 5, "portions the recipe makes"),
        "new_portions": span(24, 360, 1, "portions wanted"),
    },
    words=("food",),
    ask=_ask_yield,
    right=lambda n: n["amount_pounds"] * _yield_factor(n),
    solve=_solve_yield,
    wrong={
        "factor_upside_down": lambda n: n["amount_pounds"] / _yield_factor(n),
        "difference_added": lambda n: n["amount_pounds"] + n["new_portions"] - n["old_portions"],
        "increase_only": lambda n: n["amount_pounds"] * (_yield_factor(n) - 1),
        "factor_rounded_to_whole": lambda n: n["amount_pounds"] * to_nearest(_yield_factor(n), Fraction(1)),
        "factor_rounded_to_one_place": lambda n: n["amount_pounds"] * to_nearest(_yield_factor(n), TENTH),
        "times_new_portions": lambda n: n["amount_pounds"] * n["new_portions"],
    },
    tolerance=POUNDS,
    formula="amount × new portions / old portions",
    checked_against="Armed Forces Recipe Service, A. General Information No. 1: 1.25 lb × 348/100 = 4.35 lb.",
    fits=_yield_fits,
)


def _count_ratio(n: Numbers) -> Fraction:
    return n["new_portions"] / n["old_portions"]


def _size_ratio(n: Numbers) -> Fraction:
    return n["new_ounces"] / n["old_ounces"]


def _portion_factor(n: Numbers) -> Fraction:
    return factor_by_portion((n["old_portions"], n["old_ounces"]), (n["new_portions"], n["new_ounces"]))


def _portion_fits(n: Numbers) -> bool:
    sizes_differ = n["old_ounces"] != n["new_ounces"]
    return (
        sizes_differ and _is_two_place_factor(_portion_factor(n)) and 2 <= n["amount_pounds"] * _portion_factor(n) < 60
    )


def _ask_portion(n: Numbers, w: Words) -> Sentence:
    old, new = mixed(n["old_ounces"]), mixed(n["new_ounces"])
    return sentence(
        "ask",
        amount=pounds(n["amount_pounds"]),
        food=w["food"],
        old_portions=n["old_portions"],
        old_size=old,
        new_portions=n["new_portions"],
        new_size=new,
    )


def _solve_portion(n: Numbers) -> tuple[Sentence, ...]:
    old, new = n["old_portions"] * n["old_ounces"], n["new_portions"] * n["new_ounces"]
    factor, amount = _portion_factor(n), n["amount_pounds"]
    return (
        sentence(
            "what_the_recipe_makes",
            old_portions=n["old_portions"],
            size=mixed(n["old_ounces"]),
            result=figures(old),
        ),
        sentence(
            "what_you_need_oz",
            new_portions=n["new_portions"],
            size=mixed(n["new_ounces"]),
            result=figures(new),
        ),
        sentence("factor", new=figures(new), old=figures(old), result=figures(factor)),
        sentence(
            "multiply_lb_lb",
            amount=figures(amount),
            factor=figures(factor),
            result=roughly(amount * factor),
        ),
    )


SCALE_BY_PORTION = NumericFamily(
    name="scale_by_portion",
    level="two steps",
    unit="lb",
    ranges={
        "amount_pounds": span("3/2", 10, "1/4", "weight of the food in the recipe, in pounds"),
        "old_portions": span(20, 100, 10, "portions the recipe makes"),
        "old_ounces": span(3, 8, "1/2", "size of a portion in the recipe, in ounces"),
        "new_portions": span(24, 360, 2, "portions wanted"),
        "new_ounces": span(3, 8, "1/2", "size of a portion wanted, in ounces"),
    },
    words=("food",),
    ask=_ask_portion,
    right=lambda n: n["amount_pounds"] * _portion_factor(n),
    solve=_solve_portion,
    wrong={
        "portion_size_ignored": lambda n: n["amount_pounds"] * _count_ratio(n),
        "portion_count_ignored": lambda n: n["amount_pounds"] * _size_ratio(n),
        "size_upside_down": lambda n: n["amount_pounds"] * _count_ratio(n) / _size_ratio(n),
        "ratios_added": lambda n: n["amount_pounds"] * (_count_ratio(n) + _size_ratio(n)),
        "factor_upside_down": lambda n: n["amount_pounds"] / _portion_factor(n),
    },
    tolerance=POUNDS,
    formula="amount × (new number × new size) / (old number × old size)",
    checked_against="Armed Forces Recipe Service, A. General Information No. 1: factor 3/4 × 348/100 = 2.61.",
    fits=_portion_fits,
)


def _stock_factor(n: Numbers) -> Fraction:
    return factor_by_ingredient(n["called_pounds"], n["stock_pounds"])


def _ask_ingredient(n: Numbers, w: Words) -> Sentence:
    return sentence(
        "ask",
        called=n["called_pounds"],
        base=w["base"],
        amount=pounds(n["amount_pounds"]),
        food=w["food"],
        stock=n["stock_pounds"],
    )


def _solve_ingredient(n: Numbers) -> tuple[Sentence, ...]:
    factor, amount = _stock_factor(n), n["amount_pounds"]
    return (
        sentence(
            "factor_what_you_have",
            stock=n["stock_pounds"],
            called=n["called_pounds"],
            result=figures(factor),
        ),
        _in_pounds(amount),
        sentence(
            "multiply_by_the_factor",
            amount=figures(amount),
            factor=figures(factor),
            result=roughly(amount * factor),
        ),
    )


SCALE_BY_INGREDIENT = NumericFamily(
    name="scale_by_ingredient",
    level="two steps",
    unit="lb",
    ranges={
        "called_pounds": span(10, 60, 1, "what the recipe takes of the ingredient that sets the size, in pounds"),
        "stock_pounds": span(12, 180, 1, "what there is of it, in pounds"),
        "amount_pounds": span("5/4", 8, "1/4", "what the recipe takes of the other, in pounds"),
    },
    words=("base", "food"),
    ask=_ask_ingredient,
    told=lambda n: (n["called_pounds"], n["stock_pounds"], n["amount_pounds"]),
    right=lambda n: n["amount_pounds"] * _stock_factor(n),
    solve=_solve_ingredient,
    wrong={
        "factor_upside_down": lambda n: n["amount_pounds"] / _stock_factor(n),
        "difference_added": lambda n: n["amount_pounds"] + n["stock_pounds"] - n["called_pounds"],
        "increase_only": lambda n: n["amount_pounds"] * (_stock_factor(n) - 1),
        "factor_rounded_to_whole": lambda n: n["amount_pounds"] * to_nearest(_stock_factor(n), Fraction(1)),
        "times_what_there_is": lambda n: n["amount_pounds"] * n["stock_pounds"],
    },
    tolerance=POUNDS,
    formula="amount × on hand / called for",
    checked_against="Armed Forces Recipe Service, A. General Information No. 1, card 1(3): 102 lb on hand, 30 lb "
    "called for, factor 3.40.",
    fits=lambda n: _is_two_place_factor(_stock_factor(n)) and 2 <= n["amount_pounds"] * _stock_factor(n) < 60,
)
