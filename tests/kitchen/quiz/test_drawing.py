"""Drawing: kept seeds, settings of a technique, sittings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from tests.kitchen.quiz.asking import context, draw_question, draw_sitting, drawn_question, question_from
from trainer.kitchen.quiz.drawing import DRAWER, CannotDraw, setting_problems
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.technique import Edition, QuestionSetting, Technique

Span = tuple[Fraction, Fraction, Fraction]


def span(low: str, high: str, step: str) -> Span:
    return Fraction(low), Fraction(high), Fraction(step)


def setting(
    family: str = "portions_from_batch",
    ranges: Mapping[str, Span] | None = None,
    words: Mapping[str, str] | None = None,
    count: int = 1,
) -> QuestionSetting:
    """Return a setting; words as a content file writes them, the alternatives between bars."""
    lists = {slot: tuple(text.split("|")) for slot, text in (words or {}).items()}
    return QuestionSetting(family, lists, ranges or {}, count)


def technique(*questions: QuestionSetting) -> Technique:
    """Return a technique with these questions and nothing else."""
    edition = Edition(1, date(2025, 3, 1), "First edition.", sign_offs_hold=True)
    return Technique(
        id="nesting",
        title="Nesting",
        goal="",
        editions=(edition,),
        words=(),
        standard=(),
        standard_text=(),
        tools=(),
        steps=(),
        faults=(),
        hazards=(),
        allergens=(),
        checklist=(),
        sources=(),
        scored_needed=0,
        questions=questions,
        need_right=1,
        quiz_months=12,
        sign_off_months=12,
    )


NARROW = setting(ranges={"batch_pounds": span("8", "16", "1/2")}, words={"food": "durum strands"})


@pytest.mark.parametrize("name", sorted(FAMILIES))
def test_the_same_seed_gives_the_same_question(name: str) -> None:
    """Family, seed and setting make the question; nothing else does."""
    assert drawn_question(name, 7) == drawn_question(name, 7)
    assert drawn_question(name, 7).asks != drawn_question(name, 8).asks
    assert draw_question(name, 7) == draw_question(name, 7)
    assert draw_question(name, 7) != draw_question(name, 8)


def test_a_setting_that_changes_nothing_draws_as_none_does() -> None:
    """A technique that sets no word and no range has the questions of the family itself."""
    assert draw_question("date_mark", 3, setting("date_mark", count=4)) == draw_question("date_mark", 3)


def test_the_question_of_a_kept_seed_stays() -> None:
    """When a seed gives other numbers or picks the edition must go up: these were written down at edition 6."""
    assert DRAWER == 6
    held = drawn_question("discard_time", 1)
    assert held.numbers == {"starts_at": 14 * 60 + 5, "minutes_gone": 90, "limit_hours": 4}
    assert held.words == {"food": 5}
    steps = drawn_question("order_steps", 1)
    assert steps.numbers == {"asks": 1}
    assert steps.words == {}
    assert steps.picks == (("toss",), ("taste", "boil", "drop"), ("boil", "taste", "drop", "plate"))
    assert draw_question("discard_time", 1).text == (
        "Pilaf left the heat at 14:05. Your kitchen holds it by time alone: 4 hours, then out. It is 15:35. "
        "How many minutes are left until it must be thrown out? Answer to the nearest minute. "
        "This is a practice sum: your local code decides."
    )


def test_a_setting_draws_from_its_own_ranges_and_words() -> None:
    """Ranges and words of a technique take the place of the family's."""
    for seed in range(40):
        text = draw_question("portions_from_batch", seed, NARROW).text
        pounds = Fraction(text.split("weighs ")[1].split(" lb")[0])
        assert text.startswith("A batch of durum strands weighs ")
        assert 8 <= pounds <= 16


def test_the_order_of_ranges_in_a_file_does_not_matter() -> None:
    """Moving a line in a content file changes no question."""
    one, other = ("batch_pounds", span("8", "16", "1/2")), ("loss_percent", span("2", "10", "1"))
    first = draw_question("portions_from_batch", 5, setting(ranges=dict([one, other])))
    assert first == draw_question("portions_from_batch", 5, setting(ranges=dict([other, one])))


def test_a_range_may_hold_one_value_and_leave_its_last_step_short() -> None:
    """Both ends count; a step that does not reach the highest value stops short of it."""
    fixed = setting(ranges={"batch_pounds": span("20", "20", "1"), "loss_percent": span("14", "19", "3")})
    texts = {draw_question("portions_from_batch", seed, fixed).text for seed in range(60)}
    assert all("weighs 20 lb." in text for text in texts)
    assert {text.split("lose ")[1].split(" %")[0] for text in texts} == {"14", "17"}


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (setting("no_such_family"), "no_such_family"),
        (setting(ranges={"batch_stones": span("1", "2", "1")}), "batch_stones"),
        (setting(words={"fod": "dough"}), "fod"),
        (setting(ranges={"batch_pounds": span("9", "8", "1")}), "batch_pounds"),
        (setting(ranges={"batch_pounds": span("8", "9", "0")}), "batch_pounds"),
        (setting(ranges={"portion_ounces": span("400", "500", "1")}), "fitted"),
        (setting("scale_by_yield", ranges={"old_portions": span("0", "0", "1")}), "fitted"),
        (setting("amount_to_buy", ranges={"edible_percent": span("100", "100", "1")}), "fitted"),
    ],
)
def test_a_setting_that_cannot_be_drawn_is_refused_and_explained(given: QuestionSetting, says: str) -> None:
    """What is wrong with a setting is said in the words of the content file, and drawing from it raises CannotDraw."""
    with pytest.raises(CannotDraw, match=says):
        draw_question(given.family, 1, given)
    problems = setting_problems(given, context())
    assert len(problems) == 1
    assert says in problems[0]


