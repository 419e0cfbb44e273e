"""What cooks know from before, said by a manager in one act."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from tests.actions.crew import NOON, TODAY, Crew, refused, saved
from tests.kitchen.kitchen_for_tests import small_content, with_technique
from tests.printed import english
from trainer.actions.knowing import (
    Days,
    Knowing,
    days_of,
    know_from_before,
    latest_days,
    left_to_say,
    load_of,
)
from trainer.actions.outcome import Outcome, Refused
from trainer.kitchen.clearance import clearance_of
from trainer.kitchen.technique import QuestionSetting

CELLS = (("ada", "cold_side"), ("ben", "cold_side"), ("ada", "pasta_room"))
PLAIN = Knowing(CELLS, TODAY + timedelta(days=365), TODAY + timedelta(days=92), " Ten years at the old place. ")


def know(crew: Crew, by: str = "mara", key: str = "", **changes: Any) -> Outcome:
    """Say what is known."""
    wanted = replace(PLAIN, **changes)
    return know_from_before(crew.k, by=by, knowing=wanted, now=crew.now, key=key or crew.key())


@pytest.fixture
def careful(crew: Crew) -> Crew:
    """Return the crew in a kitchen whose fresh pasta has a question about safety."""
    asked = {"questions": (QuestionSetting("discard_time", {}, {}, 1),), "need_right": 1}
    crew.k.content = with_technique(small_content(), "fresh_pasta", **asked)
    return crew


def test_one_act_writes_an_entry_a_cook_and_station(careful: Crew) -> None:
    """Techniques with questions about safety stand apart, with a nearer end, and are asked at once.

    The others are spread: three over 365 days end on the 121st, the 243rd and the 365th, counted on a calendar.
    """
    saved(know(careful))
    ada, ben, pasta = careful.entries("known_before")
    assert (ada.cook, ben.cook, pasta.cook, ada.by) == ("ada", "ben", "ada", "mara")
    assert ada.body["basis"] == "Ten years at the old place."
    assert ada.body["cells"] == [
        {"cook": "ada", "station": "cold_side", "techniques": ["cold_sauces"], "until": "2026-07-01", "asked": []}
    ]
    assert pasta.body["cells"] == [
        {
            "cook": "ada",
            "station": "pasta_room",
            "techniques": ["fresh_pasta"],
            "until": "2026-06-02",
            "asked": ["fresh_pasta"],
        },
        {"cook": "ada", "station": "pasta_room", "techniques": ["pasta_nesting"], "until": "2027-03-02", "asked": []},
    ]

    assert [cell["until"] for cell in ben.body["cells"]] == ["2026-10-31"]


def test_the_ends_are_spread_so_that_no_week_has_many(crew: Crew) -> None:
    """46 cooks who know one technique each: no day has two of them over 92 days, and the last day has one."""
    cooks = [f"cook{number}" for number in range(46)]
    for cook in cooks:
        crew.joins(cook, "cook")
    cells = tuple((cook, "cold_side") for cook in cooks)
    shown = days_of(crew.k, by="mara", knowing=replace(PLAIN, cells=cells, until=TODAY + timedelta(days=92)), now=NOON)
    assert not isinstance(shown, Refused)
    ends = list(shown.values())
    assert [end - TODAY for end in ends] == [timedelta(days=2 * number) for number in range(1, 47)]
    saved(know(crew, cells=cells, until=TODAY + timedelta(days=92)))
    kept = {(e.cook, "cold_sauces"): e.body["cells"][0]["until"] for e in crew.entries("known_before")}
    assert kept == {one: end.isoformat() for one, end in shown.items()}


def test_the_cook_is_cleared_by_it(crew: Crew) -> None:
    """At a station that asks for nothing but what is learnt."""
    saved(know(crew, cells=(("ada", "cold_side"),)))
    station, person = crew.k.content.stations["cold_side"], crew.k.people()["ada"]
    found = clearance_of(person, station, crew.k.progress(), crew.k.content, TODAY)
    assert (found.state, found.known) == ("cleared", True)


def test_sent_twice_it_is_written_once(crew: Crew) -> None:
    """The same key gives the entry already there."""
    first = saved(know(crew, key="one"))
    assert saved(know(crew, key="one")) == first
    assert len(crew.entries("known_before")) == 3


def test_the_longest_days_are_92_and_365_from_today(careful: Crew) -> None:
    """Counted on a calendar: 2 June 2026 and 2 March 2027."""
    assert latest_days(TODAY) == (date(2027, 3, 2), date(2026, 6, 2))
    saved(know(careful))


def test_what_is_signed_off_is_not_said(crew: Crew) -> None:
    """Fresh pasta was watched: only the nests are left to say."""
    crew.clears("ada", "pasta_nesting", "pasta_room")
    saved(know(crew, cells=(("ada", "pasta_room"),)))
    (entry,) = crew.entries("known_before")
    assert [cell["techniques"] for cell in entry.body["cells"]] == [["fresh_pasta"]]


def test_it_is_said_once_even_after_it_ran_out(crew: Crew) -> None:
    """A second time is refused; then the practical is watched."""
    saved(know(crew, cells=(("ada", "cold_side"),)))
    crew.later(days=1)
    told = refused(know(crew, cells=(("ada", "cold_side"),)))
    assert english(told.reason) == "It was said before that Ada knows Cold side. It is said once."


@pytest.mark.parametrize(
    ("by", "changes", "field", "reason"),
    [
        ("sous", {}, "", "Sous is no manager."),
        ("mara", {"cells": ()}, "cells", "Tick at least one cook and station."),
        ("mara", {"cells": (("ada", "bar"),)}, "cells", "There is no station “bar”."),
        ("mara", {"cells": (("ghost", "cold_side"),)}, "cook", "ghost is not on the roster."),
        ("mara", {"cells": (("mara", "cold_side"),)}, "", "Nobody decides this about themselves."),
        ("mara", {"cells": (("sous", "cold_side"),)}, "cells", "Sous has shown all that Cold side asks for."),
        ("mara", {"basis": " "}, "basis", "The reason is blank."),
        ("mara", {"until": TODAY - timedelta(days=1)}, "until", "1 March 2026 is past."),
        (
            "mara",
            {"until": TODAY + timedelta(days=366)},
            "until",
            "3 March 2027 is too far off: at the most 365 days, to 2 March 2027.",
        ),
        (
            "mara",
            {"until_of_safety": TODAY + timedelta(days=93)},
            "until_of_safety",
            "3 June 2026 is too far off: at the most 92 days, to 2 June 2026.",
        ),
    ],
)
def test_it_is_refused_with_its_reason(crew: Crew, by: str, changes: dict[str, Any], field: str, reason: str) -> None:
    """Each rule by itself; nothing of the act is written, for no cook."""
    told = refused(know(crew, by, **changes))
    assert (english(told.reason), told.field) == (reason, field)
    assert crew.entries("known_before") == []


def test_it_is_refused_while_a_stop_stands(crew: Crew) -> None:
    """The stop is released first, and the cook watched."""
    body = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", "points": [], "reasons": [], "note": ""}
    crew.write("practical_watched", "ada", {**body, "verdict": "stopped", "started": NOON.isoformat()}, by="sous")
    told = refused(know(crew, cells=(("ada", "cold_side"),)))
    assert "stopped for safety" in english(told.reason)


def shown(crew: Crew, **changes: Any) -> Days:
    """Return the days that would be said."""
    found = days_of(crew.k, by="mara", knowing=replace(PLAIN, **changes), now=crew.now)
    assert not isinstance(found, Refused), found
    return found


def test_a_single_technique_is_said_and_nothing_besides(crew: Crew) -> None:
    """Of the pasta room's two, the nests alone: the entry names it, and fresh pasta is left to say."""
    saved(know(crew, cells=(), single=(("ada", "pasta_room", "pasta_nesting"),)))
    (entry,) = crew.entries("known_before")
    assert [cell["techniques"] for cell in entry.body["cells"]] == [["pasta_nesting"]]
    assert left_to_say("ada", "pasta_room", crew.k.day(TODAY)) == ("fresh_pasta",)
    no = refused(know(crew, cells=(), single=(("ada", "pasta_room", "pasta_nesting"),)))
    assert english(no.reason) == "Of Ada nothing is left to say about pasta_nesting at Pasta room."


