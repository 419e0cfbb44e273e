"""Techniques: the structure and the words of one folder, read together into one record."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from trainer.kitchen.technique import Edition, Point, Technique, Word
from trainer.store.content_nodes import Sheet, read_tree
from trainer.store.content_pair import Around, Pair, numbers_of, standard_of, told_of
from trainer.store.content_parts import faults_of, hazards_of, points_of, steps_of
from trainer.store.content_questions import questions_of
from trainer.store.content_quiz import note_undrawable, quiz_of
from trainer.store.content_schema import SHORT, Fields
from trainer.store.content_words import Words

STRUCTURE = "technique.yaml"


def technique_of(folder: Path, around: Around, problems: Sheet) -> Technique | None:
    """Return the technique in a folder; None where anything in it is wrong: nobody learns from half a standard."""
    before = len(problems.problems)
    name = folder.name
    structure_sheet = Sheet(f"techniques/{name}/{STRUCTURE}", problems.problems)
    language = around.language if (folder / f"{around.language}.yaml").exists() else "en"
    words_sheet = Sheet(f"techniques/{name}/{language}.yaml", problems.problems)
    tree, told_tree = (
        read_tree(folder / STRUCTURE, structure_sheet),
        read_tree(folder / f"{language}.yaml", words_sheet),
    )
    if tree is None or told_tree is None:
        return None
    structure, told = Fields.of(tree, structure_sheet, name), Fields.of(told_tree, words_sheet, "the words")
    standard = standard_of(structure, around)
    words = Words(words_sheet, numbers_of(standard, around))
    technique = _technique(Pair(folder, structure, told, words, standard, around), language)
    structure.close()
    told.close()
    return technique if len(problems.problems) == before else None


def _technique(pair: Pair, language: str) -> Technique:
    """Return the record; where something was wrong it is only good for finding what else is."""
    structure, told, words = pair.structure, pair.told, pair.words
    hazards, points = hazards_of(pair), points_of(pair)
    questions, quiz = questions_of(pair), structure.block("quiz")
    passing = quiz_of(quiz, sum(setting.count for setting in questions))
    technique = Technique(
        id=pair.folder.name,
        title=words.under(told, "title", longest=SHORT),
        goal=words.under(told, "goal"),
        editions=_editions_of(structure),
        words=_vocabulary_of(pair),
        standard=tuple(pair.standard.values()),
        standard_text=_standard_text_of(pair),
        tools=tuple(words.of(node, "a tool", SHORT) for node in told.many("tools", required=False)),
        steps=steps_of(pair, {hazard.id for hazard in hazards}),
        faults=faults_of(pair),
        hazards=hazards,
        allergens=structure.words("allergens", pair.around.allergens, required=False),
        checklist=points,
        scored_needed=_at_most_scored(structure, points),
        questions=questions,
        need_right=passing.need_right,
        quiz_months=passing.months,
        sign_off_months=structure.whole("sign_off_months", 1, 120),
        sources=structure.words("sources", pair.around.sources, required=False),
        words_edition=language,
        plan=passing.plan,
    )
    note_undrawable(quiz, technique)
    return technique


def _standard_text_of(pair: Pair) -> tuple[str, ...]:
    """Return the sentence for each measured line, in the order of the structure."""
    block = pair.structure.block("standard", required=False)
    told = told_of(pair, "standard", block.lines if block else {}, "line")
    return tuple(pair.words.of(told.nodes.get(key), key) for key in pair.standard)


def _editions_of(structure: Fields) -> tuple[Edition, ...]:
    """Return the editions, numbered from one without a gap, each later than the one before."""
    found: list[Edition] = []
    for node in structure.many("editions"):
        fields = Fields.of(node, structure.sheet, "an edition")
        edition = Edition(
            fields.whole("number", 1, 999), fields.day("since"), fields.text("changed"), fields.yes("sign_offs_hold")
        )
        fields.close()
        if edition.number != len(found) + 1:
            mend = f"Number the editions from 1 without a gap: this is {len(found) + 1}."
            structure.sheet.note(node.line, f"Edition {edition.number} stands in place {len(found) + 1}.", mend)
        if found and edition.since <= found[-1].since:
            mend = f"An edition starts after the one before it, {found[-1].since}."
            structure.sheet.note(node.line, f"Edition {edition.number} starts on {edition.since}.", mend)
        found.append(edition)
    if not found:
        structure.sheet.note(structure.line, f"{structure.name} has no edition.", "Add one under `editions`.")
    return tuple(found)


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
