"""Two people: what frees waits for another manager or a day, what bars counts at once, and nobody is locked out.

OWASP ASVS 5.0.0, 2.3.5: high-value business logic flows are restricted to more than one user's approval.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.confirming import confirm, enter_due
from trainer.actions.outcome import Outcome
from trainer.actions.standing import Leaving, NewRoles, change_roles, cook_leaves
from trainer.actions.two_people import Second, Waits, local_second, put_away, waiting
from trainer.store.people import Secret

PROOF = {"how": "passphrase", "at": "2026-03-02T17:00:00.000Z", "device": "d1", "secret_since": ""}


@pytest.fixture
def two(crew: Crew) -> Crew:
    """Return the crew whose managers Mara and Nils have both set a secret."""
    for who in ("mara", "nils"):
        crew.k.file.people.set_secret(who, Secret("hash", "passphrase", must_change=False))
    return crew


def asks(crew: Crew, *roles: str, by: str = "mara", cook: str = "ben", key: str = "ask") -> Outcome | Waits:
    """Ask for roles."""
    return change_roles(crew.k, by=by, change=NewRoles(cook, roles), now=crew.now, key=key)


def waits(outcome: Outcome | Waits) -> Waits:
    """Return what waits; anything else fails the test."""
    assert isinstance(outcome, Waits), outcome
    return outcome


def seconds(crew: Crew, by: str = "nils", draft: str = "ask", reason: str = "") -> Outcome:
    """Confirm as a second person."""
    return confirm(crew.k, draft=draft, second=Second(by, PROOF, reason), now=crew.now)


def roles(crew: Crew, cook: str = "ben") -> set[str]:
    """Return a person's roles now."""
    return set(crew.k.progress().roles(cook, crew.k.today(crew.now)))


@pytest.mark.parametrize("role", ["assessor", "manager"])
def test_a_role_that_gives_power_has_no_effect_before_the_second(two: Crew, role: str) -> None:
    """Not an entry, not a role; a week later still not. Then one entry, by the first, with the second's word."""
    before = two.k.file.book.end()
    assert waits(asks(two, "cook", role)).until is None
    two.later(days=7)
    assert enter_due(two.k, two.now) == ()
    assert (two.k.file.book.end(), roles(two)) == (before, {"cook"})
    entry = saved(seconds(two, reason="Talked it through."))
    assert (entry.kind, entry.cook, entry.by, roles(two)) == ("cook_changed", "ben", "mara", {"cook", role})
    word = entry.body["second"]
    assert (word["by"], word["proof"]) == ("nils", PROOF)
    assert word["reason"] == "Talked it through."
    assert waiting(two.k) == ()


def test_the_same_person_is_no_second(two: Crew) -> None:
    """Nor a cook, nor the one it is about; each is told who can."""
    waits(asks(two, "cook", "manager"))
    assert english(refused(seconds(two, "mara")).reason) == "You asked for this yourself. It takes a second person."
    assert english(refused(seconds(two, "ada")).reason) == "Ada is no manager."
    two.joins("olga", "manager")
    waits(asks(two, "manager", "assessor", cook="olga", key="own"))
    assert english(refused(seconds(two, "olga", "own")).reason) == "Nobody decides this about themselves."
    assert roles(two) == {"cook"}


def test_a_role_that_gives_no_power_counts_at_once(two: Crew) -> None:
    """And so does taking one away."""
    saved(asks(two, "cook", cook="sous"))
    assert roles(two, "sous") == {"cook"}


def test_what_is_taken_away_counts_at_once_and_what_is_given_waits(two: Crew) -> None:
    """An assessor becomes a manager: an assessor no more from this moment, a manager with the second."""
    waits(asks(two, "manager", cook="sous"))
    assert roles(two, "sous") == {"cook"}
    saved(seconds(two))
    assert roles(two, "sous") == {"manager"}


def test_asked_for_twice_it_waits_once(two: Crew) -> None:
    """The same form sent again, and another form with the same in it."""
    assert waits(asks(two, "assessor")) == waits(asks(two, "assessor")) == waits(asks(two, "assessor", key="other"))
    assert len(waiting(two.k)) == 1


def test_a_form_sent_again_after_it_was_entered_gives_the_entry(two: Crew) -> None:
    """From the first and from the second; something else under the key is refused."""
    waits(asks(two, "assessor"))
    entry = saved(seconds(two))
    assert saved(asks(two, "assessor")) == entry
    assert saved(seconds(two)) == entry
    assert "already sent" in english(refused(asks(two, "manager")).reason)


