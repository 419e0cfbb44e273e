"""A person at a real browser: opens pages, presses what is named, types; every tap is counted, every fault kept."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Locator, Page, Request

from tests.browser.engine import PHONE, Screen

EXPECTED = (
    "the server responded with a status of 4",  # a form sent back to be fixed is a page, not a fault
    "Service Worker registration blocked by Playwright",  # nobody but who `keeps` pages has one here
)


class Somebody:
    """A person with a browser of their own. `taps` counts presses; `figures` those on number keys."""

    def __init__(self, browser: Browser, address: str, screen: Screen = PHONE, *, keeps: bool = False) -> None:
        """Open a fresh browser profile at a screen; where it *keeps* pages it may do without network later."""
        self.keeps = keeps
        self.browser, self.address, self.screen = browser, address, screen
        self.taps = self.figures = 0
        self.faults: list[str] = []
        self.strangers: list[str] = []
        self.page = self._sit_down(None)

    def _sit_down(self, state: Any) -> Page:
        self.context: BrowserContext = self.browser.new_context(
            base_url=self.address,
            viewport={"width": self.screen.width, "height": self.screen.height},
            color_scheme="dark" if self.screen.night else "light",
            java_script_enabled=self.screen.script,
            storage_state=state,
            service_workers="allow" if self.keeps else "block",
        )
        self.context.set_default_timeout(30_000)
        page = self.context.new_page()
        page.on("console", self._hear)
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        page.on("request", self._watch)
        return page

    def _hear(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning") and not any(one in message.text for one in EXPECTED):
            self.faults.append(f"{self.page.url}: {message.text}")

    def _watch(self, request: Request) -> None:
        if not request.url.startswith((self.address, "data:")):
            self.strangers.append(request.url)

    def close_and_come_back(self) -> None:
        """Close the browser, as a phone does in a pocket, and open it again with its cookies."""
        state = self.context.storage_state()
        self.context.close()
        self.page = self._sit_down(state)
        self.open("/")

    def leave(self) -> None:
        """Close the browser; whatever it complained of, and whatever it asked of others, fails here."""
        self.context.close()
        assert not self.faults, self.faults
        assert not self.strangers

    def open(self, path: str) -> None:
        """Open an address."""
        self.page.goto(path)

    def speak(self, language: str) -> None:
        """Choose a language by its tag, and see that pages come in it."""
        self.open("/language")
        self.page.check(f"input[name=language][value={language}]")
        with self.page.expect_navigation():
            self.tap(self.page.locator("button.enamel"))
        assert self.page.locator("html").get_attribute("lang") == language

    @property
    def heading(self) -> str:
        """Return the words of the page's first heading."""
        return " ".join(self.page.locator("h1").first.inner_text().split())

    @property
    def work(self) -> str:
        """Return the words of the page's main part."""
        return " ".join(self.page.locator("main").inner_text().split())

    @property
    def path(self) -> str:
        """Return the path of the page."""
        return self.page.url.removeprefix(self.address)

    def button_or_link(self, words: str) -> Locator:
        """Return what can be pressed and is called exactly this, for a reader of the screen or of its names."""
        page = self.page
        named = page.get_by_role("button", name=words, exact=True).or_(page.get_by_role("link", name=words, exact=True))
        return named.filter(visible=True).first

    def press(self, words: str) -> None:
        """Press the button or link of that name."""
        self.tap(self.button_or_link(words))

    def press_starting(self, words: str) -> None:
        """Press the first button or link in the work whose name starts so."""
        self.tap(self.page.locator("main").locator("a:visible, button:visible").filter(has_text=words).first)

    def next_act(self) -> str:
        """Press the one enamel button at the foot; return the words it had."""
        button = self.page.locator(".bar .enamel")
        words = " ".join(button.inner_text().split())
        self.tap(button)
        return words

    def tap(self, what: Locator) -> None:
        """Press something, once; wait for the page that follows."""
        self.taps += 1
        what.click()
        self.page.wait_for_load_state("load")

    def fill(self, label: str, text: str) -> None:
        """Type into the field with this label."""
        self.page.get_by_label(label, exact=True).fill(text)

    def choose(self, label: str, words: str) -> None:
        """Pick a line of a list."""
        self.page.get_by_label(label, exact=True).select_option(label=words)

    def key_in(self, label: str, text: str) -> None:
        """Give a number by the keys on the screen where all of it is there, else by typing."""
        keys = self.page.locator(".keypad:visible")
        known = "0123456789" if not self.page.locator('.keypad [data-key="."]').count() else "0123456789."
        if keys.count() and all(sign in known for sign in text):
            self.page.get_by_label(label, exact=True).fill("")
            for sign in text:
                keys.locator(f'[data-key="{sign}"]').click()
                self.figures += 1
        else:
            self.fill(label, text)
