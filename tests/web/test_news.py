"""Words to a cook: what others wrote about them stands on their own page until it is opened or put away."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.conftest import NOON
from tests.web.hands import Hands
from tests.web.kitchen_people import ask, clear, sign, study, write
from trainer.actions.open_kitchen import Kitchen
from trainer.store.shifts import PlannedShift


def lines(hands: Hands) -> list[str]:
    """Return what a cook's own page tells them."""
    return [link.get_text() for link in hands.open("/rail").soup.select(".news a")]


def test_a_signature_is_told_until_it_is_opened(ana: Hands, kitchen: Kitchen) -> None:
    """The line leads to the technique, and is gone the next time; the book says nothing of it."""
    study(kitchen, "ana")
    sign(kitchen, "ana", by="bo", days=1)
    assert lines(ana) == ["Bo signed: Pasta nesting."]
    before = kitchen.file.book.head().seq
    assert ana.follow("Bo signed: Pasta nesting.").path == "/techniques/nests"
    assert lines(ana) == []
    assert kitchen.file.book.head().seq == before


def test_one_tap_puts_a_line_away(ana: Hands, kitchen: Kitchen) -> None:
    """Of two, the one pressed goes and the other stays; the newest stands first."""
    write(kitchen, "stood_down", "ana", {"station": "saute", "reason": "Rest."}, by="cleo", days=2)
    write(kitchen, "path_opened", "ana", {"station": "saute", "by_day": "2026-12-19", "mentor": ""}, by="bo", days=1)
    assert lines(ana) == ["Bo agrees: you learn Sauté.", "You are off this station: Sauté."]
    ana.press("Seen: Bo agrees: you learn Sauté.")
    assert lines(ana) == ["You are off this station: Sauté."]


def test_what_is_older_than_a_week_or_ones_own_is_no_news(ana: Hands, kitchen: Kitchen) -> None:
    """An old signature stands on the record; a path one opened is known already."""
    study(kitchen, "ana")
    sign(kitchen, "ana", by="bo", days=8)
    write(kitchen, "path_opened", "ana", {"station": "saute", "by_day": "2026-12-19", "mentor": ""}, days=1)
    assert lines(ana) == []


def test_who_is_on_and_can_watch_is_told(ana: Hands, kitchen: Kitchen) -> None:
    """Asked to be watched, and a sous chef who may do it is planned for the same day."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    today = kitchen.today(NOON)
    kitchen.file.shifts.add([PlannedShift(today, "dinner", who, "pasta_room") for who in ("ana", "bo")])
    assert lines(ana) == ["Bo is on today and can watch: Pasta nesting."]


def test_nobody_reads_or_puts_away_what_is_told_to_others(
    ana: Hands, sign_in: Callable[[str], Hands], kitchen: Kitchen
) -> None:
    """The address of another's line leads to one's own page, and changes nothing for them."""
    study(kitchen, "ana")
    entry = sign(kitchen, "ana", by="bo", days=1)
    assert sign_in("dev").open(f"/news/{entry.id}").path == "/rail"
    assert lines(ana) == ["Bo signed: Pasta nesting."]
