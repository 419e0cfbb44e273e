"""The coming 90 days of each station on the stations' page: the strip, and everything on it in words."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

from bs4 import Tag
from flask import Flask

from tests.web.conftest import Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, sign, study
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.coming_days import Stretch, Strip, Turn
from trainer.web.manager.strip import LEFT, LETTER, RIGHT, WIDTH, marks, strip_drawn


def station(page: Hands, name: str) -> Tag:
    """Return a station's part of the page."""
    found = page.open("/stations").soup.select_one(f"#{name}")
    assert found is not None
    return found


def words(part: Tag) -> str:
    """Return the words of a part, the drawing's own left out."""
    for svg in part.select("svg"):
        svg.extract()
    return " ".join(part.get_text(" ").split())


def test_who_lapses_is_named_with_the_day(kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]) -> None:
    """A quiz of 15 October 2026, good for 12 months: thin to 15 October 2027, then no one, with the name and why."""
    clear(kitchen, "bo")
    clock.at = datetime(2027, 9, 1, 17, tzinfo=UTC)
    said = words(station(sign_in("cleo"), "pasta_room"))
    assert "Thin from 1 Sep 2027 to 15 Oct 2027: 1 cleared, 1 needed." in said
    assert "No one cleared from 16 Oct 2027 to 29 Nov 2027." in said
    assert "16 Oct 2027: no one cleared No longer: Bo Lind. Questions to answer again: " in said


def test_a_station_nobody_can_run_says_so_for_all_the_days(cleo: Hands) -> None:
    """3 November and 89 days more end on 31 January (counted on a calendar)."""
    assert "No one cleared from 3 Nov 2026 to 31 Jan 2027." in words(station(cleo, "saute"))


def test_the_drawing_says_the_same_to_who_does_not_see_it(cleo: Hands, kitchen: Kitchen) -> None:
    """It has a name and what it shows, word for word as beside it; its ids are found."""
    clear(kitchen, "bo")
    part = station(cleo, "pasta_room")
    svg = part.select_one("svg.strip")
    assert svg is not None
    named = [part.find(id=name) for name in str(svg["aria-labelledby"]).split()]
    title, told = (one.get_text() if one else "" for one in named)
    assert title == "Pasta room: the coming 90 days"
    assert told
    assert told in words(part)


def test_enough_on_every_day_is_said(cleo: Hands, kitchen: Kitchen) -> None:
    """With more cleared than needed there is no gap to tell, nor a day."""
    clear(kitchen, "bo", days=40)
    study(kitchen, "dev")
    sign(kitchen, "dev", by="bo")
    part = station(cleo, "pasta_room")
    assert "On each day more are cleared than it needs." in words(part)
    assert not part.select(".turns")


def test_one_ink_tells_enough_thin_and_too_few_apart() -> None:
    """Open, hatched and black, each as wide as its days: 9 of 27 are a third of the strip; no colour is named."""
    first = date(2027, 2, 2)
    rows = [(0, 2), (9, 1), (18, 0)]
    days = [(first + timedelta(days=since), first + timedelta(days=since + 8), count) for since, count in rows]
    drawn = strip_drawn(Strip("x", tuple(Stretch(*one, 1) for one in days), ()), "A", "B")
    boxes = drawn.split("<rect")[1:]
    assert [part.split('fill="')[1].split('"')[0] for part in boxes] == ["none", "url(#hatch-x)", "currentColor"]
    third = (WIDTH - LEFT - RIGHT) / 3
    assert all(abs(float(part.split('width="')[1].split('"')[0]) - third) < 0.2 for part in boxes)
    assert "rgb" not in drawn
    assert drawn.count("#") == drawn.count("#hatch-x")


def test_marks_in_a_crowd_share_a_number() -> None:
    """What is too near to be read is one mark from the first to the last; each keeps the number of its list."""
    assert [one.text for one in marks([0, 5, 40, 90, 100, 110])] == ["1–2", "3", "4–6"]


def test_no_line_of_a_month_runs_through_the_number_of_a_day(app: Flask) -> None:
    """A cook lapses on 2 January, and the line of January stands a day before: it leaves the height of the 1 free."""
    first = date(2026, 12, 20)
    stretch = Stretch(first, first + timedelta(days=89), 2, 1)
    with app.test_request_context("/"):
        drawn = strip_drawn(Strip("x", (stretch,), (Turn(date(2027, 1, 2), "ana", is_gain=False),)), "A", "B")
    (below,) = (int(y) for y in re.findall(r'y="(\d+)" text-anchor="middle" font-weight="700">1<', drawn))
    lines = [(int(y), int(y) + int(long)) for y, long in re.findall(r"M[\d.]+ (\d+)v(\d+)", drawn)]
    assert lines
    assert [line for line in lines if line[0] < below and line[1] > below - LETTER * 0.75] == []
