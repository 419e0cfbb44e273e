"""One thing with two verdicts: points of two techniques that judge the same by other lines.

A cook who makes the same dish at two stations would pass at one and fail at the other. This is told by the check alone:
both techniques are taught all the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from trainer.content.declarations import Block
from trainer.content.limits import limit_text
from trainer.content.lines import RecipeLine
from trainer.content.nodes import Diagnostics
from trainer.content.techniques import STRUCTURE, TechniqueFiles
from trainer.kitchen.technique import Content, Limit, Problem, Technique

ONE_LINE = "Name one line at both, best of the recipe; or say in the words what differs."


@dataclass(frozen=True, slots=True)
class _Judged:
    """A line that a point of some technique is judged by, and where it is written."""

    technique: str
    point: str
    at: int
    line: Limit

    @property
    def ends(self) -> tuple[object, object]:
        return self.line.lowest, self.line.highest


def two_verdicts(techniques: Mapping[str, TechniqueFiles], content: Content | None) -> tuple[Problem, ...]:
    """Return a problem for each point that judges by another line what a technique before judges too.

    Two points judge the same where they say the same words about one kind of quantity, or name one line of a recipe.
    """
    diagnostics = Diagnostics("", [])
    first: dict[tuple[str, str], list[_Judged]] = {}
    for id, technique in sorted(content.techniques.items()) if content is not None else ():
        for what, judged in _judged_in(technique, techniques[id]):
            others = first.setdefault(what, [])
            other = next((each for each in others if each.technique != id and each.ends != judged.ends), None)
            if other is not None:
                said = f"{limit_text(judged.line)}, and {other.technique} judges the same ({other.point}) by"
                message = f"{judged.point} is judged by {said} {limit_text(other.line)}."
                diagnostics.of(f"techniques/{id}/{STRUCTURE}").warn(judged.at, message, ONE_LINE)
            others.append(judged)
    return tuple(diagnostics.problems)


def _judged_in(technique: Technique, read: TechniqueFiles) -> Iterator[tuple[tuple[str, str], _Judged]]:
    """Yield what each point of a technique judges: the words with the kind of quantity, the line of the recipe."""
    words = {point.id: " ".join(point.text.casefold().split()) for point in technique.checklist}
    standard: Mapping[str, Block] = read.structure.block.standard or {}
    for each in read.structure.asked:
        for line in each.point.lines:
            end = line.lowest or line.highest
            if end is None:
                continue
            judged = _Judged(technique.id, each.point.id, each.at.line, line)
            yield (words[each.point.id], str(end.unit.dimension)), judged
            named = standard.get(line.id)
            if isinstance(named, RecipeLine) and named.recipe is not None:
                yield ("recipe", named.recipe.text), judged
