"""The manager: people and what is done about them, roster files, devices, the book, stations."""

from __future__ import annotations

import re
from datetime import timedelta
from io import BytesIO
from pathlib import Path

import pytest

from tests.web.conftest import NOON, PASSPHRASE
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear, sign, write
from tests.web.test_cook import read_through
from trainer.actions.open_kitchen import Kitchen
from trainer.store.backup import back_up
from trainer.store.last_copy import note_failure

ROSTER = "number,name,birth date,roles\n007,Eli Roth,1999-04-02,cook\n"
PAGES = (
    "/cooks",
    "/cooks/ana",
    "/cooks/ana/roles",
    "/roster",
    "/devices",
    "/book",
    "/book/verify",
    "/book/kept",
    "/stations",
)


def send(hands: Hands, text: str, name: str = "roster.csv") -> Seen:
    """Send a file by the roster page's own form."""
    page = hands.open("/roster")
    hidden = {str(i["name"]): str(i.get("value", "")) for i in page.soup.select("#send input[type=hidden]")}
    data = {**hidden, "file": (BytesIO(text.encode()), name)}
    return hands._see(hands.client.post("/roster", data=data, follow_redirects=True))


@pytest.mark.parametrize("path", PAGES)
def test_a_cook_opens_none_of_the_managers_pages(ana: Hands, path: str) -> None:
    """Each of them is refused to a cook."""
    assert ana.open(path).status == 403


def test_the_people_are_listed_with_roles_and_clearances(cleo: Hands, kitchen: Kitchen) -> None:
    """A line a person: name, roles, at how many stations cleared."""
    clear(kitchen, "bo")
    page = cleo.open("/cooks")
    (line,) = [row.get_text(" ") for row in page.soup.select("tbody tr") if "Bo Lind" in row.get_text()]
    assert "assessor, cook" in line
    assert "1 of 2 stations" in line
    (manager,) = [tr.get_text(" ") for tr in page.soup.select("tbody tr") if "Cleo" in tr.get_text()]
    assert "works no station" in manager


def test_a_certificate_is_written_down(cleo: Hands, kitchen: Kitchen) -> None:
    """Number, day of issue and last day make an entry; the person's page shows it."""
    cleo.open("/cooks/ana/certificates/new")
    fill = {"Number on the paper": "FH-12", "Issued": "2026-01-05", "Good to": "2029-01-05"}
    page = cleo.press("Keep this certificate", fill, certificate="food_handler")
    assert page.heading == "Ana Pardo"
    assert "Saved 12:00" in page.work
    assert "Food handler Issued Mon 5 Jan 2026, good to Fri 5 Jan 2029" in page.work


def test_a_wrong_day_on_a_certificate_is_named(cleo: Hands) -> None:
    """A day not written year first is asked back, never guessed, and the number stays."""
    cleo.open("/cooks/ana/certificates/new")
    fill = {"Number on the paper": "FH-12", "Issued": "05/01/2026"}
    page = cleo.press("Keep this certificate", fill, certificate="food_handler")
    assert "“05/01/2026” is not a day" in page.problems[0]
    assert page.field("Number on the paper")["value"] == "FH-12"


def test_standing_down_needs_a_reason_and_can_be_undone(cleo: Hands, kitchen: Kitchen) -> None:
    """Without a reason it is refused; with one the station shows it; put back, it is gone."""
    clear(kitchen, "bo")
    cleo.open("/off/bo?station=pasta_room")
    page = cleo.press("Take Bo off", stations="pasta_room", why="", secret=PASSPHRASE)
    assert page.problems == ["Choose the reason."]
    page = cleo.press("Take Bo off", stations="pasta_room", why="not safe", secret=PASSPHRASE)
    assert page.heading == "Bo Lind is off the line"
    assert "stood down" in cleo.open("/cooks/bo").work
    cleo.open("/cooks/bo/put-back?station=pasta_room")
    page = cleo.press("Put back", {"Reason": "Healed."}, station="pasta_room")
    assert "stood down" not in page.work


def test_changing_roles_asks_for_the_secret_again(cleo: Hands, kitchen: Kitchen) -> None:
    """Without the manager's passphrase no role changes; with it, it does."""
    cleo.open("/cooks/ana/roles")
    page = cleo.press("Change the roles", roles=["cook", "assessor"])
    assert page.problems
    page = cleo.press("Change the roles", {"Your PIN or passphrase": PASSPHRASE}, roles=["cook", "assessor"])
    assert "Roles: assessor, cook" in page.work
    given = kitchen.file.book.of_kind("authority_given")[-1]
    assert (given.cook, given.by, given.body["scope"]) == ("ana", "cleo", {"all": True})


