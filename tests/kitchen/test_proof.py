"""How a signer had proved who they are, as an entry keeps it."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from trainer.kitchen.proof import Proof, is_signature, proof_in

AT = datetime(2026, 11, 3, 17, tzinfo=UTC)


@pytest.mark.parametrize("since", [None, AT - timedelta(hours=2)])
def test_a_proof_comes_back_from_the_body_it_is_kept_in(since: datetime | None) -> None:
    """All of it, in texts alone."""
    proof = Proof("pin", AT, "tablet", since)
    assert all(isinstance(value, str) for value in proof.body().values())
    assert proof_in({"proof": proof.body()}) == proof


def test_an_entry_of_an_older_program_has_none() -> None:
    """It was not kept then."""
    assert proof_in({"technique": "sauce"}) is None


@pytest.mark.parametrize(
    ("age", "is_new"), [(timedelta(0), True), (timedelta(hours=24) - timedelta(seconds=1), True), (timedelta(1), False)]
)
def test_a_secret_is_new_for_a_day(age: timedelta, is_new: bool) -> None:
    """One that was never said to be set is not."""
    assert Proof("pin", AT, "tablet", AT - age).is_new is is_new
    assert not Proof("pin", AT, "tablet").is_new


def test_what_gives_or_takes_is_a_signature_and_reading_is_none() -> None:
    """A change of a cook is one where it is about roles."""
    assert is_signature("practical_watched", {})
    assert is_signature("cook_changed", {"roles": ["cook"]})
    assert not is_signature("cook_changed", {"birth": {}})
    assert not is_signature("technique_read", {})
