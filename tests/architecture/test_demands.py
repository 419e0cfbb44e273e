"""The demands of qualification cultures: all there, each with tests that exist or with a reason."""

from __future__ import annotations

import re
from pathlib import Path

HOUSE = Path(__file__).parents[2]
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in (HOUSE / "tests" / "demands.md").read_text(encoding="utf-8").splitlines()
    if re.match(r"\| \d+ \|", line)
]
NAMED = re.compile(r"`(tests/[\w/]+\.py)(?:::(\w+))?`")


def test_every_demand_has_its_row() -> None:
    """Fifty-four, in order, each with what is demanded and where it stands."""
    assert [int(row[0]) for row in ROWS] == list(range(1, 55))
    assert all(row[1] and row[2] for row in ROWS)


def test_every_demand_is_met_by_a_test_or_answered() -> None:
    """A test that is named is there; a row without one says why."""
    for number, _, _, answer in ROWS:
        named = NAMED.findall(answer)
        assert named or answer.startswith("No, because"), number
        for file, test in named:
            text = (HOUSE / file).read_text(encoding="utf-8")
            assert not test or f"def {test}(" in text, (number, file, test)
