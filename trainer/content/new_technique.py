"""A technique begun: a folder with structure and words to fill in, from a name.

The structure is whole, so that it can be read at once; the words are blanks, `___`, and `content check` lists each
until it is written. So nothing half said is ever taught.
"""

from __future__ import annotations

import json
import re
import unicodedata
from datetime import date
from pathlib import Path

from trainer.content.editor_schemas import SCHEMAS
from trainer.content.kinds import FIGURE
from trainer.content.mapping_reader import BLANK, ID, SHORT

PATTERNS = Path(__file__).parent / "patterns"
SCHEMA_FOLDER = ".schema"
HEADS = {
    "en": "The words of this technique.",
    "es": "The words in Spanish: when en.yaml is done, copy it over this file and write each text in Spanish. Or take "
    "the file away; English is used then.",
}


class CannotBegin(ValueError):
    """A technique that cannot be begun; the message says why and what to do."""


def technique_id(name: str) -> str:
    """Return the id of a technique from its name: small letters, accents off, _ between words.

    >>> technique_id("Sauté of mushrooms"), technique_id("Pâte à choux")
    ('saute_of_mushrooms', 'pate_a_choux')
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "_", plain.lower()).strip("_")


def begin_technique(content: Path, name: str, today: date) -> Path:
    """Make the folder of a new technique, and return it; CannotBegin where the name will not do, or is there already.

    The schemas for editors are written beside the techniques, where the first line of each file looks for them.
    """
    title = " ".join(name.split())
    key = _usable_id(title)
    folder = content / "techniques" / key
    if not content.is_dir():
        raise CannotBegin(f"There is no content folder {content}. Copy the one that came with the program there first.")
    if folder.exists():
        raise CannotBegin(f"{folder} is there already. Choose another name, or edit what is there.")
    folder.mkdir(parents=True)
    structure = (PATTERNS / "technique.yaml").read_text(encoding="utf-8")
    _write(folder / "technique.yaml", "technique", structure.format(title=title, today=today.isoformat()))
    words = (PATTERNS / "words.yaml").read_text(encoding="utf-8")
    for language, head in HEADS.items():
        told = json.dumps(title, ensure_ascii=False) if language == "en" else BLANK
        _write(folder / f"{language}.yaml", "words", words.format(head=head, title=told))
    write_schemas(content)
    return folder


def write_schemas(content: Path) -> Path:
    """Write the schemas of all kinds of files into a content folder, for editors, and return where they lie."""
    folder = content / SCHEMA_FOLDER
    folder.mkdir(exist_ok=True)
    for kind, schema in SCHEMAS.items():
        (folder / f"{kind}.json").write_text(
            json.dumps(schema(), indent=1, ensure_ascii=False) + "\n", encoding="utf-8"
        )
    return folder


def _usable_id(title: str) -> str:
    """Return the id for a title; CannotBegin where the title cannot stand in a words file, or gives no id."""
    if not title:
        raise CannotBegin('The name is empty. Write what a cook would call it: "Pasta nesting".')
    if len(title) > SHORT:
        raise CannotBegin(f"The name is {len(title)} letters long. Keep it within {SHORT}.")
    if FIGURE.search(title) or "{" in title or "}" in title:
        raise CannotBegin(f"{title!r} holds a figure or a brace. Spell the number out: words hold no figures.")
    key = technique_id(title)
    if not ID.fullmatch(key):
        raise CannotBegin(f"{title!r} gives no usable id. Begin it with a letter from a to z.")
    return key


def _write(path: Path, kind: str, text: str) -> None:
    """Write a file with the line that tells an editor its schema."""
    path.write_text(f"# yaml-language-server: $schema=../../{SCHEMA_FOLDER}/{kind}.json\n{text}", encoding="utf-8")
