"""The pages of what waits for a second person: seen whole, confirmed with a secret of one's own, put away."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from tests.web.conftest import NOON, PASSPHRASE, PEOPLE, PIN, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import write
from tests.web.test_manager import send
from trainer.actions import signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.standing import NewRoles, change_roles
from trainer.actions.two_people import Waits
from trainer.kitchen.book import NewEntry
from trainer.kitchen.progress import Person
from trainer.store.people import Secret

PROOF = {"Your PIN or passphrase": PASSPHRASE}


@pytest.fixture
def fay(kitchen: Kitchen, sign_in: Callable[[str], Hands], monkeypatch: pytest.MonkeyPatch) -> Hands:
    """Return Fay, a second manager, signed in."""
    person = Person("fay", "Fay Oduya", date(1980, 1, 1))
    monkeypatch.setitem(PEOPLE, "fay", (person, ["manager"], PASSPHRASE))
    kitchen.file.people.add(person)
    kitchen.file.book.append(NewEntry("cook_joined", NOON, "fay", "cleo", {"roles": ["manager"]}, "join-fay"))
    assert isinstance(signing_in.set_secret(kitchen, person="fay", secret=PASSPHRASE), signing_in.Done)
    return sign_in("fay")


def asks(cleo: Hands, *roles: str) -> None:
    """Let Cleo ask for Ana's roles."""
    cleo.open("/cooks/ana/roles")
    cleo.press("Change the roles", PROOF, roles=list(roles))


def roles_of(kitchen: Kitchen, cook: str = "ana") -> set[str]:
    """Return a person's roles on the day of the tests."""
    return set(kitchen.progress().roles(cook, NOON.date()))


def test_a_role_waits_and_the_second_sees_it_whole(ana: Hands, cleo: Hands, fay: Hands, kitchen: Kitchen) -> None:
    """Who, from what to what, asked for by whom; the second's secret is always asked, however lately it was given."""
    asks(cleo, "cook", "assessor")
    assert cleo.page.heading == "Waits for a second person"
    assert "Roles of Ana Pardo cook → cook, assessor." in cleo.page.work
    assert "Another manager confirms it." in cleo.page.work
    assert roles_of(kitchen) == {"cook"}
    assert fay.open(fay.open("/board").link("1 act waits for a second person.")).path == "/second"
    assert "waits for a second person" not in ana.open("/").work
    page = fay.follow("See it whole and confirm: Roles of Ana Pardo")
    assert "cook → cook, assessor. Cleo Mbeki asked for it on 3 Nov 2026, 12:00." in page.work
    page = fay.press("Confirm as the second person", {"Reason": "Saw her teach."})
    assert page.status == 400
    assert roles_of(kitchen) == {"cook"}
    page = fay.press("Confirm as the second person", {"Reason": "Saw her teach.", **PROOF})
    assert roles_of(kitchen) == {"cook", "assessor"}
    assert "Nothing waits." in page.work
    assert "second person" not in fay.open("/board").work
    assert "Second person: Fay Oduya" in fay.open("/book").work
    body = kitchen.file.book.of_kind("cook_changed")[-1].body
    second, first = body["second"], body["proof"]
    assert first["device"] != second["proof"]["device"], "each with the proof they gave themselves"
    assert (second["by"], second["proof"]["how"]) == ("fay", "passphrase")
    assert second["proof"]["device"]


def test_the_first_cannot_confirm_it_from_the_same_page(cleo: Hands, fay: Hands, kitchen: Kitchen) -> None:
    """With the right secret too: it takes a second person."""
    asks(cleo, "manager")
    cleo.follow("See it whole and confirm: Roles of Ana Pardo")
    page = cleo.press("Confirm as the second person", PROOF)
    assert "You asked for this yourself. It takes a second person." in page.problems[0]
    assert roles_of(kitchen) == {"cook"}


def test_either_manager_puts_it_away(cleo: Hands, fay: Hands, kitchen: Kitchen) -> None:
    """Nothing enters the book; a page that was open meanwhile leads back to the list."""
    asks(cleo, "manager")
    waits = cleo.page.link("See it whole and confirm: Roles of Ana Pardo")
    end = kitchen.file.book.end()
    fay.open("/second")
    page = fay.press("Put away: Roles of Ana Pardo")
    assert "Nothing waits." in page.work
    assert kitchen.file.book.end() == end
    assert cleo.open(waits).status == 404


