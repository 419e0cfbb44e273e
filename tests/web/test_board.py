"""The board: an answer a station, a state a cell, any past day, the proof behind a cell, the wall."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from bs4 import Tag

from tests.printed import english
from tests.web.conftest import Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear, study, write
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.clearance import Held
from trainer.kitchen.spans import ONE_DAY, in_words
from trainer.kitchen.technique import CertificateAsked, ContentName, Practice
from trainer.store.shifts import PlannedShift
from trainer.web.entry_words import Naming
from trainer.web.manager.board_view import board_until, short_names, when_words
from trainer.web.manager.proof_view import proven

TODAY = date(2026, 11, 3)  # a Tuesday


def cell(page: Seen, name: str, station: str) -> Tag:
    """Return the cell of a cook at a station, found through the table's own headers."""
    heads = [th.get_text().strip() for th in page.soup.select("thead tr")[0].find_all("th")]
    for row in page.soup.select("tbody tr"):
        head = row.find("th")
        if head and name in head.get_text():
            found = row.find_all(["th", "td"])[heads.index(station)]
            assert isinstance(found, Tag)
            return found
    raise AssertionError(f"{name} is not on the board")


def answer(page: Seen, station: str) -> str:
    """Return what a station's column says first."""
    heads = [th.get_text().strip() for th in page.soup.select("thead tr")[0].find_all("th")]
    cells = page.soup.select("thead tr")[1].find_all(["th", "td"])
    return " ".join(cells[heads.index(station)].get_text(" ").split())


def test_a_manager_starts_on_the_board(cleo: Hands) -> None:
    """The first page after signing in is tonight's board."""
    page = cleo.open("/")
    assert page.path == "/board"
    assert page.heading.startswith("Tonight's board")


def test_a_station_answers_before_the_cooks_do(cleo: Hands, kitchen: Kitchen) -> None:
    """The row on top says how many are cleared, or that no one is."""
    clear(kitchen, "bo")
    page = cleo.open("/board")
    assert answer(page, "Pasta room").startswith("1 cleared")
    assert answer(page, "Sauté").startswith("No one cleared")


def test_a_cell_says_its_state_in_a_word_and_a_shape(cleo: Hands, kitchen: Kitchen) -> None:
    """Word and shape together; the shape is silent for anyone who hears the page."""
    clear(kitchen, "bo")
    found = cell(cleo.open("/board"), "Bo Lind", "Pasta room")
    assert "cleared" in found.get_text()
    assert found.select_one("use[href='#shape-cleared']")
    assert found.svg
    assert found.svg["aria-hidden"] == "true"


def test_a_clearance_about_to_end_says_when(sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock) -> None:
    """Signed off nearly twelve months ago: due again, with the last good day, in the cell and in the answer."""
    clear(kitchen, "bo", days=80)
    study(kitchen, "bo", days=-250)
    clock.pass_by(days=282)
    page = sign_in("cleo").open("/board")
    assert "due again" in cell(page, "Bo Lind", "Pasta room").get_text()
    assert "1 cleared, 1 ends" in answer(page, "Pasta room")


