"""What the kitchen teaches, as frozen records: techniques, stations, the local code, sources.

The store reads these from content files; nothing here opens a file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from trainer.kitchen.quiz.retry_wait import DAYS
from trainer.kitchen.quiz.scenes import Scene
from trainer.kitchen.quiz.sentences import NO_QUESTION_WORDS, QuestionWords
from trainer.kitchen.quiz.sequential_test import Plan, first_pass
from trainer.kitchen.quiz.sitting import SAFETY_PERCENT
from trainer.kitchen.skills.rule import Terms
from trainer.messages import Text, message
from trainer.recipe_math.quantity import Quantity

if TYPE_CHECKING:
    from trainer.kitchen.motion import StepGroup, StripFrame, Triple
    from trainer.kitchen.recipe import Recipe

Judged = Literal["ticked", "weighed", "measured", "timed", "pair", "says", "tasted", "pictures"]
PointType = Literal["law", "result", "craft", ""]
"""A limit or rule of the code; the dish; scored. Empty in a checklist of the former kind."""
StepKind = Literal["do", "check", "weigh", "time", "tell", "stop"]
NAME_LETTERS = 28
ALLERGEN = "allergens."
"""What stands before the id of an allergen that is to be said."""
HOUSE = "house"
"""The id of the source that is the kitchen itself."""


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong in a file people edit: where, what, and how to fix it.

    `leaves_out` is no where what it touches is taught all the same, held to the code.
    """

    file: str
    line: int
    message: str
    hint: str
    leaves_out: bool = True


@dataclass(frozen=True, slots=True)
class Source:
    """Where a number or a rule comes from. `known` is one of: read, computed, from memory, common practice, house."""

    id: str
    title: str
    edition: str
    place: str
    known: str


@dataclass(frozen=True, slots=True)
class ContentName:
    """What the content calls one of its things, kept with the thing's id: a reader may know it by another name.

    `kind` is station, technique, certificate, the reason for a station's age, a skill, or a point, or a part, of the
    checklist of the technique `of`.
    """

    kind: Literal["station", "technique", "certificate", "age reason", "point", "part", "skill"]
    id: str
    name: str
    of: str = ""

    def as_text(self) -> str:
        """Return the name in the words of the content it was taken from."""
        return self.name


