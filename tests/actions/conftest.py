"""The crew, in a kitchen of its own for every test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.actions.crew import Crew, crew_in


@pytest.fixture
def crew(tmp_path: Path) -> Iterator[Crew]:
    """Return the crew."""
    made = crew_in(tmp_path / "kitchen")
    yield made
    made.k.file.close()
