"""The plan, the services of the week and closing a service, as a manager and an assessor meet them."""

from __future__ import annotations

import json
from datetime import timedelta
from typing import Any

import pytest

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from tests.web.test_board import TODAY
from tests.web.test_night import plan
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.planning import PlanWanted, publish_plan
from trainer.kitchen.book import Entry

DAY = TODAY.isoformat()


def last(kitchen: Kitchen) -> Entry:
    """Return the last entry."""
    return kitchen.file.book.since(0)[-1]


def lines(kitchen: Kitchen) -> dict[str, str]:
    """Return how each cook is planned by the last entry."""
    return {line["cook"]: line["as"] for line in json.loads(last(kitchen).body["plan"])["lines"]}


@pytest.fixture
def planned(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with Bo, who is cleared, and Ana, who is not, planned for tonight."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "pasta_room"))
    return kitchen


@pytest.fixture
def tonight(planned: Kitchen, clock: Clock) -> Kitchen:
    """Return the kitchen with that plan published, at 22:00; ask for it before anybody signs in."""
    publish_plan(planned, by="cleo", wanted=PlanWanted(TODAY, TODAY), now=clock(), key="tonight")
    clock.pass_by(hours=10)
    return planned


def test_a_manager_publishes_the_plan_with_one_button(planned: Kitchen, cleo: Hands) -> None:
    """The page shows who is planned where, and who trails; the button seals it, and the page says so."""
    cleo.open("/board")
    seen = cleo.follow("The plan")
    assert "Bo Lind at Pasta room" in seen.work
    assert "Ana Pardo trails at Pasta room" in seen.work
    done = cleo.press("Publish this plan")
    assert lines(planned) == {"ana": "trails", "bo": "runs"}
    assert f"entry {last(planned).seq}" in done.work
    assert "Saved" in str(done.soup)


def test_a_reason_lets_somebody_run_a_station_all_the_same(planned: Kitchen, cleo: Hands) -> None:
    """It is written beside the place; what was typed stays when something else is refused."""
    cleo.open("/plan")
    name = f"despite:{DAY}:dinner:ana"
    seen = cleo.press("Publish this plan", None, **{name: "Bo stands behind her.", "until": "2026-11-01"})
    assert seen.status == 400
    assert "1 November 2026 is before 3 November 2026." in seen.problems[0]
    assert "Bo stands behind her." in str(seen.soup)
    cleo.open(f"/plan?since={DAY}&until={DAY}")
    cleo.press("Publish this plan", None, **{name: "Bo stands behind her."})
    assert lines(planned) == {"ana": "runs", "bo": "runs"}


def test_a_plan_that_stands_is_replaced_by_a_tick(tonight: Kitchen, cleo: Hands) -> None:
    """The page says what stands and how many places differ; without the tick it is refused."""
    plan(tonight, ("dinner", "dev", "pasta_room"))
    seen = cleo.open("/plan")
    assert "1 place differs from it." in seen.work
    assert "already" in cleo.press("Publish this plan").problems[0]
    cleo.press("Publish this plan", replaces="y")
    assert last(tonight).body["replaces"]
    assert "differs" not in cleo.open("/plan").work


def test_what_no_plan_can_hold_is_named(planned: Kitchen, cleo: Hands) -> None:
    """Dev may not stand there: the line is left out, with the reason."""
    plan(planned, ("dinner", "cleo", "saute"))
    seen = cleo.open("/plan")
    assert "Left out of the plan:" in seen.work
    assert "A manager only, who works no station." in seen.work


def test_an_assessor_closes_a_service_as_planned_in_one_tap(tonight: Kitchen, bo: Hands) -> None:
    """From who is ready to show, to the list, to the button; the list says it is closed."""
    bo.open("/ready")
    bo.follow("Close a service")
    seen = bo.follow("Dinner, Tue 3 Nov 2026")
    assert "Bo Lind at Pasta room" in seen.work
    done = bo.press("Stood as planned")
    entry = last(tonight)
    assert (entry.kind, entry.body["as_planned"], entry.body["proof"]) == ("service_stood", True, None)
    assert "No service is waiting to be closed." in done.work
    again = bo.open(f"/services/{DAY}/dinner/close")
    assert "closed already" in again.problems[0]


def typed(*rows: tuple[str, str, str]) -> dict[str, Any]:
    """Return who stood where as the form's fields."""
    names = ("cook", "station", "way")
    return {
        f"{name}-{number}": value for number, row in enumerate(rows) for name, value in zip(names, row, strict=True)
    }


def test_who_stood_elsewhere_is_typed_explained_and_signed(tonight: Kitchen, bo: Hands) -> None:
    """Dev, who is not cleared, stood there: the page asks why, keeps all that was typed, and the PIN signs it."""
    bo.open(f"/services/{DAY}/dinner/close")
    rows = typed(("dev", "pasta_room", "runs"), ("bo", "", "runs"))
    seen = bo.press("Close as written here", {"Guests": "64", "Your PIN or passphrase": PIN}, **rows)
    assert seen.status == 400
    assert "Dev Karim, Pasta room: " in seen.problems[0]
    why = seen.soup.select_one("#differed input[name^='why:dev']")
    assert why is not None
    chosen = [str(one["value"]) for one in seen.soup.select("#differed option[selected]")][:3]
    assert chosen == ["dev", "pasta_room", "runs"]
    fill = {"Your PIN or passphrase": PIN}
    bo.press("Close as written here", fill, **rows, **{str(why["name"]): "Bo burnt his hand."})
    entry = last(tonight)
    assert [(one["cook"], one["as"]) for one in entry.body["stood"]] == [("dev", "runs")]
    assert entry.body["disparities"][0]["reason"] == "Bo burnt his hand."
    assert (entry.body["guests"], entry.body["proof"]["how"]) == (64, "pin")


def test_where_no_plan_is_published_the_rows_begin_as_planned(planned: Kitchen, bo: Hands) -> None:
    """The rows of the shift file stand in the form, to be put right; there is no button to close it as planned."""
    assert planned.progress().nights.plans == ()
    seen = bo.open(f"/services/{DAY}/dinner/close")
    chosen = [str(one["value"]) for one in seen.soup.select("#differed option[selected]")]
    assert chosen[:6] == ["ana", "pasta_room", "runs", "bo", "pasta_room", "runs"]
    assert "Stood as planned" not in str(seen.soup)


def test_without_the_secret_nothing_that_differs_is_written(tonight: Kitchen, bo: Hands) -> None:
    """It is a signature; what was typed stays."""
    before = last(tonight).seq
    bo.open(f"/services/{DAY}/dinner/close")
    seen = bo.press("Close as written here", {"Guests": "64"}, **typed(("bo", "pasta_room", "runs")))
    assert seen.status == 400
    assert 'value="64"' in str(seen.soup)
    assert last(tonight).seq == before


@pytest.mark.parametrize("path", ["/services/close", f"/services/{DAY}/dinner/close"])
def test_a_cook_closes_nothing(ana: Hands, path: str) -> None:
    """Neither page is a cook's."""
    assert ana.open(path).status == 403


@pytest.mark.parametrize("path", ["/services/soon/dinner/close", f"/services/{DAY}/brunch/close"])
def test_there_is_no_page_for_a_service_there_is_not(bo: Hands, path: str) -> None:
    """A day that is none, a service that is none."""
    assert bo.open(path).status == 404


def test_a_manager_sets_a_service_on_the_days_ticked(kitchen: Kitchen, cleo: Hands) -> None:
    """A need that joins stations; setting the same weekday again takes the place of it."""
    cleo.open("/services")
    fill = {"Opens": "17:30", "Closes": "00:30", "Guests": "90", "Hands": "Pasta room + saute 1\nsaute 2"}
    cleo.press("Set this service", fill, service="dinner", weekdays=["2", "3"])
    body = last(kitchen).body
    assert [one["weekday"] for one in body["weekly"]] == [2, 3]
    assert body["weekly"][0]["needs"] == [
        {"stations": ["pasta_room", "saute"], "hands": 1},
        {"stations": ["saute"], "hands": 2},
    ]
    seen = cleo.press("Set this service", fill | {"Guests": "20"}, service="dinner", weekdays=["3"])
    assert [one["guests"] for one in last(kitchen).body["weekly"]] == [90, 20]
    assert "20 guests: Pasta room + Saut" in seen.work


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"hands": "grill"}, "“grill”: write stations, then how many hands, like “Pasta room 2”."),
        ({"hands": "fry 2"}, "there is no station “fry”"),
        ({"opens": "5pm"}, "“5pm” is no time. Write it like 17:30."),
        ({"weekdays": []}, "Tick at least one weekday."),
        ({"service": "brunch"}, "choose one from the list"),
        ({"since": "2026-11-01"}, "1 November 2026 is over"),
    ],
)
def test_a_service_typed_wrong_is_refused_and_stays_typed(
    kitchen: Kitchen, cleo: Hands, changes: dict[str, Any], words: str
) -> None:
    """With the value and the rule; nothing is written."""
    before = last(kitchen).seq
    cleo.open("/services")
    right: dict[str, Any] = {"service": "dinner", "weekdays": ["2"], "opens": "17:00", "closes": "23:00"}
    seen = cleo.press("Set this service", **{**right, "guests": "90", "hands": "saute 1", **changes})
    assert seen.status == 400
    assert words in " ".join(seen.problems)
    assert 'value="90"' in str(seen.soup)
    assert last(kitchen).seq == before


