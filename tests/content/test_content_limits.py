"""How a measured line is printed: in both systems, with the words a cook would say."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import load_content
from trainer.content.limits import First, limit_text

STRUCTURE = "techniques/rolling/technique.yaml"
BENCH = "bench: {target: 68 F, source"


def said(folder: Path, line: str, first: First) -> str:
    """Return how a line typed in a technique is printed."""
    change(folder, STRUCTURE, BENCH, f"bench: {{{line}, source")
    content, problems = load_content(folder)
    assert problems == ()
    assert content is not None
    return limit_text(content.techniques["rolling"].standard[2], first)


@pytest.mark.parametrize(
    ("line", "us", "metric"),
    [
        # 1 oz = 28.349523125 g, 1 in = 25.4 mm (NIST SP 811, Appendix B); °F = 9/5 °C + 32; a degree C is 9/5 degrees F
        ("target: 4.5 oz, give_or_take: 0.2 oz", "4.5 oz (128 g), give or take 0.2 oz (6 g)", ""),
        ("target: 4.5 oz, give_or_take: 0.2 oz", "", "128 g (4.5 oz), give or take 6 g (0.2 oz)"),
        ("target: 57 C, give_or_take: 2 C", "135 °F (57 °C), give or take 4 °F (2 °C)", ""),
        ("target: 57 C, give_or_take: 2 C", "", "57 °C (135 °F), give or take 2 °C (4 °F)"),
        ("target: 1/4 in, give_or_take: 1/16 in", "1/4 in (6.4 mm), give or take 1/16 in (1.6 mm)", ""),
        ("highest: 41 F", "at or below 41 °F (5 °C)", "at or below 5 °C (41 °F)"),
        ("lowest: 63 C", "at or above 145 °F (63 °C)", "at or above 63 °C (145 °F)"),
        ("lowest: 62 C, highest: 68 C", "from 144 °F (62 °C) to 154 °F (68 °C)", ""),
        ("highest: 2 h", "at most 2 hours", "at most 2 hours"),
        # typed in days, said in days; the code's 48 hours stay hours
        ("highest: 2 days", "at most 2 days", "at most 2 days"),
        ("lowest: 48 h", "at least 48 hours", "at least 48 hours"),
        ("lowest: 15 s", "at least 15 seconds", "at least 15 seconds"),
        ("lowest: 10 s, highest: 15 s", "from 10 seconds to 15 seconds", ""),
        ("target: 90 s, give_or_take: 10 s", "1 minute 30 seconds, give or take 10 seconds", ""),
        ("within: 2 F", "within 2 °F (1 °C)", "within 1 °C (2 °F)"),
        ("within: 0.5 C", "within 0.9 °F (0.5 °C)", ""),
    ],
)
def test_a_line_reads_as_a_cook_says_it(tmp_path: Path, line: str, us: str, metric: str) -> None:
    """A target with its room, a highest, a lowest, both, or what a tool may be off by."""
    folder = small_kitchen(tmp_path)
    first: First = "us" if us else "metric"
    assert said(folder, line, first) == (us or metric)


def test_a_brace_for_a_temperature_target_prints_its_room_as_a_difference(tmp_path: Path) -> None:
    """2 degrees of room on 57 °C are 3.6 degrees Fahrenheit, not 35.6: a difference has no freezing point."""
    assert said(small_kitchen(tmp_path), "target: 57 C, give_or_take: 2 C", "us").endswith("give or take 4 °F (2 °C)")
