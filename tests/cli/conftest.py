"""A demo kitchen made once, on a fixed day, its content kept ready, and a copy of it for each test."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.shared import made_once
from trainer import clock
from trainer.cli import trainer

NOW = datetime(2026, 11, 25, 20, 0, tzinfo=UTC)
Run = Callable[..., Result]


@pytest.fixture(autouse=True)
def _fixed_now(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every command think it is the afternoon of 25 November 2026."""
    monkeypatch.setattr(clock, "now", lambda: NOW)


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the demo kitchen, made once for all tests."""

    def make(folder: Path) -> None:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(clock, "now", lambda: NOW)
            for command in ("demo", "board"):  # the second reads the published content and keeps it ready
                result = CliRunner().invoke(trainer, ["--kitchen", str(folder), command])
                assert result.exit_code == 0, result.output

    return made_once(tmp_path_factory, "demo", make)


@pytest.fixture
def demo(made: Path, tmp_path: Path) -> Path:
    """Return a demo kitchen of the test's own."""
    return Path(shutil.copytree(made, tmp_path / "kitchen"))


@pytest.fixture
def run(demo: Path) -> Run:
    """Return a function that runs a command on the demo kitchen."""
    return lambda *args, **extra: CliRunner().invoke(trainer, ["--kitchen", str(demo), *args], **extra)