@dataclass(frozen=True, slots=True)
class Limit:
    """A measured line: a target with a tolerance, or a lowest and highest value; printed in both unit systems."""

    id: str
    lowest: Quantity | None
    highest: Quantity | None
    target: Quantity | None
    source: str
    place: str = ""

    def admits(self, value: Quantity) -> bool:
        """Return whether *value* lies inside the line; both ends count as inside."""
        base = _base(value)
        if self.lowest is not None and base < _base(self.lowest):
            return False
        return self.highest is None or base <= _base(self.highest)


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition of a technique: since when, what changed, whether sign-offs on the edition before still hold.

    `unless_missed` are points of the checklist: an earlier sign-off in which one of them was missed does not hold.
    """

    number: int
    since: date
    changed: str
    sign_offs_hold: bool
    unless_missed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Word:
    """A word a cook needs before the steps make sense."""

    word: str
    means: str


@dataclass(frozen=True, slots=True)
class Hazard:
    """What can hurt a person, the caution, and the ISO 7010 form to show (triangle, barred, disc)."""

    id: str
    form: str
    mark: str
    caution: str


@dataclass(frozen=True, slots=True)
class Timer:
    """One of several timers of a step: the line it runs for, how long, and the line's own sentence."""

    line: str
    seconds: int
    text: str


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do, one screen. `hazards` are ids of hazards whose cautions stand above the step.

    A step with one timer has `seconds`; one with a timer for each of several things has `timers`. In place of a figure
    it may show a `strip` or a `triple`; `figure_alt` tells all of it. One without a `name` goes by its first words.
    """

    id: str
    kind: StepKind
    text: str
    cue: str
    why: str
    figure: str
    figure_alt: str
    hazards: tuple[str, ...]
    seconds: int | None = None
    timers: tuple[Timer, ...] = ()
    name: str = ""
    strip: tuple[StripFrame, ...] = ()
    triple: Triple | None = None
    photograph: str = ""
    photograph_alt: str = ""

    @property
    def title(self) -> str:
        """Return the name of the step, or how its text begins."""
        return self.name or _first_words(self.text)


@dataclass(frozen=True, slots=True)
class Fault:
    """What goes wrong, how it shows, why, and how to put it right."""

    id: str
    shows: str
    cause: str
    cure: str


@dataclass(frozen=True, slots=True)
class PointChoice:
    """What an assessor ticks at a point that is said, or picks at one that is tasted or judged by pictures.

    `value` is the exact number behind words that a limit filled in: another number is another answer.
    """

    id: str
    text: str
    value: str = ""

    @property
    def allergen(self) -> str:
        """Return the allergen it is, empty where it is none."""
        return self.id.removeprefix(ALLERGEN) if self.id.startswith(ALLERGEN) else ""


@dataclass(frozen=True, slots=True)
class Instrument:
    """What a reading is taken with: its smallest step, or the readings it has, and how true it is."""

    id: str
    title: str
    step: Quantity | None = None
    steps: tuple[Quantity, ...] = ()
    true_within: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Point:
    """One line of a checklist. A critical point missed means *not yet*; `pieces` is how many readings are taken.

    Law and result are critical, craft is not. A pair is held to `limit` and to `then`, a time. What is said is met by
    `need` of the `choices`; tasted or judged by pictures, the choice `right` meets it. A point with `cases` is asked in
    those alone. `tries`: so often the cook may make it in one practical. `law` is the line of the code beside a
    stricter one of the house; `tools` are instruments. `step` has the pictures.
    """

    id: str
    text: str
    critical: bool
    judged: Judged
    limit: Limit | None
    pieces: int = 1
    pieces_inside: int = 1
    type: PointType = ""
    then: Limit | None = None
    choices: tuple[PointChoice, ...] = ()
    need: int = 0
    cases: tuple[str, ...] = ()
    tries: int = 1
    tools: tuple[str, ...] = ()
    law: Limit | None = None
    step: str = ""

    @property
    def lines(self) -> tuple[Limit, ...]:
        """Return the lines each piece is held to, in the sequence they are read."""
        return tuple(line for line in (self.limit, self.then) if line is not None)

    def line_of(self, reading: int) -> Limit:
        """Return the line a reading is held to; 0 is the first."""
        return self.lines[reading % len(self.lines)]


@dataclass(frozen=True, slots=True)
class ChecklistPart:
    """A part of a long checklist, watched and signed by itself: its points, by id, and how much craft it needs."""

    id: str
    title: str
    points: tuple[str, ...]
    craft_needed: int


@dataclass(frozen=True, slots=True)
class QuestionSetting:
    """One family set in this technique: lists of words to pick from, and ranges to draw from (lowest, highest, step).

    `count` is how often it is asked in a sitting of fixed length, and in each round of one that decides.
    """

    family: str
    words: Mapping[str, tuple[str, ...]]
    ranges: Mapping[str, tuple[Fraction, Fraction, Fraction]]
    count: int


@dataclass(frozen=True, slots=True)
class AskedSkill:
    """One thing to be asked, which several techniques may ask for: its question family, set, and what a pass takes.

    `of` is the technique whose own words its questions are made from; empty where they need none. `luck` is the chance
    to be right without knowing; `base` so many right in a row pass at first, for so many months. `same_as` is another
    skill that asks the same thing; empty where none does.
    """

    id: str
    title: str
    setting: QuestionSetting
    is_safety: bool
    months: int
    luck: Fraction
    base: int
    of: str = ""
    same_as: str = ""

    @property
    def name(self) -> ContentName:
        """Return the title, to be told in any reader's words."""
        return ContentName("skill", self.id, self.title)

    @property
    def terms(self) -> Terms:
        """Return what a pass takes now."""
        return Terms(self.base, self.months)


