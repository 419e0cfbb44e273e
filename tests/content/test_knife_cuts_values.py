"""The sizes of the cuts against published lists, and that every drawing of them is as large as it says.

The list is an open encyclopedia's list of culinary knife cuts (copy undated). Where other charts differ, both are kept.
"""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
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


@pytest.mark.parametrize(("figure", "line"), [("thin", "julienne"), ("middle", "batonnet"), ("thick", "medium_dice")])
def test_a_stick_to_be_named_is_as_thick_as_its_line(lines: dict[str, Limit], figure: str, line: str) -> None:
    """Twelve units from mark to mark, an eighth of an inch: the stick is as high as its line says."""
    drawn = (FOLDER / f"stick_{figure}.svg").read_text("utf-8")
    marks = [int(x) for x in re.findall(r'd="M(\d+) 126v', drawn)]
    assert {later - one for one, later in pairwise(marks)} == {12}
    side = re.search(r'd="M14 [\d.]+h104v-([\d.]+)h-104z"', drawn)
    assert side
    target = lines[line].target
    assert target is not None
    assert Fraction(side[1]) / 96 == target.to("in").amount


def test_no_two_cuts_are_said_to_look_alike(content: Content) -> None:
    """A match is about 1/8 in thick (common practice): julienne, not batonnet; only mince is like sand."""
    cues = {step.id: step.cue for step in content.techniques["knife_cuts"].steps}
    assert [name for name, cue in cues.items() if "sand" in cue] == ["mince"]
    assert [name for name, cue in cues.items() if "match" in cue] == ["julienne_and_brunoise"]


@pytest.mark.parametrize(
    ("slots", "cuts"), [("slot_small", ("small_dice", "batonnet")), ("slot_fine", ("brunoise", "julienne", "slice"))]
)
def test_a_gauge_has_the_ends_of_the_cuts_it_judges(lines: dict[str, Limit], slots: str, cuts: tuple[str, ...]) -> None:
    """A ruler of sixteenths cannot tell a thirty-second; two slots tell each end without a reading."""
    for cut in cuts:
        assert (lines[slots].lowest, lines[slots].highest) == (lines[cut].lowest, lines[cut].highest)


def test_a_thirty_second_of_an_inch_is_printed_as_one(content: Content) -> None:
    """A ruler and a cook say 1/32 in; nobody measures 0.03 in (common practice)."""
    told = " ".join(content.techniques["knife_cuts"].standard_text)
    assert "give or take 1/32 in" in told
    assert "3/32 in" in told
    assert "0.03" not in told
