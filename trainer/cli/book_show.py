"""One entry of the book at the command line: every column, the texts it names, and each look of a practical."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import closing
from dataclasses import asdict
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import click

from trainer.cli.exits import CHECK_FAILED, REFUSED, CommandError
from trainer.kitchen.book import Entry, canonical, moment_text
from trainer.kitchen.papers import paper_text, papers_named
from trainer.kitchen.watched_points import LookTaken, point_from
from trainer.store.book import Book
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import KitchenProblem

LONGEST = 18  # figures; a number of more is no entry of any book
GONE = "(this text was erased, or is missing: trainer doctor says which)"


@click.command("show")
@click.argument("entry_id", metavar="ENTRY")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object.")
@click.pass_obj
def show_command(folder: Path, entry_id: str, as_json: bool) -> None:
    """Show one entry as the book keeps it, with the texts it names; of a practical every look with its time.

    ENTRY is its number, as every page prints it, or its id.

    \b
    Example:
      trainer book show 1093
    """
    try:
        with closing(KitchenFile.open(folder)) as file:
            found = _found(file.book, entry_id.strip())
            if found is None:
                raise CommandError(f"There is no entry {entry_id.strip()!r} in this book.", REFUSED)
            record, zone = entry_record(found, file.book), ZoneInfo(file.settings.timezone)
    except KitchenProblem as problem:
        raise CommandError(str(problem), CHECK_FAILED) from problem
    click.echo(json.dumps(record, ensure_ascii=False) if as_json else "\n".join(_lines(record, zone)))


def _found(book: Book, asked: str) -> Entry | None:
    """Return the entry with this id or this number, or None."""
    return book.find(asked) or (book.numbered(int(asked)) if asked.isdecimal() and len(asked) <= LONGEST else None)


def entry_record(entry: Entry, book: Book) -> dict[str, Any]:
    """Return an entry with every column as JSON, and `papers`: each text it names by digest, null where it is gone.

    A text that is JSON itself, as what was read in a quiz, stands there read.
    """
    columns = asdict(entry) | {"at": moment_text(entry.at)}
    columns |= {"day": entry.day.isoformat(), "happened": entry.happened.isoformat()}
    papers = {digest: _paper(book.paper(digest)) for digest in sorted(papers_named(entry.kind, canonical(entry.body)))}
    return {**columns, "papers": papers}


def _paper(paper: bytes | None) -> Any:  # noqa: ANN401 - whatever a text holds
    if paper is None:
        return None
    try:
        text = paper_text(paper)
    except ValueError:
        return paper.hex()
    try:
        return json.loads(text)
    except ValueError:
        return text


def _lines(record: Mapping[str, Any], zone: ZoneInfo) -> Iterator[str]:
    """Yield an entry in lines for a person: its columns, its body, the looks of a practical, its texts."""
    for name, value in record.items():
        if name not in ("body", "papers"):
            yield f"{name}: {value}"
    yield f"body: {json.dumps(record['body'], ensure_ascii=False, indent=2, sort_keys=True)}"
    if record["kind"] == "practical_watched":
        yield from _looks(record["body"], zone)
    for digest, paper in record["papers"].items():
        text = paper if isinstance(paper, str) else json.dumps(paper, ensure_ascii=False, indent=2)
        yield f"text {digest}: {GONE if paper is None else text}"


def _looks(body: Mapping[str, Any], zone: ZoneInfo) -> Iterator[str]:
    """Yield a line a look, point by point; an entry of before has none."""
    for point in (point_from(kept) for kept in body.get("points", ()) if "looks" in kept):
        yield f"point {point.id}: {point.words}"
        yield from (_look(look, zone) for look in point.looks)


def _look(look: LookTaken, zone: ZoneInfo) -> str:
    at = f"{look.at.astimezone(zone):%Y-%m-%d %H:%M:%S %Z}" if look.at else "time not kept"
    readings = f" ({', '.join(look.seen.readings)})" if look.seen.readings else ""
    note = f". Note: {look.seen.note}" if look.seen.note else ""
    return f"  {at}, by {look.by}: {look.seen.seen}{readings}{note}"
