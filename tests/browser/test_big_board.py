"""The board of 60 cooks and 12 stations: its heads stay, and it prints whole on A4 and on Letter."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from io import BytesIO
from pathlib import Path

import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTTextContainer
from playwright.sync_api import Page, expect

from tests.big_house import COOKS, MANAGER, MANAGER_SECRET, STATIONS, TITLES, big_content, name_of, open_big_house
from tests.browser import engine
from tests.browser.engine import NO_SCRIPT, PHONE, WIDE, Screen, Served
from tests.browser.paper import PAPERS, printed
from tests.browser.somebody import Somebody
from tests.shared import made_once
from tests.web.conftest import NOON
from trainer.actions import signing_in
from trainer.web import guard

SMALLEST_PRINT = 7.5  # points, of a cell's word; heads and names have 9
WHERE_HEADS_ARE = """() => {
  const region = document.querySelector(".board-scroll"), box = () => region.getBoundingClientRect();
  region.scrollTo(region.scrollWidth, region.scrollHeight / 2);
  const title = [...region.querySelectorAll("thead tr:first-child th")].at(-1).getBoundingClientRect();
  const named = [...region.querySelectorAll("tbody th")].map((e) => e.getBoundingClientRect());
  const seen = named.filter((e) => e.top > title.bottom && e.bottom < box().bottom);
  return [title.top - box().top, seen[0].left - box().left, seen.length];
}"""
OVERPRINTED = """() => [...document.querySelectorAll(".board-scroll th, .board-scroll td")].filter((cell) => {
  const room = cell.getBoundingClientRect();
  return [...cell.querySelectorAll("*")].some((part) => {
    if (part.closest(".unseen") || !part.checkVisibility()) return false;
    const box = part.getBoundingClientRect();
    return box.width && (box.right > room.right + 1 || box.bottom > room.bottom + 1);
  });
}).map((cell) => cell.innerText)"""


@pytest.fixture(scope="module")
def long_row(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Return the big kitchen, served on the day its 22 are planned for dinner."""

    def make(folder: Path) -> None:
        kitchen = open_big_house(folder)
        kitchen.file.secret_key()
        signing_in.set_secret(kitchen, person=MANAGER, secret=MANAGER_SECRET)
        kitchen.file.close()

    folder = made_once(tmp_path_factory, "Long Row", make)
    with engine.serving(folder, big_content(), NOON) as served:
        yield served


def manager_at(served: Served, somebody: Somebody) -> Page:
    """Return the page of a manager who is signed in."""
    k = served.kitchen
    _, secret = k.file.devices.enrol("Office", MANAGER, NOON)
    device = k.file.devices.find(secret)
    assert device is not None
    session = signing_in.sign_in(k, device=device.id, person=MANAGER, secret=MANAGER_SECRET, now=NOON)
    assert isinstance(session, signing_in.NewSession), session
    kept = {guard.DEVICE: secret, guard.SESSION: session.token}
    for name, value in kept.items():
        cookie = {"name": f"{name}-{k.file.settings.kitchen[:8]}", "value": value, "url": served.address}
        somebody.context.add_cookies([cookie])  # type: ignore[list-item]  # a literal of its three keys
    k.board(NOON.date())  # worked out before a browser waits for it
    somebody.page.set_default_navigation_timeout(60_000)
    return somebody.page


@pytest.mark.parametrize("screen", [WIDE, PHONE, NO_SCRIPT], ids=lambda screen: str(screen.name))
def test_both_heads_stay_while_the_board_scrolls(
    long_row: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """In the middle of the table, at its last station: its title on top, the names at the side."""
    page = manager_at(long_row, sit_down(long_row, screen))
    page.goto(f"{long_row.address}/board?show=all")
    assert page.locator("tbody tr").count() == COOKS
    if screen.script:
        above, beside, rows = page.evaluate(WHERE_HEADS_ARE)
        assert abs(above) <= 1
        assert abs(beside) <= 1
        assert rows >= 2
    page.goto(f"{long_row.address}/board?q=lucja")
    found = [" ".join(text.split()) for text in page.locator("tbody .who").all_inner_texts()]
    assert found == [f"{name_of(12)} dinner", name_of(42)]


def test_the_board_prints_whole(long_row: Served, sit_down: Callable[..., Somebody]) -> None:
    """On A4 and on Letter: three sheets, on each the numbered head with its titles, nothing printed over another."""
    page = manager_at(long_row, sit_down(long_row, WIDE))
    page.goto(f"{long_row.address}/board?show=all")
    for paper in PAPERS:
        sheets = printed(page, paper)
        assert len(sheets) <= 3, (paper, len(sheets))
        assert min(sheet.smallest for sheet in sheets) >= SMALLEST_PRINT - 0.1
        pdf = page.pdf(format=paper, prefer_css_page_size=True)
        texts = [
            "".join(part.get_text() for part in sheet if isinstance(part, LTTextContainer))
            for sheet in extract_pages(BytesIO(pdf))
        ]
        for text in texts:
            assert all(title in text for title in TITLES[:STATIONS]), paper
        assert all(name_of(number).split()[0] in "".join(texts) for number in range(COOKS))
        page.emulate_media(media="print")
        page.set_viewport_size({"width": 1070 if paper == "A4" else 1010, "height": 740})
        assert page.evaluate(OVERPRINTED) == []
        page.emulate_media(media="screen")
        page.emulate_media(media="null")


def test_the_wall_turns_its_pages(long_row: Served, sit_down: Callable[..., Somebody]) -> None:
    """Twelve stations on a screen of 1920 by 1080: the gap stays, the others turn, a page can be kept.

    Seen from 5 m, letters of 90 px on a screen 95 cm wide are 31 mm high, 21 minutes of arc; ISO 9241-303, 5.5.4, asks
    for 16 at least (from memory).
    """
    page = manager_at(long_row, sit_down(long_row, Screen("wall", 1920, 1080)))
    page.clock.install()
    page.goto(f"{long_row.address}/board/wall")
    shown = page.locator(".wall > div:visible dt")
    first = shown.all_inner_texts()
    assert (len(first), first[0].casefold()) == (6, "sauté")
    assert page.evaluate("() => document.documentElement.scrollHeight") <= 1080
    assert page.evaluate("() => parseFloat(getComputedStyle(document.querySelector('.wall dd')).fontSize)") >= 85
    page.clock.fast_forward(13_000)
    expect(shown.nth(1)).not_to_have_text(first[1])
    expect(shown.first).to_have_text(first[0], ignore_case=True)
    page.get_by_role("link", name="Keep this page").click()
    expect(page.get_by_role("link", name="Let the pages turn")).to_be_visible()
    kept = shown.all_inner_texts()
    page.clock.fast_forward(13_000)
    assert shown.all_inner_texts() == kept
    still = page.context.new_page()  # beside the page whose clock was turned, which renews itself
    still.emulate_media(reduced_motion="reduce")
    still.goto(f"{long_row.address}/board/wall")
    expect(still.locator(".wall > div:visible dt")).to_have_count(STATIONS)
