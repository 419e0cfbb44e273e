"""What a signature keeps: the entries that entitled its writer, and whether the writer trained the cook.

ISO/IEC 17024:2012, 5.2 and 6.2.2 (from memory): who examines has not trained, or it is known. DOE-STD-1012-92,
Figure 2: one signature for trained, one for tested.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.outcome import Outcome
from trainer.actions.showing import Taught, teach_technique
from trainer.actions.working import SupervisedShift, work_shift
from trainer.kitchen.book import Entry


def signed(crew: Crew, cook: str = "ada") -> Entry:
    """Let Sous sign off a cook."""
    practical = crew.begins_practical(cook)
    crew.sees(practical)
    return saved(crew.signs(practical))


def works(crew: Crew, beside: str = "sous", key: str = "", day: int = 0, by: str = "sous") -> Outcome:
    """Write down a shift of Ada's on the cold side."""
    shift = SupervisedShift("ada", "cold_side", TODAY - timedelta(days=day), beside, 40, "breakfast")
    return work_shift(crew.k, by=by, shift=shift, now=crew.now, key=key or crew.key())


def kinds(crew: Crew, entry: Entry, name: str = "entitled_by") -> list[str]:
    """Return the kinds of the entries a body names."""
    found = [crew.k.file.book.numbered(each) for each in entry.body[name]]
    return sorted(each.kind for each in found if each is not None)


def test_a_practical_keeps_what_entitled_its_signer(crew: Crew) -> None:
    """The authority, the role, and what the clearance follows from: the reading and the sign-off of Sous."""
    entry = signed(crew)
    assert kinds(crew, entry) == ["authority_given", "cook_joined", "practical_watched", "technique_read"]
    about = {crew.k.file.book.numbered(each).cook for each in entry.body["entitled_by"]}  # type: ignore[union-attr]
    assert about == {"sous"}
    assert entry.body["taught_by"] == []


def test_a_shift_keeps_it_too_and_sent_again_is_the_same_entry(crew: Crew) -> None:
    """Though what entitles has changed meanwhile: what was typed is the same."""
    first = saved(works(crew, key="shift"))
    assert kinds(crew, first) == ["authority_given", "cook_joined", "practical_watched", "technique_read"]
    crew.clears("sous")
    assert saved(works(crew, key="shift")) == first


def test_a_signature_says_that_the_signer_taught_it(crew: Crew) -> None:
    """Only the signer's own teaching of that technique to that cook counts."""
    for by, cook, technique in (
        ("nils", "ada", "cold_sauces"),
        ("sous", "ada", "fresh_pasta"),
        ("sous", "ben", "cold_sauces"),
    ):
        saved(teach_technique(crew.k, by=by, taught=Taught(cook, technique), now=crew.now, key=crew.key()))
    taught = Taught("ada", "cold_sauces", 25, "Cutting the herbs.")
    own = saved(teach_technique(crew.k, by="sous", taught=taught, now=crew.now, key=crew.key()))
    assert own.body["minutes"] == 25
    assert own.body["what"] == "Cutting the herbs."
    assert signed(crew).body["taught_by"] == [own.id]


def test_a_signature_says_that_the_signer_stood_beside_on_most_shifts(crew: Crew) -> None:
    """One of two is not most; two of three are."""
    crew.joins("ines", "cook", "assessor")
    crew.clears("ines")
    saved(works(crew, beside="ines"))
    crew.later(days=1)
    mine = [saved(works(crew, day=-1))]
    first = crew.begins_practical("ada")
    crew.sees(first)
    assert saved(crew.signs(first)).body["taught_by"] == []
    crew.later(days=1)
    mine.append(saved(works(crew, day=-2)))
    assert signed(crew).body["taught_by"] == [entry.id for entry in mine]


@pytest.mark.parametrize(
    ("by", "taught", "words"),
    [
        ("ada", Taught("ada", "cold_sauces"), "Nobody teaches themselves: write down who showed it."),
        ("sous", Taught("ada", "frying"), "There is no technique “frying”."),
        ("sous", Taught("ada", "cold_sauces", 0), "0 minutes: from 1 to 480 are taken."),
        ("sous", Taught("olga", "cold_sauces"), "olga is not on the roster."),
        ("olga", Taught("ada", "cold_sauces"), "olga is not on the roster."),
        ("sous", Taught("ada", "cold_sauces", 5, "x" * 501), "The text has 501 characters; it may have 500."),
    ],
)
def test_teaching_is_written_down_by_another_person_on_the_roster(
    crew: Crew, by: str, taught: Taught, words: str
) -> None:
    """The value and the rule."""
    found = teach_technique(crew.k, by=by, taught=taught, now=crew.now, key=crew.key())
    assert english(refused(found).reason) == words
