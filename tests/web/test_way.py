"""A cook's way to a station on a page: drawn over time, each thing in words, for the cook and whoever teaches."""

from __future__ import annotations

from datetime import date, timedelta

from bs4 import Tag

from tests.web.hands import Hands
from tests.web.kitchen_people import ask, sign, write
from trainer.actions.open_kitchen import Kitchen
from trainer.web.way_drawn import LEFT, RIGHT, WIDTH, Days

GOES = {"station": "pasta_room", "by_day": "2026-12-15", "mentor": "bo"}


def row(page: Hands, path: str, title: str) -> Tag:
    """Return the row of a technique or of the station."""
    rows = page.open(path).soup.select(".way-rows > li")
    return next(one for one in rows if one.h2 and title in one.h2.get_text())


def words(part: Tag) -> str:
    """Return the words of a part."""
    return " ".join(part.get_text(" ").split())


def test_a_cook_reads_their_own_way(ana: Hands, kitchen: Kitchen) -> None:
    """The path with its day and who helps, what is done with its day, what is still to come."""
    ask(kitchen, "ana", days=2)
    write(kitchen, "path_opened", "ana", GOES, by="cleo", days=1)
    station = words(row(ana, "/way/pasta_room", "Pasta room"))
    assert "by Tue 15 Dec 2026, 42 days left" in station
    assert "Mentor: Bo Lind" in station
    assert "Not cleared yet." in station
    nests = words(row(ana, "/way/pasta_room", kitchen.content.techniques["nests"].title))
    for said in ("Read 14 Oct 2026", "quiz passed 15 Oct 2026", "asked to be watched 1 Nov 2026", "Still to come:"):
        assert said in nests


def test_what_is_signed_says_by_whom_and_to_which_day(cleo: Hands, ana: Hands, kitchen: Kitchen) -> None:
    """A quiz of 15 October and a sign-off of 24 October, 12 months each: all of it counts to 15 October."""
    ask(kitchen, "ana", days=15)
    sign(kitchen, "ana", by="bo")
    nests = words(row(cleo, "/way/pasta_room/ana", kitchen.content.techniques["nests"].title))
    assert "signed off by Bo Lind, 24 Oct 2026." in nests
    assert "Counts to the end of 15 Oct 2027." in nests
    assert "Cleared" in words(row(cleo, "/way/pasta_room/ana", "Pasta room"))
    assert ana.open("/way/pasta_room").status == 200


def test_a_stop_is_told_by_itself(ana: Hands, kitchen: Kitchen) -> None:
    """A stop is a sentence of its own, before the few words on what is still to come: no full stop stands twice."""
    ask(kitchen, "ana", days=15)
    body = {"technique": "nests", "edition": 2, "station": "pasta_room", "points": [], "verdict": "stopped"}
    write(kitchen, "practical_watched", "ana", {**body, "reasons": [], "note": ""}, by="bo", days=1)
    nests = words(row(ana, "/way/pasta_room", kitchen.content.techniques["nests"].title))
    assert "stopped for safety on 2 November 2026." in nests
    assert ".." not in nests


def test_a_way_is_for_its_cook_and_whoever_teaches(ana: Hands, bo: Hands, cleo: Hands) -> None:
    """Another cook is turned away; an assessor and a manager read it; a station nobody has is not found."""
    assert ana.open("/way/pasta_room/dev").status == 403
    assert {page.open("/way/pasta_room/dev").status for page in (bo, cleo)} == {200}
    assert {ana.open("/way/cellar").status, cleo.open("/way/pasta_room/nobody").status} == {404}


def test_the_persons_page_and_the_paths_lead_to_it(ana: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """From each station of a person, and from one's own open path."""
    write(kitchen, "path_opened", "ana", GOES, by="cleo", days=1)
    cleo.open("/cooks/ana")
    assert cleo.follow("The way there: Pasta room").path == "/way/pasta_room/ana"
    ana.open("/paths")
    assert ana.follow("The way there: Pasta room").path == "/way/pasta_room"


def test_every_mark_drawn_is_in_the_key(ana: Hands, kitchen: Kitchen) -> None:
    """Its shape stands in the key with its word; drawings are silent, since the words say the same."""
    ask(kitchen, "ana", days=2)
    page = ana.open("/way/pasta_room")
    key = "".join(str(one) for one in page.soup.select(".way-key"))
    shapes = {str(shape.decode_contents()) for shape in page.soup.select(".way g")}
    assert shapes
    assert all(shape in key for shape in shapes)
    assert all(svg["aria-hidden"] == "true" for svg in page.soup.select("main .way, main .way-mark"))


def test_days_stand_in_proportion() -> None:
    """The first day is left, the last right, and the middle of 100 days in the middle; none leaves the row."""
    first = date(2026, 1, 1)
    days = Days(first, first + timedelta(days=100), first + timedelta(days=50))
    assert (days.x(days.first), days.x(days.last)) == (LEFT, WIDTH - RIGHT)
    assert days.x(days.today) == (LEFT + WIDTH - RIGHT) / 2
    assert days.x(first - timedelta(days=9)) == LEFT
