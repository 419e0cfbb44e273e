"""Sums at the command line: read a quantity, draw questions."""

from __future__ import annotations

import json
import sys
from fractions import Fraction
from typing import Any

import click

from trainer.cli.exits import CHECK_FAILED, Stop
from trainer.kitchen.quiz.drawing import draw_question
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.question import Question
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.printing import number_text
from trainer.recipe_math.quantity import QuantityProblem

DIGITS = 12


def decimal_text(value: Fraction) -> str:
    """Return a value in decimals, exact where twelve places hold it, cut off after them where not."""
    return number_text(value, DIGITS)


@click.command("quantity")
@click.argument("text")
@click.option("--in", "wanted", metavar="UNIT", help="Convert to this unit of the same kind.")
@click.option("--decimal-mark", type=click.Choice([".", ","]), help="Which mark stands before the decimals.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
def quantity_command(text: str, wanted: str | None, decimal_mark: str | None, as_json: bool) -> None:
    """Read a quantity as cooks write it.

    \b
    Example:
      trainer quantity "1 lb 2 oz" --in g
    """
    try:
        read = parse_quantity(text, decimal_mark=decimal_mark)
        shown = read.to(wanted) if wanted else read
    except QuantityProblem as problem:
        if as_json:
            click.echo(json.dumps({"problem": str(problem)}, ensure_ascii=False))
            sys.exit(CHECK_FAILED)
        raise Stop(str(problem), CHECK_FAILED) from problem
    amount, symbol = shown.amount, shown.unit.symbol
    exact = f"{amount.numerator}/{amount.denominator}"
    if as_json:
        click.echo(json.dumps({"value": decimal_text(amount), "exact": exact, "unit": symbol}, ensure_ascii=False))
    else:
        click.echo(f"{decimal_text(amount)} {symbol}  (exactly {exact})")


def question_record(question: Question) -> dict[str, Any]:
    """Return a question as a record to print: values in decimals, wrong methods with what is said."""
    answer = question.answer
    return {
        "family": question.family,
        "seed": question.seed,
        "text": question.text,
        "answer": {
            "value": decimal_text(answer.value),
            "unit": answer.unit,
            "tolerance": decimal_text(answer.tolerance),
        },
        "solution": list(question.solution),
        "wrong_methods": [
            {"name": wrong.name, "value": decimal_text(wrong.value), "says": wrong.says}
            for wrong in question.wrong_methods
        ],
    }


def print_question(record: dict[str, Any]) -> None:
    """Print a question for a person to read."""
    answer = record["answer"]
    click.echo(f"{record['family']}, seed {record['seed']}\n{record['text']}")
    click.echo(f"  answer: {answer['value']} {answer['unit']}, give or take {answer['tolerance']}")
    for line in record["solution"]:
        click.echo(f"  {line}")
    for wrong in record["wrong_methods"]:
        click.echo(f"  not {wrong['value']} ({wrong['name']}): {wrong['says']}")


@click.command("question")
@click.argument("family")
@click.option("--seed", type=int, required=True, help="The same seed draws the same question.")
@click.option("--count", type=click.IntRange(1, 100_000), default=1, show_default=True, help="Seeds from --seed on.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object a line.")
def question_command(family: str, seed: int, count: int, as_json: bool) -> None:
    """Draw questions of a family, with answer, worked solution and wrong methods.

    \b
    Example:
      trainer question scale_by_yield --seed 7 --count 3
    """
    if family not in FAMILIES:
        raise click.UsageError(f"There is no question family {family!r}. There are: {', '.join(FAMILIES)}.")
    for each in range(seed, seed + count):
        record = question_record(draw_question(family, each))
        if as_json:
            click.echo(json.dumps(record, ensure_ascii=False))
        else:
            print_question(record)
