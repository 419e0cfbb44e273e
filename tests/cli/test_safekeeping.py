"""`trainer backup` and `trainer restore` as an owner types them, and a kitchen that was lost."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from datetime import datetime, timedelta
from hashlib import sha256
from pathlib import Path
from threading import Event

import pytest
from click.testing import CliRunner

from tests.cli.conftest import NOW, Run
from trainer import clock
from trainer.cli import main, trainer
from trainer.cli.opening import open_here
from trainer.cli.safekeeping import copy_every_night, save_what_is_left
from trainer.kitchen.book import NewEntry
from trainer.store import backup
from trainer.store.kitchen_file import KitchenFile
from trainer.store.last_copy import last_copy
from trainer.store.problems import ReadingOnly


def copy_of(run: Run, demo: Path) -> Path:
    """Make a copy as the manual says, and return it."""
    result = run("backup")
    assert result.exit_code == 0, result.output
    (copy,) = (demo.parent / "kitchen-backups").iterdir()
    assert f"entries and 1 files in {copy}" in result.output
    return copy


def write(folder: Path, count: int) -> None:
    """Write that many entries after the copy."""
    file = KitchenFile.open(folder)
    cook = next(iter(file.people.all()))
    for number in range(count):
        body = {"technique": "pasta_nesting", "edition": 1}
        file.book.append(NewEntry("technique_read", NOW, cook, cook, body, f"later-{number}"))
    file.close()


def test_a_kitchen_that_is_gone_comes_back_from_its_copy(run: Run, demo: Path) -> None:
    """Backup, delete the folder, restore: the same board, the same book."""
    before = run("board", "--json").output
    copy = copy_of(run, demo)
    shutil.rmtree(demo)
    gone = run("board")
    assert gone.exit_code == 1
    assert "trainer restore FILE" in gone.output
    result = run("restore", str(copy))
    assert result.exit_code == 0, result.output
    assert run("board", "--json").output == before
    assert run("book", "verify").exit_code == 0


def test_what_would_be_lost_is_named_and_its_number_typed(run: Run, demo: Path) -> None:
    """Two entries came after the copy: each is named; y is not enough, nor another number; 2 is."""
    copy = copy_of(run, demo)
    write(demo, 2)
    for wrong in ("y\n", "3\n", "\n"):
        refused = run("restore", str(copy), input=wrong)
        assert refused.exit_code == 3
        assert refused.output.count("lost: entry") == 2
        assert "Nothing was changed" in refused.output
    assert run("restore", str(copy), "--yes-lose", "1").exit_code == 3
    done = run("restore", str(copy), input="2\n")
    assert done.exit_code == 0, done.output
    assert "replaced-2026-11-25T20-00-00Z" in done.output


@pytest.mark.parametrize(("typed", "code"), [("y\n", 0), ("n\n", 3)])
def test_where_nothing_would_be_lost_a_plain_y_is_enough(run: Run, demo: Path, typed: str, code: int) -> None:
    """No number to type where there is none."""
    result = run("restore", str(copy_of(run, demo)), input=typed)
    assert result.exit_code == code
    assert "No entry would be lost" in result.output


def test_a_copy_of_another_kitchen_is_refused(run: Run, demo: Path, tmp_path: Path) -> None:
    """It would replace every entry there is."""
    copy = copy_of(run, demo)
    other = ["--kitchen", str(tmp_path / "other")]
    new = ["new", "--name", "Ours", "--manager", "Ida", "--timezone", "Europe/Rome", "--passphrase-from", "-"]
    assert CliRunner().invoke(trainer, [*other, *new], input="copper pans over the pass\n").exit_code == 0
    result = CliRunner().invoke(trainer, [*other, "restore", str(copy), "--yes-lose", "1"])
    assert result.exit_code == 3
    assert "another kitchen" in result.output


def test_a_file_that_is_no_copy_is_refused_in_plain_words(run: Run, tmp_path: Path) -> None:
    """Exit code 1, and the kitchen is as it was."""
    (tmp_path / "x.zip").write_bytes(b"no zip")
    result = run("restore", str(tmp_path / "x.zip"))
    assert result.exit_code == 1
    assert "Nothing was changed" in result.output
    assert run("book", "verify").exit_code == 0


def test_old_copies_go_only_where_that_is_asked_for(run: Run, demo: Path) -> None:
    """Three copies; then one more with --keep 2 leaves two."""
    for _ in range(3):
        assert run("backup").exit_code == 0
    folder = demo.parent / "kitchen-backups"
    assert len(list(folder.iterdir())) == 3
    assert "Deleted" in run("backup", "--keep", "2").output
    assert len(list(folder.iterdir())) == 2


def test_serving_makes_no_kitchen(tmp_path: Path) -> None:
    """A missing kitchen is refused with what to type, and no file appears."""
    result = CliRunner().invoke(trainer, ["--kitchen", str(tmp_path / "none"), "serve"])
    assert result.exit_code == 1
    assert "trainer restore FILE" in result.output
    assert not (tmp_path / "none").exists()


def test_what_a_server_still_has_of_a_deleted_kitchen_is_saved(
    run: Run, demo: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Entries that stand in the deleted file alone: saved whole from the open one, and put back."""
    k = open_here(demo)
    cook = next(iter(k.people()))
    last = k.file.book.append(NewEntry("technique_read", NOW, cook, cook, {"technique": "x", "edition": 1}, "last"))
    shutil.rmtree(demo)
    save_what_is_left(k.file)
    (copy,) = (demo.parent / "kitchen-backups").iterdir()
    assert f"{last.seq:,} entries, was saved in {copy}" in capsys.readouterr().err
    assert run("restore", str(copy)).exit_code == 0
    k.file.close()
    assert KitchenFile.open(demo).book.end() == (last.seq, last.hash)


