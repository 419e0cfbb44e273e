"""A device remembers where the book stood when a day was closed, and notices one that was cut or rewritten."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from flask import Flask

from tests.web.conftest import NOON, PASSPHRASE, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import write
from tests.web.small_content import CONTENT
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.signing_in import set_secret
from trainer.kitchen.progress import Person
from trainer.kitchen.short_head import ShortHead
from trainer.store.device_heads import device_heads
from trainer.store.doctor import Patient, heads_of_devices
from trainer.store.kitchen_file import KitchenFile
from trainer.web.app import create_app

GILS = "pepper mill by the window"
READ = {"technique": "nests", "edition": 2}
Sit = Callable[[], Hands]


@pytest.fixture(autouse=True)
def _days_are_closed(kitchen: Kitchen) -> None:
    """Close each day, as in every kitchen that is served."""
    kitchen.file.book.closes_days = True


def a_day_later(kitchen: Kitchen, clock: Clock, cook: str = "ana") -> None:
    """Let a night pass, and one entry be written on the new day."""
    clock.pass_by(days=1)
    write(kitchen, "technique_read", cook, READ, days=-((clock.at - NOON) / timedelta(days=1)))


def remembered(hands: Hands, named: Callable[[str], str]) -> str:
    """Return the check value a device keeps; "" for none."""
    cookie = hands.client.get_cookie(named("head"))
    return cookie.value if cookie else ""


def served_again(folder: Path, clock: Clock) -> tuple[Kitchen, Flask]:
    """Return a kitchen and the app over it, as another start of the program opens them."""
    file = KitchenFile.open(folder)
    file.book.closes_days = True
    kitchen = Kitchen(file, CONTENT)
    app = create_app(kitchen, clock=clock)
    app.config["PROPAGATE_EXCEPTIONS"] = False
    return kitchen, app


def with_its_cookies(hands: Hands, app: Flask) -> Hands:
    """Return the same device at another server: it has the same cookies."""
    client = app.test_client()
    for cookie in (hands.client._cookies or {}).values():
        client.set_cookie(cookie.key, cookie.value)
    return Hands(client)


def manager_at(hands: Hands) -> Hands:
    """Sign Cleo in at this device."""
    hands.open("/names/cleo")
    hands.press("Sign in", {"Passphrase": PASSPHRASE})
    return hands


def test_a_new_days_first_entry_follows_the_head_of_all_before(kitchen: Kitchen, clock: Clock) -> None:
    """`day_closed` by the program, once a day, with the size and the root of the tree before it."""
    write(kitchen, "technique_read", "bo", READ, days=0)
    before = kitchen.file.book.head()
    a_day_later(kitchen, clock)
    write(kitchen, "technique_read", "dev", READ, days=-1)
    closed, *others = kitchen.file.book.since(before.seq)
    assert [entry.kind for entry in others] == ["technique_read", "technique_read"]
    assert (closed.kind, closed.by, closed.device, closed.cook) == ("day_closed", "program", "local", "book")
    assert closed.body == {"size": before.seq, "root": before.root.hex()}
    assert kitchen.file.book.last_closed() == ShortHead.of(before.seq, before.root)
    assert kitchen.file.verify().is_whole


def test_a_device_keeps_the_newest_closed_days_head(
    at_tablet: Sit, kitchen: Kitchen, clock: Clock, named: Callable[[str], str]
) -> None:
    """Once it agrees with the book, and again after each day; a book that grew is no other book."""
    hands = at_tablet()
    for _ in range(2):
        a_day_later(kitchen, clock)
        assert hands.open("/").soup.select_one("main > .band:not([data-waiting])") is None
        closed = kitchen.file.book.last_closed()
        assert closed is not None
        assert remembered(hands, named) == closed.as_text()


def test_a_stranger_is_given_nothing_to_remember(stranger: Hands, kitchen: Kitchen, clock: Clock) -> None:
    """Enrolled devices alone."""
    a_day_later(kitchen, clock)
    stranger.open("/")
    assert not [cookie for cookie in (stranger.client._cookies or {}).values() if cookie.key.startswith("head")]


def an_old_file_is_put_back(kitchen: Kitchen, clock: Clock, hands: Hands, tmp_path: Path) -> tuple[Kitchen, Hands]:
    """Keep the file of today, let two days pass that the device sees, then serve the file of today again."""
    kitchen.file.back_up(tmp_path / "kitchen.db")
    for _ in range(2):
        a_day_later(kitchen, clock)
        hands.open("/")
    (tmp_path / "put back").mkdir()
    shutil.copy(tmp_path / "kitchen.db", tmp_path / "put back" / "kitchen.db")
    shutil.copy(kitchen.file.folder / "secret_key", tmp_path / "put back" / "secret_key")
    again, app = served_again(tmp_path / "put back", clock)
    return again, with_its_cookies(hands, app)


def test_an_old_file_put_back_is_noticed_and_only_read_until_the_losses_are_typed(
    at_tablet: Sit, kitchen: Kitchen, clock: Clock, tmp_path: Path, named: Callable[[str], str]
) -> None:
    """The device says how many entries it has seen; nothing is saved from it; a manager types what is lost, once."""
    hands = at_tablet()
    again, hands = an_old_file_is_put_back(kitchen, clock, hands, tmp_path)
    count, _ = again.file.book.end()
    head = remembered(hands, named)
    seen = int(head.split("-")[0])
    words = f"This device has seen {seen} entries of this book, which has {count} now. Reading only on this device."
    manager_at(hands)
    assert words in hands.open("/board").work
    (reported,) = device_heads(again.file.folder)
    assert (reported.device, reported.head) == ("Pass tablet", head)
    assert [one.name for one in heads_of_devices(Patient(again.file.folder, clock.at))] == ["device_head"]
    refused = hands.client.post("/cooks/ana/roles", data={})
    assert (refused.status_code, again.file.book.end()[0]) == (503, count)
    hands.open("/book/verify")
    page = hands.follow("Say what was lost")
    assert f"(numbers {count + 1} to {seen}) are lost" in page.work
    page = hands.press("Go on with this book", {"How many entries are lost": str(seen - count + 1)})
    assert (page.status, again.file.book.end()[0]) == (400, count)
    assert hands.press("Go on with this book", {"How many entries are lost": str(seen - count)}).status == 200
    entry = again.file.book.of_kind("book_restored")[-1]
    assert entry.body == {"lost_from": count + 1, "lost_to": seen, "head": head, "second": None}
    assert list(heads_of_devices(Patient(again.file.folder, clock.at))) == []
    assert hands.open("/board").soup.select_one("main > .band:not([data-waiting])") is None
    again.file.close()


def test_where_there_is_another_manager_the_losses_take_their_word_too(
    at_tablet: Sit, kitchen: Kitchen, clock: Clock, tmp_path: Path
) -> None:
    """On the spot, with their own secret; the first manager's does not do for both (OWASP ASVS 5.0.0, 2.3.5)."""
    kitchen.file.people.add(Person("gil", "Gil Ros", None))
    write(kitchen, "cook_joined", "gil", {"roles": ["manager"]}, by="cleo", days=20)
    set_secret(kitchen, person="gil", secret=GILS)
    again, hands = an_old_file_is_put_back(kitchen, clock, at_tablet(), tmp_path)
    manager_at(hands)
    hands.open("/book/lost")
    match = re.search(r"Else (\d+) entr", hands.page.work)
    assert match
    typed = {"How many entries are lost": match[1]}
    count, _ = again.file.book.end()
    assert "The second manager: choose one" in hands.press("Go on with this book", typed).work
    word = "PIN or passphrase of the second"
    page = hands.press("Go on with this book", {**typed, word: PASSPHRASE}, second="gil")
    assert "not the PIN or passphrase of the second" in page.work
    assert again.file.book.end()[0] == count
    hands.press("Go on with this book", {**typed, word: GILS}, second="gil")
    entry = again.file.book.of_kind("book_restored")[-1]
    assert (entry.by, entry.body["second"]["by"], entry.body["second"]["proof"]["how"]) == ("cleo", "gil", "passphrase")
    assert "Second person: Gil Ros" in hands.open("/book").work
    again.file.close()


