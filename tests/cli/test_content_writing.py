"""`content new` and `content schema`: what somebody who writes content types, and what it prints."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.store.small_kitchen import small_kitchen
from trainer.cli import trainer
from trainer.content.editor_schemas import SCHEMAS
from trainer.content.shipped import shipped


def run(*args: str) -> Result:
    """Return what a command printed."""
    return CliRunner().invoke(trainer, list(args))


def test_new_says_what_it_made_and_what_to_do_next(tmp_path: Path) -> None:
    """The folder, the three files, and five steps in order."""
    folder = small_kitchen(tmp_path)
    result = run("content", "new", "Pan sauces", "--folder", str(folder))
    assert result.exit_code == 0
    lines = result.output.splitlines()
    assert lines[0] == (
        f"Made {folder}/techniques/pan_sauces with technique.yaml, en.yaml and es.yaml, "
        f"and three skills in {folder}/skills."
    )
    assert [line.strip()[:2] for line in lines[2:]] == ["1.", "2.", "3.", "4.", "5."]
    assert "Its id is pan_sauces, the folder's name." in lines[2]
    assert f"trainer content preview pan_sauces --folder {folder}" in result.output
    assert f"trainer content check {folder}" in result.output


def test_check_lists_the_blanks_of_what_was_made(tmp_path: Path) -> None:
    """Exit code 1 while there is something to write, each blank with its file and line."""
    folder = small_kitchen(tmp_path)
    run("content", "new", "Pan sauces", "--folder", str(folder))
    result = run("content", "check", str(folder))
    assert result.exit_code == 1
    assert (
        "techniques/pan_sauces/en.yaml:5: goal is still to be written.\n    Write it in place of ___." in result.output
    )


def test_new_refuses_what_is_there_with_its_exit_code(tmp_path: Path) -> None:
    """Refused is 3; nothing is written over."""
    folder = small_kitchen(tmp_path)
    result = run("content", "new", "Rolling", "--folder", str(folder))
    assert result.exit_code == 3
    assert "is there already" in result.output


def test_new_goes_into_the_kitchens_own_content(tmp_path: Path) -> None:
    """A kitchen with content of its own needs no --folder."""
    small_kitchen(tmp_path / "content")
    result = run("--kitchen", str(tmp_path), "content", "new", "Pan sauces")
    assert result.exit_code == 0
    assert (tmp_path / "content/techniques/pan_sauces/en.yaml").is_file()


def test_new_does_not_write_into_an_installed_program(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What came with the program is copied first, and the message says how."""
    inside = tmp_path / "trainer" / "shipped" / "content"
    shutil.copytree(shipped("content"), inside)
    monkeypatch.setattr("trainer.cli.content.PROGRAM", tmp_path / "trainer")
    monkeypatch.setattr("trainer.cli.opening.shipped", lambda _: inside)
    result = run("--kitchen", str(tmp_path / "kitchen"), "content", "new", "Pan sauces")
    assert result.exit_code == 3
    assert f"Copy {inside} to {tmp_path}/kitchen/content first." in result.output


@pytest.mark.parametrize("kind", SCHEMAS)
def test_schema_prints_one_kind_as_json(kind: str) -> None:
    """What is printed is what the program holds."""
    result = run("content", "schema", kind)
    assert result.exit_code == 0
    assert json.loads(result.output) == SCHEMAS[kind]()


def test_schema_alone_names_the_kinds() -> None:
    """Whoever does not know what there is to ask for sees it."""
    assert [line.split(":")[0] for line in run("content", "schema").output.splitlines()] == list(SCHEMAS)


def test_schema_into_a_folder_writes_them_all(tmp_path: Path) -> None:
    """For a kitchen whose techniques were there before."""
    folder = small_kitchen(tmp_path)
    result = run("content", "schema", "--into", str(folder))
    assert result.output == f"Wrote {len(SCHEMAS)} schemas into {folder}/.schema.\n"
    assert {path.stem for path in (folder / ".schema").iterdir()} == set(SCHEMAS)


def test_preview_names_the_nearest_technique_when_there_is_none(tmp_path: Path) -> None:
    """Wrong use is 2; nothing is served."""
    folder = small_kitchen(tmp_path)
    result = run("content", "preview", "roling", "--folder", str(folder))
    assert result.exit_code == 2
    assert result.output == f"There is no technique 'roling' in {folder}. Did you mean rolling?\n"


def test_preview_serves_this_machine_alone_and_says_where(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The address is printed; the server is bound to 127.0.0.1, and no option says otherwise."""
    bound: list[str] = []

    class Server:
        def run(self) -> None:
            """End at once."""

    def server_for(app: object, host: str, port: int, encryption: object) -> Server:
        assert encryption is None
        bound.append(f"{host}:{port}")
        return Server()

    monkeypatch.setattr("trainer.cli.server.server_for", server_for)
    result = run("content", "preview", "rolling", "--folder", str(small_kitchen(tmp_path)), "--port", "28419")
    assert result.output == "Showing rolling at http://127.0.0.1:28419  (stop with Ctrl-C)\n"
    assert bound == ["127.0.0.1:28419"]


def test_preview_of_a_taken_port_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As `serve` does."""

    def taken(*_: object, **__: object) -> None:
        raise OSError

    monkeypatch.setattr("trainer.cli.server.server_for", taken)
    folder = str(small_kitchen(tmp_path))
    one = run("content", "preview", "rolling", "--folder", folder, "--port", "28419")
    assert (one.exit_code, one.output) == (2, "Port 28419 is taken. Name another one with --port.\n")
    many = run("content", "preview", "rolling", "--folder", folder)
    assert "Ports 8400 to 8419 are taken" in many.output


def test_check_reads_the_kitchens_own_content(tmp_path: Path) -> None:
    """As `serve` does: whoever has content of their own wants to know about that one."""
    small_kitchen(tmp_path / "content")
    result = run("--kitchen", str(tmp_path), "content", "check")
    assert result.exit_code == 0
    assert result.output.splitlines()[-1] == "1 techniques, 1 stations, 0 problems"