def test_alone_a_manager_is_told_from_when_it_counts(
    cleo: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """Tomorrow at the same time; any page opened after that finds it entered."""
    asks(cleo, "cook", "manager")
    assert "In effect Wed 4 Nov 2026 12:00; you are alone." in cleo.page.work
    clock.pass_by(hours=23, minutes=59)
    sign_in("bo").open("/rail")
    assert roles_of(kitchen) == {"cook"}
    clock.pass_by(minutes=1)
    sign_in("bo").open("/rail")
    assert set(kitchen.progress().roles("ana", date(2026, 11, 4))) == {"cook", "manager"}
    book = sign_in("cleo").open("/book")
    assert "Asked for 3 Nov 2026, 12:00 by the only manager, and waited a day" in book.work


def test_alone_a_manager_gives_the_role_of_an_assessor_at_once(cleo: Hands, kitchen: Kitchen) -> None:
    """One manager and one tablet: no ceremony."""
    asks(cleo, "cook", "assessor")
    assert roles_of(kitchen) == {"cook", "assessor"}
    assert "Nothing waits." in cleo.open("/second").work


def makes_the_code(hands: Hands, cook: str = "bo") -> None:
    """Press for a first code."""
    hands.open(f"/cooks/{cook}/first-code")
    hands.press("Make the code", PROOF)


def shown_code(hands: Hands) -> str:
    """Return the code on the page, "" where none is shown."""
    found = hands.page.soup.select_one("main .big")
    return found.get_text().replace(" ", "") if found else ""


def test_a_code_for_an_assessor_is_shown_to_the_second_alone(
    cleo: Hands, fay: Hands, kitchen: Kitchen, at_tablet: Callable[[], Hands]
) -> None:
    """Cleo asks and sees none, then or later; Fay confirms and sees it once; Bo, told meanwhile, comes in with it."""
    makes_the_code(cleo)
    assert (cleo.page.heading, shown_code(cleo)) == ("Waits for a second person", "")
    assert "First code for Bo Lind With a code somebody can sign in as Bo Lind" in cleo.page.work
    assert kitchen.file.first_codes.of("bo") is None
    bo = at_tablet()
    bo.open("/names/bo")
    page = bo.press("Sign in", {"PIN, 8 figures": PIN})
    assert "Cleo Mbeki asked for a code for you, 3 Nov 2026, 12:00." in page.work
    assert bo.press("Go on").path != "/codes-given"
    fay.open("/second")
    fay.follow("See it whole and confirm: First code for Bo Lind")
    whole = fay.page.path
    fay.press("Confirm as the second person", PROOF)
    code = shown_code(fay)
    assert (len(code), code.isdigit()) == (8, True)
    assert [fay.open(whole).status, shown_code(fay), cleo.open(whole).status, shown_code(cleo)] == [200, "", 200, ""]
    assert "Second person: Fay Oduya" in cleo.open("/book").work
    assert code not in cleo.open("/book").work
    bo = at_tablet()
    bo.open("/names/bo")
    assert bo.press("Sign in", {"PIN, 8 figures": code}).path == "/own-secret"


def test_alone_a_code_for_a_manager_is_made_a_day_later_by_whoever_asked(
    cleo: Hands, kitchen: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """Fay has used a code and chosen nothing, so nobody could be the second; the list leads back to the same page."""
    kitchen.file.people.add(Person("fay", "Fay Oduya", date(1980, 1, 1)))
    kitchen.file.book.append(NewEntry("cook_joined", NOON, "fay", "cleo", {"roles": ["manager"]}, "join-fay"))
    kitchen.file.people.set_secret("fay", Secret("", "first_code", must_change=True))
    makes_the_code(cleo, "fay")
    assert "In effect Wed 4 Nov 2026 12:00; you are alone." in cleo.page.work
    clock.pass_by(hours=24)
    cleo = sign_in("cleo")
    assert "Its day is over: Cleo Mbeki can make the code now." in cleo.open("/second").work
    cleo.follow("See it whole and confirm: First code for Fay Oduya")
    cleo.press("Make the code", PROOF)
    assert len(shown_code(cleo)) == 8
    assert "Nothing waits." in cleo.open("/second").work
    assert "Asked for 3 Nov 2026, 12:00 by the only manager, and waited a day" in cleo.open("/book").work


def test_alone_a_code_for_an_assessor_is_shown_at_once(cleo: Hands) -> None:
    """One manager and one tablet: no ceremony."""
    makes_the_code(cleo)
    assert len(shown_code(cleo)) == 8


def test_a_roster_says_which_rows_will_wait(cleo: Hands, fay: Hands, kitchen: Kitchen) -> None:
    """Before it is taken in, at the row; afterwards how many, and where to find them. The cook's row counts at once."""
    text = "number,name,birth date,roles\r\n7,Eli Roth,,cook\r\n8,Gil Roth,,cook assessor\r\n"
    page = send(cleo, text)
    assert page.work.count("The new role waits until another manager confirms it.") == 2, "apart, and in the table"
    page = cleo.press("Take in 2 rows")
    assert "2 joined, 1 row waits for a second person." in page.work
    people = {person.name: who for who, person in kitchen.people().items()}
    assert roles_of(kitchen, people["Gil Roth"]) == {"cook"}
    cleo.follow("Waits for a second person")
    assert "Roles of Gil Roth cook → cook, assessor." in cleo.page.work
    fay.open("/second")
    fay.follow("See it whole and confirm: Roles of Gil Roth")
    fay.press("Confirm as the second person", PROOF)
    assert roles_of(kitchen, people["Gil Roth"]) == {"cook", "assessor"}


def test_a_manager_taken_off_is_told_at_the_door_of_what_the_other_asks_for_alone(
    cleo: Hands, at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """Dev managed until today; the role Cleo gives Ana waits a day, and Dev reads so on signing in."""
    write(kitchen, "cook_changed", "dev", {"roles": ["cook", "manager"]}, by="cleo", days=3)
    cleo.open("/cooks/dev/roles")
    change_roles(kitchen, by="cleo", change=NewRoles("dev", ("cook",)), now=clock(), key="off")
    waits = change_roles(kitchen, by="cleo", change=NewRoles("ana", ("cook", "assessor")), now=clock(), key="ask")
    assert isinstance(waits, Waits)
    assert "In effect" in cleo.open("/second").work
    hands = at_tablet()
    hands.open("/names/dev")
    page = hands.press("Sign in", {"PIN, 8 figures": PIN})
    assert "You were a manager here until lately. Cleo Mbeki, alone now, asks for what takes two" in page.work
    assert "about Ana Pardo" in page.work
