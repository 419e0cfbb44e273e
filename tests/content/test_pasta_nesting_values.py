"""Nests against published weights, times and water, the source beside each."""

from __future__ import annotations

import pytest

from tests.content.measured import line
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity

TECHNIQUE = "pasta_nesting"
PUBLISHED = [
    # line, (lowest, target, highest), source
    ("nest_elsewhere", (None, "4.5 oz", None), "USDA SR26, NDB 20093: one portion of refrigerated fresh pasta"),
    ("nest_first_plate", (None, "100 g", None), "Italian cookery article, 2021-12-14: fresh egg pasta not over 100 g"),
    ("fresh_water", (None, "31 %", None), "USDA SR26, NDB 20093: 31.00 g of water in 100 g"),
    ("shelf_dry", (None, None, "12.5 %"), "D.P.R. 187/2001, Art. 6(3): moisture at most 12.50 %"),
    ("fresh_cook", ("2 min", None, "3 min"), "Accurate timing when cooking pasta: thin fresh noodles"),
]


@pytest.fixture(name="technique")
def _technique(content: Content) -> Technique:
    return content.techniques[TECHNIQUE]


@pytest.mark.parametrize(("key", "printed", "source"), PUBLISHED)
def test_a_line_has_the_published_value(
    technique: Technique, key: str, printed: tuple[str | None, ...], source: str
) -> None:
    """A line that names a publication has its value."""
    limit = line(technique, key)
    wanted = tuple(parse_quantity(text).base if text else None for text in printed)
    assert tuple(end.base if end else None for end in (limit.lowest, limit.target, limit.highest)) == wanted, source


def test_a_nest_lies_where_the_trade_puts_a_main_plate(technique: Technique) -> None:
    """Common practice: a main plate of fresh pasta takes 6 to 7 oz; both ends are inside, what lies beyond is not."""
    nest = line(technique, "nest_weight")
    assert [nest.admits(parse_quantity(text)) for text in ("6 oz", "7 oz", "5.9 oz", "7.1 oz")] == [
        True, True, False, False,
    ]  # fmt: skip


def test_a_tray_is_twelve_nests(technique: Technique) -> None:
    """12 × 6.5 oz is 78 oz, 4 lb 14 oz; 3 oz to either side."""
    tray = line(technique, "tray")
    assert [tray.admits(parse_quantity(text)) for text in ("75 oz", "4 lb 14 oz", "81 oz", "74 oz", "82 oz")] == [
        True, True, True, False, False,
    ]  # fmt: skip


def test_half_an_ounce_too_much_is_worth_seven_nests(technique: Technique) -> None:
    """100 × 0.5 oz is 50 oz, 3 lb 2 oz: more than seven nests of 6.5 oz (45.5 oz), less than eight (52 oz)."""
    given = line(technique, "given_away").target
    assert given is not None
    assert given.base == parse_quantity("3 lb 2 oz").base
    assert 7 * parse_quantity("6.5 oz").base < given.base < 8 * parse_quantity("6.5 oz").base


def test_raw_egg_pasta_keeps_by_the_house_and_not_by_the_seven_days_of_the_code(
    content: Content, technique: Technique
) -> None:
    """§ 3-501.17 is for food that is ready to eat; fresh pasta with raw egg keeps 2 to 3 days (common practice)."""
    keep = line(technique, "keep")
    assert [keep.admits(parse_quantity(text)) for text in ("2 days", "3 days")] == [True, False]
    label = next(step for step in technique.steps if step.id == "label")
    assert "2 days" in label.why
    assert "7 days" not in label.text + label.why
    foods = {setting.family: setting.words for setting in content.techniques["safe_holding"].questions}
    assert "egg pasta" not in str(foods["date_mark"])


def test_the_dough_stands_in_one_place_only(content: Content, technique: Technique) -> None:
    """Flour, egg and water are weighed in extruded dough; here no line repeats them."""
    lines = {limit.id for limit in technique.standard}
    assert not lines & {limit.id for limit in content.techniques["extruded_dough"].standard}
