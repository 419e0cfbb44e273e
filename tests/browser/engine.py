"""Finds a Chromium on this machine and starts it; serves a kitchen to it on a free port of this machine alone."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from time import monotonic

import waitress
from playwright.sync_api import Browser, sync_playwright
from waitress import wasyncore

from trainer.actions.open_kitchen import Kitchen, Library
from trainer.kitchen.technique import Content
from trainer.store.kitchen_file import KitchenFile
from trainer.web.app import create_app

NAMES = (
    "chromium-headless-shell",  # takes a third of the processor's time of the others
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
)
SWITCHES = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--font-render-hinting=none",  # letters as wide as on a phone, and as the whole browser draws them
)


@dataclass(frozen=True, slots=True)
class Screen:
    """A screen a person works at, by day or by night, with scripts let run or not."""

    name: str
    width: int
    height: int
    night: bool = False
    script: bool = True


PHONE = Screen("phone", 360, 780)
SHORT_PHONE = Screen("short phone", 360, 740)
PHONE_AT_NIGHT = Screen("phone at night", 360, 780, night=True)
TABLET_AT_NIGHT = Screen("tablet at night", 768, 1024, night=True)
WIDE = Screen("wide", 1280, 800)
NO_SCRIPT = Screen("phone without script", 360, 780, script=False)


class Ticking:
    """A clock that shows a moment when it is made and goes on from there; a test may put it forward."""

    def __init__(self, start: datetime) -> None:
        """Start it."""
        self.start, self.began = start, monotonic()

    def __call__(self) -> datetime:
        """Return the moment it shows."""
        return self.start + timedelta(seconds=monotonic() - self.began)

    def put_forward(self, **span: float) -> None:
        """Let hours or days go by at once."""
        self.start += timedelta(**span)


@dataclass(frozen=True, slots=True)
class Served:
    """A kitchen being served: where, from which folder, and the kitchen itself as the server has it."""

    address: str
    folder: Path
    kitchen: Kitchen
    clock: Ticking


def chromium() -> str:
    """Return where a Chromium is; empty where there is none."""
    return next((found for found in map(shutil.which, NAMES) if found), "")


@contextmanager
def running_browser() -> Iterator[Browser]:
    """Give a headless browser with a profile of its own."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=list(SWITCHES))
        yield browser
        browser.close()


@contextmanager
def serving(folder: Path, content: Content, start: datetime, library: Library | None = None) -> Iterator[Served]:
    """Serve the kitchen in *folder* with the program's own server, its clock set to *start*."""
    file, clock = KitchenFile.open(folder), Ticking(start)
    kitchen = Kitchen(file, content, library)
    server = waitress.create_server(create_app(kitchen, clock=clock), host="127.0.0.1", port=0, threads=4, ident=None)
    stop = threading.Event()

    def run() -> None:
        while not stop.is_set():
            wasyncore.loop(timeout=0.1, map=server._map, count=1)

    thread = threading.Thread(target=run, daemon=True)
    thread.start()
    try:
        yield Served(f"http://127.0.0.1:{server.effective_port}", folder, kitchen, clock)
    finally:
        stop.set()
        thread.join(10)
        server.task_dispatcher.shutdown()
        server.close()
        wasyncore.close_all(server._map)
        file.close()
