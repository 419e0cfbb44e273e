"""The trainings of a record as a table for a spreadsheet, which takes nothing in it for a formula."""

from __future__ import annotations

import csv
import io
from typing import Any

FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r", "\0")
"""What a spreadsheet takes for the beginning of a formula (OWASP ASVS 5.0.0, 1.2.10)."""


def safe_cell(text: str) -> str:
    """Return a text that a spreadsheet shows as it is: one that begins like a formula gets an apostrophe before it.

    >>> safe_cell("=1+1"), safe_cell("cold side")
    ("'=1+1", 'cold side')
    """
    return f"'{text}" if text.startswith(FORMULA_SIGNS) else text


def as_csv(data: dict[str, Any]) -> str:
    """Return the trainings of a record's JSON as CSV (RFC 4180), with a header."""
    file = io.StringIO(newline="")
    out = csv.writer(file)
    rows = data["trainings"]
    names = [name for name in (rows[0] if rows else ()) if name != "entries"]
    out.writerow(names)
    for row in rows:
        out.writerow([safe_cell(_text(row[name])) for name in names])
    return file.getvalue()


def _text(value: Any) -> str:  # noqa: ANN401 - JSON
    if isinstance(value, list):
        return "; ".join(value)
    return "" if value is None else str(value)
