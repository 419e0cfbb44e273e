"""Asking to be shown a step, on the cook's page and on the assessor's."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands
from trainer.actions.open_kitchen import Kitchen
from trainer.store.shifts import PlannedShift

SignIn = Callable[[str], Hands]
STEP = "/techniques/nests/steps/2"


def bo_is_on(kitchen: Kitchen) -> None:
    """Plan Bo, who assesses, for tonight."""
    kitchen.file.shifts.add([PlannedShift(kitchen.today(NOON), "dinner", "bo", "pasta_room")])


def test_one_tap_puts_a_step_before_whoever_is_on(kitchen: Kitchen, ana: Hands, sign_in: SignIn, clock: Clock) -> None:
    """The button is named after the assessor on tonight; the step stands on their page until they have shown it."""
    bo_is_on(kitchen)
    ana.open(STEP)
    page = ana.press("Ask Bo")
    assert page.path == STEP
    assert "You asked Bo at 12:00, not seen yet." in page.work
    clock.pass_by(minutes=4)
    bo = sign_in("bo")
    page = bo.open("/ready")
    assert "Asked for help Ana Pardo Weigh, Pasta nesting since 12:00, asked you" in page.work
    assert page.link("Weigh, Pasta nesting") == STEP
    bo.press("Shown: Ana Pardo, Weigh, Pasta nesting")
    assert kitchen.file.book.since(0)[-1].kind == "help_given"
    assert "Asked for help" not in bo.page.work
    assert "not seen yet" not in ana.open(STEP).work


def test_it_is_taken_back_with_one_tap(kitchen: Kitchen, ana: Hands, sign_in: SignIn) -> None:
    """Undo, and no assessor reads it; the book keeps both entries."""
    ana.open(STEP)
    ana.press("Ask for help")
    page = ana.press("Undo: You asked for help at 12:00, not seen yet.")
    assert page.path == STEP
    assert page.button("Ask for help")
    assert "Asked for help" not in sign_in("bo").open("/ready").work
    assert [entry.kind for entry in kitchen.file.book.since(0)][-2:] == ["help_asked", "entry_voided"]


def test_asked_twice_it_stands_there_once(kitchen: Kitchen, ana: Hands, sign_in: SignIn) -> None:
    """From two open pages, as on a slow line: the second one leads to what is there."""
    first = ana.open(STEP)
    ana.press("Ask for help")
    ana.page = first
    assert "not seen yet" in ana.press("Ask for help").work
    assert len(kitchen.file.book.of_kind("help_asked")) == 1
    assert sign_in("bo").open("/ready").work.count("since 12:00") == 1


def test_what_another_showed_first_is_shown_once(kitchen: Kitchen, ana: Hands, sign_in: SignIn) -> None:
    """An old page of an assessor's leads to the list as it is now."""
    ana.open(STEP)
    ana.press("Ask for help")
    bo = sign_in("bo")
    old = bo.open("/ready")
    bo.press("Shown: Ana Pardo, Weigh, Pasta nesting")
    bo.page = old
    page = bo.press("Shown: Ana Pardo, Weigh, Pasta nesting")
    assert (page.status, page.path) == (200, "/ready")
    assert len(kitchen.file.book.of_kind("help_given")) == 1


def test_the_cooks_record_and_the_book_say_what_was_asked(kitchen: Kitchen, ana: Hands, sign_in: SignIn) -> None:
    """Whoever reads the book reads the step by its name, and whom the button named."""
    bo_is_on(kitchen)
    ana.open(STEP)
    ana.press("Ask Bo")
    bo = sign_in("bo")
    bo.open("/ready")
    bo.press("Shown: Ana Pardo, Weigh, Pasta nesting")
    page = sign_in("cleo").open("/book")
    assert "Asked to be shown" in page.work
    assert "Shown what was asked for" in page.work


def test_a_form_from_elsewhere_asks_for_nothing(kitchen: Kitchen, ana: Hands) -> None:
    """Without the page's own token nothing is saved, and the page says so."""
    page = ana.client.post("/techniques/nests/help?step=weigh&then=/rail", data={"key": "k"})
    assert page.status_code == 400
    assert not kitchen.file.book.of_kind("help_asked")
