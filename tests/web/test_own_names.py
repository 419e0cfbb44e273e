"""A kitchen answers by its own names only, and what it prints leads back to them."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
import zxingcpp
from flask import Flask
from PIL import Image

from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.short_codes import short_code
from trainer.web.app import create_app
from trainer.web.own_names import names_of

OWN = ("kitchen.example", *names_of("Office-PC.corp"))


@pytest.mark.parametrize(
    "host",
    [
        *("127.0.0.1", "192.168.1.5:8070", "[::1]:8070", "[fd00::7]", "localhost:8070"),  # RFC 9110, section 7.2
        *("kitchen.example", "Kitchen.Example:443", "kitchen.example."),  # names: RFC 4343, case does not count
        *("office-pc.corp", "office-pc.local:8070", "OFFICE-PC.lan", "office-pc.home.arpa"),
    ],
)
def test_a_kitchen_answers_by_its_addresses_and_its_names(kitchen: Kitchen, host: str) -> None:
    """Whatever a phone on the kitchen's own network types leads to the door."""
    client = create_app(kitchen, names=OWN).test_client()
    assert client.get("/device", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize(
    "host",
    [
        "evil.example",
        "kitchen.example.evil.example",
        "office-pc.evil.example",
        "127.0.0.1.evil.example",
        "",
        "a b",
        "x/y",
    ],
)
def test_a_name_of_somebody_elses_is_not_answered(kitchen: Kitchen, host: str) -> None:
    """OWASP WSTG-INPV-17 (from memory): a name in the request is not to be believed."""
    client = create_app(kitchen, names=OWN).test_client()
    for method in ("GET", "POST"):
        answer = client.open("/device", method=method, headers={"Host": host})
        assert answer.status_code == 400
        assert "--name" in answer.get_data(as_text=True)


def test_the_page_names_what_was_asked_and_how_to_mend_it(stranger: Hands) -> None:
    """Anyone who put a server in front and forgot its name finds what to add, and the name is words, not markup."""
    page = stranger.client.get("/", headers={"Host": "kitchen.example"}).get_data(as_text=True)
    assert "“kitchen.example”" in page
    assert "trainer serve --name" in page


def read_back(drawing: str) -> str:
    """Return what a drawn symbol says, read by a general library: runs of `M` or `m` x y and `h` length, as drawn."""
    size = int(re.findall(r'viewbox="0 0 (\d+)', drawing)[0])
    picture, across, down = Image.new("L", (size, size), 255), 0, 0.0
    for move, x, y, length in re.findall(r"([Mm])(-?[\d.]+) (-?[\d.]+)h(\d+)", drawing):
        across, down = (int(x), float(y)) if move == "M" else (across + int(x), down + float(y))
        for place in range(int(length)):
            picture.putpixel((across + place, int(down)), 0)
        across += int(length)
    (found,) = zxingcpp.read_barcodes(picture.resize((size * 8, size * 8), Image.Resampling.NEAREST))
    return str(found.text)


@pytest.mark.parametrize(("https", "scheme"), [(False, "http"), (True, "https")])
def test_a_card_leads_where_the_kitchen_is_served(
    app: Flask, ana: Hands, named: Callable[[str], str], https: bool, scheme: str
) -> None:
    """Behind a server that speaks HTTPS the code says https, though this program itself is spoken to in plain."""
    for name in map(named, ("session", "device", "visit")):
        cookie = ana.client.get_cookie(name)
        if cookie is not None:
            ana.client.set_cookie(f"__Host-{name}", cookie.value)
    app.config["HTTPS"] = https
    page = ana.open("/stations/pasta_room/card")
    assert read_back(str(page.soup.select_one(".symbol svg"))) == f"{scheme}://localhost/go/{CODE}"


CODE = short_code("station", "pasta_room")
