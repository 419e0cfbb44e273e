"""Looking at a sign-off again, blind: what is saved, what is refused, and that one of two wins.

Spot checks of those who sign: US Navy, Surface Force Training Manual, Section 3 (from memory).
"""

from __future__ import annotations

import pytest

from tests.actions.crew import Crew, refused, saved
from tests.actions.test_entitling import signed
from tests.actions.test_handing_on import handed
from tests.printed import english
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.outcome import Outcome
from trainer.actions.rechecking import OFFERED, Recheck, look_again, offered_to
from trainer.kitchen.book import Entry
from trainer.kitchen.proof import SIGNED
from trainer.kitchen.rechecks import lot


@pytest.fixture
def two(crew: Crew) -> Crew:
    """Return the crew with Nils, who may sign on the cold side too."""
    crew.clears("nils")
    return crew


def looks(
    crew: Crew,
    practical: str,
    found: str = "same",
    *,
    by: str = "nils",
    note: str = "",
    points: tuple[str, ...] = (),
    key: str = "",
) -> Outcome:
    """Look at a sign-off again."""
    recheck = Recheck(practical, found, points, note)
    return look_again(crew.k, by=by, recheck=recheck, now=crew.now, key=key or crew.key())


def why(outcome: Outcome) -> str:
    """Return the reason of a refusal."""
    return english(refused(outcome).reason)


def voided(crew: Crew, entry: Entry) -> None:
    """Let Mara void an entry."""
    saved(void_entry(crew.k, by="mara", correction=Correction(entry.id, "Wrong."), now=crew.now, key=crew.key()))


def test_what_is_found_is_an_entry_about_the_cook(two: Crew) -> None:
    """With the practical it is about, the points, and the note beside the book; it is a signature."""
    first = signed(two)
    entry = saved(looks(two, first.id, "not yet", note="Too thin.", points=("weights", "boil")))
    assert (entry.kind, entry.cook, entry.by) == ("rechecked", "ada", "nils")
    kept = {"practical": first.id, "found": "not yet", "points": ["weights", "boil"], "note": "Too thin."}
    assert {name: entry.body[name] for name in kept} == kept
    assert "rechecked" in SIGNED


def test_a_not_yet_takes_no_clearance(two: Crew) -> None:
    """What is to be done is a manager's to say."""
    first = signed(two)
    day = two.k.day(two.k.today(two.now))
    station = day.rules.stations["cold_side"]
    assert day.is_cleared("ada", station)
    saved(looks(two, first.id, "not yet", note="Too thin."))
    assert two.k.day(two.k.today(two.now)).is_cleared("ada", station)


def test_of_two_at_once_the_first_to_sign_counts(two: Crew) -> None:
    """The other reads that it was looked at; the first, sent twice, is saved once."""
    first = signed(two)
    two.joins("olga", "cook", "assessor")
    two.clears("olga")
    entry = saved(looks(two, first.id, key="mine"))
    assert "Somebody has looked at this one again already" in why(looks(two, first.id, by="olga"))
    assert saved(looks(two, first.id, key="mine")) == entry
    assert len(two.entries("rechecked")) == 1


def test_only_a_sign_off_that_stands_is_looked_at_again(two: Crew) -> None:
    """Not what is not in the book or is something else, voided meanwhile, no sign-off, or watched again since."""
    assert why(looks(two, "nowhere")) == "There is no practical “nowhere” in the book."
    reading = saved(two.reads("ben", "cold_sauces"))
    assert why(looks(two, reading.id)) == f"There is no practical “{reading.id}” in the book."
    first = signed(two)
    voided(two, first)
    assert why(looks(two, first.id)).startswith("That sign-off is voided")
    second = signed(two)
    practical = two.begins_practical()
    not_yet = saved(two.signs(practical))
    assert not_yet.body["verdict"] == "not yet"
    assert why(looks(two, not_yet.id)).startswith("That practical is no sign-off")
    assert why(looks(two, second.id)).startswith("The cook was watched at this again since")


def test_after_ninety_days_it_is_too_late(two: Crew) -> None:
    """The 90th day counts, the 91st not."""
    first, other = signed(two), signed(two, "ben")
    two.later(days=89)
    saved(looks(two, first.id))
    two.later(days=1)
    assert why(looks(two, other.id)) == "That was signed off more than 90 days ago. Take the next."


def test_neither_who_signed_nor_who_saw_a_point_nor_the_cook(two: Crew) -> None:
    """A practical handed on was seen by both."""
    practical = two.begins_practical()
    two.sees(practical)
    first = saved(two.signs(handed(two, practical)))
    assert first.by == "nils"
    for who in ("nils", "sous"):
        assert why(looks(two, first.id, by=who)) == "You saw what was found the first time: somebody else looks again."
    assert why(looks(two, first.id, by="ada")) == "Nobody signs their own work."
    assert why(looks(two, first.id, by="mara")) == "Mara is no assessor."


def test_what_was_found_is_said_whole(two: Crew) -> None:
    """One of the two words; a not yet with what was not there; only points of that checklist; plain text."""
    first = signed(two).id
    for outcome, field, words in (
        (looks(two, first, ""), "found", "Choose what you found: as it should be, or not yet."),
        (looks(two, first, "not yet", note=" "), "note", "Write what was not there yet. It stays in the book."),
        (looks(two, first, points=("salt",)), "points", "There is no point “salt” on this checklist."),
        (looks(two, first, note="x" * 501), "note", "The note has 501 characters; it may have 500."),
    ):
        assert (refused(outcome).field, why(outcome)) == (field, words)


def test_a_point_that_must_be_met_is_not_missed_by_what_is_as_it_should_be(two: Crew) -> None:
    """A guard that was off is a not yet; a point of the counted ones may be missed, as it may in a practical."""
    first = signed(two).id
    outcome = looks(two, first, points=("guard_on",))
    assert why(outcome) == "“guard on before power” must be met. Say not yet, or take the tick away."
    assert saved(looks(two, first, points=("told",))).body["points"] == ["told"]


def test_three_are_offered_at_most_by_lot_of_those_one_may(two: Crew) -> None:
    """Four sign-offs by Sous, and Sous' own: Nils is offered the three lowest lots, Sous none of them."""
    found = [signed(two).id, signed(two, "ben").id]
    for who in ("cy", "dee"):
        two.joins(who, "cook")
        found.append(signed(two, who).id)
    of_others = [one.id for one in two.entries("practical_watched") if "nils" not in (one.cook, one.by)]
    assert set(found) < set(of_others)
    day = two.k.day(two.k.today(two.now))
    assert [one.line.entry for one in offered_to(two.k, "nils", day)] == sorted(of_others, key=lot)[:OFFERED]
    assert not {one.line.entry for one in offered_to(two.k, "sous", day)} & set(found)
