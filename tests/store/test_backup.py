"""A copy of a kitchen: whole, checked before it has its name, and put back with nothing lost that was not agreed to."""

from __future__ import annotations

import hashlib
import json
import shutil
import stat
import threading
import zipfile
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.store.kitchens import NOON, closed_book, deed, fill, new_kitchen, tampered
from trainer.kitchen.progress import Person
from trainer.store.backup import MANIFEST, back_up, copies_in, drop_older, unpack
from trainer.store.book_check import verify_file
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import BadCopy, CannotSave, DamagedKitchen, KitchenProblem
from trainer.store.restoring import Restore


@pytest.fixture
def file(tmp_path: Path) -> KitchenFile:
    """Return a kitchen with thirty entries, a cook, and content of its own."""
    made = new_kitchen(tmp_path / "kitchen")
    fill(made, 30)
    made.people.add(Person("ana", "Ana Pardo", None))
    station = made.folder / "content" / "stations" / "grill.yaml"
    station.parent.mkdir(parents=True)
    station.write_text("title: Grill\n", encoding="utf-8")
    (made.folder / "ready").mkdir()
    (made.folder / "ready" / "en_us").write_bytes(b"content kept ready, which no copy has")
    return made


@pytest.fixture
def copy(file: KitchenFile, tmp_path: Path) -> Path:
    """Return a copy of that kitchen."""
    return back_up(file, tmp_path / "copies", NOON)[0]


def put_back(archive: Path, folder: Path) -> Path | None:
    """Put a copy back, whatever is lost by that; return where what was there is kept."""
    with Restore.ready(archive, folder) as restore:
        return restore.put_in_place(restore.losses(), NOON)


def test_a_copy_says_what_it_holds_and_holds_that(copy: Path, file: KitchenFile) -> None:
    """One file named by its moment, for its owner alone; the manifest has entries, head, and SHA-256 of each file."""
    assert copy.name == "kitchen-2026-11-25T12-00-00Z.zip"
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    with zipfile.ZipFile(copy) as archive:
        said = json.loads(archive.read(MANIFEST))
        assert (said["entries"], said["head"]) == file.book.end()
        assert said["short_head"] == file.book.head().short
        assert [each["name"] for each in said["files"]] == ["kitchen.db", "content/stations/grill.yaml"]
        for each in said["files"]:
            data = archive.read(each["name"])
            assert (len(data), hashlib.sha256(data).hexdigest()) == (each["size"], each["sha256"])
        assert "secret_key" not in archive.namelist()


def test_a_copy_taken_while_others_write_is_whole_and_none_is_written_over(file: KitchenFile, tmp_path: Path) -> None:
    """The engine's own backup call: entries go on being saved meanwhile; two copies of one second are two files."""
    stop = threading.Event()
    saved: list[int] = []

    def write() -> None:
        while not stop.is_set():
            saved.append(file.book.append(deed(100 + len(saved))).seq)

    writer = threading.Thread(target=write)
    writer.start()
    made = [back_up(file, tmp_path / "copies", NOON) for _ in range(3)]
    stop.set()
    writer.join()
    assert len({path for path, _ in made}) == 3
    assert [path for path, _ in made] == copies_in(tmp_path / "copies")
    for number, (path, manifest) in enumerate(made):
        assert unpack(path, tmp_path / f"out{number}").entries == manifest.entries
    assert made[0][1].entries < file.book.end()[0]


def test_the_same_kitchen_makes_the_same_bytes(file: KitchenFile, tmp_path: Path) -> None:
    """Members stand in one order, with one date and one set of rights."""
    first, _ = back_up(file, tmp_path / "one", NOON)
    second, _ = back_up(file, tmp_path / "two", NOON + timedelta(hours=5))
    assert first.read_bytes() == second.read_bytes()


def test_a_damaged_book_is_not_copied_and_no_earlier_copy_goes(file: KitchenFile, copy: Path, tmp_path: Path) -> None:
    """A copy of a damaged book would push the last good one out."""
    file.close()
    damaged = tampered(file.path, "UPDATE book SET body = '{}' WHERE seq = 7")
    damaged.replace(file.path)
    with pytest.raises(DamagedKitchen, match="from entry 7 on"):
        back_up(KitchenFile.open(file.folder), tmp_path / "copies", NOON + timedelta(days=1))
    assert list((tmp_path / "copies").iterdir()) == [copy]


def test_only_the_newest_copies_of_this_kitchen_are_kept(file: KitchenFile, copy: Path, tmp_path: Path) -> None:
    """Other kitchens' copies and other files in the folder stay."""
    folder = copy.parent
    other = new_kitchen(tmp_path / "other")
    foreign, _ = back_up(other, folder, NOON - timedelta(days=1))
    note = folder / "kitchen-notes.zip"
    note.write_bytes(b"mine")
    newer = [back_up(file, folder, NOON + timedelta(days=day))[0] for day in (1, 2)]
    assert drop_older(folder, file.settings.kitchen, 2) == [copy]
    assert sorted(folder.iterdir()) == sorted([foreign, note, *newer])


