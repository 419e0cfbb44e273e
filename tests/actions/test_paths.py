"""Opening and closing paths: who may, which day, which mentor, and what takes the place of what."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.next_tasks import tasks_to_do
from trainer.actions.outcome import Outcome
from trainer.actions.paths import NewPath, PathClosing, close_path, start_path
from trainer.kitchen.book import LOCAL, Entry
from trainer.kitchen.open_paths import PathStanding, all_paths, paths_of
from trainer.kitchen.papers import texts_apart

MAY_1 = date(2026, 5, 1)


def opens(crew: Crew, by: str = "ada", cook: str = "ada", key: str = "", **changes: Any) -> Outcome:
    """Open a path to the cold side."""
    path = NewPath(**{"cook": cook, "station": "cold_side", "by_day": MAY_1, **changes})
    return start_path(crew.k, by=by, path=path, now=crew.now, key=key or crew.key())


def closes(crew: Crew, path: Entry, by: str, outcome: str = "dropped", reason: str = "Goes for the grill") -> Outcome:
    """Close a path."""
    closing = PathClosing(path.cook, path.id, outcome, reason)
    return close_path(crew.k, by=by, closing=closing, now=crew.now, key=crew.key())


def going(crew: Crew, cook: str = "ada") -> list[PathStanding]:
    """Return a cook's open paths today."""
    return list(paths_of(cook, crew.k.day(crew.k.today(crew.now))))


def test_a_path_is_kept_with_its_day_and_mentor(crew: Crew) -> None:
    """The entry says the station, the day and who helps, and nothing a page prints."""
    entry = saved(opens(crew, "mara", mentor="sous"))
    assert (entry.kind, entry.cook, entry.by) == ("path_opened", "ada", "mara")
    assert entry.body == {"station": "cold_side", "by_day": "2026-05-01", "mentor": "sous"}
    (found,) = going(crew)
    assert (found.state, found.days_left, english(found.words)) == ("open", 60, "60 days left")


@pytest.mark.parametrize(
    ("by", "cook", "may"),
    [
        ("ada", "ada", True),
        ("sous", "ada", True),
        ("nils", "ada", True),
        ("mara", "ada", True),
        (LOCAL, "ada", True),
        ("ben", "ada", False),
        ("nils", "nils", True),
    ],
)
def test_who_may_open_a_path(crew: Crew, by: str, cook: str, may: bool) -> None:
    """A cook for themselves; an assessor, a manager and a command on the machine for anybody."""
    outcome = opens(crew, by, cook)
    if may:
        assert saved(outcome).by == by
    else:
        assert english(refused(outcome).reason) == "A cook opens a path only for themselves."
        assert english(refused(outcome).who_can) == "An assessor or a manager can do this."


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"station": "moon"}, "station", "There is no station “moon”."),
        ({"cook": "sous"}, "station", "Sous is cleared there already: Cold side."),
        ({"cook": "mara"}, "cook", "Mara works no station: a cook or an assessor does."),
        ({"cook": "zoe"}, "cook", "zoe is not on the roster."),
        ({"by_day": TODAY - timedelta(days=1)}, "by_day", "1 March 2026 is past. Choose today or a day to come."),
        ({"by_day": date(2036, 5, 1)}, "by_day", "1 May 2036 is more than two years ahead. Choose an earlier day."),
        ({"mentor": "ada"}, "mentor", "Nobody is their own mentor. Choose somebody else, or nobody yet."),
        ({"mentor": "zoe"}, "mentor", "zoe is not on the roster."),
    ],
)
def test_bad_input_names_the_value_and_the_rule(crew: Crew, changes: dict[str, Any], field: str, words: str) -> None:
    """Nothing is written."""
    found = refused(opens(crew, "mara", **changes))
    assert (found.field, english(found.reason)) == (field, words)
    assert not crew.entries("path_opened")


def test_today_is_soon_enough_and_is_said(crew: Crew) -> None:
    """The last day is today's own; from tomorrow on it is late."""
    saved(opens(crew, by_day=TODAY))
    assert [(one.state, english(one.words)) for one in going(crew)] == [("open", "that is today")]
    crew.later(days=1)
    assert [(one.state, english(one.words)) for one in going(crew)] == [("late", "1 day late")]


def test_another_day_takes_the_place_of_the_first(crew: Crew) -> None:
    """One path a station: the new one holds, and the same again is refused with its day."""
    saved(opens(crew))
    assert refused(opens(crew)).field == "by_day"
    second = saved(opens(crew, by_day=date(2026, 6, 1)))
    assert [one.path.entry for one in going(crew)] == [second.id]
    saved(opens(crew, by_day=date(2026, 6, 1), mentor="sous"))
    assert [one.path.mentor for one in going(crew)] == ["sous"]


def test_a_cook_moves_and_drops_only_their_own(crew: Crew) -> None:
    """What somebody else opened is theirs to end, or another assessor's or manager's."""
    path = saved(opens(crew, "sous"))
    for outcome in (closes(crew, path, "ada"), opens(crew, by_day=date(2026, 6, 1))):
        words = english(refused(outcome).reason)
        assert words == "Sous opened this path. Ask them, or another assessor or manager."
    assert english(refused(closes(crew, path, "ben")).who_can) == "An assessor or a manager can do this."
    saved(closes(crew, path, "nils"))
    assert going(crew) == []
    own = saved(opens(crew))
    saved(closes(crew, own, "ada"))
    assert going(crew) == []


