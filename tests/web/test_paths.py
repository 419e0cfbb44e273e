"""Paths on pages: a cook says which station they want, others open and close paths, and the board shows them."""

from __future__ import annotations

from datetime import date

import pytest
from bs4 import Tag

from tests.web.conftest import NOON
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import write
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry
from trainer.store.shifts import PlannedShift

DAY = "2026-12-15"
BY = "By which day"


def opened(kitchen: Kitchen) -> list[Entry]:
    """Return the paths that were ever opened."""
    return [entry for entry in kitchen.file.book.since(0) if entry.kind == "path_opened"]


def goes(kitchen: Kitchen, cook: str = "ana", by: str = "cleo", station: str = "saute", day: str = DAY) -> Entry:
    """Write that a path was opened yesterday."""
    body = {"station": station, "by_day": day, "mentor": "bo"}
    return write(kitchen, "path_opened", cook, body, by=by, days=1)


def cell(page: Seen, cook: str = "ana", station: str = "saute") -> Tag:
    """Return a cell of the board."""
    found = page.soup.select_one(f"a[href='/board/{cook}/{station}']")
    assert found is not None
    assert isinstance(found.parent, Tag)
    return found.parent


def test_a_cook_says_which_station_they_want_in_one_tap(ana: Hands, kitchen: Kitchen) -> None:
    """From the first page: the stations, one tap each; the day is proposed, two weeks at the least."""
    ana.open("/rail")
    ana.follow("I want to learn a station")
    page = ana.press("I want this: Sauté")
    (entry,) = opened(kitchen)
    assert (entry.cook, entry.by) == ("ana", "ana")
    assert entry.body == {"station": "saute", "by_day": "2026-11-17", "mentor": ""}
    assert page.path == "/rail"
    assert page.heading == "Sauté"
    assert "You said so on Tue 3 Nov 2026. A sous chef or the manager agrees." in page.work


