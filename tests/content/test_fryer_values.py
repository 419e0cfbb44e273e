"""The fryer against the code, what publishers print and what agencies warn of, the source beside each."""

from __future__ import annotations

import pytest

from tests.content.measured import line, value
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity


@pytest.fixture(name="fryer")
def _fryer(content: Content) -> Technique:
    return content.techniques["fryer"]


@pytest.mark.parametrize(
    ("point", "case", "heat", "seconds"),
    [
        # FDA Food Code 2022, § 3-401.11(A)(1): whole fish, 145 °F for 15 s
        ("heat_fish", "fish", "145 F", "15 s"),
        # § 3-401.11(A)(3): poultry, 165 °F, less than a second
        ("heat_bird", "bird", "165 F", None),
    ],
)
def test_what_is_fried_is_judged_by_its_own_line(
    fryer: Technique, point: str, case: str, heat: str, seconds: str | None
) -> None:
    """Heat and seconds of the code, always needed, and asked in its own case alone."""
    found = next(each for each in fryer.checklist if each.id == point)
    assert (found.type, found.cases) == ("law", (case,))
    assert [each.lowest for each in found.lines] == [parse_quantity(text) for text in (heat, seconds) if text]


def test_chopped_fish_asks_for_more_than_a_whole_piece(fryer: Technique) -> None:
    """§ 3-401.11(A)(2): comminuted fish is 155 °F for 17 s, so the cake of a scene has another answer."""
    scenes = {scene.id: scene for scene in fryer.scenes}
    assert (scenes["fish_piece"].right, scenes["fish_cake"].right) == (("whole_pair",), ("ground_pair",))


@pytest.mark.parametrize(
    ("key", "lowest", "highest"),
    [
        # A rating bureau's page, 2021-09-15 (NFPA 96): usual frying 325 to 375 °F; 16 in to a flame, or 8 in of baffle
        ("usual_heat", "325 F", "375 F"),
        ("flame_gap", "16 in", None),
        ("baffle", "8 in", None),
        # An extinguisher company's page, undated (NFPA 10): Class K within 30 ft
        ("class_k", None, "30 ft"),
        # Regulation (EU) 2017/2158, Annex II Part A(1): below 175 °C; potatoes stored above 6 °C
        ("potato_most", None, "175 °C"),
        ("potato_store", "6 °C", None),
        # A table of a maker of oil filters, 2023-10-16: Germany 24, Belgium, France and Italy 25, Austria and China 27
        ("polar_germany", None, "24 %"),
        ("polar_belgium", None, "25 %"),
        ("polar_austria", None, "27 %"),
        # ANZCOR guideline 9.1.3: 20 minutes of cool running water
        ("burn_water", "20 min", None),
    ],
)
def test_a_line_is_the_printed_one(fryer: Technique, key: str, lowest: str | None, highest: str | None) -> None:
    """Both ends as printed, and the side the text leaves open stays open."""
    found = line(fryer, key)
    assert found.lowest == (parse_quantity(lowest) if lowest else None)
    assert found.highest == (parse_quantity(highest) if highest else None)


def test_the_house_fries_inside_what_is_usual_and_below_the_line_for_potatoes(fryer: Technique) -> None:
    """325 to 375 °F is usual, and fries are kept below 175 °C = 347 °F."""
    low, high = (value(fryer, "fry_heat", "°F", end) for end in ("lowest", "highest"))
    assert 325 <= low < high <= 375
    assert high < 175 * 9 / 5 + 32


def test_the_house_changes_oil_by_the_strictest_published_line(fryer: Technique) -> None:
    """No federal line in the United States; the lowest of the others is Germany's."""
    others = [value(fryer, f"polar_{country}", "%", "highest") for country in ("germany", "belgium", "austria")]
    assert value(fryer, "polar", "%", "highest") == min(others)


def test_potatoes_are_soaked_as_the_regulation_says(content: Content) -> None:
    """Regulation (EU) 2017/2158, Annex II Part A(1): 30 minutes to 2 hours in cold water."""
    soak = next(text for text in content.recipes["fries"].method if text.startswith("Soak"))
    assert "from 30 minutes to 2 hours" in soak


def test_hot_oil_is_never_moved(fryer: Technique) -> None:
    """OSHA, fryer poster, and Washington State 86-4-2008: do not carry or strain hot oil, wait until it is cool.

    100 °F is the heat up to which 29 CFR 570.34(c) lets ages 14 and 15 filter and move oil (from memory).
    """
    point = next(each for each in fryer.checklist if each.id == "oil_stays")
    assert point.type == "result"
    assert line(fryer, "oil_cool").highest == parse_quantity("100 F")
    moving = next(hazard for hazard in fryer.hazards if hazard.id == "moving")
    assert moving.caution.startswith("Nobody carries, drains or strains hot oil.")


def test_an_oil_fire_gets_the_hood_before_the_extinguisher_and_never_water(fryer: Technique) -> None:
    """NFPA 10's sign beside a Class K extinguisher: used after the fixed system has been set off. All of it is said."""
    said = next(point for point in fryer.checklist if point.id == "fire_said")
    assert [choice.id for choice in said.choices] == ["heat_off", "hood_handle", "all_out", "class_k_after", "no_water"]
    assert said.need == len(said.choices)


def test_nobody_under_sixteen_lowers_a_basket_by_hand(fryer: Technique, content: Content) -> None:
    """29 CFR 570.33(h), 570.34(c): ages 14 and 15 use fryers that lower and raise the basket by themselves alone."""
    assert fryer.steps[0].hazards == ("under_sixteen",)
    assert (content.stations["grill"].minimum_age or 0) >= 16


def test_shared_oil_holds_what_was_fried_in_it(fryer: Technique, content: Content) -> None:
    """Common practice: oil carries the allergens of all that went in; wheat, egg, milk and fish (21 U.S.C. 321(qq))."""
    assert {"fish", "wheat", "egg", "milk"} <= set(fryer.allergens)
    assert fryer.allergens == content.recipes["breaded_fish"].allergens
    own = next(point for point in fryer.checklist if point.id == "own_oil")
    assert [choice.id for choice in own.choices] == ["clean_pan", "fresh_oil"]


def test_what_was_raw_is_cooked_by_the_lines_its_recipe_names(content: Content) -> None:
    """Whole fish by § 3-401.11(A)(1), the pooled egg of the crust by (A)(2)."""
    ends = {end.raw: end.meets for end in content.recipes["breaded_fish"].ends}
    assert ends == {"fish": "fish_and_whole_meat", "egg": "egg_pooled"}
