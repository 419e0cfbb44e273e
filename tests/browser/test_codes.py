"""A printed code is read by a phone: the picture of the page is read back by a general QR library."""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
import zxingcpp
from PIL import Image

from tests.browser.engine import PHONE, PHONE_AT_NIGHT, Screen, Served
from tests.browser.journeys import step_in
from tests.browser.somebody import Somebody
from trainer.kitchen.short_codes import short_code

CODES = {
    "/stations/pasta_room/card": short_code("station", "pasta_room"),
    "/techniques/knife_cuts/sheet": short_code("technique", "knife_cuts"),
}


@pytest.mark.parametrize("path", CODES)
@pytest.mark.parametrize("screen", [PHONE, PHONE_AT_NIGHT], ids=lambda screen: screen.name)
def test_what_a_phone_reads_opens_the_page(
    quernstone: Served, sit_down: Callable[..., Somebody], path: str, screen: Screen
) -> None:
    """ISO/IEC 18004: the symbol says the address of the code that stands beside it, by day and by night."""
    who = sit_down(quernstone, screen)
    step_in(who, quernstone, "New hire")
    who.open(path)
    picture = Image.open(io.BytesIO(who.page.locator(".scan").screenshot())).convert("L")
    assert [each.text for each in zxingcpp.read_barcodes(picture)] == [f"{quernstone.address}/go/{CODES[path]}"]
