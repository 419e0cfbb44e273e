"""What a cup of a food weighs, where it was measured: to tell a cook who gave a volume for a weight."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.recipe_math.saying import say

GRAMS_IN_A_CUP: Mapping[str, int] = MappingProxyType(
    {
        say("semolina"): 167, say("flour"): 125, say("whole grain flour"): 120, say("butter"): 227,
        say("olive oil"): 216, say("oil"): 216, say("milk"): 244, say("cream"): 238, say("water"): 237,
        say("salt"): 292, say("egg"): 243, say("ricotta"): 246, say("grated cheese"): 100, say("chopped onion"): 160,
        say("carrots"): 128, say("celery"): 101, say("leeks"): 89, say("mushrooms"): 70, say("diced tomato"): 180,
        say("fennel"): 87, say("spinach"): 30, say("zucchini"): 124,
    }
)  # fmt: skip
"""Grams in a US cup: USDA National Nutrient Database for Standard Reference, Release 26 (2013), WEIGHT file.

Carrots, celery, onion and zucchini chopped, mushrooms in slices, tomato chopped, flour all-purpose, cream heavy.
"""


def cup_sentence(food: str) -> str:
    """Return what a cup of this food weighs, with the source; nothing where it is not known.

    >>> cup_sentence("semolina")
    '1 cup of semolina weighs 167 g (USDA SR26).'
    """
    known = next((each for each in GRAMS_IN_A_CUP.items() if each[0] == food), None)
    return say("1 cup of {food} weighs {grams} g (USDA SR26).", food=known[0], grams=known[1]) if known else ""
