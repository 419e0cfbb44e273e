"""Sums at the command line: read a quantity, list families, draw questions, grade an answer."""

from __future__ import annotations

import json
import sys
from fractions import Fraction
from typing import Any

import click

from trainer.cli.exits import CHECK_FAILED, CommandError
from trainer.content.question_words import shipped_words
from trainer.kitchen.quiz.drawing import draw_question, ranges_of
from trainer.kitchen.quiz.drawn import QuestionContext
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import AnyFamily, NumericFamily, System
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Grade, Question
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.quiz.telling import tell
from trainer.messages import translate
from trainer.recipe_math.figures import fraction_text
from trainer.recipe_math.parsing import parse_quantity
from trainer.recipe_math.printing import number_text
from trainer.recipe_math.quantity import QuantityProblem
from trainer.recipe_math.units import unit
from trainer.store.catalogues import ENGLISH

DIGITS = 12
UNITS = click.option(
    "--units",
    type=click.Choice(["us", "metric"]),
    help="Draw in these measures; without it, in the family's usual ones.",
)


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
        kind = unit(wanted).dimension if wanted else None
        read = parse_quantity(text, decimal_mark=decimal_mark, kind=kind)
        shown = read.to(wanted) if wanted else read
    except QuantityProblem as problem:
        if as_json:
            click.echo(json.dumps({"problem": str(problem)}, ensure_ascii=False))
            sys.exit(CHECK_FAILED)
        raise CommandError(str(problem), CHECK_FAILED) from problem
    amount, symbol = shown.amount, shown.unit.symbol
    exact = f"{amount.numerator}/{amount.denominator}"
    if as_json:
        click.echo(json.dumps({"value": decimal_text(amount), "exact": exact, "unit": symbol}, ensure_ascii=False))
    else:
        click.echo(f"{decimal_text(amount)} {symbol}  (exactly {exact})")


def question_record(question: Question) -> dict[str, Any]:
    """Return a question as a record to print: values in decimals, wrong methods with what is said.

    Choices and a figure are in it where the question has them.
    """
    answer = question.answer
    record: dict[str, Any] = {
        "family": question.family,
        "seed": question.seed,
        "text": translate(question.text),
        "answer": {
            "value": decimal_text(answer.value),
            "unit": answer.unit,
            "tolerance": decimal_text(answer.tolerance),
            "step": decimal_text(answer.step),
        },
        "solution": list(map(translate, question.solution)),
        "wrong_methods": [
            {"name": wrong.name, "value": decimal_text(wrong.value), "says": translate(wrong.says)}
            for wrong in question.wrong_methods
        ],
    }
    if question.choices:
        record["choices"] = [
            {"key": choice.key, "text": translate(choice.text), "right": choice.is_right}
            for choice in question.every_choice
        ]
        record["answer"]["keys"] = question.key
    if question.figure:
        record |= {"figure": question.figure, "figure_alt": translate(question.figure_alt)}
    return record


def print_question(record: dict[str, Any]) -> None:
    """Print a question for a person to read."""
    answer = record["answer"]
    click.echo(f"{record['family']}, seed {record['seed']}\n{record['text']}")
    if "figure_alt" in record:
        click.echo(f"  figure: {record['figure_alt']}")
    for choice in record.get("choices", ()):
        click.echo(f"  {choice['key']}) {choice['text']}")
    if "choices" in record:
        click.echo(f"  answer: {answer['keys']}")
    else:
        click.echo(f"  answer: {answer['value']} {answer['unit']}, give or take {answer['tolerance']}")
    for line in record["solution"]:
        click.echo(f"  {line}")
    for wrong in record["wrong_methods"]:
        click.echo(f"  not {wrong['value']} ({wrong['name']}): {wrong['says']}")


def family_record(family: AnyFamily) -> dict[str, str]:
    """Return a family as a record to print."""
    return {
        "name": family.name,
        "title": _words().title(family.name),
        "level": family.level,
        "unit": family.unit,
        "unit_rule": family.unit_rule if isinstance(family, NumericFamily) else "",
        "outside_check": family.checked_against,
    }


def settings_record(family: AnyFamily) -> dict[str, dict[str, str]]:
    """Return what a technique may set of a family, as a content file writes it: its ranges and its words."""
    ranges = {
        key: f"{fraction_text(each.lowest)} to {fraction_text(each.highest)} step {fraction_text(each.step)}"
        for key, each in ranges_of(family).items()
    }
    words = {slot: "|".join(alternatives) for slot, alternatives in _words().families[family.name].words.items()}
    return {"ranges": ranges, "words": words}


