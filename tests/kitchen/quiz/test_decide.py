"""Scenes to decide in: how each is answered and graded, how likely a guess is, and what was asked before."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.kitchen.quiz.asking import WORDS, Asked, context, draw_question, drawn_question, printed
from tests.printed import english
from trainer.kitchen.quiz.choice_grading import EACH_ONCE, NONE_MARKED, SAY_WHY, is_half
from trainer.kitchen.quiz.drawing import draw_question as drawn_of
from trainer.kitchen.quiz.drawing import draw_unseen
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.material import PRACTICE
from trainer.kitchen.quiz.scenes import (
    Scene,
    SceneChoice,
    SceneDraw,
    SceneKey,
    luck_of_bank,
    luck_of_choices,
)
from trainer.kitchen.quiz.telling import CannotTell, tell
from trainer.recipe_math.quantity import Quantity

HOLD = Quantity.of(135, "°F")


def asked(answering: str) -> Asked:
    """Return a question of the stand-in that is answered so."""
    return next(each for each in (draw_question("decide", seed) for seed in range(80)) if each.answering == answering)


@pytest.mark.parametrize(
    ("count", "is_mark_all", "luck"),
    [(4, False, "1/2"), (5, False, "1/3"), (6, False, "1/4"), (4, True, "1/4"), (5, True, "1/8"), (6, True, "1/16")],
)
def test_two_are_struck_out_before_a_guess(count: int, is_mark_all: bool, luck: str) -> None:
    """By hand: of six choices four are left, one right; of five words three, each marked or not, 2 × 2 × 2 ways."""
    assert luck_of_choices(count, is_mark_all=is_mark_all) == Fraction(luck)


def test_the_luck_of_a_bank_is_the_mean() -> None:
    """By hand: six choices 1/4, five words 1/8, act and reason 1/4, names 1/6, a number 1/10, thrice four choices."""
    by_hand = (
        Fraction(1, 4) + Fraction(1, 8) + Fraction(1, 4) + Fraction(1, 6) + Fraction(1, 10) + 3 * Fraction(1, 2)
    ) / 8
    assert luck_of_bank(PRACTICE.scenes) == by_hand
    assert luck_of_bank(()) == 1


def test_all_that_fits_is_marked_in_any_order() -> None:
    """Keys or letters, together or apart; one too many or too few is wrong, and says which."""
    question = asked("all")
    right = [choice for choice in question.choices if choice.is_right]
    wrong = next(choice for choice in question.choices if not choice.is_right)
    letters = [choice.letter.lower() for choice in right]
    for given in (" ".join(reversed(letters)), ", ".join(letters).upper(), "".join(letters), question.key):
        assert grade(question, given).is_right
    more = grade(question, " ".join([*letters, wrong.letter]))
    assert (more.is_right, more.method) == (False, "marked_too_much")
    assert english(more.says) == f"{wrong.letter} does not fit. {wrong.says}"
    fewer = grade(question, " ".join(letters[1:]))
    assert (fewer.is_right, fewer.method) == (False, "left_out")
    assert english(fewer.says) == f"Left out: {right[0].letter} {right[0].text}."
    both = grade(question, " ".join([*letters[1:], wrong.letter]))
    assert (both.is_right, both.method) == (False, None)


@pytest.mark.parametrize("given", ["", "  ", "Z", "1 9", "everything", "a" * 5000])
def test_what_marks_nothing_that_is_there_is_asked_again(given: str) -> None:
    """It is never graded wrong."""
    found = grade(asked("all"), given)
    assert found.is_right is None
    assert (found.problem == NONE_MARKED) is (not given.strip())


def test_an_act_needs_its_reason() -> None:
    """The act alone is half an answer; either one wrong is wrong, with its own name."""
    question = asked("reason")
    act, why = (next(each for each in among if each.is_right) for among in (question.choices, question.reasons))
    other, another = (
        next(each for each in among if not each.is_right) for among in (question.choices, question.reasons)
    )
    assert is_half(question, act.letter)
    assert grade(question, act.key).problem == SAY_WHY
    assert not is_half(question, f"{act.letter} {why.letter}")
    assert grade(question, f"{act.key} {why.key}").is_right
    assert grade(question, f"{other.key} {why.key}").method == "other_act"
    assert grade(question, f"{act.key} {another.key}").method == "other_reason"
    for half in (why.key, f"{act.key} {other.key}", f"{why.key} {another.key}"):
        assert grade(question, half).is_right is None


def test_every_picture_has_to_have_its_name() -> None:
    """Names in the order of the pictures, each once; two swapped are named by letter."""
    question = asked("names")
    names = question.key.split()
    assert sorted(names) == ["1", "2", "3"]
    assert grade(question, " ".join(names)).is_right
    swapped = grade(question, " ".join([names[1], names[0], names[2]]))
    assert (swapped.is_right, swapped.method) == (False, "names_swapped")
    assert english(swapped.says) == "Look again at A, B."
    for given in (names[0], f"{names[0]} {names[0]} {names[1]}"):
        assert grade(question, given).problem == EACH_ONCE
    assert [letter in question.figure for letter in (">A<", ">B<", ">C<")] == [True, True, True]


def test_a_number_is_answered_as_numbers_are() -> None:
    """In any unit of its kind; the minutes of another line are named."""
    question = asked("number")
    minutes = question.answer.value
    assert grade(question, f"{minutes} min").is_right
    assert grade(question, f"{minutes * 60} s").is_right
    assert grade(question, str(minutes + 10)).method == "other_limit"


def cooling(middle: str, within: str) -> Scene:
    """Return a scene of a pan that was too slow, under a code with these limits."""
    fahrenheit, hours = Quantity.of(int(middle), "°F"), Quantity.of(int(within), "h")
    return Scene(
        "slow", "keyed", "Fell to the start: {start}. Now {now}: {reading}. Minutes left?", "Because.",
        draws=(
            SceneDraw("start", "clock", Fraction(600), Fraction(600), Fraction(1)),
            SceneDraw("now", "after", Fraction(75), Fraction(75), Fraction(1), hours, "start"),
            SceneDraw("reading", "near", Fraction(20), Fraction(20), Fraction(1), fahrenheit),
        ),
        key=SceneKey("left", hours, ("start", "now"), "min"),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("middle", "within", "seen", "left"),
    [("70", "2", "Now 11:30: 90 °F (32 °C).", 30), ("80", "4", "Now 13:00: 100 °F (38 °C).", 60)],
)
def test_a_changed_limit_changes_what_is_seen_and_the_key(middle: str, within: str, seen: str, left: int) -> None:
    """By hand: three quarters of two hours from 10:00 is 11:30, 30 minutes left; of four hours 13:00, 60 left."""
    found = context(material=replace(PRACTICE, scenes=(cooling(middle, within),)))
    question = printed(tell(drawn_of("decide", 1, found), found))
    assert seen in question.text
    assert question.answer.value == left


def test_a_kept_scene_follows_a_changed_limit() -> None:
    """What is kept is what was picked: told under another code, the same question has that code's numbers."""
    before = replace(PRACTICE, scenes=(cooling("70", "2"),))
    kept = drawn_of("decide", 1, context(material=before))
    after = tell(kept, context(material=replace(PRACTICE, scenes=(cooling("80", "4"),))))
    assert after.answer.value == 60


