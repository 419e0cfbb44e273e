"""A step on a phone: caution, drawing, sentence, clock and cue are in one view, in either language."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.browser import looks
from tests.browser.engine import PHONE, SHORT_PHONE, Screen, Served
from tests.browser.journeys import step_in
from tests.browser.somebody import Somebody


@pytest.mark.parametrize("phone", [PHONE, SHORT_PHONE], ids=lambda phone: f"{phone.height}")
@pytest.mark.parametrize("tongue", ["en", "es"])
def test_a_step_is_seen_whole_without_scrolling(
    quernstone: Served, sit_down: Callable[..., Somebody], tongue: str, phone: Screen
) -> None:
    """At 360 px by 780 or 740 nothing of any shipped step that must be seen at once is under the bar or below it."""
    who = sit_down(quernstone, phone)
    step_in(who, quernstone, "New hire")
    who.speak(tongue)
    found = []
    for technique in quernstone.kitchen.content.techniques.values():
        for number in range(1, len(technique.steps) + 1):
            who.open(f"/techniques/{technique.id}/steps/{number}")
            assert who.page.locator(".step-text").is_visible()
            found += [f"{technique.id} {number}: {line}" for line in looks.below_the_view(who.page)]
    assert found == []
