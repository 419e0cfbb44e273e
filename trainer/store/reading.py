"""A connection that only reads, wherever the file lies: also on a disk that cannot be written to."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from trainer.store.engine import engine

CANNOT_WRITE = ("unable to open", "readonly")


@contextmanager
def reading(path: Path) -> Iterator[Any]:
    """Hold a connection that reads a database as it is now, its journal with it; engine errors come as they are.

    On a disk that cannot be written to the engine cannot open the journal of a file that has one: where that is empty
    the file is read alone, else a copy of both in a folder for that.
    """
    try:
        connection = _connected(f"{path.resolve().as_uri()}?mode=ro")
    except engine.OperationalError as problem:
        if not any(words in str(problem) for words in CANNOT_WRITE):
            raise
        with _elsewhere(path) as uri:
            connection = _connected(uri)
            try:
                yield connection
            finally:
                connection.close()
        return
    try:
        yield connection
    finally:
        connection.close()


def _connected(uri: str) -> Any:  # noqa: ANN401 - either SQLite module's connection
    """Return a connection whose file and journal are open."""
    connection = engine.connect(uri, uri=True, timeout=15, isolation_level=None)
    try:
        connection.execute("PRAGMA schema_version").fetchall()
    except engine.OperationalError:
        connection.close()
        raise
    except engine.Error:
        pass  # a damaged file: whoever reads on meets it
    return connection


@contextmanager
def _elsewhere(path: Path) -> Iterator[str]:
    """Hold the address of the same database where it can be opened."""
    journal = path.with_name(f"{path.name}-wal")
    if not journal.exists() or not journal.stat().st_size:
        yield f"{path.resolve().as_uri()}?mode=ro&immutable=1"
        return
    with TemporaryDirectory(prefix="trainer-") as room:
        for each in (path, journal):
            shutil.copyfile(each, Path(room, each.name))
        yield Path(room, path.name).as_uri()
