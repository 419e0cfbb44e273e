"""The plan, the services of the week and closing a service, as a manager and an assessor meet them."""

from __future__ import annotations

import json
from datetime import date, timedelta
from typing import Any

import pytest

from tests.web.conftest import NOON, PIN, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear
from tests.web.test_board import TODAY
from tests.web.test_night import plan
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.planning import PlanWanted, publish_plan, set_services
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


def test_places_left_out_stand_together_by_person_and_reason(planned: Kitchen, cleo: Hands) -> None:
    """Two nights of one person for one reason are one line, with both."""
    plan(planned, ("dinner", "cleo", "saute"))
    plan(planned, ("dinner", "cleo", "saute"), on=TODAY + timedelta(days=1))
    seen = cleo.open(f"/plan?since={TODAY}&until={TODAY + timedelta(days=1)}")
    (told,) = [one.get_text() for one in seen.soup.select(".not-to-stand li")]
    both = "Sauté, dinner on Tue 3 Nov 2026; Sauté, dinner on Wed 4 Nov 2026"
    assert told == f"Cleo Mbeki, {both}: A manager only, who works no station."


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


def changes(cleo: Hands, fill: dict[str, str] | None = None, **more: Any) -> list[str]:
    """Fill in a service, and return what the page says it would change."""
    return cleo.press("Show what changes", fill, **more).items("ul[role=status] li")


def save_services(cleo: Hands, fill: dict[str, str] | None = None, **more: Any) -> Seen:
    """Save the change that is shown; what a page keeps as it was typed is filled in again."""
    return cleo.press("Save this change", fill, **more)


def set_service(cleo: Hands, fill: dict[str, str] | None = None, **more: Any) -> Seen:
    """Look at a change of the services, and save it."""
    changes(cleo, fill, **more)
    return save_services(cleo, fill, **more)


def test_a_manager_sets_a_service_on_the_days_ticked(kitchen: Kitchen, cleo: Hands) -> None:
    """What it does is shown first. A need joins stations; setting the same weekday again takes the place of it."""
    cleo.open("/services")
    fill = {"Opens": "17:30", "Closes": "00:30", "Guests": "90", "Hands": "Pasta room + saute 1\nsaute 2"}
    changed = changes(cleo, fill, service="dinner", weekdays=["2", "3"])
    assert "New: Tuesdays, dinner 17:30 to 00:30, 90 guests: Pasta room + Sauté 1, Sauté 2" in changed
    assert not kitchen.file.book.of_kind("services_set")
    save_services(cleo, fill, service="dinner", weekdays=["2", "3"])
    body = last(kitchen).body
    assert [one["weekday"] for one in body["weekly"]] == [2, 3]
    assert body["weekly"][0]["needs"] == [
        {"stations": ["pasta_room", "saute"], "hands": 1},
        {"stations": ["saute"], "hands": 2},
    ]
    cleo.open("/services")
    seen = set_service(cleo, fill | {"Guests": "20"}, service="dinner", weekdays=["3"])
    assert [one["guests"] for one in last(kitchen).body["weekly"]] == [90, 20]
    assert "20 guests: Pasta room + Saut" in seen.work


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"hands": "grill"}, "“grill”: write stations, then how many hands, like “Pasta room 2”."),
        ({"hands": "fry 2"}, "There is no station “fry”. There are: Pasta room"),
        ({"opens": "5pm"}, "“5pm” is no time. Write it like 17:30."),
        ({"weekdays": []}, "Tick at least one weekday."),
        ({"service": "brunch"}, "choose one from the list"),
        ({"since": "2026-11-01"}, "1 November 2026 is over"),
        ({"closes": ""}, "Write when it closes."),
        ({"closes": "16:30"}, "It opens at 17:00 and would close at 16:30. One that goes on past midnight closes by"),
        ({"held": "off"}, "One service has to stay: this would leave none at all."),
    ],
)
def test_a_service_typed_wrong_is_refused_and_stays_typed(
    kitchen: Kitchen, cleo: Hands, changes: dict[str, Any], words: str
) -> None:
    """With the value and the rule; nothing is written."""
    before = last(kitchen).seq
    cleo.open("/services")
    right: dict[str, Any] = {"service": "dinner", "weekdays": ["2"], "opens": "17:00", "closes": "23:00"}
    seen = cleo.press("Show what changes", **{**right, "guests": "90", "hands": "saute 1", **changes})
    assert seen.status == 400
    assert words in " ".join(seen.problems)
    assert 'value="90"' in str(seen.soup)
    assert last(kitchen).seq == before


