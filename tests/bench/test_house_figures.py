"""The house's figures as ratios in one run on one machine; printed as a table, never a pass or fail by time."""

from __future__ import annotations

import resource
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from functools import partial
from http.client import HTTPConnection
from pathlib import Path

import pytest
import waitress
from flask import Flask

from tests.bench.signed_in import cookies_of
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.teaching import draft_in
from trainer.content.files import load_content
from trainer.content.shipped import shipped
from trainer.demo.build import build
from trainer.kitchen.book import NewEntry, moment_text
from trainer.store.kitchen_file import KitchenFile
from trainer.web.app import create_app

pytestmark = [
    pytest.mark.bench,
    # The server is closed from the thread that measures, while its own thread still waits.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning"),
]
NOW = datetime(2026, 11, 25, 20, 0, tzinfo=UTC)
MANY, FEW = 1_000_000, 10_000


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Make the demo kitchen once."""
    folder = tmp_path_factory.mktemp("bench") / "kitchen"
    build(folder, draft_in(shipped("content"), "us"), NOW).file.close()
    return folder


def opened(folder: Path) -> Kitchen:
    """Open a kitchen with the shipped content."""
    content, _ = load_content(shipped("content"))
    assert content is not None
    return Kitchen(KitchenFile.open(folder), content)


def per_second(act: Callable[[], object], seconds: float = 2.0) -> float:
    """Return how often an act can be done a second, after one that does not count."""
    act()
    ends, done, begun = time.perf_counter() + seconds, 0, time.perf_counter()
    while time.perf_counter() < ends:
        act()
        done += 1
    return done / (time.perf_counter() - begun)


@contextmanager
def served(app: Flask) -> Iterator[int]:
    """Serve an app on a free loopback port in a thread of this process."""
    server = waitress.create_server(app, host="127.0.0.1", port=0, threads=8)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield server.effective_port
    finally:
        server.close()


def fetch(port: int, path: str, cookies: str = "") -> bytes:
    """Return a page over a connection of its own."""
    connection = HTTPConnection("127.0.0.1", port, timeout=30)
    connection.request("GET", path, headers={"Cookie": cookies})
    answer = connection.getresponse()
    body = answer.read()
    connection.close()
    assert answer.status == 200, (path, answer.status)
    return body


def test_board_against_a_static_page(demo: Path) -> None:
    """The board page against a Flask + Jinja page of the same bytes, both served the same way."""
    kitchen = opened(demo)
    app = create_app(kitchen, clock=lambda: NOW)
    cookies = cookies_of(app)
    with served(app) as port:
        page = fetch(port, "/board", cookies)
        ours = per_second(lambda: fetch(port, "/board", cookies))
    plain = Flask("plain")
    words = page.decode()
    template = plain.jinja_env.from_string("{% for line in lines %}{{ line|safe }}\n{% endfor %}")
    plain.add_url_rule("/board", "board", lambda: template.render(lines=words.split("\n")))
    with served(plain) as port:
        theirs = per_second(lambda: fetch(port, "/board"))
    print(f"\nboard {len(page)} bytes: {ours:.0f}/s; static page {theirs:.0f}/s; ratio {ours / theirs:.2f} (bar 0.60)")


def test_cost_of_history(demo: Path, tmp_path: Path) -> None:
    """Board and record at a million entries against ten thousand; the first fold against reading and re-hashing."""
    rates = {}
    for size in (FEW, MANY):
        folder = tmp_path / str(size)
        shutil.copytree(demo, folder)
        kitchen = opened(folder)
        grow(kitchen, size)
        begun = time.perf_counter()
        kitchen.progress()
        fold = size / (time.perf_counter() - begun)
        begun = time.perf_counter()
        assert kitchen.file.verify().is_whole
        check = size / (time.perf_counter() - begun)
        app = create_app(kitchen, clock=lambda: NOW)
        cookies = cookies_of(app)
        client = app.test_client(use_cookies=False)
        assert client.get("/board", headers={"Cookie": cookies}).status_code == 200
        rates[size] = [
            per_second(partial(client.get, path, headers={"Cookie": cookies})) for path in ("/board", "/book")
        ]
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
        print(
            f"\n{size} entries: first fold {fold:.0f}/s, read and re-hash {check:.0f}/s, ratio {fold / check:.2f}"
            f" (bar 0.25); peak memory {memory} MB"
        )
    for place, page in enumerate(("board", "book")):
        few, many = rates[FEW][place], rates[MANY][place]
        print(f"{page}: {few:.0f}/s at {FEW}, {many:.0f}/s at {MANY}: cost x{few / many:.2f} (bar 1.20)")


def grow(kitchen: Kitchen, size: int) -> None:
    """Add readings until the book has this many entries."""
    cooks, techniques = list(kitchen.people()), list(kitchen.content.techniques)
    last, _ = kitchen.file.book.end()
    with kitchen.file.writing():
        for number in range(last, size):
            cook = cooks[number % len(cooks)]
            body = {"technique": techniques[number % len(techniques)], "edition": 1}
            at = NOW - timedelta(days=1, seconds=size - number)
            kitchen.file.book.append(NewEntry("technique_read", at, cook, cook, body, f"grow-{number}"))


def test_commits_against_the_engine(demo: Path, tmp_path: Path) -> None:
    """One durable entry at a time against raw one-row commits in the same journal mode, in the same file."""
    kitchen = opened(Path(shutil.copytree(demo, tmp_path / "k")))
    cook = next(iter(kitchen.people()))
    numbers = iter(range(10**9))

    def append() -> None:
        body = {"technique": "knife_cuts", "edition": 1}
        kitchen.file.book.append(NewEntry("technique_read", NOW, cook, cook, body, f"one-{next(numbers)}"))

    raw = raw_commits(tmp_path / "raw.db")
    ours = per_second(append)
    print(f"\nentries {ours:.0f}/s, raw durable commits {raw:.0f}/s, ratio {ours / raw:.2f} (bar 0.75)")


def raw_commits(path: Path) -> float:
    """Return one-row durable commits a second by the engine the store uses, rows of the same size, nothing hashed."""
    from trainer.store.connections import Connections

    connections = Connections(path, make=True)
    connections.write("CREATE TABLE raw (seq INTEGER PRIMARY KEY, a, b, c, d, e, f, g, h, i, j)")
    row = (
        "kitchen",
        "id" * 16,
        "technique_read",
        moment_text(NOW),
        "c" * 32,
        "c" * 32,
        "{}" * 20,
        "k",
        "0" * 64,
        "0" * 64,
    )

    def commit() -> None:
        with connections.writing():
            connections.write("INSERT INTO raw (a, b, c, d, e, f, g, h, i, j) VALUES (?,?,?,?,?,?,?,?,?,?)", row)

    return per_second(commit)


def test_start_and_memory(demo: Path) -> None:
    """The first answer of a fresh process against bare Flask; the server ready, and what it holds."""
    program = [sys.executable, "-m", "trainer", "--kitchen", str(demo)]
    bare = seconds_of([sys.executable, "-c", "import flask; print(flask.Flask('x').test_client().get('/').status)"])
    command = seconds_of([*program, "quantity", "1 lb", "--in", "g"])
    begun = time.perf_counter()
    with subprocess.Popen([*program, "serve"], stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout is not None
        address = server.stdout.readline()
        ready = time.perf_counter() - begun
        fetch(int(address.split("http://127.0.0.1:")[1].split()[0]), "/")
        resident = int(Path(f"/proc/{server.pid}/status").read_text().split("VmRSS:")[1].split()[0]) // 1024
        server.terminate()
    print(f"\nbare Flask {bare:.2f} s; a command {command:.2f} s, x{command / bare:.2f}")
    print(f"server ready {ready:.2f} s (bar 3), resident {resident} MB (bar 90)")


def seconds_of(command: list[str]) -> float:
    """Return the quickest of five runs."""
    taken = []
    for _ in range(5):
        begun = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True)
        taken.append(time.perf_counter() - begun)
    return min(taken)
