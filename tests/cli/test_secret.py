"""A new secret set on the machine: for whoever forgot theirs, or was locked out."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import timedelta
from pathlib import Path

import pytest

from tests.cli.conftest import NOW, Run
from trainer import clock
from trainer.actions import enrolling, signing_in
from trainer.actions.open_kitchen import Kitchen
from trainer.cli.opening import open_here

NEW = "copper pans over the pass"
BOSS = "Ottilie Brandvold"


@contextmanager
def opened(folder: Path) -> Iterator[Kitchen]:
    """Open a kitchen for a while."""
    k = open_here(folder)
    with closing(k.file):
        yield k


def boss_of(k: Kitchen) -> str:
    """Return the manager's id."""
    return next(cook for cook, person in k.people().items() if person.name == BOSS)


def tablet_of(k: Kitchen) -> str:
    """Return the id of a new device."""
    enrolled = enrolling.enrol_device(k, name="Tablet", by="", now=NOW)
    assert isinstance(enrolled, enrolling.Enrolled)
    return enrolled.device.id


def enter(k: Kitchen, device: str, secret: str) -> object:
    """Sign the manager in."""
    return signing_in.sign_in(k, device=device, person=boss_of(k), secret=secret, now=NOW)


def test_a_locked_out_manager_gets_a_new_secret(run: Run, demo: Path) -> None:
    """Typed twice, unseen: the old one works no more, what was open is closed, and nobody waits."""
    with opened(demo) as k:
        device = tablet_of(k)
        token = enter(k, device, "blue apron on the hook")
        assert isinstance(token, signing_in.NewSession)
        for _ in range(6):
            enter(k, device, "wrong wrong wrong wrong")
    result = run("secret", BOSS, input=f"{NEW}\n{NEW}\n")
    assert result.exit_code == 0, result.output
    assert f"{BOSS} has a new secret. Sign-ins: 1 closed" in result.output
    assert NEW not in result.output
    with opened(demo) as k:
        assert signing_in.session_of(k, token=token.token, now=NOW) is None
        assert isinstance(enter(k, device, NEW), signing_in.NewSession)
        assert enter(k, device, "blue apron on the hook") == signing_in.NO_MATCH


def test_the_book_says_that_it_was_done_and_not_what(run: Run, demo: Path) -> None:
    """The kinds of the two secrets, by the machine; the book still holds."""
    assert run("secret", BOSS, "--secret-file", "-", input=f"{NEW}\n").exit_code == 0
    with opened(demo) as k:
        entry = k.file.book.since(0)[-1]
        assert (entry.kind, entry.cook, entry.by) == ("secret_changed", boss_of(k), "local")
        assert entry.body == {"from": "passphrase", "to": "passphrase", "sessions_closed": 0}
        assert k.progress().roles(boss_of(k), NOW.date()) == {"manager"}
    assert run("book", "verify").exit_code == 0


def test_a_secret_comes_from_a_file_for_scripts(run: Run, tmp_path: Path) -> None:
    """One line, its end left out."""
    words = tmp_path / "words"
    words.write_text("5917 3026\n", encoding="utf-8")
    assert run("secret", "Renzo", "--secret-file", str(words)).exit_code == 0


@pytest.mark.parametrize(
    ("person", "typed", "end"),
    [
        (BOSS, "12345678\n", (3, "guessed first")),
        (BOSS, "short\n", (3, "15")),
        ("Nobody", f"{NEW}\n", (2, "There are:")),
    ],
)
def test_a_secret_that_will_not_do_changes_nothing(
    run: Run, demo: Path, person: str, typed: str, end: tuple[int, str]
) -> None:
    """The rule is named, and the old secret still opens."""
    result = run("secret", person, "--secret-file", "-", input=typed)
    assert result.exit_code == end[0]
    assert end[1] in result.output
    with opened(demo) as k:
        assert isinstance(enter(k, tablet_of(k), "blue apron on the hook"), signing_in.NewSession)


def test_two_that_differ_are_asked_again(run: Run) -> None:
    """A slip unseen would lock the person out."""
    result = run("secret", BOSS, input=f"{NEW}\n{NEW}x\n{NEW}\n{NEW}\n")
    assert result.exit_code == 0
    assert "do not match" in result.output


def test_a_clock_behind_the_book_changes_no_secret(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is said, and what to do; else the entry would stand on a wrong day."""
    monkeypatch.setattr(clock, "now", lambda: NOW - timedelta(days=9))
    result = run("secret", BOSS, "--secret-file", "-", input=f"{NEW}\n")
    assert result.exit_code == 3
    assert "clock is behind" in result.output
