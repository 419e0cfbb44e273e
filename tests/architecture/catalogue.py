"""The sentences of the program, gathered as a translator gets them, and the catalogues as they lie in the folder.

    python -m tests.architecture.catalogue

writes every catalogue again: new sentences with nothing beside them, translations kept, sentences no longer said left
out. It names what is still to be translated.
"""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from string import Formatter
from typing import Any

from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from trainer.content.form_fields import helps
from trainer.store.catalogues import ENGLISH, FOLDER, languages

PROGRAM = Path(__file__).parents[2] / "trainer"
KEYWORDS = {"message": None, "plural": (1, 2)}
METHODS = [("web/templates/**.html", "jinja2"), ("**.py", "python")]
OPTIONS = {"web/templates/**.html": {"silent": "false"}}
HEADER = "# The program's sentences. Written by hand; gathered with: python -m tests.architecture.catalogue"

BEGUN = datetime(2026, 11, 25, tzinfo=UTC)  # one date for ever, so that only sentences change

Sentence = str | tuple[str, ...]


@cache
def gathered() -> dict[Sentence, str]:
    """Return every sentence the program says, with the first file it stands in."""
    found: dict[Sentence, str] = {}
    for file, _, words, _, _ in extract_from_dir(PROGRAM, METHODS, OPTIONS, KEYWORDS):
        found.setdefault(sentence(words), file)
    found |= dict.fromkeys(helps() - found.keys(), "content/declarations.py")  # a form says them as they are declared
    one_and_many = {words[0] for words in found if isinstance(words, tuple)}
    return {words: file for words, file in found.items() if words not in one_and_many}  # its one form is there already


def sentence(words: Any) -> Sentence:
    """Return a message's English: one text, or the one for one and the one for many."""
    return words if isinstance(words, str) else tuple(words)


def catalogue(language: str) -> Catalog:
    """Return a language's catalogue as a translator edits it."""
    with (FOLDER / f"{language}.po").open("rb") as file:
        return read_po(file, locale=language)


def told(message: Message) -> tuple[str, ...]:
    """Return what a message is in the catalogue's language: one text, or one for each number."""
    return (message.string,) if isinstance(message.string, str) else tuple(message.string or ("",))


def braces(text: str) -> set[str]:
    """Return the names a pattern fills in."""
    return {name for _, name, _, _ in Formatter().parse(text) if name}


def written_anew(language: str) -> Catalog:
    """Return a language's catalogue with the sentences said today, in the order of the files they stand in."""
    before = catalogue(language)
    anew = Catalog(
        locale=language,
        header_comment=HEADER,
        project="trainer",
        version="1",
        creation_date=BEGUN,
        revision_date=BEGUN,
        msgid_bugs_address="none",
        last_translator="the kitchen",
        language_team="the kitchen",
        fuzzy=False,
    )
    anew.mime_headers = [
        ("Plural-Forms", before.plural_forms)
    ]  # as the translator counts, whatever the library's table
    for words, file in sorted(gathered().items(), key=lambda pair: (pair[1], str(pair[0]))):
        anew.add(words, known_of(words, before), locations=[(file, None)])  # type: ignore[list-item]
    return anew


def known_of(words: Sentence, before: Catalog) -> str | tuple[str, ...]:
    """Return the translation there is; what was two sentences and is counted now keeps both."""
    if isinstance(words, str):
        known = before.get(words)
        return told(known)[0] if known is not None else ""
    one, many = (before.get(each) for each in words)
    if one is None or not isinstance(one.string, str):
        return told(one) if one is not None else ("",) * before.num_plurals
    return (one.string, *((told(many)[0] if many is not None else "",) * (before.num_plurals - 1)))


def keep(language: str) -> list[Sentence]:
    """Write a language's file again; return the sentences still to be translated."""
    anew = written_anew(language)
    with (FOLDER / f"{language}.po").open("wb") as file:
        write_po(file, anew, width=0, omit_header=False, include_lineno=False)
    return [sentence(message.id) for message in anew if message.id and not all(told(message))]


if __name__ == "__main__":
    for each in languages():
        if each != ENGLISH:
            missing = keep(each)
            print(f"{each}: {len(gathered())} sentences, {len(missing)} to translate")
            print(*(f"  {words}" for words in missing), sep="\n")
