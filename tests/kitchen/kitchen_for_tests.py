"""A small invented kitchen of three stations, and a scribe who writes entries with no book behind them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from fractions import Fraction
from typing import Any
from zoneinfo import ZoneInfo

from tests.kitchen.quiz.asking import WORDS
from trainer.kitchen.book import Entry, Kind
from trainer.kitchen.clearance import Clearance, clearance_of
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.progress import Person, Progress
from trainer.kitchen.technique import (
    CertificateAsked,
    Content,
    Edition,
    Limit,
    LocalCode,
    Point,
    QuestionSetting,
    Station,
    Technique,
)
from trainer.recipe_math.quantity import Quantity
from trainer.recipe_math.units import unit

BAKERY_MACHINES = "29 CFR 570.62, power-driven bakery machines: 18 years"
FIRST = date(2026, 1, 5)


def grams(number: int) -> Quantity:
    """Return so many grams."""
    return Quantity(Fraction(number), unit("g"))


NEST = Limit("nest_weight", grams(122), grams(134), grams(128), "house")
BOIL = Limit("boil_time", None, Quantity(Fraction(90), unit("s")), None, "house")

CHECKLIST = (
    Point("guard_on", "guard on before power", critical=True, judged="ticked", limit=None),
    Point("weights", "nests weigh alike", critical=False, judged="weighed", limit=NEST, pieces=5, pieces_inside=4),
    Point("boil", "boiled in time", critical=False, judged="timed", limit=BOIL),
    Point("told", "allergens told", critical=False, judged="ticked", limit=None),
)


def technique(name: str, **changes: Any) -> Technique:
    """Return a technique with one edition, no questions, sign-off good for 12 months; *changes* replace fields."""
    plain = Technique(
        id=name,
        title=name.replace("_", " ").capitalize(),
        goal="",
        editions=(Edition(1, date(2025, 1, 1), "First edition.", sign_offs_hold=True),),
        words=(),
        standard=(NEST,),
        standard_text=(),
        tools=(),
        steps=(),
        faults=(),
        hazards=(),
        allergens=(),
        checklist=CHECKLIST,
        scored_needed=2,
        questions=(),
        need_right=0,
        quiz_months=12,
        sign_off_months=12,
        sources=(),
    )
    return replace(plain, **changes)


def asking(count: int) -> dict[str, Any]:
    """Return the changes that give a technique a quiz of so many questions."""
    setting = QuestionSetting("portions_from_batch", {}, {}, count)
    return {"questions": (setting,), "need_right": max(1, count * 8 // 10)}


def small_content(**stations: Mapping[str, Any]) -> Content:
    """Return the content; *stations* names a station and the fields to replace in it."""
    techniques = (technique("fresh_pasta", **asking(4)), technique("pasta_nesting"), technique("cold_sauces"))
    food_handler = CertificateAsked("food_handler", "Food handler card", bars=False)
    first_aid = CertificateAsked("first_aid", "First aid", bars=True)
    pasta = ("fresh_pasta", "pasta_nesting")
    plain = (
        Station("pasta_room", "Pasta room", pasta, (food_handler,), 18, BAKERY_MACHINES, 2),
        Station("cold_side", "Cold side", ("cold_sauces",), (), None, "", 0),
        Station("grill", "Grill", ("cold_sauces",), (first_aid,), None, "", 0, warn_days=10),
    )
    made = tuple(replace(station, **stations.get(station.id, {})) for station in plain)
    return Content(
        techniques={t.id: t for t in techniques},
        stations={s.id: s for s in made},
        code=LocalCode("test", "Test code", "2022", {}),
        sources={},
        allergens={},
        question_words=WORDS,
    )


def with_technique(content: Content, name: str, **changes: Any) -> Content:
    """Return the content with fields of one technique replaced."""
    changed = replace(content.techniques[name], **changes)
    return replace(content, techniques={**content.techniques, name: changed})


def noon(day: date) -> datetime:
    """Return noon UTC of a day."""
    return datetime.combine(day, time(12), UTC)


def answered(
    seed: int = 1, *, right: bool, family: str = "discard_time", method: str | None = None, safety: bool = False
) -> dict[str, Any]:
    """Return one question with its answer, as much of it as is read again."""
    return {"family": family, "seed": seed, "right": right, "method": method, "safety": safety}


@dataclass
class Scribe:
    """Writes entries in order; each shorthand returns the entry's id."""

    timezone: str = "UTC"
    content: Content = field(default_factory=small_content)
    entries: list[Entry] = field(default_factory=list)
    people: dict[str, Person] = field(default_factory=dict)

    def write(  # noqa: PLR0917 - an entry has so much
        self,
        kind: Kind,
        cook: str,
        when: date | datetime,
        body: Mapping[str, Any],
        by: str = "mara",
        edition: int = 1,
    ) -> str:
        """Write one entry on a day (at noon UTC) or at a moment."""
        seq = len(self.entries) + 1
        at = when if isinstance(when, datetime) else noon(when)
        day = at.astimezone(ZoneInfo(self.timezone)).date()
        entry = Entry(seq, "k", f"e{seq}", kind, at, cook, by, body, f"key{seq}", "", "", day, day, edition=edition)
        self.entries.append(entry)
        return f"e{seq}"

    def joins(
        self,
        cook: str,
        when: date | datetime = FIRST,
        *roles: str,
        born: date | None = date(1990, 5, 5),
        edition: int = 1,
    ) -> str:
        """Put a person on the roster; a cook unless other roles are named."""
        self.people[cook] = Person(cook, cook.capitalize(), born)
        return self.write("cook_joined", cook, when, {"roles": list(roles or ("cook",))}, edition=edition)

    def leaves(self, cook: str, when: date) -> str:
        """Take a person off the roster."""
        return self.write("cook_left", cook, when, {"reason": "moved away"})

    def reads(self, cook: str, what: str, when: date | datetime, edition: int = 1) -> str:
        """Write a reading."""
        return self.write("technique_read", cook, when, {"technique": what, "edition": edition}, by=cook)

    def sits(self, cook: str, what: str, when: date | datetime, *, passed: bool = True) -> str:
        """Write a quiz sitting."""
        right = 4 if passed else 1
        counts = {"right": right, "asked": 4, "need": 3, "passed": passed}
        body = {"technique": what, "edition": 1, "seed": 1, "grader": 1, "questions": [], **counts}
        return self.write("quiz_sat", cook, when, body, by=cook)

    def answers(self, cook: str, what: str, when: date, answers: Sequence[Mapping[str, Any]], **more: Any) -> str:
        """Write a quiz sitting with these questions answered; three of four right pass unless *more* says otherwise."""
        right = sum(one["right"] for one in answers)
        counts = {"right": right, "asked": len(answers), "need": 3, "passed": right >= 3, **more}
        body = {"technique": what, "edition": 1, "seed": 1, "grader": 1, "questions": list(answers), **counts}
        return self.write("quiz_sat", cook, when, body, by=cook)

    def voids_question(self, cook: str, when: date, family: str = "discard_time", seed: int = 1) -> str:
        """Write that a question is voided, seen in a sitting of this cook."""
        body = {"family": family, "seed": seed, "reason": "the number is wrong"}
        return self.write("question_voided", cook, when, body)

    def asks(self, cook: str, what: str, when: date | datetime) -> str:
        """Write a request to be watched."""
        return self.write("watch_asked", cook, when, {"technique": what}, by=cook)

    def watched(
        self,
        cook: str,
        what: str,
        when: date | datetime,
        verdict: str = "meets it",
        *,
        edition: int = 1,
        missed: Sequence[str] = (),
        **more: Any,
    ) -> str:
        """Write a practical as an older program did, of its points only those missed; *more* are further fields."""
        points = [{"point": point, "seen": "not yet", "readings": [], "note": ""} for point in missed]
        said = {"points": points, "verdict": verdict, "reasons": [], "note": ""}
        body = {"technique": what, "edition": edition, "station": "pasta_room", **said, **more}
        return self.write("practical_watched", cook, when, body, by="sous")

    def works(self, cook: str, station: str, when: date, worked_on: date | None = None) -> str:
        """Write a supervised shift."""
        day = (worked_on or when).isoformat()
        body = {"station": station, "worked_on": day, "beside": "sous", "guests": 80, "sitting": "dinner"}
        return self.write("shift_worked", cook, when, body, by="sous")

    def shows(self, cook: str, paper: str, when: date, issued: date, expires: date | None) -> str:
        """Write a certificate."""
        ends = expires.isoformat() if expires else None
        body = {"certificate": paper, "number": "7", "issued": issued.isoformat(), "expires": ends}
        return self.write("certificate_shown", cook, when, body)

    def opens(self, assessor: str, station: str, when: date, until: date) -> str:
        """Write a grant."""
        body = {"station": station, "until": until.isoformat(), "reason": "new station"}
        return self.write("station_opened", assessor, when, body)

    def stands_down(self, cook: str, station: str, when: date) -> str:
        """Write a standing down."""
        return self.write("stood_down", cook, when, {"station": station, "reason": "cut hand"})

    def restores(self, cook: str, station: str, when: date) -> str:
        """Write a putting back."""
        return self.write("restored", cook, when, {"station": station, "reason": "healed"})

    def releases(self, stop: str, when: date | datetime) -> str:
        """Write the release of a stop."""
        cook = next(e.cook for e in self.entries if e.id == stop)
        return self.write("stop_released", cook, when, {"stop": stop, "reason": "shown again"})

    def voids(self, entry: str, when: date, cook: str | None = None) -> str:
        """Write a void; the cook is the voided entry's own unless another is named."""
        owner = cook or next(e.cook for e in self.entries if e.id == entry)
        return self.write("entry_voided", owner, when, {"entry": entry, "reason": "slip of the pen"})

    def clears_for_cold_side(self, cook: str, when: date) -> str:
        """Write all the cold side asks for, on one day; returns the sign-off."""
        self.reads(cook, "cold_sauces", when)
        return self.watched(cook, "cold_sauces", when)

    def clears_for_pasta_room(self, cook: str, when: date, expires: date | None = None) -> None:
        """Write all the pasta room asks for, on one day."""
        for what in ("fresh_pasta", "pasta_nesting"):
            self.reads(cook, what, when)
        self.sits(cook, "fresh_pasta", when)
        self.watched(cook, "fresh_pasta", when)
        self.watched(cook, "pasta_nesting", when)
        self.works(cook, "pasta_room", when, when - timedelta(days=1))
        self.works(cook, "pasta_room", when)
        self.shows(cook, "food_handler", when, when, expires)

    def progress(self) -> Progress:
        """Return the fold of everything written."""
        return Progress().with_entries(self.entries)

    def day(self, on: date) -> Snapshot:
        """Return what is known on a day."""
        return Snapshot(self.progress(), self.content, self.people, on)

    def clearance(self, cook: str, station: str, on: date) -> Clearance:
        """Return a cook's clearance."""
        return clearance_of(self.people[cook], self.content.stations[station], self.progress(), self.content, on)
