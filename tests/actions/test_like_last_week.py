"""Planning days like the week before: who comes along, who is left out and why, and two managers at once."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date, timedelta

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.actions.test_planning import DINNER, publish, rows, set_week
from tests.printed import english
from trainer.actions.like_last_week import LastWeek, TakeOver, free_days, like_last_week, mark_of, take_over
from trainer.actions.outcome import Refused
from trainer.actions.plan_rows import ServiceRows, rows_of, set_rows
from trainer.kitchen.nights import Place
from trainer.store.shifts import PlannedShift

NEXT = TODAY + timedelta(days=7)


def seen_for(crew: Crew, days: Iterable[date] = (NEXT,), away: str = "") -> LastWeek:
    """Return what the week before would bring to some days."""
    return like_last_week(crew.k, days, ((away, NEXT, NEXT),) if away else (), TODAY)


def take(crew: Crew, found: LastWeek, by: str = "mara") -> int | Refused:
    """Take over what was seen."""
    return take_over(crew.k, by=by, wanted=TakeOver(found.days, (), found.mark), now=crew.now)


def there(crew: Crew, day: date = NEXT) -> set[tuple[str, str]]:
    """Return who is planned at which station on a day."""
    return {(one.cook, one.station) for one in crew.k.file.shifts.on(day)}


def test_the_same_weekday_is_taken_over_and_published_as_plans_are(crew: Crew) -> None:
    """From the plan published for that weekday, whatever the rows say since; who is not cleared trails."""
    rows(crew, (TODAY, "sous", "cold_side"), (TODAY, "ada", "cold_side"))
    saved(publish(crew, TODAY, TODAY))
    crew.k.file.shifts.remove(PlannedShift(TODAY, "dinner", "ada", "cold_side"))
    found = seen_for(crew)
    assert [(one.cook, one.runs) for one in found.places] == [("ada", False), ("sous", True)]
    assert [(one.place.cook, english(one.reason)) for one in found.trailing] == [
        ("ada", "Not cleared yet, and so no hand.")
    ]
    assert take(crew, found) == 2
    assert there(crew) == {("sous", "cold_side"), ("ada", "cold_side")}
    saved(publish(crew, NEXT, NEXT))


def test_each_who_is_left_out_is_named_with_the_reason(crew: Crew) -> None:
    """A leaver, somebody away, a minor at a machine, a service not held that day."""
    crew.joins("kid", "cook", born=date(2010, 1, 1))
    crew.joins("gone", "cook")
    everyone = [(TODAY, cook, "cold_side") for cook in ("gone", "ben", "sous")]
    rows(crew, *everyone, (TODAY, "kid", "pasta_room"))
    crew.k.file.shifts.add([PlannedShift(TODAY, "lunch", "ada", "cold_side")])
    crew.write("cook_left", "gone", {"reason": "x"})
    saved(set_week(crew, weekly=[DINNER | {"weekday": 1}]))
    found = seen_for(crew, away="ben")
    assert [one.cook for one in found.places] == ["sous"]
    why = {one.place.cook: english(one.reason) for one in found.left_out}
    assert why.keys() == {"gone", "ben", "kid", "ada"}
    assert why["gone"] == "Left the kitchen on 2 March 2026."
    assert why["ben"] == "Away that day."
    assert "Age: not 18 before 1 January 2028" in why["kid"]
    assert why["ada"] == "That service is not held that day."


def test_who_a_published_plan_says_is_away_is_left_out_too(crew: Crew) -> None:
    """The plan of this week says that Ben is away into the next one."""
    rows(crew, (TODAY, "sous", "cold_side"), (TODAY, "ben", "cold_side"))
    saved(publish(crew, TODAY, TODAY, away=(("ben", TODAY + timedelta(days=1), NEXT),)))
    assert [one.place.cook for one in seen_for(crew).left_out] == ["ben"]


def test_only_days_without_a_plan_are_offered(crew: Crew) -> None:
    """A day with rows, a day with a published plan and a day gone by are none."""
    rows(crew, (NEXT, "sous", "cold_side"), (TODAY, "sous", "cold_side"))
    saved(publish(crew, TODAY, TODAY))
    crew.k.file.shifts.remove(PlannedShift(TODAY, "dinner", "sous", "cold_side"))
    days = free_days(crew.k, TODAY - timedelta(days=2), NEXT, TODAY)
    assert days == tuple(TODAY + timedelta(days=number) for number in range(1, 7))


def test_a_second_manager_loses_nothing_and_is_told(crew: Crew) -> None:
    """Mara planned the day otherwise after Nils had looked; his press changes nothing. The same press twice is one."""
    rows(crew, (TODAY, "sous", "cold_side"))
    found = seen_for(crew)
    rows(crew, (NEXT, "ben", "grill"))
    words = "Since you looked, these days were planned: 1 place. Nothing was changed."
    assert english(refused(take(crew, found, by="nils")).reason) == words
    assert there(crew) == {("ben", "grill")}
    crew.k.file.shifts.remove(PlannedShift(NEXT, "dinner", "ben", "grill"))
    assert [take(crew, found), take(crew, found, by="nils")] == [1, 1]
    assert there(crew) == {("sous", "cold_side")}


def test_what_changed_since_it_was_shown_is_not_taken_over(crew: Crew) -> None:
    """Sous left after the list was shown: nothing is planned unseen. Nor by an assessor, nor for no day."""
    rows(crew, (TODAY, "sous", "cold_side"), (TODAY, "ada", "cold_side"))
    found = seen_for(crew)
    assert english(refused(take(crew, found, by="sous")).reason) == "Sous is no manager."
    crew.write("cook_left", "sous", {"reason": "x"})
    assert "the week before or the people have changed" in english(refused(take(crew, found)).reason)
    assert "Nothing was changed" in english(refused(take(crew, seen_for(crew, ()))).reason)
    assert there(crew) == set()


def test_of_two_stations_in_one_service_the_first_is_taken_over(crew: Crew) -> None:
    """A plan may have a cook hold two stations together; a row has one, and the other is named."""
    line = {"day": "2026-03-02", "service": "dinner", "cook": "sous", "as": "runs"}
    lines = [line | {"station": station} for station in ("cold_side", "grill")]
    body = {"from": "2026-03-02", "to": "2026-03-02", "plan": json.dumps({"lines": lines})}
    crew.write("plan_published", "book", {**body, "despite": [], "replaces": []})
    found = seen_for(crew)
    assert [one.station for one in found.places] == ["cold_side"]
    assert [one.place.station for one in found.left_out] == ["grill"]


def test_a_plan_that_changed_since_it_was_looked_at_is_not_published(crew: Crew) -> None:
    """Two managers at the same page: the second is told, and the first one's plan stands."""
    rows(crew, (TODAY, "sous", "cold_side"))
    first = saved(publish(crew, TODAY, TODAY))
    no = refused(publish(crew, TODAY, TODAY, replaces=True, seen="another"))
    assert english(no.reason) == "Since you looked, the plan of these days has changed. Nothing was published."
    plan = crew.k.progress().nights.plan(TODAY, TODAY, TODAY)
    assert plan is not None
    assert plan.entry == first.id


