"""The file under a running program is moved, deleted, exchanged or damaged: the program stops writing and says so."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.printed import english
from tests.store.kitchens import deed, fill, new_kitchen, run_python
from trainer.store.connections import engine, journal_of
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import CannotSave, KitchenProblem

WRITERS = 8
KEEPS_A_JOURNAL = journal_of(engine.sqlite_version_info)[0] == "WAL"


def move(folder: Path, old: Path) -> None:
    """Move the database away."""
    (folder / "kitchen.db").rename(old.with_name("elsewhere.db"))


def delete(folder: Path, old: Path) -> None:
    """Delete the database."""
    del old
    (folder / "kitchen.db").unlink()


def move_the_folder(folder: Path, old: Path) -> None:
    """Move the whole folder away."""
    folder.rename(old.with_name("moved"))


def put_an_old_one_in_its_place(folder: Path, old: Path) -> None:
    """Rename a copy made earlier over the database."""
    os.replace(shutil.copy(old, old.with_name("second.db")), folder / "kitchen.db")


def copy_an_old_one_over(folder: Path, old: Path) -> None:
    """Copy a copy made earlier into the same file, as `cp` does: it stays the same file to the system."""
    (folder / "kitchen.db").write_bytes(old.read_bytes())


def cut_short(folder: Path, old: Path) -> None:
    """Cut the database to a third."""
    del old
    os.truncate(folder / "kitchen.db", (folder / "kitchen.db").stat().st_size // 3)


def empty(folder: Path, old: Path) -> None:
    """Empty the database."""
    del old
    os.truncate(folder / "kitchen.db", 0)


def overwrite_the_middle(folder: Path, old: Path) -> None:
    """Write noise over every page but the first."""
    del old
    size = (folder / "kitchen.db").stat().st_size
    with (folder / "kitchen.db").open("r+b") as file:
        file.seek(4096)
        file.write(os.urandom(size - 4096))


def drop_the_journal(folder: Path, old: Path) -> None:
    """Delete the journal beside the database, in which the newest entries stand."""
    del old
    if not KEEPS_A_JOURNAL:
        pytest.skip("with this library there is no journal to lose between two writes")
    for path in folder.glob("kitchen.db-*"):
        path.unlink()


LOSSES = (
    move,
    delete,
    move_the_folder,
    put_an_old_one_in_its_place,
    copy_an_old_one_over,
    cut_short,
    empty,
    overwrite_the_middle,
    drop_the_journal,
)


AT_ONCE = (move, delete, put_an_old_one_in_its_place)
# Without a journal of its own beside the file, one overwritten in the very moment of a commit is noticed an entry late.


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """Return where a copy made earlier lies."""
    (tmp_path / "kept").mkdir()
    return tmp_path / "kept" / "old.db"


@pytest.fixture
def file(tmp_path: Path, old: Path) -> KitchenFile:
    """Return a kitchen with forty entries, twenty of them in the copy made earlier, opened by another program since."""
    made = new_kitchen(tmp_path / "kitchen")
    fill(made, 20)
    made.back_up(old)
    for number in range(21, 41):
        made.book.append(deed(number))
    made.close()
    return KitchenFile.open(tmp_path / "kitchen")


@pytest.mark.parametrize("lose", LOSSES)
def test_a_write_after_the_file_is_lost_is_refused_and_never_said_to_be_saved(
    file: KitchenFile, old: Path, lose: Callable[[Path, Path], None]
) -> None:
    """Whatever became of the file, the next entry is refused, by this thread and by a new one."""
    file.book.append(deed(41))
    lose(file.folder, old)
    outcomes: list[str] = []

    def write(number: int) -> None:
        try:
            file.book.append(deed(number))
            outcomes.append("saved")
        except (CannotSave, KitchenProblem) as problem:
            outcomes.append(str(problem))

    write(42)
    for number in (43, 44):
        thread = threading.Thread(target=write, args=(number,))
        thread.start()
        thread.join()
    assert "saved" not in outcomes
    assert all("Reading only." in words for words in outcomes), outcomes


@pytest.mark.parametrize("lose", [move, delete, put_an_old_one_in_its_place])
def test_the_book_can_still_be_read_from_every_thread(
    file: KitchenFile, old: Path, lose: Callable[[Path, Path], None]
) -> None:
    """Who asks sees the book as it was, and never another one, nor an empty one; no new file is made."""
    file.book.append(deed(41))
    lose(file.folder, old)
    seen: list[int] = [file.book.end()[0]]
    thread = threading.Thread(target=lambda: seen.append(file.book.end()[0]))
    thread.start()
    thread.join()
    assert seen == [41, 41]
    assert (file.folder / "kitchen.db").exists() == (lose is put_an_old_one_in_its_place)


@pytest.mark.parametrize("lose", [*AT_ONCE, *([copy_an_old_one_over, empty] if KEEPS_A_JOURNAL else [])])
def test_of_many_writers_at_work_none_is_told_saved_after_the_loss(
    file: KitchenFile, old: Path, lose: Callable[[Path, Path], None]
) -> None:
    """Eight threads write while the file is lost under them: each try begun after that is refused."""
    lost = threading.Event()
    stop = threading.Event()
    saved_after: list[int] = []
    refused: list[str] = []

    def write(first: int) -> None:
        number = first
        while not stop.is_set():
            begun_after = lost.is_set()
            number += WRITERS
            try:
                file.book.append(deed(number))
            except (CannotSave, KitchenProblem) as problem:
                refused.append(str(problem))
                stop.wait(0.01)
            else:
                if begun_after:
                    saved_after.append(number)

    threads = [threading.Thread(target=write, args=(100 + each,)) for each in range(WRITERS)]
    for thread in threads:
        thread.start()
    stop.wait(0.2)
    lose(file.folder, old)
    lost.set()
    stop.wait(0.3)
    stop.set()
    for thread in threads:
        thread.join()
    assert saved_after == []
    assert refused
    assert all("Reading only." in words for words in refused), set(refused)


def test_a_file_that_is_put_back_is_written_again_with_nothing_lost(file: KitchenFile, tmp_path: Path) -> None:
    """Moved away by mistake and back: the same file, so the book goes on where it was."""
    file.book.append(deed(41))
    (file.folder / "kitchen.db").rename(tmp_path / "away.db")
    with pytest.raises(CannotSave, match="moved or deleted"):
        file.book.append(deed(42))
    (tmp_path / "away.db").rename(file.folder / "kitchen.db")
    assert file.book.append(deed(42)).seq == 42
    assert file.verify().is_whole


def test_a_kitchen_that_was_closed_has_lost_nothing(file: KitchenFile) -> None:
    """Nobody is told of an exchange when a program has put its file away."""
    assert english(file.reading_only()) == ""
    file.close()
    file.path.unlink()
    assert english(file.reading_only()) == ""


def test_another_kitchens_file_is_not_written_to(file: KitchenFile, tmp_path: Path) -> None:
    """Another kitchen's database copied over this one is noticed, though it is whole in itself."""
    other = new_kitchen(tmp_path / "other", name="Other")
    fill(other, 60)
    other.close()
    (file.folder / "kitchen.db").write_bytes((tmp_path / "other" / "kitchen.db").read_bytes())
    with pytest.raises((CannotSave, KitchenProblem), match="Reading only"):
        file.book.append(deed(61))


