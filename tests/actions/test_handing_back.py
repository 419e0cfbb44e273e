"""Leaving hands coming places back in one act; each stands open with who could take it, until somebody does."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.actions.test_planning import lines, publish, rows
from tests.printed import english
from trainer.actions.handing_back import OpenPlace, Taking, coming_places, open_places, take_place
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.standing import Leaving, cook_leaves
from trainer.store.shifts import PlannedShift

TOMORROW = TODAY + timedelta(days=1)


@pytest.fixture
def planned(crew: Crew) -> Crew:
    """Return the crew with Sous, who is cleared, and Ada, who learns, planned for two dinners; Ben is cleared too."""
    crew.clears("ben")
    rows(crew, *((day, cook, "cold_side") for day in (TODAY, TOMORROW) for cook in ("sous", "ada")))
    return crew


def leaves(crew: Crew, cook: str = "sous", key: str = "leaves") -> Outcome:
    """Let a cook leave."""
    return cook_leaves(crew.k, by="mara", leaving=Leaving(cook, "Moved."), now=crew.now, key=key)


def take(crew: Crew, cook: str = "ben", day: date = TOMORROW, key: str = "", by: str = "mara") -> Refused | None:
    """Let a cook take the place on the cold side."""
    taking = Taking(day, "dinner", "cold_side", cook)
    return take_place(crew.k, by=by, taking=taking, now=crew.now, key=key or crew.key())


def planned_cooks(crew: Crew, day: date) -> list[str]:
    """Return the cooks of a day's rows."""
    return [one.cook for one in crew.k.file.shifts.on(day)]


def test_a_leavers_coming_places_stand_open_with_who_could_take_them(planned: Crew) -> None:
    """In the act of leaving; once for the same form sent twice."""
    entry = saved(leaves(planned))
    told = {"service": "dinner", "station": "cold_side", "others": 1}
    assert entry.body["places"] == [{"day": f"{day}", **told} for day in (TODAY, TOMORROW)]
    assert saved(leaves(planned)).id == entry.id
    assert planned_cooks(planned, TODAY) == planned_cooks(planned, TOMORROW) == ["ada"]
    assert open_places(planned.k, planned.now) == tuple(
        OpenPlace(day, "dinner", "cold_side", "sous", ("ben",)) for day in (TODAY, TOMORROW)
    )


def test_a_published_plan_is_published_anew_without_the_leaver(planned: Crew) -> None:
    """The other places, reasons and who is in charge stand; a leaver is in charge no more."""
    why = {(TODAY, "dinner", "ada"): "Nils is beside her."}
    first = saved(publish(planned, in_charge="sous", away=(("nils", TODAY, TOMORROW),), despite=why))
    saved(leaves(planned))
    entry = planned.entries("plan_published")[-1]
    assert [(one["day"], one["cook"], one["as"]) for one in lines(entry)] == [
        ("2026-03-02", "ada", "runs"),
        ("2026-03-03", "ada", "trails"),
    ]
    assert entry.body["replaces"] == [first.id]
    assert [one["reason"] for one in entry.body["despite"]] == ["Nils is beside her."]
    plan = planned.k.progress().nights.plan(TODAY, TODAY, TODAY)
    assert plan is not None
    assert (plan.in_charge, plan.away) == ({}, (("nils", TODAY, TOMORROW),))


def test_who_learns_leaves_no_hand_behind(planned: Crew) -> None:
    """Ada trails: she goes out of the plan, and no place stands open."""
    entry = saved(leaves(planned, "ada"))
    assert entry.body == {"reason": "Moved."}
    assert planned_cooks(planned, TODAY) == ["sous"]
    assert open_places(planned.k, planned.now) == ()


def test_a_service_that_has_begun_stays_as_it_was(planned: Crew) -> None:
    """At half past five tonight's dinner runs: only tomorrow's is handed back."""
    planned.later(hours=5.5)
    assert [one.day for one in coming_places(planned.k, "sous", planned.now)] == [TOMORROW]
    saved(leaves(planned))
    assert planned_cooks(planned, TODAY) == ["ada", "sous"]
    assert [one.day for one in open_places(planned.k, planned.now)] == [TOMORROW]


def test_a_refused_leaving_hands_nothing_back(planned: Crew) -> None:
    """Without a reason nothing is changed."""
    no = cook_leaves(planned.k, by="mara", leaving=Leaving("sous", " "), now=planned.now, key="x")
    assert english(refused(no).reason) == "The reason is blank."
    assert planned_cooks(planned, TODAY) == ["ada", "sous"]


def test_a_place_is_taken_once(planned: Crew) -> None:
    """Into the rows, and into the plan where one is published; whoever comes second is told who is there."""
    saved(publish(planned))
    saved(leaves(planned))
    planned.clears("nils")
    assert take(planned, key="t") is None
    assert take(planned, key="t") is None
    assert {"ben"} <= set(planned_cooks(planned, TOMORROW))
    entry = planned.entries("plan_published")[-1]
    assert [(one["day"], one["cook"]) for one in lines(entry)] == [("2026-03-03", "ada"), ("2026-03-03", "ben")]
    no = refused(take(planned, "nils"))
    assert english(no.reason) == "This place is open no more. Planned there: Ada, Ben."
    assert [one.day for one in open_places(planned.k, planned.now)] == [TODAY]


def test_a_place_without_a_published_plan_is_a_row_more(planned: Crew) -> None:
    """No entry is written for it."""
    saved(leaves(planned))
    assert take(planned) is None
    assert planned.entries("plan_published") == []
    assert planned_cooks(planned, TOMORROW) == ["ada", "ben"]


def test_nobody_takes_a_place_they_may_not(planned: Crew) -> None:
    """Not cleared, on at that service, no manager's press, nobody on the roster: nothing is changed."""
    saved(leaves(planned))
    assert "is not cleared and free" in english(refused(take(planned, "nils")).reason)
    assert english(refused(take(planned, by="ben")).reason) == "Ben is no manager."
    assert english(refused(take(planned, "sous")).reason) == "Sous is not on the roster."
    planned.k.file.shifts.add([PlannedShift(TOMORROW, "dinner", "ben", "grill")])
    assert open_places(planned.k, planned.now)[1].can_take == ()
    assert "is not cleared and free" in english(refused(take(planned)).reason)
    assert planned_cooks(planned, TOMORROW) == ["ada", "ben"]
