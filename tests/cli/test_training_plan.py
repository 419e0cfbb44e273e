"""The training plan at the command line."""

from __future__ import annotations

import json
from datetime import date

from tests.cli.conftest import NOW, Run


def test_each_line_says_from_which_day_it_can_begin(run: Run) -> None:
    """Year, month, day, none of them past; the demo has lines to train."""
    lines = json.loads(run("training-plan", "--json").output)["lines"]
    assert lines
    assert min(date.fromisoformat(line["begins"]) for line in lines) >= NOW.date()
