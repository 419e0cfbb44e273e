"""What an answer proves: the verdicts in their order, on sums small enough to do in the head."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.kitchen.quiz.asking import WORDS, context, question_from
from tests.kitchen.quiz.test_grading import asking, card
from tests.printed import english
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.showing_words import SLIPS, second_showing
from trainer.kitchen.quiz.slip_layer import slips_of
from trainer.messages import translate
from trainer.store.catalogues import translations


def to_the_step(value: str, unit: str, step: str, **wrong: str) -> Question:
    """Return a question whose answer is asked for to a step."""
    question = asking(value, unit, str(Fraction(step) / 2), **wrong)
    return replace(question, answer=replace(question.answer, step=Fraction(step)))


def verdict(question: Question, text: str) -> tuple[str, str | None]:
    """Return the verdict on an answer and the name of what shows."""
    given = grade(question, text, ".")
    return given.verdict, given.name


@pytest.mark.parametrize("text", ["0.76", "0.7645", ".5", "1", "3/4"])
def test_a_bare_share_where_percent_is_asked_is_asked_again(text: str) -> None:
    """Whatever the value: a share and its percentage cannot be told apart until the sign is written."""
    given = grade(to_the_step("76.45", "%", "1/2"), text, ".")
    assert given.verdict == "asked_again"
    assert english(given.problem or "").endswith("Write the percent.")
    assert english(grade(to_the_step("76.45", "%", "1/2"), "0.76", ".").problem or "") == (
        "Is that 0.76 %? Write the percent."
    )


def test_a_share_with_the_sign_is_a_slip() -> None:
    """0.7645 % is a hundredth of what is meant, and was written so."""
    assert verdict(to_the_step("76.45", "%", "1/2"), "0.7645 %") == ("slip", "slip_share")
    assert verdict(to_the_step("76.45", "%", "1/2"), "76.5 %") == ("right", None)


@pytest.mark.parametrize(
    ("text", "is_right"),
    [("430", True), ("434.5", True), ("427.5", True), ("435", False), ("427", False)],
)
def test_half_a_step_or_the_same_step_is_right(text: str, is_right: bool) -> None:
    """432 g to the nearest 5 g: the ends of 429.5 to 434.5 are in, and what is read on the same mark, 430."""
    assert grade(to_the_step("432", "g", "5"), text, ".").is_right is is_right


def test_the_safe_side_has_more_room() -> None:
    """Thrown out five minutes early is right, a minute late is not."""
    numbers = {"starts_at": Fraction(600), "minutes_gone": Fraction(100), "limit_hours": Fraction(4)}
    question = question_from("discard_time", numbers)
    assert question is not None
    given = {text: grade(question, text).is_right for text in ("140", "135", "134", "141", "2 h 20 min")}
    assert given == {"140": True, "135": True, "134": False, "141": False, "2 h 20 min": True}


def test_what_is_rounded_on_the_way_is_said_so() -> None:
    """6 kg at 57 % are 10.526 kg before the heat, shown as 10.53; over 0.61 that is 17.262 kg and not 17.256."""
    numbers = {"ready_kilograms": Fraction(6), "trimmed_percent": Fraction(61), "cooked_percent": Fraction(57)}
    question = question_from("two_step_yield", numbers)
    assert question is not None
    coarse = replace(question.answer, tolerance=Fraction(1, 1000), step=Fraction(2, 1000))
    assert verdict(replace(question, answer=coarse), "17.262") == ("rounded_early", "rounds_too_early")
    assert verdict(replace(question, answer=coarse), "17.256") == ("right", None)


def test_a_rule_of_thumb_may_be_rounded_on_the_way() -> None:
    """45 mm over 35 mm is 1.29: 60 min × 1.29² is 99.8 min, where the sum to the end is 99.2."""
    numbers = {"old_minutes": Fraction(60), "old_millimetres": Fraction(35), "new_millimetres": Fraction(45)}
    question = question_from("thickness_time", numbers)
    assert question is not None
    assert grade(question, "100").is_right
    assert grade(question, "99").is_right
    assert grade(question, "102").is_right is False


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("43.5", "slip_point"),
        ("0.435", "slip_point"),
        ("4350", "slip_x1000"),
        ("69.6", "slip_x16"),
        ("4.55", "slip_lb_oz"),
        ("4.055", "slip_lb_oz"),
        ("4.35 kg", "slip_unit"),
    ],
)
def test_a_slip_has_its_name(text: str, name: str) -> None:
    """4.35 lb is 4 lb 5 1/2 oz and 69.6 oz (Armed Forces Recipe Service, A. General Information No. 1)."""
    given = grade(card(), text, ".")
    assert (given.verdict, given.name, given.method) == ("slip", name, None)
    assert english(given.says).endswith(f" is what comes out if {english(SLIPS[name].once)}.")


@pytest.mark.parametrize(
    ("value", "unit", "step", "text", "name"),
    [
        ("147", "min", "1", "2.27", "slip_clock"),
        ("147", "min", "1", "2.27 h", "slip_clock"),
        ("147", "min", "1", "8820", "slip_x60"),
        ("150", "s", "1", "2.30 min", "slip_clock"),
        ("2.5", "min", "0.1", "2.30", "slip_clock"),
        ("12.5", "$", "0.01", "1250", "slip_x100"),
        ("12.5", "cm", "0.1", "0.125", "slip_x100"),
        ("108", "oz", "1/4", "6.12 lb", "slip_lb_oz"),
        ("57", "°C", "1/2", "57 °F", "slip_unit"),
    ],
)
def test_slips_of_clock_money_and_length(value: str, unit: str, step: str, text: str, name: str) -> None:
    """2 h 27 min written as 2.27, 2 min 30 s as 2.30, cents for dollars, meters for centimeters, 6 lb 12 oz as 6.12."""
    assert verdict(to_the_step(value, unit, step), text) == ("slip", name)


def test_a_wrong_method_wins_over_a_slip() -> None:
    """What the family knows is named; a slip within two tolerances of it is no slip."""
    assert verdict(to_the_step("4", "lb", "1/8", added="40"), "40") == ("method", "added")
    assert verdict(to_the_step("4", "lb", "1/8", added="39.5"), "40") == ("unknown", None)


def test_two_slips_that_fit_name_neither() -> None:
    """1 h 1 min written as 1.01 and 61 min taken for seconds, 61 / 60, lie too near each other."""
    question = to_the_step("61", "min", "1")
    assert verdict(question, "1.012") == ("unknown", None)


def test_nothing_has_no_slips() -> None:
    """Ten times nothing is nothing."""
    assert verdict(asking("0", "min", "0"), "5") == ("unknown", None)


def test_a_number_of_the_question_is_a_copy() -> None:
    """It is told to the teacher alone: the cook reads what any wrong answer says."""
    question = replace(to_the_step("432", "g", "5"), numbers=(Fraction(350),))
    assert verdict(question, "350") == ("copied", "copied")
    assert verdict(question, "0.35 kg") == ("copied", "copied")
    assert grade(question, "350").says == grade(question, "351").says
    assert verdict(replace(question, off=("copied",)), "350") == ("unknown", None)


def test_a_slip_may_be_off_in_a_family() -> None:
    """Where other errors would meet it by accident."""
    question = to_the_step("432", "g", "5")
    assert {"slip_point", "slip_x1000"} == {slip.name for slip in slips_of(question)}
    assert {"slip_x1000"} == {slip.name for slip in slips_of(replace(question, off=("slip_point",)))}


def test_the_first_showing_speaks_of_the_number() -> None:
    """Nobody is told what they did from one answer."""
    numbers = {"edible_kilograms": Fraction("5.2"), "edible_percent": Fraction(80)}
    question = question_from("amount_to_buy", numbers)
    assert question is not None
    assert english(grade(question, "5.2").says) == "5.2 kg is what comes out if the loss is left out."


def test_the_second_showing_speaks_of_the_cook() -> None:
    """With both figures, and what to do next; in each language."""
    clauses = WORDS.clauses("amount_to_buy", "loss_forgotten")
    said = second_showing(clauses.twice, "5.2 kg", "3.9 kg")
    assert english(said) == "Twice the loss was left out: 5.2 kg and 3.9 kg. See one worked, then go on."
    slip = second_showing(WORDS.clauses("amount_to_buy", "slip_point").twice, "52 kg", "39 kg")
    assert english(slip).startswith("Twice the decimal point stood one place off: 52 kg and 39 kg.")
    assert translate(slip, translations("es")).startswith(
        "Dos veces el punto decimal quedó un lugar corrido: 52 kg y 39 kg."
    )


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_every_method_has_its_clauses(name: str, language: str) -> None:
    """One for "if" and one for "twice", without a full stop and not speaking to anyone."""
    words = context(language=language).words
    for method in NUMERIC[name].wrong:
        once, twice = words.clauses(name, method)
        assert once
        assert twice
        assert once != twice
        assert not english(once).endswith(".")
        assert "you" not in english(once).lower().split()