def change(crew: Crew, *new: tuple[str, str], seen: str = "", by: str = "mara", day: date = NEXT) -> Refused | None:
    """Put rows in place of those of a dinner."""
    return set_rows(crew.k, by=by, wanted=ServiceRows(day, "dinner", new, seen or mark_of(())), now=crew.now)


def test_a_service_is_planned_by_hand(crew: Crew) -> None:
    """Rows are put in, changed and taken out; who saves second is told, and loses nothing of the first."""
    assert change(crew, ("sous", "cold_side"), ("ada", "cold_side")) is None
    seen = mark_of(rows_of(crew.k, NEXT, "dinner"))
    assert change(crew, ("sous", "grill"), seen=seen) is None
    assert there(crew) == {("sous", "grill")}
    no = refused(change(crew, ("ben", "grill"), seen=seen, by="nils"))
    assert english(no.reason) == "Since you looked, this service was planned otherwise. Nothing was changed."
    assert there(crew) == {("sous", "grill")}
    assert change(crew, ("sous", "grill"), seen=seen) is None


def test_rows_that_cannot_be_are_refused_with_the_rule(crew: Crew) -> None:
    """Nothing is changed."""
    over = "1 March 2026 is over. A plan is published for today and days to come."
    for no, words in (
        (change(crew, ("sous", "grill"), day=TODAY - timedelta(days=1)), over),
        (change(crew, ("ada", "grill"), ("ada", "cold_side")), "Ada is there twice: at one service a cook has one"),
        (change(crew, ("ada", "bar")), "There is no station “bar”."),
        (change(crew, ("ghost", "grill")), "ghost is not on the roster."),
        (change(crew, ("ada", "grill"), by="sous"), "Sous is no manager."),
    ):
        assert words in english(refused(no).reason)
    assert there(crew) == set()


def test_the_mark_is_of_who_is_where_and_nothing_else(crew: Crew) -> None:
    """Whether somebody runs the station or trails is judged anew when it counts."""
    place = Place(NEXT, "dinner", "ada", "grill", runs=True)
    assert mark_of([place]) == mark_of([place._replace(runs=False)]) != mark_of([place._replace(station="bar")])
