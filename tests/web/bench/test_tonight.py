"""The sheet for tonight on the workbench: all dishes together, on the page and on paper."""

from __future__ import annotations

from tests.web.bench.looking import asked, cells
from tests.web.hands import Hands


def test_dishes_have_one_order(ana: Hands) -> None:
    """100 of the card and 100 portions of onions in cartons: 1.5625 and 1.25 lb. By hand: 1.25 / 0.8 = 1 lb 9 oz."""
    page = asked(ana, "tonight", card="100", carton="100")
    assert cells(page, "The order") == [
        ["Onions", "1 lb 9 oz 709 g"],
        ["Onions 1 carton of 2 lb (907 g), 12 oz (340 g) over", "1 lb 4 oz 567 g"],
    ]


def test_a_plate_is_made_of_its_parts(ana: Hands) -> None:
    """20 plates of half a pound of dough: 10 lb ready, and the plate's sheet says where its wheat came from."""
    page = asked(ana, "tonight", plate="20")
    assert "Ready: 10 lb (4.536 kg). For: A plate." in page.work
    assert cells(page, "Weigh out: A plate") == [["Durum dough ready", "10 lb 4.536 kg"]]
    assert "Durum dough ← Durum" in page.work


def test_a_pot_comes_with_what_is_cooked_in_it(ana: Hands) -> None:
    """Twenty plates, four at a time: five batches, one fill; from then on it holds the dough's wheat and egg."""
    page = asked(ana, "tonight", plate="20")
    assert "Goes in at one time: 4 portions. 5 batches. Fill the pot 1 time." in page.work
    assert "From the first batch on the water holds: wheat, egg." in page.work


def test_nothing_asked_for_is_no_sheet(ana: Hands) -> None:
    """The page opens with empty fields."""
    page = ana.open("/bench/tonight")
    assert page.soup.select_one("[aria-label='The order']") is None
    assert page.soup.select_one("input[name=card]") is not None


def test_a_number_that_is_none_is_told_at_its_field(ana: Hands) -> None:
    """What was typed stays, and the rule is told."""
    page = asked(ana, "tonight", card="some")
    assert "“some” is not a whole number" in page.work
    assert page.soup.select_one("input[name=card][value=some]") is not None
    page = asked(ana, "tonight", card="30000")
    assert "30000 portions is no batch: from 1 to 20000" in page.work


def test_a_plate_leads_to_the_sheet_of_its_parts(ana: Hands) -> None:
    """The batch of a plate shows its parts, and the way to one order for all of them."""
    page = asked(ana, "batch/plate", portions="20")
    assert cells(page, "What to weigh out") == [["Durum dough ready", "10 lb 4.536 kg"]]
    link = page.soup.find("a", string="Work out its parts too, with one order")
    assert link is not None
    assert link["href"] == "/bench/tonight?plate=20"
