"""A manager lifts the wait after a failed quiz: with a reason, never their own, and the fail stands."""

from __future__ import annotations

from typing import Any

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.lifting import Wait, lift_wait
from trainer.actions.outcome import Outcome
from trainer.actions.sitting import finish_sitting, sits_again_from, start_sitting
from trainer.actions.sitting_drafts import Sitting
from trainer.kitchen.book import Entry


def fails_quiz(crew: Crew, cook: str = "ada") -> Entry:
    """Let a person answer everything wrong."""
    sitting = crew.begins_sitting(cook)
    crew.answers(sitting, right=0)
    return saved(finish_sitting(crew.k, sitting=sitting.id, now=crew.now, key=crew.key()))


def lifted_by(crew: Crew, by: str, cook: str = "ada", **changes: Any) -> Outcome:
    """Let a person lift the wait."""
    key = changes.pop("key", None) or crew.key()
    wait = Wait(cook, **{"technique": "fresh_pasta", "reason": "The scale was broken.", **changes})
    return lift_wait(crew.k, by=by, wait=wait, now=crew.now, key=key)


def test_a_lifted_wait_lets_the_cook_sit_again_at_once(crew: Crew) -> None:
    """The book keeps who lifted it, after which sitting and why; the quiz may be started the same day."""
    failed = fails_quiz(crew)
    entry = saved(lifted_by(crew, "mara"))
    assert (entry.kind, entry.cook, entry.by) == ("wait_lifted", "ada", "mara")
    assert entry.body == {"technique": "fresh_pasta", "entry": failed.id, "reason": "The scale was broken."}
    assert sits_again_from("ada", "fresh_pasta", crew.k.day(TODAY)) is None
    begun = start_sitting(crew.k, cook="ada", technique="fresh_pasta", seed=9, now=crew.now, key=crew.key())
    assert isinstance(begun, Sitting)
    assert not crew.k.progress().record("ada").as_of(TODAY).sat[-1].passed


def test_the_next_fail_waits_as_the_second(crew: Crew) -> None:
    """Lifting wipes out no fail: after another one it is 3 days, the house's own."""
    fails_quiz(crew)
    saved(lifted_by(crew, "mara"))
    fails_quiz(crew)
    first = sits_again_from("ada", "fresh_pasta", crew.k.day(TODAY))
    assert first is not None
    assert (first - TODAY).days == 3


def test_a_lifting_that_is_voided_counts_no_longer(crew: Crew) -> None:
    """The wait holds again from the day on."""
    fails_quiz(crew)
    entry = saved(lifted_by(crew, "mara"))
    crew.write("entry_voided", "ada", {"entry": entry.id, "reason": "the wrong cook"})
    assert sits_again_from("ada", "fresh_pasta", crew.k.day(TODAY)) is not None


def test_only_a_manager_lifts_and_nobody_their_own(crew: Crew) -> None:
    """The cook and the assessor are told who can; a manager's own wait is for another one."""
    fails_quiz(crew)
    assert english(refused(lifted_by(crew, "ada")).who_can) == "A manager can do this."
    assert english(refused(lifted_by(crew, "sous")).who_can) == "A manager can do this."
    fails_quiz(crew, "nils")
    assert english(refused(lifted_by(crew, "nils", "nils")).who_can) == "Another manager can do this."


@pytest.mark.parametrize(
    ("changes", "field"),
    [({"reason": "  "}, "reason"), ({"reason": "x" * 501}, "reason"), ({"technique": "no such"}, "technique")],
)
def test_a_lifting_needs_a_reason_and_a_wait(crew: Crew, changes: dict[str, str], field: str) -> None:
    """Each refusal names what is wrong, and nothing is written."""
    fails_quiz(crew)
    assert refused(lifted_by(crew, "mara", **changes)).field == field
    assert crew.k.file.book.since(0)[-1].kind == "quiz_sat"


def test_there_is_nothing_to_lift_where_nobody_waits(crew: Crew) -> None:
    """Neither before a fail, nor once the wait is over, nor twice."""
    assert refused(lifted_by(crew, "mara")).field == "technique"
    fails_quiz(crew)
    saved(lifted_by(crew, "mara"))
    assert refused(lifted_by(crew, "mara")).field == "technique"
    fails_quiz(crew)
    crew.later(days=3)
    assert refused(lifted_by(crew, "mara")).field == "technique"


def test_the_same_key_sent_twice_lifts_once(crew: Crew) -> None:
    """A slow connection makes one entry."""
    fails_quiz(crew)
    assert saved(lifted_by(crew, "mara", key="one")) == saved(lifted_by(crew, "mara", key="one"))
    assert [entry.kind for entry in crew.k.file.book.since(0)].count("wait_lifted") == 1