def test_nobody_changes_their_own_roles(cleo: Hands) -> None:
    """The own page offers none of it, and the form refuses it."""
    page = cleo.open("/cooks/cleo")
    assert "Change roles" not in page.work
    cleo.open("/cooks/cleo/roles")
    page = cleo.press("Change the roles", {"Your PIN or passphrase": PASSPHRASE}, roles=["cook", "assessor", "manager"])
    assert page.status == 400


def test_a_station_nobody_is_cleared_on_is_opened(cleo: Hands, kitchen: Kitchen) -> None:
    """A grant to an assessor shows on their page; at a station with a person cleared it is refused."""
    cleo.open("/cooks/bo/grant")
    fill = {"Good to": "2026-11-30", "Reason": "First night.", "Your PIN or passphrase": PASSPHRASE}
    page = cleo.press("Open the station", fill, station="pasta_room")
    assert "Pasta room, to Mon 30 Nov 2026" in page.work
    clear(kitchen, "ana")
    cleo.open("/cooks/bo/grant")
    page = cleo.press("Open the station", fill, station="pasta_room")
    assert page.status == 400


def test_a_first_code_is_shown_once(cleo: Hands) -> None:
    """Eight figures and until when, after the passphrase."""
    cleo.open("/cooks/ana/first-code")
    page = cleo.press("Make the code", {"Your PIN or passphrase": PASSPHRASE})
    shown = page.soup.select_one("main .big")
    assert shown
    assert len(shown.get_text().replace(" ", "")) == 8
    assert "Good until 4 Nov 2026" in page.work


def test_a_cook_leaves(cleo: Hands, kitchen: Kitchen) -> None:
    """With a reason they are off the board; their page says so."""
    cleo.open("/cooks/ana/leaves")
    page = cleo.press("Take off the roster", {"Reason": "Moved away."})
    assert "Not on the roster today" in page.work
    assert "Ana Pardo" not in cleo.open("/board").work


def test_a_roster_is_looked_at_before_it_is_taken_in(cleo: Hands, kitchen: Kitchen) -> None:
    """Sending a file changes nothing; taking it in does, and the cook is on the list."""
    page = send(cleo, ROSTER)
    assert "Nothing is changed yet." in page.work
    assert "Eli Roth" in page.work
    assert "Eli Roth" not in [person.name for person in kitchen.people().values()]
    page = cleo.press("Take in 1 row")
    assert "1 joined" in page.work
    assert "Eli Roth" in [person.name for person in kitchen.people().values()]


def test_a_row_that_cannot_be_taken_says_why_and_can_be_left_out(cleo: Hands, kitchen: Kitchen) -> None:
    """Row, column, value, reason and how to fix it; left out, the rest goes in."""
    page = send(cleo, ROSTER + "008,Fay Ito,1999-02-31,cook\n")
    assert "Row 3, birth date: “1999-02-31”" in page.work
    assert "Take in" not in page.work
    page = cleo.press("Look again", left_out="3")
    assert "Take in 1 row" in page.work


def test_a_date_that_reads_two_ways_is_asked(cleo: Hands) -> None:
    """03/04/1999 is two dates: the page asks, and with the answer the file can be taken in."""
    page = send(cleo, "number,name,birth date\n009,Gus Tan,03/04/1999\n")
    assert "How are the dates in this file written?" in page.work
    assert "Take in" not in page.work
    page = cleo.press("Look again", date_order="dmy")
    assert "Take in 1 row" in page.work


def test_no_file_is_said_plainly(cleo: Hands) -> None:
    """Sending the form without a file asks for one."""
    page = send(cleo, "")
    assert page.problems == ["Choose a file first. An empty file cannot be read."]


def test_shifts_are_taken_in_and_show_on_the_board(cleo: Hands) -> None:
    """A file of planned shifts marks who is on tonight."""
    page = send(cleo, "date,sitting,name,station\n2026-11-03,dinner,Ana Pardo,Pasta room\n", "shifts.csv")
    assert "planned shifts" in page.heading
    cleo.press("Take in 1 row")
    assert "On, not cleared: Ana" in cleo.open("/board").work


def test_a_file_put_away_is_gone(cleo: Hands) -> None:
    """Putting a file away leads back to the form, and the file is listed no more."""
    send(cleo, ROSTER)
    page = cleo.press("Put this file away")
    assert page.path == "/roster"
    assert "not taken in yet" not in page.work


