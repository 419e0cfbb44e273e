"""Weighs a page: the bytes that come over the wire at a first view and at a later one."""

from __future__ import annotations

from dataclasses import dataclass

from playwright.sync_api import Browser, StorageState


@dataclass(frozen=True, slots=True)
class Weight:
    """Bytes over the wire, headers included, at a first and a later view; the script is weighed unpressed."""

    first: int
    later: int
    script: int


def weigh(browser: Browser, address: str, path: str, state: StorageState) -> Weight:
    """Return what a page weighs in a browser that has never seen this kitchen, and then once more."""
    context = browser.new_context(base_url=address, storage_state=state)
    page = context.new_page()
    arrived: list[int] = []
    wire = context.new_cdp_session(page)
    wire.send("Network.enable")
    wire.on("Network.loadingFinished", lambda event: arrived.append(int(event["encodedDataLength"])))
    page.goto(path, wait_until="networkidle")
    first = sum(arrived)
    script = page.evaluate("() => Promise.all([...document.scripts].map((s) => fetch(s.src).then((r) => r.text())))")
    page.goto("about:blank")
    arrived.clear()
    page.goto(path, wait_until="networkidle")
    later = sum(arrived)
    context.close()
    return Weight(first, later, sum(len(text.encode()) for text in script))
