"""Making more or less of a recipe: by the number of portions, and by the size of a portion as well."""

from __future__ import annotations

from fractions import Fraction

from trainer.kitchen.quiz.family import Numbers, Sum, Words, WrongWay, span
from trainer.kitchen.quiz.tolerances import POUNDS
from trainer.kitchen.quiz.wording import any_of, figures, mixed, pounds, roughly
from trainer.recipe_math.rounding import to_nearest
from trainer.recipe_math.saying import say
from trainer.recipe_math.scaling import factor_by_ingredient, factor_by_portion, factor_by_yield

TENTH = Fraction(1, 10)

FOODS = any_of("carrots|onions|leeks|celery|diced tomato|mushrooms|chickpeas|durum flour|butter|rice")


def _is_two_place_factor(factor: Fraction) -> bool:
    """Return whether a factor is one a cook would write down whole: two places, not 1, not above 6."""
    return (factor * 100).denominator == 1 and factor != 1 and factor <= 6


def _yield_factor(n: Numbers) -> Fraction:
    return factor_by_yield(n["old_portions"], n["new_portions"])


def _in_pounds(amount: Fraction) -> str:
    """Return the line that brings an amount to pounds, where it is not in pounds already."""
    if amount.denominator == 1:
        return say("Work in pounds: {pounds} lb.", pounds=figures(amount))
    return say("Work in pounds: {weight} is {pounds} lb.", weight=pounds(amount), pounds=figures(amount))


def _yield_fits(n: Numbers) -> bool:
    return _is_two_place_factor(_yield_factor(n)) and 2 <= n["amount_pounds"] * _yield_factor(n) < 60


def _ask_yield(n: Numbers, w: Words) -> str:
    amount, old, new = pounds(n["amount_pounds"]), n["old_portions"], n["new_portions"]
    return say(
        "A recipe for {old} portions takes {amount} of {food}. How many pounds do you need for {new} portions?",
        old=old,
        amount=amount,
        food=w["food"],
        new=new,
    )


def _solve_yield(n: Numbers) -> tuple[str, ...]:
    factor, amount = _yield_factor(n), n["amount_pounds"]
    return (
        say(
            "Factor: new portions over old portions, {new_portions} / {old_portions} = {result}.",
            new_portions=n["new_portions"],
            old_portions=n["old_portions"],
            result=figures(factor),
        ),
        _in_pounds(amount),
        say(
            "Multiply by the factor: {amount} lb × {factor} = {result} lb.",
            amount=figures(amount),
            factor=figures(factor),
            result=roughly(amount * factor),
        ),
    )


