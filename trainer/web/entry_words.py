"""One entry of the record book in words: what was done, about whom, by whom, when, and every figure in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from trainer.actions.correcting import SLIP
from trainer.actions.roster import age_change_in_words
from trainer.actions.two_people import RECOVERY
from trainer.kitchen.ages import AgeChange
from trainer.kitchen.book import LOCAL, PROGRAM, THE_BOOK, Entry
from trainer.kitchen.certificates import certificate_title
from trainer.kitchen.notices import notice_title
from trainer.kitchen.off_station import EVERY_STATION, WHY_WORDS
from trainer.kitchen.practical import WORDS, note_text
from trainer.kitchen.progress import Person
from trainer.kitchen.quiz.sequential_test import plan_kept, standing
from trainer.kitchen.quiz.sitting import count_kept, floor_in_words
from trainer.kitchen.roles import roles_in_words
from trainer.kitchen.technique import Content
from trainer.messages import Text, joined, message, plural
from trainer.web import (
    authority_words,
    book_entry_words,
    door_words,
    guard,
    help_words,
    night_words,
    path_words,
    person_words,
    reading,
    recheck_words,
    skill_words,
    standard_words,
)
from trainer.web.filters import moment, weekday
from trainer.web.proof_words import signed_told
from trainer.web.watched_words import NOT_KEPT, is_kept_whole, point_lines, points_in, reasons_told

KIND_WORDS: Mapping[str, Text] = {
    **book_entry_words.KIND_WORDS,
    "cook_joined": message("Joined the roster"),
    "cook_changed": message("Roles changed"),
    "cook_left": message("Left the kitchen"),
    "technique_read": message("Read and acknowledged"),
    "notice_read": message("Notice read and understood"),
    "quiz_sat": message("Sat the quiz"),
    "watch_asked": message("Asked to be watched"),
    "practical_watched": message("Practical watched"),
    "shift_worked": message("Supervised shift worked"),
    "certificate_shown": message("Certificate shown"),
    "known_before": message("Known from before"),
    "station_opened": message("Station opened for signing"),
    "stood_down": message("Stood down"),
    "words_added": message("Words added"),
    "restored": message("Restored"),
    "entry_voided": message("Entry voided"),
    "question_voided": message("Question voided"),
    "stop_released": message("Stop released"),
    "roster_taken_in": message("Roster file taken in"),
    **skill_words.KIND_WORDS,
    **help_words.KIND_WORDS,
    **door_words.KIND_WORDS,
    **authority_words.KIND_WORDS,
    **person_words.KIND_WORDS,
    **path_words.KIND_WORDS,
    **standard_words.KIND_WORDS,
    **night_words.KIND_WORDS,
    **recheck_words.KIND_WORDS,
}
NOBODY: Mapping[str, Text] = {
    LOCAL: message("whoever sat at the machine"),
    RECOVERY: message("the recovery sheet"),
    PROGRAM: message("the program"),
    THE_BOOK: message("the book"),
}


@dataclass(frozen=True, slots=True)
class EntryTold:
    """One entry as a person reads it; `lines` hold every figure of its body."""

    seq: int
    id: str
    kind: str
    words: Text
    when: Text
    about: Text
    about_id: str
    by: Text
    lines: tuple[Text, ...]
    fingerprint: str


@dataclass(frozen=True, slots=True)
class Naming:
    """What turns ids into words: the people, and what is taught."""

    people: Mapping[str, Person]
    content: Content

    def person(self, cook: str) -> Text:
        """Return a person's name, or the id of a person whose name is no longer kept."""
        person = self.people.get(cook)
        return person.name if person else NOBODY.get(cook) or message("cook {cook}", cook=cook)

    def station(self, station: str) -> str:
        """Return a station's title, or its id when the content no longer names it."""
        found = self.content.stations.get(station)
        return found.title if found else station

    def technique(self, technique: str) -> str:
        """Return a technique's title, or its id when the content no longer names it."""
        found = self.content.techniques.get(technique)
        return found.title if found else technique

    def service(self, service: str) -> Text:
        """Return what the house calls a service within a sentence, or its id."""
        return guard.kitchen().services.word(service)

    def certificate(self, certificate: str) -> Text:
        """Return a certificate's title as a station or the house asks for it, or its id."""
        return certificate_title(self.content, certificate)

    def entry(self, entry: str) -> str:
        """Return the number of an entry, or its id where this book does not have it."""
        found = guard.kitchen().file.book.find(entry)
        return str(found.seq) if found else entry


def day_text_words(text: object) -> Text:
    """Return an ISO day of an entry in words; anything else as it stands."""
    try:
        return weekday(date.fromisoformat(str(text)))
    except ValueError:
        return str(text)


