"""A house's own services: what they may be called, how they print, what is kept of them."""

from __future__ import annotations

from datetime import time

import pytest

from tests.printed import english
from trainer.kitchen.own_services import (
    ServiceWanted,
    Wrong,
    own_service,
    services_of_house,
    services_told,
    with_listed,
    with_wanted,
)
from trainer.kitchen.services import THE_THREE, HouseServices
from trainer.messages import Text, translate
from trainer.store.catalogues import translations

WORDS = {"breakfast": ("breakfast", "desayuno"), "lunch": ("lunch", "almuerzo"), "dinner": ("dinner", "cena")}


def spanish(text: Text) -> str:
    """Return a text as it is printed in Spanish."""
    return translate(text, translations("es"))


def wanted(id: str = "", *names: str, opens: str = "10:00", closes: str = "14:30") -> ServiceWanted:
    """Return a service as it is typed in an English kitchen."""
    return ServiceWanted(id, tuple(zip(("en", "es"), names, strict=False)), opens, closes)


def named(house: HouseServices, *changes: ServiceWanted) -> HouseServices:
    """Return a house after these were named."""
    for change in changes:
        changed = with_wanted(house, change, WORDS)
        assert isinstance(changed, HouseServices), changed
        house = changed
    return house


def problem(house: HouseServices, change: ServiceWanted) -> tuple[str, str]:
    """Return what is wrong with a service, and at which field."""
    found = with_wanted(house, change, WORDS)
    assert isinstance(found, Wrong)
    return english(found.words), found.field


BRUNCH = named(THE_THREE, wanted("", "Sunday brunch", "Almuerzo del domingo"))


def test_an_own_service_stands_in_the_sequence_of_the_day() -> None:
    """By its usual hours; its id is made from its name and never changes."""
    assert BRUNCH.ids == ("breakfast", "sunday_brunch", "lunch", "dinner")
    again = named(BRUNCH, wanted("sunday_brunch", "Jazz brunch", opens="18:00", closes="00:30"))
    assert again.ids == ("breakfast", "lunch", "dinner", "sunday_brunch")
    assert english(again.word("sunday_brunch")) == "Jazz brunch"


def test_a_name_prints_in_the_readers_language() -> None:
    """As the house wrote it; with a capital where it begins a line; in both alike where it wrote one."""
    title, heading = BRUNCH.word("sunday_brunch"), BRUNCH.heading("sunday_brunch")
    assert (english(title), spanish(title)) == ("Sunday brunch", "Almuerzo del domingo")
    assert (english(heading), spanish(heading)) == ("Sunday brunch", "Almuerzo del domingo")
    one = named(THE_THREE, wanted("", "late table", "", opens="22:00", closes="02:00"))
    assert (english(one.word("late_table")), spanish(one.word("late_table"))) == ("late table", "late table")
    assert spanish(one.heading("late_table")) == "Late table"


def test_one_of_the_three_is_called_otherwise_and_again_as_ever() -> None:
    """Its hours and the hour before which nobody worked there stay; called by the program's words it is as it was."""
    other = named(THE_THREE, wanted("lunch", "Brunch", "Comida", opens="11:00", closes="15:00"))
    assert [english(one.heading) for one in other.known] == ["Breakfast", "Brunch", "Dinner"]
    assert other.earliest("lunch") == THE_THREE.earliest("lunch") == time(10)
    assert named(other, wanted("lunch", "Lunch", "almuerzo", opens="11:00", closes="15:00")) == THE_THREE


@pytest.mark.parametrize(
    ("opens", "earliest"), [("04:00", "04:00"), ("05:30", "04:00"), ("06:00", "04:00"), ("19:15", "17:15")]
)
def test_nobody_has_worked_long_before_it_opens(opens: str, earliest: str) -> None:
    """Two hours before, and not before the night ends, so that the night stays of the day before."""
    found = own_service("x", (("en", "X"),), time.fromisoformat(opens), time(23))
    assert f"{found.earliest:%H:%M}" == earliest


