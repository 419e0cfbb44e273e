"""Every shipped file loads without a problem, and lists of law match the law."""

from __future__ import annotations

from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from tests.content.conftest import CONTENT
from tests.content.test_editor_schemas import plain, tree_of
from trainer.content.editor_schemas import SCHEMAS
from trainer.content.files import load_content
from trainer.content.kitchen import allergens_of
from trainer.content.new_technique import SCHEMA_FOLDER
from trainer.content.nodes import Diagnostics
from trainer.content.question_words import FOODS
from trainer.kitchen.technique import Content, Problem

US_NINE = {
    # 21 U.S.C. 321(qq), as amended by the FASTER Act of 2021
    "milk", "egg", "fish", "crustaceans", "tree_nuts", "wheat", "peanuts", "soy", "sesame",
}  # fmt: skip
EU_FOURTEEN = {
    # Regulation (EU) No 1169/2011, Annex II, in its order
    "gluten_cereals", "crustaceans", "egg", "fish", "peanuts", "soy", "milk", "tree_nuts", "celery", "mustard",
    "sesame", "sulphites", "lupin", "molluscs",
}  # fmt: skip
STATIONS = {
    "cold_side": ("Cold side", 2),
    "grill": ("Grill", 3),
    "pasta_room": ("Pasta room", 3),
    "pastry": ("Pastry", 2),
    "saute": ("Sauté", 3),
}
TECHNIQUES = {"egg_tempering", "knife_cuts", "pasta_nesting", "safe_holding"}
ADULT = 18


def listed_by(law: str) -> set[str]:
    """Return the allergens a list of law names."""
    problems: list[Problem] = []
    found = allergens_of(CONTENT / "allergens.yaml", Diagnostics("allergens.yaml", problems))
    assert found is not None
    assert problems == []
    return {key for key, allergen in found.items() if law in allergen.lists}


def test_no_shipped_file_has_a_problem(loaded: tuple[Content | None, tuple[Problem, ...]]) -> None:
    """All content loads, all of it."""
    assert loaded[1] == ()


@pytest.mark.parametrize("first", ["us", "metric"])
def test_no_brace_is_left_in_any_words(first: str) -> None:
    """Every number a text names is filled in, whichever system stands first."""
    content, _ = load_content(CONTENT, units_first="metric" if first == "metric" else "us")
    assert content is not None
    for technique in content.techniques.values():
        assert "{" not in repr((technique.steps, technique.standard_text, technique.checklist, technique.faults))


@pytest.mark.parametrize("language", ["en", "es"])
def test_each_skill_has_a_short_title_of_its_own(language: str) -> None:
    """At most 28 letters: beside "Leave", a phone 360 px wide holds so many in a line of its header."""
    content, _ = load_content(CONTENT, language)
    assert content is not None
    titles = [skill.title for skill in content.skills.values()]
    assert [title for title in titles if len(title) > 28] == []
    assert len(set(titles)) == len(titles)


def test_the_four_techniques_are_there(content: Content) -> None:
    """Quernstone teaches these four first."""
    assert content.techniques.keys() >= TECHNIQUES


def test_the_five_stations_are_there(content: Content) -> None:
    """Each station of the invented restaurant has its title and its number of supervised shifts."""
    assert {key: (s.title, s.supervised_shifts) for key, s in content.stations.items()} == STATIONS


def test_every_technique_is_asked_for_somewhere(content: Content) -> None:
    """Nobody studies what no station asks for, and every station asks for safe holding."""
    asked = {technique for station in content.stations.values() for technique in station.techniques}
    assert asked >= TECHNIQUES
    assert all("safe_holding" in station.techniques for station in content.stations.values())


def test_american_law_names_nine_allergens() -> None:
    """21 U.S.C. 321(qq): nine since sesame, 2023-01-01."""
    assert len(US_NINE) == 9
    assert listed_by("us") == US_NINE


def test_european_law_names_fourteen_allergens() -> None:
    """Regulation (EU) No 1169/2011, Annex II: fourteen."""
    assert len(EU_FOURTEEN) == 14
    assert listed_by("eu") == EU_FOURTEEN


def test_what_one_law_names_and_the_other_does_not() -> None:
    """Celery and molluscs are European only; the American word is wheat, the European one gluten cereals."""
    assert listed_by("us") - listed_by("eu") == {"wheat"}
    assert {"celery", "molluscs", "gluten_cereals"} <= listed_by("eu") - listed_by("us")


def test_nobody_under_eighteen_works_in_the_pasta_room(content: Content) -> None:
    """29 CFR 570.62(a)(1): dough mixers from 18; the house treats the extruder, not named there, alike."""
    station = content.stations["pasta_room"]
    assert station.minimum_age == ADULT
    assert "29 CFR 570.62" in station.age_reason
    assert "not named there" in station.age_reason


