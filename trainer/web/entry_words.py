"""One entry of the record book in words: what was done, about whom, by whom, when, and every figure in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from trainer.kitchen.book import Entry
from trainer.kitchen.progress import Person
from trainer.kitchen.quiz.deciding import count_kept, plan_kept, standing
from trainer.kitchen.quiz.families import FAMILIES
from trainer.kitchen.technique import Content, Technique
from trainer.web.filters import moment, weekday

KIND_WORDS: Mapping[str, str] = {
    "cook_joined": "Joined the roster",
    "cook_changed": "Roles changed",
    "cook_left": "Left the kitchen",
    "technique_read": "Read and acknowledged",
    "quiz_sat": "Sat the quiz",
    "watch_asked": "Asked to be watched",
    "practical_watched": "Practical watched",
    "shift_worked": "Supervised shift worked",
    "certificate_shown": "Certificate shown",
    "station_opened": "Station opened for signing",
    "stood_down": "Stood down",
    "restored": "Restored",
    "entry_voided": "Entry voided",
    "question_voided": "Question voided",
}


@dataclass(frozen=True, slots=True)
class EntryTold:
    """One entry as a person reads it; `lines` hold every figure of its body."""

    seq: int
    id: str
    kind: str
    words: str
    when: str
    about: str
    about_id: str
    by: str
    lines: tuple[str, ...]
    fingerprint: str


@dataclass(frozen=True, slots=True)
class Naming:
    """What turns ids into words: the people, and what is taught."""

    people: Mapping[str, Person]
    content: Content

    def person(self, cook: str) -> str:
        """Return a person's name, or the id of somebody whose name is no longer kept."""
        person = self.people.get(cook)
        return person.name if person else f"cook {cook}"

    def station(self, station: str) -> str:
        """Return a station's title, or its id when the content no longer names it."""
        found = self.content.stations.get(station)
        return found.title if found else station

    def technique(self, technique: str) -> str:
        """Return a technique's title, or its id when the content no longer names it."""
        found = self.content.techniques.get(technique)
        return found.title if found else technique

    def certificate(self, certificate: str) -> str:
        """Return a certificate's title as a station asks for it, or its id."""
        for station in self.content.stations.values():
            for asked in station.certificates:
                if asked.id == certificate:
                    return asked.title
        return certificate


def day_text_words(text: object) -> str:
    """Return an ISO day of an entry in words; anything else as it stands."""
    try:
        return weekday(date.fromisoformat(str(text)))
    except ValueError:
        return str(text)


def told(entry: Entry, naming: Naming) -> EntryTold:
    """Return one entry in words, with one line a figure."""
    lines = _LINES.get(entry.kind, _plain)(entry.body, naming)
    return EntryTold(
        seq=entry.seq,
        id=entry.id,
        kind=entry.kind,
        words=KIND_WORDS.get(entry.kind, entry.kind),
        when=moment(entry.at),
        about=naming.person(entry.cook),
        about_id=entry.cook,
        by=naming.person(entry.by),
        lines=tuple(lines),
        fingerprint=entry.hash[:12],
    )


def points_told(body: Mapping[str, Any], technique: Technique | None) -> list[str]:
    """Return one line a point of a practical: its text, what was seen, the readings, the note."""
    texts = {point.id: point.text for point in technique.checklist} if technique else {}
    return [_point_line(point, texts) for point in body.get("points", ())]


def _point_line(point: Mapping[str, Any], texts: Mapping[str, str]) -> str:
    """Return one point with its readings, as kept."""
    line = f"{texts.get(point['point'], point['point']).rstrip('.')}: {point['seen']}"
    if point.get("readings"):
        line += f" ({', '.join(point['readings'])})"
    return f"{line}. Note: {point['note']}" if point.get("note") else line


def _practical(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return the technique with its edition, the verdict with its reasons, and every point."""
    head = f"{naming.technique(body['technique'])}, edition {body['edition']}, at {naming.station(body['station'])}"
    verdict = " ".join(f"{text.rstrip('.')}." for text in (f"Verdict: {body['verdict']}", *body.get("reasons", ())))
    note = [f"Note: {body['note']}"] if body.get("note") else []
    return [head, verdict, *points_told(body, naming.content.techniques.get(body["technique"])), *note]


def _quiz(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return the technique with its edition and how many were right; of a quiz that decides, how the answers stood."""
    head = f"{naming.technique(body['technique'])}, edition {body['edition']}"
    result = "passed" if body["passed"] else "not passed"
    if body.get("plan"):
        return [head, f"{standing(plan_kept(body['plan']), count_kept(body)).words} So: {result}"]
    return [head, f"{body['right']} of {body['asked']} right, {body['need']} needed: {result}"]


def _read(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return the technique and its edition."""
    return [f"{naming.technique(body['technique'])}, edition {body['edition']}"]


def _asked(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return the technique."""
    return [naming.technique(body["technique"])]


def _shift(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return station, day, sitting, beside whom and how many guests."""
    day = day_text_words(body["worked_on"])
    return [
        f"{naming.station(body['station'])}, {day}, {body.get('sitting', '')}".rstrip(", "),
        f"Beside {naming.person(body['beside'])}, {body['guests']} guests",
    ]


def _certificate(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return what paper, its number, and the days it is good for."""
    until = day_text_words(body["expires"]) if body.get("expires") else "no end"
    return [
        f"{naming.certificate(body['certificate'])}, number {body['number']}",
        f"Issued {day_text_words(body['issued'])}, good to {until}",
    ]


def _opened(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return the station and the last day, with the reason."""
    return [f"{naming.station(body['station'])}, to {day_text_words(body['until'])}", f"Reason: {body['reason']}"]


def _standing(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return the station and the reason."""
    return [naming.station(body["station"]), f"Reason: {body['reason']}"]


def _roles(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return the roles."""
    del naming
    return ["Roles: " + ", ".join(body["roles"])]


def _void(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return which entry and why."""
    del naming
    return [f"Voids entry {body['entry']}", f"Reason: {body['reason']}"]


def _question_void(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return which question, the sitting it was seen in, and why."""
    del naming
    family = FAMILIES[body["family"]].title if body["family"] in FAMILIES else body["family"]
    return [f"{family}, seed {body['seed']}, seen in entry {body['entry']}", f"Reason: {body['reason']}"]


def _plain(body: Mapping[str, Any], naming: Naming) -> list[str]:
    """Return each field of the body on a line."""
    del naming
    return [f"{name.replace('_', ' ').capitalize()}: {value}" for name, value in body.items()]


_LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[str]]] = {
    "practical_watched": _practical,
    "quiz_sat": _quiz,
    "technique_read": _read,
    "watch_asked": _asked,
    "shift_worked": _shift,
    "certificate_shown": _certificate,
    "station_opened": _opened,
    "stood_down": _standing,
    "restored": _standing,
    "cook_joined": _roles,
    "cook_changed": _roles,
    "entry_voided": _void,
    "question_voided": _question_void,
}