def test_a_paper_on_grace_is_named_in_the_cell_with_its_days(
    sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """Due again, though its last good day is far: the cell and the proof say which paper ended, and when it is over."""
    card = CertificateAsked("food_handler", "Food handler", bars=False, grace_days=90)
    room = replace(kitchen.content.stations["pasta_room"], certificates=(card,))
    kitchen.content = replace(kitchen.content, stations={**kitchen.content.stations, "pasta_room": room})
    clear(kitchen, "bo")
    today = clock().date()
    paper = {"certificate": "food_handler", "number": "7", "issued": "2020-01-01", "expires": f"{today - ONE_DAY}"}
    write(kitchen, "certificate_shown", "bo", paper, by="cleo")
    cleo = sign_in("cleo")
    words = f"counts to {english(in_words(today + 89 * ONE_DAY))}"
    assert "due again" in cell(cleo.open("/board"), "Bo Lind", "Pasta room").get_text()
    assert words in cell(cleo.open("/board"), "Bo Lind", "Pasta room").get_text()
    assert words in cleo.open("/board/bo/pasta_room").work
    assert "Food handler (90 days of grace after its end)" in cleo.open("/stations").work


def test_the_proof_says_when_practice_ends_and_what_prevents_that(
    sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """A shift long ago, so that practice is asked; cleared ten days ago, so 80 days are left of 90."""
    room = replace(kitchen.content.stations["pasta_room"], practice=Practice(3, 90, 2, 30))
    kitchen.content = replace(kitchen.content, stations={**kitchen.content.stations, "pasta_room": room})
    clear(kitchen, "bo")
    shift = {"station": "saute", "worked_on": "2020-01-01", "beside": "dev", "guests": 1, "sitting": "dinner"}
    write(kitchen, "shift_worked", "ana", shift, by="dev")
    cleo, out = sign_in("cleo"), in_words(clock().date() + 81 * ONE_DAY)
    assert f"out of practice from {english(out)} without 3 more shifts." in cleo.open("/board/bo/pasta_room").work
    words = "Practice: 3 shifts in 90 days; to come back 2 supervised shifts within 30 days."
    assert words in cleo.open("/stations").work


def test_who_is_planned_tonight_is_told(cleo: Hands, kitchen: Kitchen) -> None:
    """A planned cook who is cleared is named on top; one who is not is named too, as not cleared."""
    clear(kitchen, "bo")
    kitchen.file.shifts.add(
        [PlannedShift(TODAY, "dinner", "bo", "pasta_room"), PlannedShift(TODAY, "dinner", "ana", "saute")]
    )
    page = cleo.open("/board")
    assert "On: Bo" in answer(page, "Pasta room")
    assert "On, not cleared: Ana" in answer(page, "Sauté")
    assert "dinner" in cell(page, "Bo Lind", "Pasta room").get_text()


def test_a_station_nobody_on_is_cleared_for_says_so(cleo: Hands, kitchen: Kitchen) -> None:
    """Lunch and dinner are judged apart: Bo covers dinner, and at lunch only Ana is there, who may not."""
    clear(kitchen, "bo")
    lunch, dinner = PlannedShift(TODAY, "lunch", "ana", "pasta_room"), PlannedShift(TODAY, "dinner", "bo", "pasta_room")
    kitchen.file.shifts.add([dinner])
    assert "No one cleared is on" not in answer(cleo.open("/board"), "Pasta room")
    kitchen.file.shifts.add([lunch])
    assert "No one cleared is on for lunch" in answer(cleo.open("/board"), "Pasta room")


def test_a_station_names_who_may_run_it(cleo: Hands, kitchen: Kitchen) -> None:
    """The row on top has the short names of all who are cleared, so nobody has to look down the column."""
    clear(kitchen, "bo")
    assert "1 cleared Bo" in answer(cleo.open("/board"), "Pasta room")


def test_a_past_day_shows_what_was_true_then(cleo: Hands, kitchen: Kitchen) -> None:
    """The day before the sign-off, Bo was not cleared; the cells lead to the proof of that day."""
    clear(kitchen, "bo", days=10)
    page = cleo.open("/board?on=2026-10-23")
    found = cell(page, "Bo Lind", "Pasta room")
    assert "cleared" not in found.get_text()
    assert found.a
    assert str(found.a["href"]).endswith("?on=2026-10-23")


@pytest.mark.parametrize("typed", ["yesterday", "3/11/2026", "2026-13-01", "2026-02-30", "2028-01-01", "<b>"])
def test_a_day_that_cannot_be_shown_is_said_and_kept(cleo: Hands, typed: str) -> None:
    """A text that is no day, and one more than a year ahead: said plainly, kept, and the board is today's."""
    page = cleo.open(f"/board?on={typed}")
    assert page.status == 400
    assert page.field("Day, as year-month-day")["value"] == typed
    assert page.soup.select_one(".problem")
    assert page.title.startswith("Error: ")


def test_a_manager_who_works_no_station_is_not_on_the_board(cleo: Hands) -> None:
    """The board has cooks and assessors on it."""
    page = cleo.open("/board")
    assert not [th for th in page.soup.select("tbody th") if "Cleo" in th.get_text()]


def test_the_board_scrolls_in_a_region_with_a_name(cleo: Hands) -> None:
    """The table stands in a region that can be reached by keyboard and has the caption for its name."""
    region = cleo.open("/board").soup.select_one("[role=region]")
    assert region
    assert region["tabindex"] == "0"
    assert region.find(id=str(region["aria-labelledby"]))


def test_a_cell_opens_its_proof(cleo: Hands, kitchen: Kitchen) -> None:
    """One press: who signed, when, which edition, the readings, the entry's number."""
    signed = clear(kitchen, "bo")
    found = cell(cleo.open("/board"), "Bo Lind", "Pasta room")
    assert found.a
    page = cleo.open(str(found.a["href"]))
    assert page.heading == "Bo Lind at Pasta room"
    for words in ("Cleared", "Dev Karim", "edition 2", "4.5, 4.4, 4.6, 4.5, 4.7", "Note: Neat.", f"Entry {signed.seq}"):
        assert words in page.work


def test_the_proof_names_everything_missing_under_the_act_that_mends_it(cleo: Hands) -> None:
    """For a cook with no history each act stands once, with one line a technique that waits for it."""
    page = cleo.open("/board/ana/saute")
    acts = page.soup.select(".slips > li")
    assert len(acts) >= 2
    assert [str(one.h3.get_text()).partition(":")[0] for one in acts if one.h3] == ["Next", *["Then"] * (len(acts) - 1)]
    assert "Butter sauce: edition 1 not read; no sign-off." in page.work


def test_the_proof_has_a_line_a_technique_and_its_entries_behind_it(cleo: Hands, kitchen: Kitchen) -> None:
    """Who signed and when stands on the line; the entries are folded away until asked for, all at once by one link."""
    clear(kitchen, "bo")
    page = cleo.open("/board/bo/pasta_room")
    lines = [one.get_text(" ", strip=True) for one in page.soup.select(".spike > li > p")]
    assert any("signed off by Dev Karim" in line for line in lines)
    assert not page.soup.select(".spike details[open]")
    whole = cleo.open(str(page.link("Show every entry in full")))
    assert len(whole.soup.select(".spike details[open]")) == len(page.soup.select(".spike details"))


def test_what_ends_first_is_the_first_line_of_the_proof(kitchen: Kitchen) -> None:
    """Things held are told by their end, all of one technique together; what never ends is told last."""
    stock, sauce = (ContentName("technique", title.lower(), title) for title in ("Stock", "Sauce"))
    held = [
        Held("age", "18 years old or more.", None, None, ()),
        Held("quiz:stock", "Stock: quiz passed.", date(2026, 1, 5), date(2027, 1, 5), (), stock),
        Held("reading:sauce", "Sauce: read.", date(2026, 1, 2), None, (), sauce),
        Held("quiz:sauce", "Sauce: quiz passed.", date(2026, 1, 3), date(2026, 7, 3), (), sauce),
    ]
    told = proven(held, lambda entry: None, Naming(kitchen.people(), kitchen.content), {})
    assert [(english(one.title), english(one.line)) for one in told] == [
        ("Sauce", "read 2 Jan 2026; quiz passed 3 Jan 2026"),
        ("Stock", "quiz passed 5 Jan 2026"),
        ("18 years old or more.", ""),
    ]


def test_a_stood_down_cook_can_be_put_back_from_the_proof(cleo: Hands, kitchen: Kitchen) -> None:
    """The proof shows the reason, and the way back."""
    clear(kitchen, "bo")
    write(kitchen, "stood_down", "bo", {"station": "pasta_room", "reason": "Cut hand."}, by="cleo", days=1)
    page = cleo.open("/board/bo/pasta_room")
    assert "Cut hand." in page.work
    assert page.link("Put back on this station") == "/cooks/bo/put-back?station=pasta_room"


def test_a_cell_of_nobody_is_not_there(cleo: Hands) -> None:
    """An unknown cook or station has no page."""
    assert cleo.open("/board/nobody/saute").status == 404
    assert cleo.open("/board/ana/nowhere").status == 404


def test_a_cook_does_not_see_the_board(ana: Hands) -> None:
    """The board and its proofs are the manager's."""
    assert ana.open("/board").status == 403
    assert ana.open("/board/bo/saute").status == 403


def test_the_wall_has_station_and_names(cleo: Hands, kitchen: Kitchen) -> None:
    """Each station with the first names of who may run it, or that no one may; that comes first."""
    clear(kitchen, "bo")
    page = cleo.open("/board/wall")
    lines = [" ".join(line.get_text(" ").split()) for line in page.soup.select("dl > div")]
    assert lines == ["Sauté No one cleared", "Pasta room Bo"]


def test_the_wall_does_not_show_to_a_stranger(stranger: Hands) -> None:
    """A device nobody enrolled shows no names."""
    assert "Bo" not in stranger.open("/board/wall").work


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (date(2026, 11, 3), "today"),
        (date(2026, 11, 6), "Friday"),
        (date(2026, 11, 9), "Monday"),
        (date(2026, 11, 10), "10 Nov"),
        (date(2027, 11, 6), "6 Nov 2027"),
    ],
)
def test_a_coming_day_is_said_as_a_kitchen_says_it(day: date, words: str) -> None:
    """Weekday within six days, so that no two days of the span share a name; then the date."""
    assert english(when_words(day, TODAY)) == words


def test_a_far_day_is_short_in_a_cell() -> None:
    """Beyond two months a cell gives month and year."""
    assert english(board_until(date(2027, 7, 26), TODAY)) == "Jul 2027"


def test_two_with_one_first_name_are_told_apart() -> None:
    """Where two share a first name, the last name's first letter is added."""
    short = short_names(["Ana Pardo", "Ana Costa", "Bo Lind"])
    assert list(short.values()) == ["Ana P.", "Ana C.", "Bo"]
