"""The sheet of a technique for the wall: few pages, and none of them nearly empty."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.browser.engine import WIDE, Served
from tests.browser.journeys import step_in
from tests.browser.paper import PAPERS, printed
from tests.browser.somebody import Somebody

MOST = 3
LEAST = 0.3  # of the height of the last page


@pytest.mark.parametrize("tongue", ["en", "es"])
def test_a_sheet_fills_two_or_three_pages(quernstone: Served, sit_down: Callable[..., Somebody], tongue: str) -> None:
    """On A4 and on Letter, in either language, the last page of every shipped technique is used for a third or so."""
    who = sit_down(quernstone, WIDE)
    step_in(who, quernstone, "New hire")
    who.speak(tongue)
    found = []
    for technique in quernstone.kitchen.content.techniques:
        who.open(f"/techniques/{technique}/sheet")
        for paper in PAPERS:
            sheets = printed(who.page, paper)
            if len(sheets) > MOST or sheets[-1].used < LEAST * sheets[-1].high:
                found.append(f"{technique} on {paper}: {len(sheets)} pages, {sheets[-1].used:.0f} mm of the last")
    assert found == []