WEEK_ON = (TODAY + timedelta(days=7)).isoformat()


def test_a_week_without_a_plan_is_planned_like_the_last_in_one_tap(planned: Kitchen, cleo: Hands) -> None:
    """Who is left out is named with the reason before; the rows are changed by hand and then published."""
    plan(planned, ("dinner", "cleo", "saute"))
    seen = cleo.open(f"/plan?since={WEEK_ON}&until={WEEK_ON}")
    assert "1 day has no plan." in seen.work
    left = seen.work[seen.work.index("Not taken over:") : seen.work.index("Taken over, and trails:")]
    assert "Cleo Mbeki, Sauté, dinner on Tue 10 Nov 2026: A manager only, who works no station." in left
    assert "Ana Pardo, Pasta room, dinner on Tue 10 Nov 2026: Not cleared yet, and so no hand." in seen.work
    done = cleo.press("Plan like last week")
    assert "Planned like last week: 2 places." in done.work
    cleo.follow("Change: Tue 10 Nov 2026, dinner")
    rows = {"cook-0": "", "station-0": "", "cook-1": "bo", "station-1": "pasta_room"}
    seen = cleo.press("Save these places", None, **rows)
    assert "Ana Pardo" not in str(seen.soup.select_one("#publish .plan-lines"))
    cleo.press("Publish this plan")
    assert lines(planned) == {"bo": "runs"}


