"""A cook contests what somebody else wrote about them; another manager decides.

ISO/IEC 17024:2012, 9.8 (heading): appeals. A contest is a new entry, and the old one stays.
"""

from __future__ import annotations

from tests.actions.crew import Crew, refused, saved
from tests.actions.test_entitling import signed
from tests.printed import english
from trainer.actions.contesting import Contest, Decision, contest_entry, decide_contest, open_contests
from trainer.actions.outcome import Outcome


def contests(crew: Crew, entry: str, by: str = "ada", words: str = "It was Ben.") -> Outcome:
    """Contest an entry."""
    return contest_entry(crew.k, by=by, contest=Contest(entry, words), now=crew.now, key=crew.key())


def decides(
    crew: Crew, contest: str, by: str = "mara", outcome: str = "stands", reason: str = "Seen by me."
) -> Outcome:
    """Decide a contest."""
    return decide_contest(
        crew.k, by=by, decision=Decision(contest, outcome, "Seen by me."), now=crew.now, key=crew.key()
    )


def test_a_cook_contests_and_a_manager_decides(crew: Crew) -> None:
    """Both in the book, words and reason beside it; the entry counts on, and nothing is open any more."""
    entry = signed(crew)
    contest = saved(contests(crew, entry.id))
    assert (contest.cook, contest.by, contest.body["entry"]) == ("ada", "ada", entry.id)
    assert contest.body["words"] == "It was Ben."
    assert [one.id for one in open_contests(crew.k)] == [contest.id]
    decided = saved(decides(crew, contest.id))
    assert (decided.cook, decided.by, decided.body["outcome"]) == ("ada", "mara", "stands")
    assert "alone" not in decided.body
    assert open_contests(crew.k) == ()


def test_only_ones_own_and_what_somebody_else_wrote(crew: Crew) -> None:
    """Not another cook's entry, not one's own reading, not without words, not twice."""
    entry = signed(crew)
    own = saved(crew.reads("ada", "fresh_pasta"))
    for found in (contests(crew, entry.id, "ben"), contests(crew, own.id)):
        assert english(refused(found).reason) == "You contest what somebody else wrote about you."
    assert refused(contests(crew, entry.id, words=" ")).field == "words"
    saved(contests(crew, entry.id))
    assert (
        english(refused(contests(crew, entry.id)).reason) == "You have contested this already; a manager will decide."
    )


def test_for_fourteen_days(crew: Crew) -> None:
    """The fourteenth day after it counts, the fifteenth not."""
    first, second = signed(crew), signed(crew, "ben")
    crew.later(days=14)
    saved(contests(crew, first.id))
    crew.later(days=1)
    assert "more than 14 days ago" in english(refused(contests(crew, second.id, "ben")).reason)


def test_whoever_wrote_the_entry_does_not_decide_but_where_they_are_alone(crew: Crew) -> None:
    """Mara wrote it: Nils decides. Once Nils has left, Mara does, and the entry says so."""
    entry = crew.write("stood_down", "ada", {"station": "cold_side", "reason": "x"}, by="mara")
    contest = saved(contests(crew, entry.id))
    assert english(refused(decides(crew, contest.id)).reason) == "You wrote the entry that is contested."
    assert english(refused(decides(crew, contest.id, "sous")).reason) == "Sous is no manager."
    assert refused(decides(crew, contest.id, "nils", outcome="maybe")).field == "outcome"
    crew.write("cook_left", "nils", {"reason": "moved"})
    assert saved(decides(crew, contest.id, outcome="wrong")).body["alone"] is True
    assert english(refused(decides(crew, contest.id)).reason) == "That contest is decided already."
