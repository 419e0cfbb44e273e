"""A manager sets how long people who left are kept, sees whom that would erase, and erases them in one act."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest

from tests.web.conftest import PASSPHRASE, Clock
from tests.web.hands import Hands
from tests.web.kitchen_people import write
from tests.web.test_erasing import SECRET
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.own_language import keep_own_language

YEARS_GONE = 366 * 3
YEARS = "Years, or: never"


@pytest.fixture
def left(kitchen: Kitchen, clock: Clock) -> Kitchen:
    """Return the kitchen; Ana left more than three years ago, Dev a hundred days ago."""
    write(kitchen, "cook_left", "ana", {"reason": "Moved to Duluth"}, by="cleo", days=5)
    write(kitchen, "cook_left", "dev", {"reason": "A new job"}, by="cleo", days=100 - YEARS_GONE)
    clock.pass_by(days=YEARS_GONE)
    return kitchen


def lists(hands: Hands) -> dict[str, list[str]]:
    """Return the names below each heading of the page."""
    found = ((heading.get_text(strip=True), heading.find_next("ul")) for heading in hands.page.soup.select("main h2"))
    return {words: [one.get_text(strip=True) for one in names.select("b")] for words, names in found if names}


def sets(cleo: Hands, years: str) -> None:
    """Look at what a setting would do, then set it."""
    cleo.open("/left")
    cleo.open(f"/left?years={years}")
    cleo.press("Set it")


def test_a_setting_is_seen_before_it_is_set(left: Kitchen, cleo: Hands) -> None:
    """The page lists whom it would erase, and from which day the others; looking sets nothing."""
    cleo.open(cleo.open("/cooks").link("People who left"))
    assert "are kept until somebody erases them" in cleo.page.work
    cleo.open("/left?years=3")
    assert "Only a preview:" in cleo.page.work
    assert lists(cleo) == {"Kept long enough": ["Ana Pardo"], "Still to be kept": ["Dev Karim"]}
    cleo.open("/left?years=4")
    assert lists(cleo) == {"Kept long enough": [], "Still to be kept": ["Ana Pardo", "Dev Karim"]}
    assert left.file.book.of_kind("retention_set") == []


def test_setting_it_is_an_entry_and_erases_nobody(left: Kitchen, cleo: Hands) -> None:
    """The entry has the years and who set it, as the command writes it; set like that already, it is said."""
    sets(cleo, "3")
    (entry,) = left.file.book.of_kind("retention_set")
    assert (entry.body["years"], entry.by, entry.cook) == (3, "cleo", "book")
    assert "are kept for 3 years" in cleo.open("/left").work
    assert {"ana", "dev"} <= left.file.people.all().keys()
    sets(cleo, "3")
    assert cleo.page.problems == ["It is set like that already. Nothing was changed."]
    sets(cleo, "never")
    assert left.file.book.of_kind("retention_set")[-1].body["years"] is None


@pytest.mark.parametrize("typed", ["0", "101", "three", "3.5", "-1"])
def test_what_is_no_number_of_years_is_named(left: Kitchen, cleo: Hands, typed: str) -> None:
    """With the rule; what was typed stays in the field."""
    page = cleo.open(f"/left?years={typed}")
    assert f"“{typed}” is not taken. Type whole years from 1 to 100" in page.work
    assert page.field(YEARS)["value"] == typed
    assert not page.soup.find_all("button", string="Set it")
    assert left.file.book.of_kind("retention_set") == []


def test_those_kept_long_enough_are_erased_in_one_act(left: Kitchen, cleo: Hands) -> None:
    """All that is held about them is saved first, as one file; those still to be kept stay."""
    sets(cleo, "3")
    cleo.open(cleo.open("/left").link("Erase those kept long enough (1)"))
    assert lists(cleo) == {"Who is erased": ["Ana Pardo"]}
    sent = cleo.client.get(cleo.page.link("Save all that is held about these people"))
    assert "attachment" in sent.headers["Content-Disposition"]
    assert [one["person"]["name"] for one in json.loads(sent.get_data(as_text=True))] == ["Ana Pardo"]
    cleo.press("Erase", {SECRET: PASSPHRASE, "How many people are erased": "1"}, saved="yes")
    (erased,) = left.file.book.of_kind("person_erased")
    assert (erased.cook, erased.by, erased.body["why"]) == ("ana", "cleo", "kept long enough")
    assert "ana" not in left.file.people.all()
    assert "dev" in left.file.people.all()
    assert left.file.verify().is_whole


@pytest.mark.parametrize(
    ("number", "saved", "secret", "says"),
    [
        ("2", "yes", PASSPHRASE, "“2” is not 1."),
        ("1", "", PASSPHRASE, "Save all that is held about them first. Nothing was erased."),
        ("1", "yes", "", "Type your PIN or passphrase again. Nothing was saved yet."),
    ],
)
def test_nobody_is_erased_unread(  # noqa: PLR0917 - what is typed, and what is said
    left: Kitchen, cleo: Hands, number: str, saved: str, secret: str, says: str
) -> None:
    """The number has to be typed, what is held saved, and the secret given."""
    sets(cleo, "3")
    cleo.open("/left/erase")
    cleo.press("Erase", {SECRET: secret, "How many people are erased": number}, **({"saved": saved} if saved else {}))
    assert any(says in problem for problem in cleo.page.problems)
    assert "ana" in left.file.people.all()


def test_a_list_that_changed_meanwhile_is_shown_again(
    left: Kitchen, clock: Clock, sign_in: Callable[[str], Hands]
) -> None:
    """Whoever came back since the page was opened is not erased, nor are the others before the list was read again."""
    write(left, "cook_left", "bo", {"reason": "A baby"}, by="cleo", days=-YEARS_GONE)
    clock.pass_by(days=YEARS_GONE)
    cleo = sign_in("cleo")
    sets(cleo, "3")
    cleo.open("/left/erase")
    write(left, "cook_joined", "bo", {"roles": ["cook"]}, by="cleo", days=-2 * YEARS_GONE)
    cleo.press("Erase", {SECRET: PASSPHRASE, "How many people are erased": "3"}, saved="yes")
    assert "The list has changed since it was shown. Look at it again. Nobody was erased." in cleo.page.work
    assert lists(cleo)["Who is erased"] == ["Ana Pardo", "Dev Karim"]
    assert left.file.book.of_kind("person_erased") == []


def test_without_a_setting_nobody_is_offered(left: Kitchen, cleo: Hands) -> None:
    """The page to erase them leads back, and the list has no way to it."""
    assert "Erase those" not in cleo.open("/left").work
    assert cleo.open("/left/erase").path == "/left"
    assert left.file.book.of_kind("person_erased") == []


def test_only_a_manager_sees_who_left(bo: Hands) -> None:
    """Neither the list, nor the act, nor the file is for anybody else."""
    for path in ("/left", "/left/erase", "/left/held"):
        assert bo.open(path).status == 403


@pytest.mark.parametrize("typed", ["nunca", "Nunca", "never"])
def test_never_is_taken_in_the_readers_word(left: Kitchen, cleo: Hands, typed: str) -> None:
    """The Spanish page asks for *nunca* and takes it; *never*, as the command says it, is taken too."""
    sets(cleo, "3")
    keep_own_language(left, person="cleo", language="es", units="")
    assert cleo.open("/left").field("Años, o: nunca")
    assert "o: nunca" in cleo.open("/left?years=tres").work
    cleo.open(f"/left?years={typed}")
    cleo.press("Fijarlo")
    assert left.file.book.of_kind("retention_set")[-1].body["years"] is None
