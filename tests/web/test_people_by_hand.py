"""People by hand, as a manager meets it on a phone: on the roster, changed, gone, and the places that are open then."""

from __future__ import annotations

from datetime import timedelta

from tests.web.hands import Hands
from tests.web.kitchen_people import clear, sign, study
from tests.web.test_board import TODAY
from tests.web.test_night import clear_at_the_saute, plan
from trainer.actions.open_kitchen import Kitchen

WEEK_ON = TODAY + timedelta(days=7)


def test_somebody_joins_by_hand(cleo: Hands, kitchen: Kitchen) -> None:
    """From the list of people to their own page."""
    cleo.open("/cooks")
    cleo.follow("Put somebody on the roster")
    fill = {"Name": "Eve Fox", "Birth date": "2001-05-01"}
    page = cleo.press("Put on the roster", fill, language="es", roles=["cook"], stations=["pasta_room"])
    assert page.heading == "Eve Fox"
    assert "Roles: cook." in page.work
    person = next(one for one in kitchen.people().values() if one.name == "Eve Fox")
    assert person.language == "es"
    assert [entry.body["station"] for entry in kitchen.file.book.of_kind("path_opened")] == ["pasta_room"]


def test_every_bad_field_is_told_and_what_was_typed_stays(cleo: Hands, kitchen: Kitchen) -> None:
    """All at once; nobody joins."""
    cleo.open("/cooks/new")
    fill = {"Name": "", "Birth date": "1 May", "Staff number": "1" * 21}
    page = cleo.press("Put on the roster", fill, language="es", roles=["cook"], stations=["pasta_room"])
    assert page.status == 400
    assert page.problems == [
        "Write the name.",
        "This is 21 characters long. At most 20 are taken.",
        "“1 May” is not a day. Write year, month, day, like 2026-11-03.",
    ]
    assert page.field("Birth date")["value"] == "1 May"
    assert page.soup.select_one("option[value=es][selected]")
    assert page.soup.select_one("input[name=stations][value=pasta_room][checked]")
    page = cleo.press("Put on the roster", {"Name": "Ana Pardo", "Birth date": "2001-05-01", "Staff number": ""})
    assert "Ana Pardo is on the roster already." in page.problems[0]
    assert len(kitchen.people()) == 4


def test_a_person_is_changed_by_hand(cleo: Hands, kitchen: Kitchen) -> None:
    """From their page; a name that cannot be is told, and the rest stays typed."""
    cleo.open("/cooks/ana")
    cleo.follow("Change name, language, stations")
    page = cleo.press("Save the changes", {"Name": "=Ana", "Staff number": "12"}, language="es")
    assert "as a formula does" in page.problems[0]
    assert page.field("Staff number")["value"] == "12"
    page = cleo.press("Save the changes", {"Name": "Ana Pardo-Lee"}, language="es", stations=["saute"])
    assert page.heading == "Ana Pardo-Lee"
    assert kitchen.people()["ana"].language == "es"


def test_there_is_no_page_to_change_nobody(cleo: Hands) -> None:
    """An address with an id that is nobody's."""
    assert cleo.open("/cooks/ghost/change").status == 404


def test_a_leavers_places_are_shown_before_and_open_after(cleo: Hands, kitchen: Kitchen) -> None:
    """Named before the act, handed back in it; somebody cleared and free takes one with a press."""
    clear(kitchen, "bo")
    study(kitchen, "dev")
    sign(kitchen, "dev", by="bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), on=WEEK_ON)
    page = cleo.open("/cooks/bo/leaves")
    assert "1 coming place is handed back" in page.work
    assert "Pasta room, dinner on Tue 10 Nov 2026" in page.work
    page = cleo.press("Take off the roster", {"Reason": "Moved away."})
    assert page.heading == "Open places"
    assert "Bo Lind was planned here and has left." in page.work
    page = cleo.press("Dev Karim takes it: Pasta room, dinner on Tue 10 Nov 2026")
    assert "No place is open" in page.work
    assert [one.cook for one in kitchen.file.shifts.on(WEEK_ON)] == ["dev"]


def test_a_place_nobody_can_take_says_so(cleo: Hands, kitchen: Kitchen) -> None:
    """Nobody else is cleared at the sauté: there is nothing to press."""
    clear_at_the_saute(kitchen, "dev")
    plan(kitchen, ("dinner", "dev", "saute"), on=WEEK_ON)
    cleo.open("/cooks/dev/leaves")
    page = cleo.press("Take off the roster", {"Reason": "Moved away."})
    assert "Nobody else is cleared here and free that day." in page.work
    assert not page.soup.select("button[name=takes]")
    assert [one.cook for one in kitchen.file.shifts.on(WEEK_ON)] == []


def test_who_goes_for_every_station_is_still_changed(cleo: Hands, kitchen: Kitchen) -> None:
    """No station is left to tick: the rest of the form stands and saves."""
    cleo.open("/cooks/ana/change")
    cleo.press("Save the changes", {}, language="en", stations=["pasta_room", "saute"])
    page = cleo.open("/cooks/ana/change")
    assert not page.soup.select("input[name=stations]")
    assert cleo.press("Save the changes", {"Name": "Ana Lee"}, language="en").heading == "Ana Lee"
