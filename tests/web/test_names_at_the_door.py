"""Whose names a shared tablet shows: who is on tonight, who used it last, and whoever is looked for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest

from tests.web.conftest import PIN, Clock
from tests.web.hands import Hands, Seen
from trainer.actions import signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import NewEntry
from trainer.kitchen.names import is_called
from trainer.kitchen.progress import Person
from trainer.store.shifts import PlannedShift

TONIGHT = date(2026, 11, 3)
MORE = {
    "lucja": "Łucja Żak",
    "celik": "Çağla Çelikoğlu",
    "jose": "José Núñez",
    "ann": "Jo-Ann O’Neill",
    "soren": "Søren Bæk",
}


@pytest.fixture
def kitchen(kitchen: Kitchen, clock: Clock) -> Kitchen:
    """Return the kitchen with five more cooks, nine names in all."""
    for who, name in MORE.items():
        kitchen.file.people.add(Person(who, name, date(1999, 1, 1)))
        joined = NewEntry("cook_joined", clock() - timedelta(days=9), who, "cleo", {"roles": ["cook"]}, f"join-{who}")
        kitchen.file.book.append(joined)
        assert isinstance(signing_in.set_secret(kitchen, person=who, secret=PIN), signing_in.Done)
    return kitchen


def plan(kitchen: Kitchen, *cooks: str, on: date = TONIGHT) -> None:
    """Plan cooks for dinner by a shift file."""
    kitchen.file.shifts.add([PlannedShift(on, "dinner", cook, "pasta_room") for cook in cooks])


def names_on(page: Seen) -> list[str]:
    """Return the names in the order they are shown."""
    return [" ".join(found.get_text().split()) for found in page.soup.select(".names li")]


def test_who_is_on_tonight_stands_first(at_tablet: Callable[[], Hands], kitchen: Kitchen) -> None:
    """By name among themselves; then everybody else, by name, Ł at L and Ç at C."""
    plan(kitchen, "soren", "bo")
    page = at_tablet().open("/names")
    assert names_on(page)[:2] == ["Bo Lind", "Søren Bæk"]
    assert names_on(page)[2:] == [
        "Ana Pardo", "Çağla Çelikoğlu", "Cleo Mbeki", "Dev Karim", "Jo-Ann O’Neill", "José Núñez", "Łucja Żak",
    ]  # fmt: skip
    assert [found.get_text() for found in page.soup.select("main h2")] == ["On tonight", "Everybody else"]


def test_who_used_the_tablet_last_is_first_of_their_half(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock
) -> None:
    """The last one first; another tablet knows nothing of it."""
    plan(kitchen, "soren", "bo", "dev")
    hands = at_tablet()
    for who in ("lucja", "dev", "soren"):
        clock.pass_by(minutes=5)
        hands.open(f"/names/{who}")
        hands.press("Sign in", {"PIN, 8 figures": PIN})
        hands.press("Sign out")
    assert names_on(hands.open("/names"))[:4] == ["Søren Bæk", "Dev Karim", "Bo Lind", "Łucja Żak"]
    assert names_on(at_tablet().open("/names"))[:4] == ["Bo Lind", "Dev Karim", "Søren Bæk", "Ana Pardo"]


def test_a_night_belongs_to_the_day_before(at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock) -> None:
    """At half past one those who were on at dinner are on still."""
    plan(kitchen, "soren")
    clock.pass_by(hours=13, minutes=30)
    assert names_on(at_tablet().open("/names"))[0] == "Søren Bæk"


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("lucja", ["Łucja Żak"]),
        ("ŁUCJA", ["Łucja Żak"]),
        ("celikoglu", ["Çağla Çelikoğlu"]),
        ("cagla", ["Çağla Çelikoğlu"]),
        ("nunez", ["José Núñez"]),
        ("jo", ["Jo-Ann O’Neill", "José Núñez"]),
        ("ann", ["Jo-Ann O’Neill"]),
        ("neill", ["Jo-Ann O’Neill"]),
        ("baek", ["Søren Bæk"]),
        ("  soren   bæk ", ["Søren Bæk"]),
        ("karim dev", ["Dev Karim"]),
    ],
)
def test_a_name_is_found_by_plain_letters(
    at_tablet: Callable[[], Hands], kitchen: Kitchen, typed: str, found: list[str]
) -> None:
    """Without accents, marks and capitals, by the beginning of any of its words, in any order; by GET."""
    hands = at_tablet()
    page = hands.open("/names")
    form = page.soup.select_one("form[role=search]")
    assert form is not None
    assert form["method"] == "get"
    assert str(page.field("Find a name")["name"]) == "q"
    answer = hands.client.get(str(form["action"]), query_string={"q": typed})
    page = Seen(answer, "/names")
    assert names_on(page) == found
    assert page.field("Find a name")["value"] == " ".join(typed.split())


def test_a_name_nobody_has_is_said_and_hides_nobody(at_tablet: Callable[[], Hands], kitchen: Kitchen) -> None:
    """What was typed is still there, and everybody is on the page."""
    page = at_tablet().open("/names?q=Wolfgang")
    assert "Nobody here is called “Wolfgang”." in page.work
    assert len(names_on(page)) == 9
    assert page.field("Find a name")["value"] == "Wolfgang"


def test_the_way_back_goes_through_the_search(at_tablet: Callable[[], Hands], kitchen: Kitchen) -> None:
    """Who was on the way to a technique arrives there."""
    hands = at_tablet()
    page = hands.open("/techniques/nests")
    kept = {str(i["name"]): str(i["value"]) for i in page.soup.select("form[role=search] input[type=hidden]")}
    hands._see(hands.client.get("/names", query_string={**kept, "q": "ana"}))
    hands.follow("Ana Pardo")
    assert hands.press("Sign in", {"PIN, 8 figures": PIN}).path == "/techniques/nests"


def test_a_small_kitchen_sees_no_search(at_tablet: Callable[[], Hands], kitchen: Kitchen, clock: Clock) -> None:
    """Eight names are seen at once."""
    kitchen.file.book.append(NewEntry("cook_left", clock(), "ann", "cleo", {"reason": "x"}, "left"))
    page = at_tablet().open("/names")
    assert len(names_on(page)) == 8
    assert not page.soup.select("form[role=search]")


@pytest.mark.parametrize(
    ("name", "typed", "is_so"),
    [
        ("Ana Pardo", "", True),
        ("Ana Pardo", "rdo", False),
        ("Ana Pardo", "an pa", True),
        ("Ana Pardo", "ana ruiz", False),
        ("Iğdır Şen", "igdir sen", True),
        ("Đặng Thị", "dang thi", True),
        ("Weiß", "weiss", True),
    ],
)
def test_names_and_what_is_typed(name: str, typed: str, is_so: bool) -> None:
    """Letters of Turkish, Vietnamese, German."""
    assert is_called(name, typed) is is_so
