"""A technique written in forms: the fields come from the declared format, and what is typed lands where it belongs."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.content.conftest import CONTENT
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.draft import draft_of
from trainer.content.editor_schemas import SCHEMAS
from trainer.content.files import load_content
from trainer.content.form_fields import Part, helps, parts, whole_structure, whole_words
from trainer.content.shipped import shipped
from trainer.content.written import WrittenTechnique, new_id, part_named, problems_at

TECHNIQUES = [shipped("content") / "techniques" / name for name in ("grill_doneness", "knife_care", "pasta_nesting")]


def part(name: str) -> Part:
    """Return a part there is."""
    found = part_named(name)
    assert found is not None
    return found


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return the folder of a small technique without a fault."""
    return small_kitchen(tmp_path) / "techniques/rolling"


def read(folder: Path) -> WrittenTechnique:
    """Return the files as they stand."""
    return WrittenTechnique.read(folder)


def test_every_key_of_the_format_has_its_place_in_a_form() -> None:
    """A key declared tomorrow has its field tomorrow: no list of keys stands between the two."""
    structure, words = SCHEMAS["technique"]()["properties"], SCHEMAS["words"]()["properties"]
    assert parts().keys() | whole_structure()["properties"].keys() == structure.keys()
    assert (words.keys() - parts().keys()) == whole_words()["properties"].keys()
    assert {each.get("description") for each in structure.values()} <= helps()


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda path: path.name)
def test_a_sheet_sent_as_it_was_shown_changes_nothing(technique: Path) -> None:
    """Every entry of techniques that ship: not a letter of its files is another."""
    written = read(technique)
    for each in parts().values():
        for id in written.entries(each):
            sheet = written.sheet(each, id)
            assert written.saved(sheet, {one.name: one.field.value for one in sheet.fields}).texts == written.texts
    sheet = written.sheet(None)
    assert written.saved(sheet, {one.name: one.field.value for one in sheet.fields}).texts == written.texts


def test_only_the_field_that_was_changed_is_written(folder: Path) -> None:
    """One line of one file is another; a comment of a person stays."""
    change(folder.parents[1], "techniques/rolling/en.yaml", "title: Rolling", "# ours\ntitle: Rolling  # as we say")
    written = read(folder)
    after = written.saved(written.sheet(part("steps"), "roll"), {"en.roll.do": "Roll: from the middle out."})
    assert after.texts["technique"] == written.texts["technique"]
    before, now = (each.texts["en"].splitlines() for each in (written, after))
    assert [(old, new) for old, new in zip(before, now, strict=True) if old != new] == [
        ("    do: Roll from the middle.", '    do: "Roll: from the middle out."')
    ]


def test_what_is_optional_and_emptied_is_taken_out_and_what_is_needed_is_a_blank(folder: Path) -> None:
    """A blank is told until it is written; nothing half said is taught."""
    written = read(folder)
    sheet = written.sheet(part("steps"), "roll")
    after = written.saved(sheet, {"en.roll.why": "", "en.roll.do": "", "technique.hazards": ""})
    assert "An uneven sheet" not in after.texts["en"]
    assert "    do: ___\n" in after.texts["en"]
    assert "{id: roll, kind: do, figure: roll.svg}" in after.texts["technique"]


def test_spanish_is_begun_with_blanks_where_there_was_none(folder: Path) -> None:
    """The first Spanish words make the file; all that is still to be said in it is a blank."""
    written = read(folder)
    after = written.saved(written.sheet(part("steps"), "roll"), {"es.roll.do": "Estira desde el centro."})
    after.keep(written)
    assert "do: Estira desde el centro." in (folder / "es.yaml").read_text(encoding="utf-8")
    content, problems = load_content(folder.parents[1])
    assert content is not None
    assert "rolling" in content.techniques
    assert {each.file for each in problems} == {"techniques/rolling/es.yaml"}


def test_a_step_a_line_and_a_fault_are_added_with_their_words(folder: Path) -> None:
    """The file is read as a technique again, each where it was put."""
    written = read(folder)
    written = written.added(
        part("standard"), "thin", {"technique..highest": "2 mm", "technique..source": "house", "en.": "It is {thin}."}
    )
    written = written.added(
        part("steps"), "dust", {"technique.kind": "do", "technique.hazards": "rollers", "en..do": "Dust it."}, after=0
    )
    written = written.added(part("faults"), "dry", {"en..shows": "Dust.", "en..cause": "Dry.", "en..cure": "Cover it."})
    written.keep(read(folder))
    draft = draft_of(folder.parents[1], "rolling", "en", "us")
    assert draft is not None
    assert draft.problems == ()
    assert draft.technique is not None
    assert [step.id for step in draft.technique.steps] == ["roll", "dust", "wait"]
    assert draft.technique.standard[-1].id == "thin"
    assert {fault.id for fault in draft.technique.faults} == {"torn", "dry"}


