"""What a dish has in it, in words: allergens with the way they came, sulphites, what is raw, and how long it keeps."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from trainer.kitchen.recipe import Recipe
from trainer.kitchen.roll_up import (
    SULPHITE_LINE,
    Chain,
    SulphiteSum,
    allergens_carried,
    allergens_named,
    raw_in,
    shortest_date,
    sulphites_of,
)
from trainer.messages import Text, joined, message
from trainer.web import reading
from trainer.web.bench.words import both, number

RAW = {
    "egg": message("raw egg"),
    "meat": message("raw meat"),
    "fish": message("raw fish"),
    "shellfish": message("raw shellfish"),
    "milk": message("raw milk"),
}


@dataclass(frozen=True, slots=True)
class AllergenWay:
    """An allergen of a dish, and each way it came in."""

    name: str
    ways: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class DishTold:
    """What a dish has in it, a text each; empty where there is nothing of it."""

    title: str
    portions: int
    allergens: tuple[AllergenWay, ...]
    made_with: Text
    raw: Text
    keeps: Text


def dish_told(recipe: Recipe, portions: int) -> DishTold:
    """Return what so many portions of a dish have in them."""
    named = allergens_named(recipe)
    carried = [each for each in allergens_carried(recipe) if each.what in named]
    raw, date, summed = raw_in(recipe), shortest_date(recipe), sulphites_of(recipe)
    told = [message("{what} ({way})", what=RAW[each.what], way=ways_told(each.chains)) for each in raw]
    return DishTold(
        title=recipe.title,
        portions=portions,
        allergens=tuple(
            AllergenWay(title, tuple(way_told(chain) for chain in each.chains))
            for title, each in zip(titles_of(each.what for each in carried), carried, strict=True)
        ),
        made_with=made_with(summed) if summed else "",
        raw=joined(told, ", "),
        keeps=message("{time} ({way})", time=both(date.keeps), way=way_told(date.chain)) if date else "",
    )


def titles_of(names: Iterable[str]) -> tuple[str, ...]:
    """Return what the kitchen calls some allergens."""
    known = reading.content().allergens
    return tuple(known.get(name, name) for name in names)


def made_with(summed: SulphiteSum) -> Text:
    """Return what brings sulphites into a dish, and how much of them is served, against the line of EU law."""
    names = joined(dict.fromkeys(chain[-1] for chain in summed.chains), ", ")
    if summed.most is None:
        return message("{names}; how much sulphite is in it nobody says, so it is named", names=names)
    least, most, line = number(summed.least), number(summed.most), number(SULPHITE_LINE, 0)
    return message(
        "{names}; sulphites {least} to {most} mg in a kilogram as served, and European law lists them above {line}",
        names=names,
        least=least,
        most=most,
        line=line,
    )


def ways_told(chains: Iterable[Chain]) -> Text:
    """Return several ways as one text."""
    return joined([way_told(chain) for chain in chains], "; ")


def way_told(chain: Chain) -> Text:
    """Return a way from the part down to what was bought: rendered pork ← white wine."""
    return joined(chain, " ← ")
