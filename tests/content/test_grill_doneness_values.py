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
    ("rare_elsewhere", "120 °F", "125 °F", "steak article: rare"),
    ("medium_rare_elsewhere", "130 °F", "135 °F", "steak article: medium rare"),
    ("medium_elsewhere", "140 °F", "145 °F", "steak article: medium"),
    ("medium_well_elsewhere", "150 °F", "155 °F", "steak article: medium well"),
    ("burn_water", "20 min", None, "ANZCOR 9.1.3, recommendation 3"),
    ("burn_water_elsewhere", "10 min", None, "county fire service, burns"),
]
WORDS = ("rare", "medium_rare", "medium", "medium_well", "well")
PROVED = {
    # point, the limit it is judged by, section
    "patties": ("ground_meat", "3-401.11(A)(2)"),
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


@pytest.mark.parametrize("word", WORDS)
def test_a_word_that_reaches_below_the_line_says_so(content: Content, lines: dict[str, Limit], word: str) -> None:
    """3-401.11(A)(1): whole meat at 145 °F, 15 s; a word whose low end is under it needs the advisory, and says so."""
    needs_advisory = not parse_quantity(str(lines[word].lowest)) >= parse_quantity("145 °F")
    assert needs_advisory != content.code.limits["fish_and_whole_meat"].admits(parse_quantity(str(lines[word].lowest)))
    told = dict(zip(lines, content.techniques["grill_doneness"].standard_text, strict=True))
    assert ("below the code's line" in told[word]) == needs_advisory


def test_every_whole_degree_of_a_steak_has_one_word(lines: dict[str, Limit]) -> None:
    """The house's bands meet: from 120 °F up each whole degree is one word, and none is two (common practice: ten)."""
    for degree in range(120, 171):
        named = [word for word in WORDS if lines[word].admits(parse_quantity(f"{degree} °F"))]
        assert len(named) == 1, degree


def test_no_steak_is_lifted_under_the_line_without_the_advisory(content: Content) -> None:
    """3-401.11(A)(1) knows no heat gained at rest: 145 °F, 15 s on the fire, or (C) labeled intact beef, both faces."""
    steps = {step.id: step for step in content.techniques["grill_doneness"].steps}
    lifted, by_code = steps["take_off"], steps["by_code"]
    assert lifted.text.startswith("With the advisory on the menu")
    assert "145 °F" in by_code.text
    assert "15 seconds" in by_code.text
    assert "on the fire" in by_code.text
    assert "labeled intact" in by_code.why
    order = [step.id for step in content.techniques["grill_doneness"].steps]
    assert order.index("by_code") < order.index("take_off")
    points = {point.id: point for point in content.techniques["grill_doneness"].checklist}
    chop = points["steak_law"]
    assert chop.type == "law"
    assert (chop.limit, chop.then) == tuple(
        content.code.limits[name] for name in ("fish_and_whole_meat", "fish_and_whole_meat_time")
    )


def test_a_reading_short_of_its_line_after_the_rest_goes_back_on_the_fire(content: Content) -> None:
    """Common practice: what is short at the second probing is cooked on, never served."""
    rest = next(step for step in content.techniques["grill_doneness"].steps if step.id == "rest")
    assert "back on the fire" in rest.text


def test_ground_meat_and_poultry_are_proved_by_the_code(content: Content) -> None:
    """The points for ground meat and poultry are critical, and judged by the kitchen's own local code."""
    points = {point.id: point for point in content.techniques["grill_doneness"].checklist}
    for name, (limit, section) in PROVED.items():
        found = points[name].limit
        assert found is not None
        assert points[name].critical
        assert found == content.code.limits[limit]
        assert section in found.place
    assert points["patties"].then == content.code.limits["ground_meat_time"]


def test_the_words_that_need_the_advisory_are_worked_out(content: Content) -> None:
    """3-401.11(A)(1), 145 °F: rare, medium rare and medium begin below it."""
    point = next(point for point in content.techniques["grill_doneness"].checklist if point.id == "words_below")
    assert [choice.id for choice in point.choices] == ["rare", "medium_rare", "medium"]


def test_what_to_do_for_a_burn_is_told_where_the_first_hot_thing_is(content: Content) -> None:
    """ANZCOR 9.1.3: cool running water as soon as possible; who reads it at the end has been at the bars since long."""
    technique = content.techniques["grill_doneness"]
    cautions = {hazard.id: hazard.caution for hazard in technique.hazards}
    first = next(step for step in technique.steps if "hot_bars" in step.hazards)
    assert first.id == "bars"
    assert "Cool running water at once" in cautions["hot_bars"]
