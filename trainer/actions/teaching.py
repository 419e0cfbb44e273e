"""What a kitchen teaches: the texts its book published, and beside them the folder of files they are drafted in."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Literal

from trainer.content.ready import FOLDER, ReadyContent
from trainer.content.shipped import shipped
from trainer.content.texts import MissingText, Texts, changed_paths, lay_out, paths_in, stamp_of, texts_in
from trainer.kitchen.technique import Content, Problem
from trainer.store.catalogues import ENGLISH
from trainer.store.kitchen_file import KitchenFile
from trainer.store.problems import KitchenProblem

Units = Literal["us", "metric"]
SIGNS = 16  # of a digest, in the name of a folder
TEXTS = "texts"


@dataclass(frozen=True)
class Draft:
    """The files of a content folder as they are now: their texts, what they teach (in English), and what is wrong."""

    texts: Texts
    content: Content | None
    problems: tuple[Problem, ...]

    @cached_property
    def digest(self) -> str:
        """Return the digest that stands for every text."""
        return self.texts.digest


def draft_in(folder: Path, units: Units) -> Draft:
    """Return the files of a folder as they are now, for a kitchen yet to be made; OSError where they cannot be read."""
    return _draft(folder, ReadyContent(folder, folder, None), units)


def _draft(folder: Path, reader: ReadyContent, units: Units) -> Draft:
    content, problems = reader.read(ENGLISH, units)
    return Draft(texts_in(folder), content, problems)


@dataclass(frozen=True, slots=True)
class Drafted:
    """How the files differ from what is published: the paths of texts that were changed, added or taken out.

    A kitchen without content of its own teaches from what came with the program: a newer one brings newer files.
    """

    paths: tuple[str, ...] = ()
    came_with_program: bool = False


@dataclass
class Teaching:
    """Reads published texts and drafts for one kitchen; what it has read it keeps. `drafts` is the folder of files."""

    file: KitchenFile
    drafts: Path
    _published: dict[str, ReadyContent] = field(default_factory=dict)
    _compared: tuple[object, Drafted] | None = None

    def draft(self) -> Draft:
        """Return the files as they are now; OSError where they cannot be read."""
        reader = self._reader(self.drafts, self.file.folder / FOLDER)
        return _draft(self.drafts, reader, self.file.settings.units_first)

    def read(self, texts: str, language: str, units: Units) -> Content | None:
        """Return what published texts teach, by the digest of their manifest; None where they cannot be read."""
        try:
            return self._reading(texts).read(language, units)[0]
        except (MissingText, OSError):
            return None

    def folder_of(self, texts: str) -> Path:
        """Return the folder in which published texts lie as files."""
        return self._room(texts) / TEXTS

    def _room(self, texts: str) -> Path:
        return self.file.folder / FOLDER / texts[:SIGNS]

    def _reading(self, texts: str) -> ReadyContent:
        """Return the reader of published texts, which it lays out first."""
        if texts not in self._published:
            lay_out(texts, self.file.book.paper, self.folder_of(texts))
            self._published[texts] = self._reader(self.folder_of(texts), self._room(texts))
        return self._published[texts]

    def _reader(self, content: Path, kept_in: Path) -> ReadyContent:
        try:
            key = self.file.secret_key()
        except (KitchenProblem, OSError):
            key = None
        return ReadyContent(content, kept_in, key)

    def drafted(self, texts: str) -> Drafted:
        """Return how the files differ from published texts; nothing where the files cannot be read."""
        try:
            seen = (texts, stamp_of(self.drafts))
            if self._compared is None or self._compared[0] != seen:
                manifest = self.file.book.paper(texts) or b"{}"
                found = changed_paths(paths_in(manifest), paths_in(texts_in(self.drafts).manifest))
                self._compared = (seen, Drafted(found, self.drafts == shipped("content")))
        except OSError:
            return Drafted()
        return self._compared[1]
