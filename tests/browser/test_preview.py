"""The preview of a technique in a real browser: on a phone and wide, by day and by night, whole and half written."""

from __future__ import annotations

import shutil
import threading
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from werkzeug.serving import make_server

from tests.browser import looks
from tests.browser.engine import PHONE, PHONE_AT_NIGHT, WIDE, Screen
from tests.browser.somebody import Somebody
from trainer.content.new_technique import begin_technique
from trainer.content.shipped import shipped
from trainer.web.authoring.app import create_preview
from trainer.web.authoring.pages import TechniqueWritten

WIDE_AT_NIGHT = Screen("wide at night", 1280, 800, night=True)
Show = Callable[[str], str]


@pytest.fixture
def show(tmp_path: Path) -> Iterator[Show]:
    """Return a way to preview a technique of a copy of the shipped content; it gives the address."""
    folder = Path(shutil.copytree(shipped("content"), tmp_path / "content"))
    begin_technique(folder, "Pan sauces", date(2026, 11, 25))
    servers = []

    def shown(technique: str) -> str:
        server = make_server(
            "127.0.0.1", 0, create_preview(TechniqueWritten(folder, technique, "en", "us")), threaded=True
        )
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        servers.append((server, thread))
        return f"http://127.0.0.1:{server.server_port}"

    yield shown
    for server, thread in servers:
        server.shutdown()
        thread.join(10)
        server.server_close()


@pytest.mark.parametrize("screen", [PHONE, PHONE_AT_NIGHT, WIDE, WIDE_AT_NIGHT], ids=lambda screen: screen.name)
@pytest.mark.parametrize("address", ["pasta_nesting /", "pan_sauces /", "pan_sauces /?language=es"])
def test_a_preview_looks_right_at_every_screen(browser: Browser, show: Show, screen: Screen, address: str) -> None:
    """Nothing sideways, nothing faint or small, nothing axe objects to."""
    technique, path = address.split()
    somebody = Somebody(browser, show(technique), screen)
    somebody.page.goto(somebody.address + path)
    for look in (looks.sideways, looks.sideways_spaced, looks.faint_text, looks.small_text, looks.small_controls):
        assert look(somebody.page) == [], look.__name__
    assert looks.axe(somebody.page)[0] == []
    somebody.leave()
