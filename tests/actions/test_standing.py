"""What a manager decides: standing down, putting back, opening a station, leaving, roles."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.outcome import Outcome
from trainer.actions.standing import (
    Grant,
    LaterWords,
    Leaving,
    NewRoles,
    PutBack,
    TakenOff,
    add_words,
    change_roles,
    cook_leaves,
    open_station,
    put_back,
    take_off,
)
from trainer.actions.two_people import Waits
from trainer.kitchen.clearance import Clearance

SOUS_OFF = TakenOff("sous", ("cold_side",), "seen", "guard left open")
SOUS_BACK = PutBack("sous", ("cold_side",), "shown again")


def down(crew: Crew, by: str = "mara", at: TakenOff = SOUS_OFF) -> Outcome:
    """Take a person off."""
    return take_off(crew.k, by=by, off=at, now=crew.now, key=crew.key())


def back(crew: Crew, by: str = "mara", at: PutBack = SOUS_BACK) -> Outcome:
    """Put a person back."""
    return put_back(crew.k, by=by, back=at, now=crew.now, key=crew.key())


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


def cell(crew: Crew, cook: str, number: int) -> Clearance:
    """Return how a person stands at a station today."""
    return next(row.clearances[number] for row in crew.k.board(TODAY).rows if row.cook.id == cook)


def state(crew: Crew, cook: str) -> str:
    """Return a person's state on the cold side today."""
    return cell(crew, cook, 1).state


def test_taken_off_and_put_back(crew: Crew) -> None:
    """The board shows both at once, and the book both with their reasons."""
    body = {"stations": ["cold_side"], "why": "seen", "reason": "guard left open"}
    assert saved(down(crew)).body == body
    assert state(crew, "sous") == "stood down"
    assert saved(back(crew)).kind == "restored"
    assert state(crew, "sous") == "cleared"


REFUSED_OFF = [
    ("ben", SOUS_OFF, "Ben is neither assessor nor manager."),
    ("nils", TakenOff("nils", ("cold_side",), "not fit"), "Nobody decides this about themselves."),
    ("mara", TakenOff("ghost", ("cold_side",), "not fit"), "ghost is not on the roster."),
    ("mara", TakenOff("sous", ("fry",), "not fit"), "There is no station “fry”."),
    ("mara", TakenOff("sous", (), "ill"), "Choose the reason."),
    ("mara", TakenOff("sous", (), "seen", "x" * 501), "The text has 501 characters; it may have 500."),
]


@pytest.mark.parametrize(("by", "off", "reason"), REFUSED_OFF)
def test_who_may_take_whom_off(crew: Crew, by: str, off: TakenOff, reason: str) -> None:
    """A manager or an assessor, another person on the roster, at a station there is, for a reason off the list."""
    assert english(refused(down(crew, by, off)).reason) == reason


REFUSED_BACK = [
    ("sous", PutBack("ada", (), "x"), "Sous is no manager."),
    ("nils", PutBack("nils", (), "x"), "Nobody decides this about themselves."),
    ("mara", PutBack("ghost", (), "x"), "ghost is not on the roster."),
    ("mara", PutBack("sous", ("fry",), "x"), "There is no station “fry”."),
    ("mara", PutBack("sous", ("cold_side",), " "), "The reason is blank."),
]


@pytest.mark.parametrize(("by", "at", "reason"), REFUSED_BACK)
def test_only_a_manager_lifts_it(crew: Crew, by: str, at: PutBack, reason: str) -> None:
    """An assessor who may take somebody off does not put them back; a reason is needed."""
    assert english(refused(back(crew, by, at)).reason) == reason


def test_nobody_is_taken_off_twice_or_put_back_for_nothing(crew: Crew) -> None:
    """The state is named."""
    assert english(refused(back(crew)).reason) == "Sous is not stood down there."
    saved(down(crew))
    assert english(refused(down(crew)).reason) == "Sous is stood down there already."


def test_an_assessor_takes_a_cook_off_every_station_at_once(crew: Crew) -> None:
    """By the list alone, in a moment; a manager puts the cook back on one of them, then on all."""
    saved(down(crew, "sous", TakenOff("ada", (), "not fit")))
    record = crew.k.progress().record("ada")
    assert all(record.stood_down[0].is_at(station) for station in crew.k.content.stations)
    assert english(cell(crew, "ada", 0).reason).endswith(": Not fit for the line today.")
    saved(back(crew, at=PutBack("ada", ("pasta_room",), "rested")))
    assert [cell(crew, "ada", number).state == "stood down" for number in (0, 1)] == [False, True]
    saved(back(crew, at=PutBack("ada", (), "rested")))
    assert cell(crew, "ada", 1).state != "stood down"


def test_the_words_may_come_later(crew: Crew) -> None:
    """They stand behind the reason then; they are asked for of a standing down only, and not of the cook."""
    entry = saved(down(crew, "sous", TakenOff("ada", (), "seen")))

    def words(by: str, text: str, to: str = entry.id) -> Outcome:
        return add_words(crew.k, by=by, later=LaterWords(to, text), now=crew.now, key=crew.key())

    assert english(refused(words("ada", "x")).reason) == "Ada is neither assessor nor manager."
    assert english(refused(words("sous", " ")).reason) == "The text is blank."
    assert english(refused(words("sous", "x", "nothing")).reason) == "There is no entry “nothing”."
    assert saved(words("sous", "Guard open, motor on.")).body["entry"] == entry.id
    assert english(cell(crew, "ada", 0).reason).endswith(": What was seen: Guard open, motor on.")


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
