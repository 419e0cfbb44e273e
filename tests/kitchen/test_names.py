"""Names in sequence: letters with a mark stand with the letter they are drawn from."""

from __future__ import annotations

from trainer.kitchen.names import name_key


def test_marked_letters_stand_with_their_plain_ones() -> None:
    """Ł among L, Ø among O, Đ among D, as Unicode Technical Standard 10 has it without a tailoring (from memory)."""
    named = ["Zoë", "Łucja", "Mateo", "Leilani", "Ørjan", "Olga", "Đặng", "Dora", "émile", "Thảo"]
    assert sorted(named, key=name_key) == [
        "Đặng", "Dora", "émile", "Leilani", "Łucja", "Mateo", "Olga", "Ørjan", "Thảo", "Zoë",
    ]  # fmt: skip


def test_capitals_and_blanks_make_no_difference() -> None:
    """Two spellings of one name stand together, always in the same sequence."""
    assert sorted(["ana pardo", "Ana  Pardo", "Ana Costa"], key=name_key) == ["Ana Costa", "Ana  Pardo", "ana pardo"]
