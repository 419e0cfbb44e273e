"""Short codes on printed cards: nobody takes one sign for another, and no two cards share one."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from trainer.content.files import load_content
from trainer.content.shipped import shipped
from trainer.kitchen.short_codes import LENGTH, SIGNS, Coded, found_by, sharing, short_code


def test_signs_that_look_alike_are_left_out() -> None:
    """Neither 0 and O nor 1, I and L, which people confuse on paper (common practice)."""
    assert not set("01ILO") & set(SIGNS)
    assert len(set(SIGNS)) == len(SIGNS) == 31


def test_a_code_stays_the_same() -> None:
    """A printed card is good as long as the id is; the code of one id and kind is no other's."""
    # the SHA-256 of "station:pasta_room" by GNU coreutils' sha256sum, lowest figure of base 31 first
    digest = 0xA966D5647404228EB7F7062A92C86EF53971F8FC49E7D6605C12E21DAB648168
    assert [digest // 31**place % 31 for place in range(4)] == [SIGNS.index(sign) for sign in "RX6T"]
    assert short_code("station", "pasta_room") == "RX6T"
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


def test_two_cards_with_one_code_are_told() -> None:
    """A code is cut from a long sum, so two ids may share one: the later of them is named beside the earlier."""
    content, _ = load_content(Path(shipped("content")))
    assert content is not None
    assert sharing(content) == ()
    first, second = twins()
    one = next(iter(content.techniques.values()))
    both = replace(content, stations={}, techniques={"other": one, first: one, second: one})
    assert sharing(both) == ((Coded("technique", second), Coded("technique", first)),)


def twins() -> tuple[str, str]:
    """Return the first two of many invented techniques that share a code."""
    there: dict[str, str] = {}
    for name in (f"technique_{number}" for number in range(10_000)):
        code = short_code("technique", name)
        if code in there:
            return there[code], name
        there[code] = name
    raise AssertionError("no two of so many share a code")


def test_a_code_no_card_has_is_nothing() -> None:
    """Too short, too long, or made of other signs."""
    content, _ = load_content(Path(shipped("content")))
    assert content is not None
    assert [found_by(code, content) for code in ("", "A", "0O1I", "AAAAAAAA")] == [None] * 4
