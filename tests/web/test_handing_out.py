"""A manager takes tables along in one tap; a calendar's address is shown once, is one's own, and can be withdrawn."""

from __future__ import annotations

import csv
import io
import re
from datetime import date, timedelta

import pytest
import vobject
from openpyxl import load_workbook

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, write
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language
from trainer.store.shifts import PlannedShift
from trainer.web.handing_out.pages import EVENTS, TABLES

TOMORROW = NOON.date() + timedelta(days=1)


@pytest.fixture
def planned(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with Ana and Dev on tomorrow's dinner."""
    kitchen.file.shifts.add(PlannedShift(TOMORROW, "dinner", who, "saute") for who in ("ana", "dev"))
    return kitchen


def address(hands: Hands) -> str:
    """Return the path of the address a page shows."""
    found = re.search(r"/calendar/[\w-]+\.ics", hands.page.work)
    assert found, hands.page.work
    return found.group()


def told(hands: Hands, path: str) -> str:
    return hands.open(path).response.get_data(as_text=True)


@pytest.mark.parametrize("what", TABLES)
def test_everything_opens_as_a_table_and_as_a_workbook(cleo: Hands, planned: Kitchen, what: str) -> None:
    """Each link of the page leads to a file with a name of its day, which general readers open."""
    cleo.open("/hand-out")
    links = [str(link["href"]) for link in cleo.page.soup.select("main a[download]")]
    assert f"/hand-out/{what}.csv" in links
    assert (f"/hand-out/{what}.ics" in links) is (what in EVENTS)
    rows = list(csv.reader(io.StringIO(told(cleo, f"/hand-out/{what}.csv").removeprefix("\ufeff"), newline="")))
    assert len({len(row) for row in rows}) == 1
    sent = cleo.open(f"/hand-out/{what}.xlsx").response
    assert sent.headers["Content-Disposition"] == f'attachment; filename="{what}-2026-11-03.xlsx"'
    sheet = load_workbook(io.BytesIO(sent.get_data())).worksheets[0]
    assert [cell.value for cell in sheet[1]] == rows[0]


def test_a_file_speaks_the_managers_language(cleo: Hands, planned: Kitchen) -> None:
    """Heads and states are those of whoever takes it."""
    keep_own_language(planned, person="cleo", language="es", units="")
    assert "Cocinero" in told(cleo, "/hand-out/board.csv").splitlines()[0]


@pytest.mark.parametrize("path", ["/hand-out/board.pdf", "/hand-out/secrets.csv", "/hand-out/board.ics"])
def test_what_there_is_not_is_not_found(cleo: Hands, path: str) -> None:
    """A form or a thing that is not offered is a page that is not there."""
    assert cleo.open(path).status == 404


def test_a_cooks_calendar_is_read_without_signing_in(ana: Hands, stranger: Hands, planned: Kitchen) -> None:
    """The address is shown once, and tells of Ana's shifts alone."""
    ana.open("/calendar")
    ana.press("Make an address, My shifts and days")
    path = address(ana)
    assert "/calendar/" not in ana.open("/calendar").work
    (found,) = vobject.readOne(told(stranger, path)).vevent_list
    assert found.dtstart.value.astimezone().date() in (TOMORROW, date(2026, 11, 4))
    assert "Dev" not in found.summary.value


def test_a_withdrawn_address_says_so(ana: Hands, stranger: Hands, planned: Kitchen) -> None:
    """Whoever reads it still gets a plain sentence (410 Gone); an address never made is not found."""
    ana.open("/calendar")
    ana.press("Make an address, My shifts and days")
    path = address(ana)
    ana.open("/calendar")
    ana.press("Withdraw it, My shifts and days")
    assert stranger.open(path).status == 410
    assert "withdrawn" in told(stranger, path)
    assert stranger.open("/calendar/never-made.ics").status == 404


def test_a_new_address_ends_the_one_before(ana: Hands, stranger: Hands) -> None:
    """One address a person and kind answers."""
    ana.open("/calendar")
    ana.press("Make an address, My shifts and days")
    first = address(ana)
    ana.open("/calendar")
    ana.press("Make a new address; the old one ends, My shifts and days")
    assert (stranger.open(first).status, stranger.open(address(ana)).status) == (410, 200)


def test_who_left_reads_no_longer(ana: Hands, stranger: Hands, planned: Kitchen, clock: Clock) -> None:
    """An address ends with its owner's time here."""
    ana.open("/calendar")
    ana.press("Make an address, My shifts and days")
    write(planned, "cook_left", "ana", {"reason": "Moved"}, by="cleo")
    assert stranger.open(address(ana)).status == 410


def test_everybodys_calendar_is_a_managers_alone(ana: Hands, cleo: Hands, planned: Kitchen) -> None:
    """A cook is offered only their own; the manager's names who is where."""
    assert "The whole kitchen" not in ana.open("/calendar").work
    clear(planned, "bo")
    cleo.open("/calendar")
    cleo.press("Make an address, The whole kitchen")
    names = [one.summary.value for one in vobject.readOne(told(cleo, address(cleo))).vevent_list]
    assert any(name.startswith("Ana Pardo:") for name in names)
    assert any(name.startswith("Dev Karim:") for name in names)
