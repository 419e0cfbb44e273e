"""A kitchen of 60 cooks and 12 stations, with invented names: the board, its print and the wall are measured on it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from types import MappingProxyType

from tests.web.conftest import NOON
from tests.web.kitchen_people import sign, study, write
from tests.web.small_content import CONTENT
from trainer.actions.open_kitchen import Kitchen
from trainer.kitchen.book import NewEntry
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Content
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings
from trainer.store.shifts import PlannedShift

TITLES = (
    "Bread", "Butchery", "Cold side", "Dish", "Fish", "Fry", "Grill", "Pasta room", "Pastry", "Raw bar", "Roast",
    "Sauté",
)  # fmt: skip
FIRST = (
    "Adaeze", "Bruno", "Çağla", "Dagny", "Émile", "Farida", "Gwenllian", "Hjördís", "Ibrahim", "Jelena", "Kwabena",
    "Leilani", "Łucja", "Mateo", "Nkechi", "Óscar", "Priya", "Quirin", "Renske", "Siobhán", "Thảo", "Uriel", "Vigdís",
    "Wanjiru", "Ximena", "Yūka", "Zoë", "Anselm", "Øystein", "Đặng",
)  # fmt: skip
LAST = (
    "Abernethy-Okonkwo", "Bălan", "Castellanos Ruiz", "Dvořáková", "Eldjárn", "Fitzwilliam", "Ó Gallchobhair", "Hakim",
    "Ivanenko", "Jørgensen", "Kahananui", "Lindqvist", "Marchetti-Roux", "Nakagawa", "Osei-Tano", "Wiśnicka",
)  # fmt: skip
COOKS, STATIONS = 60, len(TITLES)
ON_A_NIGHT = 22
MANAGER, MANAGER_SECRET = "olga", "four pans and a lid"


def big_content(stations: int = STATIONS) -> Content:
    """Return the small content with as many stations, each of which asks for one supervised shift of its own."""
    one = replace(CONTENT.stations["pasta_room"], supervised_shifts=1)
    made = {f"s{number:02}": replace(one, id=f"s{number:02}", title=TITLES[number]) for number in range(stations)}
    return replace(CONTENT, stations=MappingProxyType(made))


def name_of(number: int) -> str:
    """Return the name of a cook; no two have the same."""
    return f"{FIRST[number % len(FIRST)]} {LAST[number % len(LAST)]}"


def open_big_house(folder: Path, cooks: int = COOKS, stations: int = STATIONS) -> Kitchen:
    """Make the kitchen and return it, open: every cook signed off but each fifth, and seen at two to four stations.

    Each fifth cook is on a path and has read; of the others each third goes for one station more. 22 are planned for
    dinner at NOON's day, and at the last station nobody who is cleared.
    """
    file = KitchenFile.create(folder, Settings("", "Long Row", timezone="America/New_York"))
    k = Kitchen(file, big_content(stations))
    joined = NOON - timedelta(days=90)
    file.people.add(Person(MANAGER, "Olga Brandvold", None))
    file.book.append(NewEntry("cook_joined", joined, MANAGER, MANAGER, {"roles": ["manager"]}, f"join-{MANAGER}"))
    for number in range(cooks):
        _take_on(k, f"c{number:02}", number, joined, stations)
    day = NOON.date()
    planned = [PlannedShift(day, "dinner", f"c{n:02}", f"s{n % stations:02}") for n in range(min(ON_A_NIGHT, cooks))]
    file.shifts.add([one for one in planned if one.station != f"s{stations - 1:02}" or one.cook == "c11"])
    return k


def _take_on(k: Kitchen, cook: str, number: int, joined: datetime, stations: int) -> None:
    k.file.people.add(Person(cook, name_of(number), None))
    k.file.book.append(NewEntry("cook_joined", joined, cook, MANAGER, {"roles": ["cook"]}, f"join-{cook}"))
    learns = number % 5 == 4
    study(k, cook, days=60 - number % 30)
    if not learns:
        sign(k, cook, by=MANAGER, days=40 - number % 30)
    for each in range(0 if learns else 2 + number % 3):
        station = f"s{(number + each * 3) % (stations - 1):02}"
        shift = {"station": station, "worked_on": "2026-10-30", "beside": MANAGER, "guests": 40, "sitting": "dinner"}
        write(k, "shift_worked", cook, shift, by=MANAGER, days=4)
    if learns or number % 3 == 0:
        goes = {"station": f"s{(number + 1) % stations:02}", "by_day": "2026-12-15", "mentor": ""}
        write(k, "path_opened", cook, goes, by=MANAGER, days=3)
