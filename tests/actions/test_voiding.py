"""A void: a writer's slip for no day, a manager's from today or for no day, and what leans on it."""

from __future__ import annotations

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.actions.test_entitling import signed
from tests.actions.test_stopping import stopped
from tests.printed import english
from trainer.actions.confirming import confirm, enter_due
from trainer.actions.correcting import Correction, Counts, void_entry
from trainer.actions.leaning import Upheld, leaning_entries, marked, uphold
from trainer.actions.outcome import Outcome
from trainer.actions.two_people import Second, Waits
from trainer.kitchen.book import Entry
from trainer.store.people import Secret


def void(crew: Crew, entry: Entry, by: str = "mara", counts: Counts = "from today", key: str = "") -> Outcome | Waits:
    """Void an entry as wrong."""
    correction = Correction(entry.id, "It was another cook.", counts)
    return void_entry(crew.k, by=by, correction=correction, now=crew.now, key=key or crew.key())


@pytest.fixture
def chain(crew: Crew) -> tuple[Entry, Entry, Entry]:
    """Return a sign-off of Sous, one of Ada by Sous, and one of Ben by Ada, who was made an assessor."""
    of_sous = next(entry for entry in crew.entries("practical_watched") if entry.cook == "sous")
    of_ada = signed(crew, "ada")
    crew.write("cook_changed", "ada", {"roles": ["cook", "assessor"]})
    given = {"scope": {"all": True}, "from": "2026-03-02", "until": "2026-12-31", "may": ["sign"]}
    crew.write("authority_given", "ada", given)
    practical = crew.begins_practical("ben", by="ada")
    crew.sees(practical)
    of_ben = saved(crew.signs(practical))
    crew.later(minutes=11)
    return of_sous, of_ada, of_ben


def two_managers(crew: Crew) -> None:
    """Let both managers have a secret."""
    for who in ("mara", "nils"):
        crew.k.file.people.set_secret(who, Secret("hash", "passphrase", must_change=False))


def test_a_slip_of_its_writer_counts_for_no_day(crew: Crew) -> None:
    """Within ten minutes, with the reason “slip” where none is typed; yesterday's board would not know it either."""
    entry = saved(crew.reads("ada", "cold_sauces"))
    correction = Correction(entry.id, " ")
    written = saved(void_entry(crew.k, by="ada", correction=correction, now=crew.now, key=crew.key()))
    assert written.body == {"entry": entry.id, "counts": "never", "reason": "slip", "leaning": []}
    assert crew.k.progress().record("ada").as_of(TODAY).read == ()


def test_an_answer_a_stop_and_a_trust_event_are_no_slips(crew: Crew) -> None:
    """Each is refused to its writer, and a manager does it: a quiz, an authority, a role."""
    quiz = crew.passes_quiz("ada")
    found = refused(void_entry(crew.k, by="ada", correction=Correction(quiz.id, "x"), now=crew.now, key=crew.key()))
    assert english(found.who_can) == "A manager can do this."
    role = crew.write("cook_changed", "ben", {"roles": ["cook", "assessor"]})
    assert saved(void(crew, role)).body["counts"] == "from today"


def test_a_manager_chooses_from_when_it_counts_no_longer(crew: Crew) -> None:
    """From today, or for no day; nothing else."""
    entry = crew.write("technique_read", "ada", {"technique": "cold_sauces", "edition": 1})
    crew.later(minutes=11)
    correction = Correction(entry.id, "x", "soon")  # type: ignore[arg-type]
    found = refused(void_entry(crew.k, by="mara", correction=correction, now=crew.now, key=crew.key()))
    assert found.field == "counts"
    assert saved(void(crew, entry, counts="never")).body["counts"] == "never"


def test_a_void_lists_what_leans_on_it_step_by_step(crew: Crew, chain: tuple[Entry, Entry, Entry]) -> None:
    """Ada's sign-off by Sous, and Ben's by Ada, lean on that of Sous; they count on, marked."""
    of_sous, of_ada, of_ben = chain
    assert leaning_entries(crew.k, of_sous.id) == (of_ada.id, of_ben.id)
    assert leaning_entries(crew.k, of_ben.id) == ()
    written = saved(void(crew, of_sous))
    assert written.body["leaning"] == [of_ada.id, of_ben.id]
    assert {entry: [one.id for one in voids] for entry, voids in marked(crew.k).items()} == {
        of_ada.id: [written.id], of_ben.id: [written.id],
    }  # fmt: skip
    assert crew.k.day(TODAY).is_cleared("ben", crew.k.content.stations["cold_side"])


def test_of_an_older_signature_the_signers_clearance_that_day_is_what_it_leans_on(crew: Crew) -> None:
    """An entry without `entitled_by`, as programs wrote before."""
    of_sous = next(entry for entry in crew.entries("practical_watched") if entry.cook == "sous")
    said = {"points": [], "verdict": "meets it", "reasons": [], "note": ""}
    body = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", **said}
    older = crew.write("practical_watched", "ada", body, by="sous")
    assert leaning_entries(crew.k, of_sous.id) == (older.id,)


def test_a_manager_says_of_each_that_it_stands(crew: Crew, chain: tuple[Entry, Entry, Entry]) -> None:
    """With a reason, once, and not about themselves; then it is marked no more."""
    of_sous, of_ada, of_ben = chain
    written = saved(void(crew, of_sous))
    upheld = Upheld(of_ada.id, written.id, "I saw it myself.")
    assert (
        english(refused(uphold(crew.k, by="sous", upheld=upheld, now=crew.now, key="a")).reason)
        == "Sous is no manager."
    )
    blank = Upheld(of_ada.id, written.id, " ")
    assert refused(uphold(crew.k, by="mara", upheld=blank, now=crew.now, key="b")).field == "reason"
    first = saved(uphold(crew.k, by="mara", upheld=upheld, now=crew.now, key="c"))
    assert saved(uphold(crew.k, by="mara", upheld=upheld, now=crew.now, key="c")) == first
    assert list(marked(crew.k)) == [of_ben.id]
    assert "said to stand already" in english(
        refused(uphold(crew.k, by="mara", upheld=upheld, now=crew.now, key="d")).reason
    )


def test_what_others_lean_on_takes_a_second_person(crew: Crew, chain: tuple[Entry, Entry, Entry]) -> None:
    """Nothing is voided before the second's word; alone it counts at once."""
    of_sous, of_ada, of_ben = chain
    two_managers(crew)
    assert isinstance(void(crew, of_sous, key="ask"), Waits)
    assert crew.entries("entry_voided") == []
    written = saved(confirm(crew.k, draft="ask", second=Second("nils", {"how": "pin"}), now=crew.now))
    assert (written.by, written.body["second"]["by"], written.body["leaning"]) == (
        "mara",
        "nils",
        [of_ada.id, of_ben.id],
    )
    saved(void(crew, of_ben))


def test_the_void_of_a_stop_waits_a_day_where_a_manager_is_alone(crew: Crew) -> None:
    """What frees may wait: the cook is off the station until then."""
    entry = stopped(crew)
    crew.later(minutes=11)
    assert isinstance(void(crew, entry, key="ask"), Waits)
    crew.later(hours=23)
    assert enter_due(crew.k, crew.now) == ()
    crew.later(hours=1)
    (done,) = enter_due(crew.k, crew.now)
    assert (done.entry.kind, done.entry.body["second"]) == ("entry_voided", None)
    assert done.entry.body["asked"]