def test_what_is_refused_at_once_does_not_wait(two: Crew) -> None:
    """A cook asks for it, or somebody for themselves, or for a role there is not."""
    assert english(refused(asks(two, "assessor", by="ada")).reason) == "Ada is no manager."
    assert english(refused(asks(two, "manager", "cook", cook="mara")).reason) == "Nobody decides this about themselves."
    assert english(refused(asks(two, "assessor", "king")).reason).startswith("There is no role “king”")
    assert waiting(two.k) == ()


def test_it_is_asked_of_the_kitchen_again_when_it_is_entered(two: Crew) -> None:
    """Ben has left meanwhile: refused, and it stays until it is put away by any manager."""
    waits(asks(two, "assessor"))
    saved(cook_leaves(two.k, by="mara", leaving=Leaving("ben", "moved"), now=two.now, key=two.key()))
    assert english(refused(seconds(two)).reason) == "Ben is not on the roster."
    assert put_away(two.k, by="ada", draft="ask", now=two.now) is not None
    assert put_away(two.k, by="nils", draft="ask", now=two.now) is None
    assert waiting(two.k) == ()
    assert english(refused(seconds(two)).reason) == "That waits no more: it was entered or put away."


def test_a_manager_alone_gives_the_role_of_an_assessor_at_once(crew: Crew) -> None:
    """Nils has set no secret, so he could confirm nothing: no ceremony. The entry says that nobody was the second."""
    entry = saved(asks(crew, "cook", "assessor"))
    assert entry.body == {"roles": ["cook", "assessor"], "second": None}


def test_a_manager_alone_makes_another_manager_in_24_hours(crew: Crew) -> None:
    """A second before the day is over nothing has happened; then the first opening enters it, once."""
    assert waits(asks(crew, "manager", "cook")).until == crew.now + timedelta(hours=24)
    asked = crew.now
    crew.now = asked + timedelta(hours=24) - timedelta(seconds=1)
    assert (enter_due(crew.k, crew.now), roles(crew)) == ((), {"cook"})
    crew.later(seconds=1)
    (done,) = enter_due(crew.k, crew.now)
    assert done.entry.body == {"roles": ["cook", "manager"], "second": None, "asked": "2026-03-02T17:00:00.000Z"}
    assert (enter_due(crew.k, crew.now), roles(crew)) == ((), {"cook", "manager"})


def test_what_can_no_longer_be_entered_is_held_and_not_tried_again(crew: Crew) -> None:
    """It stays on the list until somebody puts it away."""
    waits(asks(crew, "manager"))
    saved(cook_leaves(crew.k, by="mara", leaving=Leaving("ben", "moved"), now=crew.now, key=crew.key()))
    crew.later(days=2)
    before = crew.k.file.book.end()
    assert enter_due(crew.k, crew.now) == ()
    assert waiting(crew.k)[0].body["held"] is True
    assert (enter_due(crew.k, crew.now), crew.k.file.book.end()) == ((), before)


def test_the_first_manager_of_another_never_waits_for_that_other(crew: Crew) -> None:
    """Mara makes Ben a manager alone; until Ben has a secret Mara is still alone, so nothing waits for Ben."""
    crew.write("cook_left", "nils", {"reason": "moved"})
    waits(asks(crew, "manager", "cook"))
    crew.later(days=1)
    enter_due(crew.k, crew.now)
    saved(asks(crew, "cook", "assessor", cook="ada", key="ada"))
    crew.k.file.people.set_secret("ben", Secret("hash", "first_code", must_change=True))
    saved(asks(crew, "cook", cook="ada", key="back"))
    saved(asks(crew, "cook", "assessor", cook="ada", key="again"))
    crew.k.file.people.set_secret("ben", Secret("hash", "passphrase", must_change=False))
    saved(asks(crew, "cook", cook="ada", key="back2"))
    waits(asks(crew, "cook", "assessor", cook="ada", key="now"))


def test_a_command_on_the_machine_counts_as_the_second_at_once(two: Crew) -> None:
    """Of what waits for a person, and of what waits a day."""
    waits(asks(two, "manager"))
    entry = saved(confirm(two.k, draft="ask", second=local_second(two.now), now=two.now))
    assert (entry.body["second"]["by"], entry.body["second"]["proof"]["how"]) == ("local", "local")


def test_the_authority_of_an_assessor_comes_with_the_second(two: Crew) -> None:
    """In the same act, from that day."""
    waits(asks(two, "cook", "assessor"))
    assert two.k.day(TODAY).authorities("ben") == ()
    two.later(days=3)
    saved(seconds(two))
    (one,) = two.k.day(two.k.today(two.now)).authorities("ben")
    assert one.since == TODAY + timedelta(days=3)
