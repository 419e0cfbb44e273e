"""A signed practical in words: its points with every look, its reasons; from the entry alone since it keeps them.

An entry of before has neither words nor limits: its points are named as they are called today, and held to nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from trainer.kitchen.causes import CAUSES
from trainer.kitchen.practical import WORDS, AskBack, PointSeen, note_text, point_seen
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Content, Technique
from trainer.kitchen.verdicts import Verdict, lowered, reason_from, reasons_in_words, verdict
from trainer.kitchen.watched_points import LookTaken, WatchedPoint, point_from
from trainer.messages import Text, joined, message
from trainer.web import guard
from trainer.web.filters import moment

NOT_KEPT = message("The words and limits of that day were not kept.")
Name = Callable[[str], Text]
"""What turns the id of a person into their name."""


def is_kept_whole(body: Mapping[str, Any]) -> bool:
    """Return whether an entry keeps all that its page shows."""
    return "titles" in body


def points_in(body: Mapping[str, Any], content: Content) -> tuple[WatchedPoint, ...]:
    """Return the points of a signed practical; of one of before those that were seen, in today's words, no line."""
    if is_kept_whole(body):
        return tuple(map(point_from, body["points"]))
    technique = content.techniques.get(body["technique"])
    taught = {point.id: point for point in technique.checklist} if technique else {}
    found = []
    for seen in map(point_seen, body.get("points", ())):
        known = taught.get(seen.point)
        words, critical = (known.text, known.critical) if known else (seen.point, False)
        found.append(WatchedPoint(seen.point, words, critical, looks=(LookTaken(None, "", seen),), language=""))
    return tuple(found)


def point_lines(points: Iterable[WatchedPoint], name: Name) -> list[Text]:
    """Return one line a point: its words, what was seen, the readings, when; then the looks before that."""
    all_points = tuple(points)
    several = is_by_several(all_points)
    return [_point_line(point, name, several=several) for point in all_points]


def is_by_several(points: Iterable[WatchedPoint]) -> bool:
    """Return whether more than one person looked, so that each look says whose it was: a practical handed on."""
    return len({look.by for point in points for look in point.looks}) > 1


def _point_line(point: WatchedPoint, name: Name, *, several: bool) -> Text:
    text, last = point.words.rstrip("."), point.last
    line = message("{point}: {seen}", point=text, seen=WORDS[point.word])
    if last is None:
        return joined([line, *seen_before_told(point, name), *gathered_told(point)], "; ")
    if last.readings:
        line = message("{line} ({readings})", line=line, readings=readings_told(last))
    if last.said:
        line = message("{line} ({said})", line=line, said="; ".join(point.said_words(last)))
    told = joined(
        [
            line,
            *cause_told(last),
            *tries_told(point),
            *asked_told(last.asked),
            *gathered_told(point),
            *([when] if (when := looked_at(point, name, several=several)) else []),
        ],
        "; ",
    )
    note = message("{line}. Note: {note}", line=told, note=note_text(last.note)) if last.note else told
    return joined([note, *looks_before(point, name, several=several)], ". ")


def readings_told(seen: PointSeen) -> Text:
    """Return the readings of a look, each time with how it was taken where that is kept: 155 °F; 17 s, by hand."""
    timed = seen.timed or ("",) * len(seen.readings)
    told = [_reading_told(text, how) for text, how in zip(seen.readings, timed, strict=True)]
    return joined(told, "; " if seen.timed else ", ")


def _reading_told(text: str, how: str) -> Text:
    if how == "watch":
        return message("{reading}, by the watch", reading=text)
    return message("{reading}, by hand", reading=text) if how == "hand" else text


def looked_at(point: WatchedPoint, name: Name, *, several: bool) -> Text:
    """Return when the last look was taken, and by whom where several looked; empty where it was not kept."""
    return (
        message("seen {when}", when=_when(point.looks[-1], name, several=several))
        if point.looks and point.looks[-1].at
        else ""
    )