def test_a_grill_with_an_open_flame_is_not_for_cooks_of_fifteen(content: Content) -> None:
    """29 CFR 570.33(h) and 570.34(c): ages 14 and 15 may use a grill without open flame only."""
    assert content.stations["grill"].minimum_age == 16


@pytest.mark.parametrize("name", ["grill", "saute", "pastry"])
def test_no_cook_of_fifteen_stands_at_a_flame_or_bakes(content: Content, name: str) -> None:
    """29 CFR 570.33(h), 570.34(c); US Department of Labor, Fact Sheet 58: under 16 no open flame and no baking."""
    station = content.stations[name]
    assert station.minimum_age == 16
    assert "29 CFR 570.33(h) and 570.34(c)" in station.age_reason
    assert "Your own labour law decides" in station.age_reason.replace("\n", " ")
    if name != "grill":
        assert "Fact Sheet 58" in station.age_reason


def test_a_paper_bars_where_a_machine_can_maim(content: Content) -> None:
    """Nobody works beside mixer and extruder without an induction, from the first day on."""
    papers = [(key, paper) for key, station in content.stations.items() for paper in station.certificates]
    bars = {(key, paper.id) for key, paper in papers if paper.bars and not paper.within_days}
    assert bars == {("pasta_room", "machine_induction")}
    assert all("food_handler" in {paper.id for paper in s.certificates} for s in content.stations.values())


def test_every_technique_has_a_critical_point_and_cautions(content: Content) -> None:
    """Heat, blades, machines, raw egg, time: each technique warns of what can hurt, and part of it is critical."""
    for technique in content.techniques.values():
        assert any(point.critical for point in technique.checklist), technique.id
        assert technique.hazards, technique.id
        warned = {hazard for step in technique.steps for hazard in step.hazards}
        assert warned == {hazard.id for hazard in technique.hazards}, technique.id


def test_every_figure_is_told_in_words(content: Content) -> None:
    """A figure has words for anyone who does not see it, and they name no colour alone."""
    for technique in content.techniques.values():
        for step in technique.steps:
            if step.figure:
                assert (CONTENT / "techniques" / technique.id / step.figure).is_file()
                assert len(step.figure_alt.split()) >= 15


def test_no_file_lies_in_content_that_nobody_reads() -> None:
    """A file with another ending or in another place is a file a person wrongly thinks is read.

    The one README is for people.
    """
    read = {"yaml", "svg"}
    files = [path for path in CONTENT.rglob("*") if path.is_file() and SCHEMA_FOLDER not in path.parts]
    stray = [str(path) for path in files if path.suffix.lstrip(".") not in read]
    assert stray == [str(CONTENT / "README.md")]


def test_a_copy_elsewhere_loads_the_same(tmp_path: Path, content: Content) -> None:
    """Content is plain files: where they lie changes nothing."""
    for path in CONTENT.rglob("*"):
        if path.is_file():
            goal = tmp_path / path.relative_to(CONTENT)
            goal.parent.mkdir(parents=True, exist_ok=True)
            goal.write_bytes(path.read_bytes())
    assert load_content(tmp_path) == (content, ())


@pytest.mark.parametrize(
    ("kind", "pattern"),
    [
        ("technique", "techniques/*/technique.yaml"),
        ("words", "techniques/*/??.yaml"),
        ("recipe", "recipes/*/recipe.yaml"),
        ("recipe_words", "recipes/*/??.yaml"),
        ("question_words", "questions/*/??.yaml"),
        ("food_names", "questions/foods/??.yaml"),
        ("station", "stations/*.yaml"),
        ("sources", "sources.yaml"),
        ("allergens", "allergens.yaml"),
        ("kitchen_code", "kitchen_code.yaml"),
        ("local_code", "local_code/*.yaml"),
    ],
)
def test_every_shipped_file_is_valid_by_its_schema(kind: str, pattern: str) -> None:
    """An editor that knows the schema marks nothing in what comes with the program."""
    known = Draft202012Validator(SCHEMAS[kind]())
    files = [path for path in sorted(CONTENT.glob(pattern)) if (path.parent.name == FOODS) == (kind == "food_names")]
    found = [
        f"{path}: {slip.json_path}: {slip.message}"
        for path in files
        for slip in known.iter_errors(plain(tree_of(path)))
    ]
    assert files
    assert found == []


def test_nobody_works_on_without_a_food_handler_card(content: Content) -> None:
    """California Health and Safety Code, § 113948 (text of 2023-01-01): within 30 days of hire; after that it bars.

    Washington gives 14 (WAC 246-217, from memory): a kitchen there writes that number.
    """
    cards = [paper for each in content.stations.values() for paper in each.certificates if paper.id == "food_handler"]
    assert len(cards) == len(content.stations)
    assert {(card.bars, card.within_days) for card in cards} == {(True, 30)}
