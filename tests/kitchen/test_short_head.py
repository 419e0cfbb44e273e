"""A book's head on paper: the published signs, and every slip of whoever types it caught."""

from __future__ import annotations

from hashlib import sha256
from random import Random

import pytest

from tests.printed import english
from trainer.kitchen.short_head import SIGNS, OldHead, ShortHead, read_head, read_short_head

VALUES = {**{str(n): n for n in range(10)}, "A": 10, "B": 11, "C": 12, "D": 13, "E": 14, "F": 15, "G": 16, "H": 17}
VALUES |= {"J": 18, "K": 19, "M": 20, "N": 21, "P": 22, "Q": 23, "R": 24, "S": 25, "T": 26, "V": 27, "W": 28, "X": 29}
VALUES |= {"Y": 30, "Z": 31}
"""The encode symbols of Douglas Crockford, Base 32 (crockford.com/base32.html), table of symbol values."""
ALSO = {"o": "0", "O": "0", "i": "1", "I": "1", "l": "1", "L": "1"}
"""The decode symbols of the same table for 0 and 1."""
ROOT_OF_7 = bytes.fromhex("ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c")
"""The published root of a tree of seven leaves (test data of transparency-dev/merkle, RFC 6962 hashing)."""


def heads(count: int) -> list[ShortHead]:
    """Return that many heads of books of every length, always the same ones."""
    sizes = Random(7)  # noqa: S311 - made again from the same seed
    return [
        ShortHead.of(sizes.randrange(1, 10 ** (1 + n % 7)), sha256(bytes([n % 256])).digest()) for n in range(count)
    ]


def test_the_signs_are_those_of_the_published_table() -> None:
    """Thirty-two signs, each with the value the table gives it."""
    assert {sign: value for value, sign in enumerate(SIGNS)} == VALUES


def test_a_head_reads_back_to_what_it_was_made_of() -> None:
    """A published root: its first 80 bits come back from the printed signs, by the published table alone."""
    size, *groups, check = ShortHead.of(7, ROOT_OF_7).as_text().split("-")
    bits = 0
    for sign in "".join(groups):
        bits = bits * 32 + VALUES[sign]
    assert (size, f"{bits:020x}") == ("7", ROOT_OF_7.hex()[:20])
    assert [len(group) for group in groups] == [4, 4, 4, 4]
    assert int(check) == (7 * 2**80 + bits) % 97


def test_case_blanks_dashes_and_letters_like_figures_do_not_matter() -> None:
    """As the table says for decoding: either case, O for 0, I and L for 1; dashes and blanks anywhere."""
    head = next(head for head in heads(99) if {"0", "1"} <= set(head.as_text()[-22:]))
    printed = head.as_text()
    assert read_short_head(f"  {printed.lower().replace('-', ' ')} ") == head
    assert read_short_head(printed.replace("-", "")) == head
    for typed, meant in ALSO.items():
        assert read_short_head(printed.replace(meant, typed)) == head


def test_every_single_wrong_sign_and_every_swap_of_neighbours_is_caught() -> None:
    """Of 200 heads, each sign in turn replaced by every other, each two neighbours exchanged: none reads as a head."""
    wrong = swaps = 0
    for head in heads(200):
        signs = head.as_text().replace("-", "")
        for place, sign in enumerate(signs):
            for other in SIGNS:
                if other != sign:
                    wrong += 1
                    assert not isinstance(read_short_head(signs[:place] + other + signs[place + 1 :]), ShortHead)
            after = signs[place + 1 : place + 2]
            if after and after != sign:
                swaps += 1
                swapped = signs[:place] + after + sign + signs[place + 2 :]
                assert not isinstance(read_short_head(swapped), ShortHead)
    assert wrong > 100_000
    assert swaps > 3_500


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("1093-7K2M-QX4F-9T0B-ZR6H-44", "do not fit the signs before them"),
        ("1093-7K2M-QX4F-9T0B-ZR6U-43", "no U; this has “U”"),
        ("1093-7K2M-QX4F-9T0B-ZR6H-*3", "this has “*”"),
        ("0-7K2M-QX4F-9T0B-ZR6H-43", "looks like 1093-"),
        ("-7K2M-QX4F-9T0B-ZR6H-43", "looks like 1093-"),
        ("1093", "looks like 1093-"),
        ("X093-7K2M-QX4F-9T0B-ZR6H-43", "looks like 1093-"),
        ("9" * 13 + "7K2M-QX4F-9T0B-ZR6H-43", "looks like 1093-"),
    ],
)
def test_what_was_typed_wrong_is_said_plainly_and_never_called_forged(typed: str, words: str) -> None:
    """Each way to mistype has its sentence, and each ends in what to do."""
    found = read_head(typed)
    assert not isinstance(found, ShortHead | OldHead)
    assert words in english(found)
    assert "Type it again, sign by sign." in english(found)


@pytest.mark.parametrize(("signs", "is_weak"), [(12, True), (19, True), (20, False), (64, False)])
def test_the_value_of_an_older_sheet_is_taken_and_twelve_signs_are_weak(signs: int, is_weak: bool) -> None:
    """The first signs of an entry's hash, from 12 on; fewer than 80 bits (20 signs) are weak."""
    own_hash = sha256(b"entry").hexdigest()
    found = read_head(f"{own_hash[:4].upper()} {own_hash[4:signs]}")
    assert found == OldHead(own_hash[:signs])
    assert found.is_weak is is_weak


def test_nothing_typed_is_nothing_wrong() -> None:
    """An empty field asks for a plain check."""
    assert read_head("  ") == ""
