"""Setting the services and publishing the plan: what is sealed, what is left out, what is refused."""

from __future__ import annotations

import json
from datetime import date, timedelta
from typing import Any

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.covering import planned_on, service_to_show
from trainer.actions.outcome import Outcome
from trainer.actions.planning import PlanWanted, plan_draft, publish_plan, set_services
from trainer.kitchen.book import LOCAL, THE_BOOK, Entry
from trainer.store.shifts import PlannedShift

TOMORROW = TODAY + timedelta(days=1)
DINNER = {"weekday": 2, "service": "dinner", "opens": "17:00", "closes": "23:00", "guests": 80, "needs": []}


def rows(crew: Crew, *planned: tuple[date, str, str]) -> None:
    """Plan cooks at dinner on some days, as a shift file does."""
    crew.k.file.shifts.add(PlannedShift(day, "dinner", cook, station) for day, cook, station in planned)


def publish(crew: Crew, since: date = TODAY, until: date = TOMORROW, by: str = "mara", **more: Any) -> Outcome:
    """Publish the plan of some days."""
    return publish_plan(crew.k, by=by, wanted=PlanWanted(since, until, **more), now=crew.now, key=crew.key())


def lines(entry: Entry) -> list[dict[str, str]]:
    """Return the lines of a plan."""
    found: list[dict[str, str]] = json.loads(entry.body["plan"])["lines"]
    return found


def test_a_plan_is_published_from_the_planned_rows(crew: Crew) -> None:
    """Sous is cleared there and runs the station; Ada is not, and trails."""
    rows(
        crew, (TODAY, "sous", "cold_side"), (TODAY, "ada", "cold_side"), (TOMORROW + timedelta(days=1), "ben", "grill")
    )
    entry = saved(publish(crew, in_charge="nils", away=(("ben", TODAY, TODAY),)))
    assert (entry.kind, entry.cook, entry.by) == ("plan_published", THE_BOOK, "mara")
    assert {name: entry.body[name] for name in ("from", "to", "despite", "replaces")} == {
        "from": "2026-03-02",
        "to": "2026-03-03",
        "despite": [],
        "replaces": [],
    }
    dinner = {"day": "2026-03-02", "service": "dinner", "station": "cold_side"}
    assert lines(entry) == [dinner | {"cook": "ada", "as": "trails"}, dinner | {"cook": "sous", "as": "runs"}]
    told = json.loads(entry.body["plan"])
    assert told["in_charge"] == [{"day": "2026-03-02", "cook": "nils"}, {"day": "2026-03-03", "cook": "nils"}]
    assert told["away"] == [{"cook": "ben", "from": "2026-03-02", "to": "2026-03-02"}]


def test_what_was_published_counts_whatever_the_rows_say_later(crew: Crew) -> None:
    """A shift file taken in afterwards changes the rows; the plan stands until another is published."""
    rows(crew, (TODAY, "sous", "cold_side"))
    assert [one.cook for one in planned_on(crew.k, TODAY)] == ["sous"]
    saved(publish(crew))
    rows(crew, (TODAY, "ada", "cold_side"))
    assert [(one.cook, one.station) for one in planned_on(crew.k, TODAY)] == [("sous", "cold_side")]
    shown, _ = service_to_show(crew.k, TODAY, crew.now)
    assert shown is not None
    assert shown.can.keys() == {"sous"}
    saved(publish(crew, replaces=True))
    assert {(one.cook, one.station) for one in planned_on(crew.k, TODAY)} == {
        ("ada", "cold_side"),
        ("sous", "cold_side"),
    }


def test_a_plan_of_the_same_days_is_replaced_only_where_that_is_said(crew: Crew) -> None:
    """The entry of the plan before is named, in the refusal and then in the body."""
    rows(crew, (TODAY, "sous", "cold_side"), (TOMORROW, "sous", "cold_side"))
    first = saved(publish(crew))
    no = refused(publish(crew, TOMORROW, TOMORROW))
    assert english(no.reason) == f"Entry {first.seq} plans 2 March 2026 to 3 March 2026 already."
    assert no.field == "replaces"
    second = saved(publish(crew, TOMORROW, TOMORROW, replaces=True))
    assert second.body["replaces"] == [first.id]
    assert len(planned_on(crew.k, TODAY)) == 1  # the other day of the first plan stands


def test_a_reason_lets_somebody_who_is_not_cleared_run_a_station(crew: Crew) -> None:
    """It is kept apart from the plan, as a text that can be dropped; of anybody else it is refused."""
    rows(crew, (TODAY, "ada", "cold_side"), (TODAY, "sous", "cold_side"))
    entry = saved(publish(crew, despite={(TODAY, "dinner", "ada"): " Sous stands behind her. "}))
    (why,) = entry.body["despite"]
    assert (why["cook"], why["station"], why["reason"]) == ("ada", "cold_side", "Sous stands behind her.")
    assert [one["as"] for one in lines(entry)] == ["runs", "runs"]
    no = refused(publish(crew, replaces=True, despite={(TODAY, "dinner", "sous"): "x"}))
    assert english(no.reason) == "Sous, dinner on 2 March 2026: no planned place there needs a reason."


