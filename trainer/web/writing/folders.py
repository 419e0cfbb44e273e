"""The technique that is being written: its files, what is wrong with them, and what they may name."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from flask import abort

from trainer.actions.writing import own_folder
from trainer.content.draft import TechniqueDraft, draft_of
from trainer.content.form_fields import Part
from trainer.content.mapping_reader import BLANK
from trainer.content.round_trip import NotWritable
from trainer.content.written import STRUCTURE, WrittenTechnique
from trainer.messages import message
from trainer.store.catalogues import ENGLISH
from trainer.web import guard, reading
from trainer.web.reading import said
from trainer.web.writing.fields import Names


@dataclass(frozen=True)
class Writing:
    """A technique that is being written."""

    id: str
    folder: Path
    written: WrittenTechnique
    draft: TechniqueDraft

    @property
    def content(self) -> Path:
        """Return the content folder it lies in."""
        return self.folder.parents[1]

    @cached_property
    def names(self) -> Names:
        """Return what its files may name."""
        return Names.of(self.written, self.draft)

    @property
    def title(self) -> str:
        """Return what it is called, in the reader's language where it has a name there."""
        for language in (reading.now().language, ENGLISH):
            tree = self.written.trees.get(language)
            found = tree.get("title") if tree is not None else None
            if isinstance(found, str) and found != BLANK:
                return found
        return self.id.replace("_", " ")

    def entry(self, part: Part, id: str) -> tuple[str, str]:
        """Return how an entry begins, in the reader's language where it is written in it, and that language."""
        return self.written.title(part, id, reading.now().language)

    @property
    def numbers(self) -> tuple[str, ...]:
        """Return the names of its measured lines, as words name them in braces."""
        return tuple(f"{{{id}}}" for id in self.written.trees[STRUCTURE].get("standard") or ())


def content_folder() -> Path | None:
    """Return the kitchen's own content folder; None where it has none of its own."""
    k = guard.kitchen()
    if k.teaching is None:
        abort(404)
    return own_folder(k)


def writing_of(technique: str) -> Writing:
    """Return a technique of the kitchen's own folder; one whose files are no YAML is told, with file and line."""
    content = content_folder()
    now = reading.now()
    draft = draft_of(content, technique, now.language, now.units, guard.today()) if content else None
    if draft is None:
        abort(404, said(message("There is no technique {technique} any more.", technique=technique)))
    try:
        written = WrittenTechnique.read(draft.folder)
        return Writing(technique, draft.folder, written, draft) if written.trees else abort(404)
    except (NotWritable, OSError):
        first = draft.problems[0] if draft.problems else None
        where = f"{first.file}:{first.line}: {first.message}" if first else str(draft.folder)
        words = message("A file of this technique cannot be read here: {where} Fix it in an editor first.", where=where)
        abort(404, said(words))
