"""Voiding an entry."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.correcting import BadQuestion, Correction, void_entry, void_question
from trainer.actions.outcome import Outcome
from trainer.actions.sitting import finish_sitting, sits_again_from
from trainer.actions.two_people import Waits
from trainer.kitchen.book import Entry


def void(crew: Crew, by: str, entry: str, reason: str = "slip", key: str | None = None) -> Outcome | Waits:
    """Void an entry."""
    return void_entry(crew.k, by=by, correction=Correction(entry, reason), now=crew.now, key=key or crew.key())


def test_a_cook_voids_a_slip_within_ten_minutes(crew: Crew) -> None:
    """Named by its id, about its cook; as a slip it counts for no day."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    crew.later(minutes=10)
    written = saved(void(crew, "ada", entry.id, " "))
    assert (written.kind, written.cook, written.by) == ("entry_voided", "ada", "ada")
    assert written.body == {"entry": entry.id, "counts": "never", "reason": "slip", "leaning": []}
    assert crew.k.progress().record("ada").as_of(TODAY).read == ()


def test_after_ten_minutes_a_manager_does_it_with_a_reason(crew: Crew) -> None:
    """The cook is told who can."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    crew.later(minutes=11)
    assert english(refused(void(crew, "ada", entry.id)).who_can) == "A manager can do this."
    assert english(refused(void(crew, "mara", entry.id, " ")).reason) == "A correction needs a reason."
    saved(void(crew, "mara", entry.id))


def test_an_entry_that_is_not_there_is_refused(crew: Crew) -> None:
    """The id is named."""
    assert english(refused(void(crew, "mara", "nothing")).reason) == "There is no entry “nothing”."


def test_neither_twice_nor_a_void(crew: Crew) -> None:
    """An entry is voided once, and a void stays."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    written = saved(void(crew, "mara", entry.id))
    assert english(refused(void(crew, "mara", entry.id)).reason) == "That entry is voided already."
    assert "never voided" in english(refused(void(crew, "mara", written.id)).reason)


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


def sat_by(crew: Crew, cook: str = "ada", right: int = 3) -> Entry:
    """Let a cook sit the quiz of fresh pasta, so many of four right."""
    sitting = crew.begins_sitting(cook)
    crew.answers(sitting, right=right)
    return saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))


def void_in(crew: Crew, by: str, entry: Entry, place: int = 0, **changes: Any) -> Outcome:
    """Void one question of a sitting."""
    asked = entry.body["questions"][place]
    named = {"family": asked["family"], "seed": asked["seed"], "reason": "The figure is wrong.", **changes}
    key = named.pop("key", None) or crew.key()
    return void_question(crew.k, by=by, question=BadQuestion(entry.id, **named), now=crew.now, key=key)


def test_a_manager_voids_a_question_and_the_sitting_is_scored_again(crew: Crew) -> None:
    """Three of four pass with three needed; without a right one two of three do not (CLI-97-10: whole numbers)."""
    entry = sat_by(crew)
    assert crew.k.progress().record("ada").as_of(TODAY).sat[-1].passed
    written = saved(void_in(crew, "mara", entry))
    assert (written.kind, written.cook, written.by) == ("question_voided", "ada", "mara")
    asked = entry.body["questions"][0]
    assert written.body == {
        "family": asked["family"], "seed": asked["seed"], "entry": entry.id, "reason": "The figure is wrong.",
    }  # fmt: skip
    now = crew.k.progress().record("ada").as_of(TODAY).sat[-1]
    assert (now.right, now.asked, now.passed) == (2, 3, False)
    assert now.before is not None
    assert (now.before.right, now.before.asked, now.before.passed) == (3, 4, True)


def test_the_wait_after_a_fail_follows_too(crew: Crew) -> None:
    """Two of four fail; of three with one wrong answer voided two are under three; with both wrong voided it passes."""
    entry = sat_by(crew, right=2)
    day = crew.k.day(TODAY)
    assert sits_again_from("ada", "fresh_pasta", day) is not None
    saved(void_in(crew, "mara", entry, place=2))
    saved(void_in(crew, "mara", entry, place=3))
    assert sits_again_from("ada", "fresh_pasta", crew.k.day(TODAY)) is None


def test_only_a_manager_voids_a_question_and_nobody_their_own(crew: Crew) -> None:
    """The cook and the assessor are told who can; a manager's own sitting is for another one."""
    entry = sat_by(crew)
    assert english(refused(void_in(crew, "ada", entry)).who_can) == "A manager can do this."
    assert english(refused(void_in(crew, "sous", entry)).who_can) == "A manager can do this."
    own = sat_by(crew, "nils")
    assert english(refused(void_in(crew, "nils", own)).who_can) == "Another manager can do this."


def test_a_question_is_voided_once_and_with_a_reason(crew: Crew) -> None:
    """The same key gives the same entry; another one is refused."""
    entry = sat_by(crew)
    assert refused(void_in(crew, "mara", entry, reason=" ")).field == "reason"
    first = saved(void_in(crew, "mara", entry, key="void"))
    assert saved(void_in(crew, "mara", entry, key="void")) == first
    assert english(refused(void_in(crew, "mara", entry)).reason) == "That question is voided already."


def test_a_question_is_voided_where_it_was_asked(crew: Crew) -> None:
    """Another seed, another entry, an entry of another kind: each is named."""
    entry = sat_by(crew)
    assert refused(void_in(crew, "mara", entry, seed=1)).field == "question"
    nowhere = BadQuestion("nothing", "discard_time", 1, "x")
    found = void_question(crew.k, by="mara", question=nowhere, now=crew.now, key=crew.key())
    assert english(refused(found).reason) == "There is no sitting “nothing”."
    read = replace(nowhere, entry=saved(crew.reads("ben", "fresh_pasta")).id)
    assert refused(void_question(crew.k, by="mara", question=read, now=crew.now, key=crew.key())).field == "entry"


def test_a_voided_question_counts_again_once_the_void_is_voided(crew: Crew) -> None:
    """A manager takes it back by a later entry."""
    written = saved(void_in(crew, "mara", sat_by(crew)))
    saved(void(crew, "mara", written.id))
    assert crew.k.progress().record("ada").as_of(TODAY).sat[-1].asked == 4
