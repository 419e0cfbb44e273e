"""What a content folder gives when it is read: records, words with their numbers filled in, the house's own lines."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from tests.store.small_kitchen import WORDS, change, small_kitchen
from trainer.content.files import load_content
from trainer.content.limits import duration_text, limit_text
from trainer.kitchen.technique import Content, Technique
from trainer.recipe_math.parsing import parse_quantity

STRUCTURE = "techniques/rolling/technique.yaml"
CODE = "kitchen_code.yaml"


def loaded(folder: Path, units_first: str = "us", language: str = "en") -> Content:
    """Return the content of a folder that has no fault."""
    content, problems = load_content(folder, language, "metric" if units_first == "metric" else "us")
    assert problems == ()
    assert content is not None
    return content


@pytest.fixture
def rolling(tmp_path: Path) -> Technique:
    """Return the one technique of the small kitchen."""
    return loaded(small_kitchen(tmp_path)).techniques["rolling"]


def test_a_brace_prints_a_target_both_ways_with_what_it_may_give_or_take(rolling: Technique) -> None:
    """4 oz is 113.398 g and 0.2 oz is 5.67 g (NIST SP 811, Appendix B: 1 oz = 28.349523125 g)."""
    assert rolling.standard_text[0] == "One sheet weighs 4 oz (113 g), give or take 0.2 oz (6 g)."


def test_a_kitchen_that_reads_metric_first_gets_grams_first(tmp_path: Path) -> None:
    """The setting of the kitchen says which system stands first; both are shown."""
    technique = loaded(small_kitchen(tmp_path), "metric").techniques["rolling"]
    assert technique.standard_text[0] == "One sheet weighs 113 g (4 oz), give or take 6 g (0.2 oz)."


def test_a_time_is_printed_in_hours_and_minutes(rolling: Technique) -> None:
    """A span of times reads as a cook says it."""
    assert rolling.standard_text[1] == "It rests from 30 minutes to 2 hours."


def test_a_target_alone_prints_without_words_around_it(rolling: Technique) -> None:
    """68 °F is exactly 20 °C (definition of the scales)."""
    assert rolling.standard_text[2] == "The bench is about 68 °F (20 °C)."


def test_a_line_of_the_code_prints_as_the_house_sets_it(rolling: Technique) -> None:
    """{code.hot_holding} is the line the kitchen works to: 140 °F is exactly 60 °C."""
    assert rolling.checklist[2].text == "The sauce stands at or above 140 °F (60 °C)."


def test_a_step_and_a_point_may_name_their_own_figures(rolling: Technique) -> None:
    """{seconds}, {pieces} and {pieces_inside} come from the step or the point itself."""
    assert rolling.steps[1].text == "Wait 1 minute 30 seconds."
    assert rolling.checklist[1].text.startswith("4 of 5 sheets")


def test_work_is_held_to_the_houses_lines_and_those_it_names(tmp_path: Path) -> None:
    """A figure of another person's stands apart from the standard until a step, a caution or a point names it."""
    folder = small_kitchen(tmp_path)
    change(folder, STRUCTURE, "{target: 68 F, source: house}", "{target: 68 F, source: town_code}")
    apart = loaded(folder).techniques["rolling"]
    assert [limit.id for limit, _ in apart.held_to] == ["sheet_weight", "rest"]
    assert apart.other_figures == ("The bench is about 68 °F (20 °C).",)
    change(folder, "techniques/rolling/en.yaml", "do: Roll from the middle.", 'do: "Roll at {bench}."')
    named = loaded(folder).techniques["rolling"]
    assert [limit.id for limit, _ in named.held_to] == ["sheet_weight", "rest", "bench"]
    assert named.other_figures == ()


@pytest.mark.parametrize(
    ("line", "seconds"),
    [("target: 90 s, give_or_take: 5 s", 90), ("lowest: 2 min", 120), ("lowest: 1/2 h, highest: 1 h", 1800)],
)
def test_a_timed_step_lasts_as_long_as_the_line_it_names(tmp_path: Path, line: str, seconds: int) -> None:
    """The timer runs to the target of a line, or at least to its lowest value; so this number has a source too."""
    folder = small_kitchen(tmp_path)
    change(folder, "local_code/town.yaml", "target: 90 s", line)
    assert loaded(folder).techniques["rolling"].steps[1].seconds == seconds


