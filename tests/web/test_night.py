"""The night: a band only where nobody on can stand, a wall that knows the service, each planned place judged."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest

from tests.printed import english
from tests.web.conftest import Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear, write
from tests.web.test_board import TODAY, answer
from tests.web.test_manager import send
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import THE_BOOK
from trainer.store.shifts import PlannedShift
from trainer.web.manager.cover_view import WallLine, wall_page

SHIFTS = "date,sitting,name,station\n2026-11-03,{service},{name},{station}\n"


@pytest.fixture
def tablet(at_tablet: Callable[[], Hands]) -> Hands:
    """Return the kitchen's tablet, with nobody signed in."""
    return at_tablet()


def plan(k: Kitchen, *places: tuple[str, str, str], on: date = TODAY) -> None:
    """Plan cooks at stations for services of a day."""
    k.file.shifts.add(PlannedShift(on, service, cook, station) for service, cook, station in places)


def clear_at_the_saute(k: Kitchen, cook: str) -> None:
    """Let a cook have all the sauté asks for: reading, sign-off, paper, age and a supervised shift."""
    write(k, "technique_read", cook, {"technique": "sauce", "edition": 1}, days=30)
    signed = {"technique": "sauce", "edition": 1, "station": "saute", "points": [], "verdict": "meets it"}
    write(k, "practical_watched", cook, {**signed, "reasons": [], "note": ""}, by="cleo", days=20)
    paper = {"certificate": "food_handler", "number": "7", "issued": "2026-01-05", "expires": None}
    write(k, "certificate_shown", cook, paper, by="cleo", days=20)
    shift = {"station": "saute", "worked_on": "2026-10-20", "beside": "dev", "guests": 40, "sitting": "dinner"}
    write(k, "shift_worked", cook, shift, by="cleo", days=14)


def wall(page: Seen) -> list[str]:
    """Return the wall's lines as they are read."""
    return [" ".join(line.get_text(" ").split()) for line in page.soup.select("dl > div")]


def bands(page: Seen) -> list[tuple[bool, str]]:
    """Return what the board says of each service, and whether it is black."""
    found = page.soup.select(".service")
    return [("gap" in one["class"], " ".join(one.get_text(" ").split())) for one in found]


def test_a_night_its_own_people_can_cover_cries_nothing(cleo: Hands, kitchen: Kitchen) -> None:
    """Planned the wrong way round: the band is paper and says the swap; the stations name who stands there."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "ana")
    plan(kitchen, ("dinner", "ana", "pasta_room"), ("dinner", "bo", "saute"))
    page = cleo.open("/board")
    assert "No one cleared" not in answer(page, "Pasta room")
    assert "No one cleared" not in answer(page, "Sauté")
    said = "Dinner holds with 1 swap: Ana to Sauté, Bo to Pasta room. See the line after it"
    assert bands(page) == [(False, said)]
    assert "On: Bo" in answer(page, "Pasta room")
    assert "On: Ana" in answer(page, "Sauté")


def test_a_plan_that_holds_says_so(cleo: Hands, kitchen: Kitchen) -> None:
    """Nobody moves."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "pasta_room"))
    page = cleo.open("/board")
    assert bands(page) == [(False, "Dinner holds as planned.")]
    (line,) = page.soup.select("details.not-to-stand li")
    assert line.get_text() == "Ana Pardo, Pasta room, dinner: Not cleared yet, and so no hand."


def test_nobody_on_is_cleared_and_who_could_come(cleo: Hands, kitchen: Kitchen) -> None:
    """Ana alone is on and learns; Bo is cleared and at home."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "ana", "pasta_room"))
    said = "Dinner: No one cleared is on for Pasta room. Cleared and not on: Bo."
    assert bands(cleo.open("/board")) == [(True, said)]


def test_one_hand_short_says_why(cleo: Hands, kitchen: Kitchen) -> None:
    """Bo is cleared for both and can stand at one: no station has no one, the kitchen is a hand short."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "saute"))
    page = cleo.open("/board")
    why = "Pasta room and Sauté need 2 hands; of those on only Bo is cleared there."
    assert bands(page) == [(True, f"Dinner: 1 hand short. {why}")]
    assert "No one cleared" not in answer(page, "Sauté")
    assert "A hand short at dinner" in answer(page, "Sauté")
    assert wall(cleo.open("/board/wall"))[0] == f"Sauté 1 hand short {why}"