SCALE_BY_YIELD = Sum(
    name="scale_by_yield",
    title=say("A recipe for more or fewer portions"),
    level="two steps",
    unit="lb",
    ranges={
        "amount_pounds": span("5/4", 12, "1/4", "weight of the food in the recipe, in pounds"),
        "old_portions": span(20, 100, 5, "portions the recipe makes"),
        "new_portions": span(24, 360, 1, "portions wanted"),
    },
    words={"food": FOODS},
    ask=_ask_yield,
    right=lambda n: n["amount_pounds"] * _yield_factor(n),
    solve=_solve_yield,
    wrong=(
        WrongWay(
            "factor_upside_down",
            lambda n: n["amount_pounds"] / _yield_factor(n),
            say(
                "You divided the old portions by the new ones. The factor is new over old: more portions need "
                "more food."
            ),
            say("Turns the factor upside down: old yield over new yield."),
        ),
        WrongWay(
            "difference_added",
            lambda n: n["amount_pounds"] + n["new_portions"] - n["old_portions"],
            say("You added the extra portions to the weight. Portions are not pounds: multiply by new over old."),
            say("Adds the difference in portions instead of multiplying by a factor."),
        ),
        WrongWay(
            "increase_only",
            lambda n: n["amount_pounds"] * (_yield_factor(n) - 1),
            say("You worked out the extra food alone. Add the recipe you started from, or multiply by new over old."),
            say("Gives the increase and leaves out the first batch."),
        ),
        WrongWay(
            "factor_rounded_to_whole",
            lambda n: n["amount_pounds"] * to_nearest(_yield_factor(n), Fraction(1)),
            say("You rounded the factor to a whole number. Keep its two places and round at the end."),
            say("Rounds the factor to a whole number before multiplying."),
        ),
        WrongWay(
            "factor_rounded_to_one_place",
            lambda n: n["amount_pounds"] * to_nearest(_yield_factor(n), TENTH),
            say("You rounded the factor to one place. Keep its two places and round at the end."),
            say("Rounds the factor to one place before multiplying."),
        ),
        WrongWay(
            "times_new_portions",
            lambda n: n["amount_pounds"] * n["new_portions"],
            say(
                "You multiplied by the new portions. The weight is for the whole recipe: divide by the old "
                "portions too."
            ),
            say("Treats the weight of the whole recipe as the weight of one portion."),
        ),
    ),
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


def _ask_portion(n: Numbers, w: Words) -> str:
    old, new = mixed(n["old_ounces"]), mixed(n["new_ounces"])
    return say(
        "A recipe takes {amount} of {food}. It makes {old_portions} portions of {old_size} oz. You need "
        "{new_portions} portions of {new_size} oz. How many pounds of {food} do you need?",
        amount=pounds(n["amount_pounds"]),
        food=w["food"],
        old_portions=n["old_portions"],
        old_size=old,
        new_portions=n["new_portions"],
        new_size=new,
    )


def _solve_portion(n: Numbers) -> tuple[str, ...]:
    old, new = n["old_portions"] * n["old_ounces"], n["new_portions"] * n["new_ounces"]
    factor, amount = _portion_factor(n), n["amount_pounds"]
    return (
        say(
            "What the recipe makes: {old_portions} × {size} oz = {result} oz.",
            old_portions=n["old_portions"],
            size=mixed(n["old_ounces"]),
            result=figures(old),
        ),
        say(
            "What you need: {new_portions} × {size} oz = {result} oz.",
            new_portions=n["new_portions"],
            size=mixed(n["new_ounces"]),
            result=figures(new),
        ),
        say("Factor: {new} / {old} = {result}.", new=figures(new), old=figures(old), result=figures(factor)),
        say(
            "Multiply: {amount} lb × {factor} = {result} lb.",
            amount=figures(amount),
            factor=figures(factor),
            result=roughly(amount * factor),
        ),
    )


SCALE_BY_PORTION = Sum(
    name="scale_by_portion",
    title=say("A recipe for another number and another size of portions"),
    level="two steps",
    unit="lb",
    ranges={
        "amount_pounds": span("3/2", 10, "1/4", "weight of the food in the recipe, in pounds"),
        "old_portions": span(20, 100, 10, "portions the recipe makes"),
        "old_ounces": span(3, 8, "1/2", "size of a portion in the recipe, in ounces"),
        "new_portions": span(24, 360, 2, "portions wanted"),
        "new_ounces": span(3, 8, "1/2", "size of a portion wanted, in ounces"),
    },
    words={"food": FOODS},
    ask=_ask_portion,
    right=lambda n: n["amount_pounds"] * _portion_factor(n),
    solve=_solve_portion,
    wrong=(
        WrongWay(
            "portion_size_ignored",
            lambda n: n["amount_pounds"] * _count_ratio(n),
            say("You changed the number of portions and left their size. Multiply by new size over old size as well."),
            say("Uses the count of portions alone."),
        ),
        WrongWay(
            "portion_count_ignored",
            lambda n: n["amount_pounds"] * _size_ratio(n),
            say(
                "You changed the size of a portion and left the number. Multiply by new number over old number as well."
            ),
            say("Uses the size of the portion alone."),
        ),
        WrongWay(
            "size_upside_down",
            lambda n: n["amount_pounds"] * _count_ratio(n) / _size_ratio(n),
            say("You turned the portion sizes around. It is new size over old size: a bigger portion needs more."),
            say("Turns the ratio of the sizes upside down."),
        ),
        WrongWay(
            "ratios_added",
            lambda n: n["amount_pounds"] * (_count_ratio(n) + _size_ratio(n)),
            say("You added the two ratios. Multiply them: each change acts on the one before."),
            say("Adds the ratio of counts and the ratio of sizes."),
        ),
        WrongWay(
            "factor_upside_down",
            lambda n: n["amount_pounds"] / _portion_factor(n),
            say("You divided the old total by the new one. The factor is new over old."),
            say("Turns the whole factor upside down."),
        ),
    ),
    tolerance=POUNDS,
    formula="amount × (new number × new size) / (old number × old size)",
    checked_against="Armed Forces Recipe Service, A. General Information No. 1: factor 3/4 × 348/100 = 2.61.",
    fits=_portion_fits,
)


def _stock_factor(n: Numbers) -> Fraction:
    return factor_by_ingredient(n["called_pounds"], n["stock_pounds"])


def _ask_ingredient(n: Numbers, w: Words) -> str:
    return say(
        "A recipe takes {called} lb of {base} and {amount} of {food}. You have {stock} lb of {base} and "
        "use it all. How many pounds of {food} do you need?",
        called=n["called_pounds"],
        base=w["base"],
        amount=pounds(n["amount_pounds"]),
        food=w["food"],
        stock=n["stock_pounds"],
    )


def _solve_ingredient(n: Numbers) -> tuple[str, ...]:
    factor, amount = _stock_factor(n), n["amount_pounds"]
    return (
        say(
            "Factor: what you have over what is called for, {stock} / {called} = {result}.",
            stock=n["stock_pounds"],
            called=n["called_pounds"],
            result=figures(factor),
        ),
        _in_pounds(amount),
        say(
            "Multiply by the factor: {amount} lb × {factor} = {result} lb.",
            amount=figures(amount),
            factor=figures(factor),
            result=roughly(amount * factor),
        ),
    )


SCALE_BY_INGREDIENT = Sum(
    name="scale_by_ingredient",
    title=say("A recipe sized by what there is of one ingredient"),
    level="two steps",
    unit="lb",
    ranges={
        "called_pounds": span(10, 60, 1, "what the recipe takes of the ingredient that sets the size, in pounds"),
        "stock_pounds": span(12, 180, 1, "what there is of it, in pounds"),
        "amount_pounds": span("5/4", 8, "1/4", "what the recipe takes of the other, in pounds"),
    },
    words={"base": any_of("beef|chicken|pork|potatoes|beans|turkey|cabbage|flour"), "food": FOODS},
    ask=_ask_ingredient,
    told=lambda n: (n["called_pounds"], n["stock_pounds"], n["amount_pounds"]),
    right=lambda n: n["amount_pounds"] * _stock_factor(n),
    solve=_solve_ingredient,
    wrong=(
        WrongWay(
            "factor_upside_down",
            lambda n: n["amount_pounds"] / _stock_factor(n),
            say("You divided what is called for by what you have. It is the other way around."),
            say("Turns the factor upside down."),
        ),
        WrongWay(
            "difference_added",
            lambda n: n["amount_pounds"] + n["stock_pounds"] - n["called_pounds"],
            say("You added the extra pounds. The other food grows by the same factor, not by the same pounds."),
            say("Adds the difference instead of multiplying by a factor."),
        ),
        WrongWay(
            "increase_only",
            lambda n: n["amount_pounds"] * (_stock_factor(n) - 1),
            say("You worked out the extra food alone. Multiply by the whole factor."),
            say("Gives the increase and leaves out the first batch."),
        ),
        WrongWay(
            "factor_rounded_to_whole",
            lambda n: n["amount_pounds"] * to_nearest(_stock_factor(n), Fraction(1)),
            say("You rounded the factor to a whole number. Keep its two places and round at the end."),
            say("Rounds the factor to a whole number before multiplying."),
        ),
        WrongWay(
            "times_what_there_is",
            lambda n: n["amount_pounds"] * n["stock_pounds"],
            say("You multiplied by what you have. Divide by what the recipe calls for as well."),
            say("Forgets to divide by what is called for."),
        ),
    ),
    tolerance=POUNDS,
    formula="amount × on hand / called for",
    checked_against="Armed Forces Recipe Service, A. General Information No. 1, card 1(3): 102 lb on hand, 30 lb "
    "called for, factor 3.40.",
    fits=lambda n: _is_two_place_factor(_stock_factor(n)) and 2 <= n["amount_pounds"] * _stock_factor(n) < 60,
)
