"""The trainings of a record as a table for a spreadsheet, which takes nothing in it for a formula."""

from __future__ import annotations

import csv
import io
from typing import Any

from trainer.exports.spreadsheet import safe_cell


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
