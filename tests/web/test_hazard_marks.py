"""The marks of hazards: each that a content file may name is drawn, and stands in its own form."""

from __future__ import annotations

import re
from pathlib import Path

import trainer.web
from trainer.content.parts import MARKS

DRAWN = Path(trainer.web.__file__).parent / "templates" / "macros" / "marks.svg"
WARNING, MUST = "#f5c400", "#0b4f94"


def test_every_mark_is_drawn_in_one_form_of_the_standard() -> None:
    """ISO 7010: a yellow triangle warns, a blue disc says what one must do."""
    symbols = dict(re.findall(r'<symbol id="mark-(\w+)"[^>]*>(.*?)</symbol>', DRAWN.read_text("utf-8")))
    assert symbols.keys() == set(MARKS)
    for name, drawing in symbols.items():
        assert (WARNING in drawing) != (MUST in drawing), name
