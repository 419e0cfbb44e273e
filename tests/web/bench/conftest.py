"""The invented kitchen with recipes and limits for cooling."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.web.bench.bench_content import BENCH
from trainer.actions.open_kitchen import Kitchen
from trainer.store.kitchen_file import KitchenFile


@pytest.fixture
def kitchen(prepared: Path, tmp_path: Path) -> Iterator[Kitchen]:
    """Return the invented kitchen with recipes and limits for cooling."""
    folder = tmp_path / "kitchen"
    shutil.copytree(prepared, folder)
    file = KitchenFile.open(folder)
    yield Kitchen(file, BENCH)
    file.close()
