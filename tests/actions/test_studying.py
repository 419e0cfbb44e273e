"""Acknowledging a reading, and how every action writes: one entry a key."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from threading import Thread

from tests.actions.crew import Crew, refused, saved
from tests.kitchen.kitchen_for_tests import with_technique
from tests.printed import english
from trainer.actions.outcome import Outcome
from trainer.actions.step_clocks import StepClock, start_clock
from trainer.actions.studying import acknowledge_reading, keep_place
from trainer.kitchen.technique import Edition, Step


def test_a_reading_names_the_edition_in_force(crew: Crew) -> None:
    """FDA Food Code 2022, 2-103.11 (from memory) wants what was taught to be verifiable: the edition is kept."""
    editions = (*crew.k.content.techniques["cold_sauces"].editions, Edition(2, date(2026, 3, 2), "New oil.", False))
    crew.k.content = with_technique(crew.k.content, "cold_sauces", editions=editions)
    entry = saved(crew.reads("ada", "cold_sauces"))
    assert (entry.kind, entry.cook, entry.by) == ("technique_read", "ada", "ada")
    assert entry.body == {"technique": "cold_sauces", "edition": 2}


def test_a_technique_nobody_knows_is_refused(crew: Crew) -> None:
    """The value is named."""
    assert english(refused(crew.reads("ada", "sushi")).reason) == "There is no technique “sushi”."


def test_somebody_who_left_reads_no_more(crew: Crew) -> None:
    """Not on the roster."""
    crew.write("cook_left", "ada", {"reason": "moved"})
    assert english(refused(crew.reads("ada", "cold_sauces")).reason) == "Ada is not on the roster."


def test_the_same_key_gives_the_same_entry(crew: Crew) -> None:
    """Sent again a minute later, by a bad line or a second tap: one entry, and it says saved."""
    first = saved(acknowledge_reading(crew.k, cook="ada", technique="cold_sauces", now=crew.now, key="one"))
    again = acknowledge_reading(crew.k, cook="ada", technique="cold_sauces", now=crew.later(minutes=1), key="one")
    assert saved(again) == first
    assert len(crew.entries("technique_read")) == 2  # the other is Sous's own


def test_the_same_key_answers_even_when_the_act_would_be_refused_by_now(crew: Crew) -> None:
    """What is in the book is saved, though its writer has left since."""
    first = saved(acknowledge_reading(crew.k, cook="ada", technique="cold_sauces", now=crew.now, key="one"))
    crew.write("cook_left", "ada", {"reason": "moved"})
    again = acknowledge_reading(crew.k, cook="ada", technique="cold_sauces", now=crew.now, key="one")
    assert saved(again) == first


def test_a_key_names_one_deed_and_no_other(crew: Crew) -> None:
    """The same key with something else in it is refused, and nothing is written."""
    saved(acknowledge_reading(crew.k, cook="ada", technique="cold_sauces", now=crew.now, key="one"))
    other = acknowledge_reading(crew.k, cook="ada", technique="fresh_pasta", now=crew.now, key="one")
    assert "already sent" in english(refused(other).reason)


def test_a_key_the_book_will_not_take_is_refused(crew: Crew) -> None:
    """A key comes from a form and may be anything."""
    outcome = acknowledge_reading(crew.k, cook="ada", technique="cold_sauces", now=crew.now, key="")
    assert "key" in english(refused(outcome).reason)


def test_sixteen_sends_of_one_key_at_once_are_one_entry(crew: Crew) -> None:
    """All are told saved, with the same entry."""
    outcomes: list[Outcome] = []

    def send() -> None:
        outcomes.append(acknowledge_reading(crew.k, cook="ada", technique="cold_sauces", now=crew.now, key="one"))

    senders = [Thread(target=send) for _ in range(16)]
    for sender in senders:
        sender.start()
    for sender in senders:
        sender.join()
    assert len({saved(outcome).id for outcome in outcomes}) == 1
    assert len(outcomes) == 16


def test_a_place_is_one_a_technique_a_clock_one_a_step_and_both_go_with_the_person(crew: Crew) -> None:
    """They do not grow with the looking, and nothing of a person erased is left."""
    steps = tuple(Step(name, "time", "", "", "", "", "", (), 60) for name in ("one", "two"))
    technique = replace(crew.k.content.techniques["cold_sauces"], steps=steps)
    for step in ("one", "two", "one"):
        keep_place(crew.k, cook="ada", technique=technique, step=step, now=crew.now)
        start_clock(crew.k, cook="ada", technique=technique, clock=StepClock(step), now=crew.now)
    assert [draft.kind for draft in crew.k.file.drafts.list(cook="ada")] == ["clock", "clock", "place"]
    crew.k.file.people.erase("ada")
    assert crew.k.file.drafts.list() == ()