def test_a_path_opened_at_the_machine_says_so(crew: Crew) -> None:
    """It has no person's name to ask."""
    path = saved(opens(crew, LOCAL))
    assert english(refused(closes(crew, path, "ada")).reason).startswith("Somebody at the machine opened this path.")


def test_a_path_is_reached_by_the_clearance_itself(crew: Crew) -> None:
    """No entry says so; it stays reached when the cook is stood down later."""
    path = saved(opens(crew, "mara"))
    words = english(refused(closes(crew, path, "mara", "reached", "")).reason)
    assert words.startswith("Ada is not cleared there yet. ")
    crew.later(days=3)
    crew.clears("ada")
    assert [(one.state, english(one.words)) for one in going(crew)] == [("reached", "reached")]
    crew.later(days=5)
    crew.write("stood_down", "ada", {"station": "cold_side", "reason": "x"})
    assert [one.state for one in going(crew)] == ["reached"]
    saved(closes(crew, path, "mara", "reached", ""))
    assert going(crew) == []


def test_a_path_is_closed_once_and_as_one_of_two(crew: Crew) -> None:
    """A third end, an end without a reason and a second one are refused where they stand."""
    path = saved(opens(crew))
    assert refused(closes(crew, path, "ada", "forgotten")).field == "outcome"
    assert refused(closes(crew, path, "ada", reason=" ")).field == "reason"
    assert refused(closes(crew, path, "ada", reason="x" * 501)).field == "reason"
    saved(closes(crew, path, "ada"))
    assert refused(closes(crew, path, "ada")).field == "path"
    assert len(crew.entries("path_closed")) == 1


def test_a_reason_is_kept_beside_the_book(crew: Crew) -> None:
    """So that it can be erased with the person."""
    entry = saved(closes(crew, saved(opens(crew)), "ada"))
    kept, (paper,) = texts_apart(entry.kind, entry.body, lambda: "salt")
    assert entry.body["reason"] == "Goes for the grill"
    assert "grill" not in str(kept)
    assert b"Goes for the grill" in paper


def test_a_slip_is_taken_back_by_its_writer_and_later_by_a_manager(crew: Crew) -> None:
    """For ten minutes by the cook, after that by a manager with a reason."""
    path = saved(opens(crew))
    crew.later(minutes=11)
    late = void_entry(crew.k, by="ada", correction=Correction(path.id, ""), now=crew.now, key=crew.key())
    assert english(refused(late).who_can) == "A manager can do this."
    saved(void_entry(crew.k, by="mara", correction=Correction(path.id, "Wrong cook"), now=crew.now, key=crew.key()))
    assert going(crew) == []
    again = saved(opens(crew))
    saved(void_entry(crew.k, by="ada", correction=Correction(again.id, ""), now=crew.now, key=crew.key()))
    assert going(crew) == []


def test_the_same_key_opens_one(crew: Crew) -> None:
    """A slow connection makes one entry."""
    assert saved(opens(crew, key="one")) == saved(opens(crew, key="one"))
    assert len(crew.entries("path_opened")) == 1


def test_all_paths_come_by_day_and_those_who_left_are_gone(crew: Crew) -> None:
    """The earliest day first; the path of somebody who left is on no list."""
    saved(opens(crew, "mara", "ada", by_day=date(2026, 6, 1)))
    saved(opens(crew, "mara", "ben"))
    day = crew.k.day(TODAY)
    assert [one.cook for one in all_paths(day)] == ["ben", "ada"]
    crew.write("cook_left", "ben", {"reason": "moved"})
    assert [one.cook for one in all_paths(crew.k.day(TODAY))] == ["ada"]


def test_the_board_of_today_sees_the_first_path_of_the_house(crew: Crew) -> None:
    """A row kept from before the house had paths is worked out again, though nothing happened to its cook."""
    crew.reads("ben", "cold_sauces")
    before = {row.cook.id: row.clearances for row in crew.k.board(TODAY).rows}
    assert [one.state for one in before["ben"] if one.station == "cold_side"] == ["ready to show"]
    saved(opens(crew))
    after = {row.cook.id: row.clearances for row in crew.k.board(TODAY).rows}
    assert [(one.state, one.blank) for one in after["ben"] if one.station == "cold_side"] == [("not started", True)]
    past = crew.k.board(TODAY - timedelta(days=1))
    assert all(not one.blank for row in past.rows for one in row.clearances)


def test_what_a_path_asks_for_comes_first_of_what_is_as_near(crew: Crew) -> None:
    """The station with the earlier day first; without a path the house's own order stands."""

    def order() -> list[str]:
        return [task.technique.id for task in tasks_to_do(crew.k, cook="ben", on=TODAY)]

    assert order() == ["fresh_pasta", "pasta_nesting", "cold_sauces"]
    saved(opens(crew, "ben", "ben", station="cold_side"))
    assert order() == ["cold_sauces", "fresh_pasta", "pasta_nesting"]
    saved(opens(crew, "ben", "ben", station="pasta_room", by_day=date(2026, 4, 1)))
    assert order() == ["fresh_pasta", "pasta_nesting", "cold_sauces"]
