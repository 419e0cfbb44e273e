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
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.people_on_record import Written
from trainer.actions.record_sheet import (
    Giving,
    RecordSheet,
    as_data,
    attempts_as_data,
    give_record,
    record_sheet,
)
from trainer.cli.clearance import find_cook
from trainer.cli.exits import REFUSED, CommandError
from trainer.cli.opening import open_here
from trainer.exports.record_csv import as_csv
from trainer.exports.record_pdf import file_name, record_pdf
from trainer.kitchen.book import LOCAL
from trainer.messages import translate
from trainer.store.exporting import write_whole

PDF = "pdf"
ENDINGS = {"text": ".txt", "json": ".json", "html": ".html", "csv": ".csv", PDF: ".pdf"}
"""The forms of a record, and how the name of a file in each ends."""
COLUMNS = ("competency", "edition", "read", "questions_passed", "watched", "result", "good_to")


@click.command("record")
@click.argument("cook")
@click.option("--as", "form", type=click.Choice([*ENDINGS]), help="The form; text if left out.")
@click.option("--into", metavar="DIR|FILE", type=click.Path(path_type=Path), help="A folder for every form, or a file.")
@click.option("--every", is_flag=True, help="Add every quiz, skill passed and practical (in text and JSON).")
@click.option("--to", default="", metavar="WHOM", help="To whom it is given: the book says so.")
@click.option("--for", "what_for", default="", metavar="WHAT", help="What it is given for.")
@click.pass_obj
def record_command(
    folder: Path, cook: str, form: str | None, into: Path | None, every: bool, to: str, what_for: str
) -> None:
    """Print a cook's record on a sheet: ten items, and a line a technique they were trained in.

    Into a folder it is written in every form: PDF, JSON, CSV, HTML and text. A file of a folder is never replaced.

    \b
    Example:
      trainer record "Maren Ito"
      trainer record "Maren Ito" --into records
      trainer record "Maren Ito" --as json --into maren.json --to "Maren Ito" --for "asked for it"
    """
    kitchen, now = open_here(folder), clock.now()
    sheet = record_sheet(kitchen, find_cook(kitchen, cook).id, now)
    forms, files = _asked(sheet, form, into)
    if to or what_for:
        written = Written(LOCAL, now, str(uuid4()))
        outcome = give_record(kitchen, sheet=sheet, giving=Giving(to, what_for), written=written)
        if isinstance(outcome, Refused):
            raise CommandError(outcome.reason, REFUSED)
    data = as_data(sheet) | ({"attempts": attempts_as_data(sheet)} if every else {})
    texts = {one: _pdf(kitchen, sheet) if one == PDF else FORMS[one](data).encode() for one in forms}
    if into is None:
        click.echo(texts[forms[0]].decode())
        return
    for one, path in zip(forms, files, strict=True):
        _write(path, texts[one])
    click.echo(f"The record of {sheet.name} is in {', '.join(map(str, files))}.")


def _asked(sheet: RecordSheet, form: str | None, into: Path | None) -> tuple[list[str], list[Path]]:
    """Return the forms that are asked for, and the file of each; what would replace a file of a folder is refused.

    Without a form, a name that ends like one of them is a file in that form, any other a folder.
    """
    if into is None:
        if form == PDF:
            raise CommandError("A PDF is not printed here: name a file with --into.", REFUSED)
        return [form or "text"], []
    by_ending = {ending: one for one, ending in ENDINGS.items()}
    if not into.is_dir() and (form or into.suffix in by_ending):
        return [form or by_ending[into.suffix]], [into]
    forms = [form] if form else [*ENDINGS]
    files = [into / f"{file_name(sheet)}{ENDINGS[one]}" for one in forms]
    there = next((path for path in files if path.exists()), None)
    if there is not None:
        raise CommandError(f"{there} is there already. Nothing was written: name another folder.", REFUSED)
    return forms, files


def _pdf(kitchen: Kitchen, sheet: RecordSheet) -> bytes:
    units = kitchen.file.settings.units_first
    return record_pdf(sheet, units=units, language="en", say=translate, name_of=kitchen.day(sheet.on).name)


def _write(path: Path, data: bytes) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.unlink(missing_ok=True)
        with write_whole(path) as file:
            file.write(data)
    except OSError as problem:
        raise CommandError(f"{path} cannot be written ({problem.strerror}).", REFUSED) from problem


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
