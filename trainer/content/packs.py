"""What something is bought in, whole: one kind of pack, or several of which the larger hold so many of the smaller."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.kinds import Kind
from trainer.content.lines import amount
from trainer.content.mapping_reader import MappingReader
from trainer.content.nodes import Node, SequenceNode
from trainer.content.shares import MASS
from trainer.recipe_math.buying import Pack
from trainer.recipe_math.quantity import COUNT, Quantity
from trainer.recipe_math.units import THINGS

PACKS = ("can", "jar", "tin", "bag", "box", "case", "carton", "pack", "bottle", "tray", "pan")
PACK_HINT = "Write a weight, a count, or how many of a smaller pack: 2 lb, 30 eggs, 15 cartons."


class PackBlock(Block):
    """One kind of pack."""

    called = "a pack"

    unit: str = key(kinds.one_of(THINGS), "What the pack is.")
    holds: Quantity | None = key(
        replace(amount(), written="weight, 2 lb, or a count, 30 eggs, 15 cartons"), "What one holds."
    )
    source: str = key(kinds.source(), "Who says so.")
    place: str = optional(kinds.text(), "Where.")


def packs() -> Kind:
    """Return a list of packs as what each holds by weight, the smallest first; one of them at least."""
    each = kinds.list_of(kinds.nested(PackBlock), 1)

    def read(node: Node, name: str, at: MappingReader) -> tuple[Pack, ...]:
        if not isinstance(node, SequenceNode) or not node.items:
            hint = "Write a list: [{unit: carton, holds: 2 lb, source: house}]."
            at.diagnostics.add(node.line, f"{name} is bought in no pack.", hint)
            return ()
        return weighed(each.read(node, name, at))

    return replace(each, read=read)


def weighed(blocks: Sequence[PackBlock]) -> tuple[Pack, ...]:
    """Return packs with what each holds, the smallest first; one that holds none can be bought in nothing."""
    found: dict[str, Pack] = {}
    for block in blocks:
        if block.unit in found:
            block.at.add(f"{block.unit} stands twice.", "Keep one of the two.")
        elif block.unit and block.holds is not None:
            holds = _holds(block, block.holds, found)
            found |= {} if holds is None else {block.unit: Pack(block.unit, holds)}
    if len({pack.holds.unit.dimension for pack in found.values()}) > 1:
        hint = "Let all hold a weight, or all a count: 30 eggs."
        blocks[0].at.add("Packs of one thing hold weights and counts.", hint)
        return ()
    return tuple(sorted(found.values(), key=lambda pack: pack.holds.base))


def _holds(block: PackBlock, holds: Quantity, smaller: Mapping[str, Pack]) -> Quantity | None:
    """Return what a pack holds, by weight or by count; None, with a problem, where that cannot be known."""
    is_count = holds.unit.dimension.startswith(COUNT)
    if holds.amount > 0 and holds.unit.symbol in smaller:
        return smaller[holds.unit.symbol].holds * holds.amount
    if is_count and holds.unit.symbol in PACKS:
        block.at.add(
            f"{block.unit} holds {holds}, which is no pack before it.", "Put the smaller pack first in the list."
        )
    elif holds.amount > 0 and (is_count or holds.unit.dimension == MASS):
        return holds
    else:
        block.at.add(f"holds is {holds}, not a weight.", PACK_HINT)
    return None
