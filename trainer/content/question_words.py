"""The words of questions: `questions/<group>/<language>.yaml`, families by name, beside the techniques.

A kitchen whose own content has no words for a family is told those that come with the program; so is a language in
which a family's words have a problem.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional, read_file
from trainer.content.kinds import BRACE, Kind, Table
from trainer.content.mapping_reader import LONG, MappingReader, nearest
from trainer.content.nodes import Diagnostics, Node
from trainer.content.shipped import shipped
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.quiz.family import AnyFamily
from trainer.kitchen.quiz.sentences import FamilyWords, QuestionWords, WrongWords
from trainer.store.catalogues import ENGLISH

QUESTIONS, FOODS, SHARED = "questions", "foods", "shared"
SENTENCES = kinds.by_id(kinds.text(2 * LONG))
FOOD_NAMES = kinds.by_id(kinds.text())


class WrongMethodBlock(Block):
    """What is said of a wrong method."""

    cook: str = key(kinds.text(), "To the cook who used it: what they did, and what to do instead.")
    teacher: str = key(kinds.text(), "To the teacher: what it means.")
    clause: str = optional(kinds.text(), "What is done, in one clause that goes after “if”: the loss is left out.")
    was: str = optional(kinds.text(), "What was done, in one clause that goes after “twice”: the loss was left out.")


class FamilyBlock(Block):
    """The words of one question family."""

    title: str = key(kinds.text(), "What the family is called.")
    words: Table[tuple[str, ...]] | None = optional(
        kinds.by_id(kinds.list_of(kinds.text(), 1)), "Lists of words; one of each is picked."
    )
    sentences: Table[str] | None = key(SENTENCES, "What is asked, and the lines of the solution; numbers in braces.")
    wrong: Table[WrongMethodBlock] | None = key(
        kinds.by_id(kinds.nested(WrongMethodBlock)), "What is said of each wrong method."
    )
    caution: str = optional(kinds.text(), "What to mind, of a family about heat, time, chemicals or allergens.")


def families_file() -> Kind:
    """Return the kind of a whole file: families by name, and under `shared` the sentences that several of them use."""
    family = kinds.nested(FamilyBlock)

    def read(node: Node, name: str, at: MappingReader) -> dict[str, ReadFamily]:
        return _families_in(at.inner(node, name))

    properties = {SHARED: SENTENCES.schema, **dict.fromkeys(FAMILIES, family.schema)}
    schema = {"type": "object", "properties": properties, "additionalProperties": False}
    written = "under `shared`, sentences that several families use; under the name of each family, keys, below"
    return Kind(written, read, schema, blocks=family.blocks)


ReadFamily = tuple[FamilyWords, FamilyBlock]
"""The words of a family, and the block of the file they were read from."""


@dataclass(frozen=True, slots=True)
class QuestionFiles:
    """The words of questions as a folder has them, by language, each family without a problem."""

    own: Mapping[str, Mapping[str, FamilyWords]]
    foods: Mapping[str, Mapping[str, str]]

    @classmethod
    def read(cls, folder: Path, diagnostics: Diagnostics) -> QuestionFiles:
        """Return what stands in the folder's `questions`, in every language, each held to what the families need."""
        own = folder / QUESTIONS
        told: dict[str, dict[str, FamilyWords]] = {}
        foods: dict[str, dict[str, str]] = {}
        for language in dict.fromkeys([ENGLISH, *sorted({path.stem for path in own.glob("*/*.yaml")})]):
            needed = {**_shipped(ENGLISH), **told.get(ENGLISH, {})}
            told[language] = _read(own, language, diagnostics, needed)
            foods[language] = _foods(own, language, diagnostics)
        return cls(told, foods)

    def told(self, language: str) -> QuestionWords:
        """Return the words of every family in a language.

        A family without words of its own in this language has the folder's English ones, else the program's.
        """
        usual = shipped_words(language)
        families = {**usual.families, **self.own.get(ENGLISH, {}), **self.own.get(language, {})}
        return QuestionWords(families, {**usual.foods, **self.foods.get(language, {})})


@cache
def shipped_words(language: str) -> QuestionWords:
    """Return the words that come with the program, in English where a language has none."""
    silent, folder = Diagnostics("", []), shipped("content") / QUESTIONS
    families = {**_shipped(ENGLISH), **_shipped(language)}
    return QuestionWords(families, {**_foods(folder, ENGLISH, silent), **_foods(folder, language, silent)})


