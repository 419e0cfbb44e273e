"""One technique as it stands in its folder while somebody writes it, right or wrong, with all that is wrong in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.content.files import shared_of
from trainer.content.house_words import allergens_in, source_in
from trainer.content.languages import languages_of
from trainer.content.limits import First
from trainer.content.nodes import Sheet
from trainer.content.said import ENGLISH
from trainer.content.techniques import drafted, technique_of
from trainer.kitchen.technique import Problem, Source, Technique


@dataclass(frozen=True, slots=True)
class Draft:
    """A technique being written: as much of it as can be read (None where a file cannot be), and what to mend.

    `problems` are those of its own folder, by file and line; `elsewhere` those of the files that everything names.
    """

    id: str
    folder: Path
    language: str
    languages: tuple[str, ...]
    technique: Technique | None
    problems: tuple[Problem, ...]
    elsewhere: tuple[Problem, ...]
    allergens: Mapping[str, str]
    sources: Mapping[str, Source]


def draft_of(content: Path, name: str, language: str, first: First) -> Draft | None:
    """Return the technique in a folder as it stands; None where there is no such folder.

    It is told in the language asked for where it has words in it, faulty or not, and in English where it has none.
    """
    folder = content / "techniques" / name
    if not name or Path(name).name != name or name.startswith(".") or not folder.is_dir():
        return None
    elsewhere: list[Problem] = []
    own: list[Problem] = []
    shared = shared_of(content, elsewhere, language, first)
    told = language if language in languages_of(folder) else ENGLISH
    technique_of(folder, shared.around, Sheet("techniques", own))
    technique = drafted(folder, replace(shared.around, language=told), Sheet(f"techniques/{name}", []))
    return Draft(
        id=name,
        folder=folder,
        language=told,
        languages=languages_of(folder),
        technique=technique,
        problems=_in_order(own),
        elsewhere=_in_order(elsewhere),
        allergens=allergens_in(shared.words, shared.allergens),
        sources={key: source_in(shared.words, source) for key, source in (shared.sources or {}).items()},
    )


def _in_order(problems: list[Problem]) -> tuple[Problem, ...]:
    """Return problems once each, by file and line."""
    return tuple(sorted(set(problems), key=lambda found: (found.file, found.line, found.problem)))
