"""Questions that hardly ask anything: a setting whose answer is nearly always the same, told by file and line.

This is told by the check alone. The technique is taught all the same, so that no station of a kitchen's own older
content disappears because of it.
"""

from __future__ import annotations

from pathlib import Path

from trainer.content.nodes import Diagnostics, MappingNode, Node, ScalarNode, SequenceNode, read_tree
from trainer.content.scene_check import bank_problems
from trainer.kitchen.quiz.luck import common_answers
from trainer.kitchen.technique import Content, Problem
from trainer.messages import translate

STRUCTURE = "technique.yaml"
HINT = "Widen the ranges so that answers differ, or take this family out of the technique."


def answers_too_common(folder: Path, content: Content | None) -> tuple[Problem, ...]:
    """Return a problem for each setting with one answer in too many questions, and for scenes that ask too little."""
    diagnostics = Diagnostics("", [])
    if content is None:
        return ()
    for technique in (each for each in content.techniques.values() if not each.knowledge):
        for luck in common_answers(technique, content.question_words):
            file = f"techniques/{technique.id}/{STRUCTURE}"
            diagnostics.of(file).warn(_line_of(folder / file, luck.family), translate(luck.words), HINT)
    for technique in content.techniques.values():
        file = f"techniques/{technique.id}/{STRUCTURE}"
        for scene, problem, hint in bank_problems(technique):
            diagnostics.of(file).warn(_line_of_scene(folder / file, scene), problem, hint)
    return tuple(diagnostics.problems)


def _line_of_scene(path: Path, scene: str) -> int:
    """Return the line on which a scene begins, or the scenes where none is named."""
    if not scene:
        return line_of_key(path, "scenes")
    scenes = _under(read_tree(path, Diagnostics("", [])), "scenes")
    for node in scenes.items if isinstance(scenes, SequenceNode) else ():
        named = _under(node, "id")
        if isinstance(named, ScalarNode) and named.value == scene:
            return node.line
    return 1


def line_of_key(path: Path, key: str) -> int:
    """Return the line on which a key of a whole file is written; the first where it is not there."""
    tree = read_tree(path, Diagnostics("", []))
    pairs = tree.items if isinstance(tree, MappingNode) else ()
    return next((name.line for name, _ in pairs if name.value == key), 1)


def _line_of(path: Path, family: str) -> int:
    """Return the line on which a family is set; the first where it cannot be found."""
    questions = _under(read_tree(path, Diagnostics("", [])), "questions")
    for node in questions.items if isinstance(questions, SequenceNode) else ():
        named = _under(node, "family")
        if isinstance(named, ScalarNode) and named.value == family:
            return node.line
    return 1


def _under(node: Node | None, key: str) -> Node | None:
    """Return what is written under a key of a mapping."""
    pairs = node.items if isinstance(node, MappingNode) else ()
    return next((value for name, value in pairs if name.value == key), None)
