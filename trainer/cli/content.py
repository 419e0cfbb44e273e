"""Content at the command line: check every file the kitchen teaches from."""

from __future__ import annotations

import dataclasses
import json
import sys
from pathlib import Path

import click

from trainer.cli.exits import CHECK_FAILED
from trainer.kitchen.quiz.rates import QuizRates, quiz_rates
from trainer.kitchen.technique import Content, Problem
from trainer.store.content_files import content_notes, load_content
from trainer.store.shipped import shipped


@click.group("content")
def content_command() -> None:
    """Look after the files the kitchen teaches from.

    \b
    Example:
      trainer content check
    """


@content_command.command("check")
@click.argument("folder", required=False, type=click.Path(path_type=Path, exists=True, file_okay=False))
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
def check(folder: Path | None, as_json: bool) -> None:
    """Check every content file and list all problems with file, line and how to mend.

    \b
    Example:
      trainer content check our-content
    """
    folder = folder or shipped("content")
    content, problems = load_content(folder)
    notes = content_notes(folder)
    if as_json:
        click.echo(json.dumps(check_record(content, problems, notes), ensure_ascii=False))
    else:
        print_check(content, problems, notes)
    sys.exit(CHECK_FAILED if problems else 0)


def check_record(content: Content | None, problems: tuple[Problem, ...], notes: tuple[str, ...]) -> dict[str, object]:
    """Return what the check found as one record: how many techniques and stations, every problem, every note."""
    return {
        "techniques": len(content.techniques) if content else 0,
        "stations": len(content.stations) if content else 0,
        "problems": [dataclasses.asdict(problem) for problem in problems],
        "notes": list(notes),
        "quizzes": [quiz_record(each) for each in rates_of(content)],
    }


def rates_of(content: Content | None) -> tuple[QuizRates, ...]:
    """Return what the quiz of each technique that has one really does."""
    techniques = content.techniques.values() if content else ()
    return tuple(quiz_rates(technique) for technique in techniques if technique.questions)


def quiz_record(quiz: QuizRates) -> dict[str, object]:
    """Return the rates of one quiz, exact ones rounded to four places for print."""
    rates = dataclasses.asdict(quiz.rates)
    return {
        "technique": quiz.technique,
        "decides": quiz.decides,
        "rule": quiz.rule,
        "knows_too_little": float(quiz.plan.too_little),
        "knows_enough": float(quiz.plan.enough),
        **{name: round(float(value), 4) for name, value in rates.items()},
    }


def print_check(content: Content | None, problems: tuple[Problem, ...], notes: tuple[str, ...]) -> None:
    """Print the check for a person: a line a problem, the mend below it, a line a note and a quiz, the count last."""
    for each in problems:
        click.echo(f"{each.file}:{each.line}: {each.problem}\n    {each.mend}")
    for note in notes:
        click.echo(f"note: {note}")
    for quiz in rates_of(content):
        click.echo(f"{quiz.technique}: {quiz.rule}. {quiz.words}")
    if content:
        click.echo(f"{len(content.techniques)} techniques, {len(content.stations)} stations, {len(problems)} problems")
    else:
        click.echo(f"The content cannot be used: {len(problems)} problems")
