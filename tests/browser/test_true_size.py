"""Drawings of cuts are as large on paper as the cut itself, and no smaller on a narrow screen.

What is measured is the printed PDF, not the page: a rule that shrinks a figure, or a sheet made to fit, is seen.
Sizes are those of an open encyclopedia's list of culinary knife cuts (copy undated): batonnet 1/4 by 2 in and more,
julienne 1/8 in thick, dice 1/4, 1/2 and 3/4 in; an inch is 25.4 mm (NIST SP 811, Appendix B).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.browser.engine import PHONE, WIDE, Screen, Served
from tests.browser.journeys import step_in
from tests.browser.paper import PAPERS, printed
from tests.browser.somebody import Somebody

INCH = 25.4
OFF = 0.005
DRAWN = {
    # figure: width and height of what must be on the paper, in millimetres; a line has no height
    "measuring_bar.svg": ((100, 0), (4 * INCH, 0)),
    "batonnet_true_size.svg": ((2 * INCH, INCH / 4), (INCH / 4, INCH / 4)),
    "julienne_true_size.svg": ((2 * INCH, INCH / 8), (INCH / 8, INCH / 8)),
    "dice_true_size.svg": ((INCH / 4, INCH / 4), (INCH / 2, INCH / 2), (3 * INCH / 4, 3 * INCH / 4)),
    "slice_true_size.svg": ((INCH / 8, 3 * INCH / 4),),
}


def opened(served: Served, who: Somebody, figure: str) -> None:
    """Open the step that shows a figure."""
    steps = served.kitchen.content.techniques["knife_cuts"].steps
    number = next(place for place, step in enumerate(steps, 1) if step.figure == figure)
    who.open(f"/techniques/knife_cuts/steps/{number}")


def is_near(measured: float, wanted: float) -> bool:
    """Return whether a length is off by half a percent at most; a line's thickness of nothing may be 0.05 mm."""
    return abs(measured - wanted) <= max(OFF * wanted, 0.05 if wanted == 0 else 0)


@pytest.mark.parametrize("screen", [PHONE, WIDE], ids=lambda screen: screen.name)
def test_a_cut_is_printed_at_its_true_size(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """On A4 and on Letter each drawn piece, and the bar to measure, is within half a percent of its size."""
    who = sit_down(quernstone, screen)
    step_in(who, quernstone, "New hire")
    worst = 0.0
    for figure, pieces in DRAWN.items():
        opened(quernstone, who, figure)
        for paper, (wide, high) in PAPERS.items():
            sheets = printed(who.page, paper)
            assert (round(sheets[0].wide), round(sheets[0].high)) == (round(wide), round(high)), paper
            for piece in pieces:
                found = min(
                    (sheet.nearest(*piece) for sheet in sheets if sheet.drawn), key=lambda f: abs(f.wide - piece[0])
                )
                assert is_near(found.wide, piece[0]), (figure, paper, piece, found)
                assert is_near(found.high, piece[1]), (figure, paper, piece, found)
                worst = max(worst, abs(found.wide / piece[0] - 1))
    print(f"\nworst on paper, from a {screen.name}: {worst:.3%} off")


def test_a_cut_is_not_shrunk_to_a_narrow_screen(quernstone: Served, sit_down: Callable[..., Somebody]) -> None:
    """On a phone the drawing keeps its millimetres, 96 px to the inch (CSS Values and Units 3, 6.2), and scrolls."""
    who = sit_down(quernstone, PHONE)
    step_in(who, quernstone, "New hire")
    for figure in DRAWN:
        opened(quernstone, who, figure)
        drawing = who.page.locator(".figure svg")
        box, asked = drawing.bounding_box(), drawing.get_attribute("width")
        assert box is not None
        assert asked is not None
        assert is_near(box["width"] * INCH / 96, float(asked.removesuffix("mm"))), figure
