"""The banks of scenes: read, true to the code whatever it says, short, of several kinds, and hard to guess."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from shutil import copytree

import pytest

from tests.content.conftest import CONTENT
from tests.kitchen.quiz.asking import WORDS, printed
from tests.kitchen.quiz.test_families import _grade_level
from tests.printed import english
from trainer.content.files import load_content
from trainer.content.scene_check import bank_problems
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.material import material_of
from trainer.kitchen.quiz.scenes import luck_of_bank
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import Content

BANKS = sorted(
    path.parent.name for path in CONTENT.glob("techniques/*/technique.yaml") if "\nscenes:" in path.read_text("utf-8")
)


def context_of(content: Content, name: str) -> QuestionContext:
    """Return what a bank's questions are drawn and told with."""
    return QuestionContext(content.question_words, material_of(content.techniques[name]))


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", BANKS)
def test_a_bank_is_whole(name: str, language: str) -> None:
    """Twelve scenes and five kinds or more in each language, and nothing for the check to tell."""
    content, problems = load_content(CONTENT, language)
    assert content is not None, problems
    bank = content.techniques[name]
    assert len(bank.scenes) >= 12
    assert len({scene.kind for scene in bank.scenes}) >= 5
    assert bank_problems(bank) == ()
    assert luck_of_bank(bank.scenes) <= Fraction(1, 4)


@pytest.mark.parametrize("name", BANKS)
def test_scenes_are_in_short_words(content: Content, name: str) -> None:
    """No scene reads above grade six (Kincaid et al. 1975), a limit in figures counted as one word."""
    for scene in content.techniques[name].scenes:
        plain = re.sub(r"\{\w+\}|\d[\d/:. ]*(?:°F|in)? ?(?:\([^)]*\))?", "line", scene.seen)
        assert _grade_level(plain) <= 6.5, scene.seen


@pytest.mark.parametrize("name", BANKS)
def test_every_wrong_answer_says_why(content: Content, name: str) -> None:
    """And every right one has a reason in the solution."""
    for scene in content.techniques[name].scenes:
        assert scene.because.endswith(".")
        for choice in (*scene.choices, *scene.reasons):
            assert choice.is_right or choice.wrong.endswith("."), (scene.id, choice.id)


@pytest.mark.parametrize("name", BANKS)
def test_what_a_picture_shows_does_not_give_its_name(content: Content, name: str) -> None:
    """Whoever hears it instead of seeing it has to tell the pictures apart too."""
    for scene in content.techniques[name].scenes:
        names = {choice.id: choice.text for choice in scene.choices}
        for picture in scene.pictures:
            assert names[picture.name].lower() not in picture.alt.lower()
        if scene.figure:
            assert len(scene.figure_alt.split()) >= 15


def cooling_in(content: Content, scene: str) -> list[tuple[int, Fraction, str]]:
    """Return of many draws of a cooling scene the minutes gone, the reading and the right answer's id."""
    bank = content.techniques["safe_holding"]
    material = replace(material_of(bank), scenes=tuple(each for each in bank.scenes if each.id == scene))
    context, found = QuestionContext(WORDS, material), []
    for seed in range(60):
        question = printed(tell(draw_question("decide", seed, context), context))
        start, now = (int(hour) * 60 + int(minute) for hour, minute in re.findall(r"(\d+):(\d\d)", question.text)[:2])
        reading = re.findall(r"(\d+) °F", question.text)[-1]
        assert question.right_choice is not None
        found.append(((now - start) % 1440, Fraction(reading), english(question.right_choice.text)))
    return found


@pytest.mark.parametrize(
    ("start", "middle", "hours"), [("135", "70", 2), ("140", "70", 2)], ids=["Food Code 2022", "a stricter start"]
)
def test_the_first_cooling_limit_decides_the_scenes(tmp_path: Path, start: str, middle: str, hours: int) -> None:
    """FDA Food Code 2022, section 3-501.14(A)(1): 135 to 70 °F within two hours; one rule in Maine starts at 140 °F.

    Late and above the middle is missed; under it in time may go on; hot still at half time has time left. Readings lie
    3 °F and more off a line, since a thermometer is true to 2 °F (section 4-203.11(B)).
    """
    folder = copytree(CONTENT, tmp_path / "content")
    code = folder / "local_code" / "us_food_code_2022.yaml"
    code.write_text(code.read_text().replace("cooling_start: {target: 135 F", f"cooling_start: {{target: {start} F"))
    content, problems = load_content(folder)
    assert content is not None, problems
    for gone, reading, right in cooling_in(content, "first_missed"):
        assert gone > hours * 60
        assert reading >= int(middle) + 3
        assert right.startswith("It is missed")
    for gone, reading, right in cooling_in(content, "first_good"):
        assert gone < hours * 60
        assert reading <= int(middle) - 3
        assert right.startswith("It may go on")
    for gone, reading, right in cooling_in(content, "first_slow"):
        assert hours * 60 * Fraction(2, 5) <= gone <= hours * 60 * Fraction(3, 4)
        assert reading >= int(start) - 20
        assert right.startswith("Split it thinner")


