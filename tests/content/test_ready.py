"""Content kept ready: the same as the files say, only from this kitchen, and never where there is a doubt."""

from __future__ import annotations

import os
import pickle
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.content.test_content_languages import spanish_kitchen
from tests.store.small_kitchen import change
from trainer.content import files
from trainer.content.files import load_content
from trainer.content.limits import First
from trainer.content.ready import FOLDER, SIZE, ReadyContent, digest_of

KEY, OTHER_KEY = b"k" * 32, b"o" * 32
STATION = "stations/bench.yaml"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """Return a content folder in English and Spanish."""
    (tmp_path / "content").mkdir()
    return spanish_kitchen(tmp_path / "content")


@pytest.fixture
def read(tmp_path: Path, content: Path) -> Callable[..., str]:
    """Return what reads the title of the one station, in a process of its own each time."""

    def title(language: str = "en", key: bytes | None = KEY) -> str:
        found, _ = ReadyContent(content, tmp_path / FOLDER, key).read(language, "us")
        assert found is not None
        return found.stations["bench"].title

    return title


@pytest.fixture
def no_files(monkeypatch: pytest.MonkeyPatch) -> Callable[[], None]:
    """Return what makes reading any content file from now on fail."""

    def refuse(_: Path) -> None:
        raise AssertionError("a content file was read")

    return lambda: monkeypatch.setattr(files, "Library", refuse)


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("first", ["us", "metric"])
def test_what_is_kept_is_what_the_files_say(
    tmp_path: Path, content: Path, no_files: Callable[[], None], language: str, first: First
) -> None:
    """Content and problems are equal, and at the second start no content file is read."""
    old, new = "limit: code.hot_holding, critical: yes}", "limit: code.hot_holding}"
    change(content, "techniques/rolling/technique.yaml", old, new)
    said = load_content(content, language, first)
    assert len(said[1]) == 1
    assert ReadyContent(content, tmp_path / FOLDER, KEY).read(language, first) == said
    no_files()
    assert ReadyContent(content, tmp_path / FOLDER, KEY).read(language, first) == said


def test_the_files_are_read_once_for_every_language(
    tmp_path: Path, content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two languages and two systems of units are four tellings of one reading."""
    read, library = list[Path](), files.Library

    def counted(folder: Path) -> files.Library:
        read.append(folder)
        return library(folder)

    monkeypatch.setattr(files, "Library", counted)
    ready = ReadyContent(content, tmp_path / FOLDER, KEY)
    for language in ("en", "es"):
        ready.read(language, "us")
        ready.read(language, "metric")
    assert read == [content]


def test_a_changed_file_is_read_anew(read: Callable[..., str], content: Path) -> None:
    """One letter in one file, and nothing that was kept is used."""
    assert read() == "Bench"
    change(content, STATION, "title: Bench", "title: Marble")
    assert read() == "Marble"


def test_a_language_has_a_file_of_its_own(read: Callable[..., str], tmp_path: Path) -> None:
    """A file put in the place of another language's is refused: its seal says which it is."""
    assert (read("en"), read("es")) == ("Bench", "Mesa")
    folder = tmp_path / FOLDER
    (folder / "es_us").write_bytes((folder / "en_us").read_bytes())
    assert read("es") == "Mesa"


def test_what_another_kitchen_kept_is_refused(
    read: Callable[..., str], tmp_path: Path, no_files: Callable[[], None]
) -> None:
    """The same files, kept under another kitchen's key: they are read."""
    read(key=OTHER_KEY)
    no_files()
    with pytest.raises(AssertionError, match="a content file was read"):
        read()


@pytest.mark.parametrize("place", [0, SIZE, 2 * SIZE, -1])
def test_a_damaged_file_is_refused(read: Callable[..., str], tmp_path: Path, place: int) -> None:
    """A bit turned over in seal, digest or content: the files are read, and it is kept again."""
    read()
    path = tmp_path / FOLDER / "en_us"
    good = path.read_bytes()
    damaged = bytearray(good)
    damaged[place] ^= 1
    path.write_bytes(damaged)
    assert read() == "Bench"
    assert path.read_bytes() == good


class Trap:
    """What runs a command when it is unpickled."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def __reduce__(self) -> tuple[Callable[[Path], None], tuple[Path]]:
        """Return what unpickling would call."""
        return os.mkdir, (self.path,)


def test_nothing_a_stranger_wrote_is_unpickled(read: Callable[..., str], tmp_path: Path, content: Path) -> None:
    """Python's own documentation: "Only unpickle data you trust" (library reference, pickle). The seal comes first."""
    (tmp_path / FOLDER).mkdir()
    body = (digest_of(content) or b"") + pickle.dumps(Trap(tmp_path / "sprung"))
    (tmp_path / FOLDER / "en_us").write_bytes(b"\0" * SIZE + body)
    assert read() == "Bench"
    assert not (tmp_path / "sprung").exists()


def test_without_a_key_nothing_is_kept(read: Callable[..., str], tmp_path: Path) -> None:
    """A kitchen yet to be made has no key."""
    assert read(key=None) == "Bench"
    assert not (tmp_path / FOLDER).exists()


def test_files_that_cannot_all_be_read_are_read_each_time(
    read: Callable[..., str], tmp_path: Path, content: Path
) -> None:
    """A folder that leads back to itself has no digest; what can be read of it is taught."""
    (content / "around").symlink_to(content, target_is_directory=True)
    assert digest_of(content) is None
    assert read() == "Bench"
    assert not (tmp_path / FOLDER).exists()


def test_a_folder_that_takes_nothing_is_no_problem(read: Callable[..., str], tmp_path: Path) -> None:
    """A file in the folder's place: the files are read each time."""
    (tmp_path / FOLDER).write_text("")
    assert (read(), read()) == ("Bench", "Bench")


def test_another_program_reads_the_files_itself(tmp_path: Path, content: Path) -> None:
    """The digest is another one as soon as a module of the program has another size or date."""
    package = tmp_path / "program"
    package.mkdir()
    (package / "module.py").write_text("one = 1\n")
    before = digest_of(content, package)
    assert digest_of(content, package) == before
    (package / "module.py").write_text("one = 11\n")
    assert digest_of(content, package) != before


def test_a_drawing_that_goes_is_noticed(content: Path) -> None:
    """Which drawings there are decides whether a technique is taught; what is in them does not."""
    before = digest_of(content)
    (content / "techniques/rolling/roll.svg").write_text("<svg>other</svg>")
    assert digest_of(content) == before
    (content / "techniques/rolling/roll.svg").unlink()
    assert digest_of(content) != before
