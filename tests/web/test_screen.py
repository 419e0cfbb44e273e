"""Figures in millimetres are true to size on a screen whose bar was measured."""

from __future__ import annotations

from collections.abc import Callable
from urllib.parse import quote

import pytest
from flask import Flask

from tests.web.hands import Hands
from trainer.web.cook.screen import style_url


@pytest.mark.parametrize(
    ("measured", "grown"),
    # by hand: 50 / 52 is 0.9615; 2 in are 50.8 mm exactly (NIST SP 811, Appendix B), 50 / 50.8 is 0.9843; 40 is 1.25
    [("52", 962), ("52 mm", 962), ("2 in", 984), ("40", 1250), ("5 cm", 1000)],
)
def test_a_measured_bar_tells_how_much_larger_to_draw(
    ana: Hands, named: Callable[[str], str], measured: str, grown: int
) -> None:
    """A bar of 50 mm that measures 52 is drawn 50/52 as large from then on, in any unit it is given."""
    ana.open("/screen")
    ana.press("Keep it", bar=measured)
    cookie = ana.client.get_cookie(named("screen"))
    assert cookie is not None
    assert cookie.value == str(grown)


@pytest.mark.parametrize("typed", ["", "lots", "0", "500 mm", "52 g", "1 mm"])
def test_what_is_no_length_of_the_bar_is_asked_again(ana: Hands, named: Callable[[str], str], typed: str) -> None:
    """Nothing is kept, and what was typed stays."""
    ana.open("/screen")
    page = ana.press("Keep it", bar=typed)
    assert page.status == 400
    assert page.problems
    assert ana.client.get_cookie(named("screen")) is None


def test_the_rule_holds_on_the_screen_and_not_on_paper(ana: Hands) -> None:
    """Paper is true to size as it is."""
    answer = ana.client.get("/screen/962.css")
    assert answer.get_data(as_text=True) == '@media screen { .figure svg[width$="mm"] { zoom: 0.962; } }\n'
    assert ana.client.get("/screen/99999.css").status_code == 404


def test_the_rule_is_kept_by_whoever_asked_for_it(stranger: Hands) -> None:
    """Its address says all that is in it, so a browser keeps it, and no cookie goes with it."""
    stranger.client.delete_cookie("visit")
    answer = stranger.client.get("/screen/962.css")
    assert "immutable" in answer.headers["Cache-Control"]
    assert "Set-Cookie" not in answer.headers


@pytest.mark.parametrize("kept", ["00962" + "9" * 5000, "009620000", "9999", "-962", "x", "٩٦٢"])
def test_a_cookie_that_was_never_measured_is_no_screen(app: Flask, kept: str) -> None:
    """Whatever a browser sends, the step is shown as on any screen."""
    name = quote(kept)
    with app.test_request_context("/", headers={"Cookie": f"screen={name}"}):
        assert style_url() == ""
    with app.test_request_context("/", headers={"Cookie": "screen=962"}):
        assert style_url() == "/screen/962.css"