def test_a_copy_is_put_back_where_nothing_is(file: KitchenFile, copy: Path, tmp_path: Path) -> None:
    """The folder is gone: the kitchen is back with every entry, its people and its content, and nothing else."""
    new = tmp_path / "new"
    assert put_back(copy, new) is None
    back = KitchenFile.open(new)
    assert [entry.hash for entry in back.book.since(0)] == [entry.hash for entry in file.book.since(0)]
    assert back.people.all()["ana"].name == "Ana Pardo"
    assert (new / "content" / "stations" / "grill.yaml").read_text("utf-8") == "title: Grill\n"
    assert {path.name for path in new.iterdir()} <= {"content", "kitchen.db", "kitchen.db-wal", "kitchen.db-shm"}


def test_what_would_be_lost_is_named_and_what_is_replaced_is_kept_whole(file: KitchenFile, copy: Path) -> None:
    """Five entries came after the copy, three of them in the journal yet; the book put aside still has them all."""
    for number in range(100, 105):
        file.book.append(deed(number))
    (file.folder / "content" / "stations" / "pass.yaml").write_text("title: Pass\n", encoding="utf-8")
    with Restore.ready(copy, file.folder) as restore:
        losses = restore.losses()
        assert [entry.seq for entry in losses.entries] == [31, 32, 33, 34, 35]
        assert losses.entries[0].cook == "Ana Pardo"
        aside = restore.put_in_place(losses, NOON)
    assert aside is not None
    assert verify_file(aside / "kitchen.db").entries == 35
    assert (aside / "content" / "stations" / "pass.yaml").exists()
    assert not (file.folder / "content" / "stations" / "pass.yaml").exists()
    back = KitchenFile.open(file.folder).book.since(29)
    assert [(entry.seq, entry.kind) for entry in back] == [(30, "technique_read"), (31, "book_restored")]


def test_everybody_signs_in_again_after_a_copy_is_put_back(file: KitchenFile, tmp_path: Path) -> None:
    """A session closed since the copy was made does not come back to life."""
    token = file.sessions.open("ana", "tablet", NOON, 15)
    archive, _ = back_up(file, tmp_path / "copies", NOON)
    put_back(archive, file.folder)
    assert KitchenFile.open(file.folder).sessions.find(token, NOON) is None


def test_an_entry_written_after_the_losses_were_agreed_to_stops_it(file: KitchenFile, copy: Path) -> None:
    """Nothing is lost that nobody was told of; the kitchen stays as it is."""
    with Restore.ready(copy, file.folder) as restore:
        agreed = restore.losses()
        file.book.append(deed(100))
        with pytest.raises(BadCopy, match="1 entries would be lost now, not 0"):
            restore.put_in_place(agreed, NOON)
    assert file.book.append(deed(101)).seq == 32
    assert not list(file.folder.glob("replaced-*"))


def test_a_server_at_work_stops_writing_when_a_copy_is_put_in_its_place(file: KitchenFile, copy: Path) -> None:
    """The program that had the file open reads on, and saves nothing in a file that is put aside."""
    put_back(copy, file.folder)
    with pytest.raises(CannotSave, match="exchanged"):
        file.book.append(deed(100))
    assert file.book.end()[0] == 30


