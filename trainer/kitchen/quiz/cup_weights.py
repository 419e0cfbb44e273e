"""What a cup of a food weighs, where it was measured: to tell a cook who gave a volume for a weight."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.messages import Text, message

GRAMS_IN_A_CUP: Mapping[str, int] = MappingProxyType(
    {
        "semolina": 167, "flour": 125, "whole_grain_flour": 120, "butter": 227,
        "olive_oil": 216, "oil": 216, "milk": 244, "cream": 238, "water": 237,
        "salt": 292, "egg": 243, "ricotta": 246, "grated_cheese": 100, "chopped_onion": 160,
        "carrots": 128, "celery": 101, "leeks": 89, "mushrooms": 70, "diced_tomato": 180,
        "fennel": 87, "spinach": 30, "zucchini": 124,
    }
)  # fmt: skip
"""Grams in a US cup, by the food's id: USDA National Nutrient Database for Standard Reference, Release 26 (2013),
file WEIGHT.

Carrots, celery, onion and zucchini chopped, mushrooms in slices, tomato chopped, flour all-purpose, cream heavy.
"""


def cup_sentence(food: str, word: str) -> Text:
    """Return what a cup of a food weighs, with the source; nothing where its id is not known. `word` names the food.

    >>> cup_sentence("semolina", "semolina")
    '1 cup of semolina weighs 167 g (USDA SR26).'
    """
    grams = GRAMS_IN_A_CUP.get(food)
    return message("1 cup of {food} weighs {grams} g (USDA SR26).", food=word, grams=grams) if grams else ""
