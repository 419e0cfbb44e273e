"""Cards and sheets for the wall, and the codes on them."""

from __future__ import annotations

from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.short_codes import short_code


def test_a_station_says_what_it_asks_for(ana: Hands, kitchen: Kitchen) -> None:
    """Every technique of the station is one press away, with how far the reader has come in it."""
    station = next(iter(kitchen.content.stations.values()))
    page = ana.open(f"/stations/{station.id}")
    for name in station.techniques:
        assert kitchen.content.techniques[name].title in page.work


def test_a_card_has_its_code_to_scan_and_to_type(ana: Hands, kitchen: Kitchen) -> None:
    """The code stands there in words as well, for anyone who cannot scan."""
    station = next(iter(kitchen.content.stations.values()))
    page = ana.open(f"/stations/{station.id}/card")
    code = short_code("station", station.id)
    symbol = page.soup.select_one(".symbol")
    assert symbol is not None
    assert symbol.find("svg") is not None
    assert code in str(symbol["aria-label"])
    assert code in page.work


def test_a_typed_code_opens_what_it_stands_for(ana: Hands, kitchen: Kitchen) -> None:
    """Small letters and a blank are let pass."""
    station = next(iter(kitchen.content.stations.values()))
    technique = next(iter(kitchen.content.techniques.values()))
    code = short_code("station", station.id)
    ana.open("/go")
    assert ana.page.field("The code on the card")
    assert ana.open(f"/go?code={code[:2].lower()}+{code[2:]}").path == f"/stations/{station.id}"
    assert ana.open(f"/go/{short_code('technique', technique.id)}").path == f"/techniques/{technique.id}"


def test_a_code_no_card_has_is_asked_again(ana: Hands) -> None:
    """The value is named, and what was typed stays."""
    page = ana.open("/go?code=zzz9z")
    assert page.status == 400
    assert "zzz9z" in page.problems[0]
    assert page.field("The code on the card")["value"] == "zzz9z"


def test_a_sheet_holds_every_step_and_what_guards_it(ana: Hands, kitchen: Kitchen) -> None:
    """On the wall nothing of the technique is missing: standard, steps, cautions, critical points, faults."""
    technique = next(iter(kitchen.content.techniques.values()))
    work = ana.open(f"/techniques/{technique.id}/sheet").work
    for text in (*(s.text for s in technique.steps), *technique.standard_text, *(h.caution for h in technique.hazards)):
        assert text in work
    assert all(point.text in work for point in technique.checklist if point.critical)
