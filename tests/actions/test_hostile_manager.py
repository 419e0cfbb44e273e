"""A manager who turns against the kitchen tries every way to power alone: none has an effect, each that has is entered.

OWASP ASVS 5.0.0, 2.3.5: high-value business logic flows are restricted to more than one user's approval.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, timedelta

import pytest

from tests.actions.crew import Crew, saved
from trainer.actions.confirming import confirm, enter_due
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.erasing import Erasure, erase_person
from trainer.actions.giving_codes import first_code
from trainer.actions.outcome import Refused
from trainer.actions.people_on_record import ProofOfAge, Written, see_age
from trainer.actions.roster import apply_import, plan_import
from trainer.actions.standing import Leaving, NewRoles, change_roles, cook_leaves
from trainer.actions.two_people import Second, Waits, told_of, waiting
from trainer.kitchen.book import Entry
from trainer.store.people import Secret

HEADER = "number,name,birth date,roles\r\n"
PROOF = {"how": "passphrase", "at": "2026-03-02T17:00:00.000Z", "device": "d1", "secret_since": ""}
Try = Callable[[Crew], object]


def takes_in(crew: Crew, rows: str) -> object:
    """Take in a roster file."""
    plan = plan_import(crew.k, (HEADER + rows).encode(), now=crew.now)
    return apply_import(crew.k, plan=plan, by="mara", now=crew.now, key=crew.key())


def gives_back_by_a_void(crew: Crew) -> object:
    """Void the entry that took a role away from Ben."""
    taken = [one for one in crew.entries("cook_changed") if one.cook == "ben"][-1]
    correction = Correction(taken.id, "I need him", "never")
    return void_entry(crew.k, by="mara", correction=correction, now=crew.now, key=crew.key())


def role(crew: Crew, *roles: str) -> object:
    """Give Ada roles."""
    return change_roles(crew.k, by="mara", change=NewRoles("ada", roles), now=crew.now, key=crew.key())


def age(crew: Crew) -> object:
    """Write down that Ada is 20 years older."""
    proof, written = ProofOfAge("ada", date(1990, 3, 4), "passport"), Written("mara", crew.now, crew.key())
    return see_age(crew.k, proof=proof, written=written)


TRIES: Mapping[str, Try] = {
    "the role of an assessor": lambda c: role(c, "cook", "assessor"),
    "the role of a manager": lambda c: role(c, "manager"),
    "a code for an assessor": lambda c: first_code(c.k, by="mara", cook="sous", now=c.now, key=c.key()),
    "a code for another manager": lambda c: first_code(c.k, by="mara", cook="olga", now=c.now, key=c.key()),
    "a birth date that frees": age,
    "a roster with an assessor": lambda c: takes_in(c, "2,Ada,,cook assessor\r\n"),
    "a roster with a manager": lambda c: takes_in(c, "2,Ada,,manager\r\n"),
    "a roster with somebody new who manages": lambda c: takes_in(c, "9,Quill,,manager\r\n"),
    "a roster with a birth date that frees": lambda c: takes_in(c, "2,Ada,1990-03-04,\r\n"),
    "a void of the role taken away": gives_back_by_a_void,
}
WAIT_ALONE = {name for name in TRIES if "assessor" not in name and "void" not in name}
"""Where Mara is alone, an assessor's role and code count at once, as one manager and one tablet need it."""


@pytest.fixture
def kitchen(crew: Crew) -> Crew:
    """Return the crew: Ada is 16, the cold side asks 18 years, Ben was an assessor, all but Ada have set a secret."""
    cold = replace(crew.k.content.stations["cold_side"], minimum_age=18, age_reason="powered machine")
    crew.k.content = replace(crew.k.content, stations={**crew.k.content.stations, "cold_side": cold})
    crew.joins("olga", "manager")
    for who in ("mara", "nils", "sous", "olga"):
        crew.k.file.people.set_secret(who, Secret("hash", "passphrase", must_change=False))
    ada = crew.k.people()["ada"]
    crew.k.file.people.change(replace(ada, born=date(2010, 3, 4)), "2", None)
    crew.write("cook_changed", "ben", {"roles": ["cook", "assessor"]})
    crew.write("cook_changed", "ben", {"roles": ["cook"]})
    return crew


def power(crew: Crew) -> object:
    """Return all that could be gained: roles that give power, codes that open, and birth dates."""
    today, people = crew.k.today(crew.now), crew.k.people()
    roles = {who: crew.k.progress().roles(who, today) & {"assessor", "manager"} for who in people}
    codes = [who for who in people if crew.k.file.first_codes.of(who)]
    return {who: held for who, held in roles.items() if held}, codes, people["ada"].born


def entered_since(crew: Crew, seq: int) -> list[Entry]:
    """Return the entries of what gives power, after one of the book."""
    kinds = {"cook_changed", "cook_joined", "first_code_given", "age_seen", "entry_voided"}
    return [one for one in crew.k.file.book.since(seq) if one.kind in kinds]