def test_the_wall_says_once_why_stations_that_compete_are_short(cleo: Hands, kitchen: Kitchen) -> None:
    """Two hands needed at each and Bo alone for both: the reason stands at the first, so that every station fits."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "bo")
    needs = [{"stations": [station], "hands": 2} for station in ("pasta_room", "saute")]
    hours = {"weekday": 2, "service": "dinner", "opens": "17:00", "closes": "23:00", "guests": 80, "needs": needs}
    write(kitchen, "services_set", THE_BOOK, {"since": TODAY.isoformat(), "weekly": [hours], "days": []}, by="cleo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "saute"))
    lines = [line for line in wall(cleo.open("/board/wall")) if "short" in line]
    assert len(lines) == 2
    why = "Pasta room and Sauté need 4 hands; of those on only Bo is cleared there."
    assert [why in line for line in lines] == [True, False]


def test_a_day_with_two_services_names_who_stands_at_each(cleo: Hands, kitchen: Kitchen) -> None:
    """Lunch before dinner, each with its crew."""
    clear(kitchen, "bo")
    clear(kitchen, "ana")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("lunch", "ana", "pasta_room"))
    assert "Lunch: Ana Dinner: Bo" in answer(cleo.open("/board"), "Pasta room")


@pytest.mark.parametrize(("hours", "shown"), [(0, "Lunch: Ana"), (3, "Dinner: Bo"), (10, "Dinner: Bo")])
def test_the_wall_shows_the_crew_of_the_service(
    tablet: Hands, kitchen: Kitchen, clock: Clock, hours: int, shown: str
) -> None:
    """At noon the lunch crew, from the end of lunch the dinner crew, with its name on top."""
    clear(kitchen, "bo")
    clear(kitchen, "ana")
    plan(kitchen, ("lunch", "ana", "pasta_room"), ("dinner", "bo", "pasta_room"))
    clock.pass_by(hours=hours)
    page = tablet.open("/board/wall")
    service, crew = shown.split(": ")
    assert page.heading == service
    assert wall(page) == [f"Pasta room {crew}", "Sauté no one planned"]


def test_the_other_service_of_the_day_is_one_press_away(tablet: Hands, kitchen: Kitchen) -> None:
    """At noon dinner may be looked at; the wall goes back to lunch by itself, script or none."""
    clear(kitchen, "bo")
    plan(kitchen, ("lunch", "ana", "pasta_room"), ("dinner", "bo", "pasta_room"))
    tablet.open("/board/wall")
    page = tablet.follow("Dinner")
    assert (page.heading, wall(page)[0]) == ("Dinner", "Pasta room Bo")
    assert page.soup.select_one("[data-read-again='/board/wall']")
    refresh = page.soup.select_one("noscript meta[http-equiv=refresh]")
    assert refresh
    assert refresh["content"] == "60; url=/board/wall"


def test_a_rest_day_shows_the_next_service(tablet: Hands, kitchen: Kitchen) -> None:
    """Nothing is planned today: the wall shows the day after's first service, with its day."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), on=TODAY + timedelta(days=1))
    page = tablet.open("/board/wall")
    assert page.heading == "Dinner"
    assert "Wed 4 Nov 2026" in page.work
    assert wall(page)[0] == "Pasta room Bo"


