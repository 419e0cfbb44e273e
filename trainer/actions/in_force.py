"""Which standard is in force, and whether a practical under way was begun by what is still asked."""

from __future__ import annotations

from datetime import timedelta
from zoneinfo import ZoneInfo

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.practical_drafts import Practical
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.practical import WORDS
from trainer.kitchen.record import Watched
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Technique
from trainer.kitchen.watched_points import is_same_checklist, points_of
from trainer.messages import Text, message
from trainer.store.identity import day_in

GATHERED_WITHIN = timedelta(days=14)
"""How long a practical may be gathered, over several shifts: the house's own bound."""


def standard_number(day: Snapshot) -> int:
    """Return the number of the standard in force on a day; 0 where the book has none."""
    found = day.progress.standards.in_force(day.on)
    return found.number if found else 0


def edition_in_force(k: Kitchen, technique: str, day: Snapshot) -> int:
    """Return the number of a technique's edition by the rules in force on a day."""
    return _rules(k, technique, day).edition_on(day.on).number


def _rules(k: Kitchen, technique: str, day: Snapshot) -> Technique:
    """Return a technique by the rules in force; as it is taught where no standard has it."""
    rules = day.progress.standards.content_on(day.on, k.content)
    return rules.techniques.get(technique) or k.content.techniques[technique]


def outdated(k: Kitchen, found: Practical, day: Snapshot) -> Refused | None:
    """Return why a practical cannot be gone on with: what it asks has changed since, or it was begun too long ago.

    The technique is not taught any more, another edition or checklist is in force, or 14 days are over.
    """
    technique = k.content.techniques.get(found.technique)
    if technique is None:
        gone = message("{title} is not taught any more, so this cannot be signed.", title=found.titles.technique)
        return Refused(gone, message("Put it away."), "practical")
    current = edition_in_force(k, found.technique, day)
    if found.edition != current:
        words = message(
            "You watched edition {edition}; edition {current} is in force. Watch it anew.",
            edition=found.edition,
            current=current,
        )
        return Refused(words)
    asked = {point.id: point.critical for point in _rules(k, found.technique, day).checklist}
    is_same = asked == {point.id: point.critical for point in technique.checklist}
    if not is_same or not is_same_checklist(found.points, points_of(technique, found.case, found.part)):
        return Refused(_another_checklist(found, standard_number(day)), "", "practical")
    return _too_long_ago(k, found, day)


def _another_checklist(found: Practical, standard: int) -> Text:
    if standard == found.standard:
        return message(
            "The checklist of {title} has changed since you began. Watch it anew.", title=found.titles.technique
        )
    return message(
        "You watched by standard {before}; standard {current} is in force, and its checklist asks something else. "
        "Watch it anew.",
        before=found.standard,
        current=standard,
    )


def _too_long_ago(k: Kitchen, found: Practical, day: Snapshot) -> Refused | None:
    """Return the refusal of what was gathered over too many days."""
    begun = day_in(k.file.settings.timezone, found.started)
    if day.on - begun <= GATHERED_WITHIN:
        return None
    words = message(
        "This was begun on {day}, more than {days} days ago. Watch it anew.",
        day=in_words(begun),
        days=GATHERED_WITHIN.days,
    )
    return Refused(words, "", "practical")


def overtaken(k: Kitchen, found: Practical, day: Snapshot) -> Refused | None:
    """Return the refusal of a practical during which another of the same cook and technique was signed."""
    lines = day.progress.record(found.cook).as_of(day.on).watched
    alike = [line for line in lines if line.technique == found.technique and _is_since(line, found)]
    since = [line for line in alike if line.verdict == "stopped" or not found.part or line.shows(found.part)]
    if not since:
        return None
    first = next((line for line in since if line.verdict == "stopped"), since[0])
    at = first.at.astimezone(ZoneInfo(k.file.settings.timezone))
    words = message(
        "{name} signed a practical of {cook} in this technique on {day} at {time}: {verdict}.",
        name=day.name(first.by),
        cook=day.name(found.cook),
        day=in_words(at.date()),
        time=f"{at:%H:%M}",
        verdict=WORDS.get(first.verdict, first.verdict),
    )
    return Refused(words, message("You had begun yours before that, so it cannot be signed: put it away."), "practical")


def _is_since(line: Watched, found: Practical) -> bool:
    """Return whether a practical was signed after another was begun."""
    return line.seq > found.after if found.after is not None else line.at > found.started
