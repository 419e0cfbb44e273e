"""A technique begun from its name: a whole structure, words to fill in, and a clear no where the name will not do."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from tests.content.test_editor_schemas import plain, tree_of
from tests.store.small_kitchen import small_kitchen
from trainer.content.editor_schemas import SCHEMAS
from trainer.content.files import load_content
from trainer.content.new_technique import CannotBegin, begin_technique, technique_id
from trainer.content.skill_check import check_skills

DAY = date(2026, 11, 25)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a small kitchen's content with the allergens and sources that a new technique names."""
    return small_kitchen(tmp_path)


def words_of(made: Path) -> list[Path]:
    """Return the words files of a technique and of the skills begun beside it."""
    skills = made.parents[1] / "skills"
    return [*made.glob("??.yaml"), *skills.glob(f"{made.name}_*/??.yaml")]


def fill(made: Path) -> None:
    """Write a word in place of every blank."""
    for path in words_of(made):
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace(" ___ .", " blank.").replace("___", "Words"), encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Pasta nesting", "pasta_nesting"),
        ("Sauté of mushrooms", "saute_of_mushrooms"),
        ("  Pâte   à choux ", "pate_a_choux"),
        ("Chef's knife: care & edge", "chef_s_knife_care_edge"),
        ("Jalapeño relish", "jalapeno_relish"),
    ],
)
def test_an_id_comes_from_the_name(name: str, key: str) -> None:
    """Small letters, accents off, one _ between words."""
    assert technique_id(name) == key


def test_what_is_made_lists_nothing_but_its_blanks(folder: Path) -> None:
    """The structure is whole; each word still to be written is told by file and line, and nobody is taught a blank."""
    made = begin_technique(folder, "Pan sauces", DAY)
    content, problems = load_content(folder)
    assert problems
    english = [found for found in problems if found.file.endswith("/en.yaml")]
    assert {found.message.split(" is ", 1)[1] for found in english} == {"still to be written."}
    assert content is not None
    assert "pan_sauces" not in content.techniques
    blanks = sum(path.read_text().count("___") for path in words_of(made) if path.name == "en.yaml")
    assert len(english) == blanks - 1


def test_a_language_nobody_began_is_one_problem(folder: Path) -> None:
    """Spanish waits for English: untouched it is told in one line, however far the structure has gone on."""
    made = begin_technique(folder, "Pan sauces", DAY)
    structure = made / "technique.yaml"
    structure.write_text(structure.read_text().replace("faults: [fault_one]", "faults: [broken]"))
    (problem,) = [found for found in load_content(folder)[1] if found.file.endswith("pan_sauces/es.yaml")]
    assert (problem.line, problem.message) == (1, "Nothing is written here yet.")
    assert "copy it over this file" in problem.hint


def test_a_language_somebody_began_tells_each_blank(folder: Path) -> None:
    """One text written, and every other blank is told by its line."""
    made = begin_technique(folder, "Pan sauces", DAY)
    spanish = made / "es.yaml"
    spanish.write_text(spanish.read_text().replace("title: ___", "title: Salsas al momento"))
    found = [found for found in load_content(folder)[1] if found.file.endswith("pan_sauces/es.yaml")]
    assert len(found) == spanish.read_text().count("___") - 1


def test_once_the_blanks_are_filled_it_is_taught(folder: Path) -> None:
    """Nothing else has to be touched first: no figure, no code, no other file."""
    fill(begin_technique(folder, "Pan sauces", DAY))
    content, problems = load_content(folder)
    assert problems == ()
    assert content is not None
    technique = content.techniques["pan_sauces"]
    assert (technique.title, technique.editions[0].since) == ("Pan sauces", DAY)
    assert [step.hazards for step in technique.steps] == [("care",), ()]
    assert any(point.critical for point in technique.checklist)
    assert [skill.id for skill in technique.knowledge] == [
        "pan_sauces_batch",
        "pan_sauces_portions",
        "pan_sauces_buying",
    ]
    assert technique.quiz_months == 0
    assert check_skills(folder, content).problems == ()


def test_every_example_of_a_skill_is_its_format(folder: Path) -> None:
    """The ranges work as they stand: take the # away, and they are read and give questions enough."""
    fill(made := begin_technique(folder, "Pan sauces", DAY))
    for path in (made.parents[1] / "skills").glob("pan_sauces_*/skill.yaml"):
        path.write_text(path.read_text(encoding="utf-8").replace("# ranges", "ranges"), encoding="utf-8")
    content, problems = load_content(folder)
    assert problems == ()
    assert content is not None
    assert all(skill.setting.ranges for skill in content.techniques["pan_sauces"].knowledge)
    assert check_skills(folder, content).problems == ()


