"""Content at the command line: check every file the kitchen teaches from."""

from __future__ import annotations

import dataclasses
import json
import sys
from collections.abc import Iterable
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Literal

import click

import trainer
from trainer import clock
from trainer.cli.clearance import DayParam
from trainer.cli.exits import CHECK_FAILED, REFUSED, USAGE, CommandError
from trainer.cli.opening import content_folder, open_here
from trainer.cli.skill_lines import skill_lines, skill_records
from trainer.cli.technique_lines import point_lines, technique_records
from trainer.content.answers import answers_too_common
from trainer.content.editor_schemas import SCHEMAS
from trainer.content.files import Library
from trainer.content.mapping_reader import BLANK, nearest
from trainer.content.new_technique import CannotBegin, begin_technique, write_schemas
from trainer.content.skill_check import check_skills
from trainer.content.verdict_check import two_verdicts
from trainer.content.word_check import word_problems
from trainer.kitchen.quiz.rates import QuizRates, quiz_rates
from trainer.kitchen.technique import Content, Problem
from trainer.messages import translate
from trainer.store.catalogues import ENGLISH

FOLDER = click.Path(path_type=Path, exists=True, file_okay=False)
PORT, PORTS_TRIED = 8400, 20
MANY_HELD_BACK = Fraction(3, 10)
HELD_BACK_MEND = (
    "That holds back many who know enough: ask more questions (about safety none, or four and more), or let it decide."
)
PROGRAM = Path(trainer.__file__).resolve().parent


@click.group("content")
def content_command() -> None:
    """Look after the files the kitchen teaches from.

    \b
    Example:
      trainer content check
    """


@content_command.command("check")
@click.argument("folder", required=False, type=FOLDER)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def check(kitchen: Path, folder: Path | None, as_json: bool) -> None:
    """Check every content file and list all problems with file, line and how to mend.

    Then, of each skill, how often luck is right and what the rule lets through; of each technique and station, how many
    questions and days it comes to; of each typed checklist, how many points are law, result and craft. What hardly asks
    anything, or is said so that it will be misread, is a problem too; it is taught all the same.

    The kitchen's own content where it has some and no FOLDER is named; else what came with the program.

    \b
    Example:
      trainer content check our-content
    """
    folder = folder or content_folder(kitchen)
    library = Library(folder)
    content = library.content(ENGLISH, "us")
    skills = check_skills(folder, content)
    problems = library.problems + answers_too_common(folder, content) + skills.problems
    problems += word_problems(folder, library.techniques_read, clock.now().date())
    problems += two_verdicts(library.techniques_read, content)
    notes = library.notes()
    if as_json:
        more = {"skills": skill_records(content, skills.figures), "by_technique": technique_records(content)}
        record = check_record(content, problems, notes) | more
        click.echo(json.dumps(record, ensure_ascii=False))
    else:
        lines = (*skill_lines(content, skills.figures), *point_lines(content))
        print_check(content, problems, notes, lines)
    sys.exit(CHECK_FAILED if problems else 0)


@content_command.command("new")
@click.argument("name")
@click.option("--folder", type=FOLDER, help="The content folder; the kitchen's own where none is named.")
@click.pass_obj
def new(kitchen: Path, name: str, folder: Path | None) -> None:
    """Begin a technique: a folder with its structure, its words and what to fill in.

    \b
    Example:
      trainer content new "Pan sauces" --folder our-content
    """
    content = folder or own_content(kitchen)
    try:
        made = begin_technique(content, name, clock.now().date())
    except CannotBegin as problem:
        raise CommandError(str(problem), REFUSED) from problem
    click.echo(f"Made {made} with technique.yaml, en.yaml and es.yaml, and three skills in {content / 'skills'}.")
    click.echo("What to do next:")
    click.echo(f"  1. Its id is {made.name}, the folder's name. Want it shorter? Rename the folder now, not later.")
    click.echo(f"  2. Write technique.yaml, which has an example of each part, then each en.yaml in place of {BLANK}.")
    click.echo(f"  3. Look at it while you write: trainer content preview {made.name} --folder {content}")
    click.echo(f"  4. See what is left to do: trainer content check {content}")
    click.echo("  5. Name it under `techniques` of the stations that ask for it. Until then nobody is asked for it.")