@dataclass(frozen=True, slots=True)
class Technique:
    """One thing to learn. `need_right` of `asked` questions passes the quiz; months are how long proofs stay good.

    With a `plan` the quiz asks until the answers decide, `asked` at the most. Of the questions about safety so many
    percent must be right; `waits` are the days before the next try after the first fail, the second, and so on.
    `named` are the measured lines that a step, a caution or the checklist names: the work is held to these and to the
    house's own; the others are what stands behind them, and figures that others use. `equipment` is what one learns to
    use, in a word or two each. Where steps stand in `groups`, each stands in one.
    `numbers` are those to know by heart, each with a few words. Of `cases` one is picked before the first point. With
    `parts`, each is watched and signed by itself, and all are needed.
    With `knowledge` no quiz is sat any more: each of these skills is asked by itself, `questions` are theirs, and
    `quiz_months` say how long a quiz passed before still counts. `added` are the days from which a skill is asked for
    that was not among the first.
    """

    id: str
    title: str
    goal: str
    editions: tuple[Edition, ...]
    words: tuple[Word, ...]
    standard: tuple[Limit, ...]
    standard_text: tuple[str, ...]
    tools: tuple[str, ...]
    steps: tuple[Step, ...]
    faults: tuple[Fault, ...]
    hazards: tuple[Hazard, ...]
    allergens: tuple[str, ...]
    checklist: tuple[Point, ...]
    scored_needed: int
    questions: tuple[QuestionSetting, ...]
    need_right: int
    quiz_months: int
    sign_off_months: int
    sources: tuple[str, ...]
    words_edition: str = "en"
    plan: Plan | None = None
    safety_percent: int = SAFETY_PERCENT
    waits: tuple[int, ...] = DAYS
    named: frozenset[str] = frozenset()
    knowledge: tuple[AskedSkill, ...] = ()
    added: Mapping[str, date] = field(default_factory=dict)
    scenes: tuple[Scene, ...] = ()
    equipment: tuple[str, ...] = ()
    groups: tuple[StepGroup, ...] = ()
    numbers: tuple[tuple[Limit, str], ...] = ()
    cases: tuple[PointChoice, ...] = ()
    parts: tuple[ChecklistPart, ...] = ()

    @property
    def is_typed(self) -> bool:
        """Return whether the points of the checklist are law, result and craft."""
        return any(point.type for point in self.checklist)

    def points_in(self, case: str, part: str = "") -> tuple[Point, ...]:
        """Return the points that are asked in a case and a part; all of them where none is picked."""
        asked = (point for point in self.checklist if not case or not point.cases or case in point.cases)
        return tuple(point for point in asked if not part or point.id in self._points_of_part(part))

    def _points_of_part(self, part: str) -> tuple[str, ...]:
        return next((each.points for each in self.parts if each.id == part), ())

    def needed_in(self, part: str) -> int:
        """Return how many of the points that are not always needed are, in one part or in all."""
        return next((each.craft_needed for each in self.parts if each.id == part), self.scored_needed)

    def name_like(self, like: ContentName) -> ContentName | None:
        """Return the name of the technique, or of its part or point with the same id; None where it has none."""
        if like.kind == "part":
            return next((self.part_name(part) for part in self.parts if part.id == like.id), None)
        return self.point_names.get(like.id) if like.of else self.name

    def part_name(self, part: ChecklistPart) -> ContentName:
        """Return what a part is called, to be told in any reader's words."""
        return ContentName("part", part.id, part.title, self.id)

    @property
    def held_to(self) -> tuple[tuple[Limit, str], ...]:
        """Return the measured lines the work is held to, each with its sentence; all of them where none is named."""
        lines = tuple(zip(self.standard, self.standard_text, strict=False))
        return tuple(pair for pair in lines if pair[0].id in self.named or pair[0].source == HOUSE) or lines

    @property
    def other_figures(self) -> tuple[str, ...]:
        """Return the sentences of the other measured lines: what stands behind them, and what others say."""
        held = {limit.id for limit, _ in self.held_to}
        lines = zip(self.standard, self.standard_text, strict=False)
        return tuple(text for limit, text in lines if limit.id not in held)

    @property
    def name(self) -> ContentName:
        """Return the title, to be told in any reader's words."""
        return ContentName("technique", self.id, self.title)

    @property
    def point_names(self) -> Mapping[str, ContentName]:
        """Return every point of the checklist as a sentence names it, by id."""
        return {point.id: ContentName("point", point.id, point.text.rstrip("."), self.id) for point in self.checklist}

    @property
    def asked(self) -> int:
        """Return how many questions one sitting has; in a quiz that decides, how many at the most."""
        return self.plan.at_most if self.plan else sum(setting.count for setting in self.questions)

    @property
    def quiz_rule(self) -> Text:
        """Return what passes the quiz, in words."""
        if self.plan is None:
            return message("{need} of {asked} right", need=self.need_right, asked=self.asked)
        return message(
            "it ends when the answers decide, after {straight} straight right or {asked} at the most",
            straight=first_pass(self.plan),
            asked=self.asked,
        )

    def edition_on(self, on: date) -> Edition:
        """Return the edition in force on a date; before the first edition, the first."""
        past = [edition for edition in self.editions if edition.since <= on]
        return past[-1] if past else self.editions[0]