def told(entry: Entry, naming: Naming) -> EntryTold:
    """Return one entry in words, with one line a figure."""
    body = {name: value for name, value in entry.body.items() if name != "proof"}
    signed = signed_told(entry, naming, _words_of(entry))
    lines = [*_LINES.get(entry.kind, _plain)(body, naming), *_happened_before(entry), *signed]
    return EntryTold(
        seq=entry.seq,
        id=entry.id,
        kind=entry.kind,
        words=_words_of(entry),
        when=moment(entry.at),
        about=naming.person(entry.cook),
        about_id=entry.cook,
        by=naming.person(entry.by),
        lines=tuple(lines),
        fingerprint=entry.hash[:12],
    )


def _happened_before(entry: Entry) -> list[Text]:
    """Return the day an entry counts from, where the clock of the book had to be a later one."""
    if entry.happened == entry.day or entry.kind not in ("stood_down", "practical_watched"):
        return []
    return [message("Counts from {day}", day=weekday(entry.happened))]


def _words_of(entry: Entry) -> Text:
    """Return what kind of entry it is; a change of a cook without roles is one of the birth date."""
    if entry.kind == "cook_changed" and "roles" not in entry.body:
        return message("Birth date changed")
    return KIND_WORDS.get(entry.kind, entry.kind)


def _in_edition(body: Mapping[str, Any], naming: Naming) -> Text:
    """Return a technique with the edition an entry is about."""
    return message(
        "{technique}, edition {edition}", technique=naming.technique(body["technique"]), edition=body["edition"]
    )


def _reason(body: Mapping[str, Any]) -> Text:
    reason = message("slip") if body["reason"] == SLIP else body["reason"]
    return message("Reason: {reason}", reason=reason)


