"""Quantities and questions at the command line."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest
from click.testing import CliRunner, Result

from trainer.cli import trainer


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
        assert set(record["answer"]) == {"value", "unit", "tolerance"}
        assert all(set(wrong) == {"name", "value", "says"} for wrong in record["wrong_methods"])


def test_the_same_seed_draws_the_same_question() -> None:
    """A question can be printed again from its seed."""
    first, second = (run("question", "amount_to_buy", "--seed", "3", "--json").output for _ in range(2))
    assert first == second


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
