"""Techniques: the structure and the words of one folder, read together into one record."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

from trainer.content.languages import note_stray_files, told_in
from trainer.content.law import made_critical, points_held
from trainer.content.nodes import Keyed, Many, Node, Sheet, Text
from trainer.content.pair import Around, Pair, pair_of, told_of
from trainer.content.parts import faults_of, hazards_of, points_of, steps_of
from trainer.content.questions import note_too_few_words, questions_of
from trainer.content.quiz import note_undrawable, quiz_of
from trainer.content.said import ENGLISH
from trainer.content.schema import SHORT, Fields
from trainer.content.words import BRACE
from trainer.content.worked import COMPUTED
from trainer.kitchen.technique import Edition, Point, Technique, Word

STRUCTURE = "technique.yaml"
WORK = ("steps", "hazards", "checklist")
BESIDE_WORK = ("why", "figure")


def technique_of(folder: Path, around: Around, problems: Sheet) -> Technique | None:
    """Return the technique in a folder; None where anything in it is wrong: nobody learns from half a standard.

    Its words are in the language asked for, in English where it has none or bad ones in that language.
    """
    sheet = Sheet(f"techniques/{folder.name}", problems.problems)
    note_stray_files(folder, STRUCTURE, sheet)
    return told_in(folder, around, sheet, partial(_told, folder))


def _told(folder: Path, around: Around, problems: Sheet) -> Technique | None:
    """Return the technique in one language; None, with the reasons noted, where anything in it is wrong."""
    before = problems.faults
    technique = drafted(folder, around, problems)
    return technique if problems.faults == before else None


def drafted(folder: Path, around: Around, problems: Sheet) -> Technique | None:
    """Return as much of the technique in one language as can be read; None where a file cannot be.

    Only good for showing it to who is writing it: where a problem was noted, nobody is taught it.
    """
    pair = pair_of(folder, STRUCTURE, around, problems)
    if pair is None:
        return None
    technique = _technique(pair)
    pair.structure.close()
    pair.told.close()
    return technique


def _technique(pair: Pair) -> Technique:
    """Return the record; where something was wrong it is only good for finding what else is."""
    structure, told, words = pair.structure, pair.told, pair.words
    hazards, typed = hazards_of(pair), points_of(pair)
    points = points_held(typed, pair.around.code, structure.sheet)
    questions, quiz = questions_of(pair), structure.block("quiz")
    passing = quiz_of(quiz, sum(setting.count for setting in questions))
    technique = Technique(
        id=pair.folder.name,
        title=words.under(told, "title", longest=SHORT),
        goal=words.under(told, "goal"),
        editions=_editions_of(pair, points),
        words=_vocabulary_of(pair),
        standard=tuple(pair.standard.values()),
        standard_text=_standard_text_of(pair),
        tools=tuple(words.of(node, "a tool", SHORT) for node in told.many("tools", required=False)),
        steps=steps_of(pair, {hazard.id for hazard in hazards}),
        faults=faults_of(pair),
        hazards=hazards,
        allergens=structure.words("allergens", pair.around.allergens, required=False),
        checklist=points,
        scored_needed=_still_scored(_at_most_scored(structure, [each for each, _ in typed]), typed, points),
        questions=questions,
        need_right=passing.need_right,
        quiz_months=passing.months,
        sign_off_months=structure.whole("sign_off_months", 1, 120),
        sources=structure.words("sources", pair.around.sources, required=False),
        words_edition=pair.around.language,
        plan=passing.plan,
        safety_percent=passing.safety_percent,
        waits=passing.waits,
        named=_named_lines(pair),
    )
    note_too_few_words(structure, technique)
    note_undrawable(quiz, technique)
    _note_hidden_sources(structure, technique)
    return technique


def _note_hidden_sources(structure: Fields, technique: Technique) -> None:
    """Note a source that a number names and the list at the end leaves out: a reader is shown that list alone."""
    named = dict.fromkeys(limit.source for limit in technique.standard if limit.source != COMPUTED)
    for source in (each for each in named if each not in technique.sources):
        line = structure.lines.get("sources", structure.line)
        problem = f"A number comes from {source}, which sources leaves out."
        structure.sheet.note(line, problem, f"Add {source} to sources, so that a reader sees it.")


def _standard_text_of(pair: Pair) -> tuple[str, ...]:
    """Return the sentence for each measured line, in the order of the structure."""
    block = pair.structure.block("standard", required=False)
    told = told_of(pair, "standard", block.lines if block else {}, "line")
    return tuple(pair.words.of(told.nodes.get(key), key) for key in pair.standard)


def _named_lines(pair: Pair) -> frozenset[str]:
    """Return the measured lines that a step, a caution or a point of the checklist names, by brace or by key."""
    typed = [text for part in WORK for text in _typed(pair.structure.nodes.get(part))]
    told = [text for part in WORK for text in _typed(pair.told.nodes.get(part))]
    by_key = {text for key, text in typed if key in ("lasts", "limit")}
    by_brace = {found[1].strip() for key, text in told if key not in BESIDE_WORK for found in BRACE.finditer(text)}
    return frozenset(pair.standard) & (by_key | by_brace)


def _typed(node: Node | None, key: str = "") -> Iterator[tuple[str, str]]:
    """Return every text below a node as it was typed, each with the key it stands under."""
    if isinstance(node, Text):
        yield key, node.value
    elif isinstance(node, Many):
        yield from (found for each in node.items for found in _typed(each, key))
    elif isinstance(node, Keyed):
        yield from (found for inner, each in node.items for found in _typed(each, inner.value))


def _editions_of(pair: Pair, points: Collection[Point]) -> tuple[Edition, ...]:
    """Return the editions, numbered from one without a gap, each later than the one before."""
    structure, found = pair.structure, list[Edition]()
    for node in structure.many("editions"):
        edition = _edition(node, structure.sheet, [point.id for point in points])
        if edition.number != len(found) + 1:
            mend = f"Number the editions from 1 without a gap: this is {len(found) + 1}."
            structure.sheet.note(node.line, f"Edition {edition.number} stands in place {len(found) + 1}.", mend)
        if found and edition.since <= found[-1].since:
            mend = f"An edition starts after the one before it, {found[-1].since}."
            structure.sheet.note(node.line, f"Edition {edition.number} starts on {edition.since}.", mend)
        found.append(edition)
    if not found:
        structure.sheet.note(structure.line, f"{structure.name} has no edition.", "Add one under `editions`.")
    return _editions_told(pair, found)


def _edition(node: Node, sheet: Sheet, points: Collection[str]) -> Edition:
    """Return one edition; what an earlier sign-off must not have missed are points of today's checklist."""
    fields = Fields.of(node, sheet, "an edition")
    edition = Edition(
        number=fields.whole("number", 1, 999),
        since=fields.day("since"),
        changed=fields.text("changed"),
        sign_offs_hold=fields.yes("sign_offs_hold"),
        unless_missed=fields.words("unless_missed", points, required=False),
    )
    fields.close()
    return edition