@pytest.mark.parametrize(
    ("change", "words", "field"),
    [
        (wanted("", ""), "Write the name.", "name"),
        (wanted("", "  "), "Write the name.", "name"),
        (wanted("", "…!"), "“…!”: a name has at least one letter.", "name"),
        (wanted("", "x" * 25), f"“{'x' * 25}” has 25 letters; a name has 24 at most.", "name"),
        (wanted("", "=2"), "“=2”: a spreadsheet takes it for a formula. Begin with a letter.", "name"),
        (wanted("", "@tea"), "“@tea”: a spreadsheet takes it for a formula. Begin with a letter.", "name"),
        (wanted("", "Tea", "+té"), "“+té”: a spreadsheet takes it for a formula. Begin with a letter.", "second"),
        (wanted("", "Te\u202ea"), "“Tea” holds a sign that cannot be printed.", "name"),
        (wanted("", "DINNER"), "“DINNER” is a service already. Write another name.", "name"),
        (wanted("", "Ceña"), "“Ceña” is a service already. Write another name.", "name"),
        (wanted("", "Tea", "sunday  Brúnch"), "“sunday Brúnch” is a service already. Write another name.", "second"),
        (wanted("", "Tea", opens="9"), "“9” is no time. Write it like 17:30.", "opens"),
        (wanted("", "Tea", closes="25:00"), "“25:00” is no time. Write it like 17:30.", "closes"),
        (
            wanted("", "Tea", opens="03:59"),
            "It opens at 03:59. A day begins at 04:00: what runs before that belongs to the day before.",
            "opens",
        ),
        (
            wanted("", "Tea", opens="16:00", closes="15:00"),
            "It opens at 16:00 and would close at 15:00. One that goes on past midnight closes by 04:00.",
            "closes",
        ),
    ],
)
def test_what_no_service_can_be_is_named_with_its_rule(change: ServiceWanted, words: str, field: str) -> None:
    """The value and what is asked, at the field where it was typed."""
    assert problem(BRUNCH, change) == (words, field)


def test_a_name_of_24_letters_and_a_name_without_latin_letters_are_taken() -> None:
    """The longest there may be; an id is made all the same, and never twice."""
    house = named(THE_THREE, wanted("", "x" * 24), wanted("", "早餐"), wanted("", "午餐"))
    assert set(house.ids) - set(THE_THREE.ids) == {"x" * 24, "service", "service_2"}
    called = named(THE_THREE, wanted("lunch", "Brunch", opens="11:00", closes="15:00"), wanted("", "Lunch"))
    assert "lunch_2" in called.ids
    assert (found := called.named("lunch")) is not None
    assert found.id == "lunch_2"


def test_a_house_has_eight_services_at_most_and_one_at_least() -> None:
    """One is taken off before a ninth comes; the last stays."""
    house = named(THE_THREE, *(wanted("", f"Table {number}") for number in range(5)))
    assert problem(house, wanted("", "Table 9")) == (
        "A house has 8 services at most. Take one off the list first.",
        "",
    )
    for service in house.ids[1:]:
        found = with_listed(house, service, is_offered=False)
        assert isinstance(found, HouseServices)
        house = found
    last = with_listed(house, house.ids[0], is_offered=False)
    assert isinstance(last, Wrong)
    assert english(last.words) == "Breakfast is the only one: a house has at least one service."


def test_one_off_the_list_is_read_and_not_offered() -> None:
    """Its name is kept for it; put back, it is as it was."""
    off = with_listed(BRUNCH, "sunday_brunch", is_offered=False)
    assert isinstance(off, HouseServices)
    assert [one.id for one in off.offered] == list(THE_THREE.ids)
    assert english(off.word("sunday_brunch")) == "Sunday brunch"
    assert problem(off, wanted("", "SUNDAY BRUNCH"))[0] == (
        "“SUNDAY BRUNCH” is off the list. Put it back there, or write another name."
    )
    assert with_listed(off, "sunday_brunch", is_offered=True) == BRUNCH


def test_what_is_kept_gives_the_same_services_back() -> None:
    """Of the three as they always were nothing is kept, and nothing means them."""
    off = with_listed(BRUNCH, "lunch", is_offered=False)
    assert isinstance(off, HouseServices)
    assert services_of_house(services_told(off)) == off
    assert services_told(THE_THREE) == []
    assert services_of_house([]) == THE_THREE


def test_an_id_nobody_knows_is_printed_as_it_is() -> None:
    """It stands after the services that are known, and began at any hour."""
    assert (THE_THREE.word("tea"), THE_THREE.heading("tea")) == ("tea", "tea")
    assert sorted(["tea", "dinner", "lunch"], key=THE_THREE.sequence) == ["lunch", "dinner", "tea"]
    assert THE_THREE.earliest("tea") == time(0)