DINNER = {"Opens": "17:30", "Closes": "23:00", "Guests": "90", "Hands": "Pasta room 1"}


def test_what_no_longer_holds_is_told_before_it_counts(tonight: Kitchen, cleo: Hands) -> None:
    """Tonight holds with Bo at one station; with two hands there it would not, and the page says why.

    The page keeps nothing of it until the change that was shown is saved.
    """
    cleo.open("/services")
    told = changes(cleo, DINNER | {"Hands": "Pasta room 2"}, service="dinner", weekdays=["2"])
    assert any(line.startswith("Tue 3 Nov 2026: would no longer hold. Dinner: 1 hand short.") for line in told)
    assert not tonight.file.book.of_kind("services_set")
    cleo.open("/services")
    told = changes(cleo, DINNER, service="dinner", weekdays=["2"])
    assert told[-1] == "No planned service stops holding, and no plan names one that goes."


def test_a_plan_that_names_a_service_that_goes_is_told(tonight: Kitchen, cleo: Hands) -> None:
    """With its entry and its cooks; so for the weekday, and for one day alone."""
    plans = tonight.file.book.of_kind("plan_published")[0].seq
    cleo.open("/services")
    told = changes(cleo, DINNER, service="dinner", weekdays=["3"])
    gone = f"Tue 3 Nov 2026, dinner: not held any more. The plan of entry {plans} names it, with Ana Pardo and Bo Lind."
    assert gone in told
    save_services(cleo, DINNER, service="dinner", weekdays=["3"])
    cleo.open("/services")
    assert gone not in changes(cleo, DINNER, service="dinner", weekdays=["2"])
    save_services(cleo, DINNER, service="dinner", weekdays=["2"])
    cleo.open("/services/one-day")
    assert gone in changes(cleo, {"Day": DAY}, service="dinner", how="closed")
    done = save_services(cleo, {"Day": DAY}, service="dinner", how="closed")
    assert last(tonight).body["days"] == [{"day": DAY, "service": "dinner", "closed": True}]
    assert "Tue 3 Nov 2026, dinner: closed" in done.work


def test_one_day_has_hands_of_its_own_and_is_like_its_weekday_again(tonight: Kitchen, cleo: Hands) -> None:
    """Both are entries; the second takes the first away."""
    cleo.open("/services/one-day")
    early = cleo.press("Show what changes", {"Day": DAY}, service="dinner", how="closed")
    assert early.problems == ["No services are set yet. Set the weekdays first."]
    cleo.open("/services")
    set_service(cleo, DINNER, service="dinner", weekdays=["2"])
    cleo.open("/services/one-day")
    fill = {"Day": DAY, "Hands": "Pasta room + Sauté 1"}
    set_service(cleo, fill, service="dinner", how="hands")
    assert last(tonight).body["days"][0]["needs"] == [{"stations": ["pasta_room", "saute"], "hands": 1}]
    cleo.open(f"/services/one-day?service=dinner&day={DAY}")
    assert cleo.page.field("Hands").get_text().strip() == "Pasta room + Sauté 1"
    told = changes(cleo, fill, service="dinner", how="usual")
    assert "No longer: Tue 3 Nov 2026, dinner: Pasta room + Sauté 1" in told
    save_services(cleo, fill, service="dinner", how="usual")
    assert last(tonight).body["days"] == []


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (
            {"Day": "2026-11-01", "Hands": "saute 1"},
            "1 November 2026 is over: services are set from today or a later day on.",
        ),
        ({"Day": "soon", "Hands": "saute 1"}, "“soon” is not a day."),
        ({"Day": DAY, "Hands": "fry 1"}, "There is no station “fry”."),
        ({"Day": DAY, "Hands": ""}, "Write one line a need."),
    ],
)
def test_a_day_typed_wrong_is_refused_and_stays_typed(
    kitchen: Kitchen, cleo: Hands, typed: dict[str, str], words: str
) -> None:
    """With the value and the rule; nothing is written."""
    cleo.open("/services")
    set_service(cleo, DINNER, service="dinner", weekdays=["2"])
    before = last(kitchen).seq
    cleo.open("/services/one-day")
    seen = cleo.press("Show what changes", typed, service="dinner", how="hands")
    assert seen.status == 400
    assert words in " ".join(seen.problems)
    assert typed["Day"] in str(seen.soup)
    assert last(kitchen).seq == before


