"""Types proposed for the points of a checklist of the former kind: a person decides which they are."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from trainer.content.files import SharedFiles, folders_of
from trainer.content.nodes import Diagnostics
from trainer.content.techniques import technique_structure
from trainer.kitchen.technique import Limit, Point

TYPES = ("law", "result", "craft")


def proposed_types(folder: Path) -> tuple[str, ...]:
    """Return a line for each technique whose points have no type: which type each would have."""
    silent = Diagnostics("", [])
    shared = SharedFiles.read(folder, silent)
    lines = []
    for each in folders_of(folder, "techniques"):
        structure = technique_structure(each, shared.context, silent)
        if structure is None or structure.is_typed:
            continue
        by_type = {kind: [p.id for p in structure.points if proposed(p, shared.context.code) == kind] for kind in TYPES}
        told = "; ".join(f"{kind}: {', '.join(ids)}" for kind, ids in by_type.items() if ids)
        lines.append(f"{each.name}: types to give its points: {told}")
    return tuple(lines)


def proposed(point: Point, code: Mapping[str, Limit]) -> str:
    """Return the type a point would have: law by a limit of the code, result where it is critical, else craft."""
    if not point.critical:
        return "craft"
    return "law" if point.limit is not None and point.limit.id in code else "result"
