"""What makes every test quick: templates compiled once for all apps, and secrets that cost next to nothing to hash."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from argon2 import PasswordHasher
from flask import Flask
from jinja2 import FileSystemBytecodeCache

from trainer.store import secret_hash

AT_FULL_COST = secret_hash._hasher


@pytest.fixture(scope="session", autouse=True)
def _templates_compiled_once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Let every app of the run take the templates another one has compiled."""
    cache = FileSystemBytecodeCache(str(tmp_path_factory.mktemp("templates")))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Flask, "jinja_options", {"bytecode_cache": cache})
        yield


@pytest.fixture(scope="session", autouse=True)
def _cheap_secrets() -> Iterator[None]:
    """Hash secrets at the least cost argon2 takes; `tests/store/test_people.py` holds the real one."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(secret_hash, "_hasher", PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
        yield


@pytest.fixture
def full_cost(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hash the secrets of one test as the program does."""
    monkeypatch.setattr(secret_hash, "_hasher", AT_FULL_COST)