@content_command.command("schema")
@click.argument("kind", required=False, type=click.Choice(list(SCHEMAS)))
@click.option("--into", type=FOLDER, help="Write all of them into this content folder, for an editor.")
def schema(kind: str | None, into: Path | None) -> None:
    """Print the format of a kind of content file as JSON Schema, for an editor.

    \b
    Example:
      trainer content schema technique
    """
    if into:
        click.echo(f"Wrote {len(SCHEMAS)} schemas into {write_schemas(into)}.")
    elif kind:
        click.echo(json.dumps(SCHEMAS[kind](), indent=1, ensure_ascii=False))
    else:
        for name, made in SCHEMAS.items():
            click.echo(f"{name}: {made()['title']}")


@content_command.command("upgrade")
@click.argument("folder", required=False, type=FOLDER)
@click.option("--write", is_flag=True, help="Change the files; a copy of the folder is kept beside it first.")
@click.pass_obj
def upgrade(kitchen: Path, folder: Path | None, write: bool) -> None:
    """Bring content of a former format up to date: print what would change, and what you must decide.

    What a quiz asks becomes skills, a file each, asked one by one; a note says which technique keeps its quiz, and why.
    For a checklist of the former kind a note proposes a type for each point: you decide, and write them.

    Nothing is changed without --write. The kitchen's own content where no FOLDER is named.

    \b
    Example:
      trainer content upgrade our-content
    """
    from trainer.content.point_types import proposed_types
    from trainer.content.upgrade import upgrade_of

    found = upgrade_of(folder or own_content(kitchen))
    for line in found.differences():
        click.echo(line)
    for line in (*found.stays, *proposed_types(found.folder)):
        click.echo(f"note: {line}")
    if found.to_decide:
        click.echo("To be decided by a person, with the lines as they are then:")
    for each in found.to_decide:
        click.echo(f"{each.file}:{each.line}: {each.message}\n    {each.hint}")
    if not found.texts:
        click.echo(f"No file of {found.folder} needs to change.")
    elif write:
        kept = found.write(clock.now().date())
        click.echo(f"Changed {len(found.texts)} files. The folder as it was is kept in {kept}.")
    else:
        click.echo(f"{len(found.texts)} files would change. Nothing was changed; to change them, add --write.")
    sys.exit(CHECK_FAILED if found.to_decide else 0)


@content_command.command("publish")
@click.option("--preview", "only_look", is_flag=True, help="Say what it would cost, and publish nothing.")
@click.option("--since", type=DayParam(), help="The first day it counts, like 2026-12-15; today if left out.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object, and ask nothing.")
@click.pass_obj
def publish_command(kitchen: Path, only_look: bool, since: date | None, as_json: bool) -> None:
    """Make the content files the standard: say who would lose what and the work to bring it back, ask, then publish.

    Until then what was published before is taught and asked for, whatever the files say.

    \b
    Example:
      trainer content publish --preview
      trainer content publish --since 2026-12-15
    """
    from trainer.cli.publishing import look_and_publish

    look_and_publish(open_here(kitchen), only_look=only_look, since=since, as_json=as_json)