def test_what_other_programs_write_is_no_exchange(file: KitchenFile) -> None:
    """Another process that adds entries, and so many that the journal is folded into the file, keeps nobody out."""
    script = (
        "import sys; from pathlib import Path; from tests.store.kitchens import deed\n"
        "from trainer.store.kitchen_file import KitchenFile\n"
        "file = KitchenFile.open(Path(sys.argv[1]))\n"
        "for number in range(1000, 1250): file.book.append(deed(number))\n"
        "file.close()"
    )
    done = run_python(script, str(file.folder))
    assert done.returncode == 0, done.stderr
    assert file.book.append(deed(41)).seq == 291
    for number in range(2000, 2250):
        file.book.append(deed(number))
    assert file.verify().is_whole


def test_a_transaction_taken_back_is_no_loss(file: KitchenFile) -> None:
    """An entry that was taken back with its transaction is not looked for afterwards."""

    def take_back() -> None:
        with file.writing():
            file.book.append(deed(41))
            file.book.since(0)
            raise RuntimeError

    with pytest.raises(RuntimeError):
        take_back()
    assert file.book.append(deed(42)).seq == 41


def test_the_journal_does_not_grow_for_ever(file: KitchenFile) -> None:
    """A journal kept beside the file is folded into it as the book grows: it stays below 16 MB."""
    for number in range(100, 700):
        file.book.append(deed(number, words="x" * 8000))
    journals = [path.stat().st_size for path in file.folder.glob("kitchen.db-wal")]
    assert sum(journals) < 16_000_000


def test_a_missing_kitchen_is_refused_with_what_to_type_and_no_file_is_made(tmp_path: Path) -> None:
    """Opening never makes a database."""
    with pytest.raises(KitchenProblem, match="trainer new"):
        KitchenFile.open(tmp_path / "none")
    assert not (tmp_path / "none").exists()