def test_a_timed_step_may_last_as_long_as_a_line_of_its_own_technique(tmp_path: Path) -> None:
    """The house's own line is named like one of the local code: `rest` is 30 minutes or more."""
    folder = small_kitchen(tmp_path)
    change(folder, STRUCTURE, "lasts: code.pause", "lasts: rest")
    assert loaded(folder).techniques["rolling"].steps[1].text == "Wait 30 minutes."


def test_a_step_may_time_each_of_several_things(tmp_path: Path) -> None:
    """A list of lines is a timer each, to its target or its lowest value, told in the line's own sentence."""
    folder = small_kitchen(tmp_path)
    change(folder, STRUCTURE, "lasts: code.pause", "lasts: [rest, pin]")
    change(folder, STRUCTURE, "  bench: {target", "  pin: {target: 45 s, source: house}\n  bench: {target")
    change(folder, "techniques/rolling/en.yaml", "  bench: ", '  pin: "The pin rests {pin}."\n  bench: ')
    change(folder, "techniques/rolling/en.yaml", 'do: "Wait {seconds}."', "do: Wait.")
    step = loaded(folder).techniques["rolling"].steps[1]
    assert [(timer.line, timer.seconds, timer.text) for timer in step.timers] == [
        ("rest", 1800, "It rests from 30 minutes to 2 hours."),
        ("pin", 45, "The pin rests 45 seconds."),
    ]
    assert step.seconds is None


@pytest.mark.parametrize(
    ("lasts", "problem"),
    [
        ("[rest]", "fewer than two lines"),
        ("[]", "fewer than two lines"),
        ("[rest, code.pause]", "code.pause has no sentence"),
        ("[rest, bench]", "lasts 68 °F"),
        ("[rest, rset]", "'rset'"),
    ],
)
def test_a_timer_that_cannot_be_told_apart_is_a_problem(tmp_path: Path, lasts: str, problem: str) -> None:
    """Each of several timers is a time with a sentence of its own in the standard."""
    folder = small_kitchen(tmp_path)
    change(folder, STRUCTURE, "lasts: code.pause", f"lasts: {lasts}")
    change(folder, "techniques/rolling/en.yaml", 'do: "Wait {seconds}."', "do: Wait.")
    _, problems = load_content(folder)
    assert [each for each in problems if problem in each.message], problems


def test_a_point_carries_the_line_it_is_judged_by(rolling: Technique) -> None:
    """4 oz give or take 0.2 oz lets in 3.8 and 4.2 oz, and neither 3.7 nor 4.3 oz."""
    limit = rolling.checklist[1].limit
    assert limit is not None
    inside = [limit.admits(parse_quantity(text)) for text in ("3.7 oz", "3.8 oz", "4.2 oz", "4.3 oz")]
    assert inside == [False, True, True, False]


def test_the_structure_is_read_in_its_own_order(rolling: Technique) -> None:
    """Editions, steps and points come as they stand in the file."""
    assert [(e.number, e.since, e.sign_offs_hold) for e in rolling.editions] == [
        (1, date(2025, 3, 1), True),
        (2, date(2025, 9, 1), False),
    ]
    assert [step.id for step in rolling.steps] == ["roll", "wait"]
    assert [(point.id, point.critical) for point in rolling.checklist] == [
        ("guard_on", True),
        ("weights", False),
        ("kept_hot", True),
    ]
    assert (rolling.need_right, rolling.asked, rolling.quiz_months, rolling.sign_off_months) == (3, 3, 12, 12)


def test_an_edition_names_the_points_it_lets_pass_no_more(tmp_path: Path) -> None:
    """As they stand in the file; an edition that names none lets every sign-off hold."""
    folder = small_kitchen(tmp_path)
    change(
        folder, STRUCTURE, "A new pin., sign_offs_hold: no", "A pin., sign_offs_hold: yes, unless_missed: [kept_hot]"
    )
    editions = loaded(folder).techniques["rolling"].editions
    assert [edition.unless_missed for edition in editions] == [(), ("kept_hot",)]


