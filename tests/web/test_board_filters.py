"""Whom the board shows: filters that add up and stand in the address, a name without its marks, one station, a page."""

from __future__ import annotations

from datetime import date
from urllib.parse import parse_qs, parse_qsl, urlsplit

import pytest
from werkzeug.datastructures import MultiDict

from tests.printed import english
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, write
from trainer.actions.open_kitchen import Kitchen
from trainer.store.shifts import PlannedShift
from trainer.web.manager.board_filters import ON_A_PAGE, BoardAsked, Chosen, asked_of, chosen
from trainer.web.manager.board_view import Cell, CookLine

BASE = "/board"
TODAY = date(2026, 11, 3)


def line(name: str, *, on: str = "", grill: str = "", path: str = "", ends_soon: bool = False) -> CookLine:
    """Return a cook's line at two stations: cleared at the grill where *grill* says where they stand there."""
    blank = Cell(name, "fry", "not started", "", "", False, "", is_blank=True)
    state = Cell(name, "grill", "cleared", "", on, True, "", path=path, ends_soon=ends_soon)
    return CookLine(name, name, on, (state if grill else blank, blank))


LINES = (
    line("Leilani Kahananui", on="dinner", grill="yes"),
    line("Łucja Wiśnicka", grill="yes", ends_soon=True),
    line("Mateo Quispe"),
)


def names(found: Chosen) -> list[str]:
    """Return who is shown."""
    return [one.name for one in found.lines]


def asked(query: str) -> BoardAsked:
    """Return what an address asks for."""
    return asked_of(MultiDict(parse_qsl(query)), "", ("grill", "fry"))


@pytest.mark.parametrize(
    ("query", "who"),
    [
        ("", ["Leilani Kahananui", "Łucja Wiśnicka", "Mateo Quispe"]),
        ("show=on", ["Leilani Kahananui"]),
        ("show=cleared", ["Leilani Kahananui", "Łucja Wiśnicka"]),
        ("show=cleared&show=ends", ["Łucja Wiśnicka"]),
        ("show=on&show=ends", []),
        ("q=lucja", ["Łucja Wiśnicka"]),
        ("q=wisn", ["Łucja Wiśnicka"]),
        ("station=grill", ["Leilani Kahananui", "Łucja Wiśnicka"]),
        ("station=fry", []),
        ("show=loud&station=moon&from=x", ["Leilani Kahananui", "Łucja Wiśnicka", "Mateo Quispe"]),
    ],
)
def test_filters_add_up(query: str, who: list[str]) -> None:
    """Each filter leaves out more; what is no filter is passed over."""
    assert names(chosen(LINES, asked(query), BASE, is_today=True)) == who


def test_a_filter_says_how_many_it_would_show_and_leads_to_its_opposite() -> None:
    """Pressing a set one takes it out again; the others and the day stay."""
    found = chosen(LINES, BoardAsked("2026-11-05", frozenset({"on"}), is_open=False), BASE, is_today=False)
    on, _, cleared, _ = found.filters
    told = [english(one.words) for one in found.filters]
    assert told == ["on, 1", "on a path, 0", "cleared, 2", "ends in 30 days, 1"]
    assert (on.is_set, cleared.is_set) == (True, False)
    assert parse_qs(urlsplit(on.href).query) == {"on": ["2026-11-05"], "show": ["all"]}
    assert parse_qs(urlsplit(cleared.href).query) == {"on": ["2026-11-05"], "show": ["cleared", "on"]}


def test_a_board_of_many_opens_on_who_is_on() -> None:
    """With more than 20 cooks it opens on those who are on; asked for everybody, it shows everybody."""
    many = (*LINES, *(line(f"Cook {number}") for number in range(20)))
    assert names(chosen(many, asked(""), BASE, is_today=True)) == ["Leilani Kahananui"]
    assert len(chosen(many, asked("show=all"), BASE, is_today=True).lines) == len(many)
    assert len(chosen(many[1:], asked(""), BASE, is_today=True).lines) == len(many) - 1


def test_a_large_board_comes_in_pages() -> None:
    """So many lines a page, and the way to the next and back."""
    many = tuple(line(f"Cook {number:03}") for number in range(ON_A_PAGE + 5))
    first = chosen(many, asked("show=all"), BASE, is_today=True)
    assert (len(first.lines), first.earlier_href) == (ON_A_PAGE, "")
    second = chosen(many, asked(urlsplit(first.later_href).query), BASE, is_today=True)
    assert (names(second)[0], len(second.lines), second.later_href) == ("Cook 060", 5, "")
    assert "from" not in second.earlier_href


def test_a_form_finds_a_name_and_keeps_the_day(cleo: Hands, kitchen: Kitchen) -> None:
    """A name typed without its capitals on a day to come; the day stands in the form, and in the cells."""
    clear(kitchen, "bo")
    page = cleo.open("/board?on=2026-11-05&q=bo+LI")
    assert [one.get_text().strip() for one in page.soup.select("tbody .who")] == ["Bo Lind"]
    assert page.soup.select_one("form[role=search] input[name=on][value='2026-11-05']")
    assert "?on=2026-11-05" in str(page.soup.select("tbody td a")[0]["href"])
    assert "if nothing more is written" in page.work


def test_one_station_has_one_column(cleo: Hands, kitchen: Kitchen) -> None:
    """Only who has something there, and only its head; nobody who fits is said, with the way back."""
    clear(kitchen, "bo")
    page = cleo.open("/board?station=pasta_room")
    assert [one.get_text().strip() for one in page.soup.select("thead tr")[0].find_all("th")] == ["Cook", "Pasta room"]
    nobody = cleo.open("/board?station=pasta_room&show=path")
    assert "Nobody on the board is all of that." in nobody.work
    assert nobody.link("Show everybody") == "/board?show=all"


def test_a_station_nobody_goes_for_is_blank(cleo: Hands, kitchen: Kitchen) -> None:
    """What was done on the way to one station says nothing at another that asks for it too."""
    write(kitchen, "path_opened", "ana", {"station": "saute", "by_day": "2026-12-15", "mentor": ""}, days=1)
    page = cleo.open("/board?show=path")
    assert [one.get_text().strip() for one in page.soup.select("tbody .who")] == ["Ana Pardo"]
    assert len(page.soup.select("tbody td.is-blank")) == 1


def test_the_day_beside_keeps_the_filters(cleo: Hands, kitchen: Kitchen) -> None:
    """The day before and the day after show the same of another day."""
    kitchen.file.shifts.add([PlannedShift(TODAY, "dinner", "bo", "pasta_room")])
    page = cleo.open("/board?show=on&q=bo")
    assert page.link("The day before") == "/board?on=2026-11-02&show=on&q=bo"
    assert cleo.open("/board?on=2026-11-02").link("The day after") == "/board"
