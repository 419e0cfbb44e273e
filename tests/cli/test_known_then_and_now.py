"""Past days at the command line: as the book said then, and as known later; held to a loop over the book's rows."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from tests.cli import by_hand
from tests.kitchen.kitchen_for_tests import small_content, with_technique
from trainer.cli import trainer
from trainer.kitchen.book import Kind, NewEntry
from trainer.kitchen.progress import Person
from trainer.kitchen.rules import rules_of
from trainer.kitchen.technique import Content, Edition
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings

D = date
SIGNED, VOIDED = D(2026, 3, 2), D(2026, 4, 10)
NO_TEXTS = "0" * 64
DAYS = [D(2026, 3, 1), SIGNED, D(2026, 3, 15), D(2026, 4, 9), VOIDED, D(2026, 6, 30), D(2026, 7, 1), D(2026, 9, 2)]


class Small:
    """A kitchen of two cooks with two standards, a void of every day, and a reading written down late."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.file = KitchenFile.create(folder, Settings("", "Small", timezone="UTC"))
        self.count = 0
        for cook in ("ada", "ben"):
            self.file.people.add(Person(cook, cook.capitalize(), D(1990, 1, 1)))

    def write(self, kind: Kind, cook: str, on: date, body: dict[str, Any], happened: date | None = None) -> str:
        """Write an entry at noon of a day."""
        self.count += 1
        at = datetime.combine(on, time(12), UTC) + timedelta(seconds=self.count)
        return self.file.book.append(NewEntry(kind, at, cook, "mara", body, f"key-{self.count}", happened)).id

    def publishes(self, number: int, content: Content, on: date, since: date) -> None:
        """Write a standard whose texts are gone: its rules are all there is."""
        body = {"number": number, "since": f"{since}", "rules": rules_of(content), "texts": NO_TEXTS}
        self.write("standard_published", "mara", on, body)

    def learns(self, cook: str, on: date, happened: date | None = None) -> str:
        """Write a reading, late where it happened before, and a sign-off; return the sign-off."""
        self.write("technique_read", cook, on, {"technique": "cold_sauces", "edition": 1}, happened)
        body = {"technique": "cold_sauces", "edition": 1, "station": "cold_side", "points": [], "verdict": "meets it"}
        return self.write("practical_watched", cook, on, {**body, "reasons": [], "note": "", "started": f"{on}T00:00Z"})


def lived_in(folder: Path) -> Small:
    """Return the small kitchen with its past."""
    small = Small(folder)
    content = small_content()
    first = content.techniques["cold_sauces"].editions[0]
    anew = Edition(2, D(2026, 5, 1), "", sign_offs_hold=False)
    small.publishes(1, content, D(2026, 1, 5), D(2026, 1, 5))
    for cook in ("ada", "ben"):
        small.write("cook_joined", cook, D(2026, 1, 5), {"roles": ["cook"]})
    signed = small.learns("ada", SIGNED)
    paper = {"certificate": "first_aid", "number": "7", "issued": "2026-01-01", "expires": "2026-08-31"}
    small.write("certificate_shown", "ada", SIGNED, paper)
    small.write("stood_down", "ada", D(2026, 3, 20), {"station": "grill", "reason": "cut hand"})
    small.write("restored", "ada", D(2026, 3, 25), {"station": "grill", "reason": "healed"})
    small.learns("ben", D(2026, 4, 1), happened=D(2026, 3, 10))
    small.write("entry_voided", "ada", VOIDED, {"entry": signed, "reason": "another cook", "counts": "never"})
    small.learns("ada", D(2026, 6, 1))
    small.publishes(2, with_technique(content, "cold_sauces", editions=(first, anew)), D(2026, 6, 15), D(2026, 7, 1))
    small.file.close()
    return small


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the folder of the small kitchen, only ever read."""
    return lived_in(tmp_path_factory.mktemp("small") / "kitchen").folder


def printed(folder: Path, *args: str) -> str:
    """Return what a command on the small kitchen prints."""
    result = CliRunner().invoke(trainer, ["--kitchen", str(folder), *args])
    assert result.exit_code == 0, result.output
    return result.output


def test_boards_are_those_of_a_loop_over_the_rows(folder: Path) -> None:
    """The database read with sqlite3 and judged by hand-written rules gives the same cells, then and later."""
    rows, seen = by_hand.rows_of(folder / "kitchen.db"), set()
    for on in DAYS:
        for known in (on, D(2026, 12, 31)):
            lines = printed(folder, "board", "--on", f"{on}", "--known", f"{known}", "--json").splitlines()
            for line in map(json.loads, lines):
                for station in ("cold_side", "grill"):
                    is_cleared = line["stations"][station]["state"] in ("cleared", "due again")
                    cell = (rows, line["id"], station, f"{on}", f"{known}")
                    assert is_cleared == by_hand.is_cleared(*cell), cell[1:]
                    seen.add((line["id"], station, on == known, is_cleared))
    assert {("ada", "cold_side", True, True), ("ada", "cold_side", False, False)} <= seen
    assert {("ada", "grill", True, True), ("ben", "cold_side", False, True)} <= seen


def test_each_line_names_the_kitchen_the_day_and_when_it_was_known(folder: Path) -> None:
    """Two files of two kitchens or days can be told apart."""
    lines = printed(folder, "board", "--on", "2026-03-15", "--known", "2026-04-10", "--json").splitlines()
    told = [json.loads(line) for line in lines]
    assert {(one["day"], one["known"], len(one["kitchen"])) for one in told} == {("2026-03-15", "2026-04-10", 16)}
    assert "Board for 2026-03-15, as known on 2026-04-10" in printed(
        folder, "board", "--on", "2026-03-15", "--known", "2026-04-10"
    )


def test_why_says_what_the_book_said_and_what_is_known_now(folder: Path) -> None:
    """Both sentences, and the entry that made the difference, where they differ; else neither."""
    told = printed(folder, "why", "Ada", "cold_side", "--on", "2026-03-15")
    assert "As the book said on 15 March 2026: cleared." in told
    assert "As known now: ready to show; practical of 2 March 2026 voided on 10 April 2026." in told
    assert "As known" not in printed(folder, "why", "Ada", "cold_side", "--on", "2026-03-15", "--known", "2026-04-09")
    assert "As known on 10 April 2026: ready to show" in printed(
        folder, "why", "Ada", "cold_side", "--on", "2026-03-15", "--known", "2026-04-10"
    )


def test_why_says_what_changes_next(folder: Path) -> None:
    """On 15 June the standard of 1 July is known: due again, and over on that day."""
    told = json.loads(printed(folder, "why", "Ada", "cold_side", "--on", "2026-06-10", "--json"))
    assert (told["state"], told["next_change"]["on"]) == ("cleared", "2027-05-02")
    told = json.loads(printed(folder, "why", "Ada", "cold_side", "--on", "2026-06-15", "--json"))
    assert told["next_change"]["on"] == "2026-07-01"
    assert (told["next_change"]["from"], told["next_change"]["to"]) == ("due again", "lapsed")
    assert "edition 2 has to be read anew" in told["next_change"]["because"]
    assert "From 1 July 2026: lapsed." in printed(folder, "why", "Ada", "cold_side", "--on", "2026-06-15")


def test_no_content_file_changes_a_past_day(folder: Path) -> None:
    """The kitchen has no content of its own and is judged by its book: its stations are not those shipped."""
    told = json.loads(printed(folder, "board", "--on", "2026-03-15", "--json").splitlines()[0])
    assert set(told["stations"]) == {"pasta_room", "cold_side", "grill"}
