"""An answer about the past is a function of the book alone: no file, people row, setting or clock changes it."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

from tests.cli.conftest import Run
from trainer.content.shipped import shipped

DAYS = [date(2026, 11, 24) - timedelta(days=11 * step) for step in range(50)]


def edit_everything(kitchen: Path) -> None:
    """Change every content file, the zone, every birth date and every name, as somebody does who owns the files."""
    own = kitchen / "content"
    shutil.copytree(shipped("content"), own)
    for path in own.glob("stations/*.yaml"):
        text = path.read_text("utf-8")
        path.write_text(text.replace("supervised_shifts: ", "supervised_shifts: 3"), "utf-8")
    for path in own.glob("techniques/*/technique.yaml"):
        text = path.read_text("utf-8")
        path.write_text(text.replace("sign_off_months: ", "sign_off_months: 1 #"), "utf-8")
    shutil.rmtree(next(iter(sorted((own / "techniques").iterdir()))))
    with closing(sqlite3.connect(kitchen / "kitchen.db")) as db, db:
        db.execute("UPDATE settings SET timezone = 'Asia/Tokyo'")
        db.execute("UPDATE people SET born = '2012-01-01'")


def print_boards(run: Run, days: list[date]) -> list[str]:
    """Return what the command prints for each day."""
    return [run("board", "--on", day.isoformat(), "--json").output for day in days]


def test_past_boards_stay_when_content_zone_and_birth_dates_are_changed(run: Run, demo: Path) -> None:
    """Twelve past days, before and after every file, the zone and every birth date were changed: byte for byte."""
    days = DAYS[::4]
    before = print_boards(run, days)
    assert all('"cleared"' in text for text in before[:8])
    edit_everything(demo)
    assert print_boards(run, days) == before
