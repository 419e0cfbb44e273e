"""A language nobody speaks, made from the program's own sentences, to see what would stay English in any other.

Every piece of a sentence stands in brackets, so that a value filled in stands outside them unless it is a sentence too;
or it is longer than the English, as most other languages are. The catalogue is a file like a translator's, read alike.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import fields, is_dataclass, replace
from functools import cache
from math import ceil
from pathlib import Path
from string import Formatter
from types import MappingProxyType
from typing import Any

from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po

from tests.architecture.catalogue import gathered
from trainer.store import catalogues

TAG = "xx"
OPEN, SHUT = "⟦", "⟧"  # around what the program says
OPEN_TAUGHT, SHUT_TAUGHT = "⟪", "⟫"  # around what the kitchen teaches
LONGER = 1.4
TAUGHT = frozenset({"clause", "was",
    "age_reason", "caution", "cause", "changed", "cook", "cue", "cure", "edition", "figure_alt", "goal", "loss_text",
    "makes", "means", "method", "name", "place", "shows", "standard_text", "teacher", "text", "title", "tools", "why",
    "word",
})  # fmt: skip
Telling = Callable[[str], str]


def in_brackets(piece: str) -> str:
    """Return a piece of a sentence in brackets, where there are words in it."""
    return f"{OPEN}{piece}{SHUT}" if any(sign.isalpha() for sign in piece) else piece


def at_length(piece: str) -> str:
    """Return a piece of a sentence with every word two fifths longer, to the next whole letter."""
    return "".join(map(_stretched, _words(piece)))


def _words(piece: str) -> Iterator[str]:
    """Yield words and what stands between them, in turn."""
    run = ""
    for sign in piece:
        if run and sign.isalpha() != run[-1].isalpha():
            yield run
            run = ""
        run += sign
    yield run


def _stretched(word: str) -> str:
    more = ceil(len(word) * LONGER) - len(word) if word.isalpha() else 0
    middle = len(word) // 2
    return word[:middle] + word[middle : middle + 1] * more + word[middle:]


def told(pattern: str, telling: Telling) -> str:
    """Return a sentence in the made-up language, its braces kept."""
    parts = []
    for piece, name, _, _ in Formatter().parse(pattern):
        parts.append(telling(piece).replace("{", "{{").replace("}", "}}"))
        if name is not None:
            parts.append(f"{{{name}}}")
    return "".join(parts)


@cache
def catalogue_told(telling: Telling) -> Catalog:
    """Return the catalogue of all the program says."""
    made = Catalog()
    for sentence in gathered():
        if isinstance(sentence, str):
            made.add(sentence, told(sentence, telling))
        else:
            made.add(sentence, tuple(told(each, telling) for each in sentence))
    return made


@contextmanager
def spoken(folder: Path, telling: Telling) -> Iterator[None]:
    """Let the program speak English and the made-up language alone, from a catalogue in *folder*."""
    with (folder / f"{TAG}.po").open("wb") as file:
        write_po(file, catalogue_told(telling))
    own, catalogues.FOLDER = catalogues.FOLDER, folder
    catalogues._translations.cache_clear()
    try:
        yield
    finally:
        catalogues.FOLDER = own
        catalogues._translations.cache_clear()


def taught(content: Any) -> Any:
    """Return content with all that is taught in brackets of its own, each word of a list to draw from by itself."""
    if isinstance(content, Mapping):
        return MappingProxyType({key: taught(value) for key, value in content.items()})
    if isinstance(content, tuple):
        return tuple(map(taught, content))
    if is_dataclass(content) and not isinstance(content, type):
        there = ((field.name, getattr(content, field.name)) for field in fields(content))
        return replace(content, **{name: _part(name, value) for name, value in there})
    return content


def _part(name: str, value: Any) -> Any:
    if name in {"allergens", "foods"} and isinstance(value, Mapping):
        return MappingProxyType({key: marked(title) for key, title in value.items()})
    if name == "words" and isinstance(value, Mapping):
        return MappingProxyType({key: tuple(map(marked, texts)) for key, texts in value.items()})
    if name == "sentences":
        return MappingProxyType({key: told(sentence, marked_words) for key, sentence in value.items()})
    if name in TAUGHT and isinstance(value, str):
        return marked(value)
    if name in TAUGHT and isinstance(value, tuple):
        return tuple(map(marked, value))
    return taught(value)


def marked(text: str) -> str:
    """Return a text of the kitchen's own in its brackets."""
    return f"{OPEN_TAUGHT}{text}{SHUT_TAUGHT}" if text else ""


def marked_words(piece: str) -> str:
    """Return a piece of a question's sentence in the kitchen's brackets, where there are words in it."""
    return marked(piece) if any(sign.isalpha() for sign in piece) else piece