def _practical(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the technique with its edition, the verdict with its reasons, and every point with every look."""
    kept = is_kept_whole(body)
    station = body["titles"]["station"] if kept else naming.station(body["station"])
    technique = body["titles"]["technique"] if kept else naming.technique(body["technique"])
    under = [message("standard {number}", number=body["standard"])] if body.get("standard") else []
    edition = message("{technique}, edition {edition}", technique=technique, edition=body["edition"])
    head = joined([edition, *under, message("at {station}", station=station)], ", ")
    verdict = message("Verdict: {verdict}.", verdict=WORDS.get(body["verdict"], body["verdict"]))
    note = [message("Note: {note}", note=note_text(body["note"]))] if body.get("note") else []
    begun = (
        [message("Begun {when}", when=moment(datetime.fromisoformat(body["started"])))] if body.get("started") else []
    )
    points = point_lines(points_in(body, naming.content), naming.person)
    not_kept = [] if kept else [NOT_KEPT]
    reasons = reasons_told(body, naming.content)
    signed = [*authority_words.signature_told(body), *authority_words.second_signed(body, naming)]
    return [head, *begun, *_happened(body), verdict, *reasons, *points, *not_kept, *note, *signed]


def _happened(body: Mapping[str, Any]) -> list[Text]:
    """Return the day something happened, where the clock of its entry had to be a later one."""
    return [message("Counts from {day}", day=day_text_words(body["happened"]))] if body.get("happened") else []


def _quiz(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the technique with its edition and how many were right; of a quiz that decides, how the answers stood."""
    result = message("passed") if body["passed"] else message("not passed")
    if body.get("plan"):
        stood = standing(plan_kept(body["plan"]), count_kept(body)).words
        return [_in_edition(body, naming), message("{stood} So: {result}", stood=stood, result=result)]
    right, asked, need = body["right"], body["asked"], body["need"]
    line = message(
        "{right} of {asked} right, {need} needed: {result}", right=right, asked=asked, need=need, result=result
    )
    count, percent = count_kept(body), body.get("safety_percent", 0)
    missed = [] if count.meets_minimum(percent) else [floor_in_words(count, percent)]
    return [_in_edition(body, naming), line, *missed]


def _read(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the technique and its edition."""
    return [_in_edition(body, naming)]


def _notice(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the notice and its edition."""
    del naming
    return [message("{notice}, edition {edition}", notice=notice_title(body["notice"]), edition=body["edition"])]


def _asked(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the technique."""
    return [naming.technique(body["technique"])]


def _shift(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return station, day, sitting, beside whom and how many guests."""
    where = [naming.station(body["station"]), day_text_words(body["worked_on"])]
    if body.get("sitting"):
        where.append(naming.service(body["sitting"]))
    beside = naming.person(body["beside"])
    return [joined(where, ", "), message("Beside {name}, {guests} guests", name=beside, guests=body["guests"])]


def _certificate(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what paper, its number, and the days it is good for."""
    until = day_text_words(body["expires"]) if body.get("expires") else message("no end")
    return [
        message(
            "{certificate}, number {number}", certificate=naming.certificate(body["certificate"]), number=body["number"]
        ),
        message("Issued {issued}, good to {until}", issued=day_text_words(body["issued"]), until=until),
    ]


def _known_before(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return what is known at which station and to when, and how the manager knows."""
    cells = [
        message(
            "{station}, to {until}: {techniques}",
            station=naming.station(cell["station"]),
            until=day_text_words(cell["until"]),
            techniques=joined(map(naming.technique, cell["techniques"]), ", "),
        )
        for cell in body["cells"]
    ]
    return [*cells, message("Not watched. How the manager knows: {basis}", basis=body["basis"])]


def _opened(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the station and the last day, with the reason."""
    station, until = naming.station(body["station"]), day_text_words(body["until"])
    return [message("{station}, to {until}", station=station, until=until), _reason(body)]


def _standing(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the stations and the reason: the one off the list, and what was typed."""
    told = body["stations"] if "stations" in body else [body["station"]]
    stations = message("every station") if told == EVERY_STATION else joined(map(naming.station, told), ", ")
    why = [WHY_WORDS[body["why"]]] if body.get("why") else []
    return [stations, *_happened(body), *why, *([_reason(body)] if body["reason"] else [])]


def _words_added(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which entry the words are for, and the words."""
    return [message("To entry {entry}", entry=naming.entry(body["entry"])), body["words"]]


def _roles(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return the roles, or what another birth date bars and frees."""
    roles: list[Text] = [message("Roles: {roles}", roles=roles_in_words(body["roles"]))] if "roles" in body else []
    if "birth" not in body:
        return [*roles, *authority_words.second_told(body, naming)]
    change = AgeChange(tuple(body["birth"]["bars"]), tuple(body["birth"]["frees"]))
    titles = {station.id: station.title for station in naming.content.stations.values()}
    return [*roles, age_change_in_words(change, titles)]


def _taken_in(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return how many rows did what, and the file's digest."""
    del naming
    pairs = (
        (message("{count} joined", count=body["joined"]), body["joined"]),
        (message("{count} changed", count=body["changed"]), body["changed"]),
        (message("{count} with another birth date", count=body["births"]), body["births"]),
        (message("{count} with roles given or taken", count=body["roles"]), body["roles"]),
    )
    done = joined([words for words, count in pairs if count], ", ")
    rows = plural("{number} row", "{number} rows", body["rows"])
    return [message("{rows}: {done}", rows=rows, done=done), message("File {digest}", digest=body["file"][:12])]


def _left(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return why a person left, and the coming places that were handed back."""
    places = [
        message(
            "Handed back: {station}, {service} on {day}",
            station=naming.station(one["station"]),
            service=naming.service(one["service"]),
            day=weekday(date.fromisoformat(one["day"])),
        )
        for one in body.get("places", ())
    ]
    return [_reason(body), *places]


def _void(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which entry and why."""
    return [
        message("Voids entry {entry}", entry=naming.entry(body["entry"])),
        _reason(body),
        *authority_words.void_told(body, naming),
    ]


def _question_void(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which question, the sitting it was seen in, and why."""
    family = reading.content().question_words.title(body["family"])
    seed, entry = body["seed"], naming.entry(body["entry"])
    return [
        message("{family}, seed {seed}, seen in entry {entry}", family=family, seed=seed, entry=entry),
        _reason(body),
    ]


def _release(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return which stop was released, at what, and why."""
    stop = guard.kitchen().file.book.find(body["stop"])
    technique = [naming.technique(stop.body["technique"])] if stop else []
    return [
        *technique,
        message("Releases the stop in entry {entry}", entry=naming.entry(body["stop"])),
        *authority_words.release_told(body, naming),
    ]


def _plain(body: Mapping[str, Any], naming: Naming) -> list[Text]:
    """Return each field of the body on a line."""
    del naming
    return [f"{name.replace('_', ' ').capitalize()}: {value}" for name, value in body.items()]


_LINES: Mapping[str, Callable[[Mapping[str, Any], Naming], list[Text]]] = {
    "practical_watched": _practical,
    "quiz_sat": _quiz,
    "technique_read": _read,
    "notice_read": _notice,
    "watch_asked": _asked,
    "shift_worked": _shift,
    "certificate_shown": _certificate,
    "known_before": _known_before,
    "station_opened": _opened,
    "stood_down": _standing,
    "restored": _standing,
    "words_added": _words_added,
    "cook_joined": _roles,
    "cook_changed": _roles,
    "cook_left": _left,
    "entry_voided": _void,
    "question_voided": _question_void,
    "stop_released": _release,
    "roster_taken_in": _taken_in,
    **skill_words.LINES,
    **help_words.LINES,
    **door_words.LINES,
    **authority_words.LINES,
    **person_words.LINES,
    **path_words.LINES,
    **book_entry_words.LINES,
    **standard_words.LINES,
    **night_words.LINES,
    **recheck_words.LINES,
}