@pytest.mark.parametrize("name", TRIES)
def test_alone_against_others_nothing_is_gained_until_one_of_them_agrees(kitchen: Crew, name: str) -> None:
    """Tried, tried again a week later, confirmed by oneself: no effect. With Nils it has one, and leaves an entry."""
    before = power(kitchen)
    TRIES[name](kitchen)
    kitchen.later(days=7)
    TRIES[name](kitchen)
    enter_due(kitchen.k, kitchen.now)
    for draft in waiting(kitchen.k):
        assert isinstance(confirm(kitchen.k, draft=draft.id, second=Second("mara", PROOF), now=kitchen.now), Refused)
    assert power(kitchen) == before
    end = kitchen.k.file.book.end()[0]
    saved_one = confirm(kitchen.k, draft=waiting(kitchen.k)[0].id, second=Second("nils", PROOF), now=kitchen.now)
    assert not isinstance(saved_one, Refused), saved_one
    assert power(kitchen) != before
    entry = entered_since(kitchen, end)[0]
    assert (entry.by, entry.body["second"]["by"]) == ("mara", "nils")


@pytest.mark.parametrize("name", TRIES)
def test_where_nobody_else_is_left_it_takes_a_day_or_is_entered_without_a_second(kitchen: Crew, name: str) -> None:
    """The few acts that wait a day have no effect a second before; all say in the book that there was no second."""
    for who in ("nils", "olga"):
        kitchen.k.file.people.set_secret(who, Secret("", "first_code", must_change=True))
    before, end = power(kitchen), kitchen.k.file.book.end()[0]
    TRIES[name](kitchen)
    if name in WAIT_ALONE:
        kitchen.later(hours=23, minutes=59, seconds=59)
        enter_due(kitchen.k, kitchen.now)
        TRIES[name](kitchen)
        assert power(kitchen) == before
        kitchen.now += timedelta(seconds=1)
        enter_due(kitchen.k, kitchen.now)
        if "code" in name:
            TRIES[name](kitchen)
    assert power(kitchen) != before
    entry = next(one for one in entered_since(kitchen, end) if "second" in one.body)
    assert (entry.by, entry.body["second"], "asked" in entry.body) == ("mara", None, name in WAIT_ALONE)


def test_what_bars_counts_at_once(kitchen: Crew) -> None:
    """A role taken away and a birth date that bars: alone, in a file, without a day."""
    takes_in(kitchen, "3,Sous,2010-03-04,cook\r\n")
    assert kitchen.k.people()["sous"].born == date(2010, 3, 4)
    assert kitchen.k.progress().roles("sous", kitchen.k.today(kitchen.now)) == {"cook"}
    assert waiting(kitchen.k) == ()


def rid_of(crew: Crew, who: str, how: str) -> None:
    """Take a manager off: their role, or out of the kitchen, or by a void of what gave it; erase them, too."""
    if how == "role":
        saved(change_roles(crew.k, by="mara", change=NewRoles(who, ("cook",)), now=crew.now, key=crew.key()))
    elif how == "void":
        gave = next(one for one in crew.entries("cook_joined") if one.cook == who)
        correction = Correction(gave.id, "Never was one.", "never")
        saved(void_entry(crew.k, by="mara", correction=correction, now=crew.now, key=crew.key()))
    else:
        saved(cook_leaves(crew.k, by="mara", leaving=Leaving(who, "Moved."), now=crew.now, key=crew.key()))
        if how == "erased":
            written = Written("mara", crew.now, crew.key())
            saved(erase_person(crew.k, erasure=Erasure(who, "entered by mistake"), written=written))


@pytest.mark.parametrize("how", ["role", "leaves", "erased", "void"])
def test_who_gets_rid_of_the_other_managers_waits_a_day_for_two_weeks(kitchen: Crew, how: str) -> None:
    """The role of an assessor, which one who is alone gives at once, waits 24 hours; from the 15th day it does not."""
    kitchen.later(days=1)
    for who in ("nils", "olga"):
        rid_of(kitchen, who, how)
    before = power(kitchen)
    asked = role(kitchen, "cook", "assessor")
    assert isinstance(asked, Waits)
    assert asked.until == kitchen.now + timedelta(hours=24)
    kitchen.later(hours=23, minutes=59)
    enter_due(kitchen.k, kitchen.now)
    assert power(kitchen) == before
    kitchen.later(minutes=1)
    enter_due(kitchen.k, kitchen.now)
    assert power(kitchen) != before
    kitchen.later(days=12)
    assert isinstance(role(kitchen, "cook", "manager", "assessor"), Waits)
    kitchen.later(days=1, minutes=1)
    saved(change_roles(kitchen.k, by="mara", change=NewRoles("sous", ("cook",)), now=kitchen.now, key=kitchen.key()))
    again = NewRoles("sous", ("cook", "assessor"))
    saved(change_roles(kitchen.k, by="mara", change=again, now=kitchen.now, key=kitchen.key()))


def test_whoever_was_taken_off_is_told_of_what_waits(kitchen: Crew) -> None:
    """And of nothing where the other had never set a secret, since they could have confirmed nothing."""
    kitchen.later(days=1)
    for who in ("nils", "olga"):
        rid_of(kitchen, who, "role")
    role(kitchen, "cook", "assessor")
    (told,) = told_of(kitchen.k, person="nils")
    assert (told.by, told.cook, told.about) == ("mara", "ada", "roles")
    assert told_of(kitchen.k, person="ben") == ()
    enter_due(kitchen.k, kitchen.later(days=1))
    assert told_of(kitchen.k, person="nils") == ()
