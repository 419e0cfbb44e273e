"""The sous chef's desk: the line tonight, swaps, who can be watched, shifts signed as a list, what I signed, whom to
talk to.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import pytest

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import ask, clear, sign, study, write
from tests.web.test_board import TODAY
from tests.web.test_night import clear_at_the_saute, plan
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.actions.planning import PlanWanted, publish_plan

YESTERDAY = TODAY - timedelta(days=1)


def line(page: Seen) -> list[str]:
    """Return the line as it is read, station by station."""
    return [" ".join(row.get_text(" ").split()) for row in page.soup.select(".line-rows > div")]


def band(page: Seen) -> str:
    """Return what stands over the line."""
    found = page.soup.select_one(".line-band")
    return found.get_text() if found else ""


def publish(k: Kitchen, clock: Clock, on: date = TODAY, in_charge: str = "bo") -> None:
    """Publish the planned rows of a day, with somebody in charge."""
    wanted = PlanWanted(on, on, in_charge)
    assert isinstance(publish_plan(k, by="cleo", wanted=wanted, now=clock(), key=f"plan-{on}"), Saved)


@pytest.fixture
def crossed(kitchen: Kitchen, clock: Clock) -> Kitchen:
    """Return a kitchen whose dinner is planned the wrong way round, with Bo in charge."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "ana")
    plan(kitchen, ("dinner", "ana", "pasta_room"), ("dinner", "bo", "saute"))
    publish(kitchen, clock)
    return kitchen


def test_the_desk_opens_on_the_line_tonight(bo: Hands, crossed: Kitchen) -> None:
    """Who is planned where, on paper since it holds with one swap, the swap under it, and who is in charge."""
    assert crossed
    page = bo.open("/")
    assert page.path == "/ready"
    assert page.heading == "Dinner, Tue 3 Nov"
    assert "You are in charge." in page.work
    assert band(page) == "Holds with 1 swap"
    assert not page.soup.select(".line-rows .gap")
    assert line(page) == ["Pasta room Ana, learning", "Sauté Bo, learning"]
    assert "Ana and Bo swap. Ana is cleared for Sauté" in page.work


def test_a_station_without_a_possible_hand_is_black_in_its_place(bo: Hands, kitchen: Kitchen) -> None:
    """Nobody on is cleared for the sauté: it says so, who is on, and who can come."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "dev")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "saute"))
    page = bo.open("/ready")
    (gap,) = page.soup.select(".line-rows .gap")
    assert " ".join(gap.get_text(" ").split()) == "Sauté No one cleared on, not cleared: Ana"
    assert line(page)[0] == "Pasta room Bo"
    assert "Cleared and not on: Dev." in page.work
    assert band(page) == ""


def test_a_hand_short_is_said_over_the_line_with_its_reason(bo: Hands, kitchen: Kitchen) -> None:
    """Bo alone is cleared, for both."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "saute"))
    page = bo.open("/ready")
    assert band(page) == "1 hand short"
    assert "Pasta room and Sauté need 2 hands; of those on only Bo is cleared there." in page.work


def test_with_no_plan_it_says_who_could(bo: Hands, kitchen: Kitchen) -> None:
    """How many are cleared for each station, by name where they are few."""
    clear(kitchen, "bo")
    page = bo.open("/ready")
    assert line(page) == ["Pasta room 1 cleared Bo", "Sauté No one cleared"]
    assert "This is who could stand where" in page.work


def test_the_person_in_charge_makes_the_swap_in_two_presses(
    bo: Hands, cleo: Hands, ana: Hands, crossed: Kitchen
) -> None:
    """The line after it is shown first; then it is the plan, the manager reads who did it, Ana where she stands."""
    bo.open("/ready")
    page = bo.follow("See 1 swap")
    assert line(page) == ["Pasta room Bo, from Sauté", "Sauté Ana, from Pasta room"]
    assert "Every station has its hand" in page.work
    page = bo.press("Make this swap")
    assert page.path == "/ready"
    assert (band(page), line(page)) == ("Holds as planned", ["Pasta room Bo", "Sauté Ana"])
    plans = crossed.file.book.of_kind("plan_published")
    assert (plans[-1].by, plans[-1].body["replaces"]) == ("bo", [plans[0].id])
    assert "dinner: Ana to Sauté, Bo to Pasta room. Changed by Bo, 12:0" in cleo.open("/board").work
    assert "dinner today: you stand at Sauté, not Pasta room. Bo Lind changed it." in ana.open("/rail").work


