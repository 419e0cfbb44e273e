"""What a kitchen measures with: `instruments.yaml`, once a house. A kitchen without the file names no instruments."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.lines import amount
from trainer.content.mapping_reader import SHORT
from trainer.content.nodes import Diagnostics
from trainer.kitchen.technique import Instrument
from trainer.recipe_math.quantity import TEMPERATURE, Quantity
from trainer.recipe_math.units import unit

FILE = "instruments.yaml"


class InstrumentBlock(Block):
    """What a reading is taken with."""

    title: str = key(kinds.text(SHORT), "What a cook calls it.")
    step: Quantity | None = optional(amount(is_difference=True), "Its smallest step.")
    steps: tuple[Quantity | None, ...] = optional(kinds.list_of(amount(), 2), "All that it can show, of few steps.")
    true_within: Quantity | None = optional(amount(is_difference=True), "How far off it may be.")

    def check(self) -> None:
        """Add a problem where its steps are told twice."""
        if self.step is not None and self.steps:
            self.at.add(f"{self.at.name} has step and steps.", "Keep one of the two.")


INSTRUMENTS = kinds.by_id(kinds.nested(InstrumentBlock))


def instruments_of(folder: Path, diagnostics: Diagnostics) -> Mapping[str, Instrument]:
    """Return the instruments by id; none where there is no such file."""
    if not (folder / FILE).is_file():
        return {}
    table = read_file(folder / FILE, INSTRUMENTS, "instruments", diagnostics.of(FILE))
    return {id: instrument_of(id, block) for id, block in (table or {}).items()}


def instrument_of(id: str, block: InstrumentBlock) -> Instrument:
    """Return the record of one instrument."""
    steps = tuple(each for each in block.steps if each is not None)
    return Instrument(id, block.title, _difference(block.step), steps, _difference(block.true_within))


def _difference(quantity: Quantity | None) -> Quantity | None:
    """Return a step of degrees as a difference of degrees; anything else as it is."""
    if quantity is None or quantity.unit.dimension != TEMPERATURE:
        return quantity
    return replace(quantity, unit=unit(f"{quantity.unit.symbol} difference"))
