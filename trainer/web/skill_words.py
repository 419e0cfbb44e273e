"""Entries about what a cook knows in words: an answer and how it was judged, a drill, a wait that was lifted."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from trainer.messages import Text, joined, message
from trainer.web import reading

if TYPE_CHECKING:
    from trainer.web.entry_words import Naming

KIND_WORDS: Mapping[str, Text] = {
    "answered": message("Answered a question"),
    "drill_done": message("Practised"),
    "drill_given": message("Practised with a person"),
    "wait_lifted": message("Wait lifted"),
}
VERDICT_WORDS: Mapping[str, Text] = {
    "right": message("right"),
    "rounded_early": message("rounded too early"),
    "method": message("a known wrong method"),
    "slip": message("a slip"),
    "copied": message("a number of the question"),
    "unknown": message("wrong"),
}


def skill_named(skill: str) -> str:
    """Return what a skill is called in the reader's content; its id where it is not taught any more."""
    found = reading.content().skills.get(skill)
    return found.title if found else skill


def method_named(family: str, name: str) -> str:
    """Return what a wrong method is called for a teacher; its id where it has no words any more."""
    return reading.content().question_words.for_teacher(family, name) or name


def _answered(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the skill and the technique, what was given and the verdict, and who read the question aloud."""
    verdict = VERDICT_WORDS[body["verdict"]]
    name = method_named(body["family"], body["name"]) if body["name"] else ""
    judged = joined([verdict, name], ": ") if name else verdict
    lines: list[Text] = [
        joined([skill_named(body["skill"]), naming.technique(body["technique"])], ", "),
        message("“{given}”: {judged}", given=body["given"], judged=judged),
    ]
    if body["asked_by"]:
        lines.append(message("Asked aloud by {person}", person=naming.person(body["asked_by"])))
    return lines


def _drill(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the skill, the wrong method it was for, and what a person says of it."""
    del naming
    name = method_named(body["family"], body["name"]) if body["name"] else ""
    return [skill_named(body["skill"]), *([name] if name else []), *([body["words"]] if body.get("words") else [])]


def _wait(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what was waited for, and why the wait was lifted."""
    reason = message("Reason: {reason}", reason=body["reason"])
    if "skill" in body:
        return [skill_named(body["skill"]), reason]
    technique, entry = naming.technique(body["technique"]), naming.entry(body["entry"])
    return [message("{technique}, after entry {entry}", technique=technique, entry=entry), reason]


LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "answered": _answered,
    "drill_done": _drill,
    "drill_given": _drill,
    "wait_lifted": _wait,
}
