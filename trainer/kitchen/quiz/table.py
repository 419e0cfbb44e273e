"""The question families as one table for people: formula, outside check, and the names of the wrong methods."""

from __future__ import annotations

from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import Family

HEAD = "| family | formula | outside check | wrong methods |\n|---|---|---|---|"


def families_table() -> str:
    """Return the table of all families, in teaching order, as Markdown."""
    return "\n".join([HEAD, *map(_row, FAMILIES.values())])


def _row(family: Family) -> str:
    methods = ", ".join(name.replace("_", " ") for name in family.methods())
    cells = (f"`{family.name}`", family.formula, family.checked_against, methods)
    return f"| {' | '.join(cell.replace('|', '/') for cell in cells)} |"
