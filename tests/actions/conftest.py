"""The crew, in a kitchen of its own for every test: made once, then copied."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.actions.crew import Crew, crew_in
from tests.kitchen.kitchen_for_tests import small_content
from trainer.actions.open_kitchen import Kitchen
from trainer.store.kitchen_file import KitchenFile


@pytest.fixture(scope="session")
def prepared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the crew's kitchen, closed."""
    folder = tmp_path_factory.mktemp("crew") / "kitchen"
    crew_in(folder).k.file.close()
    return folder


@pytest.fixture
def crew(prepared: Path, tmp_path: Path) -> Iterator[Crew]:
    """Return the crew."""
    file = KitchenFile.open(Path(shutil.copytree(prepared, tmp_path / "kitchen")))
    written, _ = file.book.end()
    yield Crew(Kitchen(file, small_content()), count=written)
    file.close()