def test_the_caution_stands_with_the_step_it_guards(rolling: Technique) -> None:
    """A step names its hazards, and the hazard carries the caution."""
    assert rolling.steps[0].hazards == ("rollers",)
    assert rolling.hazards[0].caution == "Keep fingers away from the rollers."


def test_a_range_is_read_as_lowest_highest_and_step(tmp_path: Path) -> None:
    """A range written as 2 to 12 step 1/2 is exact."""
    folder = small_kitchen(tmp_path)
    change(folder, STRUCTURE, "count: 3}", "count: 3, ranges: {amount_pounds: 2 to 12 step 1/2}}")
    (setting,) = loaded(folder).techniques["rolling"].questions
    assert setting.ranges["amount_pounds"] == (Fraction(2), Fraction(12), Fraction(1, 2))


def test_a_range_may_be_a_limit_of_the_code(tmp_path: Path) -> None:
    """A question about a limit follows the kitchen's own line, in the unit the range is named after."""
    folder = small_kitchen(tmp_path)
    change(
        folder,
        STRUCTURE,
        "count: 3}",
        "count: 3}\n  - {family: cooling_stage, count: 1, ranges: {last_fahrenheit: code.cold_holding}}",
    )
    settings = loaded(folder).techniques["rolling"].questions
    assert settings[1].ranges["last_fahrenheit"] == (Fraction(41), Fraction(41), Fraction(1))


def test_another_language_is_read_where_there_is_one(tmp_path: Path) -> None:
    """Words come from <language>.yaml; a technique without such a file is taught in English."""
    folder = small_kitchen(tmp_path)
    spanish = WORDS.replace("title: Rolling", "title: Estirar")
    (folder / "techniques/rolling/es.yaml").write_text(spanish, encoding="utf-8")
    told = [loaded(folder, language=language).techniques["rolling"] for language in ("es", "de")]
    assert [(each.title, each.words_edition) for each in told] == [("Estirar", "es"), ("Rolling", "en")]


def test_a_stricter_line_of_the_house_stands_with_its_reason(tmp_path: Path) -> None:
    """The code keeps what was published beside it, in words."""
    code = loaded(small_kitchen(tmp_path)).code
    assert limit_text(code.limits["hot_holding"]) == "at or above 140 °F (60 °C)"
    assert code.overrides == (
        "Hot holding: at or above 140 °F (60 °C), in place of at or above 135 °F (57 °C) (Part 1). "
        "The window is drafty.",
    )


def test_a_laxer_line_stands_where_a_law_is_named(tmp_path: Path) -> None:
    """A local law may say otherwise than the model code; it has to be named."""
    folder = small_kitchen(tmp_path)
    change(folder, CODE, "lowest: 140 F,", "lowest: 130 F, law: town_code,")
    assert limit_text(loaded(folder).code.limits["hot_holding"]) == "at or above 130 °F (54 °C)"


@pytest.mark.parametrize("line", ["highest: 150 F", "target: 140 F", "lowest: 134 F, highest: 150 F"])
def test_a_line_that_leaves_an_end_open_is_laxer(tmp_path: Path, line: str) -> None:
    """A line that lets in anything the code keeps out is laxer, whatever shape it has."""
    folder = small_kitchen(tmp_path)
    change(folder, CODE, "lowest: 140 F", line)
    _, problems = load_content(folder)
    assert ["laxer than the code" in found.message for found in problems] == [True]


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (15, "15 seconds"),
        (60, "1 minute"),
        (90, "1 minute 30 seconds"),
        (3600, "1 hour"),
        (7200, "2 hours"),
        (86_400, "24 hours"),
        (604_800, "7 days"),
        (Fraction(1, 2), "0.5 seconds"),
        (0, "0 seconds"),
    ],
)
def test_a_time_is_said_in_the_units_a_cook_uses(seconds: int, said: str) -> None:
    """60 s are a minute and 3,600 s an hour (SI Brochure, 9th edition, Table 8); up to two days stay hours."""
    assert duration_text(seconds) == said