def test_all_problems_of_a_setting_are_told_at_once() -> None:
    """Three mistakes are three sentences."""
    given = setting(ranges={"batch_stones": span("1", "2", "1")}, words={"fod": "dough"}, count=0)
    assert len(setting_problems(given, context())) == 3


def test_a_word_for_a_family_without_ranges_of_that_name_lists_what_there_is() -> None:
    """The names that do exist are listed."""
    (problem,) = setting_problems(setting(words={"fod": "dough"}), context())
    assert problem == "There is no word 'fod'. There are: food, work."


def test_a_good_setting_has_no_problems() -> None:
    """Nothing to fix, nothing said; every family can be drawn as it comes."""
    assert setting_problems(NARROW, context()) == ()
    assert all(setting_problems(setting(name, count=10), context()) == () for name in FAMILIES)


def test_a_sitting_asks_each_setting_in_order_as_often_as_it_says() -> None:
    """Settings come in their order, each as often as its count, and no question twice."""
    questions = draw_sitting(technique(replace(NARROW, count=3), setting("date_mark", count=5)), 42)
    assert [question.family for question in questions] == ["portions_from_batch"] * 3 + ["date_mark"] * 5
    assert len({question.text for question in questions}) == 8


def test_another_seed_is_another_sitting() -> None:
    """A cook who sits again gets other questions; the same seed gives the same sitting."""
    nesting = technique(replace(NARROW, count=3))
    assert draw_sitting(nesting, 1) == draw_sitting(nesting, 1)
    assert not {q.text for q in draw_sitting(nesting, 1)} & {q.text for q in draw_sitting(nesting, 2)}


def test_a_question_of_a_sitting_can_be_drawn_again_by_its_own_seed() -> None:
    """The seed kept with each answer redraws that very question from its setting."""
    for question in draw_sitting(technique(replace(NARROW, count=4)), 9):
        assert draw_question(question.family, question.seed, NARROW) == question


def one_of_two() -> QuestionSetting:
    """Return a setting with just two questions in it."""
    ranges = {
        "batch_pounds": span("20", "20", "1"),
        "loss_percent": span("15", "16", "1"),
        "portion_ounces": span("3", "3", "1"),
    }
    return setting(ranges=ranges, words={"food": "gnocchi"}, count=2)


def test_a_sitting_asks_no_question_twice_even_of_a_narrow_setting() -> None:
    """Two questions there are, two are asked, both different; a third cannot be drawn."""
    narrow = one_of_two()
    first, second = draw_sitting(technique(narrow), 5)
    assert first.text != second.text
    with pytest.raises(CannotDraw, match="too few"):
        draw_sitting(technique(replace(narrow, count=3)), 5)
    assert "too few" in setting_problems(replace(narrow, count=3), context())[0]


def test_given_numbers_that_do_not_fit_make_no_question() -> None:
    """A recipe for as many portions as it makes is no question."""
    numbers = {"amount_pounds": Fraction(2), "old_portions": Fraction(50), "new_portions": Fraction(50)}
    assert question_from("scale_by_yield", numbers) is None


def test_given_numbers_take_given_words() -> None:
    """A question made from given numbers says the first of each word, or the words given."""
    numbers = {"amount_pounds": Fraction("1.25"), "old_portions": Fraction(100), "new_portions": Fraction(348)}
    plain, spoken = question_from("scale_by_yield", numbers), question_from("scale_by_yield", numbers, {"food": "salt"})
    assert plain is not None
    assert spoken is not None
    assert "takes 1 lb 4 oz of carrots" in plain.text
    assert "takes 1 lb 4 oz of salt" in spoken.text


def test_a_limit_of_the_local_code_can_be_set() -> None:
    """A kitchen whose code allows six hours by time alone asks with six hours."""
    six = setting("discard_time", ranges={"limit_hours": span("6", "6", "1")})
    question = draw_question("discard_time", 4, six)
    assert "6 hours, then out" in question.text
    assert question.answer.value > 120


def test_a_freezer_may_be_below_zero() -> None:
    """Temperatures may be negative, and so may what a wrong method makes of them."""
    cold = setting("temperature_conversion", ranges={"fahrenheit": span("-20", "-2", "1")})
    question = draw_question("temperature_conversion", 4, cold)
    assert question.answer.value < 0
    assert len(question.wrong_methods) == 5
