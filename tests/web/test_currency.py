"""Questions about money on a page: in the kitchen's own currency, in each language."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.web.hands import Hands
from tests.web.test_choices import asking
from tests.web.test_choices import kitchen as kitchen  # noqa: PLC0414 - the fixture
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language


@pytest.mark.parametrize(("language", "begins", "ends"), [("en", "€", ""), ("es", "", " €")])
def test_a_kitchen_that_counts_in_euros_is_asked_in_euros(
    ana: Hands, kitchen: Kitchen, language: str, begins: str, ends: str
) -> None:
    """Question, sign beside the field, right answer and worked lines; no dollar is left."""
    asking(kitchen, "menu_price")
    kitchen.file.change_settings(replace(kitchen.file.settings, currency="EUR"))
    keep_own_language(kitchen, person="ana", language=language, units="")
    page = ana.open("/techniques/nests/try/menu_price?seed=3")
    assert [sign.get_text() for sign in page.soup.select(".readout .unit")] == ["€"]
    done = ana.open("/techniques/nests/try/menu_price?seed=3&answer=1%20€")
    shown = [each.get_text(" ", strip=True) for each in done.soup.select("dl.facts dd")]
    assert len(shown) == 2
    assert shown[1].startswith(begins)
    assert shown[1].endswith(ends)
    assert "€" in done.work
    assert "$" not in page.work + done.work
