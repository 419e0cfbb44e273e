"""Grading answers as cooks type them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.kitchen.quiz.asking import draw_question, question_from
from tests.printed import english
from trainer.kitchen.quiz.comparison import EqualRounded
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.grading import NO_KNOWN_METHOD, grade
from trainer.kitchen.quiz.question import Answer, Grade, Question, WrongMethod
from trainer.recipe_math.figures import number_text
from trainer.recipe_math.rounding import to_nearest


def asking(value: str, unit: str, tolerance: str, **wrong: str) -> Question:
    """Return a question with this key and these wrong values."""
    methods = tuple(WrongMethod(name, Fraction(text), f"You did {name}.") for name, text in wrong.items())
    return Question("made_up", 0, "How much?", Answer(Fraction(value), unit, Fraction(tolerance)), tuple, methods)


def problem_in(given: Grade) -> str:
    """Return why an answer is asked again, as the cook reads it."""
    assert given.problem is not None
    return english(given.problem)


def card() -> Question:
    """Return the sum of the Armed Forces card: 1.25 lb for 100 portions, 348 wanted."""
    numbers = {"amount_pounds": Fraction("1.25"), "old_portions": Fraction(100), "new_portions": Fraction(348)}
    question = question_from("scale_by_yield", numbers)
    assert question is not None
    return question


@pytest.mark.parametrize(
    "text",
    ["4.35", "4.35 lb", "4.35 pounds", "4 lb 5 1/2 oz", "69.6 oz", "1.973 kg", "1973 g", "4 7/20 lb", "87/20", "４.35"],
)
def test_a_right_answer_in_any_weight_is_right(text: str) -> None:
    """Any unit of weight will do, in fractions or mixed units; a bare number is in the question's unit.

    The card itself rounds 4.35 lb to 4 lb 5 1/2 oz (Armed Forces Recipe Service, A. General Information No. 1).
    """
    assert grade(card(), text, ".").is_right is True


@pytest.mark.parametrize("text", ["4,35", "4.35", "69,6 oz", "69.6 oz", "1,97 kg"])
@pytest.mark.parametrize("mark", [".", ",", None])
def test_a_comma_and_a_point_both_mark_decimals(text: str, mark: str | None) -> None:
    """Both are correct, whichever the kitchen writes: 22nd CGPM (2003), Resolution 10."""
    assert grade(card(), text, mark).is_right is True


def test_an_answer_is_told_back_as_the_kitchen_writes() -> None:
    """What was understood is written with the kitchen's own mark."""
    assert english(grade(card(), "4.35", ",").understood) == "4,35 lb"
    assert english(grade(card(), "4,35", ".").understood) == "4.35 lb"


@pytest.mark.parametrize(("text", "mark"), [("1,973 g", "."), ("1.973 g", ","), ("1,973 kg", ","), ("1.973 kg", ".")])
def test_the_kitchens_mark_settles_what_has_two_readings(text: str, mark: str) -> None:
    """1,973 g is a thousand or a decimal, as the kitchen writes: both come to 4.35 lb where read so."""
    assert grade(card(), text, mark).is_right is True


@pytest.mark.parametrize(("text", "mark"), [("1,973 g", ","), ("1.973 g", "."), ("1,973 kg", "."), ("1.973 kg", ",")])
def test_two_readings_are_settled_by_the_mark_alone_and_not_by_the_answer(text: str, mark: str) -> None:
    """The reading that would be right is not picked for the cook."""
    assert grade(card(), text, mark).is_right is False


def test_two_readings_are_asked_back() -> None:
    """Without a decimal mark 1,973 g can be two numbers: it is asked back, not guessed."""
    asked_back = grade(card(), "1,973 g")
    assert asked_back.is_right is None
    assert "1.973" in problem_in(asked_back)
    assert "1973" in problem_in(asked_back)


@pytest.mark.parametrize("wrong", card().wrong_methods, ids=lambda wrong: str(wrong.name))
def test_a_wrong_method_is_named(wrong: WrongMethod) -> None:
    """An answer made by a known wrong method names it and says what was done."""
    given = grade(card(), number_text(wrong.value, 3), ".")
    assert given.is_right is False
    assert given.method == wrong.name
    assert wrong.clause
    assert english(given.says).endswith(f" is what comes out if {english(wrong.clause)}.")


def test_another_wrong_number_has_no_name() -> None:
    """A wrong number that no known method gives is wrong, and nobody is told a method they did not use."""
    given = grade(card(), "17 lb")
    assert (given.is_right, given.method, given.says) == (False, None, NO_KNOWN_METHOD)


def test_a_number_two_methods_give_names_neither() -> None:
    """Where two wrong methods lie about one value, neither is named."""
    question = asking("10", "g", "1", added="20", doubled="21")
    assert grade(question, "20.5 g").method is None
    assert grade(question, "19 g").method == "added"


