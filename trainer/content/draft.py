"""One technique as it stands in its folder while a person writes it, right or wrong, with all that is wrong in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from trainer.content.files import SharedFiles, in_order
from trainer.content.house_words import allergens_in, house_words, source_in, with_allergens_in
from trainer.content.languages import languages_of
from trainer.content.limits import First
from trainer.content.mapping_reader import Known
from trainer.content.nodes import Diagnostics
from trainer.content.skills import SettledSkills
from trainer.content.techniques import TechniqueFiles, technique_files
from trainer.content.word_check import problems_of
from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.technique import Limit, Problem, Source, Technique
from trainer.store.catalogues import ENGLISH


@dataclass(frozen=True, slots=True)
class TechniqueDraft:
    """A technique being written: as much of it as can be read (None where a file cannot be), and what to fix.

    `problems` are those of its own folder, by file and line; `elsewhere` those of the files that everything names.
    `known` are the names its files may use, `code` the limits of the local code.
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
    question_words: QuestionWords
    known: Known
    code: Mapping[str, Limit]


def draft_of(content: Path, name: str, language: str, first: First, today: date | None = None) -> TechniqueDraft | None:
    """Return the technique in a folder as it stands; None where there is no such folder.

    It is told in the language asked for where it has words in it, faulty or not, and in English where it has none.
    With a day, an edition that begins much later is told.
    """
    folder = content / "techniques" / name
    if not name or Path(name).name != name or name.startswith(".") or not folder.is_dir():
        return None
    elsewhere, own = Diagnostics("", []), Diagnostics("", [])
    shared = SharedFiles.read(content, elsewhere)
    read, words = technique_files(folder, shared.context, own), house_words(content, language)
    told = language if read and language in read.files.words else ENGLISH
    said_badly = problems_of(read, folder, today) if read else ()
    drawn = read.draft(told, first, _skills(shared, read, elsewhere).told(told, first)) if read else None
    return TechniqueDraft(
        id=name,
        folder=folder,
        language=told,
        languages=languages_of(folder),
        technique=with_allergens_in(house_words(content, told), drawn) if drawn else None,
        problems=in_order([*own.problems, *said_badly]),
        elsewhere=in_order(elsewhere.problems),
        allergens=allergens_in(words, shared.allergens),
        sources={id: source_in(words, source) for id, source in (shared.sources or {}).items()},
        question_words=shared.questions.told(told),
        known=shared.context.known,
        code=shared.context.code,
    )


def _skills(shared: SharedFiles, read: TechniqueFiles, elsewhere: Diagnostics) -> SettledSkills:
    """Return the skills of a kitchen as far as the technique that is written asks for them."""
    named = {id: shared.skills[id] for id in read.structure.block.knowledge if id in shared.skills}
    others = {each.structure.block.of for each in named.values()} - {"", read.structure.id}
    files = {id: technique_files(shared.folder / "techniques" / id, shared.context, elsewhere) for id in others}
    sound = {id: each for id, each in files.items() if each is not None}
    return replace(shared, skills=named).settled({**sound, read.structure.id: read})
