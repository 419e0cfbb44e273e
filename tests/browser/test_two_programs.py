"""The board keeps up with whatever else writes in the same book."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from tests.browser.engine import Screen, Served
from tests.browser.journeys import person_id, step_in
from tests.browser.somebody import Somebody

HOUSE = Path(__file__).parents[2]


def test_what_another_program_wrote_shows_at_the_next_page(
    quernstone: Served, sit_down: Callable[..., Somebody], screen: Screen
) -> None:
    """A second process stands a cleared cook down; the board says so when it is next opened."""
    ottilie = sit_down(quernstone, screen)
    step_in(ottilie, quernstone, "Manager")
    href = ottilie.page.locator("td.is-cleared a.cell").first.get_attribute("href") or ""
    cell = ottilie.page.locator(f'a.cell[href="{href}"]')
    assert "stood down" not in cell.inner_text()
    cook, station = href.rsplit("/", 2)[1:]
    second = [sys.executable, "-m", "tests.browser.second_program", str(quernstone.folder)]
    manager, now = person_id(quernstone, "Manager"), quernstone.clock().isoformat()
    subprocess.run([*second, manager, cook, station, now], check=True, cwd=HOUSE, timeout=60)
    ottilie.open("/board")
    assert "stood down" in cell.inner_text()
