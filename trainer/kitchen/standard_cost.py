"""What a new standard costs: who would lose which clearance on its first day, and the work that brings them back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from trainer.kitchen.added_skills import NewSkill, new_skills
from trainer.kitchen.clearance import Clearance, clearances_of
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.requirements import Missing
from trainer.kitchen.skills.rule import ADDED_DAYS, ADDED_SAFETY_DAYS
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Content, Technique
from trainer.messages import Text, joined, message, plural

SECONDS_A_SCREEN, MINUTES_A_PRACTICAL = 25, 15
"""What a step or a question, and a practical, are counted as: common practice, until a kitchen knows its own pace."""


@dataclass(frozen=True, slots=True)
class Loss:
    """A clearance that would be lost: whose, where, and what would be missing that is there today."""

    cook: str
    station: str
    missing: tuple[Missing, ...]


@dataclass(frozen=True)
class Cost:
    """Every clearance lost on a standard's first day, in the order of the board; `minutes` counts cooks' time.

    `new` are the skills that cooks who stay cleared are asked for from then on, and have some days for.
    """

    losses: tuple[Loss, ...]
    minutes: int
    new: tuple[NewSkill, ...] = ()

    @cached_property
    def work(self) -> frozenset[tuple[str, str, str]]:
        """Return what is to be done again, once a cook: cook, kind of work (reading, quiz, practical), technique."""
        parts = ((loss.cook, *missing.what.partition(":")[::2]) for loss in self.losses for missing in loss.missing)
        return frozenset(part for part in parts if part[1] in ("reading", "quiz", "practical"))

    def count(self, kind: str) -> int:
        """Return how much of one kind of work there is."""
        return sum(part[1] == kind for part in self.work)

    @property
    def cooks(self) -> int:
        """Return how many people lose a clearance."""
        return len({loss.cook for loss in self.losses})

    @property
    def counts(self) -> Mapping[str, int]:
        """Return the cost as it is written into the book; new skills are named where there are some."""
        new = {"new_skills": len(self.new), "new_questions": self.new_questions} if self.new else {}
        return {
            "cooks": self.cooks,
            "clearances": len(self.losses),
            "readings": self.count("reading"),
            "questions": self.count("quiz"),
            "practicals": self.count("practical"),
            "minutes": self.minutes,
            **new,
        }

    @property
    def new_questions(self) -> int:
        """Return how many questions the new skills come to, each answered right at once."""
        return sum(one.questions for one in self.new)


def cost_of(people: Iterable[Person], before: Progress, after: Progress, taught: Content, on: date) -> Cost:
    """Return what changes on a day between two books that differ in one standard; `taught` is the new content."""
    here = set(before.at_stations_on(on))
    losses: list[Loss] = []
    new: list[NewSkill] = []
    for person in (each for each in people if each.id in here):
        was, now = _clearances(person, before, taught, on), _clearances(person, after, taught, on)
        losses.extend(_losses(was, now))
        new.extend(new_skills(after.record(person.id), _kept_up(was, now, after, taught, on), on))
    cost = Cost(tuple(losses), 0, tuple(new))
    seconds = sum(seconds_of(kind, name, taught) for _, kind, name in cost.work)
    return replace(cost, minutes=round((seconds + cost.new_questions * SECONDS_A_SCREEN) / 60))


def _kept_up(
    before: Mapping[str, Clearance], after: Mapping[str, Clearance], progress: Progress, taught: Content, on: date
) -> Iterator[Technique]:
    """Yield the techniques of the stations that a person is cleared for before and after."""
    content = progress.standards.content_on(on, taught)
    kept = [id for id, was in before.items() if was.is_cleared and id in after and after[id].is_cleared]
    for station in (content.stations[id] for id in kept if id in content.stations):
        yield from (content.techniques[id] for id in station.techniques if id in content.techniques)


def _clearances(person: Person, progress: Progress, taught: Content, on: date) -> dict[str, Clearance]:
    """Return a person's clearances on a day by station, at the stations of the standard in force then."""
    standard = progress.standards.in_force(on)
    content = standard.content if standard else taught
    found = clearances_of(person, content.stations.values(), progress, content, on)
    return {each.station: each for each in found}


def _losses(before: Mapping[str, Clearance], after: Mapping[str, Clearance]) -> Iterable[Loss]:
    """Yield the clearances of one person that are there before and not after; a station taken out leaves nothing."""
    for station, was in before.items():
        now = after.get(station)
        if was.is_cleared and not (now and now.is_cleared):
            lacked = {missing.what for missing in was.missing}
            yield Loss(was.cook, station, tuple(m for m in (now.missing if now else ()) if m.what not in lacked))


def seconds_of(kind: str, technique: str, taught: Content) -> int:
    """Return how long one piece of work takes a cook: a reading, the questions (quiz) or a practical of a technique."""
    found = taught.techniques.get(technique)
    if kind == "practical" or found is None:
        return MINUTES_A_PRACTICAL * 60
    questions = sum(skill.base for skill in found.knowledge) or found.asked
    return SECONDS_A_SCREEN * (len(found.steps) if kind == "reading" else questions)


def cost_words(cost: Cost, since: date) -> Text:
    """Return what a standard costs from its first day on, in a sentence or two."""
    return joined([_loss_words(cost, since), *([_new_words(cost)] if cost.new else ())])


def _new_words(cost: Cost) -> Text:
    """Return what is asked anew of cooks who stay cleared, and how long they have."""
    return message(
        "{questions} on what is new, of {cooks}: within {safety} days where it is about safety, else within {days}.",
        questions=plural("{number} question", "{number} questions", cost.new_questions),
        cooks=plural("{number} person", "{number} people", len({one.cook for one in cost.new})),
        safety=ADDED_SAFETY_DAYS,
        days=ADDED_DAYS,
    )


def _loss_words(cost: Cost, since: date) -> Text:
    if not cost.losses:
        return message("Nobody loses a clearance.")
    return message(
        "Publishing costs {clearances} of {cooks} from {day}; {work} to bring back.",
        clearances=plural("{number} clearance", "{number} clearances", len(cost.losses)),
        cooks=plural("{number} person", "{number} people", cost.cooks),
        day=in_words(since),
        work=hours_words(cost.minutes),
    )


def hours_words(minutes: int) -> Text:
    """Return a time of work in minutes, or from an hour up in hours and minutes."""
    hours, left = divmod(minutes, 60)
    if not hours:
        return plural("{number} minute", "{number} minutes", left)
    return message("{hours} h {minutes} min", hours=hours, minutes=f"{left:02d}")
