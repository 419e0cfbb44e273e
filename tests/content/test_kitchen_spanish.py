"""One Spanish word for one thing, as Mexican kitchens say it (common practice), in every text of a technique."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import trainer
from tests.content.conftest import CONTENT
from trainer.recipe_math.parsing import parse_quantity

SENTENCES = Path(trainer.__file__).parent / "languages"
NOT_OURS = {
    # what a Mexican kitchen does not say: what it says
    r"bandejas?": "charola",
    r"fregaderos?": "tarja, or lavamanos for hands",
    r"tomates?(?! verde)": "jitomate",
    r"quien está a cargo": "la persona a cargo",
    r"suelta el cuchillo": "deja el cuchillo en la mesa",
}
"""The word on the left is used elsewhere, or means another thing here."""
TECHNIQUES = sorted(path.name for path in (CONTENT / "techniques").iterdir())


@pytest.mark.parametrize("name", TECHNIQUES)
def test_a_thing_has_one_word(name: str) -> None:
    """Whoever reads two words looks for two things."""
    text = (CONTENT / "techniques" / name / "es.yaml").read_text("utf-8")
    found = {said: right for said, right in NOT_OURS.items() if re.search(rf"\b{said}\b", text, re.IGNORECASE)}
    assert found == {}


def test_the_program_calls_a_tray_what_the_content_does() -> None:
    """Charola in every sentence of the program too; what somebody types as bandeja is still read."""
    sentences = (SENTENCES / "es.po").read_text("utf-8")
    assert re.findall(r"\bbandejas?\b", sentences, re.IGNORECASE) == []
    assert "charola" in sentences
    assert parse_quantity("2 bandejas") == parse_quantity("2 charolas")
