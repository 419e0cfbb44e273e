"""What the check tells of each technique: how hard it reads, its points by type, what is asked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from trainer.content.reading_grade import grade
from trainer.kitchen.technique import Content, Technique

TYPES = ("law", "result", "craft")


def technique_records(content: Content | None) -> list[dict[str, object]]:
    """Return each technique by its id: its grade, its points by type, its questions by family and scenes by kind."""
    return [_record(technique) for technique in (content.techniques.values() if content else ())]


def _record(technique: Technique) -> dict[str, object]:
    steps = [text for step in technique.steps for text in (step.text, step.cue)]
    return {
        "technique": technique.id,
        "grade": grade(steps),
        "points": dict(points_by_type(technique)),
        "questions": dict(Counter(setting.family for setting in technique.questions)),
        "scenes": dict(Counter(scene.kind for scene in technique.scenes)),
    }


def points_by_type(technique: Technique) -> Counter[str]:
    """Return how many points of each type a checklist has; of the former kind, how many are critical and scored."""
    former = {True: "critical", False: "scored"}
    return Counter(point.type or former[point.critical] for point in technique.checklist)


def point_lines(content: Content | None) -> Iterator[str]:
    """Yield a line for each technique with a typed checklist: its points by type, and how much craft is needed."""
    for technique in content.techniques.values() if content else ():
        if technique.is_typed:
            count = points_by_type(technique)
            told = ", ".join(f"{count[kind]} {kind}" for kind in TYPES)
            parts = f", in {len(technique.parts)} parts" if technique.parts else ""
            yield f"{technique.id}: points: {told} ({technique.scored_needed} needed){parts}"
