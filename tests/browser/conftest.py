"""The demo kitchen on a Friday at six, made once and copied for each test, with people at browsers of their own."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser import engine
from tests.browser.engine import NO_SCRIPT, PHONE, PHONE_AT_NIGHT, TABLET_AT_NIGHT, WIDE, Screen, Served
from tests.browser.somebody import Somebody
from tests.shared import made_once
from trainer.actions.open_kitchen import Library
from trainer.actions.teaching import draft_in
from trainer.content.files import load_content
from trainer.content.shipped import shipped
from trainer.demo.build import build
from trainer.kitchen.technique import Content

FRIDAY_AT_SIX = datetime(2026, 11, 27, 23, 0, tzinfo=UTC)  # 18:00 in New York
HERE = Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark every test in this folder but those under bench; skip them, with the reason, where there is no browser."""
    ours = [item for item in items if HERE in item.path.parents]
    for item in ours:
        if not item.get_closest_marker("bench"):
            item.add_marker(pytest.mark.browser)
        if not engine.chromium():
            item.add_marker(pytest.mark.skip(reason=f"No Chromium found; looked for {', '.join(engine.NAMES)}."))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Return a running browser; every person gets a profile of their own in it."""
    with engine.running_browser() as running:
        yield running


@pytest.fixture(scope="session")
def content() -> Content:
    """Return what the kitchen teaches, as shipped."""
    loaded, problems = load_content(shipped("content"))
    assert loaded is not None, problems
    assert not problems
    return loaded


@pytest.fixture(scope="session")
def library() -> Library:
    """Return what the kitchen teaches in another language, or with the other units first."""
    return lambda language, units: load_content(shipped("content"), language, units)[0]


@pytest.fixture(scope="session")
def made(content: Content, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the demo kitchen, made once."""

    def make(folder: Path) -> None:
        kitchen = build(folder, draft_in(shipped("content"), "us"), FRIDAY_AT_SIX)
        kitchen.file.secret_key()
        kitchen.file.close()

    return made_once(tmp_path_factory, "Quernstone", make)


@pytest.fixture
def serve(content: Content, library: Library) -> Iterator[Callable[[Path], Served]]:
    """Return a way to serve a kitchen for as long as the test lasts, what it teaches told in each reader's language."""
    with ExitStack() as until_the_end:
        yield lambda folder: until_the_end.enter_context(engine.serving(folder, content, FRIDAY_AT_SIX, library))


@pytest.fixture
def quernstone(made: Path, tmp_path: Path, serve: Callable[[Path], Served]) -> Served:
    """Return the demo kitchen, copied for this test and served."""
    folder = tmp_path / "kitchen"
    shutil.copytree(made, folder)
    return serve(folder)


@pytest.fixture(params=[PHONE, TABLET_AT_NIGHT, WIDE, NO_SCRIPT], ids=lambda screen: screen.name)
def screen(request: pytest.FixtureRequest) -> Screen:
    """Return each screen a journey is made at; the last lets no script run."""
    chosen: Screen = request.param
    return chosen


@pytest.fixture
def night() -> Screen:
    """Return a phone at night."""
    return PHONE_AT_NIGHT


@pytest.fixture
def sit_down(browser: Browser) -> Iterator[Callable[..., Somebody]]:
    """Return a way to sit a person down at a browser; at the end nobody's browser may have complained."""
    people: list[Somebody] = []

    def sit(served: Served, screen: Screen = PHONE) -> Somebody:
        people.append(Somebody(browser, served.address, screen))
        return people[-1]

    yield sit
    for each in people:
        each.leave()