@pytest.mark.parametrize(
    ("text", "method"), [("107.3", "added"), ("107.33", "added"), ("107", "added"), ("107.6", None), ("106.8", None)]
)
def test_a_wide_step_names_a_method_by_its_own_figures_alone(text: str, method: str | None) -> None:
    """Where the step is a minute, a wrong method shows unrounded or rounded as asked, and not by what lies near it."""
    question = asking("40", "min", "1/2", added="322/3")
    narrow = replace(question, answer=replace(question.answer, step=Fraction(1), net=Fraction(1, 20)))
    assert grade(narrow, text, ".").method == method


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "NaN", "nan", "inf", "Infinity", "1/0", "-2 g", "-4.35", "a pinch", "🍝", "4.35 🍝", "1e3", "0x10",
        "1_000", "two", "4 or 5", "4-5 lb", "4.35 lbz", "²", "٣ lb", "lb", "4.35 lb lb", "<script>", "4..35", "\x00",
    ],
)  # fmt: skip
def test_what_is_no_quantity_is_asked_again(text: str) -> None:
    """What cannot be read is never graded wrong: the answer is asked for again, with the reason."""
    given = grade(card(), text, ".")
    assert given.is_right is None
    assert given.method is None
    assert given.problem


@pytest.mark.parametrize(
    ("unit", "says"),
    [
        ("lb", "write a weight or a volume"),
        ("mL", "write a weight or a volume"),
        ("°C", "write the degrees"),
        ("°F difference", "write the degrees"),
        ("min", "write minutes, hours or days"),
        ("mm", "that is no length"),
        ("%", "write the percent"),
        ("$", "that is no amount of money"),
        ("each", "write how many"),
        ("portion", "write how many"),
    ],
)
def test_what_cannot_be_measured_is_asked_again_for_what_the_question_asks(unit: str, says: str) -> None:
    """A pinch in place of a temperature sends nobody to a scale: the words name the quantity that is asked."""
    assert says in problem_in(grade(asking("60", unit, "1"), "a pinch", "."))
    for_nothing = problem_in(grade(asking("60", unit, "1"), "no idea", "."))
    assert "there is no number in it" in for_nothing
    assert ("2 cups" in for_nothing) is (unit in {"lb", "mL"})


def test_ten_megabytes_are_asked_again() -> None:
    """A text nobody typed is refused by its length, and not repeated back."""
    for question in (card(), asking("60", "°C", "1/2")):
        given = grade(question, "9" * 10_000_000, ".")
        assert given.is_right is None
        assert len(problem_in(given)) < 300


@pytest.mark.parametrize(
    ("unit", "text", "words"),
    [
        ("lb", "2 cups", "That is a volume; the question asks for a weight."),
        ("mL", "500 g", "That is a weight; the question asks for a volume."),
        ("min", "3 cases", "That is a count; the question asks for a time."),
        ("°C", "40 °F difference", "That is a difference of temperatures; the question asks for a temperature."),
        ("°C", "5 min", "That is a time; the question asks for a temperature."),
        ("%", "$4", "That is an amount of money; the question asks for a percentage."),
        ("case", "65 %", "That is a percentage; the question asks for a count."),
        ("kg", "12 cm", "That is a length; the question asks for a weight."),
    ],
)
def test_another_kind_has_its_own_words(unit: str, text: str, words: str) -> None:
    """A volume for a weight is no wrong sum: it is said so, and asked again."""
    given = grade(asking("10", unit, "1"), text, ".")
    assert given.is_right is None
    assert problem_in(given) == words


@pytest.mark.parametrize(
    ("food", "unit", "text", "says"),
    [
        ("semolina", "g", "1 cup", "1 cup of semolina weighs 167 g (USDA SR26)."),
        ("butter", "lb", "2 cups", "1 cup of butter weighs 227 g (USDA SR26)."),
        ("milk", "mL", "500 g", "1 cup of milk weighs 244 g (USDA SR26)."),
        ("moon dust", "g", "1 cup", ""),
        ("semolina", "g", "5 min", ""),
    ],
)
def test_a_volume_for_a_weight_is_told_what_a_cup_weighs(food: str, unit: str, text: str, says: str) -> None:
    """Where a cup of the food was weighed, that is said: semolina 167 g (USDA SR26, 2013, NDB 20466), butter 227 g
    (NDB 01145), whole milk 244 g (NDB 01077); for a time, or a food nobody weighed, the plain words stay.
    """
    given = grade(replace(asking("10", unit, "1"), food=food, food_word=food), text, ".")
    assert given.is_right is None
    assert problem_in(given).partition(". ")[2] == says