def test_a_book_written_anew_is_noticed(
    at_tablet: Sit, kitchen: Kitchen, clock: Clock, tmp_path: Path, named: Callable[[str], str]
) -> None:
    """As many entries, others among them: the first of a device's are not those it has seen."""
    hands = at_tablet()
    again, hands = an_old_file_is_put_back(kitchen, clock, hands, tmp_path)
    for number in range(9):
        write(again, "technique_read", "dev", READ, days=-2 - number / 1000)
    hands.open("/")
    seen = int(remembered(hands, named).split("-")[0])
    assert f"The first {seen} entries of this book are not those this device has seen." in hands.page.work
    again.file.close()


def test_the_right_file_put_back_is_enough(
    at_tablet: Sit, kitchen: Kitchen, clock: Clock, tmp_path: Path, named: Callable[[str], str]
) -> None:
    """The device goes on with it, and forgets what it was shown meanwhile."""
    first = at_tablet()
    again, hands = an_old_file_is_put_back(kitchen, clock, first, tmp_path)
    assert hands.open("/").soup.select_one("main > .band:not([data-waiting])") is not None
    again.file.close()
    assert first.open("/").soup.select_one("main > .band:not([data-waiting])") is None
    assert remembered(first, named) == remembered(hands, named)


def test_a_cookie_that_says_nothing_is_no_alarm(
    at_tablet: Sit, kitchen: Kitchen, clock: Clock, named: Callable[[str], str]
) -> None:
    """A head cut short or typed by somebody at the tablet: it gets the right one."""
    hands = at_tablet()
    a_day_later(kitchen, clock)
    hands.client.set_cookie(named("head"), "12-AAAA")
    assert hands.open("/").soup.select_one("main > .band:not([data-waiting])") is None
    assert remembered(hands, named) != "12-AAAA"


def test_a_device_that_agrees_has_nothing_to_say(at_tablet: Sit) -> None:
    """No page asks what was lost where nothing was."""
    assert manager_at(at_tablet()).open("/book/lost").status == 404
