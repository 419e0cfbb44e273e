"""Which seeds a test tries: a few in the run of a newcomer, all of them under `pytest -m bench`."""

from __future__ import annotations

from typing import Any

import pytest


def first_and_rest(first: int, every: int) -> list[Any]:
    """Return two values for a parameter: the first seeds, and under the marker bench the rest of them."""
    return [
        pytest.param(range(first), id=f"first {first}"),
        pytest.param(range(first, every), id=f"all {every}", marks=pytest.mark.bench),
    ]
