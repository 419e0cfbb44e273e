"""What makes every test quick: templates and addresses compiled once, content read once, secrets that cost nothing."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from argon2 import PasswordHasher
from flask import Flask
from jinja2.bccache import Bucket, BytecodeCache
from werkzeug.routing import Rule

from trainer.content import files
from trainer.content.limits import First
from trainer.content.shipped import shipped
from trainer.kitchen.technique import Content
from trainer.store import secret_hash

AT_FULL_COST = secret_hash._hasher


class CompiledTemplates(BytecodeCache):
    """The compiled templates of this process, each for the source it was compiled from."""

    def __init__(self) -> None:
        """Begin with none."""
        self._code: dict[tuple[str, str], Any] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Give a template its code, where it was compiled before."""
        bucket.code = self._code.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a template's code."""
        self._code[bucket.key, bucket.checksum] = bucket.code


@pytest.fixture(scope="session", autouse=True)
def _templates_compiled_once() -> Iterator[None]:
    """Let every app of the run take the templates another one has compiled."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Flask, "jinja_options", {"bytecode_cache": CompiledTemplates()})
        yield


@pytest.fixture(scope="session", autouse=True)
def _addresses_compiled_once() -> Iterator[None]:
    """Let every app of the run take the builders of addresses another one has compiled: 22 of 34 ms of an app.

    They hang on nothing but what is compared here. Werkzeug's own affair: without this, tests are slower, no more.
    """
    compiled: dict[Any, Any] = {}
    own = getattr(Rule, "_compile_builder", None)

    def kept(rule: Any, append_unknown: bool = True) -> Any:
        key = (rule.rule, tuple(rule._trace), repr(rule.defaults), append_unknown)
        if key not in compiled:
            compiled[key] = own(rule, append_unknown)  # type: ignore[misc]
        return compiled[key]

    with pytest.MonkeyPatch.context() as patch:
        if own is not None:
            patch.setattr(Rule, "_compile_builder", kept)
        yield


@pytest.fixture(scope="session", autouse=True)
def _shipped_content_read_once() -> Iterator[None]:
    """Read the shipped content once and tell it once in each language; nobody writes there during a run."""
    read = files.Library

    class Kept(read):  # type: ignore[misc, valid-type]
        @cache  # noqa: B019 - there is one of these, for a whole run
        def content(self, language: str, first: First) -> Content | None:
            return super().content(language, first)  # type: ignore[no-any-return]

    @cache
    def shipped_library() -> files.Library:
        return Kept(shipped("content"))

    def library(folder: Path) -> files.Library:
        return shipped_library() if folder.resolve() == shipped("content").resolve() else read(folder)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(files, "Library", library)
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
