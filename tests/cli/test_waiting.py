"""What waits for a second person, at the command line, which counts as the second at once."""

from __future__ import annotations

import json
import re
from contextlib import closing
from pathlib import Path

from tests.cli.conftest import NOW, Run
from trainer.actions.giving_codes import first_code
from trainer.actions.standing import NewRoles, change_roles
from trainer.actions.two_people import Waits
from trainer.cli.exits import REFUSED
from trainer.cli.opening import open_here
from trainer.kitchen.book import NewEntry
from trainer.store.kitchen_file import KitchenFile
from trainer.store.people import Secret
from trainer.store.secret_hash import is_right


def test_what_waits_is_listed_and_entered_at_once(run: Run, demo: Path) -> None:
    """The only manager makes another: listed with the moment it counts from; confirmed on the machine, it counts."""
    kitchen = open_here(demo)
    with closing(kitchen.file):
        day = kitchen.day(kitchen.today(NOW))
        manager = next(who for who in day.progress.cooks_on(day.on) if "manager" in day.roles(who))
        cook = next(who for who in day.progress.cooks_on(day.on) if day.roles(who) == {"cook"})
        asked = change_roles(kitchen, by=manager, change=NewRoles(cook, ["cook", "manager"]), now=NOW, key="ask")
        assert isinstance(asked, Waits)
    (found,) = json.loads(run("waiting", "--json").output)
    assert (found["id"], found["act"], found["cook"], found["by"]) == ("ask", "roles", cook, manager)
    assert found["until"] == "2026-11-26T20:00:00.000Z"
    assert run("waiting").output.startswith("ask  roles of ")
    assert "cook_changed" in run("waiting", "--confirm", "ask").output
    with closing(KitchenFile.open(demo)) as file:
        entry = file.book.find_key("ask")
        assert entry is not None
        assert entry.body["second"]["by"] == "local"
    assert run("waiting").output == "Nothing waits.\n"


def test_a_code_that_waits_is_printed_as_it_is_made(run: Run, demo: Path) -> None:
    """A manager alone asks for another manager's: listed, made at once on the machine, printed once; it opens."""
    kitchen = open_here(demo)
    with closing(kitchen.file):
        day = kitchen.day(kitchen.today(NOW))
        manager = next(who for who in day.progress.cooks_on(day.on) if "manager" in day.roles(who))
        cook = next(who for who in day.progress.cooks_on(day.on) if day.roles(who) == {"cook"})
        joins = NewEntry("cook_changed", kitchen.moment(NOW), cook, manager, {"roles": ["manager"]}, "role")
        kitchen.file.book.append(joins)
        kitchen.file.people.set_secret(cook, Secret("", "first_code", must_change=True))
        asked = first_code(kitchen, by=manager, cook=cook, now=NOW, key="ask")
        assert isinstance(asked, Waits)
    assert run("waiting").output.startswith("ask  code of ")
    printed = run("waiting", "--confirm", "ask").output
    found = re.search(r"shown this once: (\d{4}) (\d{4})\.", printed)
    assert found, printed
    with closing(KitchenFile.open(demo)) as file:
        entry, kept = file.book.find_key("ask"), file.first_codes.of(cook)
        assert entry is not None
        assert entry.body["second"]["by"] == "local"
        assert kept is not None
        assert is_right(kept.hash, "".join(found.groups()))
    assert run("waiting").output == "Nothing waits.\n"


def test_what_does_not_wait_is_refused(run: Run) -> None:
    """With the reason, and exit code 3."""
    result = run("waiting", "--confirm", "nothing")
    assert result.exit_code == REFUSED
    assert "That waits no more" in result.output
