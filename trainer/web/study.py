"""What hangs on a cook's rail, in which order, and what the next act on a technique is. Words and addresses only."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from flask import abort, url_for

from trainer.actions.sitting import open_sitting, sits_again_from
from trainer.kitchen.clearance import TechniqueStanding, technique_standing
from trainer.kitchen.progress import CookRecord
from trainer.kitchen.technique import Technique
from trainer.web import guard
from trainer.web.filters import counted, day, waited, weekday
from trainer.web.sat_view import word_for

TWO_WEEKS = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Act:
    """The next act on a technique: its words, where it leads, and whether one press there saves something."""

    words: str
    url: str
    saves: bool = False


@dataclass(frozen=True, slots=True)
class Ticket:
    """One technique as it hangs on the rail or waits below it. `rank` is how near its act is: 0 is nearest."""

    technique: str
    title: str
    state: str
    line: str
    url: str
    act: Act | None
    rank: int


@dataclass(frozen=True, slots=True)
class Slip:
    """One thing done, on the spike."""

    entry: str
    title: str
    line: str
    url: str = ""


def technique_named(name: str) -> Technique:
    """Return the technique of an address, or answer that there is none."""
    found = guard.kitchen().content.techniques.get(name)
    if found is None:
        abort(404, f"There is no technique {name!r} in this kitchen.")
    return found


def ticket_for(technique: Technique, standing: TechniqueStanding) -> Ticket:
    """Return the technique's ticket: what is next, and how near it is."""
    sitting = open_sitting(guard.kitchen(), cook=guard.person().id, technique=technique.id)
    rank, line, act = _next(technique, standing, sitting.id if sitting else "")
    if standing.state == "lapsed":
        rank = min(rank, 1)
    url = url_for("cook.technique", technique=technique.id)
    return Ticket(technique.id, technique.title, standing.state, line, url, act, rank)


def _next(technique: Technique, standing: TechniqueStanding, sitting: str) -> tuple[int, str, Act | None]:
    name = technique.title
    if sitting:
        return 0, "Your quiz is open.", Act(f"Go on with the quiz: {name}", url_for("quiz.sitting", sitting=sitting))
    if standing.asked_since and not standing.is_signed:
        return 2, f"You asked to be watched. Waiting {waited(standing.asked_since)}.", None
    if not standing.is_read:
        steps = counted(len(technique.steps), "step")
        return 4, f"Read it: {steps}.", Act(f"Read: {name}", url_for("cook.technique", technique=technique.id))
    if not standing.quiz_passed:
        return _to_the_quiz(technique)
    if not standing.is_signed:
        return 2, "Show it to a sous chef.", Act("Ask to be watched", url_for("cook.ask", technique=technique.id), True)
    return 9, "Signed.", None


def _to_the_quiz(technique: Technique) -> tuple[int, str, Act]:
    """Return how near the quiz is: to be sat now, or from a day on after a fail."""
    first = sits_again_from(guard.person().id, technique.id, guard.kitchen().day(guard.today()))
    if first is not None:
        url = url_for("cook.step", technique=technique.id, number=1)
        line = f"Sit the quiz again from {weekday(first)}."
        return 4, line, Act(f"Go through it again: {technique.title}", url)
    asked = counted(technique.asked, "question") + (" at most" if technique.plan else "")
    url = url_for("quiz.start", technique=technique.id)
    return 3, f"Sit the quiz: {asked}.", Act(f"Sit the quiz: {technique.title}", url)


def tickets() -> tuple[Ticket, ...]:
    """Return a ticket for every technique a station asks for: nearest act first, then what their shifts ask for."""
    content, progress, on = guard.kitchen().content, guard.kitchen().progress(), guard.today()
    asked = {name for station in content.stations.values() for name in station.techniques}
    found = [
        ticket_for(technique, technique_standing(guard.person().id, technique, progress, on))
        for technique in content.techniques.values()
        if technique.id in asked
    ]
    soon = asked_soon(guard.person().id, on)
    return tuple(sorted(found, key=lambda ticket: (ticket.rank, soon.get(ticket.technique, len(soon)))))


def asked_soon(cook: str, on: date) -> dict[str, int]:
    """Return the place of each technique asked for at the stations where a cook is planned in the next two weeks."""
    kitchen = guard.kitchen()
    planned = kitchen.file.shifts.between(on, on + TWO_WEEKS)
    stations = [kitchen.content.stations.get(shift.station) for shift in planned if shift.cook == cook]
    names = dict.fromkeys(name for station in stations if station for name in station.techniques)
    return {name: place for place, name in enumerate(names)}


def slips(record: CookRecord) -> tuple[Slip, ...]:
    """Return what a cook has done, newest first."""
    found = [*_read_slips(record), *_quiz_slips(record), *_watched_slips(record), *_shift_slips(record)]
    return tuple(sorted(found, key=lambda slip: slip.entry, reverse=True))


def _read_slips(record: CookRecord) -> list[Slip]:
    return [Slip(r.entry, _title(r.technique), f"Read edition {r.edition}, {day(r.on)}") for r in record.read]


def _quiz_slips(record: CookRecord) -> list[Slip]:
    found = []
    for sat in record.sat:
        outcome = word_for(sat.passed, undecided=sat.undecided).lower()
        line = f"Quiz: {sat.right} of {sat.asked} right, {outcome}, {day(sat.on)}"
        found.append(Slip(sat.entry, _title(sat.technique), line, url_for("quiz.result", entry=sat.entry)))
    return found


def _watched_slips(record: CookRecord) -> list[Slip]:
    people = guard.kitchen().people()
    found = []
    for watched in record.watched:
        by = f", signed {people[watched.by].name}" if watched.by in people else ""
        found.append(Slip(watched.entry, _title(watched.technique), f"{watched.verdict}, {day(watched.on)}{by}"))
    return found


def _shift_slips(record: CookRecord) -> list[Slip]:
    return [Slip(s.entry, _title(s.station), f"Supervised shift, {day(s.worked_on)}") for s in record.shifts]


def _title(name: str) -> str:
    """Return the title of a technique or station; its id where the content no longer has it."""
    content = guard.kitchen().content
    found = content.techniques.get(name) or content.stations.get(name)
    return found.title if found else name