def test_a_device_is_revoked(cleo: Hands, kitchen: Kitchen) -> None:
    """After the passphrase the device counts no more."""
    page = cleo.open("/devices")
    assert "Pass tablet (this one)" in page.work
    cleo.follow("Revoke Pass tablet")
    cleo.press("Revoke the device", {"Your PIN or passphrase": PASSPHRASE})
    assert all(device.revoked_at for device in kitchen.file.devices.all())


def test_the_book_shows_the_newest_first_and_one_cook_alone(cleo: Hands, kitchen: Kitchen) -> None:
    """Newest on top; asked for one cook, only theirs."""
    sign(kitchen, "ana")
    page = cleo.open("/book")
    heads = [h.get_text() for h in page.soup.select("ol h2")]
    assert heads[0] == "Practical watched: Ana Pardo"
    page = cleo.open("/book?cook=bo")
    assert [h.get_text() for h in page.soup.select("ol h2")] == [
        "Authority to sign given: Bo Lind",
        "Joined the roster: Bo Lind",
    ]


def test_old_entries_are_a_page_further(cleo: Hands, kitchen: Kitchen) -> None:
    """Fifty on a page, then a way to the older ones; a number that is none shows the newest."""
    for number in range(60):
        write(kitchen, "watch_asked", "ana", {"technique": "nests"}, days=number / 100)
    page = cleo.open("/book")
    assert len(page.soup.select("ol h2")) == 50
    assert len(cleo.follow("Older entries").soup.select("ol h2")) == 15
    assert len(cleo.open("/book?before=x").soup.select("ol h2")) == 50


def test_an_entry_is_voided_with_a_reason(cleo: Hands, kitchen: Kitchen) -> None:
    """The entry stays, shown as voided, and counts no longer."""
    entry = clear(kitchen, "bo")
    cleo.open(f"/book/{entry.id}/void")
    page = cleo.press("Void the entry", {"Reason": "Wrong cook."})
    assert "Voided on Tue 3 Nov 2026" in page.work
    assert "No one cleared" in cleo.open("/board").work


def test_the_book_is_verified(cleo: Hands, kitchen: Kitchen) -> None:
    """A whole book says so, with its check value."""
    page = cleo.open("/book/verify")
    assert page.heading == "The book holds"
    assert kitchen.file.book.head().short in page.work


def test_the_check_value_on_an_old_board_is_compared_on_the_page(cleo: Hands, kitchen: Kitchen) -> None:
    """The value a board printed vouches for the book up to that entry, however much was written since."""
    board = cleo.open("/board").soup.select_one(".witness")
    assert board is not None
    seq, head = re.findall(r"entry (\d+), check value ([\w-]+)", board.get_text())[0]
    clear(kitchen, "bo")
    page = cleo.open(f"/book/verify?head={head.lower().replace('-', ' ')}")
    assert page.heading == "The book holds"
    assert f"Nothing was changed, up to entry {seq}." in page.work


def test_a_manager_notes_who_has_the_check_value(cleo: Hands, kitchen: Kitchen) -> None:
    """The entry holds the head as it was, how it went out and to whom; without a name nothing is saved."""
    cleo.open("/book/verify")
    cleo.follow("Note that it is kept outside")
    head = kitchen.file.book.head()
    assert head.short in cleo.page.work
    assert cleo.press("Note it in the book").status == 400
    page = cleo.press("Note it in the book", {"Who has it": "Accountant"}, how="mailed")
    (entry,) = kitchen.file.book.of_kind("head_witnessed")
    assert entry.body == {"size": head.seq, "root": head.root.hex(), "how": "mailed", "whom": "Accountant"}
    assert "Check value kept outside: the book" in page.work
    assert f"Check value {head.short}" in page.work
    assert "Mailed to: Accountant" in page.work


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("000000000000", "No entry has a check value"),
        ("12ab", "looks like 1093-7K2M"),
        ("4-7K2U-QX4F", "no U; this has “U”"),
        ("4-7K2M-QX4F-9T0B-ZR6H-43", "Type it again, sign by sign"),
        ("1093-7K2M-QX4F-9T0B-ZR6H-43", "is of 1,093 entries, and the book has 5: its end was cut off"),
        ("4-7K2M-QX4F-9T0B-ZR6H-49", "the book was rewritten, or the value is another kitchen's"),
    ],
)
def test_a_check_value_that_is_of_no_entry_is_no_alarm_by_itself(cleo: Hands, typed: str, words: str) -> None:
    """A sign read wrongly off paper: the page says so at the field, keeps what was typed, and cries no damage."""
    page = cleo.open(f"/book/verify?head={typed}")
    assert page.heading == "The book holds"
    assert words in page.work
    field = page.soup.select_one("#head")
    assert field is not None
    assert field["value"] == typed


