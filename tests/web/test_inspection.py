"""The inspector's sheet on a page: who may open it, what stands first, and the check value of the book."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import NOON
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, write
from tests.web.test_night import plan
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import THE_BOOK
from trainer.kitchen.nights import Place, plan_text


def in_charge(kitchen: Kitchen, who: str) -> None:
    """Publish a plan of tonight with somebody in charge and Bo in the pasta room."""
    day = kitchen.today(NOON)
    text = plan_text([Place(day, "dinner", "bo", "pasta_room", True)], {day: who}, ())
    body = {"from": day.isoformat(), "to": day.isoformat(), "plan": text, "despite": [], "replaces": []}
    write(kitchen, "plan_published", THE_BOOK, body, by="cleo", days=0.1)


def test_a_manager_sees_what_is_missing_first_and_can_do_it(cleo: Hands, kitchen: Kitchen) -> None:
    """From the board; writing down the certificate takes it off the list, and its number stands on the sheet."""
    clear(kitchen, "bo")
    in_charge(kitchen, "bo")
    cleo.open("/board")
    page = cleo.follow("Sheet for an inspector")
    first = page.soup.select(".missing li")[0].get_text(" ")
    assert "Bo Lind is in charge, with no food protection manager certificate on record." in first
    assert kitchen.file.book.head().short in page.work
    cleo.open(page.link(f"Do it: {page.soup.select('.missing li b')[0].get_text()}"))
    fill = {"Number on the paper": "FPM-1", "Issued": "2026-01-05", "Good to": "2031-01-05"}
    saved = cleo.press("Keep this certificate", fill, certificate="food_protection_manager")
    assert not saved.problems
    page = cleo.open("/inspection")
    assert "Person in charge: Bo Lind: Certified food protection manager FPM-1, to 5 Jan 2031" in page.work
    assert "food protection manager certificate on record" not in page.work


def test_who_may_open_it(sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """Managers, assessors, and whoever is in charge tonight, who sees no day before."""
    plan(kitchen, ("dinner", "bo", "pasta_room"))
    ana = sign_in("ana")
    assert ana.open("/inspection").status == 403
    assert sign_in("bo").open("/inspection").status == 200
    in_charge(kitchen, "ana")
    assert ana.open("/inspection").status == 200
    assert ana.open("/inspection?on=2026-10-01").status == 403


def test_a_day_that_is_none_or_to_come_is_today(cleo: Hands) -> None:
    """The address is typed by people."""
    for on in ("soon", "2030-01-01"):
        assert cleo.open(f"/inspection?on={on}").soup.select_one("#on")["value"] == NOON.date().isoformat()  # type: ignore[index]
