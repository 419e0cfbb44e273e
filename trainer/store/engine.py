"""The SQLite library in use: a newer one where there is a wheel for it, else the interpreter's own."""

from __future__ import annotations

import sqlite3 as standard_sqlite

try:
    from pysqlite3 import dbapi2 as engine
except ImportError:  # no wheel for this machine: the interpreter's own library, with the careful journal
    engine = standard_sqlite

__all__ = ["engine"]