@cache
def _shipped(language: str) -> Mapping[str, FamilyWords]:
    return _read(shipped("content") / QUESTIONS, language, Diagnostics("", []), {})


def _read(
    folder: Path, language: str, diagnostics: Diagnostics, needed: Mapping[str, FamilyWords]
) -> dict[str, FamilyWords]:
    """Return the families told in a language; where it is known what is *needed*, those that have just that."""
    found: dict[str, FamilyWords] = {}
    for path in sorted(folder.glob(f"*/{language}.yaml")):
        if path.parent.name == FOODS:
            continue
        own = diagnostics.of(f"{QUESTIONS}/{path.parent.name}/{path.name}")
        read: dict[str, ReadFamily] = read_file(path, families_file(), path.name, own) or {}
        for name, (words, block) in read.items():
            if not needed or _is_like(words, needed[name], language, block):
                found[name] = words
    return found


def _families_in(at: MappingReader) -> dict[str, ReadFamily]:
    """Return the families of one file that have no problem, each with the block it was read from."""
    shared: Table[str] = SENTENCES.read(at.nodes[SHARED], SHARED, at) if SHARED in at.nodes else Table(at)
    found = {}
    for name, node in at.nodes.items():
        if name == SHARED:
            continue
        if name not in FAMILIES:
            at.diagnostics.add(at.lines[name], f"There is no question family {name!r}.", nearest(name, FAMILIES))
            continue
        block = FamilyBlock.read(node, name, at)
        words = _words_of(block, FAMILIES[name], shared)
        if block.sound and words is not None:
            found[name] = words, block
    return found


def _words_of(block: FamilyBlock, kind: AnyFamily, shared: Mapping[str, str]) -> FamilyWords | None:
    """Return the words of a family; None where its lists, methods or caution are not those it has."""
    before = len(block.at.diagnostics.problems)
    lists = block.words.known(kind.words) if block.words else {}
    wrong = block.wrong.known(kind.methods()) if block.wrong else {}
    if kind.safety and not block.caution:
        block.at.missing("caution")
    if len(block.at.diagnostics.problems) > before:
        return None
    said = {
        name: WrongWords(each.cook, each.teacher, each.clause or "", each.was or "") for name, each in wrong.items()
    }
    return FamilyWords(block.title, lists, {**shared, **(block.sentences or {})}, said, block.caution or "")


def _is_like(words: FamilyWords, needed: FamilyWords, language: str, block: FamilyBlock) -> bool:
    """Return whether a family has the sentences, lists, methods and braces it needs; each that differs is a problem."""
    at, lines = block.at, block.sentences.at.lines if block.sentences else {}
    before = len(at.diagnostics.problems)
    for part in ("words", "sentences", "wrong"):
        there, wanted = getattr(words, part), getattr(needed, part)
        for id in wanted.keys() - there.keys():
            at.add(f"{at.name}: {part} has no {id}.", f"Add `{id}: ...` under {part}.")
        for id in there.keys() - wanted.keys():
            at.add(f"{at.name}: {part} has {id}, which it does not use.", nearest(id, wanted))
    for id in words.sentences.keys() & needed.sentences.keys():
        given = BRACE.findall(needed.sentences[id])
        for brace in set(BRACE.findall(words.sentences[id])) - set(given):
            message = f"{id} of {at.name} names {{{brace}}}, which it is not given."
            at.diagnostics.add(lines.get(id, at.line), message, nearest(brace, given))
    for id, picked in words.words.items():
        asked = len(needed.words.get(id, picked))
        if language != ENGLISH and len(picked) != asked:
            message = f"{id} of {at.name} has {len(picked)} words here and {asked} in English."
            at.add(message, "Give the same, in the same order.")
    return len(at.diagnostics.problems) == before


def _foods(folder: Path, language: str, diagnostics: Diagnostics) -> dict[str, str]:
    """Return what foods are called in a language, by id."""
    path = folder / FOODS / f"{language}.yaml"
    if not path.is_file():
        return {}
    own = diagnostics.of(f"{QUESTIONS}/{FOODS}/{path.name}")
    return dict(read_file(path, FOOD_NAMES, path.name, own) or {})
