"""A kitchen's folder: made once, opened again, private, and its settings kept."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from tests.store.kitchens import new_kitchen, run_python
from trainer.content.shipped import shipped
from trainer.store import settings
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import CannotSave, DamagedKitchen, NotAKitchen
from trainer.store.settings import Settings

ON_POSIX = pytest.mark.skipif(os.name != "posix", reason="file modes are kept on POSIX systems only")


def test_settings_come_back_as_they_were_given(tmp_path: Path) -> None:
    """All of them, after closing and opening; an id is made where none was given."""
    given = Settings("", "Quernstone", "America/New_York", "fr", "metric", ",", True)
    made = KitchenFile.create(tmp_path, given)
    made.close()
    assert KitchenFile.open(tmp_path).settings == made.settings
    assert len(made.settings.kitchen) == 16


def test_changed_settings_keep_the_kitchens_id(tmp_path: Path) -> None:
    """The id is in every key, so it never changes."""
    file = new_kitchen(tmp_path)
    file.change_settings(Settings("other", "New name"))
    again = KitchenFile.open(tmp_path).settings
    assert (again.name, again.kitchen) == ("New name", file.settings.kitchen)
    assert again.kitchen != "other"


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"name": " "}, "name has 1 to 120"),
        ({"timezone": "Mars/Olympus"}, "no time zone 'Mars/Olympus'"),
        ({"timezone": "../etc"}, "no time zone"),
        ({"units_first": "cubits"}, "not in 'cubits'"),
        ({"decimal_mark": "·"}, "not '·'"),
        ({"currency": "EURO"}, "no currency 'EURO'"),
    ],
)
def test_settings_that_make_no_sense_are_refused_by_name(tmp_path: Path, wrong: dict[str, str], said: str) -> None:
    """The refusal names the value; nothing is made."""
    with pytest.raises(ValueError, match=said):
        new_kitchen(tmp_path / "k", **wrong)
    assert not (tmp_path / "k").exists()


def test_a_kitchen_is_never_written_over(tmp_path: Path) -> None:
    """Making one where one is, is refused."""
    new_kitchen(tmp_path)
    with pytest.raises(NotAKitchen, match="already"):
        new_kitchen(tmp_path)


def test_an_empty_folder_is_no_kitchen(tmp_path: Path) -> None:
    """The message says how to make one."""
    with pytest.raises(NotAKitchen, match="trainer new"):
        KitchenFile.open(tmp_path)


def test_a_file_of_a_newer_program_is_refused(tmp_path: Path) -> None:
    """Its tables are not guessed at."""
    file = new_kitchen(tmp_path)
    file._connections.write("PRAGMA user_version = 99")
    file.close()
    with pytest.raises(DamagedKitchen, match="newer edition"):
        KitchenFile.open(tmp_path)


def test_a_kitchen_that_could_not_be_made_leaves_no_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk while it is made: the next try begins again."""

    def full(*_: object) -> None:
        raise CannotSave("full")

    with monkeypatch.context() as patch:
        patch.setattr(settings, "keep", full)
        with pytest.raises(CannotSave):
            new_kitchen(tmp_path)
    assert not list(tmp_path.glob("kitchen.db*"))
    new_kitchen(tmp_path)


def test_new_settings_that_make_no_sense_change_nothing(tmp_path: Path) -> None:
    """The old ones stay."""
    file = new_kitchen(tmp_path)
    with pytest.raises(ValueError, match="no time zone"):
        file.change_settings(Settings("", "Quernstone", "Mars/Olympus"))
    assert KitchenFile.open(tmp_path).settings == file.settings


def test_a_backup_that_cannot_be_written_is_refused_plainly(tmp_path: Path) -> None:
    """CannotSave, and nothing is left behind."""
    file = new_kitchen(tmp_path / "k")
    with pytest.raises(CannotSave, match="copy could not be written"):
        file.back_up(tmp_path / "no such folder" / "copy.db")


@ON_POSIX
def test_the_key_and_the_book_are_private(tmp_path: Path) -> None:
    """Only the owner can read them; the key is the same at every call."""
    file = new_kitchen(tmp_path / "k")
    key = file.secret_key()
    assert (len(key), file.secret_key()) == (32, key)
    for name in ("secret_key", "kitchen.db"):
        assert stat.S_IMODE((tmp_path / "k" / name).stat().st_mode) == 0o600


@ON_POSIX
def test_a_key_others_can_read_is_refused(tmp_path: Path) -> None:
    """The message says how to make it private."""
    file = new_kitchen(tmp_path)
    file.secret_key()
    (tmp_path / "secret_key").chmod(0o644)
    with pytest.raises(NotAKitchen, match="chmod 600"):
        file.secret_key()


def test_opening_a_kitchen_does_not_import_the_slow_table_library(tmp_path: Path) -> None:
    """It is needed for migrations alone."""
    new_kitchen(tmp_path).close()
    script = (
        "import sys; from pathlib import Path; from trainer.store.kitchen_file import KitchenFile;"
        "KitchenFile.open(Path(sys.argv[1])); print('sqlite_utils' in sys.modules)"
    )
    assert run_python(script, str(tmp_path)).stdout.strip() == "False"


def test_the_folders_that_come_with_the_program_are_found() -> None:
    """Content and the demo roster, wherever the program runs from; another name is refused, with the places."""
    assert (shipped("demo_roster") / "roster.csv").is_file()
    assert shipped("content").is_dir()
    with pytest.raises(FileNotFoundError, match="looked at"):
        shipped("nothing")
