"""The table of families in DEVELOPERS.md."""

from __future__ import annotations

from pathlib import Path

from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.table import families_table

DEVELOPERS = Path(__file__).parents[3] / "DEVELOPERS.md"


def test_the_table_in_the_document_is_the_one_the_families_give() -> None:
    """DEVELOPERS.md holds the table as `families_table` writes it; after a change it is written anew."""
    assert families_table() in DEVELOPERS.read_text(encoding="utf-8")


def test_every_family_has_a_row_with_four_cells() -> None:
    """No cell breaks the table."""
    rows = families_table().splitlines()[2:]
    assert [row.split("`")[1] for row in rows] == list(FAMILIES)
    assert all(row.count("|") == 5 for row in rows)