def test_the_holding_lines_decide_which_pans_stay(content: Content) -> None:
    """The kitchen's own hot line, 140 °F (New York City Health Code, section 81.10, Table 1), and cold at 41 °F.

    FDA Food Code 2022, section 3-501.16(A), has 135 °F: the house's line changes what is right.
    """
    bank = content.techniques["safe_holding"]
    material = replace(material_of(bank), scenes=tuple(each for each in bank.scenes if each.id == "pans_stay"))
    context = QuestionContext(WORDS, material)
    for seed in range(60):
        question = printed(tell(draw_question("decide", seed, context), context))
        for choice in question.choices:
            (reading,) = re.findall(r"(\d+) °F", choice.text)
            is_hot = any(word in choice.text for word in ("steam well", "hot box"))
            assert choice.is_right is (int(reading) >= 140 if is_hot else int(reading) <= 41), choice.text


def test_small_dice_go_back_by_the_line(content: Content) -> None:
    """A quarter inch, give or take a sixteenth: 3/16, 1/4 and 5/16 stay, 1/8, 3/8 and larger go back."""
    bank = content.techniques["knife_cuts"]
    material = replace(material_of(bank), scenes=tuple(each for each in bank.scenes if each.id == "dice_back"))
    context = QuestionContext(WORDS, material)
    stays = {"1/4", "3/16", "5/16"}
    for seed in range(20):
        question = printed(tell(draw_question("decide", seed, context), context))
        assert {choice.text.split(" in")[0] for choice in question.choices if not choice.is_right} == stays


NINE = {
    # 21 U.S.C. 321(qq), with FASTER Act of 2021 for sesame; what a word is made from is common practice.
    "no_milk": {"whey", "casein", "ghee"},
    "no_wheat": {"semolina", "seitan", "couscous"},
    "no_egg": {"albumen", "meringue powder", "mayonnaise"},
    "no_soy": {"tofu", "tempeh", "edamame"},
    "the_nine": {"sesame", "crab", "walnuts"},
}


@pytest.mark.parametrize("scene", sorted(NINE))
def test_a_whole_label_stops_at_each_word_of_the_law(content: Content, scene: str) -> None:
    """Every word that carries the guest's allergen is right, and no other one."""
    (found,) = (each for each in content.techniques["allergens"].scenes if each.id == scene)
    assert {choice.text for choice in found.choices if choice.is_right} == NINE[scene]


FAULTS = {
    "right: [tag_it]": ("right: [tag_them]", "first_missed has no choice 'tag_them'."),
    "answers: cool\n    right: [ice]": ("answers: cold\n    right: [ice]", "answers names 'cold', which is not known."),
    "figure: no_tape.svg": ("figure: tape.svg", "There is no figure tape.svg in safe_holding."),
    "after: start, line: code.time_control, percent: 103 to 130": (
        "after: began, line: code.time_control, percent: 103 to 130",
        "now comes after 'began', no time drawn above it.",
    ),
    "reason: thin": ("reason: thick", "start_written has no reason 'thick'."),
    "{left: code.time_control, since: start": (
        "{left: code.time_contrl, since: start",
        "left names 'code.time_contrl', which is not known.",
    ),
    "name: few_cubes": ("name: true_test", "three_glasses does not name 3 pictures."),
    "by: 4 to 20}": ("by: 20 to 4}", "by is '20 to 4', not a range."),
}


@pytest.mark.parametrize("old", FAULTS, ids=lambda text: text[:24])
def test_a_fault_of_a_scene_is_told_by_its_line(tmp_path: Path, old: str) -> None:
    """Each names the file, the value and what it should be."""
    new, says = FAULTS[old]
    folder = copytree(CONTENT, tmp_path / "content")
    path = folder / "techniques" / "safe_holding" / "technique.yaml"
    assert old in path.read_text()
    path.write_text(path.read_text().replace(old, new, 1))
    _, problems = load_content(folder)
    assert says in [problem.message for problem in problems]
    assert all(problem.line > 1 and problem.hint for problem in problems if problem.message == says)


def test_a_wrong_choice_without_its_reason_is_told(tmp_path: Path) -> None:
    """And so is a scene one language says nothing of."""
    folder = copytree(CONTENT, tmp_path / "content")
    words = folder / "techniques" / "safe_holding" / "en.yaml"
    words.write_text(words.read_text().replace(", wrong: That line holds food hot. It does not reheat it.", ""))
    _, problems = load_content(folder)
    assert "reheat_soup does not say why holding is wrong." in [problem.message for problem in problems]


def test_a_thin_bank_is_told(content: Content) -> None:
    """Few scenes of one kind with four choices each: too few, too alike, and guessed too often."""
    bank = content.techniques["safe_holding"]
    few = tuple(replace(scene, choices=scene.choices[:4]) for scene in bank.scenes if scene.kind == "what_now")
    told = [problem for _, problem, _ in bank_problems(replace(bank, scenes=few))]
    assert "There are 7 scenes." in told
    assert "The scenes are of 1 kinds." in told
    assert "A guess is right in 50 of 100 of these scenes." in told
