"""One cook's record on a sheet: ten items in a fixed sequence, and a line a technique they were trained in.

The items are those a certificate holder keeps of each pilot, in a kitchen's terms (14 CFR 135.63(a)(4)(i)-(x)). Each
training says what California asks of such records from 2026 on (Labor Code 1198.5, amended by SB 513): whose it is, who
gave it, when and how long, what was learnt with the equipment, and what came of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.people_on_record import Written
from trainer.actions.record_trainings import AboutCook, Attempt, Training, attempts_of, trainings_of
from trainer.actions.saving import save, validate_text
from trainer.kitchen.authority import authorities
from trainer.kitchen.book import LOCAL, NewEntry, canonical, digest_of, moment_text
from trainer.kitchen.certificates import certificate_title
from trainer.kitchen.clearance import Clearance, clearances_of
from trainer.kitchen.entitlement import A_MANAGER, Snapshot
from trainer.kitchen.notices import notice_title
from trainer.kitchen.record import Line, NoticeRead, StoodDown
from trainer.kitchen.roles import roles_in_words
from trainer.kitchen.spans import in_short
from trainer.kitchen.technique import Content
from trainer.messages import Text, joined, message, plural, translate

LAW = "14 CFR 135.63(a)(4)({roman})"
ROMANS = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x")
FORMAT = 1


@dataclass(frozen=True, slots=True)
class Item:
    """One of the ten items: its lines, and the entries they rest on."""

    title: Text
    lines: tuple[Text, ...]
    entries: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RecordSheet:
    """What stands on the sheet; `signers` are the letters that stand for who signed, with the names.

    `attempts` fill the second list, which is printed where it is asked for.
    """

    kitchen: str
    zone: str
    at: datetime
    on: date
    cook: str
    name: str
    items: tuple[Item, ...]
    trainings: tuple[Training, ...]
    signers: Mapping[str, str]
    head: str
    attempts: tuple[Attempt, ...]

    def letter(self, signer: str) -> str:
        """Return the letter that stands for a signer."""
        return self.signers.get(signer, "")


def record_sheet(k: Kitchen, cook: str, now: datetime, told_in: Content | None = None) -> RecordSheet:
    """Return a person's record as the book stands now; `told_in` is what is taught in the reader's words."""
    day, content = k.day(k.today(now)), told_in or k.content
    who, record = k.people()[cook], day.progress.record(cook).as_of(day.on)
    stations = tuple(day.rules.stations.values())
    found = clearances_of(who, stations, day.progress, k.content, day.on)
    asked = AboutCook(k, who, day, record, content, found)
    trainings = tuple(trainings_of(asked))
    items = tuple(make(asked) for make in _ITEMS) + _of_trainings(asked, trainings)
    return RecordSheet(
        k.file.settings.name, k.file.settings.timezone, now, day.on, cook, who.name,
        tuple(items[place] for place in SEQUENCE), trainings, _signers(asked, trainings), k.file.book.head().short,
        attempts_of(asked),
    )  # fmt: skip


def _signers(asked: AboutCook, trainings: Iterable[Training]) -> dict[str, str]:
    """Return the initials of each who signed, with a figure where two share them."""
    letters: dict[str, str] = {}
    for one in trainings:
        if one.watched and one.watched.by not in letters:
            words = asked.day.name(one.watched.by).upper().split() or ["?"]
            initials = words[0][0] + words[-1][0]
            same = sum(each.startswith(initials) for each in letters.values())
            letters[one.watched.by] = f"{initials}{same + 1}" if same else initials
    return letters


def _entries(lines: Iterable[Line]) -> tuple[str, ...]:
    """Return the entries lines come from."""
    return tuple(line.entry for line in lines)


def _day(on: date) -> Text:
    """Return a day as it stands on the sheet: 3 May 2027."""
    return in_short(on, with_year=True)


def _name(asked: AboutCook) -> Item:
    listed = next((one for one in asked.k.file.people.listed() if one.person.id == asked.who.id), None)
    lines: list[Text] = [asked.who.name]
    if listed and listed.number:
        lines.append(message("number {number}", number=listed.number))
    joined_on = (
        listed.started if listed and listed.started else min((line.on for line in asked.record.roster), default=None)
    )
    if joined_on:
        lines.append(message("in the house since {day}", day=_day(joined_on)))
    return Item(message("Name"), (joined(lines, ", "),), tuple(line.entry for line in asked.record.roster[:1]))


def _certificates(asked: AboutCook) -> Item:
    lines = []
    for shown in asked.record.shown:
        entry = asked.k.file.book.find(shown.entry)
        until = message("good to {until}", until=_day(shown.expires)) if shown.expires else message("good without end")
        lines.append(
            message(
                "{certificate}, number {number}, shown {day}, {until}",
                certificate=certificate_title(asked.content, shown.certificate),
                number=entry.body["number"] if entry else "",
                day=_day(shown.on),
                until=until,
            )
        )
    return Item(message("Certificates"), tuple(lines) or (NONE,), tuple(line.entry for line in asked.record.shown))


def _experience(asked: AboutCook) -> Item:
    shifts = asked.record.shifts
    lines: list[Text] = [plural("{number} supervised shift", "{number} supervised shifts", len(shifts))]
    for station in asked.content.stations.values():
        count = sum(line.station == station.id for line in shifts)
        if count:
            lines.append(message("{station}: {count}", station=station.title, count=count))
    return Item(message("Experience here"), tuple(lines), tuple(line.entry for line in shifts))


def _duties(asked: AboutCook) -> Item:
    roster = asked.record.roster
    lines: list[Text] = []
    if roster and not roster[-1].left:
        words = message("{roles} since {day}", roles=roles_in_words(sorted(roster[-1].roles)), day=_day(roster[-1].on))
        lines.append(words)
    elif roster:
        lines.append(message("Left the kitchen on {day}.", day=_day(roster[-1].on)))
    proof: list[str] = [line.entry for line in roster[-1:]]
    for each in asked.clearances:
        if each.state != "not started":
            lines.append(_at_station(asked, each))
            proof += each.proof
    lines += [_notice_words(line) for line in _notices(asked)]
    proof += [line.entry for line in _notices(asked)]
    return Item(message("Duties and since when"), tuple(lines) or (NONE,), tuple(dict.fromkeys(proof)))


def _notices(asked: AboutCook) -> list[NoticeRead]:
    """Return the newest reading of each notice."""
    return [*{line.notice: line for line in asked.record.notices}.values()]


def _notice_words(line: NoticeRead) -> Text:
    return message(
        "“{notice}”, edition {edition}, read {day}",
        notice=notice_title(line.notice),
        edition=line.edition,
        day=_day(line.on),
    )


def _at_station(asked: AboutCook, found: Clearance) -> Text:
    station = asked.content.stations.get(found.station)
    title, state = station.title if station else found.station, STATE_WORDS[found.state]
    since = max((one.since for one in found.held if one.since), default=None)
    if not found.is_cleared or since is None:
        return message("{station}: {state}", station=title, state=state)
    until = _day(found.until) if found.until else message("no end")
    return message("{station}: {state}, {since} to {until}", station=title, state=state, since=_day(since), until=until)


def _age(asked: AboutCook) -> Item:
    if not asked.record.ages:
        return Item(message("Age and law"), (message("No birth date on record."),))
    last = asked.record.ages[-1]
    lines = [
        message("{years} years: reached before joining", years=years)
        if since == date.min
        else message("{years} years: from {day}", years=years, day=_day(since))
        for years, since in last.bars
    ]
    barred = [each.station for each in asked.clearances if any(m.what.startswith("age") for m in each.missing)]
    titles = joined([asked.content.stations[name].title for name in barred if name in asked.content.stations], ", ")
    lines.append(message("Barred today: {stations}", stations=titles) if barred else message("no station is barred"))
    return Item(message("Age and law"), tuple(lines), (last.entry,))


def _watches_others(asked: AboutCook) -> Item:
    found = authorities(asked.record, asked.day.on)
    lines = tuple(
        message("Yes, to {until}", until=_day(one.until)) if one.until else message("Yes, without end") for one in found
    )
    return Item(message("May watch others"), lines or (message("No."),), tuple(one.entry for one in found))


def _taken_off(asked: AboutCook) -> Item:
    record = asked.record
    stops = [line for line in record.watched if line.verdict == "stopped"]
    down = [line for line in record.stood_down if not line.restored]
    titles = {station.id: station.title for station in asked.content.stations.values()}
    lines: list[Text] = [
        message("Stopped for safety on {day}: {technique}", day=_day(x.on), technique=asked.title(x.technique))
        for x in stops
    ]
    lines += [
        message("Taken off on {day}: {station}", day=_day(line.on), station=_stations(line, titles)) for line in down
    ]
    back = [line for line in record.stood_down if line.restored]
    lines += [
        message("Put back on {day}: {station}", day=_day(line.on), station=_stations(line, titles)) for line in back
    ]
    entries = (*_entries(stops), *_entries(down), *_entries(back))
    return Item(message("Stopped or taken off"), tuple(lines) or (message("Never."),), entries)


def _stations(line: StoodDown, titles: Mapping[str, str]) -> Text:
    """Return the stations somebody was taken off or put back on."""
    named = [titles.get(station, station) for station in line.stations]
    return joined(named, ", ") if named else message("every station")


def _of_trainings(asked: AboutCook, trainings: tuple[Training, ...]) -> tuple[Item, Item, Item]:
    """Return the three items that sum up the table."""
    passed = sum(one.quiz is not None for one in trainings)
    meets = [line for line in asked.record.watched if line.verdict == "meets it"]
    not_yet = [line for line in asked.record.watched if line.verdict == "not yet"]
    checks: tuple[Text, ...] = (
        message("Table below: questions passed in {count} techniques", count=passed),
        message("practicals: {meets} meet the standard, {not_yet} not yet", meets=len(meets), not_yet=len(not_yet)),
    )
    minutes = sum(one.minutes for one in trainings)
    time: tuple[Text, ...] = (
        message("Practicals {hours} h {minutes} min", hours=minutes // 60, minutes=minutes % 60),
        plural("{number} supervised shift", "{number} supervised shifts", len(asked.record.shifts)),
        message(
            "The time of reading and questions is not kept. Given by {kitchen}.", kitchen=asked.k.file.settings.name
        ),
    )
    done = [one for one in trainings if one.is_signed]
    last = max((one.last_day for one in done if one.last_day), default=None)
    completed: tuple[Text, ...] = (message("{done} of {begun} techniques", done=len(done), begun=len(trainings)),)
    completed += (message("the last on {day}", day=_day(last)),) if last else ()
    watched = tuple(line.entry for line in asked.record.watched)
    sat = tuple(line.entry for line in asked.record.sat)
    return (
        Item(message("Checks, date and result"), checks, sat + watched),
        Item(message("Time of training"), time, watched),
        Item(message("Training completed"), completed, tuple(entry for one in done for entry in one.entries)),
    )


NONE = message("None shown yet.")
STATE_WORDS: Mapping[str, Text] = {
    "not started": message("not started"),
    "studying": message("studying"),
    "ready to show": message("ready to show"),
    "supervised": message("supervised"),
    "cleared": message("cleared"),
    "due again": message("due again"),
    "lapsed": message("lapsed"),
    "stood down": message("off the station"),
    "not allowed": message("not allowed"),
}
_ITEMS: tuple[Callable[[AboutCook], Item], ...] = (
    _name, _certificates, _experience, _duties, _age, _watches_others, _taken_off,
)  # fmt: skip
SEQUENCE = (0, 1, 2, 3, 4, 7, 8, 5, 6, 9)
"""Where each of the ten items stands among those worked out: the seven of above, then the three of the table."""


def as_data(sheet: RecordSheet) -> dict[str, Any]:
    """Return the sheet as JSON, in English: the ten items, and the trainings with the five things California asks."""
    items = [
        {
            "number": place + 1,
            "as": LAW.format(roman=ROMANS[place]),
            "title": translate(item.title),
            "lines": [translate(line) for line in item.lines],
            "entries": list(item.entries),
        }
        for place, item in enumerate(sheet.items)
    ]
    return {
        "format": FORMAT,
        "kitchen": sheet.kitchen,
        "zone": sheet.zone,
        "day": sheet.on.isoformat(),
        "at": moment_text(sheet.at),
        "cook": {"id": sheet.cook, "name": str(sheet.name)},
        "items": items,
        "trainings": [_as_data(sheet, one) for one in sheet.trainings],
        "head": sheet.head,
    }


def attempts_as_data(sheet: RecordSheet) -> list[dict[str, str]]:
    """Return the second list as JSON, in English: every quiz and every practical, the oldest first."""
    return [
        {
            "day": one.on.isoformat(),
            "competency": one.title,
            "what": "practical" if one.by else "quiz",
            "result": translate(one.result),
            "entry": one.entry,
        }
        for one in sheet.attempts
    ]


def _as_data(sheet: RecordSheet, one: Training) -> dict[str, Any]:
    """Return one training: employee, provider, date and duration, competencies with equipment, what came of it."""
    result = "signed off" if one.is_signed else (one.watched.verdict if one.watched else "not watched yet")
    return {
        "employee": str(sheet.name),
        "provider": sheet.kitchen,
        "read": _iso(one.read),
        "questions_passed": _iso(one.quiz),
        "watched": _iso(one.watched.on if one.watched else None),
        "watched_minutes": one.minutes,
        "quizzes": one.quizzes,
        "answers": one.answers,
        "practicals": one.practicals,
        "competency": one.title,
        "edition": one.edition,
        "equipment": list(one.equipment),
        "result": result,
        "good_to": _iso(one.good_to),
        "entries": list(one.entries),
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


def may_open_record(by: str, cook: str, day: Snapshot) -> Refused | None:
    """Return why a person may not open a record: their own always, anybody's as a manager or at the machine."""
    if by in (cook, LOCAL) or "manager" in day.roles(by):
        return None
    return Refused(message("Only a manager opens the record of somebody else."), A_MANAGER)


@dataclass(frozen=True, slots=True)
class Giving:
    """To whom a record is given, and what for."""

    to: str
    what_for: str


def give_record(k: Kitchen, *, sheet: RecordSheet, giving: Giving, written: Written) -> Outcome:
    """Return the saved `record_given`, with the digest of the sheet's own JSON: a paper that was changed differs."""
    digest = digest_of(canonical(as_data(sheet)).encode())
    body = {"record": digest, "to": giving.to.strip(), "for": giving.what_for.strip()}
    deed = NewEntry("record_given", written.now, sheet.cook, written.by, body, written.key)

    def refusal(day: Snapshot) -> Refused | None:
        may = may_open_record(written.by, sheet.cook, day)
        return may or validate_text(giving.to, "to") or validate_text(giving.what_for, "for", may_be_blank=True)

    return save(k, deed, refusal)
