"""A small kitchen on the disk with its people, and a clock the tests turn; what is needed before an act is one call."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

from tests.kitchen.kitchen_for_tests import small_content
from trainer.actions.authorizing import give_with_role
from trainer.actions.confirming import confirm
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.sitting import answer_question, finish_sitting, start_sitting
from trainer.actions.sitting_drafts import Sitting
from trainer.actions.studying import acknowledge_reading
from trainer.actions.two_people import Waits, local_second
from trainer.actions.watching import Look, Practical, Signing, Watch, see_point, sign_practical, start_practical
from trainer.kitchen.book import Entry, Kind, NewEntry
from trainer.kitchen.progress import Person
from trainer.kitchen.technique import Content
from trainer.store.kitchen_file import KitchenFile
from trainer.store.settings import Settings

NOON = datetime(2026, 3, 2, 17, tzinfo=UTC)  # noon in New York
TODAY = date(2026, 3, 2)
EVERY_POINT = (
    Look("guard_on", "meets it"),
    Look("weights", None, ("128 g",) * 5),
    Look("boil", None, ("85 s",)),
    Look("told", "meets it"),
)


def saved(outcome: object) -> Entry:
    """Return the entry an action saved; anything else fails the test with its reason."""
    assert isinstance(outcome, Saved), outcome
    return outcome.entry


def refused(outcome: object) -> Refused:
    """Return an action's refusal; anything else fails the test."""
    assert isinstance(outcome, Refused), outcome
    return outcome


def entered(crew: Crew, outcome: object) -> Entry:
    """Return the entry an action saved, or that of what waits, confirmed on the machine itself."""
    if not isinstance(outcome, Waits):
        return saved(outcome)
    return saved(confirm(crew.k, draft=outcome.draft, second=local_second(crew.now), now=crew.now))


@dataclass
class Crew:
    """Ada and Ben cook; Sous is an assessor cleared on the cold side; Mara and Nils manage; Nils is an assessor too."""

    k: Kitchen
    now: datetime = NOON
    count: int = field(default=0)

    def key(self) -> str:
        """Return a key never used before."""
        self.count += 1
        return f"key-{self.count}"

    def later(self, **time: float) -> datetime:
        """Turn the clock on, and return the moment."""
        self.now += timedelta(**time)
        return self.now

    def joins(self, cook: str, *roles: str, born: date | None = date(1990, 5, 5)) -> None:
        """Put a person among the people and on the roster, with authority in writing where they assess."""
        self.k.file.people.add(Person(cook, cook.capitalize(), born))
        give_with_role(self.k, self.write("cook_joined", cook, {"roles": list(roles)}), (), self.now)

    def write(self, kind: Kind, cook: str, body: Mapping[str, Any], by: str = "mara") -> Entry:
        """Write an entry straight into the book."""
        return self.k.file.book.append(NewEntry(kind, self.now, cook, by if by != cook else "nils", body, self.key()))

    def entries(self, kind: Kind) -> list[Entry]:
        """Return the entries of a kind."""
        return [entry for entry in self.k.file.book.since(0) if entry.kind == kind]

    def clears(self, cook: str, technique: str = "cold_sauces", station: str = "cold_side") -> None:
        """Write a reading and a sign-off."""
        self.write("technique_read", cook, {"technique": technique, "edition": 1})
        said = {"points": [], "verdict": "meets it", "reasons": [], "note": ""}
        body = {"technique": technique, "edition": 1, "station": station, **said}
        self.write("practical_watched", cook, body)

    def reads(self, cook: str, technique: str) -> Outcome:
        """Acknowledge a reading."""
        return acknowledge_reading(self.k, cook=cook, technique=technique, now=self.now, key=self.key())

    def begins_sitting(self, cook: str = "ada", seed: int = 7) -> Sitting:
        """Read fresh pasta and start its quiz."""
        self.reads(cook, "fresh_pasta")
        started = start_sitting(self.k, cook=cook, technique="fresh_pasta", seed=seed, now=self.now, key=self.key())
        assert isinstance(started, Sitting), started
        return started

    def answers(self, sitting: Sitting, *, right: int) -> None:
        """Answer every question: so many right, the rest with a number that is none of the wrong methods'."""
        for place, question in enumerate(sitting.questions):
            value = question.answer.value if place < right else question.answer.value * 1000 + 77
            answer_question(self.k, sitting=sitting.id, index=place, text=str(value), now=self.now)

    def passes_quiz(self, cook: str) -> Entry:
        """Sit the quiz of fresh pasta with everything right."""
        sitting = self.begins_sitting(cook)
        self.answers(sitting, right=len(sitting.questions))
        return saved(finish_sitting(self.k, sitting=sitting.id, now=self.now, key=self.key()))

    def begins_practical(self, cook: str = "ada", by: str = "sous") -> Practical:
        """Read cold sauces, and start a practical of it."""
        self.reads(cook, "cold_sauces")
        watch = Watch(cook, "cold_sauces", "cold_side")
        begun = start_practical(self.k, by=by, watch=watch, now=self.now, key=self.key())
        assert isinstance(begun, Practical), begun
        return begun

    def sees(self, practical: Practical, *looks: Look) -> None:
        """See points, all of the checklist unless some are named."""
        for look in looks or EVERY_POINT:
            see_point(self.k, by=practical.by, practical=practical.id, look=look, now=self.now)

    def signs(self, practical: Practical, key: str | None = None, **changes: Any) -> Outcome:
        """Sign a practical, the PIN given a minute ago."""
        signing = Signing(practical.id, **{"proved_at": self.now - timedelta(minutes=1), **changes})
        return sign_practical(self.k, by=practical.by, signing=signing, now=self.now, key=key or self.key())


def crew_in(folder: Path, content: Content | None = None) -> Crew:
    """Return the crew in a new kitchen in New York."""
    file = KitchenFile.create(folder, Settings("", "Quernstone", "America/New_York"))
    crew = Crew(Kitchen(file, content or small_content()))
    crew.joins("ada", "cook")
    crew.joins("ben", "cook")
    crew.joins("sous", "cook", "assessor")
    crew.joins("mara", "manager")
    crew.joins("nils", "manager", "assessor")
    crew.clears("sous")
    return crew
