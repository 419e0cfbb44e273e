"""What changed in the steps of a technique between two of its editions, word by word."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Literal, NamedTuple

from trainer.kitchen.technique import Step, Technique


class Piece(NamedTuple):
    """Some words of a step: as they were, gone, or new."""

    kind: Literal["same", "gone", "new"]
    words: str


@dataclass(frozen=True, slots=True)
class StepChange:
    """A step that changed, with its words before and now in one; `number` is its place now, 0 where it is gone."""

    number: int
    title: str
    pieces: tuple[Piece, ...]


def changed_steps(before: Technique, now: Technique) -> tuple[StepChange, ...]:
    """Return the steps whose words changed, in their order; then those that are gone."""
    old = {step.id: step for step in before.steps}
    found = [
        StepChange(number, step.title, pieces)
        for number, step in enumerate(now.steps, 1)
        if (pieces := pieces_of(_words(before, old.get(step.id)), _words(now, step)))
    ]
    left = {step.id for step in now.steps}
    gone = [StepChange(0, step.title, (Piece("gone", step.text),)) for step in before.steps if step.id not in left]
    return (*found, *gone)


def _words(technique: Technique, step: Step | None) -> str:
    """Return all a step says: its cautions, its sentence, its cue; nothing of a step that is not there."""
    if step is None:
        return ""
    cautions = [hazard.caution for hazard in technique.hazards if hazard.id in step.hazards]
    return " ".join(part for part in (*cautions, step.text, step.cue) if part)


def pieces_of(before: str, now: str) -> tuple[Piece, ...]:
    """Return two texts as one, piece by piece; nothing where they are the same.

    >>> pieces_of("Pour 3 fl oz in.", "Pour 2 fl oz in.")
    (Piece(kind='same', words='Pour'), Piece(kind='gone', words='3'), Piece(kind='new', words='2'), \
Piece(kind='same', words='fl oz in.'))
    """
    old, new = before.split(), now.split()
    return tuple(_pieces(old, new)) if old != new else ()


def _pieces(old: list[str], new: list[str]) -> Iterator[Piece]:
    for kind, a, b, c, d in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if kind == "equal":
            yield Piece("same", " ".join(new[c:d]))
            continue
        if a < b:
            yield Piece("gone", " ".join(old[a:b]))
        if c < d:
            yield Piece("new", " ".join(new[c:d]))