def test_what_a_cook_wants_is_agreed_to_in_one_tap(ana: Hands, bo: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """It stands on the manager's board and the sous chef's list; who assesses becomes the mentor, the day stays."""
    goes(kitchen, by="ana")
    assert "Ana Pardo wants to learn Sauté." in cleo.open("/board").work
    assert "Ana Pardo wants to learn Sauté." in bo.open("/ready").work
    assert "Nobody has agreed yet." in bo.open("/paths").work
    page = bo.press("Agree: Ana Pardo: Sauté")
    assert "Nobody has agreed yet." not in page.work
    given = opened(kitchen)[-1]
    assert (given.by, given.body) == ("bo", {"station": "saute", "by_day": DAY, "mentor": "bo"})
    assert "wants to learn" not in cleo.open("/board").work
    page = ana.open("/rail")
    assert "Bo agrees: you learn Sauté." in page.work
    assert "A sous chef or the manager agrees" not in page.work


def test_nobody_agrees_to_their_own_wish(ana: Hands, kitchen: Kitchen) -> None:
    """A cook has no such button, and its address is not theirs."""
    entry = goes(kitchen, by="ana")
    page = ana.open("/paths")
    assert "Agree" not in page.work
    assert ana.client.post(f"/paths/{entry.id}/agree").status_code == 403


@pytest.mark.parametrize("address", ["/board/ana/saute", "/cooks/ana"])
def test_a_manager_opens_a_path_in_one_tap(cleo: Hands, kitchen: Kitchen, address: str) -> None:
    """From the board's cell and from the person's page, to the day on the button."""
    cleo.open(address)
    cleo.press("Open a path, ready by 17 Nov 2026", station="saute")
    (entry,) = opened(kitchen)
    assert (entry.cook, entry.by, entry.body["station"]) == ("ana", "cleo", "saute")


def test_a_cook_says_which_station_they_want(ana: Hands, kitchen: Kitchen) -> None:
    """Whoever wants another day chooses the station, the day and who helps; afterwards it stands on top."""
    page = ana.open("/paths/new")
    assert page.soup.find(id="cook") is None, "nobody but themselves"
    page = ana.press("Go for it", {"Station": "saute", BY: DAY, "Mentor": "bo"})
    (entry,) = opened(kitchen)
    assert (entry.cook, entry.by) == ("ana", "ana")
    assert entry.body == {"station": "saute", "by_day": DAY, "mentor": "bo"}
    assert page.path == "/rail"
    going = page.soup.select_one(".aim")
    assert going
    assert " ".join(going.get_text(" ").split()) == "Sauté ready by 15 Dec"
    assert "Goes for this station by Tue 15 Dec 2026, 42 days left. Mentor: Bo Lind." in ana.open("/record").work


def test_what_was_typed_stays_when_it_is_refused(ana: Hands, kitchen: Kitchen) -> None:
    """A day gone by, no day, no station: each says what is wrong, and nothing is lost or written."""
    ana.open("/paths/new")
    page = ana.press("Go for it", {"Station": "saute", BY: "2026-11-02", "Mentor": "bo"})
    assert page.problems == ["2 November 2026 is past. Choose today or a day to come."]
    assert page.field(BY)["value"] == "2026-11-02"
    assert [o["value"] for o in page.field("Mentor").find_all("option", selected=True)] == ["bo"]
    page = ana.press("Go for it", {"Station": "", BY: "15/12/2026", "Mentor": "-"})
    assert page.problems == [
        "Station: choose one from the list.",
        "“15/12/2026” is not a day. Write year, month, day, like 2026-11-03.",
    ]
    assert ana.press("Go for it", {"Station": "saute", BY: "", "Mentor": "-"}).problems == ["Write the day."]
    assert opened(kitchen) == []


def test_the_cell_of_a_path_is_dashed_and_says_by_when(cleo: Hands, kitchen: Kitchen) -> None:
    """What nobody goes for is blank, and is told to a screen reader all the same; its link is there."""
    assert cell(cleo.open("/board"), "ana", "pasta_room").get_text(" ").split() == ["Ana", "Pardo:", "not", "started"]
    assert "is-blank" not in str(cell(cleo.page, "ana", "pasta_room"))
    goes(kitchen)
    page = cleo.open("/board")
    on_path, blank = cell(page), cell(page, "ana", "pasta_room")
    assert "on-path" in on_path["class"]
    assert "by 15 Dec" in on_path.get_text(" ")
    assert blank["class"] == ["is-blank"]
    assert blank.find("svg") is None
    (unseen,) = blank.find_all("span")
    assert unseen["class"] == ["unseen"]
    assert unseen.get_text() == "Ana Pardo: not started"
    assert "goes for the station" in page.work
    assert not cleo.open("/board?on=2026-10-01").soup.select(".is-blank, .on-path")


def test_the_proof_of_a_cell_tells_the_path_and_leads_on(cleo: Hands, kitchen: Kitchen) -> None:
    """Without one it is opened from there, filled in; with one it is moved or closed."""
    cleo.open("/board/ana/saute")
    page = cleo.follow("Open a path")
    chosen = [o["value"] for name in ("Cook", "Station") for o in page.field(name).find_all("option", selected=True)]
    assert chosen == ["ana", "saute"]
    page = cleo.press("Open the path", {BY: DAY, "Mentor": "bo", "Cook": "ana", "Station": "saute"})
    assert page.heading == "Who goes for which station"
    assert (
        "Goes for this station by Tue 15 Dec 2026, 42 days left. Mentor: Bo Lind." in cleo.open("/board/ana/saute").work
    )
    page = cleo.follow("Another day or mentor")
    assert page.field(BY)["value"] == DAY
    cleo.press("Open the path", {BY: "2027-01-15", "Mentor": "-", "Cook": "ana", "Station": "saute"})
    assert [entry.body["by_day"] for entry in opened(kitchen)] == [DAY, "2027-01-15"]
    work = cleo.open("/board/ana/saute").work
    assert "by Fri 15 Jan 2027" in work
    assert "No mentor yet" in work


def test_a_list_tells_what_is_missing_and_marks_what_is_late(cleo: Hands, bo: Hands, kitchen: Kitchen) -> None:
    """A manager and an assessor see everybody's, the earliest day first."""
    goes(kitchen)
    goes(kitchen, "dev", station="pasta_room", day="2026-11-01")
    for hands in (cleo, bo):
        page = hands.open("/paths")
        headings = [" ".join(one.get_text().split()) for one in page.soup.select(".paths h2")]
        assert headings == ["Dev Karim: Pasta room", "Ana Pardo: Sauté"]
        assert [one.get_text() for one in page.soup.select(".paths .no-one")] == ["By Sun 1 Nov 2026, 2 days late"]
        assert "Mentor: Bo Lind." in page.work
        assert "And 1 more." in page.work or "not read" in page.work


def test_a_path_is_closed_with_a_reason(cleo: Hands, kitchen: Kitchen) -> None:
    """Dropped asks why; reached is refused until the cook is cleared, with what is missing."""
    entry = goes(kitchen)
    cleo.open(f"/paths/{entry.id}/close")
    page = cleo.press("Close the path", {"How it ends": "reached", "Reason": ""})
    assert page.problems[0].startswith("Ana Pardo is not cleared there yet.")
    page = cleo.press("Close the path", {"How it ends": "dropped", "Reason": ""})
    assert page.problems == ["The reason is blank."]
    page = cleo.press("Close the path", {"How it ends": "dropped", "Reason": "Goes for the pasta room"})
    assert "No path is open." in page.work
    work = cleo.open("/book?cook=ana").work
    assert "Path to a station closed" in work
    assert "Dropped. Reason: Goes for the pasta room" in work


def test_a_cook_sees_only_their_own_and_closes_only_what_they_opened(ana: Hands, kitchen: Kitchen) -> None:
    """A path of somebody else is no page of theirs; one a manager opened has no button."""
    others, given = goes(kitchen, "dev"), goes(kitchen)
    page = ana.open("/paths")
    assert page.heading == "My paths"
    assert "Dev" not in page.work
    assert not page.soup.select("a[href$='/close']")
    assert ana.open(f"/paths/{others.id}/close").status == 404
    ana.open(f"/paths/{given.id}/close")
    page = ana.press("Close the path", {"How it ends": "dropped", "Reason": "No time"})
    assert page.problems == ["Cleo Mbeki opened this path. Ask them, or another assessor or manager."]


def test_a_cook_may_not_open_one_for_another(ana: Hands, kitchen: Kitchen) -> None:
    """A name sent by hand is not read: it is their own path."""
    ana.open("/paths/new")
    ana.press("Go for it", {"Station": "saute", BY: DAY, "Mentor": "-"}, cook="dev")
    assert [entry.cook for entry in opened(kitchen)] == ["ana"]


@pytest.mark.parametrize("address", ["/paths", "/paths/new", "/paths/nothing/close"])
def test_a_stranger_is_sent_to_the_door(stranger: Hands, address: str) -> None:
    """Who goes for what is for people of the house."""
    assert stranger.open(address).path in ("/device", "/")


def test_a_planned_cook_is_told_though_nobody_goes_for_it(cleo: Hands, kitchen: Kitchen) -> None:
    """Where somebody stands tonight the word is there, path or not: a blank would hide who may not stand."""
    goes(kitchen)
    kitchen.file.shifts.add([PlannedShift(date(2026, 11, 3), "dinner", "ana", "pasta_room")])
    planned = cell(cleo.open("/board"), "ana", "pasta_room")
    assert "not started" in planned.get_text(" ")
    assert "is-blank" not in str(planned)
    assert NOON.date() == date(2026, 11, 3)