def test_an_entry_taken_out_takes_its_words_along(folder: Path) -> None:
    """Nothing is left that names it but what a person must decide."""
    written = read(folder).without(part("steps"), "wait")
    written.keep(read(folder))
    draft = draft_of(folder.parents[1], "rolling", "en", "us")
    assert draft is not None
    assert draft.problems == ()
    assert "wait" not in written.texts["en"] + written.texts["technique"]


def test_skills_stand_in_place_of_a_quiz(folder: Path) -> None:
    """The first skill named takes the questions of the former kind with it: both at once are refused."""
    written = read(folder)
    after = written.saved(written.sheet(None), {"technique.knowledge": "one\ntwo"})
    assert "knowledge: [one, two]" in after.texts["technique"]
    assert "questions" not in after.texts["technique"]
    assert "quiz" not in after.texts["technique"]


def test_the_last_entry_of_what_stands_in_place_of_another_key_goes_with_its_key(folder: Path) -> None:
    """An empty list would stand in the way of the other one."""
    assert "questions" not in read(folder).without(part("questions"), "1").texts["technique"]


def test_each_problem_stands_at_its_field(folder: Path) -> None:
    """By file and line; of a line that holds several fields, at the entry; the others at no entry at all."""
    change(folder.parents[1], "techniques/rolling/en.yaml", "do: Roll from the middle.", "do: Roll 3 times.")
    change(folder.parents[1], "techniques/rolling/technique.yaml", "kind: do, hazards: [rollers]", "kind: roll")
    draft = draft_of(folder.parents[1], "rolling", "en", "us")
    assert draft is not None
    found = problems_at(read(folder).sheet(part("steps"), "roll"), draft.problems, "techniques/rolling")
    assert [each.message for each in found["en.roll.do"]] == ["A number is typed in do: ... Roll 3 times. ..."]
    assert [each.message for each in found[""]] == ["kind names 'roll', which is not known."]
    assert problems_at(read(folder).sheet(part("steps"), "wait"), draft.problems, "techniques/rolling") == {}


@pytest.mark.parametrize(
    ("name", "id", "field", "says"),
    [
        ("hazards", "rollers", "en.rollers", "Keep fingers away from the rollers."),
        ("checklist", "guard_on", "en.guard_on", "The guard is on."),
        ("checklist", "kept_hot", "en.kept_hot", "The sauce stands {code.hot_holding}."),
    ],
)
def test_a_caution_and_a_point_of_the_code_are_about_safety(
    folder: Path, name: str, id: str, field: str, says: str
) -> None:
    """Such a sentence is read back before it is kept; the weights of a sheet of dough are not."""
    assert read(folder).sheet(part(name), id).safety() == ((field, says),)
    assert read(folder).sheet(part("checklist"), "weights").safety() == ()
    assert read(folder).sheet(None).safety() == (("technique.allergens", "egg"),)


def test_a_file_is_written_whole_or_not_at_all(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A disk that is full leaves the file as it was, and nothing beside it."""
    written = read(folder)
    after = written.saved(written.sheet(part("steps"), "roll"), {"en.roll.do": "Roll it."})

    def full(_: int) -> None:
        raise OSError("No space left on device")

    monkeypatch.setattr("trainer.content.written.os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        after.keep(written)
    assert read(folder).texts == written.texts
    assert [path.name for path in folder.iterdir() if path.name.startswith(".")] == []


def test_a_file_keeps_the_ends_its_lines_have(folder: Path) -> None:
    """An editor of another system ends lines with two signs: only the changed line is another."""
    path = folder / "en.yaml"
    path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    before, written = path.read_bytes(), read(folder)
    written.saved(written.sheet(part("steps"), "roll"), {"en.roll.do": "Roll it."}).keep(written)
    assert path.read_bytes() == before.replace(b"Roll from the middle.", b"Roll it.")


def test_an_id_comes_from_what_a_person_calls_it() -> None:
    """Letters and no signs, none that is there already."""
    assert new_id("Enharina la charola", []) == "enharina_la_charola"
    assert new_id("Fold", ["fold", "fold_2"]) == "fold_3"
    assert new_id("New", []) == "new_2"  # the address of a new entry ends so
    assert new_id("3 folds", []) == new_id("魚", []) == ""


def test_a_draft_in_spanish_names_its_allergens_in_spanish() -> None:
    """What a point expects to hear is said as the reader's kitchen says it."""
    draft = draft_of(CONTENT, "searing", "es", "us")
    assert draft is not None
    assert draft.technique is not None
    point = next(each for each in draft.technique.checklist if each.id == "allergens")
    assert [choice.text for choice in point.choices] == ["Leche", "Pescado"]
