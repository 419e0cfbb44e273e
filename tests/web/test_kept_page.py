"""A signed practical is shown from its entry alone: nothing on its page is asked of the content again."""

from __future__ import annotations

import re
from dataclasses import replace
from types import MappingProxyType

from bs4 import BeautifulSoup

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands, Seen, take_all
from tests.web.kitchen_people import ask, clear, sign, study
from tests.web.small_content import NESTS, WEIGHT
from tests.web.test_assessor import WEIGHTS, start_watching, watch_all
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import Entry
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.quantity import Quantity

GONE = "The words and limits of that day were not kept."


def with_nests(content: Content, technique: Technique | None) -> Content:
    """Return the content with other nests in it, or with none, and no station that asks for them."""
    left = {name: one for name, one in content.techniques.items() if name != "nests"}
    if technique is not None:
        return replace(content, techniques=MappingProxyType({**left, "nests": technique}))
    stations = {name: one for name, one in content.stations.items() if "nests" not in one.techniques}
    return replace(content, techniques=MappingProxyType(left), stations=MappingProxyType(stations))


def reworded() -> Technique:
    """Return the nests under another title, every point in other words, and with another line."""
    line = replace(WEIGHT, lowest=Quantity.of(1, "oz"), highest=Quantity.of(2, "oz"))
    points = [replace(one, text=f"{one.text} Twice.", limit=line if one.limit else None) for one in NESTS.checklist]
    return replace(NESTS, title="Nidos", checklist=tuple(points))


def signed(bo: Hands, kitchen: Kitchen, note: str) -> Entry:
    """Watch Ana to the end and sign; return the entry."""
    watch_all(bo, kitchen)
    bo.press("Sign", {"Your PIN": PIN}, note=note)
    return kitchen.file.book.of_kind("practical_watched")[-1]


def entry_in_the_book(page: Seen, entry: Entry) -> str:
    """Return what the book's page says of one entry."""
    (found,) = [item for item in page.soup.select("main li") if f"Entry {entry.seq}," in item.get_text()]
    return str(found)


def page_of(bo: Hands, entry: Entry) -> bytes:
    """Return the page of a signed practical, but for the form to leave: its keys are new each time."""
    data = bo.open(f"/practicals/kept/{entry.id}").response.data
    return re.sub(rb'<form method="post" action="/leave">.*?</form>', b"", data, flags=re.DOTALL)


def test_the_page_is_the_same_to_the_byte_whatever_becomes_of_the_technique(
    bo: Hands, cleo: Hands, kitchen: Kitchen
) -> None:
    """Words and limit changed, then the technique and its station taken out: page and book stay."""
    entry = signed(bo, kitchen, note="Clean board.")
    before = page_of(bo, entry)
    in_book = entry_in_the_book(cleo.open("/book"), entry)
    soup = BeautifulSoup(before, "html.parser")
    said = " ".join(soup.get_text(" ").split())
    for words in ("Pasta nesting", "Pasta room", "The guard is on.", "Line: from 4.3 to 4.7 oz", "4 of 5 inside"):
        assert words in said
    assert "Nests weigh the same: meets it (4.5 oz, 128 g, 4 1/2 oz, 4.4 oz, 5 oz); seen 3 Nov 2026, 12:00" in in_book
    for technique in (reworded(), None):
        kitchen.content = with_nests(kitchen.content, technique)
        assert page_of(bo, entry) == before
        assert entry_in_the_book(cleo.open("/book"), entry) == in_book


def test_every_look_is_shown_with_its_time(bo: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Seen short at noon and met seven minutes later: both, on the sign page, the kept page and in the book."""
    clear(kitchen, "bo")
    ask(kitchen, "ana")
    bo.open("/ready")
    bo.press("Watch Ana, Ana Pardo, Pasta nesting")
    first = bo.follow("Start").path
    bo.press("Not yet", note="Left open.")
    clock.pass_by(minutes=7)
    bo.open(first)
    bo.press("Meets it", note="")
    take_all(bo, WEIGHTS)
    page = bo.press("Meets it")
    before = "Before that, 3 Nov 2026, 12:00: not yet. Note: Left open."
    assert before in page.work
    assert "Seen 3 Nov 2026, 12:07." in page.work
    assert before in bo.press("Sign", {"Your PIN": PIN}).work


def test_a_practical_of_before_says_what_was_not_kept(bo: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """In today's words, held to no line of today, on its page and in the book."""
    study(kitchen, "dev")
    entry = sign(kitchen, "dev", by="bo")
    page = bo.open(f"/practicals/kept/{entry.id}")
    assert GONE in page.work
    assert "Nests weigh the same." in page.work
    assert "Line:" not in page.work
    assert GONE in cleo.open("/book").work


def test_a_practical_whose_technique_was_taken_out_is_put_away_from_its_page(bo: Hands, kitchen: Kitchen) -> None:
    """Going on leads to what was seen, which says why it cannot be signed; put away, the hand is empty."""
    watch_all(bo, kitchen)
    kitchen.content = with_nests(kitchen.content, None)
    bo.open("/ready")
    page = bo.follow("Go on")
    assert "Pasta nesting is not taught any more, so this cannot be signed. Put it away." in page.work
    assert "Nests weigh the same." in page.work
    assert not page.soup.find("a", string="Change")
    assert "not taught any more" in bo.press("Sign", {"Your PIN": PIN}).problems[0]
    bo.follow("Put this away unsigned")
    assert "In your hand" not in bo.press("Put it away").work


def test_a_stop_is_asked_once_more_and_taken_back_with_what_was_typed(bo: Hands, kitchen: Kitchen) -> None:
    """A slip of the thumb keeps nothing; said yes, it stays, with the words written there."""
    start_watching(bo, kitchen)
    bo.press("Meets it")
    for number in (1, 2, 3, 4):
        bo.press(f"Save {number} of 5", **{f"reading_{number}": WEIGHTS[f"reading_{number}"]})
    page = bo.press("Stop: unsafe", reading_5="5")
    assert page.heading == "Stop the work now."
    assert "What was unsafe?" in page.work
    page = bo.press("No, back")
    assert page.field("Weight 5 of 5")["value"] == "5"
    (draft,) = kitchen.file.drafts.list("practical")
    assert [len(point["looks"]) for point in draft.body["points"]] == [1, 0, 0]
    bo.press("Stop: unsafe", reading_5="5")
    page = bo.press("Yes, it was unsafe", {"In your words": "Hand in the die."}, cause="hands_in_machine")
    assert "Verdict: Stopped" in page.work
    assert "Hand in the die." in page.work
    assert "Unsafe: Hands near a moving part." in page.work
    assert "4.5 oz, 128 g, 4 1/2 oz, 4.4 oz, 5 oz" in page.work
