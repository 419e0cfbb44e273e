"""Questions that hardly ask anything: a setting whose answer is nearly always the same, told by file and line.

This is told by the check alone. The technique is taught all the same, so that no station of a kitchen's own older
content disappears because of it.
"""

from __future__ import annotations

from pathlib import Path

from trainer.content.nodes import Keyed, Sheet, Text, read_tree
from trainer.content.schema import Fields
from trainer.kitchen.quiz.luck import common_answers
from trainer.kitchen.technique import Content, Problem

STRUCTURE = "technique.yaml"
MEND = "Widen the ranges so that answers differ, or take this family out of the technique."


def answers_too_common(folder: Path, content: Content | None) -> tuple[Problem, ...]:
    """Return a problem for each setting of a sum with one answer in more than half of its questions."""
    found = []
    for technique in content.techniques.values() if content else ():
        for luck in common_answers(technique):
            path = folder / "techniques" / technique.id / STRUCTURE
            line = _line_of(path, luck.family)
            found.append(Problem(f"techniques/{technique.id}/{STRUCTURE}", line, luck.words, MEND, leaves_out=False))
    return tuple(found)


def _line_of(path: Path, family: str) -> int:
    """Return the line on which a family is set; the first where it cannot be found."""
    sheet = Sheet(path.name, [])
    tree = read_tree(path, sheet)
    if not isinstance(tree, Keyed):
        return 1
    for node in Fields.of(tree, sheet, path.name).many("questions", required=False):
        named = {key.value: value for key, value in node.items} if isinstance(node, Keyed) else {}
        if isinstance(set_here := named.get("family"), Text) and set_here.value == family:
            return node.line
    return 1
