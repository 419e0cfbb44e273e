"""The verdict on a watched run: the word that follows from the points, and its reasons as rules, points and numbers.

Reasons are put into words last, from the points as they were kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import Any, Literal

from trainer.kitchen.causes import CAUSES
from trainer.kitchen.practical import WORDS, PointSeen, VerdictWord, note_text
from trainer.kitchen.technique import Technique
from trainer.kitchen.watched_points import WatchedPoint, seen_points
from trainer.messages import Message, Text, joined, message

Rule = Literal["unsafe", "not_yet", "not_seen", "scored", "critical_met", "craft", "needed_met", "coached", "stricter"]
FALLS_SHORT = frozenset({"not yet", "not seen"})
"""What is said of a point that is neither met nor unsafe."""
STRICTER: Mapping[str, int] = {"meets it": 0, "not yet": 1, "stopped": 2}
OF_A_KIND: Mapping[str, Callable[..., Message]] = {
    "law": lambda **v: message("Law: {point}, {word}", **v),
    "result": lambda **v: message("Result: {point}, {word}", **v),
    "craft": lambda **v: message("Craft: {point}, {word}", **v),
    "critical": lambda **v: message("Critical: {point}, {word}", **v),
    "scored": lambda **v: message("Scored: {point}, {word}", **v),
}
"""What is said of a point, by its type; of a point of the former kind, by whether it was critical."""
_OF_A_POINT: Mapping[str, Rule] = {"unsafe": "unsafe", "not yet": "not_yet", "not seen": "not_seen"}


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason for a verdict: a rule, the point it is about, or how many scored points were met, of all, needed."""

    rule: Rule
    point: str = ""
    count: tuple[int, ...] = ()

    def kept(self) -> dict[str, Any]:
        """Return the reason as the book keeps it."""
        point, count = {"point": self.point} if self.point else {}, {"count": list(self.count)} if self.count else {}
        return {"rule": self.rule, **point, **count}


def reason_from(kept: Mapping[str, Any]) -> Reason:
    """Return a reason as the book keeps it."""
    return Reason(kept["rule"], kept.get("point", ""), tuple(kept.get("count", ())))


@dataclass(frozen=True, slots=True)
class Verdict:
    """The word, and every reason for it."""

    word: VerdictWord
    reasons: tuple[Reason, ...]


def verdict(technique: Technique, seen: Iterable[PointSeen]) -> Verdict:
    """Return the verdict on the points of a technique as they were seen."""
    return verdict_on(seen_points(technique, seen), technique.scored_needed)


def verdict_on(points: Sequence[WatchedPoint], need: int) -> Verdict:
    """Return the word that follows from the points, with every reason; *need* scored points have to be met.

    Anything unsafe: *stopped*, by that and by what was seen to fall short before; what was never come to is no reason.
    A critical point not met or not seen, or too few of the others met: *not yet*. Law and results are critical.
    """
    critical, scored = [p for p in points if p.critical], [p for p in points if not p.critical]
    unsafe = _reasons(points, {"unsafe"})
    if unsafe:
        return Verdict("stopped", (*unsafe, *_reasons(points, {"not yet"})))
    is_typed = any(point.type for point in points)
    met = sum(point.word == "meets it" for point in scored)
    missed = _reasons(critical, FALLS_SHORT)
    count = Reason("craft" if is_typed else "scored", count=(met, len(scored), need))
    reasons = (count, *_reasons(scored, FALLS_SHORT))
    if missed or met < need:
        return Verdict("not yet", (*missed, *reasons))
    return Verdict("meets it", (Reason("needed_met" if is_typed else "critical_met"), *reasons))


def _reasons(points: Iterable[WatchedPoint], words: Set[str]) -> list[Reason]:
    """Return the points of which one of these words is true, each as a reason."""
    return [Reason(_OF_A_POINT[point.word], point.id) for point in points if point.word in words]


def coached_verdict(found: Verdict) -> Verdict:
    """Return the verdict on a run in which the assessor helped or prompted: *not yet* at most, and why.

    DOE-HDBK-1074-95, appendix C, items 8 and 9: no help, prompts or suggestions; pass or fail.
    """
    if found.word == "stopped":
        return Verdict("stopped", (*found.reasons, Reason("coached")))
    return Verdict("not yet", (Reason("coached"), *found.reasons))


def lowered(found: Verdict, said: VerdictWord | None, note: str) -> Verdict | Message:
    """Return the verdict with a stricter word of the assessor's in its place, or the rule that word breaks."""
    if said is None or said == found.word:
        return found
    if said not in STRICTER:
        return message("“{word}” is no verdict: meets it, not yet or stopped.", word=said)
    if STRICTER[said] < STRICTER[found.word]:
        return message(
            "The points say {found}; nobody can say {said} over them.", found=WORDS[found.word], said=WORDS[said]
        )
    if not note.strip():
        return message(
            "The points say {found}: say in the note why it is {said}.", found=WORDS[found.word], said=WORDS[said]
        )
    return Verdict(said, (Reason("stricter"), *found.reasons))


def reasons_in_words(found: Verdict, points: Sequence[WatchedPoint], note: str = "") -> tuple[Text, ...]:
    """Return every reason of a verdict in words; *note* is the assessor's, which says why a word is stricter."""
    by_id = {point.id: point for point in points}
    return tuple(_in_words(reason, by_id, found.word, note) for reason in found.reasons)


def _in_words(reason: Reason, points: Mapping[str, WatchedPoint], said: str, note: str) -> Text:
    if reason.rule in {"scored", "craft"}:
        return _count_in_words(reason)
    if reason.rule in PLAIN:
        return PLAIN[reason.rule]
    if reason.rule == "stricter":
        return message("The assessor says {said}: {note}", said=WORDS.get(said, said), note=note_text(note))
    return _point_in_words(points[reason.point])


PLAIN: Mapping[str, Text] = {
    "critical_met": message("Every critical point met."),
    "needed_met": message("Every law and every result met."),
    "coached": message("The assessor helped or prompted: not yet at most."),
}


def _count_in_words(reason: Reason) -> Text:
    """Return how many of the counted points were met, of all, and how many are needed."""
    met, count, need = reason.count
    if reason.rule == "craft":
        return message("{met} of {all} craft points met, {need} needed.", met=met, all=count, need=need)
    return message("{met} of {all} scored points met, {need} needed.", met=met, all=count, need=need)


def _point_in_words(point: WatchedPoint) -> Text:
    """Return one point in words: Critical: guard on before power, not seen."""
    text, word, found = point.words.rstrip("."), WORDS[point.word], point.last
    kind = point.type or ("critical" if point.critical else "scored")
    parts = [OF_A_KIND[kind](point=text, word=word)]
    if found and found.cause:
        parts.append(message("({cause})", cause=CAUSES.get(found.cause, found.cause)))
    if found and found.said:
        parts.append(message("(said: {words})", words="; ".join(point.said_words(found))))
    if found and found.readings:
        parts.append(message("(read: {readings})", readings="; ".join(found.readings)))
    if found and found.note.strip():
        parts.append(message("({note})", note=note_text(found.note)))
    return joined(parts)