def test_somebody_not_in_charge_is_told_who_is(sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock) -> None:
    """An assessor sees the line after the swap, and no button for it."""
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "ana")
    plan(kitchen, ("dinner", "ana", "pasta_room"), ("dinner", "bo", "saute"))
    publish(kitchen, clock, in_charge="dev")
    page = sign_in("bo").open(f"/swaps/{TODAY}/dinner")
    assert "You are not in charge on 3 November 2026. Dev Karim is in charge and can do it, or a manager." in page.work
    assert not page.soup.select("form#swaps")


def test_a_manager_makes_it_for_a_day_to_come_too(cleo: Hands, bo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """The person in charge changes the line on the day itself only."""
    tomorrow = TODAY + timedelta(days=1)
    clear(kitchen, "bo")
    clear_at_the_saute(kitchen, "ana")
    plan(kitchen, ("dinner", "ana", "pasta_room"), ("dinner", "bo", "saute"), on=tomorrow)
    publish(kitchen, clock, on=tomorrow)
    assert "changes the line on the day itself" in bo.open(f"/swaps/{tomorrow}/dinner").work
    cleo.open(f"/swaps/{tomorrow}/dinner")
    assert cleo.press("Make this swap").path == "/board"
    assert len(kitchen.file.book.of_kind("plan_published")) == 2


def test_a_line_that_changed_meanwhile_is_looked_at_again(bo: Hands, crossed: Kitchen) -> None:
    """Somebody came off a station since the page was opened: nothing is planned over it."""
    bo.open(f"/swaps/{TODAY}/dinner")
    write(crossed, "stood_down", "ana", {"stations": "all", "why": "not fit", "reason": ""}, by="cleo", days=0)
    page = bo.press("Make this swap")
    assert page.status == 400
    assert page.problems == ["The line for dinner has changed since you looked. Look again."]
    assert len(crossed.file.book.of_kind("plan_published")) == 1


def test_who_is_on_this_shift_comes_first(bo: Hands, kitchen: Kitchen) -> None:
    """Ana is on tonight; Dev asked earlier and is on with Bo tomorrow."""
    clear(kitchen, "bo")
    ask(kitchen, "ana", days=1)
    ask(kitchen, "dev", days=3)
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "pasta_room"))
    tomorrow = TODAY + timedelta(days=1)
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "dev", "pasta_room"), on=tomorrow)
    page = bo.open("/ready")
    assert [found.get_text() for found in page.soup.select("ol h3")] == ["Ana Pardo", "Dev Karim"]
    assert "Not on this shift. You are both on: Wed 4 Nov 2026 17:00." in page.work
    assert page.button("Watch Ana")["form"] == "watch-first"
    assert bo.press("Watch Ana").heading == "Pasta nesting"


def test_close_to_the_service_there_is_no_time(sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock) -> None:
    """Ten minutes before dinner a practical of a quarter of an hour waits."""
    clear(kitchen, "bo")
    ask(kitchen, "ana", days=1)
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "pasta_room"))
    clock.pass_by(hours=4, minutes=50)
    assert "Too near the service at 17:00: it takes about 15 min." in sign_in("bo").open("/ready").work


@pytest.fixture
def worked(kitchen: Kitchen, clock: Clock) -> Kitchen:
    """Return a kitchen where Ana trailed beside Bo at yesterday's dinner and Dev too."""
    clear(kitchen, "bo")
    plan(kitchen, *(("dinner", cook, "pasta_room") for cook in ("bo", "ana", "dev")), on=YESTERDAY)
    assert clock
    return kitchen