def test_nothing_is_saved_of_a_kitchen_that_is_damaged_itself(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A copy that is not whole is none."""
    k = open_here(demo)
    (demo / "kitchen.db").write_bytes((demo / "kitchen.db").read_bytes()[:40_960])
    save_what_is_left(k.file)
    assert "Nothing could be saved from here" in capsys.readouterr().err
    assert not list((demo.parent / "kitchen-backups").glob("*.zip"))
    k.file.close()


def test_a_command_that_may_not_write_says_why(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """No advice to free some room where that would not help."""

    def refuse(*args: object, **extra: object) -> None:
        raise ReadingOnly("The file under this server was exchanged. Reading only.")

    monkeypatch.setattr("trainer.cli.trainer.main", refuse)
    with pytest.raises(SystemExit) as left:
        main([])
    assert left.value.code == 1
    assert capsys.readouterr().err == "Not saved: The file under this server was exchanged. Reading only.\n"


def test_a_book_put_back_says_what_was_lost(run: Run, demo: Path) -> None:
    """Two entries are lost: the next entry names their numbers, by this machine; with nothing lost there is none."""
    copy = copy_of(run, demo)
    last, _ = KitchenFile.open(demo).book.end()
    assert run("restore", str(copy), input="y\n").exit_code == 0
    assert KitchenFile.open(demo).book.end()[0] == last
    write(demo, 2)
    lost = KitchenFile.open(demo).book.head().short
    done = run("restore", str(copy), input="2\n")
    assert f"The book says in entry {last + 1:,} that 2 entries were lost." in done.output
    (entry,) = KitchenFile.open(demo).book.since(last)
    assert (entry.kind, entry.by, entry.device) == ("book_restored", "local", "local")
    assert entry.body == {"lost_from": last + 1, "lost_to": last + 2, "head": lost}
    assert run("book", "verify").exit_code == 0


def test_the_book_is_written_for_other_programs(run: Run, demo: Path, tmp_path: Path) -> None:
    """One entry a line with every column; another program works out each hash from them, and the chain holds.

    The rule of edition 2: SHA-256 of the JSON array of "2" and thirteen texts, the previous hash last.
    """
    target = tmp_path / "book.jsonl"
    result = run("export", "book", "--as", "jsonl", "--into", str(target), "--papers", str(tmp_path / "texts"))
    assert result.exit_code == 0, result.output
    lines = [json.loads(line) for line in target.read_text("utf-8").splitlines()]
    assert [line["seq"] for line in lines] == list(range(1, KitchenFile.open(demo).book.end()[0] + 1))
    previous = "0" * 64
    names = ("kitchen", "seq", "id", "kind", "at", "day", "happened", "cook", "by", "device", "body", "key")
    for line in lines:
        line["body"] = json.dumps(line["body"], sort_keys=True, ensure_ascii=False, separators=(",", ":"))
        columns = ["2", *(str(line[name]) for name in names), previous]
        text = json.dumps(columns, ensure_ascii=False, separators=(",", ":"))
        assert line["hash"] == sha256(text.encode()).hexdigest()
        previous = line["hash"]
    for paper in (tmp_path / "texts").iterdir():
        assert sha256(paper.read_bytes()).hexdigest() == paper.name


def test_an_export_replaces_no_file(run: Run, tmp_path: Path) -> None:
    """A file or folder that is there is named, and stays as it is."""
    there, texts = tmp_path / "book.jsonl", tmp_path / "texts"
    there.write_text("mine")
    texts.mkdir()
    for options in (("--into", str(there)), ("--into", str(tmp_path / "new"), "--papers", str(texts))):
        result = run("export", "book", *options)
        assert result.exit_code == 3
        assert "is there already" in result.output
    assert there.read_text() == "mine"
    assert not (tmp_path / "new").exists()


@pytest.mark.parametrize("is_demo", [True, False])
def test_serving_copies_every_kitchen_but_a_demo(
    run: Run, demo: Path, monkeypatch: pytest.MonkeyPatch, is_demo: bool
) -> None:
    """The thread of the night begins with the server: beside the folder, the newest thirty, unless told otherwise."""
    file = KitchenFile.open(demo)
    file.change_settings(replace(file.settings, is_demo=is_demo))
    file.close()
    begun: list[tuple[Path, int]] = []
    monkeypatch.setattr("trainer.cli.listening.listen", lambda *_: None)
    monkeypatch.setattr("trainer.cli.kitchens.copy_every_night", lambda _, into, keep, stop: begun.append((into, keep)))
    for options in ((), ("--backups", str(demo / "elsewhere"), "--keep", "3")):
        result = run("serve", *options)
        assert result.exit_code == 0, result.output
    assert begun == ([] if is_demo else [(demo.parent / "kitchen-backups", 30), (demo / "elsewhere", 3)])


def test_a_server_makes_a_copy_every_night_and_says_what_goes_wrong(
    demo: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A copy for each of three nights, two of them kept; a night with a full disk is noted, and the next goes on."""
    file, stop, moments = KitchenFile.open(demo), Event(), iter(range(400))

    def half_an_hour_later() -> datetime:
        count = next(moments)
        if count * 30 > 4 * 24 * 60:
            stop.set()
        is_full = 2 <= count // 48 < 3
        monkeypatch.setattr("trainer.store.backup._written", full if is_full else written)
        return NOW + timedelta(minutes=30 * count)

    def full(*args: object) -> None:
        raise OSError(28, "No space left on device")

    written = backup._written
    monkeypatch.setattr(clock, "now", half_an_hour_later)
    copy_every_night(file, tmp_path / "copies", 2, stop, every=0)
    nights = [path.name[8:18] for path in sorted((tmp_path / "copies").iterdir())]
    assert nights == ["2026-11-28", "2026-11-29"]
    assert "No copy was made tonight: [Errno 28] No space left on device" in capsys.readouterr().err
    assert not last_copy(demo).failed
    file.close()
