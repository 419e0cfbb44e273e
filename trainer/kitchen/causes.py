"""What may have been unsafe, in a few words, to be picked when a practical is stopped: the hazards of the technique."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from trainer.kitchen.technique import Technique
from trainer.messages import Text, message

MOST = 4
CAUSES: Mapping[str, Text] = MappingProxyType(
    {
        "sharp": message("A blade or a sharp edge"),
        "hot_surface": message("Something hot: pan, fat, steam"),
        "flame": message("Fire or gas"),
        "hands_in_machine": message("Hands near a moving part"),
        "unplug": message("Machine not shut off"),
        "electricity": message("Electricity"),
        "slippery": message("Something on the floor"),
        "chemical": message("A chemical"),
        "wear_gloves": message("Bare hand, no glove"),
        "wash_hands": message("Hands not washed"),
        "germs": message("Food unsafe: kept or served"),
        "raw_egg": message("Raw egg"),
        "allergen": message("An allergen"),
    }
)
"""By the mark of a hazard: the book keeps the mark, and a page says it in any language."""


def causes_of(technique: Technique | None) -> tuple[str, ...]:
    """Return the marks of the first hazards a technique names, each once; none of one that is not taught any more."""
    marks = dict.fromkeys(hazard.mark for hazard in technique.hazards) if technique else {}
    return tuple(mark for mark in marks if mark in CAUSES)[:MOST]
