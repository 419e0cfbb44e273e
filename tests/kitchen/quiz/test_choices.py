"""Questions that are not sums: choices, instruments, cuts, and the technique's own words."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from tests.kitchen.quiz.asking import WORDS, context, draw_question, draw_sitting
from tests.kitchen.quiz.test_drawing import setting, technique
from tests.kitchen.quiz.worked_by_eye import choose_fault, holds, order_steps
from tests.printed import english
from trainer.kitchen.quiz.choice_grading import NOTHING_CHOSEN
from trainer.kitchen.quiz.drawing import CannotDraw, setting_problems
from trainer.kitchen.quiz.drawn import context_of
from trainer.kitchen.quiz.families import CHOICES, NUMERIC
from trainer.kitchen.quiz.families.slips import SLIPS
from trainer.kitchen.quiz.grading import NOTHING_WRITTEN, grade
from trainer.kitchen.quiz.material import PRACTICE, Material, material_of
from trainer.kitchen.technique import Fault, Step, Technique
from trainer.messages import Message

FIGURES = ("name_cut", "read_scale", "read_balance", "read_thermometer")


def step(number: int) -> Step:
    return Step(f"s{number}", "do", f"Do thing number {number}.", "", "", "", "", ())


def fault(name: str) -> Fault:
    return Fault(name, f"It looks {name}.", f"It was left {name} too long.", f"Take the {name} out.")


def cooking(steps: int, faults: int) -> Technique:
    """Return a technique with so many steps and faults, asked about both."""
    taught = technique(setting("choose_fault", count=2), setting("order_steps", count=2))
    named = ("burnt", "split", "grainy", "thin", "dull")
    return replace(taught, steps=tuple(map(step, range(1, steps + 1))), faults=tuple(map(fault, named[:faults])))


@pytest.mark.parametrize("name", sorted(CHOICES))
def test_one_choice_is_right_and_every_other_says_why_not(name: str) -> None:
    """Keys count up from 1, texts differ, and each wrong choice has a name, a sentence to the cook and one to teach."""
    for seed in range(30):
        question = draw_question(name, seed)
        if question.answering != "one":
            continue
        assert [choice.key for choice in question.choices] == [str(n + 1) for n in range(len(question.choices))]
        assert len({choice.text for choice in question.choices}) == len(question.choices) >= 2
        assert sum(choice.is_right for choice in question.choices) == 1
        assert question.right_choice is not None
        assert str(question.answer.value) == question.right_choice.key
        for wrong in (choice for choice in question.choices if not choice.is_right):
            assert wrong.says.endswith(".")
            assert WORDS.for_teacher(name, wrong.name).endswith(".")


@pytest.mark.parametrize("name", sorted(CHOICES))
def test_a_choice_is_given_by_key_or_by_text(name: str) -> None:
    """Either will do, in any letters; a wrong one comes back with its name and what is said."""
    for seed in range(20):
        question = draw_question(name, seed)
        if question.answering != "one":
            continue
        for choice in question.choices:
            for given in (
                choice.key,
                choice.letter,
                choice.letter.lower(),
                f" {choice.key}) ",
                choice.text,
                choice.text.upper(),
            ):
                graded = grade(question, given)
                assert graded.is_right is choice.is_right
                assert english(graded.understood) == f"{choice.key}: {choice.text}"
                assert graded.method == (choice.name or None)
                assert english(graded.says) == (choice.says or "Right.")


@pytest.mark.parametrize("text", ["9", "0", "julienned", "1 or 2", "🍝", "9" * 100_000])
def test_what_is_no_choice_is_asked_again(text: str) -> None:
    """A choice that is not there is never graded wrong: the keys are named."""
    given = grade(draw_question("name_cut", 3), text)
    assert given.is_right is None
    assert given.problem is not None
    assert english(given.problem) == "Choose one: 1, 2, 3 or 4."


@pytest.mark.parametrize(("name", "says"), [("name_cut", NOTHING_CHOSEN), ("read_scale", NOTHING_WRITTEN)])
def test_no_answer_is_asked_for(name: str, says: Message) -> None:
    """Sent with nothing in it, an answer is asked for in plain words; it is never wrong."""
    for blank in ("", "  ", "\t"):
        given = grade(draw_question(name, 3), blank)
        assert (given.is_right, given.problem) == (None, says)


@pytest.mark.parametrize("name", FIGURES)
def test_figures_stand_in_a_page_as_they_are(name: str) -> None:
    """SVG in one ink: known shapes, presentation attributes, no style, no script, no link, no colour but the page's."""
    for seed in range(30):
        question = draw_question(name, seed)
        root = ET.fromstring(question.figure)  # noqa: S314 - drawn by the program under test
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        for shape in root.iter():
            assert shape.tag.rpartition("}")[2] in {"svg", "line", "circle", "rect", "text"}
            assert set(shape.attrib) <= {
                "viewBox", "width", "height", "fill", "stroke", "stroke-width", "x", "y", "x1", "y1", "x2", "y2",
                "cx", "cy", "r", "font-size", "text-anchor",
            }  # fmt: skip
            assert {shape.attrib.get("fill"), shape.attrib.get("stroke")} <= {None, "none", "currentColor"}
        assert len(question.figure_alt.split()) >= 8


