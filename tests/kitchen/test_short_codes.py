"""Short codes on printed cards: nobody takes one sign for another, and no two cards share one."""

from __future__ import annotations

from pathlib import Path

from trainer.kitchen.short_codes import LENGTH, SIGNS, found_by, short_code
from trainer.store.content_files import load_content
from trainer.store.shipped import shipped


def test_signs_that_look_alike_are_left_out() -> None:
    """Neither 0 and O nor 1, I and L, which people confuse on paper (common practice)."""
    assert not set("01ILO") & set(SIGNS)
    assert len(set(SIGNS)) == len(SIGNS) == 31


def test_a_code_stays_the_same() -> None:
    """A printed card is good as long as the id is; the code of one id and kind is no other's."""
    assert short_code("station", "pasta_room") == short_code("station", "pasta_room")
    assert short_code("station", "grill") != short_code("technique", "grill")
    assert len(short_code("station", "grill")) == LENGTH


def test_no_two_cards_of_the_kitchen_share_a_code() -> None:
    """Each code typed opens the one thing it is printed for."""
    content, _ = load_content(Path(shipped("content")))
    assert content is not None
    for station in content.stations:
        found = found_by(short_code("station", station), content)
        assert found is not None
        assert (found.kind, found.id) == ("station", station)
    for technique in content.techniques:
        found = found_by(short_code("technique", technique).lower(), content)
        assert found is not None
        assert (found.kind, found.id) == ("technique", technique)


def test_a_code_no_card_has_is_nothing() -> None:
    """Too short, too long, or made of other signs."""
    content, _ = load_content(Path(shipped("content")))
    assert content is not None
    assert [found_by(code, content) for code in ("", "A", "0O1I", "AAAAAAAA")] == [None] * 4
