"""What the commands say of points: by type, how hard a technique reads, and which type former points would have."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.conftest import Run
from tests.store.small_kitchen import small_kitchen
from tests.store.typed_kitchen import typed_kitchen


@pytest.fixture
def typed(tmp_path: Path) -> Path:
    """Return the folder of the typed kitchen."""
    return typed_kitchen(tmp_path / "content")


def test_the_check_tells_points_by_type(run: Run, typed: Path) -> None:
    """Of a typed list: how many of each type, and how much craft is needed."""
    told = run("content", "check", str(typed)).output
    assert "sauce: points: 5 law, 2 result, 4 craft (3 needed)" in told
    assert "rolling: points:" not in told


def test_the_check_as_json_tells_what_a_writer_looks_at(run: Run, typed: Path) -> None:
    """Grade, points, questions by technique; problems with message and hint."""
    words = typed / "techniques" / "sauce" / "en.yaml"
    words.write_text(f"{words.read_text('utf-8')}nobody: x\n", "utf-8")
    record = json.loads(run("content", "check", "--json", str(typed)).output)
    rolling = next(one for one in record["by_technique"] if one["technique"] == "rolling")
    assert rolling["points"] == {"critical": 2, "scored": 1}
    assert rolling["questions"] == {"scale_by_yield": 1}
    assert rolling["grade"] < 6
    problem = next(one for one in record["problems"] if "nobody" in one["message"])
    assert (problem["file"], problem["line"] > 1) == ("techniques/sauce/en.yaml", True)
    assert problem["hint"]


def test_upgrade_proposes_types(run: Run, tmp_path: Path) -> None:
    """Critical by a limit of the code: law; other critical ones: result; the rest craft. Nothing is written."""
    folder = small_kitchen(tmp_path / "content")
    before = (folder / "techniques/rolling/technique.yaml").read_text("utf-8")
    told = run("content", "upgrade", str(folder)).output
    assert "note: rolling: types to give its points: law: kept_hot; result: guard_on; craft: weights" in told
    assert (folder / "techniques/rolling/technique.yaml").read_text("utf-8") == before
