"""The shipped content, read once for all tests of this folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from trainer.content.files import load_content
from trainer.content.kitchen import published_code_of
from trainer.content.nodes import Diagnostics
from trainer.kitchen.technique import Content, LocalCode, Problem

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="session")
def loaded() -> tuple[Content | None, tuple[Problem, ...]]:
    """Return what reading the shipped content gives."""
    return load_content(CONTENT)


@pytest.fixture(scope="session")
def content(loaded: tuple[Content | None, tuple[Problem, ...]]) -> Content:
    """Return the shipped content."""
    assert loaded[0] is not None, loaded[1]
    return loaded[0]


@pytest.fixture(scope="session")
def food_code(content: Content) -> LocalCode:
    """Return the Food Code as published, before the house's own lines."""
    problems: list[Problem] = []
    path = CONTENT / "local_code" / "us_food_code_2022.yaml"
    code = published_code_of(path, Diagnostics(path.name, problems), content.sources)
    assert code is not None
    assert problems == []
    return code
