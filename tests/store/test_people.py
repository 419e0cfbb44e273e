"""Names, birth dates and secrets: in the people tables alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tests.store.kitchens import NOON, deed, new_kitchen
from trainer.kitchen.progress import Person
from trainer.store.drafts import Draft
from trainer.store.people import Secret, comparable, tidy
from trainer.store.problems import NumberTaken
from trainer.store.secret_hash import hash_secret, is_right

ANA = Person("ana", "Ana Brandt", date(1990, 2, 28), "de")
ZOE = Person("zoe", "Zoë  Rou\u0308x", None)


def test_people_come_back_by_id_in_order_of_name(tmp_path: Path) -> None:
    """Names are kept in Unicode form C with single spaces."""
    people = new_kitchen(tmp_path).people
    people.add(ZOE, "007")
    people.add(ANA)
    assert list(people.all()) == ["ana", "zoe"]
    assert people.find("ana") == ANA
    assert people.all()["zoe"].name == "Zoë Roüx"
    assert people.find("bo") is None


def test_a_number_keeps_its_leading_zeros_and_belongs_to_one_person(tmp_path: Path) -> None:
    """The second person is refused, by name; a person without a number is no clash."""
    people = new_kitchen(tmp_path).people
    people.add(ZOE, "007", date(2026, 1, 2))
    people.add(ANA)
    with pytest.raises(NumberTaken, match="'007' belongs to Zoë"):
        people.change(ANA, "007")
    assert [(one.person.id, one.number, one.started) for one in people.listed()] == [
        ("ana", None, None),
        ("zoe", "007", date(2026, 1, 2)),
    ]


def test_a_change_keeps_what_it_does_not_name(tmp_path: Path) -> None:
    """Number and first day stay where none is given."""
    people = new_kitchen(tmp_path).people
    people.add(ANA, "1", date(2026, 1, 2))
    people.change(replace(ANA, name="Ana Roth"))
    people.rename("ana", "Ana Roth-Lund")
    (listed,) = people.listed()
    assert (listed.person.name, listed.number, listed.started) == ("Ana Roth-Lund", "1", date(2026, 1, 2))


def test_spellings_of_one_name_are_comparable() -> None:
    """Case, spaces and composed or not: Unicode Standard Annex 15, form C."""
    assert comparable("ZOE\u0308  roux ") == comparable("Zoë Roux")
    assert tidy(" a\n b ") == "a b"


def test_no_name_birth_date_or_secret_is_in_the_book(tmp_path: Path) -> None:
    """The book knows ids alone, so erasing a person leaves it whole."""
    file = new_kitchen(tmp_path)
    file.people.add(ANA)
    file.people.set_secret("ana", Secret("a hash", "pin", False))
    file.drafts.put(Draft("d", "sitting", "saute", "ana", "ana", {}, NOON))
    file.book.append(deed(1))
    file.people.erase("ana")
    left = file._connections.read('SELECT kitchen, id, kind, at, cook, "by", body, key, previous, hash FROM book')
    assert not any("Brandt" in str(value) or "1990" in str(value) for value in left[0])
    assert file.verify().is_whole
    assert (file.people.find("ana"), file.people.secret_of("ana"), file.drafts.list()) == (None, None, ())


def test_a_secret_comes_back_with_its_kind_and_its_end(tmp_path: Path) -> None:
    """A new one takes the place of the old."""
    people = new_kitchen(tmp_path).people
    people.set_secret("ana", Secret("a hash", "pin", False))
    code = Secret("another", "first_code", True, NOON)
    people.set_secret("ana", code)
    assert people.secret_of("ana") == code
    assert people.secret_of("bo") is None


@pytest.mark.usefixtures("full_cost")
def test_secrets_are_hashed_with_the_named_cost() -> None:
    """OWASP Password Storage Cheat Sheet, Argon2id: m=19456 (19 MiB), t=2, p=1."""
    kept = hash_secret("70281936")
    assert kept.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
    assert is_right(kept, "70281936")
    assert not is_right(kept, "70281937")
    assert kept != hash_secret("70281936")


def test_two_keyboards_spellings_of_one_passphrase_are_one() -> None:
    """NIST SP 800-63B-4, 3.1.1.2: Unicode is normalised before hashing (section number from memory)."""
    assert is_right(hash_secret("crème brûlée at nine"), "cre\u0300me bru\u0302le\u0301e at nine")


def test_no_hash_and_a_broken_hash_are_never_right() -> None:
    """Nobody gets in where nothing is kept."""
    assert not is_right("", "")
    assert not is_right("", "a secret that nobody has")
    assert not is_right("$argon2id$broken", "x")
