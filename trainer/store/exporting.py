"""The book as other programs read it: one entry a line, and the texts it names as files."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from trainer.kitchen.book import canonical
from trainer.store.book import Book


def export_book(book: Book, into: Path) -> int:
    """Return how many entries were written into a new file: a JSON object a line, every column as it is kept.

    The body stands as an object; written again with sorted keys and no blanks, it is the text the hash is over. Raise
    `FileExistsError` where there is a file of that name already; what was half written is deleted.
    """
    count = 0
    with write_whole(into) as file:
        for row in book.rows():
            line = canonical({**row, "body": json.loads(row["body"])})
            file.write(line.encode("utf-8", "surrogatepass") + b"\n")
            count += 1
    return count


def export_papers(book: Book, into: Path) -> int:
    """Return how many texts were written into a new folder, each into a file named by its SHA-256."""
    into.mkdir(parents=True, mode=0o700)
    count = 0
    for digest, text in book.papers():
        with _new_file(into / digest) as file:
            file.write(text)
        count += 1
    return count


@contextmanager
def write_whole(into: Path) -> Iterator[IO[bytes]]:
    """Open a new file for its owner alone; where writing breaks off, what was half written is deleted.

    Raise `FileExistsError` where there is a file of that name already.
    """
    file = _new_file(into)
    try:
        with file:
            yield file
            file.flush()
            os.fsync(file.fileno())
    except BaseException:
        into.unlink(missing_ok=True)
        raise


def _new_file(path: Path) -> IO[bytes]:
    """Return a new file for its owner alone."""
    return os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb")
