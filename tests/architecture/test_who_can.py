"""Who can do it instead is said in a whole sentence, since a page puts it behind the reason."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import trainer
from trainer.actions.outcome import Refused
from trainer.kitchen.entitlement import Entitlement

PROGRAM = Path(trainer.__file__).parent
PLACES = {Refused.__name__: 1, Entitlement.__name__: 2}
ENDS = ("A_MANAGER", "ANOTHER_MANAGER")


def told() -> Iterator[tuple[str, str]]:
    """Return every sentence that says who can, with the file it stands in: given in place, or named above."""
    for file in sorted(PROGRAM.rglob("*.py")):
        text = file.read_text(encoding="utf-8")
        if any(name in text for name in (*PLACES, *ENDS)):
            for node in ast.walk(ast.parse(text)):
                for words in _who_can(node):
                    yield file.name, words


def _who_can(node: ast.AST) -> list[str]:
    """Return the English of who can in a refusal, an answer or a constant; none where it is empty or worked out."""
    if isinstance(node, ast.Assign) and any(isinstance(t, ast.Name) and t.id in ENDS for t in node.targets):
        return _english(node.value)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in PLACES:
        place = PLACES[node.func.id]
        given = node.args[place : place + 1] + [k.value for k in node.keywords if k.arg == "who_can"]
        return [words for each in given for words in _english(each)]
    return []


def _english(node: ast.expr) -> list[str]:
    """Return the pattern of a `message`, both of a `plural`."""
    if (
        isinstance(node, ast.Call)
        and isinstance(node.func, ast.Name)
        and node.func.id in ("message", "plural", "say", "say_many")
    ):
        return [str(a.value) for a in node.args if isinstance(a, ast.Constant) and isinstance(a.value, str)]
    return []


def test_there_are_such_sentences() -> None:
    """What is looked for is found."""
    assert len(list(told())) >= 10


@pytest.mark.parametrize(("file", "words"), sorted(set(told())))
def test_who_can_is_a_whole_sentence(file: str, words: str) -> None:
    """A capital or a name first, three words at the least, a full stop: “then try again. a manager” was none."""
    assert words[0].isupper() or words[0] == "{", (file, words)
    assert len(words.split()) >= 3, (file, words)
    assert words.endswith("."), (file, words)