def test_the_wall_says_who_is_beside_and_who_can_come(tablet: Hands, kitchen: Kitchen) -> None:
    """Beside in small letters; where nobody on is cleared, first of all, who is on and who could be called."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "dev")
    plan(kitchen, ("lunch", "bo", "pasta_room"), ("lunch", "ana", "saute"))
    expected = ["Sauté No one cleared on, not cleared: Ana. Cleared and not on: Dev.", "Pasta room Bo"]
    assert wall(tablet.open("/board/wall")) == expected
    plan(kitchen, ("lunch", "ana", "pasta_room"))
    assert wall(tablet.open("/board/wall")) == ["Pasta room Bo Ana beside", "Sauté no one planned"]


def test_the_wall_says_the_swaps_at_its_foot(tablet: Hands, kitchen: Kitchen) -> None:
    """Nothing is black; who stands where is said above, what changes below."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "ana")
    plan(kitchen, ("lunch", "ana", "pasta_room"), ("lunch", "bo", "saute"))
    page = tablet.open("/board/wall")
    assert wall(page) == ["Pasta room Bo", "Sauté Ana"]
    assert not page.soup.select(".nobody")
    assert "Lunch holds with 1 swap" in page.work


def test_a_cook_off_the_station_stands_nowhere_near_it(cleo: Hands, kitchen: Kitchen) -> None:
    """Taken off: no hand, not beside; the board says who and why, the wall that they may not stand here."""
    clear(kitchen, "bo")
    clear(kitchen, "ana")
    plan(kitchen, ("lunch", "bo", "pasta_room"), ("lunch", "ana", "pasta_room"))
    write(kitchen, "stood_down", "bo", {"station": "pasta_room", "reason": "Guard left open."}, by="cleo", days=1)
    page = cleo.open("/board")
    (line,) = page.soup.select("div.not-to-stand li")
    assert line.get_text().startswith("Bo Lind, Pasta room, lunch: May not stand there.")
    assert "Guard left open." in line.get_text()
    assert bands(page) == [(False, "Lunch holds as planned.")]
    assert wall(cleo.open("/board/wall"))[0] == "Pasta room Ana may not stand here: Bo"


def test_a_cook_who_left_and_a_station_that_is_gone_are_said(cleo: Hands, kitchen: Kitchen) -> None:
    """Both stood in the plan without a word before; neither is a hand."""
    clear(kitchen, "bo")
    plan(kitchen, ("lunch", "bo", "pasta_room"), ("lunch", "ana", "smoker"), ("lunch", "cleo", "pasta_room"))
    write(kitchen, "cook_left", "bo", {"reason": "Moved."}, by="cleo", days=2)
    page = cleo.open("/board")
    told = {line.get_text() for line in page.soup.select("div.not-to-stand li")}
    assert told == {
        "Bo Lind, Pasta room, lunch: Left the kitchen on 1 November 2026.",
        "Ana Pardo, smoker, lunch: There is no station “smoker”.",
        "Cleo Mbeki, Pasta room, lunch: A manager only, who works no station.",
    }
    assert [black for black, _ in bands(page)] == [True]


@pytest.mark.parametrize(
    ("name", "station", "says"),
    [
        ("Ana Pardo", "Pasta room", "Not cleared yet, and so no hand."),
        ("Dev Karim", "Sauté", "May not stand there. Age: not 18 before"),
        ("Bo Lind", "Pasta room", "May not stand there."),
        ("Cleo Mbeki", "Pasta room", "A manager only, who works no station."),
        ("Eli Roth", "Pasta room", "Left the kitchen on"),
    ],
)
def test_each_row_of_a_shift_file_is_judged(cleo: Hands, kitchen: Kitchen, name: str, station: str, says: str) -> None:
    """The preview says in plain words who may not stand where; a plan is a plan, and may be taken in."""
    young = kitchen.people()["dev"]
    kitchen.file.people.change(type(young)("dev", young.name, date(2010, 5, 1)), None, None)
    kitchen.file.people.add(type(young)("eli", "Eli Roth", date(1990, 1, 1)))
    write(kitchen, "cook_joined", "eli", {"roles": ["cook"]}, by="cleo", days=9)
    write(kitchen, "cook_left", "eli", {"reason": "Moved."}, by="cleo", days=2)
    clear(kitchen, "bo")
    write(kitchen, "stood_down", "bo", {"station": "pasta_room", "reason": "Guard left open."}, by="cleo", days=1)
    page = send(cleo, SHIFTS.format(service="dinner", name=name, station=station), "shifts.csv")
    (row,) = page.soup.select("tbody tr")
    assert says in row.get_text(" ")
    assert page.button("Take in 1 row")


