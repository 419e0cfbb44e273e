"""People by hand: put on the roster, renamed, changed; a bad field is refused by the rule, nothing written."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.outcome import Refused
from trainer.actions.people_by_hand import (
    Put,
    TypedChange,
    TypedPerson,
    add_person,
    change_person,
    listed_person,
    mark_of_person,
    stations_to_go_for,
)
from trainer.actions.signing_in import set_secret
from trainer.actions.standing import Leaving, cook_leaves
from trainer.actions.two_people import waiting

NEW = TypedPerson("Eve Fox", "", date(2001, 5, 1), "es", ("cook",))


def add(crew: Crew, key: str = "new", by: str = "mara", **more: Any) -> Put | Refused:
    """Put somebody on the roster."""
    return add_person(crew.k, by=by, person=replace(NEW, **more), now=crew.now, key=key)


def put(outcome: Put | Refused) -> Put:
    """Return who was put on the roster."""
    assert isinstance(outcome, Put), outcome
    return outcome


def change(crew: Crew, cook: str = "ada", by: str = "mara", seen: str = "", **more: Any) -> Refused | None:
    """Change somebody from what they are."""
    old = listed_person(crew.k, cook)
    assert old is not None
    typed = {"name": old.person.name, "number": old.number or "", "language": old.person.language, "stations": ()}
    wanted = TypedChange(cook, seen=seen or mark_of_person(old), **{**typed, **more})
    return change_person(crew.k, by=by, change=wanted, now=crew.now, key=crew.key())


def test_somebody_is_put_on_the_roster_in_one_act(crew: Crew) -> None:
    """Joined, named and with an age as digests, a path to each station; the same form twice is one person."""
    done = put(add(crew, stations=("cold_side",)))
    assert put(add(crew, stations=("cold_side",))).cook == done.cook
    person = crew.k.people()[done.cook]
    assert (person.name, person.born, person.language) == ("Eve Fox", date(2001, 5, 1), "es")
    kinds = [entry.kind for entry in crew.k.file.book.since(0) if entry.cook == done.cook]
    assert kinds == ["cook_joined", "person_named", "age_seen", "path_opened"]
    assert crew.k.progress().roles(done.cook, TODAY) == {"cook"}
    assert "Eve" not in str([dict(entry.body) for entry in crew.k.file.book.since(0)])


def test_a_number_may_be_missing_for_as_many_as_like(crew: Crew) -> None:
    """Two people without one; a number that is given is theirs alone."""
    put(add(crew))
    put(add(crew, key="two", name="Gil Ruiz"))
    put(add(crew, key="three", name="Hana Ito", number="7"))
    no = refused(add(crew, key="four", name="Ivo Ban", number="7"))
    assert (english(no.reason), no.field) == ("Number 7 is Hana Ito's.", "number")


def test_a_role_that_gives_power_waits_for_a_second_person(crew: Crew) -> None:
    """As in a roster file: they join as a cook, and the assessor's role waits."""
    set_secret(crew.k, person="nils", secret="white spoon in a drawer")
    done = put(add(crew, roles=("cook", "assessor")))
    assert english(done.waits) == "The new role waits until another manager confirms it."
    assert crew.k.progress().roles(done.cook, TODAY) == {"cook"}
    assert [one.cook for one in waiting(crew.k)] == [done.cook]


def test_who_left_joins_again_as_the_same_person(crew: Crew) -> None:
    """By their page; typed as somebody new, the same name is asked about."""
    saved(cook_leaves(crew.k, by="mara", leaving=Leaving("ada", "Moved."), now=crew.now, key="left"))
    no = refused(add(crew, name=" ada "))
    assert (english(no.reason), no.field) == ("Ada was here before and has left.", "name")
    assert put(add(crew, name="Ada", again="ada")).cook == "ada"
    assert crew.k.progress().roles("ada", TODAY) == {"cook"}


@pytest.mark.parametrize(
    ("more", "field", "words"),
    [
        ({"name": " "}, "name", "The name is missing."),
        ({"name": "x" * 121}, "name", "A name has at most 120 characters."),
        ({"name": "=1+1"}, "name", "The name begins with “=”, as a formula does."),
        ({"name": "Eve\u202eFox"}, "name", "The name holds characters that cannot be seen."),
        ({"name": "ADA"}, "name", "Ada is on the roster already."),
        ({"again": "ada", "name": "Ada"}, "name", "Ada is on the roster already."),
        ({"number": "1" * 21}, "number", "A number has at most 20 characters that can be seen."),
        ({"born": date(2026, 3, 3)}, "born", "3 March 2026 is still to come."),
        ({"born": date(1890, 1, 1)}, "born", "1 January 1890 is before 1900. Look at the year."),
        ({"roles": ()}, "roles", "Somebody on the roster has a role at least."),
        ({"roles": ("chef",)}, "roles", "Somebody on the roster has a role at least."),
        ({"by": "sous"}, "", "Sous is no manager."),
    ],
)
def test_a_bad_field_is_refused_at_the_field(crew: Crew, more: dict[str, Any], field: str, words: str) -> None:
    """With the rule; nobody joins."""
    before = crew.k.file.book.end()[0]
    no = refused(add(crew, **more))
    assert (english(no.reason), no.field) == (words, field)
    assert crew.k.file.book.end()[0] == before


def test_two_people_of_one_name_are_told_apart_by_number(crew: Crew) -> None:
    """With a number of their own, another Ada may join."""
    assert put(add(crew, name="Ada", number="12")).cook != "ada"


def test_a_person_is_renamed_and_changed(crew: Crew) -> None:
    """The book has a digest of the new name; a language changes nothing in it; a station opens a path."""
    assert change(crew, name="Ada  Moss", number="31", language="es", stations=("grill",)) is None
    listed = listed_person(crew.k, "ada")
    assert listed is not None
    assert (listed.person.name, listed.person.language, listed.number) == ("Ada Moss", "es", "31")
    assert [entry.cook for entry in crew.entries("person_named")] == ["ada"]
    assert [entry.body["station"] for entry in crew.entries("path_opened")] == ["grill"]
    assert "grill" not in stations_to_go_for(crew.k, "ada", TODAY)
    before = crew.k.file.book.end()[0]
    assert change(crew, language="en") is None
    assert change(crew) is None
    assert crew.k.file.book.end()[0] == before


def test_the_second_of_two_managers_is_told_what_changed(crew: Crew) -> None:
    """What the first saved stands."""
    old = listed_person(crew.k, "ada")
    assert old is not None
    assert change(crew, name="Ada Moss") is None
    no = refused(change(crew, name="Ada Reed", by="nils", seen=mark_of_person(old)))
    words = "Since you looked, somebody changed this person: now Ada Moss, number none. Nothing was saved."
    assert english(no.reason) == words
    assert crew.k.people()["ada"].name == "Ada Moss"


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"name": ""}, "The name is missing."),
        ({"number": "1" * 21}, "A number has at most 20 characters that can be seen."),
        ({"cook": "mara"}, "Nobody decides this about themselves."),
        ({"by": "sous"}, "Sous is no manager."),
    ],
)
def test_a_change_that_cannot_be_is_refused(crew: Crew, more: dict[str, Any], words: str) -> None:
    """Nothing is written."""
    before = crew.k.file.book.end()[0]
    assert english(refused(change(crew, **more)).reason) == words
    assert crew.k.file.book.end()[0] == before
