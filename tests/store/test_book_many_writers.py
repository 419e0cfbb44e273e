"""Several threads and processes write one book; some are killed, and the disk runs full."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from random import Random
from time import sleep

import pytest

from tests.store.kitchens import ROOT, deed, new_kitchen, run_python
from trainer.store.kitchen_file import KitchenFile, verify_folder

KILLS = 8

WRITER = """
import sys
from pathlib import Path
from trainer.store.kitchen_file import KitchenFile
from tests.store.kitchens import deed
file = KitchenFile.open(Path(sys.argv[1]))
first, count = int(sys.argv[2]), int(sys.argv[3])
for number in range(first, first + count):
    print(file.book.append(deed(number)).key, flush=True)
"""

DISK_FULL = """
import resource, sys
from pathlib import Path
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import CannotSave
from tests.store.kitchens import deed
file = KitchenFile.open(Path(sys.argv[1]))
hard = resource.getrlimit(resource.RLIMIT_FSIZE)[1]
resource.setrlimit(resource.RLIMIT_FSIZE, (400_000, hard))
saved = refused = number = 0
while refused < 5:
    number += 1
    try:
        file.book.append(deed(number, note="x" * 5000))
        saved += 1
    except CannotSave as problem:
        refused += 1
        said = str(problem)
    assert number < 1000
assert "would not take it" in said, said
assert len(file.book.since(0)) == saved, (len(file.book.since(0)), saved)
resource.setrlimit(resource.RLIMIT_FSIZE, (hard, hard))
file.book.append(deed(number + 1))
print(saved, file.verify().is_whole, len(file.book.since(0)))
"""


def test_64_sends_of_one_key_at_once_are_one_entry(tmp_path: Path) -> None:
    """Anyone who comes second gets the entry that is there."""
    file = new_kitchen(tmp_path)
    with ThreadPoolExecutor(64) as pool:
        entries = list(pool.map(lambda _: file.book.append(deed(1)), range(64)))
    assert len({entry.id for entry in entries}) == 1
    assert len(file.book.since(0)) == 1


def test_two_processes_write_one_book_in_one_order(tmp_path: Path) -> None:
    """All their entries are there, in one unbroken chain."""
    new_kitchen(tmp_path).close()
    with ThreadPoolExecutor(2) as pool:
        outcomes = list(pool.map(lambda first: run_python(WRITER, str(tmp_path), str(first), "60"), (1, 1001)))
    assert [outcome.stderr for outcome in outcomes] == ["", ""]
    check = verify_folder(tmp_path)
    assert (check.entries, check.problems) == (120, ())


@pytest.mark.skipif(os.name != "posix", reason="signals of this kind are sent on POSIX systems only")
def test_a_killed_writer_loses_nothing_it_said_was_saved(tmp_path: Path) -> None:
    """Whatever was acknowledged before the kill is in the book, once, and the book is whole."""
    new_kitchen(tmp_path).close()
    rng = Random(9)  # noqa: S311 - moments to kill at, made again from the same seed
    acknowledged: list[str] = []
    for turn in range(KILLS):
        arguments = [sys.executable, "-c", WRITER, str(tmp_path), str(turn * 100_000 + 1), "100000"]
        writer = subprocess.Popen(arguments, cwd=ROOT, stdout=subprocess.PIPE, text=True)
        assert writer.stdout is not None
        acknowledged.append(writer.stdout.readline().strip())
        sleep(rng.random() * 0.05)
        writer.send_signal(signal.SIGKILL)
        acknowledged += [line.strip() for line in writer.stdout if line.endswith("\n")]
        writer.stdout.close()
        writer.wait()
    kept = [entry.key for entry in KitchenFile.open(tmp_path).book.since(0)]
    assert len(kept) == len(set(kept))
    assert set(acknowledged) <= set(kept)
    assert verify_folder(tmp_path).is_whole


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the limit on a file's size is set as on Linux")
def test_a_full_disk_is_refused_plainly_and_loses_nothing(tmp_path: Path) -> None:
    """Each refusal is CannotSave; all that was saved is there; it works again once there is room."""
    new_kitchen(tmp_path).close()
    outcome = run_python(DISK_FULL, str(tmp_path))
    assert outcome.stderr == ""
    saved, whole, entries = outcome.stdout.split()
    assert int(saved) > 10
    assert (whole, int(entries)) == ("True", int(saved) + 1)
