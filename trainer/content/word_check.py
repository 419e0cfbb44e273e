"""What a technique says badly though it can be read: told by the check, and leaving nothing out.

Rules of this house for whoever writes: a cue names a sense, a sentence of a step is short, hot work has its caution,
Spanish is Spanish. A kitchen's files of before go on being taught as they are, whatever is told here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path

from trainer.content.kinds import BRACE, Written
from trainer.content.lines import TypedLine
from trainer.content.mapping_reader import BLANK
from trainer.content.nodes import Diagnostics, MappingNode, Node, ScalarNode, SequenceNode, read_tree
from trainer.content.techniques import STRUCTURE, TechniqueFiles, TechniqueWords
from trainer.kitchen.technique import Problem
from trainer.recipe_math.quantity import TEMPERATURE
from trainer.store.catalogues import ENGLISH

SPANISH = "es"
LONGEST_SENTENCE = {ENGLISH: 20, SPANISH: 26}
"""Words in a sentence of a step; Spanish takes about a quarter more for the same."""
SENSES = {
    ENGLISH: re.compile(r"\b(look|sound|feel|smell|taste|see|hear|show)s?\b", re.IGNORECASE),
    SPANISH: re.compile(
        r"\b(ven?|ves|mira|nota|parece|suenan?|oyen?|oyes|sienten?|sientes|huelen?|hueles|saben?|tocas?|leen?|lees|busca)\b",
        re.IGNORECASE,
    ),
}
SENSE_HINTS = {
    ENGLISH: "Begin it with Looks, Sounds, Feels, Smells or Tastes.",
    SPANISH: "Begin it with Se ve, Suena, Se siente, Huele or Sabe.",
}
HOT = re.compile(
    r"\b(boil(s|ing)?|fry(ing)?|fries|sear(s|ing)?|flames?|oven|broiler|griddle|torch|steam"
    r"|hot (oil|fat|pan|pot|water))\b",
    re.IGNORECASE,
)
HEAT_MARKS = frozenset({"hot_surface", "flame"})
ENGLISH_ONLY = frozenset(
    (
        "the",
        "and",
        "of",
        "to",
        "with",
        "in",
        "is",
        "it",
        "for",
        "on",
        "from",
        "at",
        "your",
        "until",
        "that",
        "this",
        "not",
    )
)
SPANISH_ONLY = frozenset(
    ("el", "la", "los", "las", "de", "del", "y", "con", "en", "es", "un", "una", "para", "por", "que", "se", "al", "su")
)
FEWEST_WORDS = 4
A_YEAR = timedelta(days=366)
WORD = re.compile(r"[^\W\d_]+")
NOT_SENTENCES = frozenset({"questions", "words", "equipment", "tools"})


def word_problems(content: Path, techniques: Mapping[str, TechniqueFiles], today: date) -> tuple[Problem, ...]:
    """Return what the techniques of a content folder say badly."""
    found: list[Problem] = []
    for id, files in techniques.items():
        found += problems_of(files, content / "techniques" / id, today)
    return tuple(found)


def problems_of(files: TechniqueFiles, folder: Path, today: date | None) -> tuple[Problem, ...]:
    """Return what one technique says badly, with file, line and how to fix it; of late editions only with a day."""
    own = Diagnostics(f"techniques/{folder.name}", [])
    structure = own.of(f"{own.file}/{STRUCTURE}")
    _check_lines(files, structure)
    _check_hazards(files, structure)
    _check_needed(files, structure)
    if today is not None:
        _check_editions(files, structure, today)
    for language in LONGEST_SENTENCE:
        words = files.files.words.get(language)
        if isinstance(words, TechniqueWords):
            _check_steps(words, language, own.of(f"{own.file}/{language}.yaml"))
    _check_spanish(folder, own)
    return tuple(own.problems)


def _check_lines(files: TechniqueFiles, diagnostics: Diagnostics) -> None:
    """Tell a tolerance as large as its target: nothing would be too little."""
    for id, line in (files.structure.block.standard or {}).items():
        if not isinstance(line, TypedLine) or line.target is None or line.give_or_take is None:
            continue
        if line.target.unit.dimension != TEMPERATURE and line.give_or_take.base >= line.target.base:
            problem = f"{id} gives or takes {line.give_or_take} of {line.target}: nothing is too little."
            diagnostics.warn(line.at.lines["give_or_take"], problem, "Make give_or_take smaller than the target.")


def _check_hazards(files: TechniqueFiles, diagnostics: Diagnostics) -> None:
    """Tell a caution that stands above no step, and hot work before which none of heat stands."""
    block = files.structure.block
    named = {name for step in block.steps.values() for name in step.hazards}
    for id in block.hazards.keys() - named:
        hint = f"Name it under `hazards` of the step it guards: hazards: [{id}]."
        diagnostics.warn(block.hazards[id].at.line, f"No step names the hazard {id}.", hint)
    hot = {id for id, hazard in block.hazards.items() if hazard.mark in HEAT_MARKS}
    words = files.files.words.get(ENGLISH)
    told = words.steps if isinstance(words, TechniqueWords) and words.steps else {}
    for id, step in block.steps.items():
        if hot & {*step.hazards}:
            return
        do = told[id].do if id in told else None
        found = HOT.search(do.text) if do else None
        if found:
            problem = f"The step {id} is hot work ({found[0]}), and no caution of heat stands above it or before it."
            hint = "Add a hazard with the mark hot_surface or flame, and name it under `hazards` of the step."
            diagnostics.warn(step.at.line, problem, hint)
            return


def _check_needed(files: TechniqueFiles, diagnostics: Diagnostics) -> None:
    """Tell a checklist that can be met with everything that matters missed."""
    block = files.structure.block
    if block.checklist and not any(point.critical for point in files.structure.points):
        hint = "Give what is law or the result its type; of the former kind, write `critical: yes`."
        diagnostics.warn(block.at.lines["checklist"], "No point of the checklist is always needed.", hint)


def _check_editions(files: TechniqueFiles, diagnostics: Diagnostics, today: date) -> None:
    """Tell an edition that begins so late that its year is likely a slip."""
    for edition in files.structure.block.editions:
        if edition.since > today + A_YEAR:
            problem = f"Edition {edition.number} starts on {edition.since}, more than a year from today."
            diagnostics.warn(edition.at.lines["since"], problem, "Check the year.")


def _check_steps(words: TechniqueWords, language: str, diagnostics: Diagnostics) -> None:
    """Tell a cue that names no sense, and a sentence that nobody keeps in mind while the hands work."""
    for id, step in (words.steps or {}).items():
        if step.cue and BLANK not in step.cue.text and step.cue.text and not SENSES[language].search(step.cue.text):
            diagnostics.warn(step.cue.line, f"The cue of {id} names no sense.", SENSE_HINTS[language])
        if step.do:
            _check_sentences(step.do, id, language, diagnostics)


def _check_sentences(do: Written, id: str, language: str, diagnostics: Diagnostics) -> None:
    most = LONGEST_SENTENCE[language]
    for sentence in re.split(r"(?<=[.!?:;])\s", BRACE.sub("x", do.text)):
        count = len(WORD.findall(sentence))
        if count > most:
            problem = f"A sentence of the step {id} has {count} words: {sentence[:40]} ..."
            diagnostics.warn(do.line, problem, f"Say it in {most} words or fewer, or in two sentences.")


def _check_spanish(folder: Path, own: Diagnostics) -> None:
    """Tell what stands in the Spanish file and is English."""
    english, spanish = (read_tree(folder / f"{language}.yaml", Diagnostics("", [])) for language in (ENGLISH, SPANISH))
    if not (folder / f"{SPANISH}.yaml").is_file() or english is None or spanish is None:
        return
    said = {path: each.value for path, each in _sentences(english)}
    for path, each in _sentences(spanish):
        words = [word.lower() for word in WORD.findall(BRACE.sub(" ", each.value))]
        is_same = len(words) >= FEWEST_WORDS and " ".join(said.get(path, "").split()) == " ".join(each.value.split())
        if is_same or _is_english(words):
            problem = f"{path[-1]} is in English in the Spanish file: {each.value[:40].strip()} ..."
            own.of(f"{own.file}/{SPANISH}.yaml").warn(each.line, problem, "Write it in Spanish.")


def _is_english(words: Iterable[str]) -> bool:
    """Return whether a text has mostly the little words of English: three or more, and twice those of Spanish."""
    found = list(words)
    english = sum(word in ENGLISH_ONLY for word in found)
    return english >= 3 and english > 2 * sum(word in SPANISH_ONLY for word in found)


def _sentences(node: Node, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], ScalarNode]]:
    """Yield the texts of a words file that are sentences, with what leads to them; blanks are none."""
    if isinstance(node, ScalarNode):
        if BLANK not in node.value:
            yield path, node
    elif isinstance(node, MappingNode):
        for key, value in node.items:
            if path or key.value not in NOT_SENTENCES:
                yield from _sentences(value, (*path, key.value))
    elif isinstance(node, SequenceNode):
        for place, each in enumerate(node.items):
            yield from _sentences(each, (*path, str(place)))