def tries_told(point: WatchedPoint) -> tuple[Text, ...]:
    """Return which of the cook's tries the last look was, where there was more than one."""
    attempt = point.looks[-1].attempt if point.looks else 1
    return (message("try {number} of {tries}", number=attempt, tries=point.tries),) if attempt > 1 else ()


def seen_before_told(point: WatchedPoint, name: Name) -> tuple[Text, ...]:
    """Return where a point that nobody looked at was seen met before; nothing of any other."""
    if point.before is None or point.looks:
        return ()
    return (message("seen on {day} by {name}", day=in_words(point.before.on), name=name(point.before.by)),)


def looks_before(point: WatchedPoint, name: Name, *, several: bool) -> tuple[Text, ...]:
    """Return the looks before the last one, the first one first, each with its time."""
    return tuple(_look_before(point, look, name, several=several) for look in point.looks[:-1])


def _look_before(point: WatchedPoint, look: LookTaken, name: Name, *, several: bool) -> Text:
    seen: Text = WORDS[look.seen.seen]
    if look.seen.said:
        seen = message("{line} ({said})", line=seen, said="; ".join(point.said_words(look.seen)))
    if look.seen.readings:
        seen = message("{line} ({readings})", line=seen, readings=readings_told(look.seen))
    parts = joined([seen, *asked_told(look.seen.asked)], "; ")
    if look.seen.note:
        parts = message("{line}. Note: {note}", line=parts, note=note_text(look.seen.note))
    if look.at is None:
        return message("Before that: {seen}", seen=parts)
    return message("Before that, {when}: {seen}", when=_when(look, name, several=several), seen=parts)


def _when(look: LookTaken, name: Name, *, several: bool) -> Text:
    when = moment(look.at) if look.at else ""
    return joined([when, name(look.by)], ", ") if several else when


def gathered_told(point: WatchedPoint) -> tuple[Text, ...]:
    """Return the readings of a look that nobody finished, so that nothing was judged by them."""
    taken = [text for text in point.gathered if text]
    return (message("read and not judged: {readings}", readings="; ".join(taken)),) if taken else ()


def cause_told(seen: PointSeen) -> tuple[Text, ...]:
    """Return what was unsafe, where the assessor picked it."""
    return (message("unsafe: {cause}", cause=CAUSES.get(seen.cause, seen.cause)),) if seen.cause else ()


def asked_told(asked: Iterable[AskBack]) -> tuple[Text, ...]:
    """Return what was asked back before it was judged: as typed, and what was answered."""
    return tuple(
        message("asked back: typed {typed}, answered {answered}", typed=one.ways[0], answered=one.answered)
        if one.answered
        else message("asked back: typed {typed}, not answered", typed=one.ways[0])
        for one in asked
    )


def reasons_told(body: Mapping[str, Any], content: Content) -> tuple[Text, ...]:
    """Return the reasons of a verdict in the reader's words.

    An entry of before keeps them in the words of its day. They are worked out again only from the edition that was
    watched, with every point of its checklist seen (of a stop, those that were come to), and only where the same
    verdict follows.
    """
    if is_kept_whole(body):
        found = Verdict(body["verdict"], tuple(map(reason_from, body["reasons"])))
        return reasons_in_words(found, points_in(body, content), body["note"])
    kept = tuple(body.get("reasons", ()))
    technique = content.techniques.get(body["technique"])
    if technique is None or not _is_of_this_checklist(body, technique):
        return kept
    seen = [point_seen(point) for point in body["points"]]
    again = lowered(verdict(technique, seen), body["verdict"], body.get("note", ""))
    if not isinstance(again, Verdict) or again.word != body["verdict"]:
        return kept
    return reasons_in_words(again, points_in(body, content), body.get("note", ""))


def _is_of_this_checklist(body: Mapping[str, Any], technique: Technique) -> bool:
    """Return whether a practical was watched by the checklist a technique has now."""
    seen, asked = {point["point"] for point in body.get("points", ())}, {point.id for point in technique.checklist}
    same = seen <= asked if body["verdict"] == "stopped" else seen == asked
    return same and bool(seen) and body["edition"] == technique.edition_on(guard.today()).number