def print_settings(family: AnyFamily) -> None:
    """Print the ranges of a family with what each means, and its words; both as they are where none are set."""
    settings = settings_record(family)
    click.echo("  ranges, unless technique.yaml sets others:")
    for key, typed in settings["ranges"].items():
        click.echo(f"    {key}: {typed}  ({ranges_of(family)[key].means})")
    click.echo("  words, unless en.yaml sets others; one between | is drawn:" if family.words else "  words: none")
    for key, typed in settings["words"].items():
        click.echo(f"    {key}: {typed}")


@click.command("families")
@click.argument("name", required=False)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object a line.")
def families_command(name: str | None, as_json: bool) -> None:
    """List the question families: name, level, unit, and what each was checked against.

    Of the one that is named, also the ranges and words that a technique may set.

    \b
    Example:
      trainer families ice_in_stock
    """
    if name is not None:
        _known(name)
    for family in [FAMILIES[name]] if name else FAMILIES.values():
        if as_json:
            settings = settings_record(family) if name else {}
            click.echo(json.dumps({**family_record(family), **settings}, ensure_ascii=False))
            continue
        required = " and no other unit" if isinstance(family, NumericFamily) and family.unit_rule == "required" else ""
        unit = f", in {family.unit}{required}" if family.unit else ""
        click.echo(f"{family.name}: {_words().title(family.name)} ({family.level}{unit})\n  {family.checked_against}")
        if name:
            print_settings(family)


def _words() -> QuestionWords:
    """Return the words of questions that come with the program, in English."""
    return shipped_words(ENGLISH)


def _question(family: str, seed: int, units: System | None) -> Question:
    """Return the question of a family and seed in a system of measures, with the family's own ranges and words."""
    context = QuestionContext(_words(), units=units or "")
    return tell(draw_question(family, seed, context), context)


def _known(family: str) -> None:
    """End a command with the list of families where there is none of this name."""
    if family not in FAMILIES:
        raise click.UsageError(f"There is no question family {family!r}. There are: {', '.join(FAMILIES)}.")


def grade_record(given: Grade) -> dict[str, Any]:
    """Return a grade as a record to print: its verdict, the name of what shows, and what is said."""
    record: dict[str, Any] = {
        "verdict": given.verdict,
        "name": given.name,
        "says": translate(given.says if given.problem is None else given.problem),
        "right": given.is_right,
        "method": given.method,
    }
    return record if given.problem is None else {**record, "problem": translate(given.problem)}


@click.command("grade", context_settings={"ignore_unknown_options": True})
@click.argument("family")
@click.argument("answer")
@click.option("--seed", type=int, required=True, help="The seed the question was drawn with.")
@UNITS
@click.option("--decimal-mark", type=click.Choice([".", ","]), help="Which mark stands before the decimals.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
def grade_command(
    family: str, answer: str, seed: int, units: System | None, decimal_mark: str | None, as_json: bool
) -> None:
    """Grade an answer to a question that `trainer question` drew.

    \b
    Example:
      trainer grade scale_by_yield --seed 7 "4 lb 5 1/2 oz"
    """
    _known(family)
    given = grade(_question(family, seed, units), answer, decimal_mark)
    if as_json:
        click.echo(json.dumps(grade_record(given), ensure_ascii=False))
    elif given.problem is None:
        named = f" ({given.name})" if given.name else ""
        came_of_it = "right" if given.is_right else f"not right{named}. {translate(given.says)}"
        click.echo(f"{translate(given.understood)}: {came_of_it}")
    if given.problem is not None:
        if as_json:
            sys.exit(CHECK_FAILED)
        raise CommandError(translate(given.problem), CHECK_FAILED)


@click.command("question")
@click.argument("family")
@click.option("--seed", type=int, required=True, help="The same seed draws the same question.")
@click.option("--count", type=click.IntRange(1, 100_000), default=1, show_default=True, help="Seeds from --seed on.")
@UNITS
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object a line.")
def question_command(family: str, seed: int, count: int, units: System | None, as_json: bool) -> None:
    """Draw questions of a family, with answer, worked solution and wrong methods.

    \b
    Example:
      trainer question scale_by_yield --seed 7 --count 3
    """
    _known(family)
    for each in range(seed, seed + count):
        record = question_record(_question(family, each, units))
        if as_json:
            click.echo(json.dumps(record, ensure_ascii=False))
        else:
            print_question(record)
