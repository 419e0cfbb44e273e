"""A step may be drawn in frames, or as too little, right and too far; it has a name, and may begin a group."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.printed import english
from tests.store.small_kitchen import change, small_kitchen
from trainer.content.files import load_content
from trainer.content.shipped import shipped
from trainer.kitchen.drawing_numbers import numbered
from trainer.kitchen.motion import SIDES, StepGroup, StripFrame, TriplePicture
from trainer.kitchen.technique import Limit, Problem, Step
from trainer.messages import translate
from trainer.recipe_math.quantity import Quantity

STRUCTURE = "techniques/rolling/technique.yaml"
WORDS = "techniques/rolling/en.yaml"
FIGURE = "figure: roll.svg"
TRIPLE = "triple: {under: thick.svg, right: even.svg, over: thin.svg, line: sheet_weight}"
ROLL = "    do: Roll from the middle."
TOLD = """\
    do: Roll from the middle.
    triple:
      under: {look: a thick rim, act: roll on}
      right: {look: one thickness, act: next step}
      over: {look: light shines through, act: start again}
"""
ON_IT = "<svg><text>{sheet_weight}</text><text>{code.pause.target}</text></svg>"
FRAMES = """\
    do: Roll from the middle.
    strip:
      - {word: Press, more: from the middle}
      - {word: "{rest}", more: let it lie}
