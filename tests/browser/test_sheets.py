"""Printed sheets: a technique's for the wall fills few pages, a cook's record fits on one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from itertools import product

import pytest

from tests.browser.engine import WIDE, Served
from tests.browser.journeys import step_in
from tests.browser.paper import PAPERS, printed
from tests.browser.somebody import Somebody
from trainer.actions.covering import planned_on

MOST = 3
SMALLEST = 8  # points: common practice for the small print of a form
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


@pytest.mark.parametrize("tongue", ["en", "es"])
def test_the_fullest_record_fits_on_one_sheet(
    quernstone: Served, sit_down: Callable[..., Somebody], tongue: str
) -> None:
    """On A4 and on Letter, in either language, 8 points or more; the second list has sheets of its own."""
    who = sit_down(quernstone, WIDE)
    step_in(who, quernstone, "Manager")
    who.speak(tongue)
    entries = Counter(entry.cook for entry in quernstone.kitchen.file.book.since(0))
    fullest = max(quernstone.kitchen.people(), key=lambda cook: entries[cook])
    found = []
    for paper in PAPERS:
        who.open(f"/cooks/{fullest}/record")
        sheets = printed(who.page, paper)
        assert who.page.locator(".ten li").count() == 10
        if len(sheets) != 1 or sheets[0].smallest < SMALLEST:
            found.append(f"{paper}: {len(sheets)} sheets, smallest {min(each.smallest for each in sheets):.1f} points")
        who.open(f"/cooks/{fullest}/record?every=1")
        assert len(printed(who.page, paper)) > 1
    assert found == []


@pytest.mark.parametrize("tongue", ["en", "es"])
def test_the_inspectors_sheet_fits_on_one_sheet(
    quernstone: Served, sit_down: Callable[..., Somebody], tongue: str
) -> None:
    """Of tonight, and of a day nobody planned with the whole roster listed: A4 and Letter, 8 points or more."""
    who = sit_down(quernstone, WIDE)
    step_in(who, quernstone, "Manager")
    who.speak(tongue)
    k, found = quernstone.kitchen, []
    past = (k.today(quernstone.clock()) - timedelta(number) for number in range(1, 400))
    unplanned = next(day for day in past if not planned_on(k, day))
    for paper, on in product(PAPERS, ("", f"?on={unplanned}")):
        who.open(f"/inspection{on}")
        sheets = printed(who.page, paper)
        if len(sheets) != 1 or sheets[0].smallest < SMALLEST:
            found.append(f"{paper}{on}: {len(sheets)} sheets, {min(each.smallest for each in sheets):.1f} points")
    assert found == []
