"""A phone whose browser is killed at any moment, and opened again with nothing but what its disk has."""

from __future__ import annotations

import os
import signal
import subprocess
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from threading import Timer
from time import monotonic, sleep
from typing import Any

from playwright.sync_api import Browser, Error, Page

from tests.browser import engine
from tests.browser.somebody import Somebody

PATIENCE = 10_000  # ms
A_START = 30  # seconds


@dataclass
class Told:
    """What a person pressed, in order, and of that what the page then showed as kept, in the page's own words."""

    pressed: list[str] = field(default_factory=list)
    shown: dict[str, str] = field(default_factory=dict)
    stumbles: list[str] = field(default_factory=list)
    lives: int = 0
    stale: int = 0


class ShortLived(Somebody):
    """A person at a phone that keeps pages; its profile lasts, its browser does not."""

    def __init__(self, browser: Browser, address: str, profile: Path) -> None:
        """Name the folder of the profile; nothing is opened before a life."""
        self.profile, self.has_network, self.is_killed = profile, True, False
        self.process: subprocess.Popen[bytes] | None = None
        self.told = Told()
        super().__init__(browser, address, engine.SHORT_PHONE, keeps=True)

    def _sit_down(self, state: Any) -> Page:
        del state
        (self.profile / "DevToolsActivePort").unlink(missing_ok=True)
        command = [engine.chromium(), *engine.SWITCHES, f"--user-data-dir={self.profile}", "--remote-debugging-port=0"]
        quiet = subprocess.DEVNULL
        self.process = subprocess.Popen([*command, "about:blank"], stdout=quiet, stderr=quiet, start_new_session=True)
        self.wire = self.browser.browser_type.connect_over_cdp(f"http://127.0.0.1:{self._port()}")
        self.context = self.wire.contexts[0]
        self.context.set_default_timeout(PATIENCE)
        page = self.context.new_page()
        page.set_viewport_size({"width": self.screen.width, "height": self.screen.height})
        return page

    def _port(self) -> int:
        """Return where the browser that was just begun listens, once it says so."""
        until, said = monotonic() + A_START, self.profile / "DevToolsActivePort"
        while monotonic() < until:
            if said.exists() and said.read_text("ascii").count("\n"):
                return int(said.read_text("ascii").split()[0])
            sleep(0.05)
        raise AssertionError("The browser never began.")

    def open(self, path: str) -> None:
        """Open an address."""
        self.page.goto(f"{self.address}{path}")

    def network(self, *, there: bool) -> None:
        """Take the network away, or give it back."""
        self.has_network = there
        self.context.set_offline(not there)

    def live(self, act: Callable[[], None], seconds: float, *, has_network: bool) -> None:
        """Open the browser and do one thing after another, until it is killed after so many seconds."""
        self.told.lives += 1
        self.begin(has_network=has_network)
        end = Timer(seconds, self.kill)
        end.start()
        while not self.is_killed:
            try:
                act()
            except Error as error:
                if not self.is_killed:
                    self.told.stumbles.append(f"life {self.told.lives}: {str(error).splitlines()[0]}")
        end.join()
        self._let_go()

    def begin(self, *, has_network: bool = True) -> None:
        """Open the browser where its former one was killed."""
        if self.process is None:
            self.page = self._sit_down(None)
        self.is_killed = False
        self.network(there=has_network)

    def kill(self) -> None:
        """End the browser, and every process of it, with no warning."""
        self.is_killed = True
        assert self.process is not None
        os.killpg(self.process.pid, signal.SIGKILL)

    def end(self) -> None:
        """Kill the browser a last time."""
        if self.process is not None:
            self.kill()
            self._let_go()

    def _let_go(self) -> None:
        assert self.process is not None
        self.process.wait()
        self.process = None
        try:
            self.wire.close()
        except Error:
            return