def test_a_cleared_cook_has_no_word_in_the_preview(cleo: Hands, kitchen: Kitchen) -> None:
    """Who may stand there is only planned; on a day after the sign-off has run out, that is said."""
    clear(kitchen, "bo")
    page = send(cleo, SHIFTS.format(service="dinner", name="Bo Lind", station="Pasta room"), "shifts.csv")
    assert not page.soup.select("tbody b")
    later = SHIFTS.replace("2026-11-03", "2028-01-04").format(service="dinner", name="Bo Lind", station="Pasta room")
    page = send(cleo, later, "shifts.csv")
    assert "Not cleared, and so no hand." in page.work


def test_breakfast_is_a_service_like_the_others(cleo: Hands, kitchen: Kitchen) -> None:
    """A shift file may plan it, the board names it first, a supervised shift may be written down for it."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"))
    send(cleo, SHIFTS.format(service="Breakfast", name="Bo Lind", station="Pasta room"), "shifts.csv")
    cleo.press("Take in 1 row")
    assert "Breakfast: Bo Dinner: Bo" in answer(cleo.open("/board"), "Pasta room")


def lines(number: int, *gaps: int) -> list[WallLine]:
    """Return so many stations of a wall, those named being gaps."""
    return [WallLine(f"s{each}", "x", is_gap=each in gaps) for each in range(number)]


def test_gaps_stand_first_on_every_page_of_the_wall() -> None:
    """Six lines a page: two gaps on each, the others by fours, and after the last page the first again."""
    whole, first, pages = lines(12, 3, 11), 0, []
    for _ in range(4):
        page = wall_page(whole, str(first))
        pages.append(" ".join(english(one.title) for one in page.lines))
        assert len(page.others) + len(page.lines) == len(whole)
        first = page.following
    assert pages == ["s3 s11 s0 s1 s2 s4", "s3 s11 s5 s6 s7 s8", "s3 s11 s9 s10", "s3 s11 s0 s1 s2 s4"]


def test_a_wall_of_nothing_but_gaps_turns_too() -> None:
    """Five gaps stay, and the rest take turns at the sixth line; no station is left out."""
    whole = lines(8, *range(8))
    seen = {one.title for first in range(3) for one in wall_page(whole, str(first)).lines}
    assert len(seen) == 8
    assert [wall_page(whole, typed).first for typed in ("", "x", "99", "²")] == [0, 0, 0, 0]


def test_six_stations_fit_and_nothing_turns() -> None:
    """One page, gaps first, nothing behind it."""
    page = wall_page(lines(6, 5), "3")
    assert ([english(one.title) for one in page.lines], page.others) == (["s5", "s0", "s1", "s2", "s3", "s4"], ())


def test_after_the_last_service_the_wall_says_when_the_next_is(tablet: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """At 23:30 tonight's dinner is over: tomorrow's lunch stands there, with from when it is."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"))
    plan(kitchen, ("lunch", "bo", "pasta_room"), on=TODAY + timedelta(days=1))
    page = tablet.open("/board/wall")
    assert "Next: Tue 3 Nov 2026, 17:00 to 23:00" in page.work
    assert "Next, Wed 4 Nov 2026: Lunch holds as planned." in page.work
    clock.pass_by(hours=11.5)
    page = tablet.open("/board/wall")
    assert page.heading == "Lunch"
    assert "Next: Wed 4 Nov 2026, 11:00 to 15:00" in page.work


def test_a_gap_to_come_stands_black_at_the_foot(tablet: Hands, kitchen: Kitchen) -> None:
    """Nothing is wrong tonight; tomorrow's gap is said at once."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"))
    plan(kitchen, ("lunch", "ana", "pasta_room"), on=TODAY + timedelta(days=1))
    foot = tablet.open("/board/wall").soup.select_one(".wall-foot.gap")
    assert foot
    assert "Lunch: No one cleared is on for Pasta room." in foot.get_text()
