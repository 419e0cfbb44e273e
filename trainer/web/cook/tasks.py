"""What hangs on a cook's rail, in which order, and what the next act on a technique is. Words and addresses only."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from flask import abort, url_for

from trainer.actions.sitting import open_sitting, sits_again_from
from trainer.actions.sitting_drafts import PutAside, put_aside
from trainer.actions.studying import place_of
from trainer.kitchen.clearance import TechniqueStanding, technique_standing
from trainer.kitchen.practical import WORDS
from trainer.kitchen.progress import CookRecord
from trainer.kitchen.quiz.retelling import told_in_both
from trainer.kitchen.technique import Technique
from trainer.recipe_math.saying import joined, say, say_many
from trainer.web import guard, reading
from trainer.web.filters import day, waited, weekday
from trainer.web.result_view import word_for

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
    found = reading.content().techniques.get(name)
    if found is None:
        abort(404, say("There is no technique “{name}” in this kitchen.", name=name))
    return found


def technique_in_both(name: str) -> Technique | None:
    """Return a technique that draws its own questions, each word of them in the reader's words too; None if unknown."""
    own, told = (content.techniques.get(name) for content in (guard.kitchen().content, reading.content()))
    return told_in_both(own, told) if own and told else None


def asides() -> tuple[PutAside, ...]:
    """Return the reader's sittings that are put aside, each title in the reader's words where it is still taught."""
    taught = reading.content().techniques
    found = put_aside(guard.kitchen(), cook=guard.person().id)
    return tuple(
        replace(each, title=taught[each.technique].title) if each.technique in taught else each for each in found
    )


def ticket_for(technique: Technique, standing: TechniqueStanding) -> Ticket:
    """Return the technique's ticket: what is next, and how near it is."""
    sitting = open_sitting(guard.kitchen(), cook=guard.person().id, technique=technique.id)
    stopped = standing.practical.missing if standing.is_stopped else None
    rank, line, act = _next(technique, standing, sitting.id if sitting else "")
    if stopped:
        rank, line, act = 0, joined([stopped.text, stopped.next_act]), None
    if standing.state == "lapsed":
        rank = min(rank, 1)
    url = url_for("cook.technique", technique=technique.id)
    return Ticket(technique.id, technique.title, state_of(technique, standing), line, url, act, rank)


def state_of(technique: Technique, standing: TechniqueStanding) -> str:
    """Return the state to tell: studying as soon as a step was come to, though the book knows nothing of it yet."""
    place = place_of(guard.kitchen(), cook=guard.person().id, technique=technique)
    return "studying" if standing.state == "not started" and place else standing.state


def _next(technique: Technique, standing: TechniqueStanding, sitting: str) -> tuple[int, str, Act | None]:
    name = technique.title
    if sitting:
        return (
            0,
            say("Your quiz is open."),
            Act(say("Go on with the quiz: {name}", name=name), url_for("quiz.sitting", sitting=sitting)),
        )
    if standing.asked_since and not standing.is_signed:
        return 2, say("You asked to be watched. Waiting {asked_since}.", asked_since=waited(standing.asked_since)), None
    if not standing.is_read:
        place = place_of(guard.kitchen(), cook=guard.person().id, technique=technique)
        return (
            4 if place else 5,
            _to_be_read(technique, place),
            Act(say("Read: {name}", name=name), url_for("cook.technique", technique=technique.id)),
        )
    if not standing.quiz_passed:
        return _to_the_quiz(technique)
    if not standing.is_signed:
        return (
            2,
            say("Show it to a sous chef."),
            Act(say("Ask to be watched"), url_for("cook.ask", technique=technique.id), True),
        )
    return 9, say("Signed."), None


def _to_be_read(technique: Technique, place: int | None) -> str:
    """Return how many steps there are to read, or which one the cook has come to."""
    total = len(technique.steps)
    if place:
        return say("You are at step {number} of {total}.", number=place, total=total)
    return say("Read it: {steps}.", steps=say_many("{number} step", "{number} steps", total))


def _to_the_quiz(technique: Technique) -> tuple[int, str, Act]:
    """Return how near the quiz is: to be sat now, or from a day on after a fail."""
    first = sits_again_from(guard.person().id, technique.id, guard.kitchen().day(guard.today()))
    if first is not None:
        url = url_for("cook.step", technique=technique.id, number=1)
        line = say("Sit the quiz again from {first}.", first=weekday(first))
        return 4, line, Act(say("Go through it again: {title}", title=technique.title), url)
    asked = say_many("{number} question", "{number} questions", technique.asked)
    if technique.plan:
        asked = say("{asked} at most", asked=asked)
    url = url_for("quiz.start", technique=technique.id)
    return 3, say("Sit the quiz: {asked}.", asked=asked), Act(say("Sit the quiz: {title}", title=technique.title), url)


def tickets() -> tuple[Ticket, ...]:
    """Return a ticket for every technique a station asks for: nearest act first, then what their shifts ask for."""
    content, progress, on = reading.content(), guard.kitchen().progress(), guard.today()
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
    stations = [reading.content().stations.get(shift.station) for shift in planned if shift.cook == cook]
    names = dict.fromkeys(name for station in stations if station for name in station.techniques)
    return {name: place for place, name in enumerate(names)}


def slips(record: CookRecord) -> tuple[Slip, ...]:
    """Return what a cook has done, newest first."""
    found = [*_read_slips(record), *_quiz_slips(record), *_watched_slips(record), *_shift_slips(record)]
    return tuple(sorted(found, key=lambda slip: slip.entry, reverse=True))


def _read_slips(record: CookRecord) -> list[Slip]:
    return [
        Slip(r.entry, _title(r.technique), say("Read edition {edition}, {on}", edition=r.edition, on=day(r.on)))
        for r in record.read
    ]


def _quiz_slips(record: CookRecord) -> list[Slip]:
    found = []
    for sat in record.sat:
        outcome = word_for(sat.passed, undecided=sat.undecided)
        line = say(
            "Quiz: {right} of {asked} right, {outcome}, {on}",
            right=sat.right,
            asked=sat.asked,
            outcome=outcome,
            on=day(sat.on),
        )
        found.append(Slip(sat.entry, _title(sat.technique), line, url_for("quiz.result", entry=sat.entry)))
    return found


def _watched_slips(record: CookRecord) -> list[Slip]:
    people = guard.kitchen().people()
    found = []
    for watched in record.watched:
        parts: list[str] = [WORDS.get(watched.verdict, watched.verdict), day(watched.on)]
        if watched.by in people:
            parts.append(say("signed {name}", name=people[watched.by].name))
        found.append(Slip(watched.entry, _title(watched.technique), joined(parts, ", ")))
    return found


def _shift_slips(record: CookRecord) -> list[Slip]:
    return [
        Slip(s.entry, _title(s.station), say("Supervised shift, {worked_on}", worked_on=day(s.worked_on)))
        for s in record.shifts
    ]


def _title(name: str) -> str:
    """Return the title of a technique or station; its id where the content no longer has it."""
    content = reading.content()
    found = content.techniques.get(name) or content.stations.get(name)
    return found.title if found else name
