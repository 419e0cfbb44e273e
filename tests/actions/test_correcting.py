"""Voiding an entry."""

from __future__ import annotations

from tests.actions.crew import TODAY, Crew, refused, saved
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.outcome import Outcome


def void(crew: Crew, by: str, entry: str, reason: str = "slip", key: str | None = None) -> Outcome:
    """Void an entry."""
    return void_entry(crew.k, by=by, correction=Correction(entry, reason), now=crew.now, key=key or crew.key())


def test_a_cook_voids_a_slip_within_ten_minutes(crew: Crew) -> None:
    """Named by its id, about its cook; from now on it counts for nothing."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    crew.later(minutes=10)
    written = saved(void(crew, "ada", entry.id, " "))
    assert (written.kind, written.cook, written.by) == ("entry_voided", "ada", "ada")
    assert written.body == {"entry": entry.id, "reason": ""}
    assert crew.k.progress().record("ada").as_of(TODAY).read == ()


def test_after_ten_minutes_a_manager_does_it_with_a_reason(crew: Crew) -> None:
    """The cook is told who can."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    crew.later(minutes=11)
    assert refused(void(crew, "ada", entry.id)).who_can == "A manager."
    assert refused(void(crew, "mara", entry.id, " ")).reason == "A correction needs a reason."
    saved(void(crew, "mara", entry.id))


def test_an_entry_that_is_not_there_is_refused(crew: Crew) -> None:
    """The id is named."""
    assert refused(void(crew, "mara", "nothing")).reason == "There is no entry 'nothing'."


def test_neither_twice_nor_a_void(crew: Crew) -> None:
    """An entry is voided once, and a void stays."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    written = saved(void(crew, "mara", entry.id))
    assert refused(void(crew, "mara", entry.id)).reason == "That entry is voided already."
    assert "never voided" in refused(void(crew, "mara", written.id)).reason


def test_the_same_key_gives_the_same_void(crew: Crew) -> None:
    """Sent again, it is saved, not refused as voided already."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    first = saved(void(crew, "mara", entry.id, key="void"))
    assert saved(void(crew, "mara", entry.id, key="void")) == first


def test_a_reason_is_plain_text(crew: Crew) -> None:
    """Not longer than 500 characters; line breaks are allowed."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    assert refused(void(crew, "mara", entry.id, "x" * 501)).field == "reason"
    saved(void(crew, "mara", entry.id, "wrong cook,\nmeant Ben"))


def test_a_voided_reading_can_be_read_anew(crew: Crew) -> None:
    """A correction is a later entry, never an edit."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    saved(void(crew, "ada", entry.id))
    saved(crew.reads("ada", "cold_sauces"))
    assert len(crew.k.progress().record("ada").as_of(TODAY).read) == 1
