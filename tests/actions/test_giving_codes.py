"""First codes that open the name of somebody who signs for others: two people, or a day, and nobody is locked out.

OWASP ASVS 5.0.0, 2.3.5: high-value business logic flows are restricted to more than one user's approval.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.actions.crew import Crew, refused, saved
from tests.printed import english
from trainer.actions.confirming import confirm, enter_due
from trainer.actions.giving_codes import FirstCode, code_is_due, codes_asked, first_code
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.signing_in import NO_MATCH, Done, NewSession, codes_to_tell, set_secret, sign_in
from trainer.actions.standing import Leaving, NewRoles, change_roles, cook_leaves
from trainer.actions.two_people import Second, Waits, local_second, put_away, waiting
from trainer.store.people import Secret

PROOF = {"how": "passphrase", "at": "2026-03-02T17:00:00.000Z", "device": "d1", "secret_since": ""}
PIN = "80362714"


@pytest.fixture
def two(crew: Crew) -> Crew:
    """Return the crew whose managers Mara and Nils, and whose assessor Sous, have set a secret."""
    for who in ("mara", "nils", "sous"):
        crew.k.file.people.set_secret(who, Secret("hash", "passphrase", must_change=False))
    return crew


@pytest.fixture
def one(two: Crew) -> Crew:
    """Return the crew after Mara has left: Nils alone can prove a manager's word, and Olga manages without a secret."""
    saved(cook_leaves(two.k, by="nils", leaving=Leaving("mara", "moved"), now=two.now, key="gone"))
    two.joins("olga", "manager")
    return two


def asks(crew: Crew, cook: str = "sous", by: str = "mara", key: str = "ask") -> FirstCode | Waits | Refused:
    """Ask for a first code."""
    return first_code(crew.k, by=by, cook=cook, now=crew.now, key=key)


def seconds(crew: Crew, by: str = "nils", draft: str = "ask") -> Outcome:
    """Confirm as a second person."""
    return confirm(crew.k, draft=draft, second=Second(by, PROOF), now=crew.now)


def code(outcome: object) -> FirstCode:
    """Return the code that was made; anything else fails the test."""
    assert isinstance(outcome, FirstCode), outcome
    return outcome


def comes_in(crew: Crew, cook: str, secret: str) -> bool:
    """Return whether a secret opens a session on a tablet."""
    device, _ = crew.k.file.devices.enrol(crew.key(), "mara", crew.now)
    outcome = sign_in(crew.k, device=device.id, person=cook, secret=secret, now=crew.now)
    assert isinstance(outcome, NewSession) or outcome == NO_MATCH
    return isinstance(outcome, NewSession)


@pytest.mark.parametrize("cook", ["sous", "olga"])
def test_no_code_exists_before_the_second_who_alone_is_shown_it(two: Crew, cook: str) -> None:
    """Neither an entry nor a code a week later; then one entry, by the first, with the second's word; it opens."""
    two.joins("olga", "manager")
    two.k.file.people.set_secret("olga", Secret("hash", "passphrase", must_change=False))
    before = two.k.file.book.end()
    assert asks(two, cook) == Waits("ask", None)
    two.later(days=7)
    assert enter_due(two.k, two.now) == ()
    assert asks(two, cook, key="later") == Waits("ask", None)
    assert (two.k.file.book.end(), two.k.file.first_codes.of(cook)) == (before, None)
    made = code(seconds(two))
    entry = made.entry
    assert (entry.kind, entry.cook, entry.by) == ("first_code_given", cook, "mara")
    assert (entry.body["second"]["by"], entry.body["second"]["proof"]) == ("nils", PROOF)
    assert made.code not in str(entry.body)
    assert [told.id for told in codes_to_tell(two.k, person=cook)] == [entry.id]
    assert comes_in(two, cook, made.code)


def test_confirmed_again_it_is_shown_no_more(two: Crew) -> None:
    """The same page sent twice, by either: the entry is there, no code comes with it and none is made anew."""
    asks(two)
    made = code(seconds(two))
    again = seconds(two)
    assert (saved(again), isinstance(again, FirstCode)) == (made.entry, False)
    assert len(two.entries("first_code_given")) == 1


def test_neither_the_first_nor_its_owner_nor_a_cook_is_the_second(two: Crew) -> None:
    """Each is told why, and no code is made."""
    asks(two)
    assert english(refused(seconds(two, "mara")).reason) == "You asked for this yourself. It takes a second person."
    assert english(refused(seconds(two, "ada")).reason) == "Ada is no manager."
    assert two.entries("first_code_given") == []


def test_its_owner_is_told_that_a_code_is_asked_for_and_any_manager_puts_it_away(two: Crew) -> None:
    """While it waits, not only once it is made."""
    asks(two)
    assert [draft.by for draft in codes_asked(two.k, person="sous")] == ["mara"]
    assert put_away(two.k, by="nils", draft="ask", now=two.now) is None
    assert codes_asked(two.k, person="sous") == ()
    assert "waits no more" in english(refused(seconds(two)).reason)