def test_who_may_not_stand_there_is_left_out_and_named(crew: Crew) -> None:
    """A minor at a machine, somebody who left, a service that is not held, somebody away."""
    crew.joins("kid", "cook", born=date(2010, 1, 1))
    crew.joins("gone", "cook")
    crew.write("cook_left", "gone", {"reason": "x"})
    rows(crew, (TODAY, "kid", "pasta_room"), (TODAY, "gone", "cold_side"), (TOMORROW, "ben", "cold_side"))
    crew.k.file.shifts.add([PlannedShift(TOMORROW, "lunch", "sous", "cold_side")])
    saved(set_week(crew, weekly=[DINNER | {"weekday": day} for day in range(1, 8)]))
    draft = plan_draft(crew.k, PlanWanted(TODAY, TOMORROW, away=(("ben", TODAY, TOMORROW),)), TODAY)
    assert draft.places == ()
    found = {one.place.cook: english(one.reason) for one in draft.left_out}
    assert found.keys() == {"kid", "gone", "sous", "ben"}
    assert "Age: not 18 before 1 January 2028" in found["kid"]
    assert found["gone"] == "Left the kitchen on 2 March 2026."
    assert found["sous"] == "That service is not held that day."
    assert found["ben"] == "Away that day."
    assert "Nobody is planned" in english(refused(publish(crew, away=(("ben", TODAY, TOMORROW),))).reason)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"since": TODAY - timedelta(days=1)}, "1 March 2026 is over. A plan is published for today and days to come."),
        ({"since": TOMORROW, "until": TODAY}, "2 March 2026 is before 3 March 2026."),
        ({"until": TODAY + timedelta(days=35)}, "36 days: a plan has 35 at most."),
        ({"since": TOMORROW}, "Nobody is planned from 3 March 2026 to 3 March 2026."),
        ({"by": "sous"}, "Sous is no manager."),
        ({"in_charge": "ghost"}, "ghost is not on the roster."),
        ({"away": (("ghost", TODAY, TODAY),)}, "ghost is not on the roster."),
        ({"away": (("ada", TOMORROW, TODAY),)}, "2 March 2026 is before 3 March 2026."),
        ({"despite": {(TODAY, "dinner", "ada"): "x" * 501}}, "The reason has 501 characters; it may have 500."),
    ],
)
def test_what_cannot_be_published_is_refused_with_the_rule(crew: Crew, more: dict[str, Any], words: str) -> None:
    """Nothing is written."""
    rows(crew, (TODAY, "ada", "cold_side"))
    assert english(refused(publish(crew, **more)).reason) == words
    assert crew.entries("plan_published") == []


def set_week(crew: Crew, by: str = "mara", **more: Any) -> Outcome:
    """Set the services of the week from today on."""
    told = {"since": "2026-03-02", "weekly": [DINNER], "days": [], **more}
    return set_services(crew.k, by=by, told=told, now=crew.now, key=crew.key())


def test_services_are_set_by_a_manager_or_on_the_machine(crew: Crew) -> None:
    """The body is what was typed; the last one set counts from its day on."""
    entry = saved(set_week(crew))
    assert entry.body == {"since": "2026-03-02", "weekly": [DINNER], "days": []}
    saved(set_week(crew, by=LOCAL, since="2026-03-09", weekly=[]))
    nights = crew.k.progress().nights
    assert [len(week.weekly) for day in (TODAY, date(2026, 3, 9)) if (week := nights.week(day, day, day))] == [1, 0]


def test_a_week_set_for_later_stays_when_the_services_change_sooner(crew: Crew) -> None:
    """What is set from today on counts to the day before, and each later week as it was set; sent twice it is once."""
    weeks = {f"2026-03-{day:02}": [DINNER | {"guests": day}] for day in (9, 16)}
    for since, weekly in weeks.items():
        saved(set_week(crew, since=since, weekly=weekly))
    hidden: dict[str, Any] = {"since": "2026-03-20", "weekly": [DINNER | {"guests": 20}], "days": []}
    saved(set_week(crew, **hidden))
    saved(set_services(crew.k, by="mara", told={**hidden, "since": "2026-03-16"}, now=crew.now, key="over"))
    told = {"since": "2026-03-02", "weekly": [DINNER | {"guests": 2}], "days": []}
    for _ in range(2):
        assert saved(set_services(crew.k, by="mara", told=told, now=crew.now, key="now")).body == told
    days = {TODAY: 2, date(2026, 3, 8): 2, date(2026, 3, 9): 9, date(2026, 3, 16): 20, date(2026, 3, 20): 20}
    found = {day: crew.k.progress().nights.week(day, day, day) for day in days}
    assert {day: week.weekly[0].guests for day, week in found.items() if week} == days
    assert [entry.body["since"][-2:] for entry in crew.entries("services_set")] == [
        *("09", "16", "20"),
        *("16", "20"),
        *("02", "09", "16", "20"),
    ]


def test_voiding_a_week_entered_again_lets_the_sooner_one_count_on(crew: Crew) -> None:
    """Without it the last one set before counts, as it always has."""
    saved(set_week(crew, since="2026-03-09", weekly=[DINNER | {"guests": 9}]))
    saved(set_week(crew, weekly=[DINNER | {"guests": 2}]))
    again = crew.entries("services_set")[-1]
    assert again.body["since"] == "2026-03-09"
    crew.write("entry_voided", THE_BOOK, {"entry": again.id, "reason": "x", "counts": "never"})
    day = date(2026, 3, 9)
    week = crew.k.progress().nights.week(day, day, day)
    assert week is not None
    assert week.weekly[0].guests == 2


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"by": "sous"}, "Sous is no manager."),
        ({"since": "2026-03-01"}, "1 March 2026 is over: services are set from today or a later day on."),
        (
            {"weekly": [DINNER | {"service": "brunch"}]},
            "weekly[0].service: “brunch”. There are: breakfast, lunch, dinner.",
        ),
    ],
)
def test_services_set_wrongly_are_refused(crew: Crew, more: dict[str, Any], words: str) -> None:
    """With the value and the rule."""
    assert english(refused(set_week(crew, **more)).reason) == words
