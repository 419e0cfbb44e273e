"""Random histories of one cook in a kitchen that publishes standards: entries of five years, some late, some voided."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from random import Random
from typing import Any
from zoneinfo import ZoneInfo

from tests.kitchen.kitchen_for_tests import Scribe, asking, small_content, with_technique
from trainer.kitchen.book import THE_BOOK, moment_text
from trainer.kitchen.rules import rules_of
from trainer.kitchen.technique import ChecklistPart, Content, Edition, Practice, Station, Technique

FIRST_DAY = date(2026, 1, 1)
DAYS = 5 * 365 + 2  # 2026 to 2030, with 29 February 2028
ZONE = "America/New_York"
COOK = "ada"
PARTS = (
    ChecklistPart("first", "First", ("guard_on", "weights"), 0),
    ChecklistPart("second", "Second", ("boil", "told"), 0),
)
MAY_BE_LATE = ("technique_read", "quiz_sat", "shift_worked", "certificate_shown", "restored", "cook_joined")
"""What may be written down days after it happened; a practical is written when it is signed."""


@dataclass(frozen=True)
class Published:
    """One standard as it was published: on which day, for which day, with which content."""

    on: date
    since: date
    content: Content
    is_from_before: bool


@dataclass
class Historian(Scribe):
    """A scribe who keeps what was published beside the entries."""

    published: list[Published] = field(default_factory=list)

    def publishes(self, content: Content, at: datetime, since: date, *, is_from_before: bool = False) -> None:
        """Write that a standard is published."""
        more = {"not_kept_before": True} if is_from_before else {}
        body = {
            "number": len(self.published) + 1,
            "since": since.isoformat(),
            "rules": rules_of(content),
            "texts": "",
            **more,
        }
        self.write("standard_published", "mara", at, body)
        self.published.append(Published(self.entries[-1].day, since, content, is_from_before))
        self.content = content


def written_content(rng: Random) -> Content:
    """Return the small content with editions, months, ages and numbers of shifts drawn again."""
    content = small_content(
        pasta_room={"supervised_shifts": rng.choice([0, 1, 3]), "minimum_age": rng.choice([None, 16, 18])},
        grill={"warn_days": rng.choice([0, 10, 60])},
    )
    content = replace(content, stations={s.id: bounded(rng, s) for s in content.stations.values()})
    for name in content.techniques:
        questions = rng.choice([{}, asking(4)])
        months = {"quiz_months": rng.choice([1, 6, 12]), "sign_off_months": rng.choice([1, 11, 24])}
        parts = {"parts": rng.choice([(), (), PARTS])}
        content = with_technique(content, name, editions=written_editions(rng), **questions, **months, **parts)
    return content


def bounded(rng: Random, station: Station) -> Station:
    """Return a station whose papers have some grace, or count some years at the most, or neither."""
    papers = tuple(
        replace(paper, grace_days=rng.choice([0, 0, 1, 20, 90]), most_years=rng.choice([0, 0, 1, 2]))
        for paper in station.certificates
    )
    return replace(station, certificates=papers, practice=some_practice(rng))


def some_practice(rng: Random) -> Practice | None:
    """Return what practice a station asks for; none as often as not."""
    if rng.random() < 0.5:
        return None
    days = rng.choice([30, 90])
    return Practice(rng.choice([1, 2, 3]), days, rng.choice([1, 2]), rng.choice([7, 30]))


def written_editions(rng: Random) -> tuple[Edition, ...]:
    """Return one to four editions, some of which ask for everything again."""
    days = sorted(rng.sample(range(1, DAYS), rng.randrange(4)))
    later = [
        Edition(n, FIRST_DAY + timedelta(days=d), "", rng.random() < 0.6, some_points(rng))
        for n, d in enumerate(days, 2)
    ]
    return (Edition(1, date(2025, 1, 1), "", True), *later)


def some_points(rng: Random) -> tuple[str, ...]:
    """Return none, one or several points of the checklist."""
    return tuple(rng.sample(["weights", "boil", "told"], rng.choice([0, 1, 2, 3])))


def written_history(rng: Random, content: Content, *, with_standards: bool = True) -> Historian:
    """Return a historian who has written a random history of one cook, in order of time."""
    scribe = Historian(ZONE, content)
    if with_standards and rng.random() < 0.7:
        begin(rng, scribe)
    scribe.joins(COOK, moment(rng, 0), born=written_birth_date(rng))
    days = sorted(rng.choices(range(DAYS), k=rng.randrange(5, 40)))
    deeds = [*DEEDS, publish, publish] if with_standards else DEEDS
    for day in days:
        before = len(scribe.entries)
        rng.choice(deeds)(rng, scribe, moment(rng, day))
        if with_standards and rng.random() < 0.3:
            write_late(rng, scribe, before)
    return scribe


def write_late(rng: Random, scribe: Historian, before: int) -> None:
    """Let what was written last have happened some days before it was written."""
    for place in range(before, len(scribe.entries)):
        entry = scribe.entries[place]
        if entry.kind in MAY_BE_LATE:
            happened = entry.day - timedelta(days=rng.choice([1, 1, 7, 60, 300]))
            scribe.entries[place] = replace(entry, happened=happened)


def begin(rng: Random, scribe: Historian) -> None:
    """Write standard 1: of a new kitchen, or of an older book that is taken over."""
    is_from_before = rng.random() < 0.3
    scribe.publishes(scribe.content, moment(rng, 0), FIRST_DAY, is_from_before=is_from_before)


def publish(rng: Random, scribe: Historian, at: datetime) -> None:
    """Write a standard, in force at once or later, in which one or two things are other than in the last."""
    content, day = scribe.content, at.astimezone(ZoneInfo(ZONE)).date()
    for _ in range(rng.choice([0, 1, 1, 2])):
        content = rng.choice(CHANGES)(rng, content, day)
    scribe.publishes(content, at, day + timedelta(days=rng.choice([0, 0, 1, 30, 200])))


def another_edition(rng: Random, content: Content, day: date) -> Content:
    """Return the content with one more edition of a technique, its day typed long ago, today or to come."""
    technique = rng.choice(list(content.techniques.values()))
    last = technique.editions[-1]
    since = max(last.since, day + timedelta(days=rng.choice([-200, -30, 0, 30, 200])))
    more = Edition(last.number + 1, since, "", rng.random() < 0.6, some_points(rng))
    return with_technique(content, technique.id, editions=(*technique.editions, more))


def another_rule(rng: Random, content: Content, day: date) -> Content:
    """Return the content with other months of a technique, or with a quiz, or without one."""
    del day
    months = {"quiz_months": rng.choice([1, 6, 12]), "sign_off_months": rng.choice([1, 11, 24])}
    quiz: dict[str, Any] = rng.choice([{}, asking(4), {"questions": ()}])
    return with_technique(content, rng.choice(list(content.techniques)), **months, **quiz)


def another_station(rng: Random, content: Content, day: date) -> Content:
    """Return the content with a station that asks for something else, or is gone, or is there again."""
    del day
    stations = dict(content.stations)
    name = a_station(rng)
    station = stations.get(name) or Station(name, name, ("cold_sauces",), (), None, "", 0)
    stations[name] = replace(
        station,
        techniques=tuple(sorted(rng.sample(list(content.techniques), rng.choice([1, 1, 2])))),
        supervised_shifts=rng.choice([0, 0, 1]),
        minimum_age=rng.choice([None, None, 16, 18]),
        warn_days=rng.choice([0, 10, 60]),
        practice=some_practice(rng),
    )
    if rng.random() < 0.3 and len(stations) > 1:
        del stations[name]
    return replace(content, stations=stations)


def written_birth_date(rng: Random) -> date | None:
    """Return a birth date: long ago, 29 February 2012 (16 in 2028, 18 in 2030), or within reach of 18; or none."""
    soon = date(2009, 1, 1) + timedelta(days=rng.randrange(1500))
    return rng.choice([date(1980, 6, 1), date(2012, 2, 29), soon, soon, None])


def moment(rng: Random, day: int) -> datetime:
    """Return a moment of a kitchen's day: noon mostly, else a minute from midnight on either side."""
    clock = rng.choice([time(12), time(12), time(0, 1), time(23, 59)])
    return datetime.combine(FIRST_DAY + timedelta(days=day), clock, ZoneInfo(ZONE)).astimezone(UTC)


