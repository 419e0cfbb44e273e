"""Bad input of whoever writes: each is a problem with file, line and hint, and takes no station from a kitchen.

The rules are this house's own for plain words (README of the content folder), and common practice of the trade.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from tests.store.small_kitchen import STRUCTURE as STRUCTURE_TEXT
from tests.store.small_kitchen import WORDS as WORDS_TEXT
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import Library
from trainer.content.shipped import shipped
from trainer.content.word_check import word_problems
from trainer.kitchen.technique import Problem

TODAY = date(2026, 11, 3)
WORDS, STRUCTURE, SPANISH = (f"techniques/rolling/{name}.yaml" for name in ("en", "technique", "es"))
LONG = (
    "Roll the dough from the middle to the side and then back to the middle and then turn it by a quarter and dust it "
    "once more with flour from beside the board"
)

Broken = Callable[[str, str, str], tuple[int, tuple[Problem, ...]]]


def problems(folder: Path) -> tuple[Problem, ...]:
    """Return what the techniques of a folder say badly."""
    return word_problems(folder, Library(folder).techniques_read, TODAY)


@pytest.fixture
def broken(tmp_path: Path) -> Broken:
    """Return what is said of a small kitchen in which one text is put in place of another."""

    def put(file: str, old: str, new: str) -> tuple[int, tuple[Problem, ...]]:
        folder = small_kitchen(tmp_path)
        if file == SPANISH:
            (folder / SPANISH).write_text(IN_SPANISH, encoding="utf-8")
        line = change(folder, file, old, new)
        library = Library(folder)
        content = library.content("en", "us")
        assert content is not None
        assert "bench" in content.stations
        assert "rolling" in content.techniques
        return line, problems(folder)

    return put


IN_SPANISH = (
    WORDS_TEXT.replace("Roll from the middle.", "Estira desde el centro de la masa.")
    .replace("It looks smooth.", "Se ve lisa.")
    .replace("An uneven sheet cooks unevenly.", "Una hoja dispareja se cuece dispareja.")
    .replace("An even sheet that does not tear.", "Una hoja pareja que no se rompe.")
    .replace("Keep fingers away from the rollers.", "Mantén los dedos lejos de los rodillos.")
    .replace("A pair of hands rolls a sheet of dough from the middle outwards on a floured wooden bench.", "Dos manos "
             "estiran una hoja de masa desde el centro hacia afuera sobre una mesa de madera con harina.")
    .replace("One sheet weighs", "Una hoja pesa").replace("It rests", "Reposa").replace("The bench is about", "La mesa")
    .replace("sheets weigh", "hojas pesan").replace("The sauce stands", "La salsa está")
    .replace("The guard is on.", "La guarda va puesta.")
)  # fmt: skip


def test_nothing_is_said_of_what_ships() -> None:
    """The content that comes with the program keeps these rules."""
    folder = shipped("content")
    assert problems(folder) == ()


def test_nothing_is_said_of_a_small_kitchen_in_two_languages(tmp_path: Path) -> None:
    """The rules let plain words pass."""
    folder = small_kitchen(tmp_path)
    (folder / SPANISH).write_text(IN_SPANISH, encoding="utf-8")
    assert problems(folder) == ()


@pytest.mark.parametrize(
    ("file", "old", "new", "says", "hint"),
    [
        (WORDS, "cue: It looks smooth.", "cue: It is even.", "The cue of roll names no sense.", "Looks, Sounds"),
        (SPANISH, "cue: Se ve lisa.", "cue: Está pareja.", "The cue of roll names no sense.", "Se ve, Suena"),
        (WORDS, "Roll from the middle.", f"{LONG}.", "A sentence of the step roll has 33 words", "20 words or fewer"),
        (
            STRUCTURE,
            "give_or_take: 0.2 oz",
            "give_or_take: 4 oz",
            "sheet_weight gives or takes 4 oz of 4 oz",
            "smaller",
        ),
        (STRUCTURE, "kind: do, hazards: [rollers]", "kind: do", "No step names the hazard rollers.", "[rollers]"),
        (
            STRUCTURE,
            "since: 2025-09-01",
            "since: 2035-09-01",
            "Edition 2 starts on 2035-09-01, more than a year",
            "year",
        ),
        (SPANISH, "Estira desde el centro de la masa.", "Roll from the middle.", "do is in English", "in Spanish"),
        (
            SPANISH,
            "Se ve lisa.",
            "Se ve when the dough is in the middle of the board.",
            "cue is in English in the Spanish file",
            "in Spanish",
        ),
    ],
)
def test_what_will_be_misread_is_told_with_its_line(
    broken: Broken, file: str, old: str, new: str, *, says: str, hint: str
) -> None:
    """Each names the file, the line and what to do; the technique and its station are taught all the same."""
    line, found = broken(file, old, new)
    told = [each for each in found if says in each.message]
    assert len(told) == 1, [each.message for each in found]
    where = 13 if "No step names" in says else line
    assert (told[0].file, told[0].line) == (file, where)
    assert hint in told[0].hint
    assert not told[0].leaves_out


def test_a_degree_may_give_or_take_more_than_its_figure(broken: Broken) -> None:
    """0 °C, give or take 1 °C is a sound line: degrees have no nothing."""
    assert broken(STRUCTURE, "bench: {target: 68 F, source", "bench: {target: 0 C, give_or_take: 1 C, source")[1] == ()


def test_hot_work_without_a_caution_of_heat_is_told(broken: Broken) -> None:
    """Common practice: a burn is warned of before the hand is there. The first hot step is named."""
    _, found = broken(WORDS, "Roll from the middle.", "Roll it. Boil the sheet.")
    assert [each.message for each in found] == [
        "The step roll is hot work (Boil), and no caution of heat stands above it or before it."
    ]


def test_hot_work_below_a_caution_of_heat_is_sound(tmp_path: Path) -> None:
    """Once it is said before the step or at it, it is said."""
    folder = small_kitchen(tmp_path)
    change(folder, WORDS, "Roll from the middle.", "Roll it. Boil the sheet.")
    change(folder, STRUCTURE, "mark: hands_in_machine", "mark: hot_surface")
    assert problems(folder) == ()


def test_a_checklist_without_a_point_that_is_always_needed_is_told(tmp_path: Path) -> None:
    """Neither law nor result nor critical: it could be met with all that matters missed."""
    folder = small_kitchen(tmp_path)
    text = STRUCTURE_TEXT.replace(", critical: yes", "").replace(
        "  - {id: kept_hot, judged: measured, limit: code.hot_holding}\n", ""
    )
    (folder / STRUCTURE).write_text(text, encoding="utf-8")
    change(folder, WORDS, '  kept_hot: "The sauce stands {code.hot_holding}."\n', "")
    found = problems(folder)
    assert [each.message for each in found] == ["No point of the checklist is always needed."]


@pytest.mark.parametrize(
    ("file", "old", "new", "says"),
    [
        (STRUCTURE, "rest: {lowest: 30 min, highest: 2 h, source: house}", "rest: {lowest: 30 min}", "names no source"),
        ("kitchen_code.yaml", "lowest: 140 F", "lowest: 120 F", "laxer"),
        ("techniques/rolling/roll.svg", "<svg/>", "<svg><script/></svg>", "the element script"),
        ("techniques/rolling/roll.svg", "<svg/>", '<svg><image href="x.png"/></svg>', "the element image"),
    ],
)
def test_what_was_refused_before_is_refused_still(tmp_path: Path, file: str, old: str, new: str, says: str) -> None:
    """A source that is missing, a limit laxer than the code, a drawing with a script or a picture from elsewhere."""
    folder = small_kitchen(tmp_path)
    change(folder, file, old, new)
    found = Library(folder).problems
    assert any(says in each.message for each in found), found
    assert all(each.hint for each in found)