def test_services_that_overlap_are_refused(kitchen: Kitchen, cleo: Hands) -> None:
    """Nobody stands at two at once: not at lunch and dinner, nor at a dinner that ends on the next day's breakfast."""
    cleo.open("/services")
    set_service(cleo, DINNER | {"Closes": "03:30"}, service="dinner", weekdays=["7"])
    before = last(kitchen).seq
    for service, day, opens, closes, words in (
        ("lunch", "7", "12:00", "18:00", "Sundays: lunch, 12:00 to 18:00, and dinner, 17:30 to 03:30, overlap."),
        (
            "breakfast",
            "1",
            "03:00",
            "10:00",
            "Mondays: breakfast, 03:00 to 10:00, and dinner, 17:30 to 03:30, overlap.",
        ),
    ):
        cleo.open("/services")
        fill = DINNER | {"Opens": opens, "Closes": closes}
        seen = cleo.press("Show what changes", fill, service=service, weekdays=[day])
        assert words in " ".join(seen.problems)
        assert seen.field("Opens")["value"] == opens
    assert last(kitchen).seq == before


def test_two_managers_do_not_save_over_each_other(kitchen: Kitchen, cleo: Hands) -> None:
    """What was shown is saved, or nothing: a week set by another in between is looked at first."""
    cleo.open("/services")
    changes(cleo, DINNER, service="dinner", weekdays=["2"])
    hours = {"weekday": 3, "service": "lunch", "opens": "11:00", "closes": "15:00", "guests": 40, "needs": []}
    other = {"since": DAY, "weekly": [hours], "days": []}
    set_services(kitchen, by="cleo", told=other, now=NOON, key="other")
    seen = save_services(cleo, DINNER, service="dinner", weekdays=["2"])
    assert seen.problems == ["This is not the change that was shown. Look at it, then save it."]
    save_services(cleo, DINNER, service="dinner", weekdays=["2"])
    assert [one["service"] for one in last(kitchen).body["weekly"]] == ["dinner", "lunch"]


LATER = "2026-11-10"


def test_a_week_set_for_later_stays_and_the_change_says_so(kitchen: Kitchen, cleo: Hands) -> None:
    """The change counts to the day before, and names what is set otherwise from then on; nothing is chosen silently."""
    cleo.open("/services")
    set_service(cleo, DINNER, service="dinner", weekdays=["2", "3"])
    cleo.open("/services")
    later = DINNER | {"Guests": "120", "From": LATER}
    set_service(cleo, later, service="dinner", weekdays=["2"])
    cleo.open("/services")
    told = changes(cleo, DINNER | {"Guests": "20"}, service="dinner", weekdays=["2"])
    assert "It counts to Mon 9 Nov 2026: the week set from Tue 10 Nov 2026 on stays as it is." in told
    assert "From Tue 10 Nov 2026 on, as set before: Tuesdays, dinner 17:30 to 23:00, 120 guests: Pasta room 1" in told
    assert not any("Wednesdays" in line for line in told)
    save_services(cleo, DINNER | {"Guests": "20"}, service="dinner", weekdays=["2"])
    guests = {}
    for day in (TODAY, TODAY + timedelta(days=7)):
        week = kitchen.progress().nights.week(day, day, day)
        assert week is not None
        guests[day.isoformat()] = [one.guests for one in week.weekly]
    assert guests == {DAY: [20, 90], LATER: [120, 90]}
    seen = cleo.open("/services")
    assert [head.get_text() for head in seen.soup.select("main h2")][:1] == ["From Tue 10 Nov 2026 on"]
    (link,) = [one for one in seen.soup.select("main li a") if "120 guests" in one.get_text()]
    seen = cleo.open(str(link["href"]))
    assert (seen.field("Guests")["value"], seen.field("From")["value"]) == ("120", LATER)


def test_a_service_set_for_later_alone_is_told_where_it_changes(kitchen: Kitchen, cleo: Hands) -> None:
    """Taken off from a later day on; what is set the same there is not told again."""
    cleo.open("/services")
    set_service(cleo, DINNER, service="dinner", weekdays=["2", "3"])
    cleo.open("/services")
    set_service(cleo, {"From": LATER}, service="dinner", weekdays=["2"], held="off")
    assert "No longer: Tuesdays, dinner" in cleo.open("/services").work
    told = changes(cleo, DINNER | {"Guests": "20"}, service="dinner", weekdays=["2"])
    line = "Tuesdays, dinner 17:30 to 23:00, 20 guests: Pasta room 1"
    assert f"From Tue 10 Nov 2026 on not held, as set before: {line}" in told
    cleo.open("/services")
    told = changes(cleo, DINNER | {"From": LATER}, service="dinner", weekdays=["2"])
    assert not any("It counts to" in line for line in told)
    assert kitchen.file.book.of_kind("services_set")[-1].body["since"] == LATER