@content_command.command("preview")
@click.argument("technique")
@click.option("--folder", type=FOLDER, help="The content folder; the kitchen's own where none is named.")
@click.option("--language", default="en", show_default=True, help="The language of the words: en, es.")
@click.option(
    "--units", type=click.Choice(["us", "metric"]), default="us", show_default=True, help="Which units first."
)
@click.option("--port", type=click.IntRange(1, 65535), help=f"The port; {PORT} or the next free one if left out.")
@click.pass_obj
def preview(
    kitchen: Path, technique: str, folder: Path | None, language: str, units: Literal["us", "metric"], port: int | None
) -> None:
    """Show a technique in a browser while you write it: reload the page, and it is read anew, problems on top.

    Only this machine is answered, nothing is written, and no kitchen is needed.

    \b
    Example:
      trainer content preview pan_sauces --folder our-content
    """
    from trainer.cli.listening import listen
    from trainer.web.authoring.app import create_preview
    from trainer.web.authoring.pages import TechniqueWritten

    content = folder or content_folder(kitchen)
    there = [path.parent.name for path in content.glob("techniques/*/*.yaml")]
    if technique not in there:
        raise CommandError(f"There is no technique {technique!r} in {content}. {nearest(technique, there)}", USAGE)
    app = create_preview(TechniqueWritten(content, technique, language, units))
    listen(app, "127.0.0.1", [port] if port else range(PORT, PORT + PORTS_TRIED), f"Showing {technique}")


def own_content(kitchen: Path) -> Path:
    """Return the content folder a kitchen may write to: its own, or in a checkout the one beside the program."""
    content = content_folder(kitchen)
    if PROGRAM in content.parents:
        own = kitchen / "content"
        raise CommandError(
            f"What came with the program is not yours to change. Copy {content} to {own} first.", REFUSED
        )
    return content


def check_record(content: Content | None, problems: tuple[Problem, ...], notes: tuple[str, ...]) -> dict[str, object]:
    """Return what the check found as one record: how many techniques and stations, every problem, every note."""
    return {
        "techniques": len(content.techniques) if content else 0,
        "stations": len(content.stations) if content else 0,
        "problems": [problem_record(problem) for problem in problems],
        "notes": list(notes),
        "quizzes": [quiz_record(each) for each in rates_of(content)],
    }


def rates_of(content: Content | None) -> tuple[QuizRates, ...]:
    """Return what the quiz of each technique that has one really does."""
    techniques = content.techniques.values() if content else ()
    return tuple(quiz_rates(each) for each in techniques if each.questions and not each.knowledge)


def problem_record(problem: Problem) -> dict[str, object]:
    """Return one problem by the keys that scripts know it by."""
    return {
        "file": problem.file,
        "line": problem.line,
        "problem": problem.message,
        "message": problem.message,
        "mend": problem.hint,
        "hint": problem.hint,
        "leaves_out": problem.leaves_out,
    }


def quiz_record(quiz: QuizRates) -> dict[str, object]:
    """Return the rates of one quiz, exact ones rounded to four places for print."""
    rates = dataclasses.asdict(quiz.rates)
    return {
        "technique": quiz.technique,
        "decides": quiz.decides,
        "rule": translate(quiz.rule),
        "knows_too_little": float(quiz.plan.too_little),
        "knows_enough": float(quiz.plan.enough),
        **{name: round(float(value), 4) for name, value in rates.items()},
    }


def print_check(
    content: Content | None, problems: tuple[Problem, ...], notes: tuple[str, ...], skills: Iterable[str]
) -> None:
    """Print the check for a person: a line a problem, the mend below it; a line a note, quiz and skill; the count."""
    for each in problems:
        click.echo(f"{each.file}:{each.line}: {each.message}\n    {each.hint}")
    for note in notes:
        click.echo(f"note: {note}")
    for quiz in rates_of(content):
        click.echo(f"{quiz.technique}: {translate(quiz.rule)}. {translate(quiz.words)}")
        if quiz.rates.false_fail > MANY_HELD_BACK:
            click.echo(f"    {HELD_BACK_MEND}")
    for line in skills:
        click.echo(line)
    if content:
        click.echo(f"{len(content.techniques)} techniques, {len(content.stations)} stations, {len(problems)} problems")
    else:
        click.echo(f"The content cannot be used: {len(problems)} problems")
