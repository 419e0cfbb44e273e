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
from trainer.messages import Message, message, translate

PATTERNS = Path(__file__).parent / "patterns"
SCHEMA_FOLDER = ".schema"
SKILLS = {
    "batch": ("scale_by_yield", "old_portions: 10 to 40 step 1, new_portions: 12 to 90 step 1"),
    "portions": ("portions_from_batch", "batch_pounds: 6 to 20 step 1/2, portion_ounces: 3 to 8 step 1/4"),
    "buying": ("amount_to_buy", "edible_pounds: 2 to 20 step 1/4, edible_percent: 60 to 94 step 1"),
}
"""The skills begun beside a technique, by the end of their id: what each asks, and ranges as an example.

They can be asked of any work that is weighed, and need no other word than a food.
"""
SKILL_HEADS = {
    "en": "The words of this skill.",
    "es": "The words in Spanish: when en.yaml is done, copy it over this file and write each text in Spanish.",
}
HEADS = {
    "en": "The words of this technique.",
    "es": "The words in Spanish: when en.yaml is done, copy it over this file and write each text in Spanish. Or take "
    "the file away; English is used then.",
}


class CannotBegin(ValueError):
    """A technique that cannot be begun; `told` says why and what to do."""

    def __init__(self, told: Message) -> None:
        super().__init__(translate(told))
        self.told = told


def technique_id(name: str) -> str:
    """Return the id of a technique from its name: small letters, accents off, _ between words.

    >>> technique_id("Sauté of mushrooms"), technique_id("Pâte à choux")
    ('saute_of_mushrooms', 'pate_a_choux')
    """
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "_", plain.lower()).strip("_")


def begin_technique(content: Path, name: str, today: date) -> Path:
    """Make the folder of a new technique, and return it; CannotBegin where the name will not do, or is there already.

    What it asks is begun too: three skills, a folder each in `skills/`, named after the technique.
    The schemas for editors are written beside the techniques, where the first line of each file looks for them.
    """
    title = " ".join(name.split())
    key = _usable_id(title)
    folder = content / "techniques" / key
    if not content.is_dir():
        words = message(
            "There is no content folder {folder}. Copy the one that came with the program there first.",
            folder=str(content),
        )
        raise CannotBegin(words)
    skills = {f"{key}_{name}": asked for name, asked in SKILLS.items()}
    for made in (folder, *(content / "skills" / id for id in skills)):
        if made.exists():
            words = message("{id} is there already. Choose another name, or edit what is there.", id=made.name)
            raise CannotBegin(words)
    folder.mkdir(parents=True)
    structure = (PATTERNS / "technique.yaml").read_text(encoding="utf-8")
    _write(
        folder / "technique.yaml",
        "technique",
        structure.format(title=title, key=key, skills=", ".join(skills), today=today.isoformat()),
    )
    pattern = (PATTERNS / "words.yaml").read_text(encoding="utf-8")
    for language, head in HEADS.items():
        told = json.dumps(title, ensure_ascii=False) if language == "en" else BLANK
        _write(folder / f"{language}.yaml", "words", pattern.format(head=head, title=told))
    for id, (family, ranges) in skills.items():
        _begin_skill(content / "skills" / id, family, ranges)
    write_schemas(content)
    return folder


def _begin_skill(folder: Path, family: str, ranges: str) -> None:
    """Make the folder of one skill: what it asks, with its ranges as an example, and words to fill in."""
    folder.mkdir(parents=True)
    structure, words = ((PATTERNS / f"{name}.yaml").read_text(encoding="utf-8") for name in ("skill", "skill_words"))
    _write(folder / "skill.yaml", "skill", structure.format(family=family, ranges=ranges))
    for language, head in SKILL_HEADS.items():
        _write(folder / f"{language}.yaml", "skill_words", words.format(head=head))


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
        raise CannotBegin(message("The name is empty. Write what a cook would call it: “Pasta nesting”."))
    if len(title) > SHORT:
        words = message("The name is {length} letters long. Keep it within {most}.", length=len(title), most=SHORT)
        raise CannotBegin(words)
    if FIGURE.search(title) or "{" in title or "}" in title:
        words = message("“{name}” holds a figure or a brace. Spell the number out: words hold no figures.", name=title)
        raise CannotBegin(words)
    key = technique_id(title)
    if not ID.fullmatch(key):
        raise CannotBegin(message("“{name}” gives no usable id. Begin it with a letter from a to z.", name=title))
    return key


def _write(path: Path, kind: str, text: str) -> None:
    """Write a file with the line that tells an editor its schema."""
    path.write_text(f"# yaml-language-server: $schema=../../{SCHEMA_FOLDER}/{kind}.json\n{text}", encoding="utf-8")
