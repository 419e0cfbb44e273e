"""The sizes of the cuts against published lists, and that every drawing of them is as large as it says.

The list is an open encyclopedia's list of culinary knife cuts (copy undated). Where other charts differ, both are kept.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from tests.content.conftest import CONTENT
from tests.content.measured import lines_of
from trainer.kitchen.technique import Content, Limit
from trainer.recipe_math.parsing import parse_quantity

FOLDER = CONTENT / "techniques" / "knife_cuts"
SIDES = [
    # line, nominal side as printed in the list
    ("large_dice", "3/4 in"),
    ("medium_dice", "1/2 in"),
    ("small_dice", "1/4 in"),
    ("brunoise", "1/8 in"),
    ("fine_brunoise", "1/16 in"),
    ("batonnet", "1/4 in"),
    ("julienne", "1/8 in"),
    ("fine_julienne", "1/16 in"),
    ("paysanne", "1/2 in"),
    ("paysanne_thick", "1/8 in"),
]
SPANS = [
    # line, shortest, longest, where
    ("batonnet_length", "2 in", "2.5 in", "the list: batonnet"),
    ("julienne_length", "1 in", "2 in", "the list: julienne"),
    ("round_slice", "1/8 in", "1/2 in", "the list: rondelle"),
    ("paysanne_elsewhere", "1 mm", "2 mm", "a culinary cuts page, undated"),
]
ELSEWHERE = [
    # line, what another chart prints
    ("batonnet_elsewhere", "1/2 in"),
    ("medium_dice_elsewhere", "1 cm"),
    ("brunoise_elsewhere", "2 mm"),
    ("julienne_elsewhere", "2.5 in"),
]
A_QUARTER = ("large_dice", "medium_dice", "small_dice", "brunoise", "batonnet", "julienne", "slice")


@pytest.fixture(scope="module")
def lines(content: Content) -> dict[str, Limit]:
    """Return the measured lines of the technique by id."""
    return lines_of(content.techniques["knife_cuts"])


@pytest.mark.parametrize(("line", "printed"), [*SIDES, *ELSEWHERE])
def test_a_side_is_the_printed_one(lines: dict[str, Limit], line: str, printed: str) -> None:
    """A cut has the size its source prints, and the size another chart prints stands beside it."""
    assert lines[line].target == parse_quantity(printed)


@pytest.mark.parametrize(("line", "shortest", "longest", "where"), SPANS)
def test_a_span_is_the_printed_one(lines: dict[str, Limit], line: str, shortest: str, longest: str, where: str) -> None:
    """A length that may vary has both its ends from the source."""
    assert (lines[line].lowest, lines[line].highest) == (parse_quantity(shortest), parse_quantity(longest)), where


@pytest.mark.parametrize("line", A_QUARTER)
def test_a_cut_may_be_off_by_a_quarter_of_its_side(lines: dict[str, Limit], line: str) -> None:
    """No publication gives a tolerance; the house gives every judged cut the same share, a quarter either way."""
    limit = lines[line]
    assert limit.target is not None
    assert limit.lowest is not None
    assert limit.lowest.base == limit.target.base * Fraction(3, 4)
    assert limit.source == "house"


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*_true_size.svg")), ids=lambda path: path.stem)
def test_a_true_size_drawing_has_four_units_to_a_millimetre(path: Path) -> None:
    """Width in mm and view box agree both ways, so that an inch, 25.4 mm (NIST SP 811, B.8), is 101.6 units."""
    head = re.search(r'width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"', path.read_text("utf-8"))
    assert head
    wide, high, across, down = map(Fraction, head.groups())
    assert across == 4 * wide
    assert down == 4 * high


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*_true_size.svg")), ids=lambda path: path.stem)
def test_the_ruler_in_a_drawing_has_an_eighth_of_an_inch_between_marks(path: Path) -> None:
    """21 marks from 0 to 2 1/2 in, each 3.175 mm, 12.7 units, from the next."""
    found = re.findall(r'd="M([\d.]+) (\d+)L\1 \d+" stroke-width="[23]"', path.read_text("utf-8"))
    tops = [top for _, top in found]
    ruler = [Fraction(x) for x, top in found if top == max(tops, key=tops.count)]
    assert [x - ruler[0] for x in ruler] == [Fraction("12.7") * mark for mark in range(21)]
