"""`content upgrade`: content of a former format is brought up to date, and nothing that was taught goes."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.cli.conftest import Run
from tests.store.older_content import older_content
from tests.store.small_kitchen import change, small_kitchen
from trainer.cli import trainer
from trainer.content.files import load_content

FILE = "techniques/rolling/technique.yaml"
KEPT_HOT = "{id: kept_hot, judged: measured, limit: code.hot_holding, critical: yes}"
WAYS = {
    "left out": ("{id: kept_hot, judged: measured, limit: code.hot_holding}", KEPT_HOT),
    "said no": ("{id: kept_hot, judged: measured, critical: no, limit: code.hot_holding}", "critical: yes, limit"),
    "some pieces": (KEPT_HOT.replace("yes}", "yes, pieces: 4, pieces_inside: 3}"), "critical: yes, pieces: 4}"),
    "a line each": (
        "id: kept_hot\n    judged: measured\n    limit: code.hot_holding\n    pieces: 2\n    pieces_inside: 1",
        "    limit: code.hot_holding\n    critical: yes\n    pieces: 2\n",
    ),
}


def files_of(folder: Path) -> dict[str, bytes]:
    """Return what every file of a folder says."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def upgrade(folder: Path, *options: str) -> Result:
    """Run the command on a folder."""
    return CliRunner().invoke(trainer, ["content", "upgrade", str(folder), *options])


def test_the_older_content_edited_keeps_its_board_before_and_after(run: Run, demo: Path) -> None:
    """Content of 28 November 2026, which is that of 25 November, with a station and a technique of the house's own."""
    before = run("board", "--json").stdout
    content = older_content(demo)
    change(content, "stations/grill.yaml", "title: Grill", "title: Charcoal grill")
    change(content, "techniques/knife_cuts/en.yaml", "title: Knife cuts", "title: Cuts of the house")
    texts = [before, run("board", "--json").stdout]
    old = files_of(content)
    assert run("content", "upgrade", "--write").exit_code == 1
    (kept,) = demo.glob("content-*")
    assert files_of(kept) == old
    assert "title: Cuts of the house" in (content / "techniques/knife_cuts/en.yaml").read_text(encoding="utf-8")
    texts.append(run("board", "--json").stdout)
    states = [
        [{name: cell["state"] for name, cell in json.loads(line)["stations"].items()} for line in text.splitlines()]
        for text in texts
    ]
    assert states[0] == states[1] == states[2]
    assert len(states[0]) > 5


@pytest.mark.parametrize(("old", "new"), WAYS.values(), ids=WAYS)
def test_what_the_code_asks_for_anyway_is_written_down(tmp_path: Path, old: str, new: str) -> None:
    """A point judged by a limit of the code becomes critical and whole in the file, as it was judged all the time."""
    folder = small_kitchen(tmp_path / "content")
    change(folder, FILE, KEPT_HOT, old)
    taught, problems = load_content(folder)
    assert problems
    assert upgrade(folder, "--write").exit_code == 0
    assert new in (folder / FILE).read_text(encoding="utf-8")
    assert load_content(folder) == (taught, ())


def test_nothing_is_changed_unless_it_is_asked_for(tmp_path: Path) -> None:
    """What would change is printed by file, with the line before and after."""
    folder = small_kitchen(tmp_path / "content")
    change(folder, FILE, KEPT_HOT, WAYS["left out"][0])
    before = files_of(tmp_path)
    shown = upgrade(folder)
    assert f"--- {FILE}" in shown.output
    assert f"-  - {WAYS['left out'][0]}" in shown.output
    assert f"+  - {KEPT_HOT}" in shown.output
    assert "Nothing was changed" in shown.output
    assert files_of(tmp_path) == before


def test_content_of_today_does_not_change(tmp_path: Path) -> None:
    """There is nothing to do, and no copy is made."""
    folder = small_kitchen(tmp_path / "content")
    shown = upgrade(folder, "--write")
    assert (shown.exit_code, list(tmp_path.iterdir())) == (0, [folder])
    assert "needs to change" in shown.output


def laxer(folder: Path) -> int:
    """Write a line laxer than the code's of that name."""
    change(
        folder, "techniques/rolling/en.yaml", "standard:\n", 'standard:\n  cold_holding: "Keep it {cold_holding}."\n'
    )
    return change(folder, FILE, "standard:\n", "standard:\n  cold_holding: {highest: 45 F, source: house}\n") + 1


def broken(folder: Path) -> int:
    """Leave a bracket open."""
    return change(folder, FILE, "faults: [torn]", "faults: [torn")


@pytest.mark.parametrize("fault", [laxer, broken])
def test_what_a_person_must_decide_is_named_by_file_and_line(tmp_path: Path, fault: Callable[[Path], int]) -> None:
    """A limit of the house's own, a file that cannot be read: neither is touched."""
    folder = small_kitchen(tmp_path / "content")
    line = fault(folder)
    before = files_of(folder)
    shown = upgrade(folder, "--write")
    assert shown.exit_code == 1
    assert "To be decided by a person" in shown.output
    assert any(f"{FILE}:{at}: " in shown.output for at in (line, line + 1))
    assert files_of(folder) == before
