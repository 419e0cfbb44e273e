"""A published standard rules by ids and prints by names: pages read as they did when content files ruled."""

from __future__ import annotations

from collections.abc import Callable

from tests.web.hands import Hands
from tests.web.kitchen_people import ask, clear, study, write
from tests.web.small_content import CONTENT
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.rules import rules_of

PUBLISHED = {"number": 1, "since": "2026-01-01", "texts": ""}
PAGES = {
    "cleo": ("/board/ana/pasta_room", "/board/bo/pasta_room", "/board/bo/saute", "/board/dev/pasta_room", "/stations"),
    "ana": ("/rail", "/record", "/techniques/nests", "/stations/pasta_room"),
    "bo": ("/ready", "/practicals/new?cook=ana&technique=nests", "/practicals/new?cook=dev&technique=nests"),
}


def read_by(sign_in: Callable[[str], Hands]) -> dict[str, str]:
    """Return what everybody's pages say."""
    pages = {f"{who} {path}": sign_in(who).open(path) for who, paths in PAGES.items() for path in paths}
    assert {page.status for page in pages.values()} == {200}
    return {path: page.work for path, page in pages.items()}


def test_a_standard_changes_no_word_of_any_page(sign_in: Callable[[str], Hands], kitchen: Kitchen) -> None:
    """The same content, published: the same sentences, and no id among them."""
    clear(kitchen, "bo")
    study(kitchen, "dev")
    ask(kitchen, "ana")
    before = read_by(sign_in)
    body = {**PUBLISHED, "rules": rules_of(CONTENT), "not_kept_before": True}
    write(kitchen, "standard_published", "cleo", body, days=0.1)
    after = read_by(sign_in)
    assert after == before
    assert not [page for page, words in after.items() if "pasta_room" in words or "food_handler" in words]


def test_a_board_is_that_of_its_standard(cleo: Hands, kitchen: Kitchen) -> None:
    """A station the standard does not have is no column; its cells say so at their address."""
    rules = rules_of(CONTENT)
    rules["stations"] = [station for station in rules["stations"] if station["id"] == "pasta_room"]
    write(kitchen, "standard_published", "cleo", {**PUBLISHED, "rules": rules}, days=0.1)
    titles = [head.get_text(strip=True) for head in cleo.open("/board").soup.select("thead th")]
    assert "Pasta room" in " ".join(titles)
    assert "Sauté" not in " ".join(titles)
    assert "The standard in force that day has no such station." in cleo.open("/board/bo/saute").work
