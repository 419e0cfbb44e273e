"""Recipe math that stands alone: quantities, scaling, buying, dough, portions, heat. README.md in this folder shows it.

What is named here is the front door; the modules have the rest, each with its rules at its head.
"""

from trainer.recipe_math.bakeware import Floor, circular, hotel_pan, moved, rectangular
from trainer.recipe_math.buying import OrderLine, amount_to_buy, edible_cost, edible_share, order_line, packs_to_buy
from trainer.recipe_math.densities import Between, volume_of, weight_of
from trainer.recipe_math.dough import Liquid, bakers_percentages, flour_for_dough, hydration
from trainer.recipe_math.dough_plan import Preferment, friction_of, planned, water_temperature
from trainer.recipe_math.not_in_proportion import Grows, first_seasoning, time_to_reduce, water_lost
from trainer.recipe_math.parsing import parse_number, parse_quantity
from trainer.recipe_math.portions import batch_for, portions_from
from trainer.recipe_math.quantity import MixedSystems, Quantity, QuantityProblem, Unit, WrongDimension
from trainer.recipe_math.refusals import Ambiguous, NotAQuantity
from trainer.recipe_math.scaling import factor_by_ingredient, factor_by_portion, factor_by_yield, scaled
from trainer.recipe_math.units import UNITS, UnknownUnit, unit

__all__ = [
    "UNITS",
    "Ambiguous",
    "Between",
    "Floor",
    "Grows",
    "Liquid",
    "MixedSystems",
    "NotAQuantity",
    "OrderLine",
    "Preferment",
    "Quantity",
    "QuantityProblem",
    "Unit",
    "UnknownUnit",
    "WrongDimension",
    "amount_to_buy",
    "bakers_percentages",
    "batch_for",
    "circular",
    "edible_cost",
    "edible_share",
    "factor_by_ingredient",
    "factor_by_portion",
    "factor_by_yield",
    "first_seasoning",
    "flour_for_dough",
    "friction_of",
    "hotel_pan",
    "hydration",
    "moved",
    "order_line",
    "packs_to_buy",
    "parse_number",
    "parse_quantity",
    "planned",
    "portions_from",
    "rectangular",
    "scaled",
    "time_to_reduce",
    "unit",
    "volume_of",
    "water_lost",
    "water_temperature",
    "weight_of",
]