def test_who_is_away_is_ticked_and_not_taken_over(planned: Kitchen, cleo: Hands) -> None:
    """The tick stays in the address, keeps Bo out of what is taken over, and goes into the plan."""
    seen = cleo.open(f"/plan?since={WEEK_ON}&until={WEEK_ON}&away=bo")
    assert "Bo Lind, Pasta room, dinner on Tue 10 Nov 2026: Away that day." in seen.work
    cleo.press("Plan like last week")
    cleo.press("Publish this plan")
    assert lines(planned) == {"ana": "trails"}
    assert json.loads(last(planned).body["plan"])["away"] == [{"cook": "bo", "from": WEEK_ON, "to": WEEK_ON}]


def test_the_second_of_two_managers_is_told_and_nothing_is_lost(planned: Kitchen, cleo: Hands) -> None:
    """The day was planned meanwhile by somebody else: it stays so, and the page shows it."""
    cleo.open(f"/plan?since={WEEK_ON}&until={WEEK_ON}")
    plan(planned, ("dinner", "dev", "pasta_room"), on=TODAY + timedelta(days=7))
    seen = cleo.press("Plan like last week")
    assert seen.status == 400
    assert seen.problems == [
        "Since you looked, these days were planned: 1 place. Nothing was changed. Look at what is planned now."
    ]
    assert "Dev Karim trails at Pasta room" in seen.work
    assert [one.cook for one in planned.file.shifts.on(TODAY + timedelta(days=7))] == ["dev"]


def test_rows_chosen_by_hand_stay_when_they_are_refused(planned: Kitchen, cleo: Hands) -> None:
    """Ana twice: told why, with what is planned now and what was chosen."""
    cleo.open(f"/plan/{DAY}/dinner")
    rows = {"cook-0": "ana", "station-0": "pasta_room", "cook-1": "ana", "station-1": "saute"}
    seen = cleo.press("Save these places", None, **rows)
    assert seen.status == 400
    assert "Ana Pardo is there twice" in seen.problems[0]
    chosen = [str(one["value"]) for one in seen.soup.select("option[selected]")][:4]
    assert chosen == ["ana", "pasta_room", "ana", "saute"]
    assert "Bo Lind at Pasta room" in seen.work


@pytest.mark.parametrize("path", ["/plan/soon/dinner", f"/plan/{DAY}/brunch"])
def test_there_are_no_rows_of_a_service_there_is_not(cleo: Hands, path: str) -> None:
    """A day that is none, a service that is none."""
    assert cleo.open(path).status == 404
