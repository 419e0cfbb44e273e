"""The workbench as a whole: who finds it, that nothing is saved, that no noise breaks it, other units first."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from flask import Flask

from tests.web.bench.looking import asked, cells
from tests.web.bench.test_tempering import TEMPERING
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen

PAGES = (
    "",
    "/batch/dough",
    "/tonight",
    "/tempering",
    "/cooling",
    "/holds",
    "/portions",
    "/dough",
    "/pans",
    "/measures",
    "/reduction",
)


@pytest.mark.parametrize("who", ["ana", "bo", "cleo"])
def test_everybody_signed_in_finds_the_workbench_in_the_header(sign_in: Callable[[str], Hands], who: str) -> None:
    """Cook, assessor and manager: the header leads there, and every page opens."""
    hands = sign_in(who)
    hands.open("/")
    assert hands.follow("Workbench").heading == "Workbench"
    for page in PAGES:
        assert hands.open(f"/bench{page}").status == 200, page


def test_the_workbench_is_for_anybody_signed_in_and_nobody_else(app: Flask) -> None:
    """Every page asks for a person, whatever the role."""
    needs = {
        name: getattr(view, "needs", None) for name, view in app.view_functions.items() if name.startswith("bench.")
    }
    assert len(needs) == len(PAGES)
    assert set(needs.values()) == {"person"}


def test_nothing_on_the_workbench_is_saved(ana: Hands, kitchen: Kitchen) -> None:
    """Pages are read with GET alone, and the book stays as it was."""
    before = len(kitchen.file.book.since(0))
    for page in PAGES:
        ana.open(f"/bench{page}")
        assert ana.client.post(f"/bench{page}").status_code == 405
    asked(ana, "cooling", readings="14:00 135 F\n16:10 70 F")
    assert len(kitchen.file.book.since(0)) == before


def test_the_list_leads_to_recipes_and_sums(ana: Hands) -> None:
    """Every recipe of the content and the eight sums."""
    page = ana.open("/bench")
    titles = [name.get_text() for name in page.soup.select(".under .name")]
    assert titles == [
        "Production for tonight",
        "Durum dough",
        "A card",
        "Water",
        "A pot",
        "Onions in cartons",
        "A plate",
        "Seasoned",
        "Tempering egg",
        "Cooling",
        "Heat and hold",
        "Portions",
        "Dough",
        "Another pan",
        "Reducing",
        "Cups and grams",
    ]


def test_a_metric_kitchen_reads_grams_and_celsius_first(
    ana: Hands, kitchen: Kitchen, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its bare numbers are grams and °C, and its own units stand in front."""
    settings = replace(kitchen.file.settings, units_first="metric", decimal_mark=",")
    monkeypatch.setattr(kitchen.file, "settings", settings)
    batch = asked(ana, "batch/card", portions="348")
    assert cells(batch, "What to weigh out") == [["Onions", "1,973 kg 4 lb 5 1/2 oz"]]
    log = asked(ana, "cooling", readings="0 57,5\n60 40")
    assert cells(log, "Readings as understood")[0] == ["0 min", "58 °C (136 °F)"]
    assert ana.open("/bench/tempering").field("Weight of the base")["value"] == "120 g"
    assert "On average 6,5 oz" in asked(ana, "portions", target="6,5 oz", tolerance="0,5 oz", weights="6,4 6,6").work


@pytest.mark.parametrize("typed", ["6.5 oz", "6,5 oz", "6 1/2 oz", "6½ oz"])
def test_a_comma_and_a_point_both_mark_decimals(ana: Hands, typed: str) -> None:
    """Anyone who weighs may come from a house that writes the other mark: both are read (22nd CGPM, Resolution 10)."""
    page = asked(ana, "portions", target=typed, tolerance="0,5 oz", weights="6,4 6.6")
    assert "On average 6.5 oz" in page.work


NOISE = [
    "",
    "NaN",
    "-1",
    "1e999",
    "9" * 150,
    "½",
    "1/0",
    "🍝",
    "\x00",
    "<b>",
    "0:00",
    "% ",
    "{{7*7}}",
    "1,500",
    "-273.15 C",
]


def test_a_kitchen_without_recipes_says_where_they_come_from(ana: Hands, kitchen: Kitchen) -> None:
    """An empty list is one sentence, and the sums are there all the same."""
    kitchen.content = replace(kitchen.content, recipes={})
    page = ana.open("/bench")
    assert "No recipe hangs here yet." in page.work
    assert page.soup.find("span", string="Cooling") is not None


@pytest.mark.parametrize("noise", NOISE)
def test_no_noise_breaks_a_page(ana: Hands, noise: str) -> None:
    """Whatever stands in an address, the answer is a page, and nothing typed comes back as markup."""
    fields = {
        "batch/dough": ("portions", "guests", "share"),
        "tempering": tuple(TEMPERING),
        "cooling": ("readings", "around"),
        "portions": ("target", "tolerance", "weights"),
    }
    for path, names in fields.items():
        for name in names:
            whole = {**TEMPERING} if path == "tempering" else {}
            page = asked(ana, path, **{**whole, name: noise})
            assert page.status in (200, 400), (path, name, page.status)
            assert page.soup.select("main b:-soup-contains('<b>')") == []
            assert "49" not in page.work or noise != "{{7*7}}"