"""


def drawn(folder: Path, *names: str) -> None:
    for name in names:
        (folder / "techniques/rolling" / name).write_text(
            '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0"/></svg>'
        )


def with_triple(tmp_path: Path) -> Path:
    folder = small_kitchen(tmp_path)
    drawn(folder, "thick.svg", "even.svg", "thin.svg")
    change(folder, STRUCTURE, FIGURE, TRIPLE)
    change(folder, WORDS, f"{ROLL}\n", TOLD)
    return folder


def with_strip(tmp_path: Path) -> Path:
    folder = small_kitchen(tmp_path)
    drawn(folder, "press.svg", "lie.svg")
    change(folder, STRUCTURE, FIGURE, "strip: [press.svg, lie.svg]")
    change(folder, WORDS, f"{ROLL}\n", FRAMES)
    return folder


def problems_of(folder: Path) -> list[Problem]:
    return list(load_content(folder)[1])


def rolled(folder: Path) -> Step:
    content, problems = load_content(folder)
    assert content is not None
    assert not problems
    return content.techniques["rolling"].steps[0]


def test_a_triple_says_look_number_and_act_on_each_side(tmp_path: Path) -> None:
    """Below each drawing stand what it looks like, the number of its side, and what to do then."""
    triple = rolled(with_triple(tmp_path)).triple
    assert triple is not None
    assert triple.pictures == (
        ("under", TriplePicture("thick.svg", "a thick rim", "roll on")),
        ("right", TriplePicture("even.svg", "one thickness", "next step")),
        ("over", TriplePicture("thin.svg", "light shines through", "start again")),
    )
    numbers = [english(triple.number(side, "us")) for side in SIDES]
    assert numbers == ["under 3.8 oz", "4 oz", "over 4.2 oz"]


def test_a_strip_says_a_word_or_a_number_at_each_frame(tmp_path: Path) -> None:
    """A number on a drawing is as short as it can be told."""
    assert rolled(with_strip(tmp_path)).strip == (
        StripFrame("press.svg", "Press", "from the middle"),
        StripFrame("lie.svg", "30 min–2 h", "let it lie"),
    )


def test_a_step_without_a_name_goes_by_its_first_words(tmp_path: Path) -> None:
    """Files of a kitchen from before names go on."""
    folder = small_kitchen(tmp_path)
    assert rolled(folder).title == "Roll from the middle"
    change(folder, WORDS, ROLL, f"    name: Roll it out\n{ROLL}")
    assert rolled(folder).title == "Roll it out"


def test_a_group_runs_to_the_step_before_the_next(tmp_path: Path) -> None:
    """A group is named where it begins."""
    folder = small_kitchen(tmp_path)
    change(folder, STRUCTURE, "id: roll, kind: do", "id: roll, kind: do, group: shape")
    change(folder, STRUCTURE, "id: wait, kind: time", "id: wait, kind: time, group: rest")
    change(folder, WORDS, "hazards:\n", "groups: {shape: Shape it, rest: Let it rest}\nhazards:\n")
    content, problems = load_content(folder)
    assert content is not None
    assert not problems
    groups = content.techniques["rolling"].groups
    assert groups == (StepGroup("shape", "Shape it", 1, 1), StepGroup("rest", "Let it rest", 2, 2))


TRIPLE_FAULTS = {
    "a drawing that is missing": (STRUCTURE, "over: thin.svg", "over: thine.svg", "no figure thine.svg"),
    "two drawings": (STRUCTURE, ", over: thin.svg", "", "no over"),
    "figure and triple": (STRUCTURE, "triple: {", "figure: roll.svg, triple: {", "roll has figure and triple"),
    "a line without ends": (STRUCTURE, "line: sheet_weight", "line: bench", "bench is a target alone"),
    "no such line": (STRUCTURE, "line: sheet_weight", "line: sheet_wait", "line names 'sheet_wait'"),
    "no words": (WORDS, TOLD, f"{ROLL}\n", "roll has no triple"),
    "words of two": (WORDS, "      over: {look: light shines through, act: start again}\n", "", "triple has no over"),
    "too many words": (WORDS, "act: start again", "act: start it all again", "act has 4 words on a drawing"),
    "a figure typed": (WORDS, "look: a thick rim", "look: over 3 mm", "A number is typed in look"),
    "no telling of what it shows": (WORDS, "    figure: A pair", "    # A pair", "roll has no figure"),
}


@pytest.mark.parametrize("fault", TRIPLE_FAULTS)
def test_a_fault_of_a_triple_is_told(tmp_path: Path, fault: str) -> None:
    """Three drawings, each with its words, and one telling of all for who cannot see them."""
    folder, (file, old, new, message) = with_triple(tmp_path), TRIPLE_FAULTS[fault]
    change(folder, file, old, new)
    found = problems_of(folder)
    assert any(message in each.message and each.file == file for each in found), found


STRIP_FAULTS = {
    "one frame": (STRUCTURE, "[press.svg, lie.svg]", "[press.svg]", "The strip of roll has 1 frames."),
    "six frames": (STRUCTURE, "[press.svg", f"[{'press.svg, ' * 5}lie.svg", "has 7 frames"),
    "a frame without words": (WORDS, "      - {word: Press, more: from the middle}\n", "", "tells 1 of 2 frames"),
    "too many words": (WORDS, "word: Press", "word: Press it down", "word has 3 words on a drawing"),
    "no such drawing": (STRUCTURE, "lie.svg]", "lies.svg]", "no figure lies.svg"),
}


@pytest.mark.parametrize("fault", STRIP_FAULTS)
def test_a_fault_of_a_strip_is_told(tmp_path: Path, fault: str) -> None:
    """Two to five frames, each with its words."""
    folder, (file, old, new, message) = with_strip(tmp_path), STRIP_FAULTS[fault]
    change(folder, file, old, new)
    found = problems_of(folder)
    assert any(message in each.message for each in found), found


GROUP_FAULTS = {
    "begins twice": ("roll, kind: do, group: a", "wait, kind: time, group: a", "The group a begins twice."),
    "not at the first step": ("roll, kind: do", "wait, kind: time, group: a", "roll stands in no group."),
}


@pytest.mark.parametrize("fault", GROUP_FAULTS)
def test_a_fault_of_the_groups_is_told(tmp_path: Path, fault: str) -> None:
    """Each group begins once, and every step stands in one."""
    folder, (first, second, message) = small_kitchen(tmp_path), GROUP_FAULTS[fault]
    change(folder, STRUCTURE, "roll, kind: do", first)
    change(folder, STRUCTURE, "wait, kind: time", second)
    change(folder, WORDS, "hazards:\n", "groups: {a: First}\nhazards:\n")
    assert any(message in each.message for each in problems_of(folder))


def test_a_number_on_a_drawing_is_a_line_of_the_standard_or_the_code(tmp_path: Path) -> None:
    """It stands once, in the structure; a drawing names it, and what no line has is told."""
    folder = small_kitchen(tmp_path)
    figure = folder / "techniques/rolling/roll.svg"
    figure.write_text(ON_IT)
    assert not problems_of(folder)
    figure.write_text(ON_IT.replace("sheet_weight", "rest.target"))
    (problem,) = problems_of(folder)
    assert problem.message == "roll.svg names {rest.target}, which no line has."
    assert not problem.leaves_out


def test_a_number_on_a_drawing_is_printed_in_the_readers_units() -> None:
    """The band of a custard, 80 to 85 °C, is 176 to 185 °F (McGee, On Food and Cooking, 2004, from memory)."""
    band = Limit("band", Quantity.of(80, "°C"), Quantity.of(85, "°C"), None, "house")
    told = [numbered("<text>{band}</text>", {"band": band}, units, translate) for units in ("us", "metric")]
    assert told == ["<text>176–185 °F</text>", "<text>80–85 °C</text>"]


def test_groups_are_five_at_the_most(tmp_path: Path) -> None:
    """Six would no longer stand on two screens of a phone with the rest."""
    folder, more = small_kitchen(tmp_path), "".join(f"  - {{id: s{n}, kind: do, group: g{n}}}\n" for n in range(6))
    change(folder, STRUCTURE, "  - {id: roll, kind: do", f"{more}  - {{id: roll, kind: do")
    assert any(each.message == "The steps stand in 6 groups." for each in problems_of(folder))


def test_a_name_is_no_longer_than_a_line_of_a_phone(tmp_path: Path) -> None:
    """A long name would be cut where steps are listed."""
    folder = small_kitchen(tmp_path)
    line = change(folder, WORDS, ROLL, f"    name: Roll the sheet out evenly to all sides\n{ROLL}")
    (problem,) = problems_of(folder)
    assert (problem.line, problem.message) == (line, "The name of roll has 38 letters.")


def test_no_more_than_three_numbers_stand_on_the_front_page(tmp_path: Path) -> None:
    """Four are no longer known by heart."""
    folder = small_kitchen(tmp_path)
    line = change(folder, STRUCTURE, "steps:", "numbers: [sheet_weight, rest, bench, code.pause]\nsteps:")
    words = "numbers: {sheet_weight: one sheet, rest: to rest, bench: the bench, code.pause: the pause}\nsteps:"
    change(folder, WORDS, "steps:", words)
    (problem,) = problems_of(folder)
    assert (problem.line, problem.message) == (line, "numbers names 4 lines.")


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_shipped_step_has_a_name_and_stands_in_a_group(language: str) -> None:
    """Steps are listed by name, no two of a technique alike, in few groups, and up to three numbers go before them."""
    content, _ = load_content(shipped("content"), language)
    assert content is not None
    for technique in content.techniques.values():
        names = [step.name for step in technique.steps]
        assert all(names), technique.id
        assert len(set(names)) == len(names), technique.id
        assert 2 <= len(technique.groups) <= 5, technique.id
        assert (technique.groups[0].first, technique.groups[-1].last) == (1, len(names))
        assert 1 <= len(technique.numbers) <= 3, technique.id
