"""Quantities and questions at the command line."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tests.store.small_kitchen import change, small_kitchen
from trainer.cli import trainer
from trainer.content.files import load_content
from trainer.kitchen.quiz.families import NUMERIC


def run(*args: str) -> Result:
    """Run the command line in this process."""
    return CliRunner().invoke(trainer, args)


def test_a_quantity_is_converted_exactly() -> None:
    """1 lb 2 oz is 18 ounces of 28.349523125 g each (NIST SP 811, 2008 edition, appendix B.8: avoirdupois ounce)."""
    result = run("quantity", "1 lb 2 oz", "--in", "g", "--json")
    record = json.loads(result.output)
    assert Fraction(record["exact"]) == 18 * Fraction("28.349523125")
    assert record["value"] == "510.29141625"
    assert record["unit"] == "g"


@pytest.mark.parametrize("text", ["NaN", "1/0 cup", "-2 g", "a pinch", "🍝", "1,500 g", "9" * 10_000, "2 cups g"])
def test_what_is_no_quantity_ends_in_one_plain_problem(text: str) -> None:
    """A text that cannot be used, or can be read two ways, exits 1 with the reason and no traceback."""
    result = run("quantity", "--json", "--", text)
    assert result.exit_code == 1
    assert set(json.loads(result.output)) == {"problem"}
    assert len(result.output) < 500


def test_a_volume_is_not_given_in_grams() -> None:
    """A cup is no weight until somebody says what is in it."""
    result = run("quantity", "2 cups", "--in", "g")
    assert result.exit_code == 1
    assert "Traceback" not in result.output


def test_questions_are_printed_one_object_a_line() -> None:
    """Each line has the question, its answer, the sum done right and the wrong methods with their values."""
    result = run("question", "scale_by_yield", "--seed", "7", "--count", "3", "--json")
    records = [json.loads(line) for line in result.output.splitlines()]
    assert [record["seed"] for record in records] == [7, 8, 9]
    for record in records:
        assert set(record) == {"family", "seed", "text", "answer", "solution", "wrong_methods"}
        assert set(record["answer"]) == {"value", "unit", "tolerance", "step"}
        assert all(set(wrong) == {"name", "value", "says"} for wrong in record["wrong_methods"])


def test_the_same_seed_draws_the_same_question() -> None:
    """A question can be printed again from its seed."""
    first, second = (run("question", "amount_to_buy", "--seed", "3", "--json").output for _ in range(2))
    assert first == second


def test_families_are_listed_with_their_outside_check() -> None:
    """One object a line: name, title, level, unit and what the family was checked against."""
    records = [json.loads(line) for line in run("families", "--json").output.splitlines()]
    assert len({record["name"] for record in records}) == len(records) > 40
    assert all(set(record) == {"name", "title", "level", "unit", "unit_rule", "outside_check"} for record in records)
    assert all(record["outside_check"] for record in records)
    assert "scale_by_yield: " in run("families").output


def test_a_family_that_is_named_shows_what_a_technique_may_set() -> None:
    """Ranges as a content file writes them, with what each means, and words with their alternatives."""
    printed = run("families", "ice_in_stock").output
    assert "    ice_kilograms: 1 to 8 step 1/4  (weight of the ice, in kilograms)\n" in printed
    assert "    food: stock|broth|" in printed
    (record,) = [json.loads(line) for line in run("families", "ice_in_stock", "--json").output.splitlines()]
    assert record["ranges"]["ice_kilograms"] == "1 to 8 step 1/4"
    assert set(record["words"]) == {"food"}


def test_a_family_that_is_not_there_is_named() -> None:
    """A wrong name is a wrong use, and the families there are stand beside it."""
    refused = run("families", "ice_in_soup")
    assert refused.exit_code == 2
    assert "no question family 'ice_in_soup'" in refused.output
    assert "ice_in_stock" in refused.output


@pytest.mark.parametrize("name", sorted(NUMERIC))
def test_what_is_printed_of_a_family_can_be_typed_in_a_content_file(tmp_path: Path, name: str) -> None:
    """The ranges printed are ranges the loader takes: nothing has to be guessed."""
    folder = small_kitchen(tmp_path)
    settings = json.loads(run("families", name, "--json").output)["ranges"]
    ranges = ", ".join(f"{key}: {typed}" for key, typed in settings.items())
    asked = f"family: {name}, count: 3, ranges: {{{ranges}}}}}"
    change(folder, "techniques/rolling/technique.yaml", "family: scale_by_yield, count: 3}", asked)
    assert load_content(folder)[1] == ()


def test_an_answer_is_graded() -> None:
    """The key of a drawn question is right; a wrong method comes back by its name, with what is said."""
    drawn = json.loads(run("question", "scale_by_yield", "--seed", "7", "--json").output)
    right = run("grade", "scale_by_yield", "--seed", "7", drawn["answer"]["value"], "--decimal-mark", ".", "--json")
    same = {"verdict": "right", "name": None, "says": "Right."}
    assert json.loads(right.output) == {**same, "right": True, "method": None}
    wrong = drawn["wrong_methods"][0]
    given = run("grade", "scale_by_yield", "--seed", "7", wrong["value"], "--decimal-mark", ".", "--json")
    assert given.exit_code == 0
    shown = json.loads(given.output)
    assert shown["says"].endswith(" is what comes out if the factor is turned upside down.")
    assert (shown["verdict"], shown["name"], shown["method"]) == ("method", wrong["name"], wrong["name"])
    assert shown["right"] is False
    assert wrong["name"] in run("grade", "scale_by_yield", "--seed", "7", wrong["value"], "--decimal-mark", ".").output


@pytest.mark.parametrize("text", ["a pinch", "2 cups", "", "-3 lb"])
def test_what_is_no_answer_ends_in_one_problem(text: str) -> None:
    """An unusable answer is no wrong answer: exit 1, and the reason."""
    result = run("grade", "scale_by_yield", "--seed", "7", "--json", text)
    assert result.exit_code == 1
    asked_again = json.loads(result.output)
    assert (asked_again["verdict"], asked_again["name"], asked_again["right"]) == ("asked_again", None, None)
    assert asked_again["problem"] == asked_again["says"]
    assert run("grade", "scale_by_yield", "--seed", "7", text).exit_code == 1


def test_a_question_is_asked_and_graded_in_either_system() -> None:
    """The same family and seed in pounds or in kilograms; each key is right in its own form."""
    for units, unit in (("us", "lb"), ("metric", "kg")):
        drawn = json.loads(run("question", "amount_to_buy", "--seed", "3", "--units", units, "--json").output)
        assert drawn["answer"]["unit"] == unit
        key = f"{drawn['answer']['value']} {unit}"
        given = run("grade", "amount_to_buy", key, "--seed", "3", "--units", units, "--decimal-mark", ".", "--json")
        assert json.loads(given.output)["verdict"] == "right"


def test_a_temperature_below_zero_is_an_answer() -> None:
    """A minus before a number is no option of the command."""
    for seed in range(40):
        record = json.loads(run("question", "read_thermometer", "--seed", str(seed), "--json").output)
        if record["answer"]["value"].startswith("-"):
            given = run("grade", "read_thermometer", "--seed", str(seed), record["answer"]["value"], "--json")
            assert json.loads(given.output)["right"] is True
            return
    pytest.fail("no question below zero in forty seeds")


def test_choices_and_figures_are_printed_where_there_are_any() -> None:
    """A question with choices lists them, and one with a figure has it, with its words."""
    record = json.loads(run("question", "name_cut", "--seed", "2", "--json").output)
    assert [set(choice) for choice in record["choices"]] == [{"key", "text", "right"}] * 4
    assert record["figure"].startswith("<svg ")
    assert record["figure_alt"]
    printed = run("question", "name_cut", "--seed", "2").output
    assert f"answer: {record['answer']['value']}" in printed
    assert "1) " in printed


def test_grading_an_unknown_family_is_wrong_use() -> None:
    """Exit code 2, as for drawing."""
    assert run("grade", "souffle", "--seed", "1", "4").exit_code == 2


def test_an_unknown_family_is_wrong_use_and_names_those_there_are() -> None:
    """Exit code 2, and the list to choose from."""
    result = run("question", "souffle", "--seed", "1")
    assert result.exit_code == 2
    assert "amount_to_buy" in result.output


def test_a_slip_in_a_command_is_answered_with_the_nearest_one() -> None:
    """`trainer bord` asks whether the board was meant."""
    result = run("bord")
    assert result.exit_code == 2
    assert "'board'" in result.output
