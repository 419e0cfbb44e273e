"""`foods.yaml`: what is the same thing in every recipe, with what is known of it, so that it stands once.

Without the file every ingredient is a thing of its own.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.lines import amount
from trainer.content.nodes import Diagnostics
from trainer.content.packs import packs
from trainer.content.shares import percent
from trainer.kitchen.recipe import Sulphites
from trainer.recipe_math.buying import Pack
from trainer.recipe_math.densities import DENSITIES, weight_of
from trainer.recipe_math.quantity import Quantity

FOODS_FILE = "foods.yaml"
RAW = ("egg", "meat", "fish", "shellfish", "milk")
PARTS_IN_A_MILLION = 1_000_000


class SulphiteBlock(Block):
    """How much sulphite is in it, from the least to the most."""

    called = "sulphites"

    lowest: Quantity | None = key(amount(), "The least, in parts per million: 100 ppm is 100 mg a kilogram.")
    highest: Quantity | None = key(amount(), "The most: what the label says, or the law lets in.")
    source: str = key(kinds.source(), "Who says so.")
    place: str = optional(kinds.text(), "Where.")

    def check(self) -> None:
        """Add a problem for what is no share, or runs backwards."""
        ends = [self.lowest, self.highest]
        if any(end is not None and end.unit.dimension != "share" for end in ends):
            self.at.add("sulphites are no share of a weight.", "Write parts per million: {lowest: 100 ppm, ...}.")
        elif self.lowest is not None and self.highest is not None and self.lowest > self.highest:
            self.at.add(f"sulphites run from {self.lowest} to {self.highest}.", "Write the lower value first.")

    def sulphites(self) -> Sulphites | None:
        """Return the record, in milligrams a kilogram."""
        if not self.sound or self.lowest is None or self.highest is None:
            return None
        return Sulphites(self.lowest.base * PARTS_IN_A_MILLION, self.highest.base * PARTS_IN_A_MILLION)


class FoodBlock(Block):
    """A food that several recipes may have."""

    allergens: tuple[str, ...] = optional(kinds.names_of("allergens"), "What is in it.")
    raw: str = optional(kinds.one_of(RAW), "What of it is raw and of animal origin.")
    measure: str = optional(kinds.one_of(DENSITIES), "What weighs as much by volume, in the table of measures.")
    water: Fraction | None = optional(percent(), "The share of it that is water: 76 %.")
    edible: Fraction | None = optional(percent(), "The share of it that is left once trimmed: 90 %.")
    source: str = key(kinds.source(), "Who says so.", beside=("water", "edible"))
    place: str = optional(kinds.text(), "Where.")
    sulphites: SulphiteBlock | None = optional(kinds.nested(SulphiteBlock), "How much sulphite is in it.")
    bought: bool = key(kinds.yes_no(), "Whether it is bought; no for what runs from the tap.", default=True)
    buying: tuple[Pack, ...] = optional(packs(), "What it is bought in, whole.")

    def weight(self, amount: Quantity) -> Quantity | None:
        """Return what a volume of it weighs; None where the table of measures does not say."""
        if not self.measure or amount.unit.dimension != "volume" or amount.amount <= 0:
            return None
        return weight_of(amount, self.measure).about


FOODS = kinds.by_id(kinds.nested(FoodBlock))


def foods_of(
    folder: Path, diagnostics: Diagnostics, sources: Collection[str], allergens: Collection[str]
) -> Mapping[str, FoodBlock]:
    """Return the foods by id; none where there is no such file or it cannot be read."""
    path = folder / FOODS_FILE
    if not path.is_file():
        return {}
    known = {"sources": sources, "allergens": allergens}
    found: Mapping[str, FoodBlock] | None = read_file(path, FOODS, "foods", diagnostics.of(FOODS_FILE), known)
    return found or {}
