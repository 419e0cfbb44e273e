"""One cook's record on a sheet, at the command line."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any
from uuid import uuid4

import click
from markupsafe import Markup, escape

from trainer import clock
from trainer.actions.outcome import Refused
from trainer.actions.people_on_record import Written
from trainer.actions.record_csv import as_csv
from trainer.actions.record_sheet import Giving, as_data, attempts_as_data, give_record, record_sheet
from trainer.cli.clearance import find_cook
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here
from trainer.kitchen.book import LOCAL

COLUMNS = ("competency", "edition", "read", "questions_passed", "watched", "result", "good_to")


@click.command("record")
@click.argument("cook")
@click.option("--as", "form", type=click.Choice(["text", "json", "html", "csv"]), default="text", show_default=True)
@click.option("--into", type=click.Path(path_type=Path, dir_okay=False), help="A file to write, in place of printing.")
@click.option("--every", is_flag=True, help="Add every quiz, skill passed and practical (in text and JSON).")
@click.option("--to", default="", metavar="WHOM", help="To whom it is given: the book says so.")
@click.option("--for", "what_for", default="", metavar="WHAT", help="What it is given for.")
@click.pass_obj
def record_command(folder: Path, cook: str, form: str, into: Path | None, every: bool, to: str, what_for: str) -> None:
    """Print a cook's record on a sheet: ten items, and a line a technique they were trained in.

    \b
    Example:
      trainer record "Maren Ito"
      trainer record "Maren Ito" --as json --into maren.json --to "Maren Ito" --for "asked for it"
    """
    kitchen, now = open_here(folder), clock.now()
    sheet = record_sheet(kitchen, find_cook(kitchen, cook).id, now)
    if to or what_for:
        written = Written(LOCAL, now, str(uuid4()))
        outcome = give_record(kitchen, sheet=sheet, giving=Giving(to, what_for), written=written)
        if isinstance(outcome, Refused):
            raise CommandError(outcome.reason, REFUSED)
    data = as_data(sheet)
    text = FORMS[form](data | {"attempts": attempts_as_data(sheet)} if every else data)
    if into is None:
        click.echo(text)
        return
    try:
        with into.open("w", encoding="utf-8", newline="") as file:
            file.write(text)
    except OSError as problem:
        raise CommandError(f"{into} cannot be written ({problem.strerror}).", REFUSED) from problem
    click.echo(f"The record of {sheet.name} is in {into}.")


def as_text(data: Mapping[str, Any]) -> str:
    """Return a record for a person to read."""
    return "\n".join(_text_lines(data))


def _text_lines(data: Mapping[str, Any]) -> Iterator[str]:
    yield f"{data['kitchen']}: training record of {data['cook']['name']}"
    yield f"as the book stood on {data['day']} ({data['zone']}), check value {data['head']}"
    for item in data["items"]:
        yield f"{item['number']:2}. {item['title']}: {'; '.join(item['lines'])}"
    for row in data["trainings"]:
        yield f"  {row['competency']}, edition {row['edition']}: {_what(row)}"
    for one in data.get("attempts", ()):
        yield f"  {one['day']} {one['competency']}, {one['what']}: {one['result']}"


def _what(row: Mapping[str, Any]) -> str:
    named = (("read", "read"), ("questions", "questions_passed"), ("watched", "watched"))
    told = [f"{word} {row[name]}" for word, name in named if row[name]]
    minutes = f" ({row['watched_minutes']} min)" if row["watched_minutes"] else ""
    good = f", good to {row['good_to']}" if row["good_to"] else ""
    return f"{', '.join(told)}{minutes}: {row['result']}{good}"


def as_html(data: Mapping[str, Any]) -> str:
    """Return a record as one page of HTML that needs no other file."""
    head = escape(f"Training record of {data['cook']['name']}")
    items = Markup("").join(
        Markup("<li><b>{}</b>: {}</li>").format(item["title"], "; ".join(item["lines"])) for item in data["items"]
    )
    titles = Markup("").join(Markup("<th>{}</th>").format(name.replace("_", " ")) for name in COLUMNS)
    rows = Markup("").join(
        Markup("<tr>{}</tr>").format(Markup("").join(Markup("<td>{}</td>").format(row[name] or "") for name in COLUMNS))
        for row in data["trainings"]
    )
    page = Markup(
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>{0}</title><h1>{0}</h1>'
        "<p>{1}, {2} ({3}), check value {4}</p><ol>{5}</ol><table><tr>{6}</tr>{7}</table></html>"
    )
    return str(page.format(head, data["kitchen"], data["day"], data["zone"], data["head"], items, titles, rows))


FORMS: Mapping[str, Callable[[dict[str, Any]], str]] = {
    "text": as_text,
    "json": lambda data: json.dumps(data, ensure_ascii=False, indent=1),
    "html": as_html,
    "csv": as_csv,
}
