"""Grill doneness against published figures.

Sources: FDA Food Code 2022, section 3-401.11; USDA FSIS Appendix A (1999), table for cooked beef; FoodSafety.gov chart
of safe minimum internal temperatures (2019-04-12); Lyon et al., Journal of Food Protection 63(10):1389 (2000),
abstract; ANZCOR Guideline 9.1.3; a cooking glossary and two cookery pages, undated copies.
"""

from __future__ import annotations

import pytest

from tests.content.measured import lines_of, same
from trainer.kitchen.technique import Content, Limit
from trainer.recipe_math.parsing import parse_quantity

PUBLISHED = [
    # line, lowest, highest, where it is printed
    ("roast_low_time", "6720 s", None, "Appendix A, 6.5-log, 130 °F: 112 min"),
    ("roast_low_time_stricter", "7260 s", None, "Appendix A, 7-log, 130 °F: 121 min"),
    ("roast_high_time", "720 s", None, "Appendix A, both columns, 140 °F: 12 min"),
    ("whole_at_home", "145 °F", None, "FoodSafety.gov chart: steaks, roasts, chops"),
    ("rest_at_home", "3 min", None, "FoodSafety.gov chart: rest time"),
    ("ground_at_home", "160 °F", None, "FoodSafety.gov chart: ground meat"),
    ("brown_early", "135 °F", "150 °F", "Lyon et al. 2000: brown at 57.2 and 65.6 °C"),
    ("hot_zone", "450 °F", "550 °F", "cooking glossary: high"),
    ("mild_zone", "325 °F", "375 °F", "cooking glossary: medium"),
    ("rare", "120 °F", "125 °F", "steak article: rare"),
    ("medium_rare", "130 °F", "135 °F", "steak article: medium rare"),
    ("medium_elsewhere", "140 °F", "145 °F", "steak article: medium"),
    ("medium_well", "150 °F", "155 °F", "steak article: medium well"),
    ("burn_water", "20 min", None, "ANZCOR 9.1.3, recommendation 3"),
    ("burn_water_elsewhere", "10 min", None, "county fire service, burns"),
]
BELOW_THE_LINE = ("rare", "medium_rare")
ABOVE_THE_LINE = ("medium", "medium_well", "well")
PROVED = {
    # point, the limit it is judged by, section
    "ground_hot": ("ground_meat", "3-401.11(A)(2)"),
    "ground_kept": ("ground_meat_time", "3-401.11(A)(2)"),
    "bird_hot": ("poultry_and_stuffed_pasta", "3-401.11(A)(3)"),
}


@pytest.fixture(scope="module")
def lines(content: Content) -> dict[str, Limit]:
    """Return the measured lines of the technique by name."""
    return lines_of(content.techniques["grill_doneness"])


@pytest.mark.parametrize(("key", "lowest", "highest", "printed"), PUBLISHED)
def test_a_line_is_the_printed_one(
    lines: dict[str, Limit], key: str, lowest: str | None, highest: str | None, printed: str
) -> None:
    """Each line that a text prints has the value of that text."""
    limit = lines[key]
    assert same(limit.lowest, lowest), printed
    assert same(limit.highest, highest), printed


@pytest.mark.parametrize("word", BELOW_THE_LINE)
def test_a_word_below_the_line_says_so(content: Content, lines: dict[str, Limit], word: str) -> None:
    """3-401.11(A)(1): whole meat at 145 °F for 15 s; what is served below it must be told to the cook."""
    code = content.code.limits["fish_and_whole_meat"]
    assert not code.admits(parse_quantity(str(lines[word].highest)))
    told = dict(zip(lines, content.techniques["grill_doneness"].standard_text, strict=True))
    assert "below the code's line" in told[word]


@pytest.mark.parametrize("word", ABOVE_THE_LINE)
def test_a_word_above_the_line_meets_it_over_its_whole_band(
    content: Content, lines: dict[str, Limit], word: str
) -> None:
    """3-401.11(A)(1): from medium on, the lowest end of the house's band is at the code's line or above."""
    assert content.code.limits["fish_and_whole_meat"].admits(parse_quantity(str(lines[word].lowest)))


def test_ground_meat_and_poultry_are_proved_by_the_code(content: Content) -> None:
    """The points for ground meat and poultry are critical, and judged by the kitchen's own local code."""
    points = {point.id: point for point in content.techniques["grill_doneness"].checklist}
    for name, (limit, section) in PROVED.items():
        found = points[name].limit
        assert found is not None
        assert points[name].critical
        assert found == content.code.limits[limit]
        assert section in found.place
