"""What a plate carries up from its parts, each with the way it came: allergens, what is raw, the shortest date.

Nothing is typed on the plate. Only sulphites have a line to fall under: EU law names them above 10 mg in a kilogram or
a litre of the food as it is served (Regulation (EU) No 1169/2011, Annex II, point 12); what went in is told as well.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from trainer.kitchen.recipe import Ingredient, Recipe
from trainer.recipe_math.quantity import Quantity

SULPHITES = "sulphites"
SULPHITE_LINE = Fraction(10)
"""Milligrams in a kilogram, as served: above it they are named."""

Chain = tuple[str, ...]
"""Names, from the plate's own part down to what was bought: rendered pork, white wine."""


@dataclass(frozen=True, slots=True)
class Carried:
    """Something a plate has, and every way it came in; a way is the names from the part down to the ingredient."""

    what: str
    chains: tuple[Chain, ...]


@dataclass(frozen=True, slots=True)
class SulphiteSum:
    """How much sulphite is in a kilogram of what is served, in milligrams, and what it came in with.

    `most` is None where something brings sulphites and nobody says how much. No loss by heat is counted.
    """

    least: Fraction
    most: Fraction | None
    chains: tuple[Chain, ...]

    @property
    def is_named(self) -> bool:
        """Return whether the law names them: above the line, or not known to be under it."""
        return self.most is None or self.most > SULPHITE_LINE


@dataclass(frozen=True, slots=True)
class Date:
    """How long something keeps, and whose date that is: none of its parts outlives the plate."""

    keeps: Quantity
    chain: Chain


def allergens_carried(recipe: Recipe) -> tuple[Carried, ...]:
    """Return every allergen of a recipe with the ways it came, sulphites under their line as well."""
    return tuple(Carried(name, _chains(recipe, partial(_has, name))) for name in recipe.allergens)


def allergens_named(recipe: Recipe) -> tuple[str, ...]:
    """Return the allergens to be named of a recipe: all it carries, sulphites only above their line.

    A kitchen that names them all the same is never wrong; what is left out here is told as what the dish is made with.
    """
    summed = sulphites_of(recipe)
    hidden = SULPHITES if summed is not None and not summed.is_named else ""
    return tuple(name for name in recipe.allergens if name != hidden)


def sulphites_of(recipe: Recipe) -> SulphiteSum | None:
    """Return how much sulphite is in what is served; None where nothing brings any.

    What each brings, by weight, over what is there in the end: 4 fl oz of wine with 100 to 200 mg in a litre, in a base
    that ends as 4 lb, are 6.5 to 13 mg in a kilogram.
    """
    chains = _chains(recipe, partial(_has, SULPHITES))
    if not chains:
        return None
    least, most = _sulphite(recipe)
    weight = recipe.finished.base
    return SulphiteSum(least / weight, None if most is None else most / weight, chains)


def raw_in(recipe: Recipe) -> tuple[Carried, ...]:
    """Return what is still raw on the plate, of animal origin, with the ways it came.

    It ends where a line of a method meets its limit of the code, heat and seconds. What is left needs the advisory, and
    is not for guests at high risk (FDA Food Code 2022, 3-603.11 and 3-801.11).
    """
    kinds = dict.fromkeys(line.raw for _, line in _walk(recipe) if line.raw)
    found = (Carried(kind, _raw_chains(recipe, kind)) for kind in kinds)
    return tuple(each for each in found if each.chains)


def needs_advisory(recipe: Recipe) -> bool:
    """Return whether a guest must be told that something on the plate is raw or undercooked."""
    return bool(raw_in(recipe))


def shortest_date(recipe: Recipe) -> Date | None:
    """Return the shortest time anything in a recipe keeps, and whose it is; None where nobody says."""
    own = [Date(recipe.keeps, (recipe.title,))] if recipe.keeps else []
    below = [date for part in recipe.parts if (date := shortest_date(part.recipe))]
    return min([*own, *below], key=lambda date: date.keeps.base, default=None)


def _walk(recipe: Recipe, above: Chain = ()) -> Iterator[tuple[Chain, Ingredient]]:
    """Yield every ingredient of a recipe, its parts and its baths, with the names that lead to it."""
    for inner in [*(part.recipe for part in recipe.parts), *(use.recipe for use in recipe.baths)]:
        yield from _walk(inner, (*above, inner.title))
    for line in recipe.ingredients:
        yield (*above, line.name), line


def _has(allergen: str, line: Ingredient) -> bool:
    return allergen in line.allergens


def _chains(recipe: Recipe, has: Callable[[Ingredient], bool]) -> tuple[Chain, ...]:
    return tuple(dict.fromkeys(chain for chain, line in _walk(recipe) if has(line)))


def _raw_chains(recipe: Recipe, kind: str) -> tuple[Chain, ...]:
    """Return the ways something raw is still there; none where a line of the method ends it."""
    if any(end.raw == kind for end in recipe.ends):
        return ()
    own = [(line.name,) for line in recipe.ingredients if line.raw == kind]
    below = [(part.recipe.title, *chain) for part in recipe.parts for chain in _raw_chains(part.recipe, kind)]
    return tuple(dict.fromkeys([*below, *own]))


def _sulphite(recipe: Recipe) -> tuple[Fraction, Fraction | None]:
    """Return what is in a whole recipe, in grams times milligrams a kilogram: the least, and the most if known."""
    brought = [_of_line(line) for line in recipe.ingredients] + [
        (least * share, None if most is None else most * share)
        for part in recipe.parts
        for share in [part.amount / part.recipe.finished]
        for least, most in [_sulphite(part.recipe)]
    ]
    most = [each for _, each in brought]
    known = [each for each in most if each is not None]
    return sum((each for each, _ in brought), Fraction(0)), sum(known, Fraction(0)) if len(known) == len(most) else None


def _of_line(line: Ingredient) -> tuple[Fraction, Fraction | None]:
    if SULPHITES not in line.allergens:
        return Fraction(0), Fraction(0)
    if line.sulphites is None:
        return Fraction(0), None
    return line.weight.base * line.sulphites.least, line.weight.base * line.sulphites.most
