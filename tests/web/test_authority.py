"""The pages on which a manager sees, narrows and renews who may sign, and who could sign on any day."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.authority import MAY

EVERY_ACT = list(MAY)


def test_every_authority_is_listed_with_its_end(cleo: Hands) -> None:
    """Given on 5 August 2026 with the role, good for 24 months."""
    cleo.open("/cooks")
    page = cleo.follow("Who may sign")
    assert "Bo Lind Every station to Sat 5 Aug 2028" in page.work
    assert "Renew" not in page.work


def test_an_authority_is_narrowed_to_one_station(cleo: Hands, kitchen: Kitchen) -> None:
    """What was typed is kept through a refusal; the book tells both entries with the reason."""
    clear(kitchen, "bo")
    cleo.open("/authority")
    cleo.follow("Change Bo Lind: Every station")
    fill = {"Reason": "Only the pasta room.", "Good to": "2029-01-01"}
    page = cleo.press("Change this authority", fill, scope="stations", stations=["pasta_room"], may=EVERY_ACT)
    assert "1 January 2029 is too late" in page.problems[0]
    assert page.field("Reason").get_text(strip=True) == "Only the pasta room."
    fill["Good to"] = "2027-03-01"
    page = cleo.press("Change this authority", fill, scope="stations", stations=["pasta_room"], may=EVERY_ACT)
    assert "Bo Lind Pasta room to Mon 1 Mar 2027" in page.work
    page = cleo.open("/book")
    assert "Reason: Only the pasta room." in page.work
    assert "Authority to sign ended: Bo Lind" in page.work


def test_an_authority_ends_and_another_is_given(cleo: Hands) -> None:
    """An assessor without one stands on the list all the same."""
    cleo.open("/authority")
    cleo.follow("Change Bo Lind: Every station")
    page = cleo.press("Change this authority", {"Reason": "On leave."}, scope="nothing")
    assert "Bo Lind No authority in force" in page.work
    cleo.follow("Change Bo Lind: No authority in force")
    page = cleo.press("Give this authority", scope="")
    assert page.problems[0] == "Choose what may be signed."
    page = cleo.press("Give this authority", scope="everything", may=["sign", "beside"])
    assert "Bo Lind Every station: sign practicals, sign supervised shifts to Fri 3 Nov 2028" in page.work


def test_what_ends_within_30_days_is_renewed_in_one_list(sign_in: Callable[[str], Hands], clock: Clock) -> None:
    """31 days before there is no list; 30 days before there is one, and one proof signs it."""
    clock.pass_by(days=610)
    assert "Renew" not in sign_in("cleo").open("/authority").work
    clock.pass_by(days=1)
    cleo = sign_in("cleo")
    page = cleo.open("/authority")
    assert "Bo Lind: Every station, to Sat 5 Aug 2028" in page.work
    value = page.soup.select_one("input[name=renewed]")
    assert value is not None
    page = cleo.press("Renew those ticked", renewed=[str(value["value"])])
    assert "to Sat 6 Jul 2030" in page.work


def test_a_past_day_says_who_could_sign(cleo: Hands, kitchen: Kitchen) -> None:
    """By which entries, each a link to its place in the book; a day that is none is refused with what was typed."""
    clear(kitchen, "bo")
    page = cleo.open("/signers?on=2026-11-03")
    assert page.heading == "Who could sign on 3 November 2026?"
    assert "Bo Lind , to" in page.work
    assert "Nobody. A manager can open the station for an assessor." in page.work
    assert "Bo Lind" not in cleo.open("/signers?on=2026-08-01").work
    page = cleo.open("/signers?on=3 May")
    assert "“3 May” is not a day." in page.work
    assert page.field("Day")["value"] == "3 May"
