"""What gives, takes or lifts something asks who it is, where the last proof is older than two minutes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import pytest

from tests.web.conftest import PASSPHRASE, PEOPLE, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear, write
from tests.web.test_manager import ROSTER, send
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Kind

SECRET = "Your PIN or passphrase"
REASON = {"Reason": "Cut hand."}


@dataclass(frozen=True)
class Act:
    """One act: who does it, where, by which button, with what typed, and what it writes."""

    path: str
    button: str
    writes: Kind
    fill: dict[str, str] = field(default_factory=dict)
    named: dict[str, Any] = field(default_factory=dict)
    by: str = "cleo"


PAPER = {"Number on the paper": "FH-12", "Issued": "2026-01-05", "Good to": "2029-01-05"}
CARD = {"certificate": "food_handler"}
SHIFT = {"cook": "ana", "station": "pasta_room", "beside": "bo", "sitting": "lunch"}
ACTS = (
    Act("/cooks/ana/leaves", "Take off the roster", "cook_left", REASON),
    Act("/cooks/dev/put-back", "Put back", "restored", REASON, {"station": "pasta_room"}),
    Act("/cooks/ana/certificates/new", "Keep this certificate", "certificate_shown", PAPER, CARD),
    Act("/book/VOID/void", "Void the entry", "entry_voided", REASON),
    Act("/shifts-worked/new", "Keep this shift", "shift_worked", {"Guests": "64"}, SHIFT, "bo"),
)  # fmt: skip


@pytest.fixture(params=ACTS, ids=lambda act: act.writes)
def act(request: pytest.FixtureRequest, kitchen: Kitchen) -> Act:
    """Return an act, in a kitchen where it may be done."""
    entry = clear(kitchen, "bo")
    write(kitchen, "stood_down", "dev", {"station": "pasta_room", "reason": "Burn."}, by="cleo", days=1)
    found: Act = request.param
    return Act(found.path.replace("VOID", entry.id), *(getattr(found, name) for name in NAMES))


NAMES = ("button", "writes", "fill", "named", "by")


def last(kitchen: Kitchen) -> str:
    """Return the kind of the newest entry."""
    return kitchen.file.book.since(0)[-1].kind


def fields_of(page: Seen) -> list[str]:
    """Return the labels on a page."""
    return [" ".join(label.get_text().split()) for label in page.soup.find_all("label")]


def test_within_two_minutes_of_a_proof_nothing_is_asked_twice(
    act: Act, sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """Anyone who has just signed in does it in one go: there is no field for the secret. A signature asks always."""
    if act.writes == "shift_worked":
        assert SECRET in fields_of(sign_in(act.by).open(act.path))
        return
    hands = sign_in(act.by)
    clock.pass_by(minutes=2)
    page = hands.open(act.path)
    assert SECRET not in fields_of(page)
    assert hands.press(act.button, act.fill, **act.named).status == 200, hands.page.problems
    assert last(kitchen) == act.writes


def test_after_two_minutes_the_secret_is_asked_and_nothing_typed_is_lost(
    act: Act, sign_in: Callable[[str], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """A tablet a person left open does nothing: without the secret, and with a wrong one; then with the right one."""
    hands = sign_in(act.by)
    hands.open(act.path)
    end = kitchen.file.book.end()
    clock.pass_by(minutes=2, seconds=1)
    page = hands.press(act.button, act.fill, **act.named)
    assert page.problems == ["Type your PIN or passphrase again. Nothing was saved yet."]
    for label, typed in act.fill.items():
        assert typed in str(page.field(label))
    page = hands.press(act.button, {**act.fill, SECRET: "11112222"}, **act.named)
    assert page.problems == ["That is not your PIN or passphrase. Nothing was saved yet."]
    assert kitchen.file.book.end() == end
    page = hands.press(act.button, {**act.fill, SECRET: PEOPLE[act.by][2]}, **act.named)
    assert page.status == 200, page.problems
    assert last(kitchen) == act.writes


BIRTH = "number,name,birth date,roles\n1,Ana Pardo,2012-02-29,cook\n2,Dev Karim,2001-05-01,cook assessor\n"


def test_taking_in_a_roster_asks_for_the_passphrase(cleo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """And shows birth dates and roles apart; without the passphrase nothing changes, with it the book says so."""
    page = send(cleo, BIRTH)
    clock.pass_by(minutes=3)
    page = cleo.open(page.path)
    for words in ("Birth dates that change", "2000-02-29 → 2012-02-29. Bars from: Sauté."):
        assert words in page.work
    assert "Roles given or taken" in page.work
    assert "cook → assessor, cook" in page.work
    page = cleo.press("Take in 2 rows")
    assert page.problems == ["Type your PIN or passphrase again. Nothing was saved yet."]
    assert str(kitchen.people()["ana"].born) == "2000-02-29"
    page = cleo.press("Take in 2 rows", {SECRET: PASSPHRASE})
    assert page.heading == "Taken in"
    kinds = [entry.kind for entry in kitchen.file.book.since(0)][-4:]
    assert kinds == ["age_seen", "cook_changed", "authority_given", "roster_taken_in"]


def test_a_just_proved_manager_takes_in_a_roster_in_one_press(cleo: Hands, kitchen: Kitchen) -> None:
    """One manager, one tablet, signed in a minute ago: nothing more is asked."""
    assert SECRET not in fields_of(send(cleo, ROSTER))
    assert cleo.press("Take in 1 row").heading == "Taken in"


def test_planned_shifts_give_nobody_anything_and_ask_for_nothing(cleo: Hands, clock: Clock) -> None:
    """A shift file may be taken in however old the proof is."""
    page = send(cleo, "date,sitting,name,station\n2026-11-03,dinner,Ana Pardo,Pasta room\n", "shifts.csv")
    clock.pass_by(minutes=10)
    assert SECRET not in fields_of(cleo.open(page.path))
    assert cleo.press("Take in 1 row").heading == "Taken in"


def test_the_book_says_that_a_birth_date_changed_and_never_which(cleo: Hands) -> None:
    """Whom it is about, by whom, and from when 18; the date stands nowhere on the page."""
    send(cleo, BIRTH)
    cleo.press("Take in 2 rows")
    page = cleo.open("/book?cook=ana")
    assert "Age written down: Ana Pardo" in page.work
    assert "18 years: from Fri 1 Mar 2030" in page.work
    assert "2012" not in page.work
    page = cleo.open("/book")
    assert "Roster file taken in: Cleo Mbeki" in page.work
    assert "2 rows: 2 changed, 1 with another birth date, 1 with roles given or taken" in page.work


def test_a_wait_lifted_and_a_question_voided_ask_the_same(cleo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """What helps a person past a quiz is signed by anyone who is there."""
    asked = {"family": "mixed_units", "seed": 1, "text": "How much?", "figure": "", "figure_alt": "", "choices": []}
    kept = {"answer": "1", "unit": "lb", "solution": [], "given": "1", "right": True, "safety": False, "method": ""}
    body = {"technique": "nests", "edition": 2, "seed": 1, "grader": 1, "questions": [{**asked, **kept, "says": ""}]}
    sat = write(kitchen, "quiz_sat", "ana", {**body, "right": 1, "asked": 1, "need": 1, "passed": True}, days=1)
    clock.pass_by(minutes=3)
    for path, button in (
        ("/cooks/ana/techniques/nests/lift-wait", "Lift the wait"),
        (f"/book/{sat.id}/questions/void", "Void the question"),
    ):
        cleo.open(path)
        page = cleo.press(button, REASON, question="1")
        assert page.problems == ["Type your PIN or passphrase again. Nothing was saved yet."]
    assert last(kitchen) == "quiz_sat"