def test_a_cut_has_its_true_size() -> None:
    """The figure is measured in millimetres, one unit of its drawing being one of them, with a ruler of 70 mm."""
    question = draw_question("name_cut", 1)
    root = ET.fromstring(question.figure)  # noqa: S314 - drawn by the program under test
    assert root.attrib["width"].endswith("mm")
    assert root.attrib["viewBox"].split()[2] == root.attrib["width"].removesuffix("mm")
    assert "70" in [text.text for text in root.iter("{http://www.w3.org/2000/svg}text")]


@pytest.mark.parametrize("name", ["read_scale", "read_thermometer", "read_balance"])
def test_the_words_of_a_figure_leave_the_answer_to_the_cook(name: str) -> None:
    """Anyone who hears the figure instead of seeing it must count and multiply too."""
    for seed in range(60):
        question = draw_question(name, seed)
        numbers = re.findall(r"-?\d+(?:\.\d+)?", question.figure_alt)
        assert str(question.answer.value) not in numbers or name == "read_thermometer"


def test_a_technique_is_asked_about_its_own_steps_and_faults() -> None:
    """A sitting takes both from the technique, and the answers are those of its content."""
    taught = cooking(steps=6, faults=4)
    material = material_of(taught)
    for seed in range(40):
        questions = draw_sitting(taught, seed)
        assert [question.family for question in questions] == ["choose_fault"] * 2 + ["order_steps"] * 2
        for question in questions:
            by_hand = choose_fault if question.family == "choose_fault" else order_steps
            assert question.right_choice is not None
            assert question.right_choice.text == by_hand(question, material)
            assert "Nesting" not in question.text  # it stands above, and a phone has no room to say it twice


@pytest.mark.parametrize(("steps", "faults"), [(6, 2), (2, 5), (0, 0)])
def test_too_few_words_are_told(steps: int, faults: int) -> None:
    """Two faults, or two steps, are nothing to choose from: the sitting cannot be drawn, and content is told so."""
    with pytest.raises(CannotDraw):
        draw_sitting(cooking(steps, faults), 1)
    for count, is_told in (((steps, faults), True), ((6, 4), False)):
        found = cooking(*count)
        told = [
            problem
            for each in found.questions
            for problem in setting_problems(each, context_of(found, each.family, WORDS))
        ]
        assert bool(told) is is_told


def test_faults_with_one_cause_are_no_two_choices() -> None:
    """Faults that share a cause stand for it once."""
    same = tuple(replace(fault(name), cause="Too hot.") for name in ("burnt", "split", "dull"))
    other = (fault("thin"), fault("grainy"))
    for seed in range(20):
        question = draw_question("choose_fault", seed, None, Material("Sauce", (), same + other))
        assert len({choice.text for choice in question.choices}) == len(question.choices)


def test_names_of_a_setting_are_checked_for_choices_too() -> None:
    """A range or word that is not there is told in the words of the content file."""
    (problem,) = setting_problems(setting("choose_fault", words={"food": "sauce"}), context())
    assert problem == "There is no word 'food'. There are: none."
    assert setting_problems(setting("order_steps", count=3), context()) == ()


def test_the_printed_slips_are_found_out() -> None:
    """Lines as printed: 36.40 - 8.00 = 22.40 (it is 28.40), 275.83 / 24 = 11.19 (11.49), 750 - 300 = 400 (450)."""
    for slip in ("Left: 36.40 - 8.00 = 22.40.", "A pound: 275.83 / 24 = about 11.19.", "Left: 750 - 300 = 400 mL."):
        assert not holds(slip)
    for line in ("Left: 36.40 - 8.00 = 28.40.", "A pound: 275.83 / 24 = about 11.49.", "Left: 750 - 300 = 450 mL."):
        assert holds(line)


def test_every_kind_of_slip_is_asked() -> None:
    """Over a hundred and fifty seeds each kind of slip turns up, and the line as it should read is told."""
    told = [draw_question("spot_slip", seed).solution for seed in range(150)]
    for how, _ in SLIPS:
        assert any(WORDS.families["spot_slip"].sentences[how] in solution[1] for solution in told)
    assert all(solution[0].startswith("Line ") for solution in told)


def test_a_slip_is_no_toss_of_a_coin() -> None:
    """There are three lines or more to choose from."""
    assert all(len(draw_question("spot_slip", seed).choices) >= 3 for seed in range(60))


def test_the_stand_in_serves_where_no_technique_is_named() -> None:
    """A family made from a technique's words can be tried out without one."""
    assert draw_question("choose_fault", 5) == draw_question("choose_fault", 5, None, PRACTICE)
    assert set(NUMERIC) & set(CHOICES) == set()