def test_stations_nobody_is_cleared_for_are_named_with_the_day_the_change_counts_from(cleo: Hands) -> None:
    """By then as things stand: somebody may be cleared today, and no longer on that day."""
    cleo.open("/services")
    fill = DINNER | {"Hands": "Pasta room 1\nSauté 1", "From": LATER}
    told = changes(cleo, fill, service="dinner", weekdays=["2"])
    assert "On Tue 10 Nov 2026 nobody is cleared for: Pasta room and Sauté." in told


def test_a_day_of_a_week_set_for_later_is_changed_in_that_week(kitchen: Kitchen, cleo: Hands) -> None:
    """The week before it stays as it is, and today's with it."""
    cleo.open("/services")
    set_service(cleo, DINNER, service="dinner", weekdays=["2"])
    cleo.open("/services")
    set_service(cleo, DINNER | {"Guests": "120", "From": LATER}, service="dinner", weekdays=["2"])
    cleo.open("/services/one-day")
    set_service(cleo, {"Day": LATER}, service="dinner", how="closed")
    body = last(kitchen).body
    assert (body["since"], body["weekly"][0]["guests"]) == (LATER, 120)
    assert body["days"] == [{"day": LATER, "service": "dinner", "closed": True}]


def test_a_line_of_the_week_is_changed_from_where_it_stands(kitchen: Kitchen, cleo: Hands) -> None:
    """What is set is filled in, with every weekday that has it just so."""
    cleo.open("/services")
    set_service(cleo, DINNER, service="dinner", weekdays=["2", "3"])
    seen = cleo.open("/services?service=dinner&weekday=3")
    assert seen.field("Opens")["value"] == "17:30"
    assert [one["value"] for one in seen.soup.select("input[name=weekdays][checked]")] == ["2", "3"]
    assert cleo.press("Show what changes", service="dinner", weekdays=["2", "3"], hands="Pasta room 1").problems == [
        "This is set already."
    ]


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


def test_accepting_a_line_of_the_training_plan_opens_its_path_in_one_tap(planned: Kitchen, cleo: Hands) -> None:
    """The day is filled in; the line then reads as accepted, and its button is gone. Pressed twice it is one path."""
    seen = cleo.open("/training-plan?weekly=30")
    (button,) = seen.soup.select("button[form^=accept]")
    words = " ".join(button.get_text().split())
    cook = words.partition(": ")[2].partition(": ")[2].partition(",")[0]
    first = cleo.page
    done = cleo.press(words)
    path = last(planned)
    assert path.kind == "path_opened"
    assert planned.people()[path.cook].name == cook
    assert "Accepted: the path is open, ready by Tue 17 Nov 2026." in done.work  # two weeks at the least
    assert not done.soup.select("button[form^=accept]")
    cleo.page = first
    cleo.press(words)
    assert len(planned.file.book.of_kind("path_opened")) == 1


def test_a_line_waits_until_there_is_time_to_watch_it(planned: Kitchen, cleo: Hands) -> None:
    """With few minutes a week for watching the path is given a later day; what is no number is passed over."""
    days = {}
    for weekly in ("1", "600", "many"):
        seen = cleo.open(f"/training-plan?weekly={weekly}")
        days[weekly] = date.fromisoformat(str(seen.soup.select("input[name=by_day]")[0]["value"]))
    assert days["1"] > days["600"] <= days["many"]
    assert days["1"] - TODAY >= timedelta(weeks=15)  # a practical takes 15 minutes (the house's own number)
    assert "there is time for it by" in cleo.page.work


def test_there_is_no_accepting_what_is_no_line(planned: Kitchen, cleo: Hands) -> None:
    """A day that is none; nothing is written."""
    before = last(planned).seq
    cleo.open("/training-plan")
    words = " ".join(cleo.page.soup.select("button[form^=accept]")[0].get_text().split())
    assert cleo.press(words, by_day="soon").status == 404
    assert last(planned).seq == before