@pytest.mark.parametrize("harm", ["cut", "emptied", "gone"])
def test_a_copy_is_put_back_over_a_kitchen_that_is_broken(file: KitchenFile, copy: Path, harm: str) -> None:
    """The case it is for: what cannot be read is kept aside all the same."""
    file.close()
    data = file.path.read_bytes()
    file.path.write_bytes({"cut": data[: len(data) // 3], "emptied": b"", "gone": b""}[harm])
    if harm == "gone":
        file.path.unlink()
    put_back(copy, file.folder)
    assert KitchenFile.open(file.folder).verify().is_whole
    assert KitchenFile.open(file.folder).book.end()[0] == 30


def made_of(copy: Path, change: Callable[[dict[str, bytes], dict[str, Any]], None]) -> Path:
    """Return another zip with the files of a copy and its manifest, changed by a person."""
    with zipfile.ZipFile(copy) as archive:
        files = {name: archive.read(name) for name in archive.namelist() if name != MANIFEST}
        manifest = json.loads(archive.read(MANIFEST))
    change(files, manifest)
    target = copy.with_name("changed.zip")
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
        archive.writestr(MANIFEST, json.dumps(manifest))
    return target


def listed(name: str, data: bytes) -> dict[str, Any]:
    """Return a file as a manifest lists it."""
    return {"name": name, "size": len(data), "sha256": hashlib.sha256(data).hexdigest()}


def outside(name: str) -> Callable[[dict[str, bytes], dict[str, Any]], None]:
    """Return a change that puts a file of this name in, and in the manifest."""

    def change(files: dict[str, bytes], manifest: dict[str, Any]) -> None:
        files[name] = b"x"
        manifest["files"].append(listed(name, b"x"))

    return change


def other_book(files: dict[str, bytes], manifest: dict[str, Any]) -> None:
    """Say that the book has fewer entries."""
    del files
    manifest["entries"] = 29


def noise(files: dict[str, bytes], manifest: dict[str, Any]) -> None:
    """Change the database and leave the manifest."""
    del manifest
    files["kitchen.db"] = files["kitchen.db"][:-1] + b"?"


def cut(files: dict[str, bytes], manifest: dict[str, Any]) -> None:
    """Cut the database, and make the manifest say so."""
    files["kitchen.db"] = files["kitchen.db"][:20_000]
    manifest["files"] = [listed("kitchen.db", files["kitchen.db"]), *manifest["files"][1:]]


def bomb(files: dict[str, bytes], manifest: dict[str, Any]) -> None:
    """Put in sixty million zeros, which take sixty thousand bytes."""
    files["content/big.yaml"] = bytes(60_000_000)
    manifest["files"].append(listed("content/big.yaml", files["content/big.yaml"]))


CHANGES = {
    **{
        name: outside(name)
        for name in ("../evil", "/evil", "content/../../evil", "content\\evil", "secret_key", "C:evil")
    },
    "not in the manifest": lambda files, manifest: files.update({"content/new.yaml": b"x"}),
    "missing": lambda files, manifest: files.pop("content/stations/grill.yaml"),
    "other entries": other_book,
    "noise": noise,
    "cut": cut,
    "bomb": bomb,
    "newer": lambda files, manifest: manifest.update(format=3),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES)
def test_a_file_that_is_no_whole_copy_is_refused_before_anything_is_touched(
    file: KitchenFile, copy: Path, change: Callable[[dict[str, bytes], dict[str, Any]], None]
) -> None:
    """Names that lead outside, files not listed, other bytes, other numbers, bombs: nothing is written anywhere."""
    target = made_of(copy, change)
    before = sorted(file.folder.parent.rglob("*"))
    with pytest.raises(BadCopy), Restore.ready(target, file.folder):
        pass
    assert sorted(file.folder.parent.rglob("*")) == before


def test_a_link_in_a_copy_is_refused(copy: Path, tmp_path: Path) -> None:
    """A link could lead the next file anywhere."""
    target = made_of(copy, lambda files, manifest: None)
    with zipfile.ZipFile(target, "a") as archive:
        info = zipfile.ZipInfo("content/link")
        info.external_attr = (stat.S_IFLNK | 0o777) << 16
        archive.writestr(info, "/etc")
    with pytest.raises(BadCopy, match="no copy has"):
        unpack(target, tmp_path / "out")


@pytest.mark.parametrize("data", [b"", b"PK\x05\x06" + bytes(18), b"not a zip at all" * 99])
def test_what_is_no_zip_is_refused_in_plain_words(tmp_path: Path, data: bytes) -> None:
    """Never a traceback."""
    (tmp_path / "x.zip").write_bytes(data)
    with pytest.raises(KitchenProblem):
        unpack(tmp_path / "x.zip", tmp_path / "out")


def test_a_flipped_bit_in_a_copy_is_found(copy: Path, tmp_path: Path) -> None:
    """Sixty places through the whole file: none is put back as if it were whole."""
    data = copy.read_bytes()
    for number in range(60):
        at = len(data) * number // 60
        flipped = bytearray(data)
        flipped[at] ^= 4
        copy.write_bytes(flipped)
        try:
            manifest = unpack(copy, tmp_path / f"out{number}")
        except KitchenProblem:
            continue
        assert manifest.entries == 30  # a bit of no meaning, such as a date of the zip itself
        assert verify_file(tmp_path / f"out{number}" / "kitchen.db").is_whole


def test_content_stays_where_the_copy_has_none(file: KitchenFile, tmp_path: Path) -> None:
    """A copy made before the house wrote its own content brings back the book, and takes no teaching away."""
    shutil.move(file.folder / "content", tmp_path / "later")
    archive, _ = back_up(file, tmp_path / "copies", NOON)
    shutil.move(tmp_path / "later", file.folder / "content")
    put_back(archive, file.folder)
    assert (file.folder / "content" / "stations" / "grill.yaml").exists()


def test_an_empty_kitchen_is_copied_and_comes_back(tmp_path: Path) -> None:
    """The first day."""
    closed_book(tmp_path / "kitchen", 0)
    file = KitchenFile.open(tmp_path / "kitchen")
    archive, manifest = back_up(file, tmp_path, NOON)
    assert manifest.entries == 0
    put_back(archive, tmp_path / "new")
    assert KitchenFile.open(tmp_path / "new").settings == file.settings
