"""An invented content for the workbench: two recipes, and the limits of a code for cooling and for egg."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from tests.web.small_content import CONTENT, HOT
from trainer.kitchen.recipe import Bath, BathUse, Growth, Ingredient, Part, Recipe
from trainer.kitchen.technique import Content, Limit, LocalCode
from trainer.recipe_math.buying import Pack
from trainer.recipe_math.quantity import Quantity


def line(key: str, target: str = "", hours: int = 0, lowest: str = "") -> Limit:
    """Return a line of the code, in °F or in hours."""
    return Limit(
        key,
        Quantity.of(lowest, "°F") if lowest else None,
        Quantity.of(hours, "h") if hours else None,
        Quantity.of(target, "°F") if target else None,
        "house",
        "Part 3",
    )


def pounds(key: str, amount: str, **more: Any) -> Ingredient:
    """Return an ingredient that is weighed in pounds."""
    much = Quantity.of(amount, "lb")
    return replace(Ingredient(key, key.capitalize(), much, much), **more)


# FDA Food Code 2022, section 3-501.14(A) and (B), under an invented title
CODE = LocalCode(
    "invented",
    "An invented code",
    "2022",
    MappingProxyType(
        {
            "cooling_start": line("cooling_start", target="135"),
            "cooling_middle": line("cooling_middle", target="70"),
            "cooling_end": line("cooling_end", target="41"),
            "cooling_to_middle_within": line("cooling_to_middle_within", hours=2),
            "cooling_to_end_within": line("cooling_to_end_within", hours=6),
            "cooling_from_room_within": line("cooling_from_room_within", hours=4),
            "egg_pooled": line("egg_pooled", lowest="155"),
        }
    ),
)
DOUGH = Recipe(
    id="dough",
    title="Durum dough",
    makes="Strands, a nest a guest",
    portion=Quantity.of("0.5", "lb"),
    portion_source="house",
    loss=Fraction(0),
    loss_text="",
    ingredients=(
        pounds("durum", "7", is_flour=True, allergens=("wheat",)),
        pounds("semolina", "3", is_flour=True, allergens=("wheat",)),
        replace(
            pounds("eggs", "1", water_share=Fraction("0.76"), allergens=("egg",)),
            amount=Quantity.of(10, "egg"),
            weight=Quantity.of(500, "g"),
        ),
        pounds("water", "2", water_share=Fraction(1)),
    ),
    method=("Weigh both flours.", "Mix."),
    hazards=(HOT,),
    techniques=("nests",),
    source="house",
)
TWO_POUNDS = Quantity.of(2, "lb")
# a card for 100 portions with 1 lb 4 oz: Armed Forces Recipe Service, General Information No. 1
CARD = replace(
    DOUGH,
    id="card",
    title="A card",
    portion=Quantity.of("0.0125", "lb"),
    loss_text="Peel and ends.",
    ingredients=(pounds("onions", "1.25", edible_share=Fraction(4, 5)),),
)
WATER = replace(
    DOUGH,
    id="water",
    title="Water",
    portion=Quantity.of(1, "kg"),
    ingredients=(
        Ingredient("water", "Water", Quantity.of(3, "gal"), Quantity.of("11.34", "kg")),
        Ingredient("salt", "Salt", Quantity.of(1, "tsp"), Quantity.of(6, "g")),
    ),
)
POT = replace(WATER, id="pot", title="A pot", bath=Bath(Quantity.of(6, "nest"), Quantity.of(7, "batch")))
CARTON = replace(
    CARD,
    id="carton",
    title="Onions in cartons",
    ingredients=(pounds("onions", "1.25", packs=(Pack("carton", TWO_POUNDS),)),),
)
POT_OF_FOUR = Bath(Quantity.of(4, "portion"), Quantity.of(7, "batch"))
PLATE = replace(
    DOUGH,
    id="plate",
    title="A plate",
    ingredients=(),
    parts=(Part(DOUGH, DOUGH.portion),),
    baths=(BathUse(replace(WATER, id="small_pot", title="A small pot", bath=POT_OF_FOUR), POT_OF_FOUR),),
)
OUNCE = Quantity.of(1, "oz")
SEASONED = replace(
    DOUGH,
    id="seasoned",
    title="Seasoned",
    portion=Quantity.of("1.6", "oz"),
    ingredients=(pounds("meat", "0.9375"), Ingredient("salt", "Salt", OUNCE, OUNCE, growth=Growth.TASTE)),
)
RECIPES = {recipe.id: recipe for recipe in (DOUGH, CARD, WATER, POT, CARTON, PLATE, SEASONED)}
BENCH: Content = replace(CONTENT, code=CODE, recipes=MappingProxyType(RECIPES))