def test_a_drawn_question_knows_its_food() -> None:
    """A question about butter tells the cook who answers in cups what a cup of butter weighs."""
    numbers = {"amount_pounds": Fraction("1.25"), "old_portions": Fraction(100), "new_portions": Fraction(348)}
    question = question_from("scale_by_yield", numbers, {"food": "butter"})
    assert question is not None
    assert "227 g" in problem_in(grade(question, "9 cups", "."))


def test_figures_decide_where_the_question_says_so() -> None:
    """With three figures 1.8 s is right as 1.80 or 1.804, not as 1.81; a wrong method is known the same way."""
    question = asking("1.8", "s", "0.01", added="180.2")
    question = replace(question, answer=replace(question.answer, rounded=EqualRounded("significantFigures", 3)))
    assert [grade(question, text, ".").is_right for text in ("1.80", "1.804", "1.81")] == [True, True, False]
    assert grade(question, "180", ".").method == "added"
    assert grade(question, "181", ".").method is None


@pytest.mark.parametrize(
    ("unit", "value", "text", "understood"),
    [
        ("case", "28", "28", "28 cases"),
        ("case", "1", "1 case", "1 case"),
        ("portion", "85", "85 nests", "85 portions"),
        ("each", "9", "9 pieces", "9 pieces"),
        ("each", "1", "1", "1 piece"),
        ("each", "12", "1 dozen", "12 pieces"),
        ("min", "135", "2 h 15 min", "135 min"),
        ("min", "135", "2 1/4 hours", "135 min"),
        ("days", "3", "3 days", "3 days"),
        ("%", "65", "65 percent", "65 %"),
        ("°C", "-18", "-18", "-18 °C"),
        ("°C", "63", "63 c", "63 °C"),
        ("°C", "63", "145.4f", "63 °C"),
        ("°F", "145.4", "63 °C", "145.4 °F"),
        ("°C difference", "20", "20 °C", "20 °C"),
        ("°C difference", "20", "36 F", "20 °C"),
        ("°C difference", "20", "20", "20 °C"),
        ("mL", "500", "½ L", "500 mL"),
        ("lb", "0", "0", "0 lb"),
    ],
)
def test_answers_are_read_in_the_unit_asked_for(unit: str, value: str, text: str, understood: str) -> None:
    """The answer is shown back as it was read: any counted thing is a count, degrees of a rise are a difference."""
    given = grade(asking(value, unit, "0"), text, ".")
    assert english(given.understood) == understood
    assert given.is_right is True


@pytest.mark.parametrize(
    ("key", "answer", "tolerance", "accepted"),
    [
        ("480", "485", "5", True),
        ("480", "475", "5", True),
        ("480", "485.01", "5", False),
        ("480", "474.99", "5", False),
        ("4.136", "4.3428", "0.2068", True),  # five percent of the key, as in the relative rows
        ("4.136", "4.3429", "0.2068", False),
        ("4.136", "3.9292", "0.2068", True),
    ],
)
def test_both_ends_of_the_tolerance_are_right(key: str, answer: str, tolerance: str, accepted: bool) -> None:
    """An absolute tolerance includes its ends, in exact arithmetic.

    Rows of graded values after the `equal` examples of QTI 3.0 (tolerance 5 about 480; 5 % of 4.136 is 0.2068).
    """
    given = grade(asking(key, "g", tolerance), answer, ".")
    assert given.is_right is accepted


@pytest.mark.parametrize(
    ("key", "step", "answer"),
    [
        ("0.0123449", "0.0001", "0.0123"),
        ("0.01235", "0.0001", "0.0124"),
        ("999.5", "1", "1000"),
        ("3.25", "0.1", "3.3"),
    ],
)
def test_half_a_step_of_tolerance_takes_what_is_rounded_to_the_step(key: str, step: str, answer: str) -> None:
    """A value rounded half up to the step asked for is right (rows after `equal-rounded` of QTI 3.0)."""
    assert grade(asking(key, "g", str(Fraction(step) / 2)), answer, ".").is_right is True


def test_a_wrong_sum_is_never_rounded_up_to_right() -> None:
    """79.59 is not 80 where nothing is rounded (the decision of CLI-97-10 on 78 of 98)."""
    assert grade(asking("79.59", "%", "0"), "80", ".").is_right is False


def as_asked(answer: Answer) -> Fraction:
    """Return the key rounded as finely as the question asks."""
    if answer.rounded is not None:
        return answer.rounded.rounded(answer.value)
    return to_nearest(answer.value, answer.step) if answer.step else answer.value


@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_right_answers_and_wrong_methods_come_back_as_such(name: str) -> None:
    """Over drawn questions the key is right, also rounded as asked, and each wrong value is named."""
    for seed in range(20):
        question = draw_question(name, seed)
        for value in (question.answer.value, as_asked(question.answer)):
            assert grade(question, number_text(value, 12), ".").is_right is True, question.text
        for wrong in question.wrong_methods:
            assert grade(question, number_text(wrong.value, 12), ".").method == wrong.name, question.text