def a_technique(rng: Random, scribe: Scribe) -> Technique:
    """Return one of the techniques."""
    return rng.choice(list(scribe.content.techniques.values()))


def a_station(rng: Random) -> str:
    """Return one of the stations."""
    return rng.choice(["pasta_room", "cold_side", "grill"])


def learn(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a reading, a quiz and a practical of every technique, so that clearances are not rare."""
    for technique in scribe.content.techniques.values():
        edition = technique.edition_on(at.astimezone(ZoneInfo(ZONE)).date()).number
        scribe.reads(COOK, technique.id, at, edition)
        scribe.sits(COOK, technique.id, at)
        whole = rng.random() < 0.5 or not technique.parts
        for part in ("",) if whole else ("first", "second"):
            scribe.watched(COOK, technique.id, at, edition=edition, missed=some_points(rng), **of_part(part))


def of_part(part: str) -> dict[str, Any]:
    """Return what an entry says of the part that was watched; nothing of the whole."""
    divided = ["gone", "first"] if part == "gone" else ["first", "second"]
    return {"part": [part, part.capitalize()], "divided": divided} if part else {}


def read(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a reading of some edition."""
    scribe.reads(COOK, a_technique(rng, scribe).id, at, rng.randrange(1, 5))


def sit(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a quiz, passed or not."""
    scribe.sits(COOK, a_technique(rng, scribe).id, at, passed=rng.random() < 0.7)


def watch(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a practical as an older program did or with the moment it was begun, some points of it missed."""
    verdict = rng.choice(["meets it", "meets it", "not yet", "stopped", "stopped"])
    more: dict[str, Any] = {"missed": some_points(rng), **of_part(rng.choice(["", "first", "second", "gone"]))}
    if rng.random() < 0.6:
        more["started"] = moment_text(at - timedelta(minutes=rng.choice([0, 5, 60, 60 * 24 * 30])))
    if verdict == "stopped" and rng.random() < 0.2:
        more["happened"] = (at.date() - timedelta(days=rng.randrange(1, 200))).isoformat()
    scribe.watched(COOK, a_technique(rng, scribe).id, at, verdict, edition=rng.randrange(1, 5), **more)


def stop(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a stop, and as often as not its release and another practical within the hour."""
    technique = a_technique(rng, scribe)
    edition = technique.edition_on(at.astimezone(ZoneInfo(ZONE)).date()).number
    stopped = scribe.watched(COOK, technique.id, at, "stopped", started=moment_text(at))
    if rng.random() < 0.5:
        scribe.releases(stopped, at + timedelta(minutes=rng.choice([0, 20, 20])))
    begun = moment_text(at + timedelta(minutes=rng.choice([0, 20, 25])))
    scribe.watched(COOK, technique.id, at + timedelta(minutes=30), edition=edition, started=begun)


def release(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a release of some stop, or of a practical that was none."""
    practicals = [entry for entry in scribe.entries if entry.kind == "practical_watched"]
    stops = [entry for entry in practicals if entry.body["verdict"] == "stopped"]
    if practicals:
        scribe.releases(rng.choice(stops or practicals).id, at)


def work(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a supervised shift."""
    write_shift(scribe, at, a_station(rng), ago=0)


def work_a_month(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write some shifts at one station, worked in the month before."""
    station = a_station(rng)
    for _ in range(rng.randrange(2, 7)):
        write_shift(scribe, at, station, ago=rng.randrange(30))


def write_shift(scribe: Scribe, at: datetime, station: str, ago: int) -> None:
    """Write a supervised shift worked so many days ago."""
    day = at.date() - timedelta(days=ago)
    body = {"station": station, "worked_on": f"{day}", "beside": "sous", "guests": 1, "sitting": "dinner"}
    scribe.write("shift_worked", COOK, at, body)


def set_services(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write the hours of a dinner that ends before or after midnight on some weekdays."""
    days = rng.sample(range(1, 8), rng.randrange(8))
    closes = rng.choice(["00:30", "22:00", "00:00"])
    weekly = [
        {"weekday": day, "service": "dinner", "opens": "17:00", "closes": closes, "guests": 80, "needs": []}
        for day in sorted(days)
    ]
    since = at.date() + timedelta(days=rng.randrange(3))
    scribe.write("services_set", THE_BOOK, at, {"since": f"{since}", "weekly": weekly, "days": []})


def plan(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a plan of some days, some places taken despite what is missing; close some of it, replace it at times."""
    while rng.random() < 0.4:
        publish_plan(rng, scribe, at)
    publish_plan(rng, scribe, at)


def publish_plan(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write one plan, and close some of its services."""
    first, lines = at.date() + timedelta(days=rng.randrange(3)), []
    for ahead in range(length := rng.randrange(1, 15)):
        for service in rng.sample(["lunch", "dinner"], rng.randrange(3)):
            who = {"cook": rng.choice([COOK, COOK, "ben"]), "station": a_station(rng)}
            day = {"day": f"{first + timedelta(days=ahead)}", "service": service}
            lines.append({**day, **who, "as": rng.choice(["runs", "runs", "runs", "trails"])})
    told = json.dumps({"lines": lines, "in_charge": [], "away": []})
    despite = [{**{k: v for k, v in one.items() if k != "as"}, "reason": "x"} for one in lines if rng.random() < 0.3]
    body = {"from": f"{first}", "to": f"{first + timedelta(days=length - 1)}", "plan": told}
    scribe.write("plan_published", THE_BOOK, at, {**body, "despite": despite, "replaces": []})
    for one in lines:
        if rng.random() < 0.3:
            closed = at + (date.fromisoformat(one["day"]) - at.date()) + timedelta(days=rng.choice([0, 0, 1, 4]))
            close(rng, scribe, closed, date.fromisoformat(one["day"]), one["service"])


def close_some(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write who stood at some services of the weeks before."""
    for _ in range(rng.randrange(1, 6)):
        close(rng, scribe, at, at.date() - timedelta(days=rng.randrange(20)), rng.choice(["lunch", "dinner"]))


def close(rng: Random, scribe: Scribe, at: datetime, day: date, service: str) -> None:
    """Write who stood at a service, some of them where they should not have."""
    stood = [
        {"cook": cook, "station": a_station(rng), "as": rng.choice(["runs", "runs", "trails"])}
        for cook in rng.sample([COOK, "ben"], rng.randrange(3))
    ]
    wrong = [
        {"cook": one["cook"], "station": one["station"], "state": "lapsed", "reason": "x"}
        for one in stood
        if rng.random() < 0.2
    ]
    body = {"service": service, "as_planned": False, "stood": stood, "disparities": wrong, "guests": 80, "proof": None}
    scribe.write("service_stood", THE_BOOK, at, body)
    scribe.entries[-1] = replace(scribe.entries[-1], happened=min(day, scribe.entries[-1].day))


def show(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a certificate, some with no end, some that begin later."""
    issued = at.date() + timedelta(days=rng.randrange(-100, 20))
    expires = rng.choice([None, issued + timedelta(days=rng.randrange(700))])
    body = {"certificate": rng.choice(["food_handler", "first_aid"]), "number": "1", "issued": issued.isoformat()}
    scribe.write("certificate_shown", COOK, at, {**body, "expires": expires.isoformat() if expires else None})


def know(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write that some techniques are known from before, the questions of some of them asked at once."""
    names = rng.sample(list(scribe.content.techniques), rng.choice([1, 2, 3]))
    until = at.date() + timedelta(days=rng.choice([1, 20, 92, 300]))
    cell = {"cook": COOK, "station": a_station(rng), "techniques": names, "until": f"{until}"}
    asked = rng.sample(names, rng.randrange(len(names) + 1))
    scribe.write("known_before", COOK, at, {"cells": [{**cell, "asked": asked}], "basis": "x"})


def stand(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a standing down or a putting back."""
    body = {"station": a_station(rng), "reason": "x"}
    if rng.random() < 0.5:
        scribe.write("restored", COOK, at, body)
        return
    if rng.random() < 0.2:
        body["happened"] = (at.date() - timedelta(days=rng.randrange(1, 200))).isoformat()
    scribe.write("stood_down", COOK, at, body)


def go_for(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write that a path to a station is opened, or that one is closed."""
    opened = [entry.id for entry in scribe.entries if entry.kind == "path_opened"]
    if opened and rng.random() < 0.5:
        said = {"outcome": rng.choice(["reached", "dropped"]), "reason": "x"}
        scribe.write("path_closed", COOK, at, {"path": rng.choice(opened), **said})
        return
    by_day = at.date() + timedelta(days=rng.choice([0, 30, 300]))
    scribe.write("path_opened", COOK, at, {"station": a_station(rng), "by_day": f"{by_day}", "mentor": "sous"})


def come_or_go(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a leaving or a joining."""
    if rng.random() < 0.5:
        scribe.write("cook_left", COOK, at, {"reason": "x"})
    else:
        scribe.write("cook_joined", COOK, at, {"roles": ["cook"]})


def void(rng: Random, scribe: Scribe, at: datetime) -> None:
    """Write a void of some entry, a void among them now and then: from that day on, or of every day."""
    kinds = ("standard_published",)
    entry = rng.choice([entry for entry in scribe.entries if entry.kind not in kinds])
    counts = rng.choice([{}, {"counts": "from today"}, {"counts": "never"}, {"counts": "never"}])
    scribe.write("entry_voided", COOK, at, {"entry": entry.id, "reason": "x", **counts})


Deed = Callable[[Random, Historian, datetime], None]
DEEDS: Sequence[Deed] = [
    *(learn, learn, learn, read, sit, watch, watch, work, work, work_a_month, work_a_month, show, show),
    *(know, set_services, plan, plan, close_some),
    *(stop, release, release, stand, come_or_go, void, go_for, go_for),
]
CHANGES: Sequence[Callable[[Random, Content, date], Content]] = [another_edition, another_rule, another_station]
