"""Authority in writing: given with the role, narrowed, ended and renewed by a manager, never one's own."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.authorizing import (
    Ending,
    NewAuthority,
    end_authority,
    give_authority,
    renew_authorities,
)
from trainer.actions.outcome import Outcome
from trainer.actions.standing import NewRoles, change_roles
from trainer.kitchen.authority import EVERYTHING, Authority, Scope
from trainer.kitchen.entitlement import signers

TWO_YEARS = date(2028, 3, 2)
GRILL = NewAuthority("sous", Scope(stations=("grill",)), TODAY, TWO_YEARS)


def live(crew: Crew, cook: str = "sous") -> tuple[Authority, ...]:
    """Return the authorities of a person today."""
    return crew.k.day(crew.k.today(crew.now)).authorities(cook)


def give(crew: Crew, given: NewAuthority, by: str = "mara", key: str = "") -> Outcome:
    """Give an authority."""
    return give_authority(crew.k, by=by, given=given, now=crew.now, key=key or crew.key())


def end(crew: Crew, reason: str = "Grill only now.", instead: NewAuthority | None = None, by: str = "mara") -> Outcome:
    """End the one authority Sous has."""
    ending = Ending("sous", live(crew)[0].entry, reason, instead)
    return end_authority(crew.k, by=by, ending=ending, now=crew.now, key=crew.key())


def test_the_role_of_an_assessor_comes_with_authority_over_everything(crew: Crew) -> None:
    """For 24 months, in the same act; sent again nothing more is written, and a role that is kept brings none."""
    for key in ("roles", "roles"):
        saved(change_roles(crew.k, by="mara", change=NewRoles("ben", ["cook", "assessor"]), now=crew.now, key=key))
    (given,) = [entry for entry in crew.entries("authority_given") if entry.cook == "ben"]
    assert given.by == "mara"
    assert given.body == {
        "scope": {"all": True}, "from": "2026-03-02", "until": "2028-03-02", "may": ["sign", "beside", "recheck"],
    }  # fmt: skip
    saved(change_roles(crew.k, by="mara", change=NewRoles("ben", ["assessor"]), now=crew.now, key="less"))
    assert len(live(crew, "ben")) == 1


def test_a_role_given_anew_comes_with_authority_anew(crew: Crew) -> None:
    """What was given before still counts beside it, as long as it is good."""
    for roles in (["cook"], ["cook", "assessor"]):
        saved(change_roles(crew.k, by="mara", change=NewRoles("sous", roles), now=crew.now, key=crew.key()))
        assert len(live(crew)) == (0 if roles == ["cook"] else 2)


def test_an_authority_is_narrowed_in_one_act(crew: Crew) -> None:
    """The old one ends today and the new one begins; the reason is a text beside the book, its digest in the entry."""
    entry = saved(end(crew, instead=GRILL))
    assert entry.body["reason"] == "Grill only now."
    row = crew.k.file.book.rows_about("sous")[-2]
    assert "Grill only now." not in str(row)
    assert '"reason":{"paper":' in str(row)
    (one,) = live(crew)
    assert (one.scope, one.since, one.until) == (Scope(stations=("grill",)), TODAY, TWO_YEARS)
    cold_side = crew.k.content.stations["cold_side"]
    assert signers(cold_side, crew.k.day(TODAY)) == ()


def test_a_refused_narrowing_ends_nothing(crew: Crew) -> None:
    """All of it or none: what was in force is in force."""
    before = live(crew)
    found = refused(end(crew, instead=replace(GRILL, until=TWO_YEARS + timedelta(1))))
    assert found.field == "until"
    assert live(crew) == before


def test_an_ended_authority_is_not_ended_again(crew: Crew) -> None:
    """And a reason is needed."""
    assert refused(end(crew, " ")).field == "reason"
    ending = Ending("sous", live(crew)[0].entry, "No more.")
    saved(end_authority(crew.k, by="mara", ending=ending, now=crew.now, key=crew.key()))
    again = end_authority(crew.k, by="mara", ending=ending, now=crew.now, key=crew.key())
    assert english(refused(again).reason) == "That authority is not in force: it has ended."


@pytest.mark.parametrize(
    ("given", "field", "words"),
    [
        (
            replace(GRILL, until=date(2028, 3, 3)),
            "until",
            "3 March 2028 is too late: an authority is good for 24 months at the most, to 2 March 2028.",
        ),
        (replace(GRILL, until=date(2026, 3, 1)), "until", "1 March 2026 is before it begins, on 2 March 2026."),
        (
            replace(GRILL, since=date(2026, 3, 1)),
            "since",
            "1 March 2026 is past. An authority begins today or later.",
        ),
        (replace(GRILL, scope=Scope()), "scope", "Choose everything, or some stations, or some techniques."),
        (replace(GRILL, scope=Scope(stations=("fry",))), "stations", "There is no station “fry”."),
        (replace(GRILL, scope=Scope(techniques=("fry",))), "techniques", "There is no technique “fry”."),
        (replace(GRILL, may=("cook",)), "may", "“cook”: sign, beside or recheck."),
        (replace(GRILL, may=()), "may", "Choose what it allows: sign, beside or recheck."),
        (replace(GRILL, assessor="ada"), "assessor", "Ada is no assessor."),
    ],
)
def test_a_wrong_authority_is_refused_with_the_rule(crew: Crew, given: NewAuthority, field: str, words: str) -> None:
    """The value and the rule, at the field it is about."""
    found = refused(give(crew, given))
    assert (found.field, english(found.reason)) == (field, words)


def test_only_a_manager_gives_it_and_nobody_to_themselves(crew: Crew) -> None:
    """The cook and the assessor are told who can; Nils is manager and assessor."""
    assert english(refused(give(crew, GRILL, by="ada")).who_can) == "A manager can do this."
    assert english(refused(give(crew, GRILL, by="sous")).who_can) == "A manager can do this."
    assert (
        english(refused(give(crew, replace(GRILL, assessor="nils"), by="nils")).who_can)
        == "Another manager can do this."
    )
    saved(end(crew, by="nils"))


def test_the_same_key_gives_the_same_authority(crew: Crew) -> None:
    """Sent twice, written once."""
    assert saved(give(crew, GRILL, key="once")) == saved(give(crew, GRILL, key="once"))


def test_a_list_is_renewed_with_one_proof(crew: Crew) -> None:
    """Each goes on from today for 24 months, as it was; the list sent again writes nothing."""
    saved(end(crew, instead=GRILL))
    crew.later(days=700)
    listed = [("sous", live(crew)[0].entry), ("nils", live(crew, "nils")[0].entry)]
    before = len(crew.entries("authority_given"))
    for _ in range(2):
        saved(renew_authorities(crew.k, by="mara", renewed=listed, now=crew.now, key="list"))
    assert len(crew.entries("authority_given")) == before + 2
    newest = live(crew)[-1]
    assert (newest.scope, newest.since, newest.until) == (GRILL.scope, date(2028, 1, 31), date(2030, 1, 31))
    assert live(crew, "nils")[-1].scope == EVERYTHING


def test_a_list_with_one_that_will_not_do_renews_nothing(crew: Crew) -> None:
    """One's own, one that has ended, and nothing at all."""
    before = crew.k.file.book.end()
    sous, nils = live(crew)[0].entry, live(crew, "nils")[0].entry
    for by, listed in (
        ("nils", [("sous", sous), ("nils", nils)]),
        ("mara", [("sous", sous), ("nils", "gone")]),
        ("mara", []),
    ):
        refused(renew_authorities(crew.k, by=by, renewed=listed, now=crew.now, key=crew.key()))
    assert crew.k.file.book.end() == before
