"""The proof of a past cell says what the book said then and what is known now; of today's, what comes."""

from __future__ import annotations

from datetime import timedelta

from tests.web.conftest import NOON
from tests.web.hands import Hands
from tests.web.kitchen_people import clear, write
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.spans import in_words
from trainer.messages import translate

CLEARED = (NOON - timedelta(days=5)).date()


def test_a_past_cell_whose_sign_off_never_counted_says_both(cleo: Hands, kitchen: Kitchen) -> None:
    """Cleared, said the book; ready to show, as known since the void; of a day before it the same sentences."""
    signed = clear(kitchen, "bo")
    write(kitchen, "entry_voided", "bo", {"entry": signed.id, "reason": "x", "counts": "never"}, by="cleo", days=1)
    page = cleo.open(f"/board/bo/pasta_room?on={CLEARED}")
    assert f"As the book said on {translate(in_words(CLEARED))}: cleared." in page.work
    assert "As known now: ready to show; practical of " in page.work
    assert f"voided on {translate(in_words((NOON - timedelta(days=1)).date()))}." in page.work


def test_a_past_cell_that_nothing_changed_says_it_once(cleo: Hands, kitchen: Kitchen) -> None:
    """No second answer where there is none."""
    clear(kitchen, "bo")
    assert "As known now" not in cleo.open(f"/board/bo/pasta_room?on={CLEARED}").work


def test_todays_cell_says_what_comes_next(cleo: Hands, kitchen: Kitchen) -> None:
    """A cleared cook reads from when it is due again, and what ends then."""
    clear(kitchen, "bo")
    page = cleo.open("/board/bo/pasta_room")
    assert ": due again. " in page.work
    assert "Good to the end of " in page.work
