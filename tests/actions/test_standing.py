"""What a manager decides: standing down, putting back, opening a station, leaving, roles."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.outcome import Outcome
from trainer.actions.standing import (
    Grant,
    Leaving,
    NewRoles,
    StationChange,
    change_roles,
    cook_leaves,
    open_station,
    restore,
    stand_down,
)
from trainer.actions.two_people import Waits

SOUS_DOWN = StationChange("sous", "cold_side", "cut hand")


def down(crew: Crew, by: str = "mara", at: StationChange = SOUS_DOWN) -> Outcome:
    """Stand a person down."""
    return stand_down(crew.k, by=by, at=at, now=crew.now, key=crew.key())


def back(crew: Crew, by: str = "mara", at: StationChange = SOUS_DOWN) -> Outcome:
    """Put a person back."""
    return restore(crew.k, by=by, at=at, now=crew.now, key=crew.key())


def opened(crew: Crew, by: str = "mara", days: int = 30, reason: str = "new", **changes: str) -> Outcome:
    """Open the pasta room for Nils."""
    named = {"assessor": "nils", "station": "pasta_room", **changes}
    grant = Grant(until=TODAY + timedelta(days=days), reason=reason, **named)
    return open_station(crew.k, by=by, grant=grant, now=crew.now, key=crew.key())


def leaves(crew: Crew, by: str = "mara", cook: str = "ada", reason: str = "moved") -> Outcome:
    """Write that a person leaves."""
    return cook_leaves(crew.k, by=by, leaving=Leaving(cook, reason), now=crew.now, key=crew.key())


def becomes(crew: Crew, *roles: str, by: str = "mara", cook: str = "ada") -> Outcome | Waits:
    """Give a person roles."""
    return change_roles(crew.k, by=by, change=NewRoles(cook, roles), now=crew.now, key=crew.key())


def state(crew: Crew, cook: str) -> str:
    """Return a person's state on the cold side today."""
    return next(row.clearances[1].state for row in crew.k.board(TODAY).rows if row.cook.id == cook)


def test_stood_down_and_put_back(crew: Crew) -> None:
    """The board shows both at once, and the book both with their reasons."""
    assert saved(down(crew)).body == {"station": "cold_side", "reason": "cut hand"}
    assert state(crew, "sous") == "stood down"
    assert saved(back(crew)).kind == "restored"
    assert state(crew, "sous") == "cleared"


@pytest.mark.parametrize("act", [down, back])
@pytest.mark.parametrize(
    ("by", "at", "reason"),
    [
        ("ben", SOUS_DOWN, "Ben is no manager."),
        ("nils", StationChange("nils", "cold_side", "x"), "Nobody decides this about themselves."),
        ("mara", StationChange("ghost", "cold_side", "x"), "ghost is not on the roster."),
        ("mara", StationChange("sous", "fry", "x"), "There is no station “fry”."),
        ("mara", StationChange("sous", "cold_side", " "), "The reason is blank."),
    ],
)
def test_standing_down_and_putting_back_are_refused_alike(
    crew: Crew, act: object, by: str, at: StationChange, reason: str
) -> None:
    """By a manager, about another person on the roster, at a station there is, with a reason."""
    assert callable(act)
    assert english(refused(act(crew, by, at)).reason) == reason


def test_nobody_is_stood_down_twice_or_put_back_for_nothing(crew: Crew) -> None:
    """The state is named."""
    assert english(refused(back(crew)).reason) == "Sous is not stood down there."
    saved(down(crew))
    assert english(refused(down(crew)).reason) == "Sous is stood down there already."


def test_a_station_is_opened_for_an_assessor(crew: Crew) -> None:
    """To the end of a day, with a reason."""
    entry = saved(opened(crew))
    assert (entry.kind, entry.cook, entry.by) == ("station_opened", "nils", "mara")
    assert entry.body == {"station": "pasta_room", "until": "2026-04-01", "reason": "new"}


def test_a_grant_may_end_today(crew: Crew) -> None:
    """The last day counts; yesterday is past."""
    assert refused(opened(crew, days=-1)).field == "until"
    saved(opened(crew, days=0))


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"by": "ben"}, "Ben is no manager."),
        ({"by": "nils"}, "Nobody decides this about themselves."),
        ({"assessor": "ada"}, "Ada is no assessor."),
        ({"station": "fry"}, "There is no station “fry”."),
        ({"station": "cold_side"}, "Sous is cleared there already: no grant is needed."),
        ({"reason": ""}, "The reason is blank."),
    ],
)
def test_a_grant_is_refused_with_its_reason(crew: Crew, changes: dict[str, str], reason: str) -> None:
    """Nobody grants themselves; nobody is granted what a clearance gives."""
    assert english(refused(opened(crew, **changes)).reason) == reason  # type: ignore[arg-type]


def test_who_leaves_is_off_the_roster_from_today(crew: Crew) -> None:
    """No role, no clearance, no line on the board."""
    assert saved(leaves(crew)).body == {"reason": "moved"}
    assert "ada" not in [row.cook.id for row in crew.k.board(TODAY).rows]


@pytest.mark.parametrize(
    ("by", "cook", "why", "reason"),
    [
        ("ben", "ada", "x", "Ben is no manager."),
        ("mara", "mara", "x", "Nobody decides this about themselves."),
        ("mara", "ghost", "x", "ghost is not on the roster."),
        ("mara", "ada", "", "The reason is blank."),
    ],
)
def test_leaving_is_refused_with_its_reason(crew: Crew, by: str, cook: str, why: str, reason: str) -> None:
    """A manager does not write themselves off, so one is always left."""
    assert english(refused(leaves(crew, by, cook, why)).reason) == reason


def test_roles_are_given_by_another_manager(crew: Crew) -> None:
    """Kept in one sequence, whatever sequence they were named in."""
    assert saved(becomes(crew, "assessor", "cook")).body == {"roles": ["cook", "assessor"], "second": None}
    assert crew.k.progress().roles("ada", TODAY) == {"cook", "assessor"}


def test_roles_are_refused_with_the_reason(crew: Crew) -> None:
    """Nobody on themselves; known roles; one at least; something changed."""
    assert english(refused(becomes(crew, "assessor", by="ben")).reason) == "Ben is no manager."
    assert english(refused(becomes(crew, "assessor", cook="mara")).reason) == "Nobody decides this about themselves."
    assert english(refused(becomes(crew, "cook", cook="ghost")).reason) == "ghost is not on the roster."
    assert english(refused(becomes(crew, "king")).reason) == "There is no role “king”: cook, assessor or manager."
    assert english(refused(becomes(crew)).reason) == "Somebody on the roster has a role at least."
    assert english(refused(becomes(crew, "cook")).reason) == "Ada has these roles already."