def test_a_skill_that_is_there_is_never_written_over(folder: Path) -> None:
    """A skill of the id a new one would have stops the technique too, and nothing is made."""
    (folder / "skills/pan_sauces_batch").mkdir(parents=True)
    with pytest.raises(CannotBegin, match="pan_sauces_batch is there already"):
        begin_technique(folder, "Pan sauces", DAY)
    assert not (folder / "techniques/pan_sauces").exists()


def test_every_example_in_the_structure_is_the_format(folder: Path) -> None:
    """The commented lines work as they stand: take the # away, and they are read."""
    made = begin_technique(folder, "Pan sauces", DAY)
    fill(made)
    path = made / "technique.yaml"
    text = path.read_text(encoding="utf-8").replace("standard: {}\n# standard:", "standard:")
    for line in ("piece_weight:", "dozen:", "rest:", "- {id: wait", "- {id: weights"):
        text = text.replace(f"#   {line}", f"  {line}")
    path.write_text(text, encoding="utf-8")
    for words in made.glob("??.yaml"):
        told = words.read_text(encoding="utf-8").replace("  last:", "  wait: {do: Wait.}\n  last:")
        told = told.replace("# standard:", "standard:").replace("#   piece_weight", "  piece_weight")
        lines = '  dozen: "{dozen}."\n  rest: "{rest}."\n'
        told = told.replace("# words:", f"{lines}# words:").replace(
            "  right: Words", "  right: Words\n  weights: Words"
        )
        words.write_text(told, encoding="utf-8")
    content, problems = load_content(folder)
    assert problems == ()
    assert content is not None
    assert content.techniques["pan_sauces"].standard_text == (
        "One piece weighs 4 oz (113 g), give or take 0.25 oz (7 g).",
        "3 lb (1.361 kg).",
        "at least 30 minutes.",
    )


def test_the_first_line_leads_an_editor_to_the_schema(folder: Path) -> None:
    """The schema lies where the line says, and what was made is valid by it."""
    made = begin_technique(folder, "Pan sauces", DAY)
    for path in made.iterdir():
        said = path.read_text(encoding="utf-8").splitlines()[0]
        schema = path.parent / said.removeprefix("# yaml-language-server: $schema=")
        assert schema.resolve().is_file()
        kind = schema.stem
        assert list(Draft202012Validator(SCHEMAS[kind]()).iter_errors(plain(tree_of(path)))) == []


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("", "The name is empty"),
        ("  \n ", "The name is empty"),
        ("7 cuts", "holds a figure"),
        ("Half ½ and half", "holds a figure"),
        ("{x}", "holds a figure or a brace"),
        ("魚", "gives no usable id"),
        ("!!!", "gives no usable id"),
        ("a" * 81, "81 letters long"),
    ],
)
def test_a_name_that_will_not_do_is_refused_with_its_reason(folder: Path, name: str, says: str) -> None:
    """Nothing is written then."""
    before = sorted(folder.rglob("*"))
    with pytest.raises(CannotBegin, match=says):
        begin_technique(folder, name, DAY)
    assert sorted(folder.rglob("*")) == before


def test_a_technique_that_is_there_is_never_written_over(folder: Path) -> None:
    """A second one of the same name, or of one that gives the same id, is refused."""
    path = folder / "techniques/rolling/en.yaml"
    before = path.read_text(encoding="utf-8")
    with pytest.raises(CannotBegin, match="is there already"):
        begin_technique(folder, "Rolling!", DAY)
    assert path.read_text(encoding="utf-8") == before


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    """Content starts from the folder that came with the program."""
    with pytest.raises(CannotBegin, match="no content folder"):
        begin_technique(tmp_path / "nowhere", "Pan sauces", DAY)


@pytest.mark.parametrize("name", ["colon: dash - and #", '"quoted"', "yes", "O'Brien’s cut"])
def test_a_title_is_kept_as_it_was_typed(folder: Path, name: str) -> None:
    """Signs that mean something in YAML mean nothing in a title."""
    made = begin_technique(folder, name, DAY)
    fill(made)
    content, _ = load_content(folder)
    assert content is not None
    assert content.techniques[made.name].title == name
