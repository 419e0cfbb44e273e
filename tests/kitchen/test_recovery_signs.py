"""The signs of a recovery sheet: typed any way they are read, and a slip of the fingers is told as one.

Alphabet and look-alikes: Douglas Crockford, Base 32 (crockford.com/base32.html). Remainder by 97 as of ISO 7064,
MOD 97: a prime, so every single wrong sign and every swap of neighbours changes it.
"""

from __future__ import annotations

import random

import pytest

from tests.printed import english
from trainer.kitchen.recovery_signs import SheetSigns, read_sheet, sheet_text

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # Crockford's, as printed there
SHEET = sheet_text(0x123456789ABCDEF0123456789ABCDE)


def by_hand(sheet: str) -> tuple[int, int]:
    """Return the number of the 24 signs, read as digits of base 32, and the check digits."""
    *groups, check = sheet.split("-")
    number = 0
    for sign in "".join(groups):
        number = number * 32 + ALPHABET.index(sign)
    return number, int(check)


def test_a_sheet_is_24_signs_in_groups_and_two_figures_that_fit() -> None:
    """Read by hand from the alphabet, 120 bits."""
    assert [len(group) for group in SHEET.split("-")] == [4] * 6 + [2]
    number, check = by_hand(SHEET)
    assert (number, check) == (0x123456789ABCDEF0123456789ABCDE, 0x123456789ABCDEF0123456789ABCDE % 97)


@pytest.mark.parametrize("typed", [SHEET, SHEET.lower(), SHEET.replace("-", " "), SHEET.replace("-", "")])
def test_case_blanks_and_dashes_do_not_matter(typed: str) -> None:
    """As a person types."""
    assert read_sheet(typed) == SHEET


def test_letters_like_figures_are_read_as_these() -> None:
    """O, I and L."""
    assert read_sheet("OOOO-0000-0000-0000-0000-000I-01") == read_sheet("0000 0000 0000 0000 0000 000l 01")
    assert isinstance(read_sheet("OOOO-0000-0000-0000-0000-000I-01"), SheetSigns)


def test_every_single_wrong_sign_and_every_swap_is_caught() -> None:
    """All of them, of 20 sheets."""
    draw = random.Random(97)  # noqa: S311 - a fixed draw of test values
    for _ in range(20):
        signs = sheet_text(draw.getrandbits(120)).replace("-", "")[:24]
        check = sheet_text(by_hand("-".join((signs, "00")))[0])[-2:]
        for place, sign in enumerate(signs):
            for other in ALPHABET.replace(sign, ""):
                assert not isinstance(read_sheet(signs[:place] + other + signs[place + 1 :] + check), SheetSigns)
        for place in range(23):
            swapped = signs[:place] + signs[place + 1] + signs[place] + signs[place + 2 :]
            assert swapped == signs or not isinstance(read_sheet(swapped + check), SheetSigns)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("", "A recovery sheet has 26 signs, the last two of them figures; this has 0."),
        (SHEET[:-3], "A recovery sheet has 26 signs, the last two of them figures; this has 24."),
        (SHEET[:-1] + "U", "A recovery sheet has figures and letters, but no U; this has “U”."),
        (SHEET[:-1] + "é", "A recovery sheet has figures and letters, but no U; this has “É”."),
    ],
)
def test_what_is_wrong_is_told(typed: str, words: str) -> None:
    """By the value and the rule."""
    found = read_sheet(typed)
    assert not isinstance(found, SheetSigns)
    assert english(found) == words