@dataclass(frozen=True, slots=True)
class CertificateAsked:
    """A paper a station asks for. `bars` says nobody without it may work there at all.

    It counts for `grace_days` more after its end, and for `most_years` from its issue at the most; who joins has
    `within_days` to show it. 0 sets no bound.
    """

    id: str
    title: str
    bars: bool
    grace_days: int = 0
    most_years: int = 0
    within_days: int = 0

    @property
    def name(self) -> ContentName:
        """Return the title, to be told in any reader's words."""
        return ContentName("certificate", self.id, self.title)


@dataclass(frozen=True, slots=True)
class Practice:
    """How often a station is worked to stay cleared: so many shifts in so many days.

    Who was away longer comes back with `return_shifts` supervised ones within `return_days`.
    """

    shifts: int
    days: int
    return_shifts: int
    return_days: int


@dataclass(frozen=True, slots=True)
class Station:
    """A place to work and what it asks for; `practice` None asks for none."""

    id: str
    title: str
    techniques: tuple[str, ...]
    certificates: tuple[CertificateAsked, ...]
    minimum_age: int | None
    age_reason: str
    supervised_shifts: int
    warn_days: int = 30
    practice: Practice | None = None

    @property
    def name(self) -> ContentName:
        """Return the title, to be told in any reader's words."""
        return ContentName("station", self.id, self.title)

    @property
    def reason_for_age(self) -> ContentName:
        """Return why the station asks for an age, to be told in any reader's words."""
        return ContentName("age reason", self.id, self.age_reason)


@dataclass(frozen=True, slots=True)
class LocalCode:
    """The limits of law a kitchen works under, with edition and the kitchen's own overrides applied."""

    id: str
    title: str
    edition: str
    limits: Mapping[str, Limit]
    overrides: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Content:
    """All that is taught: techniques, stations and recipes in reading order, by id."""

    techniques: Mapping[str, Technique]
    stations: Mapping[str, Station]
    code: LocalCode
    sources: Mapping[str, Source]
    allergens: Mapping[str, str]
    recipes: Mapping[str, Recipe] = field(default_factory=lambda: MappingProxyType({}))
    skills: Mapping[str, AskedSkill] = field(default_factory=dict)
    question_words: QuestionWords = NO_QUESTION_WORDS
    instruments: Mapping[str, Instrument] = field(default_factory=dict)

    def stations_asking_for(self, technique: str) -> tuple[Station, ...]:
        """Return the stations that ask for a technique."""
        return tuple(s for s in self.stations.values() if technique in s.techniques)

    def name_of(self, found: ContentName) -> ContentName:
        """Return what this content calls a thing that another telling of it named; as it was where it is not there."""
        return self._name(found) or found

    def _name(self, like: ContentName) -> ContentName | None:
        """Return the name of the thing with the same id, None where there is none."""
        if like.kind == "certificate":
            papers = (paper for station in self.stations.values() for paper in station.certificates)
            return next((paper.name for paper in papers if paper.id == like.id), None)
        if like.kind == "skill":
            skill = self.skills.get(like.id)
            return skill.name if skill else None
        if like.kind in ("station", "age reason"):
            station = self.stations.get(like.id)
            if station is None:
                return None
            return station.name if like.kind == "station" else station.reason_for_age
        technique = self.techniques.get(like.of or like.id)
        return technique.name_like(like) if technique else None


def _first_words(text: str) -> str:
    """Return how a text begins: its first sentence, or as many whole words of it as a name may have letters.

    >>> _first_words("Whisk the yolks. Do not stop."), _first_words("Lay the strands over your open hand and turn it.")
    ('Whisk the yolks', 'Lay the strands over your …')
    """
    first = text.split(". ", maxsplit=1)[0].rstrip(".:")
    return first if len(first) <= NAME_LETTERS else f"{first[:NAME_LETTERS].rsplit(' ', 1)[0]} …"


def _base(quantity: Quantity) -> Fraction:
    """Return the amount in the base unit of its dimension."""
    return (quantity.amount + quantity.unit.offset) * quantity.unit.factor