def _editions_told(pair: Pair, editions: list[Edition]) -> tuple[Edition, ...]:
    """Return the editions with what changed in another language, where its words say it: `editions: [First., ...]`."""
    told = pair.told.many("editions", required=False) if pair.around.language != ENGLISH else ()
    if not told:
        return tuple(editions)
    if len(told) != len(editions):
        problem = f"editions tells {len(told)} of {len(editions)} editions."
        pair.words.sheet.note(told[0].line, problem, "Say what changed in each, in their order.")
        return tuple(editions)
    said = (pair.words.of(node, "an edition") for node in told)
    return tuple(replace(edition, changed=words) for edition, words in zip(editions, said, strict=True))


def _vocabulary_of(pair: Pair) -> tuple[Word, ...]:
    """Return the words a cook needs first; the key is the word itself."""
    block = pair.told.block("words", required=False)
    if block is None:
        return ()
    block.asked.update(block.nodes)
    return tuple(Word(key.replace("_", " "), pair.words.of(node, key)) for key, node in block.nodes.items())


def _at_most_scored(structure: Fields, points: Collection[Point]) -> int:
    """Return how many of the points that are not critical are needed."""
    scored = sum(not point.critical for point in points)
    needed = structure.whole("scored_needed", 0, 100)
    if needed > scored:
        mend = f"Ask for {scored} or fewer, or add points that are not critical."
        line = structure.lines["scored_needed"]
        structure.sheet.note(line, f"scored_needed is {needed}, but {scored} points are scored.", mend)
    return needed


def _still_scored(needed: int, typed: Iterable[tuple[Point, int]], held: Iterable[Point]) -> int:
    """Return how many scored points are needed where the code made some of those counted on critical."""
    return max(0, needed - made_critical([point for point, _ in typed], held))