def test_no_week_takes_more_than_the_minutes_there_are(crew: Crew) -> None:
    """Three practicals of 15 minutes (the usual time) that all end in the last week go to three, 15 minutes in each."""
    week: dict[str, Any] = {
        "until": TODAY + timedelta(days=21),
        "cells": tuple((cook, "cold_side") for cook in ("ada", "ben", "nils")),
    }
    days = shown(crew, **week, weekly=15)
    assert sorted((end - TODAY).days for end in days.values()) == [7, 14, 21]
    load = load_of(crew.k, days, TODAY)
    assert (load.weeks, load.fullest, load.total, load.assessors) == (3, 15, 45, ("sous", "nils"))
    no = days_of(crew.k, by="mara", knowing=replace(PLAIN, **week, weekly=14), now=crew.now)
    assert english(refused(no).reason) == (
        "45 minutes of practicals do not fit: 14 minutes a week are too few before the last days."
    )
    assert refused(know(crew, **week, weekly=14)).field == "weekly"
    assert crew.entries("known_before") == []


def test_what_is_written_is_spread_as_it_was_shown(crew: Crew) -> None:
    """The same minutes a week give the same days."""
    days = shown(crew, weekly=15)
    saved(know(crew, weekly=15))
    kept = {
        (entry.cook, name): cell["until"]
        for entry in crew.entries("known_before")
        for cell in entry.body["cells"]
        for name in cell["techniques"]
    }
    assert kept == {one: end.isoformat() for one, end in days.items()}