def test_a_station_says_what_it_asks_for(cleo: Hands) -> None:
    """Techniques, papers, age and shifts, and the caution that the local code rules."""
    page = cleo.open("/stations")
    for words in ("Butter sauce", "Food handler", "18 years or more", "1 supervised shift", "local code"):
        assert words in page.work


def test_a_station_names_who_is_cleared_there(cleo: Hands, kitchen: Kitchen) -> None:
    """Under a station stand the names of all who may run it today, or the black band."""
    clear(kitchen, "bo")
    pasta, saute = (cleo.open("/stations").soup.select_one(f"#{station}") for station in ("pasta_room", "saute"))
    assert pasta
    assert saute
    assert "1 cook cleared today Bo Lind" in " ".join(pasta.get_text(" ").split())
    assert "No one cleared" in saute.get_text()


def test_what_every_station_asks_for_is_said_once(cleo: Hands, kitchen: Kitchen) -> None:
    """A technique that all stations share stands on top, and not again under each."""
    stations = kitchen.content.stations
    shared = set.intersection(*(set(station.techniques) for station in stations.values()))
    page = cleo.open("/stations")
    for technique in kitchen.content.techniques.values():
        askers = sum(technique.id in station.techniques for station in stations.values())
        assert page.work.count(technique.title) == (1 if technique.id in shared else askers)


def failed_quiz(ana: Hands) -> None:
    """Let Ana sit the quiz of the nests with every answer wrong."""
    read_through(ana)
    ana.open("/techniques/nests/quiz")
    page = ana.press("Start the quiz")
    while page.title.startswith("Question"):
        page = ana.press("Keep it", {"Your answer": "77777"})
    assert "0 of 3 right" in ana.press("Hand in").work


def test_a_wait_is_lifted_with_a_reason(cleo: Hands, ana: Hands, kitchen: Kitchen) -> None:
    """The person's page says who waits; lifted, the quiz may be sat at once, and the book says why."""
    assert "Waits before a quiz" not in cleo.open("/cooks/ana").work
    failed_quiz(ana)
    assert "Sit the quiz again from" in ana.open("/rail").work
    assert "A manager can lift the wait." in ana.open("/techniques/nests/quiz").work
    assert "Pasta nesting: not passed. To be sat again from Wed 4 Nov 2026." in cleo.open("/cooks/ana").work
    cleo.follow("Lift the wait: Pasta nesting")
    assert "The fail stands" in cleo.page.work
    assert "Write the reason" in cleo.press("Lift the wait", {"Reason": " "}).problems[0]
    page = cleo.press("Lift the wait", {"Reason": "The fire alarm went off."})
    assert (page.path, "Waits before a quiz" in page.work) == ("/cooks/ana", False)
    assert "Wait lifted" in cleo.open("/book").work
    assert "Reason: The fire alarm went off." in cleo.page.work
    assert "Pasta nesting, after entry" in cleo.page.work
    ana.open("/techniques/nests/quiz")
    assert ana.press("Start the quiz").title.startswith("Question 1")
    assert kitchen.file.book.since(0)[-1].kind == "wait_lifted"


def test_a_wait_that_is_not_there_is_not_lifted(cleo: Hands) -> None:
    """A person who waits for nothing is told so; an unknown technique is not there."""
    cleo.open("/cooks/ana/techniques/nests/lift-wait")
    page = cleo.press("Lift the wait", {"Reason": "Why not."})
    assert page.status == 400
    assert page.problems == ["There is no wait: Ana Pardo may sit this quiz."]
    assert cleo.open("/cooks/ana/techniques/nothing/lift-wait").status == 404


def test_a_manager_hears_of_copies_that_are_not_made(cleo: Hands, kitchen: Kitchen, tmp_path: Path) -> None:
    """The page that verifies the book says when the last copy was made; the board speaks only where none can be."""
    assert "No copy was made yet." in cleo.open("/book/verify").work
    back_up(kitchen.file, tmp_path / "copies", NOON)
    made = f"Last copy 3 Nov 2026, 12:00, {kitchen.file.book.end()[0]} entries"
    assert made in cleo.open("/book/verify").work
    assert "Copies of the book" not in cleo.open("/board").work
    note_failure(kitchen.file.folder, NOON, "No space left on device")
    words = "No copy could be made (3 Nov 2026, 12:00): No space left on device. Run trainer doctor"
    assert words in cleo.open("/board").work
    back_up(kitchen.file, tmp_path / "copies", NOON - timedelta(days=3))
    assert "Copies of the book: 31 Oct 2026" in cleo.open("/board").work
