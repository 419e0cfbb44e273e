"""Signing in: enrolled devices, first codes, secrets, sessions, and what a guesser meets."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.actions.people_at_the_door import MINUTE, NOON, PIN, SECOND, signed_in, small_kitchen, staffed, tablet
from tests.printed import english
from trainer.actions import secret_rules, signing_in
from trainer.actions.enrolling import Enrolled, enrol_device, revoke_device
from trainer.actions.giving_codes import FirstCode, first_code
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.signing_in import (
    NO_MATCH,
    Done,
    NewSession,
    choose_secret,
    codes_to_tell,
    codes_told,
    let_try_again,
    must_choose,
    prove_again,
    proved_within,
    session_of,
    set_secret,
    sign_in,
    sign_out,
)
from trainer.kitchen.book import NewEntry
from trainer.kitchen.proof import Proof
from trainer.store.secret_hash import is_right
from trainer.store.sessions import Session

PHRASE = "seven copper pans above the stove"


@pytest.fixture
def kitchen(tmp_path: Path) -> tuple[Kitchen, str, str, str]:
    """Return a kitchen, its manager, a cook and an enrolled tablet."""
    k, manager, ana = staffed(tmp_path)
    return k, manager, ana, tablet(k, manager)


Doorway = tuple[Kitchen, str, str, str]


def code_for(k: Kitchen, manager: str, cook: str) -> str:
    """Return a first code the manager gave."""
    given = first_code(k, by=manager, cook=cook, now=NOON)
    assert isinstance(given, FirstCode)
    return given.code


def session_at(k: Kitchen, token: str, after: timedelta) -> Session | None:
    """Return the session a while after noon."""
    return session_of(k, token=token, now=NOON + after)


def test_the_right_secret_on_an_enrolled_device_opens_a_session(kitchen: Doorway) -> None:
    """The session knows who and where."""
    k, _, ana, device = kitchen
    session = session_at(k, signed_in(k, device, ana), MINUTE)
    assert session is not None
    assert (session.person, session.device) == (ana, device)


def test_only_a_manager_enrols_a_device(kitchen: Doorway) -> None:
    """The refusal says who may; a device needs a name."""
    k, manager, ana, _ = kitchen
    outcome = enrol_device(k, name="Phone", by=ana, now=NOON)
    assert isinstance(outcome, Refused)
    assert english(outcome.who_can) == "A manager can do this."
    assert isinstance(enrol_device(k, name="  ", by=manager, now=NOON), Refused)


def test_in_a_demo_kitchen_any_device_enrols_itself(tmp_path: Path) -> None:
    """Its people are invented, so nothing is given away."""
    k = small_kitchen(tmp_path, is_demo=True)
    outcome = enrol_device(k, name="Somebody's phone", by="", now=NOON)
    assert isinstance(outcome, Enrolled)
    assert k.file.devices.find(outcome.secret) == outcome.device


def test_a_revoked_device_signs_nobody_in_and_everybody_out(kitchen: Doorway) -> None:
    """At once; a cook cannot revoke."""
    k, manager, ana, device = kitchen
    token = signed_in(k, device, ana)
    assert isinstance(revoke_device(k, device=device, by=ana, now=NOON), Refused)
    assert isinstance(revoke_device(k, device=device, by=manager, now=NOON), Done)
    assert session_at(k, token, SECOND) is None
    outcome = sign_in(k, device=device, person=ana, secret=PIN, now=NOON)
    assert isinstance(outcome, Refused)
    assert "not enrolled" in english(outcome.reason)


def test_unknown_left_and_wrong_get_one_answer_after_one_hash(
    kitchen: Doorway, monkeypatch: pytest.MonkeyPatch
) -> None:
    """OWASP ASVS 5.0.0, 6.3.8 (from memory): nobody can find out who is known here."""
    k, manager, ana, device = kitchen
    k.file.book.append(NewEntry("cook_left", NOON - MINUTE, ana, manager, {"reason": "moved"}, "left"))
    hashed: list[str] = []

    def counted(kept: str, secret: str) -> bool:
        hashed.append(secret)
        return is_right(kept, secret)

    monkeypatch.setattr(signing_in, "is_right", counted)
    tries = (("nobody", PIN), (ana, PIN), (manager, "70281937"), ("\ud800", "\ud800"))
    answers = [sign_in(k, device=device, person=person, secret=secret, now=NOON) for person, secret in tries]
    assert answers == [NO_MATCH] * 4
    assert len(hashed) == 4


def test_five_wrong_tries_make_wait_and_the_right_secret_waits_too(kitchen: Doorway) -> None:
    """30 seconds, said in words; after them the right secret is taken and the count is cleared."""
    k, _, ana, device = kitchen
    for _ in range(5):
        assert sign_in(k, device=device, person=ana, secret="70281930", now=NOON) == NO_MATCH
    outcome = sign_in(k, device=device, person=ana, secret=PIN, now=NOON + SECOND)
    assert isinstance(outcome, Refused)
    assert english(outcome.reason) == "Too many wrong tries. Wait 29 seconds, then try again."
    signed_in(k, device, ana, NOON + 30 * SECOND)
    assert sign_in(k, device=device, person=ana, secret="70281930", now=NOON + 31 * SECOND) == NO_MATCH


def test_a_manager_clears_the_wrong_tries_of_others_and_a_cook_of_nobody(kitchen: Doorway) -> None:
    """On every device at once; nobody clears their own."""
    k, manager, ana, device = kitchen
    for _ in range(5):
        assert sign_in(k, device=device, person=ana, secret="70281930", now=NOON) == NO_MATCH
    assert isinstance(let_try_again(k, by=ana, person=ana, now=NOON), Refused)
    assert isinstance(let_try_again(k, by=manager, person=manager, now=NOON), Refused)
    assert isinstance(let_try_again(k, by=manager, person=ana, now=NOON), Done)
    signed_in(k, device, ana)


def test_a_first_code_opens_once_and_asks_for_a_secret_of_ones_own(kitchen: Doorway) -> None:
    """Eight digits, used up by its first use; only then the old secret ends, and what was open with it."""
    k, manager, ana, device = kitchen
    old = signed_in(k, device, ana)
    code = code_for(k, manager, ana)
    assert (len(code), code.isdigit()) == (8, True)
    assert session_at(k, old, SECOND) is not None
    signed_in(k, device, ana)
    opened = sign_in(k, device=device, person=ana, secret=code, now=NOON)
    assert isinstance(opened, NewSession)
    assert opened.must_choose
    assert must_choose(k, person=ana)
    assert session_at(k, old, SECOND) is None
    assert sign_in(k, device=device, person=ana, secret=PIN, now=NOON) == NO_MATCH
    assert sign_in(k, device=device, person=ana, secret=code, now=NOON) == NO_MATCH
    assert isinstance(choose_secret(k, token=opened.token, secret=PHRASE, now=NOON + 5 * MINUTE), Done)
    assert not must_choose(k, person=ana)
    again = sign_in(k, device=device, person=ana, secret=PHRASE, now=NOON + 6 * MINUTE)
    assert isinstance(again, NewSession)
    assert not again.must_choose


def test_a_code_proves_nobody_who_is_signed_in(kitchen: Doorway) -> None:
    """It opens a session of its own; it signs nothing in the one its owner left open."""
    k, manager, ana, device = kitchen
    token = signed_in(k, device, ana)
    code = code_for(k, manager, ana)
    assert prove_again(k, token=token, secret=code, now=NOON) == NO_MATCH


def test_a_code_is_an_entry_and_its_owner_is_told_once(kitchen: Doorway) -> None:
    """Of every code they were not told of, at the next sign-in; the one they come in with tells itself."""
    k, manager, ana, device = kitchen
    code_for(k, manager, ana)
    signed_in(k, device, ana)
    (entry,) = codes_to_tell(k, person=ana)
    assert (entry.kind, entry.by, entry.cook) == ("first_code_given", manager, ana)
    assert entry.body == {"until": "2026-11-26T17:00:00.000Z"}
    second = code_for(k, manager, ana)
    assert len(codes_to_tell(k, person=ana)) == 2
    codes_told(k, person=ana)
    assert codes_to_tell(k, person=ana) == ()
    third = code_for(k, manager, ana)
    assert sign_in(k, device=device, person=ana, secret=second, now=NOON) == NO_MATCH
    assert isinstance(sign_in(k, device=device, person=ana, secret=third, now=NOON), NewSession)
    assert codes_to_tell(k, person=ana) == ()


def test_a_code_somebody_else_used_is_told_with_the_next(kitchen: Doorway) -> None:
    """A manager signs in as Ana with a code; the code she gets afterwards tells her of both."""
    k, manager, ana, device = kitchen
    assert isinstance(sign_in(k, device=device, person=ana, secret=code_for(k, manager, ana), now=NOON), NewSession)
    codes = [code_for(k, manager, ana), code_for(k, manager, ana)]
    assert isinstance(sign_in(k, device=device, person=ana, secret=codes[1], now=NOON), NewSession)
    assert len(codes_to_tell(k, person=ana)) == 2


def test_a_secret_chosen_is_an_entry_and_closes_what_is_open_elsewhere(kitchen: Doorway) -> None:
    """By its owner, with the kinds alone; the session it was chosen in goes on.

    OWASP ASVS 5.0.0, 7.4.3 (from memory).
    """
    k, manager, ana, device = kitchen
    here, elsewhere = signed_in(k, device, ana), signed_in(k, tablet(k, manager, "Phone"), ana)
    assert isinstance(choose_secret(k, token=here, secret=PHRASE, now=NOON + SECOND), Done)
    assert session_at(k, here, SECOND) is not None
    assert session_at(k, elsewhere, SECOND) is None
    (entry,) = k.file.book.of_kind("secret_changed")
    assert (entry.by, entry.cook) == (ana, ana)
    assert entry.body == {"from": "pin", "to": "passphrase", "sessions_closed": 1}


def test_a_session_keeps_how_it_was_proved(kitchen: Doorway) -> None:
    """By which kind of secret, when, where, and since when that is theirs; again after the next proof."""
    k, _, ana, device = kitchen
    token = signed_in(k, device, ana)
    session = session_at(k, token, SECOND)
    assert session is not None
    assert session.proof == Proof("pin", NOON, device, None)
    choose_secret(k, token=token, secret=PHRASE, now=NOON + MINUTE)
    again = prove_again(k, token=token, secret=PHRASE, now=NOON + 5 * MINUTE)
    assert isinstance(again, Session)
    assert again.proof == Proof("passphrase", NOON + 5 * MINUTE, device, NOON + MINUTE)


def test_of_two_who_give_one_first_code_at_once_one_gets_in(kitchen: Doorway, monkeypatch: pytest.MonkeyPatch) -> None:
    """A code is for one use, even where the second try was under way before the first had ended."""
    k, manager, ana, device = kitchen
    code, other = code_for(k, manager, ana), tablet(k, manager, "Phone")
    others: list[object] = []

    def meanwhile(kept: str, secret: str) -> bool:
        if not others:
            others.append(None)
            others[0] = sign_in(k, device=other, person=ana, secret=code, now=NOON)
        return is_right(kept, secret)

    monkeypatch.setattr(signing_in, "is_right", meanwhile)
    assert sign_in(k, device=device, person=ana, secret=code, now=NOON) == NO_MATCH
    assert isinstance(others[0], NewSession)


@pytest.mark.parametrize(("after", "good"), [(timedelta(hours=24) - SECOND, True), (timedelta(hours=24), False)])
def test_a_first_code_is_good_for_24_hours(kitchen: Doorway, after: timedelta, good: bool) -> None:
    """Then another must be given."""
    k, manager, ana, device = kitchen
    code = code_for(k, manager, ana)
    outcome = sign_in(k, device=device, person=ana, secret=code, now=NOON + after)
    assert isinstance(outcome, NewSession) is good


def test_only_a_manager_gives_a_first_code_and_not_to_themselves(kitchen: Doorway) -> None:
    """Nobody makes a way in for themselves, nor for a person who is not there."""
    k, manager, ana, _ = kitchen
    for by, cook in ((ana, manager), (manager, manager), (manager, "nobody")):
        assert isinstance(first_code(k, by=by, cook=cook, now=NOON), Refused)


def test_choosing_another_secret_needs_a_fresh_proof(kitchen: Doorway) -> None:
    """A person who finds a tablet open cannot take the account over."""
    k, _, ana, device = kitchen
    token = signed_in(k, device, ana)
    late = NOON + 3 * MINUTE
    refused = choose_secret(k, token=token, secret=PHRASE, now=late)
    assert isinstance(refused, Refused)
    assert "the secret you have now" in english(refused.reason)
    assert isinstance(prove_again(k, token=token, secret=PIN, now=late), Session)
    assert isinstance(choose_secret(k, token=token, secret=PHRASE, now=late + MINUTE), Done)


def test_whoever_is_signed_out_chooses_nothing(kitchen: Doorway) -> None:
    """The token of no session opens nothing."""
    refused = choose_secret(kitchen[0], token="none", secret=PHRASE, now=NOON)
    assert isinstance(refused, Refused)
    assert "signed out" in english(refused.reason)


def test_a_proof_for_signing_is_good_for_two_minutes(kitchen: Doorway) -> None:
    """At two minutes it still is; a second later it must be given again; a clock set back proves nothing."""
    k, _, ana, device = kitchen
    session = session_at(k, signed_in(k, device, ana), 3 * MINUTE)
    assert session is not None
    assert proved_within(session, 2, NOON + 2 * MINUTE)
    assert not proved_within(session, 2, NOON + 2 * MINUTE + SECOND)
    assert not proved_within(session, 2, NOON - SECOND)


def test_a_wrong_secret_proves_nothing_and_is_counted(kitchen: Doorway) -> None:
    """Proving again is as slow to guess as signing in."""
    k, _, ana, device = kitchen
    token = signed_in(k, device, ana)
    for _ in range(5):
        assert prove_again(k, token=token, secret="70281930", now=NOON + MINUTE) == NO_MATCH
    assert isinstance(prove_again(k, token=token, secret=PIN, now=NOON + MINUTE), Refused)
    assert isinstance(prove_again(k, token="none", secret=PIN, now=NOON), Refused)


@pytest.mark.parametrize(("number", "minutes"), [("002", 15), ("001", 30)])
def test_a_cook_is_signed_out_after_15_idle_minutes_and_a_manager_after_30(
    kitchen: Doorway, number: str, minutes: int
) -> None:
    """The reading of their own record is what a tablet left behind would show."""
    k, manager, ana, device = kitchen
    person = {"001": manager, "002": ana}[number]
    token = signed_in(k, device, person)
    assert session_at(k, token, minutes * MINUTE - SECOND) is not None
    token = signed_in(k, device, person)
    assert session_at(k, token, minutes * MINUTE) is None


def test_signing_in_clears_away_what_is_past_12_hours(kitchen: Doorway) -> None:
    """Nobody signs out at the end of a night, and the file does not grow with it."""
    k, _, ana, device = kitchen
    late = NOON + timedelta(hours=12)
    signed_in(k, device, ana)
    token = signed_in(k, device, ana, late)
    assert k.file.sessions.drop_old(late) == 0
    assert session_of(k, token=token, now=late) is not None


def test_signing_out_and_leaving_the_roster_bite_at_once(kitchen: Doorway) -> None:
    """The next page is refused."""
    k, manager, ana, device = kitchen
    token, other = signed_in(k, device, ana), signed_in(k, device, ana)
    sign_out(k, token=token)
    assert session_at(k, token, SECOND) is None
    assert session_at(k, other, SECOND) is not None
    k.file.book.append(NewEntry("cook_left", NOON, ana, manager, {"reason": "moved"}, "left"))
    assert session_at(k, other, 2 * SECOND) is None


BORN = date(1990, 3, 4)


@pytest.mark.parametrize(
    ("pin", "said"),
    [
        ("1234567", "8 digits; this has 7"),
        ("123456789", "8 digits; this has 9"),
        ("12345678", "in a row"),
        ("78901234", "in a row"),
        ("87654321", "in a row"),
        ("21098765", "in a row"),
        ("00000000", "repeats"),
        ("12121212", "repeats"),
        ("11112222", "repeats"),
        ("47114711", "repeats"),
        ("11223344", "doubled"),
        ("04031990", "birth date"),
        ("03041990", "birth date"),
        ("19900304", "birth date"),
        ("19900403", "birth date"),
        ("", "15 characters or more"),
        ("70281936a", "15 characters or more"),
    ],
)
def test_a_silly_pin_is_refused_with_the_reason(pin: str, said: str) -> None:
    """NIST SP 800-63B-4, 3.1.1.2: at least 8 as one of two factors, and a block-list (section from memory)."""
    assert said in english(secret_rules.validate(pin, BORN))


@pytest.mark.parametrize("pin", ["70281936", "03041991", "90125348", "12345679"])
def test_any_other_pin_is_taken(pin: str) -> None:
    """No further rule is hidden."""
    assert english(secret_rules.validate(pin, BORN)) == ""


@pytest.mark.parametrize(
    ("phrase", "said"),
    [
        ("fourteen chars", "this has 14"),
        ("aaaaaaaaaaaaaaaaaaaa", "repeats itself"),
        ("butterbutterbutter", "repeats itself"),
        ("0123456789012345", "repeats itself"),
        ("passwordpassword1", "common words"),
        ("correct horse battery staple", "common words"),
        ("Ana Roux Quernstone 1990", "common words"),
        ("y" * 257 + "abc", "at most 256"),
    ],
)
def test_a_passphrase_that_is_guessed_first_is_refused(phrase: str, said: str) -> None:
    """NIST SP 800-63B-4, 3.1.1.2: at least 15 as the only factor, no composition rule, a block-list (from memory)."""
    assert said in english(secret_rules.validate(phrase, BORN, ("Ana Roux", "Ana", "Roux", "Quernstone")))


@pytest.mark.parametrize(
    "phrase", [PHRASE, "fifteen letters", "ein Löffel Öl & fünf Eier", "五つの卵と少しの油を入れて混ぜる夜に"]
)
def test_any_other_passphrase_of_15_characters_is_taken(phrase: str) -> None:
    """Spaces, any script, no figures asked for."""
    assert english(secret_rules.validate(phrase, BORN, ("Ana Roux",))) == ""


def test_the_rules_hold_whoever_sets_the_secret(kitchen: Doorway) -> None:
    """At the command line too; a person unknown has no secret to set."""
    k, _, ana, _ = kitchen
    for person, secret in ((ana, "19900304"), (ana, "Quernstone Quernstone"), ("nobody", PIN)):
        assert isinstance(set_secret(k, person=person, secret=secret), Refused)


@pytest.mark.parametrize(
    "typed",
    ["12 34 56 78", "1234-5678", "12-34-56-78", " 1234 5678 ", "1234–5678", "1234\u00a05678", "１２３４５６７８"],
)
def test_a_pin_or_a_code_is_typed_in_groups(typed: str) -> None:
    """With blanks or dashes of whatever kind, and in the wide figures of some keyboards."""
    assert secret_rules.without_gaps(typed) == "12345678"


@pytest.mark.parametrize("phrase", ["blue apron on the hook", "12 aprons - on 34 hooks", "seven-copper-pans", ""])
def test_a_passphrase_keeps_its_blanks_and_dashes(phrase: str) -> None:
    """They are part of it."""
    assert secret_rules.without_gaps(phrase) == phrase


def test_too_short_a_pin_in_groups_is_told_as_a_pin() -> None:
    """Its figures are counted, not the blanks."""
    wrong = english(secret_rules.validate(secret_rules.without_gaps("1234 567"), None))
    assert "A PIN has 8 digits; this has 7." in wrong