def test_shifts_come_from_the_plan_and_are_signed_as_one_list(sign_in: Callable[[str], Hands], worked: Kitchen) -> None:
    """Another assessor signs both with one PIN; nothing is left on the list then."""
    write(worked, "cook_changed", "dev", {"roles": ["cook"]}, by="cleo", days=1)
    bo = sign_in("bo")
    page = bo.open("/ready")
    assert "2 shifts to sign" in page.work
    assert "Ana Pardo beside Bo Lind, Pasta room" in page.work
    guests: dict[str, Any] = {f"guests-{YESTERDAY}-dinner": "64"}
    page = bo.press("Sign the list", shift=_ticked(page), **guests)
    assert page.problems == ["Type your PIN or passphrase again. Nothing was saved yet."]
    assert page.field("Guests at Dinner, Mon 2 Nov 2026")["value"] == "64"
    page = bo.press("Sign the list", shift=_ticked(page), secret=PIN)
    assert page.path == "/ready", page.problems
    shifts = worked.file.book.of_kind("shift_worked")
    assert {(one.cook, one.body["beside"], one.body["guests"]) for one in shifts} == {
        ("ana", "bo", 64),
        ("dev", "bo", 64),
    }
    assert len({one.body["proof"]["at"] for one in shifts}) == 1
    assert "to sign" not in page.work


def test_where_one_of_the_list_is_refused_none_is_written(bo: Hands, worked: Kitchen) -> None:
    """No guests: the rule is named, and both stay on the list."""
    page = bo.open("/ready")
    guests: dict[str, Any] = {f"guests-{YESTERDAY}-dinner": "0"}
    page = bo.press("Sign the list", shift=_ticked(page), secret=PIN, **guests)
    assert page.problems == ["0 guests: a shift has from 1 to 10000."]
    assert worked.file.book.of_kind("shift_worked") == []


def test_a_shift_leaves_the_list_at_the_end_of_the_next_day(bo: Hands, worked: Kitchen, clock: Clock) -> None:
    """Two nights later nobody is proposed it any more."""
    assert worked
    clock.pass_by(days=1)
    assert "to sign" not in bo.open("/ready").work


def test_tonights_shifts_come_into_the_list_when_the_service_ends(bo: Hands, kitchen: Kitchen) -> None:
    """Before, they are only said."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "pasta_room"))
    page = bo.open("/ready")
    said = "Dinner, today comes into the list at 23:00: Ana Pardo beside Bo Lind, Pasta room."
    assert said in page.work
    assert not page.soup.select("#sign-shifts")


def _ticked(page: Seen) -> list[str]:
    """Return the shifts that stand ticked."""
    return [str(one["value"]) for one in page.soup.select("input[name=shift][checked]")]


def test_what_i_signed_is_taken_back_within_ten_minutes(bo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """One press; ten minutes later a manager can."""
    clear(kitchen, "bo")
    study(kitchen, "ana")
    sign(kitchen, "ana", by="bo", days=0)
    clock.pass_by(minutes=3)
    page = bo.open("/ready")
    assert "Ana Pardo Pasta nesting: meets it" in page.work
    clock.pass_by(minutes=8)
    assert "A manager can void it." in bo.open("/ready").work
    assert not bo.page.soup.select("form[action$='/undo']")
    clock.pass_by(minutes=-8)
    bo.open("/ready")
    page = bo.press("Undo 7 min: Ana Pardo Pasta nesting: meets it")
    assert page.path == "/ready"
    assert kitchen.file.book.of_kind("entry_voided")[-1].body["counts"] == "never"
    assert "I signed" not in page.work


def test_who_is_off_a_station_stands_on_the_desk_and_the_board(bo: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """With who did it, why and since when; words may be added, a manager lifts it."""
    study(kitchen, "dev")
    sign(kitchen, "dev", by="bo")
    bo.open("/off")
    bo.follow("Dev Karim")
    page = bo.press("Take Dev off", stations="all", why="not fit", secret=PIN)
    assert page.heading == "Dev Karim is off the line"
    said = "off every station since 12:00, by Bo Lind: Not fit for the line today."
    assert said in bo.open("/ready").work
    assert said in cleo.open("/board").work
    assert cleo.page.link("Put back Dev Karim") == "/cooks/dev/put-back"
    bo.open("/ready")
    bo.follow("Add words Dev Karim")
    bo.press("Save the words", {"Words": "Could not keep up."})
    assert "Not fit for the line today: Could not keep up." in bo.open("/ready").work
