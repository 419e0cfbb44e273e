"""Weighs pages: the bytes that come over the wire at a first view and at a later one."""

from __future__ import annotations

from dataclasses import dataclass

from playwright.sync_api import BrowserContext

A_MOMENT = 150  # ms
SCRIPTS = "() => Promise.all([...document.scripts].map((s) => fetch(s.src).then((r) => r.text())))"
FACES = "() => document.fonts.ready.then(() => true)"


@dataclass(frozen=True, slots=True)
class Weight:
    """Bytes over the wire, headers included, at a first and a later view; the script is weighed unpressed."""

    first: int
    later: int
    script: int


class Scales:
    """A browser page on which others are weighed."""

    def __init__(self, context: BrowserContext) -> None:
        """Listen to all that arrives at a new page of a person's browser."""
        self.page = context.new_page()
        self.arrived: list[int] = []
        self.wire = context.new_cdp_session(self.page)
        self.wire.send("Network.enable")
        self.wire.on("Network.loadingFinished", lambda event: self.arrived.append(int(event["encodedDataLength"])))

    def weigh(self, path: str) -> Weight:
        """Return what a page weighs with nothing of this kitchen kept in the browser, and then once more."""
        self.wire.send("Network.clearBrowserCache")
        first = self._view(path)
        script = sum(len(text.encode()) for text in self.page.evaluate(SCRIPTS))
        return Weight(first, self._view(path), script)

    def _view(self, path: str) -> int:
        """Open a page again; wait for its faces, and a moment for the icon, which comes last."""
        self.page.goto("about:blank")
        self.arrived.clear()
        self.page.goto(path)
        self.page.evaluate(FACES)
        self.page.wait_for_timeout(A_MOMENT)
        return sum(self.arrived)
