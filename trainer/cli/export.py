"""The book for other programs: every entry as it is kept, in an open form."""

from __future__ import annotations

from pathlib import Path

import click

from trainer.cli.exits import CHECK_FAILED, REFUSED, CommandError
from trainer.store.exporting import export_book, export_papers
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import KitchenProblem


@click.group("export")
def export_command() -> None:
    """Write what the kitchen keeps into files other programs read.

    \b
    Example:
      trainer export book --into book.jsonl
    """


@export_command.command("book")
@click.option("--as", "form", type=click.Choice(["jsonl"]), default="jsonl", show_default=True, help="The form.")
@click.option(
    "--into", required=True, metavar="FILE", type=click.Path(path_type=Path, dir_okay=False), help="A new file."
)
@click.option("--papers", metavar="DIR", type=click.Path(path_type=Path), help="A new folder for the texts it names.")
@click.pass_obj
def book(folder: Path, form: str, into: Path, papers: Path | None) -> None:
    """Write the whole book: one entry a line, with every column as it is kept. A file that is there is never replaced.

    The hash of an entry is SHA-256 over its columns, so whoever has the file can check it without this program.

    \b
    Example:
      trainer export book --as jsonl --into book.jsonl --papers texts
    """
    del form
    for path in (into, papers):
        if path is not None and path.exists():
            raise CommandError(f"{path} is there already. Nothing was written: name another one.", REFUSED)
    try:
        file = KitchenFile.open(folder)
    except KitchenProblem as problem:
        raise CommandError(str(problem), CHECK_FAILED) from problem
    click.echo(f"Wrote {export_book(file.book, into):,} entries into {into}")
    if papers is not None:
        click.echo(f"Wrote {export_papers(file.book, papers):,} texts into {papers}")
    file.close()
