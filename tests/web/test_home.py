"""A cook's own page: the station gone for, what is left, the path in sequence, what waits, what is signed."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from types import MappingProxyType

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import ask, clear, sign, study, write
from tests.web.test_night import plan
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.time_left import Left, minutes_text, own_pace
from trainer.messages import translate


def goes(kitchen: Kitchen, station: str = "saute", by: str = "bo", cook: str = "ana", days: int = 46) -> None:
    """Write that a path is opened, its day so many days from today."""
    by_day = (kitchen.today(NOON) + timedelta(days=days)).isoformat()
    write(kitchen, "path_opened", cook, {"station": station, "by_day": by_day, "mentor": ""}, by=by)


def test_a_path_says_the_station_the_day_and_what_is_left(ana: Hands, kitchen: Kitchen) -> None:
    """The station of the path alone, in its sequence: no technique of another, no rank."""
    goes(kitchen)
    page = ana.open("/rail")
    assert page.heading == "Sauté"
    assert "ready by 19 Dec" in page.work
    assert "0 of 1 signed. Left: 1 min to read, 1 to show" in page.work
    assert [mark.get_text() for mark in page.soup.select(".path .unseen")] == ["Butter sauce: not started"]
    assert "Pasta nesting" not in page.work
    assert page.link("Read: Butter sauce")


def test_one_tap_leads_to_the_step_left(ana: Hands, kitchen: Kitchen) -> None:
    """The button says the step by its name, and leads to it."""
    goes(kitchen, "pasta_room")
    nests = kitchen.content.techniques["nests"]
    ana.open("/techniques/nests/steps/2")
    page = ana.open("/rail")
    assert page.link(f"Go on: {nests.steps[1].title}") == "/techniques/nests/steps/2"
    assert len(page.soup.select(".enamel")) == 1


def test_what_waits_for_others_is_never_on_the_button(ana: Hands, kitchen: Kitchen) -> None:
    """Asked to be watched: since when stands below; the button goes through the points meanwhile, alone."""
    goes(kitchen, "pasta_room")
    ask(kitchen, "ana")
    page = ana.open("/rail")
    assert "Pasta nesting ready to show" in page.work
    assert "Asked Mon 2 Nov 2026, 12:00." in page.work
    points = len(kitchen.content.techniques["nests"].checklist)
    assert page.link(f"Go through the {points} points") == "/techniques/nests/rehearse"
    assert len(page.soup.select('a[href="/techniques/nests/rehearse"]')) == 1


def test_the_points_are_gone_through_from_the_card_before_asking(ana: Hands, kitchen: Kitchen) -> None:
    """Only the practical is left: the button asks to be watched, the card leads to the points alone."""
    goes(kitchen, "pasta_room")
    study(kitchen, "ana")
    page = ana.open("/rail")
    points = len(kitchen.content.techniques["nests"].checklist)
    assert [button.get_text() for button in page.soup.select(".bar .enamel")] == ["Ask to be watched"]
    assert page.link(f"Go through the {points} points") == "/techniques/nests/rehearse"


def test_the_next_act_can_be_listened_to(ana: Hands, kitchen: Kitchen) -> None:
    """What is next, how long it takes, and what the button says."""
    goes(kitchen)
    (button,) = ana.open("/rail").soup.select(".bar .listen")
    said = str(button["data-say"])
    assert "Butter sauce" in said
    assert "Read: Butter sauce" in said


def test_who_signed_and_when_stands_below(ana: Hands, kitchen: Kitchen) -> None:
    """A signed technique counts in the line on top, and names its signer and the day."""
    places = kitchen.content.stations
    with_shifts = {**places, "pasta_room": replace(places["pasta_room"], supervised_shifts=2)}
    kitchen.content = replace(kitchen.content, stations=MappingProxyType(with_shifts))
    goes(kitchen, "pasta_room")
    study(kitchen, "ana")
    sign(kitchen, "ana", by="bo", days=1)
    work = ana.open("/rail").work
    assert "1 of 1 signed. Left: 2 shifts beside a cleared cook." in work
    assert "Pasta nesting signed Mon 2 Nov 2026, Bo Lind" in work


def test_who_goes_nowhere_is_told_so(ana: Hands, kitchen: Kitchen) -> None:
    """In a house with paths, whoever never held a station says which one they want; no station's own is there."""
    goes(kitchen, cook="dev")
    page = ana.open("/rail")
    assert page.heading == "No station yet"
    assert page.link("I want to learn a station") == "/paths/learn"
    assert "Butter sauce" not in page.work


def test_minutes_go_by_the_cooks_own_pace() -> None:
    """25 seconds a screen and a question until five answers say otherwise; whoever was called away does not count."""
    assert Left(screens=12, questions=12).minutes() == 10
    assert own_pace([60, 60, 60, 60]) == 25
    assert own_pace([50, 60, 70, 60, 60, 4000]) == 60
    assert Left(screens=0, questions=12).minutes(60) == 12
    assert (Left(1, 2) + Left(3, 4)) == Left(4, 6)
    assert [translate(minutes_text(one)) for one in (45, 60, 70)] == ["45 min", "1 h", "1 h 10 min"]


def test_my_page_says_which_station_i_take_today(ana: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Each service to come with its station; one that is over, and what others are planned for, is not there."""
    clear(kitchen, "ana")
    plan(kitchen, ("breakfast", "ana", "pasta_room"), ("dinner", "ana", "pasta_room"), ("dinner", "bo", "saute"))
    page = ana.open("/rail")
    assert "Dinner today: you take Pasta room." in page.work
    assert "Breakfast today" not in page.work
    assert "Sauté" not in page.work.partition("Dinner today")[2][:40]
    clock.pass_by(hours=12)
    assert "Dinner today" not in ana.open("/rail").work


def test_my_page_says_so_where_i_may_not_take_it_yet(ana: Hands, kitchen: Kitchen) -> None:
    """Who is not cleared is beside a cleared cook; a station the house does not have is said as it is planned."""
    plan(kitchen, ("lunch", "ana", "saute"), ("dinner", "ana", "attic"))
    page = ana.open("/rail")
    assert "Lunch today: you are beside a cleared cook at Sauté." in page.work
    assert "Dinner today: you are planned at attic. There is no station “attic”." in page.work


def test_a_new_plan_makes_the_kept_page_anew(ana: Hands, kitchen: Kitchen) -> None:
    """A phone keeps the start with the station of today: planned elsewhere, it is fetched again."""

    def version() -> str:
        told = ana.client.get("/kept.json").get_json()
        return next(str(one["version"]) for one in told["pages"] if one["url"] == "/rail")

    before = version()
    plan(kitchen, ("dinner", "ana", "saute"))
    assert version() != before


def test_nothing_is_said_of_a_day_off(ana: Hands) -> None:
    """Nobody planned reads no line about today's services."""
    assert " today: " not in ana.open("/rail").work