def test_sums_and_parts_are_worked_out() -> None:
    """By hand: 12 s and 20 s are 32 s; into 1 1/2 inches a quarter inch goes six times."""
    seconds = SceneKey("sum", Quantity.of(20, "s"), ("at",), "s")
    assert seconds.value({"at": Quantity.of(12, "s")}) == 32
    sticks = SceneKey("parts", Quantity.of("1/4", "in"), ("wide",), "each")
    assert sticks.value({"wide": Quantity.of("3/2", "in")}) == 6


def test_a_scene_that_is_gone_cannot_be_told() -> None:
    """So is one whose choice is gone, or of which no single answer is right any more."""
    drawn = next(each for each in (drawn_question("decide", seed) for seed in range(40)) if each.stem == "clumped")
    (scene,) = (each for each in PRACTICE.scenes if each.id == "clumped")
    without = replace(scene, choices=scene.choices[:-1])
    none_right = replace(scene, choices=tuple(replace(each, is_right=False, wrong="No.") for each in scene.choices))
    for scenes in ((), (without,), (none_right,)):
        with pytest.raises(CannotTell):
            tell(drawn, context(material=replace(PRACTICE, scenes=scenes)))


def test_a_wrong_line_that_reads_like_the_right_one_is_left_out() -> None:
    """Under a code with one time for both, the twin drops; with too few left nothing is asked."""
    choices = tuple(
        SceneChoice(f"c{place}", text, place == 0, "" if place == 0 else "No.")
        for place, text in enumerate(("145 °F, 15 s", "145 °F, 15 s", "155 °F", "165 °F", "135 °F"))
    )
    found = replace(PRACTICE, scenes=(Scene("eggs", "which_limit", "Two eggs.", "So.", choices),))
    assert len(tell(drawn_of("decide", 1, context(material=found)), context(material=found)).choices) == 4


@pytest.mark.parametrize(
    ("family", "stem"), [("decide", "clumped"), ("choose_fault", "1:soft"), ("name_cut", "4"), ("find_allergen", "3:7")]
)
def test_what_was_asked_before_has_a_stem(family: str, stem: str) -> None:
    """The scene, the fault with what is asked of it, the cut, the word with how it is asked for."""
    assert stem in {drawn_question(family, seed).stem for seed in range(1500)}


def test_a_calculation_has_no_stem() -> None:
    """Other numbers are another question."""
    assert drawn_question("scale_by_yield", 1).stem == ""


def test_unseen_scenes_come_first() -> None:
    """Whatever the seed, the one left unseen is drawn; where all were seen, the one seen longest ago."""
    ids = [scene.id for scene in PRACTICE.scenes]
    for seed in range(20):
        for left in ids:
            seen = [each for each in ids if each != left]
            assert draw_unseen("decide", seed, context(), seen).stem == left
        assert draw_unseen("decide", seed, context(), ids).stem == ids[0]
    assert draw_unseen("decide", 3, context()) == drawn_question("decide", 3)
    assert draw_unseen("scale_by_yield", 3, context(), ["", "x"]) == drawn_question("scale_by_yield", 3)


def test_each_way_of_asking_says_what_to_do() -> None:
    """Every kind of scene but a number ends with what is asked."""
    sentences = WORDS.families["decide"].sentences
    for seed in range(40):
        question = draw_question("decide", seed)
        assert question.answering == "number" or question.text.endswith(
            tuple(text for key, text in sentences.items() if key.startswith("ask_"))
        )