def test_a_cook_and_whoever_joins_new_get_their_code_at_once(two: Crew) -> None:
    """A cook signs for nobody; an assessor or a manager who never had a secret has signed nothing to be forged."""
    two.k.file.people.set_secret("ben", Secret("hash", "pin", must_change=False))
    two.joins("olga", "manager")
    two.joins("pia", "cook", "assessor")
    for who in ("ben", "olga", "pia"):
        made = code(asks(two, who, key=who))
        assert "second" not in made.entry.body
        assert comes_in(two, who, made.code)


def test_whoever_used_a_code_once_has_a_name_to_forge(two: Crew) -> None:
    """Their second code waits, even where the first was used and no secret chosen yet."""
    two.joins("pia", "cook", "assessor")
    assert comes_in(two, "pia", code(asks(two, "pia", key="first")).code)
    assert isinstance(asks(two, "pia"), Waits)


def test_alone_an_assessors_code_is_made_at_once_and_told(one: Crew) -> None:
    """One manager and one tablet: no ceremony; the entry says that there was no second."""
    made = code(asks(one, by="nils"))
    assert made.entry.body["second"] is None
    assert [told.id for told in codes_to_tell(one.k, person="sous")] == [made.entry.id]
    assert comes_in(one, "sous", made.code)


def test_alone_a_managers_code_is_made_24_hours_later_for_whoever_asked(one: Crew) -> None:
    """A second before the day is over there is none; nothing makes it while nobody looks; it is made once."""
    one.k.file.people.set_secret("olga", Secret("", "first_code", must_change=True))
    asked, before = one.now, one.k.file.book.end()
    assert asks(one, "olga", "nils") == Waits("ask", asked + timedelta(hours=24))
    one.now = asked + timedelta(hours=24) - timedelta(seconds=1)
    assert (isinstance(asks(one, "olga", "nils", "soon"), Waits), code_is_due(one.k, "ask", one.now)) == (True, False)
    one.later(seconds=1)
    assert (enter_due(one.k, one.now), code_is_due(one.k, "ask", one.now)) == ((), True)
    assert one.k.file.book.end() == before
    made = code(asks(one, "olga", "nils", "due"))
    assert (made.entry.body["second"], made.entry.body["asked"]) == (None, "2026-03-02T17:00:00.000Z")
    assert (waiting(one.k), isinstance(asks(one, "olga", "nils", "more"), Waits)) == ((), True)


def test_a_day_waited_alone_is_worth_nothing_once_there_is_a_second(one: Crew) -> None:
    """Pia can prove herself as a manager by then: she confirms it, or nobody does."""
    one.k.file.people.set_secret("olga", Secret("hash", "passphrase", must_change=False))
    asks(one, "olga", "nils")
    one.joins("pia", "manager")
    one.k.file.people.set_secret("pia", Secret("hash", "passphrase", must_change=False))
    one.later(days=2)
    assert isinstance(asks(one, "olga", "nils", "due"), Waits)
    assert code_is_due(one.k, "ask", one.now) is False
    assert one.entries("first_code_given") == []
    code(seconds(one, "pia"))


def test_when_the_second_has_left_nobody_is_locked_out(two: Crew) -> None:
    """Asked for again, each is made a day after that: the other manager was taken off only lately."""
    two.joins("olga", "manager")
    two.k.file.people.set_secret("olga", Secret("hash", "passphrase", must_change=False))
    asks(two)
    asks(two, "olga", key="olga")
    saved(cook_leaves(two.k, by="mara", leaving=Leaving("nils", "moved"), now=two.now, key="gone"))
    assert isinstance(asks(two, "olga", key="anew"), Waits)
    two.later(days=1)
    code(asks(two, "olga", key="due"))
    two.write("cook_left", "olga", {"reason": "moved"})
    assert isinstance(asks(two, key="again"), Waits)
    two.later(days=1)
    code(asks(two, key="at last"))
    assert waiting(two.k) == ()


def test_a_command_on_the_machine_is_the_second_at_once(one: Crew) -> None:
    """Of a code that waits a day too."""
    one.k.file.people.set_secret("olga", Secret("hash", "passphrase", must_change=False))
    asks(one, "olga", "nils")
    made = code(confirm(one.k, draft="ask", second=local_second(one.now), now=one.now))
    assert made.entry.body["second"]["by"] == "local"


def test_it_is_asked_of_the_kitchen_again(two: Crew) -> None:
    """Mara is no manager any more when Nils confirms: no code."""
    asks(two)
    saved(change_roles(two.k, by="nils", change=NewRoles("mara", ["cook"]), now=two.now, key="down"))
    assert english(refused(seconds(two)).reason) == "Only a manager gives out a first code."


def test_a_code_given_while_somebody_only_cooked_opens_no_assessors_name(two: Crew) -> None:
    """One manager's word made the code; with the second's word for the role it would open a signer's name."""
    assert isinstance(set_secret(two.k, person="ben", secret=PIN), Done)
    made = code(asks(two, "ben"))
    roles = change_roles(two.k, by="mara", change=NewRoles("ben", ["cook", "assessor"]), now=two.now, key="role")
    assert isinstance(roles, Waits)
    saved(confirm(two.k, draft="role", second=Second("nils", PROOF), now=two.now))
    assert comes_in(two, "ben", made.code) is False
    assert comes_in(two, "ben", PIN)
