"""The recovery sheet at the command line: printed with a new kitchen, used once, made anew on the machine itself."""

from __future__ import annotations

import re
from pathlib import Path

from click.testing import CliRunner

from tests.cli.conftest import Run
from trainer.cli import trainer

BOSS = "Ottilie Brandvold"
NEW = "copper pans over the pass"
SHEET = re.compile(r"^ {4}((?:[0-9A-HJKMNP-TV-Z]{4}-){6}[0-9]{2})$", re.MULTILINE)


def sheet_in(output: str) -> str:
    """Return the one sheet that is printed."""
    (found,) = SHEET.findall(output)
    return str(found)


def recovers(run: Run, folder: Path, sheet: str, who: str = BOSS) -> tuple[int, str]:
    """Give the command a sheet and a secret in files."""
    signs, secret = folder / "signs", folder / "secret"
    signs.write_text(sheet + "\n")
    secret.write_text(NEW + "\n")
    result = run("recover", who, "--sheet-file", str(signs), "--secret-file", str(secret))
    return result.exit_code, result.output


def test_a_new_kitchen_prints_its_sheet(tmp_path: Path) -> None:
    """24 signs and two figures, once; the new manager recovers by it."""
    (tmp_path / "phrase").write_text("blue apron on the hook")
    asked = ("new", "--name", "Green Door", "--manager", BOSS, "--timezone", "Europe/Rome")
    folder = ["--kitchen", str(tmp_path / "own")]
    made = CliRunner().invoke(trainer, [*folder, *asked, "--passphrase-from", str(tmp_path / "phrase")])
    assert made.exit_code == 0, made.output
    own: Run = lambda *args, **extra: CliRunner().invoke(trainer, [*folder, *args], **extra)  # noqa: E731
    code, output = recovers(own, tmp_path, sheet_in(made.output))
    assert code == 0, output
    assert f"{BOSS} has a new secret" in output
    assert sheet_in(output) != sheet_in(made.output)


def test_a_sheet_is_used_once_and_the_book_lists_it(run: Run, tmp_path: Path) -> None:
    """A kitchen of before has none; a used one is refused with exit code 3, and so is a cook."""
    code, output = recovers(run, tmp_path, "0000-0000-0000-0000-0000-0001-01")
    assert (code, "No recovery sheet is good" in output) == (3, True)
    first = sheet_in(run("recover", "--new-sheet").output)
    assert recovers(run, tmp_path, first)[0] == 0
    code, output = recovers(run, tmp_path, first)
    assert (code, "A sheet that was used is dead." in output) == (3, True)
    listed = run("book", "security", "--last", "5").output
    assert listed.count("recovery_used") == 2
    assert "for secret" in listed
    assert first not in listed


def test_a_person_or_a_new_sheet_is_named(run: Run) -> None:
    """Not both, and not neither."""
    assert run("recover").exit_code == 2
    assert run("recover", BOSS, "--new-sheet").exit_code == 2
