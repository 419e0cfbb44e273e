"""A kitchen's past, played in order through the actions: anyone who does something here could have been refused."""

from __future__ import annotations

import heapq
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta
from fractions import Fraction
from itertools import count
from random import Random
from uuid import UUID
from zoneinfo import ZoneInfo

from trainer.actions.answering import AskedAgain, Given, answer
from trainer.actions.asking_skills import (
    OpenQuestion,
    context_for,
    next_skill,
    open_question,
    refreshers_due,
    standings_of,
)
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.practising import NotRight, OneAlone, alone, practise_alone
from trainer.actions.sitting import answer_question, finish_sitting, start_sitting
from trainer.actions.studying import acknowledge_reading
from trainer.actions.two_people import Waits
from trainer.actions.watching import (
    Look,
    Signing,
    SupervisedShift,
    Watch,
    ask_to_be_watched,
    pick_case,
    see_point,
    sign_practical,
    start_practical,
    work_shift,
)
from trainer.kitchen.clearance import is_read
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.practical import PICKED, RIGHT, AskBack
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.grading import grade
from trainer.kitchen.quiz.question import Question
from trainer.kitchen.quiz.round_robin import is_about_safety
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.technique import Limit, Point, Technique
from trainer.kitchen.watch_requests import asked_since
from trainer.messages import Text, translate
from trainer.recipe_math.printing import number_text

Act = Callable[[datetime], object]


class StoryProblem(RuntimeError):
    """A person in the story was refused: the story and the kitchen's rules do not agree."""

    def __init__(self, why: Text) -> None:
        """Take why, in words."""
        super().__init__(translate(why))


@dataclass
class Story:
    """The acts still to come, in order of time, and the kitchen they happen in."""

    kitchen: Kitchen
    rng: Random
    today: date
    zone: ZoneInfo
    assessors: tuple[str, ...] = ()
    _acts: list[tuple[datetime, int, Act]] = field(default_factory=list)
    _counter: count[int] = field(default_factory=count)

    def moment(self, days_ago: int, hour: int = 15, minute: int = 0) -> datetime:
        """Return a moment of the kitchen's clock, *days_ago* before today, in UTC."""
        local = datetime.combine(self.today - timedelta(days=days_ago), time(hour, minute), self.zone)
        return local.astimezone(UTC)

    def at(self, when: datetime, act: Act) -> None:
        """Plan an act; an act planned for after today is left out, since it has not happened yet."""
        if when.astimezone(self.zone).date() < self.today:
            heapq.heappush(self._acts, (when, next(self._counter), act))

    def play(self) -> None:
        """Do every planned act in order of time, those that acts plan included; each begins when the last has ended."""
        while self._acts:
            when, _, act = heapq.heappop(self._acts)
            last = self.kitchen.file.book.last_at()
            act(when if last is None else max(when, last))

    def key(self) -> str:
        """Return a fresh key from the story's seed."""
        return str(UUID(int=self.rng.getrandbits(128), version=4))

    def must(self, outcome: Outcome | Waits) -> Saved:
        """Return what was saved; a refusal ends the story."""
        if not isinstance(outcome, Saved):
            raise StoryProblem(outcome.reason if isinstance(outcome, Refused) else "It waits for a second person.")
        return outcome

    def read(self, cook: str, technique: str, when: datetime) -> None:
        """Let a cook read a technique."""
        self.must(acknowledge_reading(self.kitchen, cook=cook, technique=technique, now=when, key=self.key()))

    def _read_again(self, cook: str, technique: str, when: datetime) -> None:
        """Let a cook read a technique of which an edition came that has to be read."""
        day = self._day(when)
        if not is_read(cook, day.content.techniques[technique], day.progress, day.on):
            self.read(cook, technique, when)

    def sit(self, cook: str, technique: str, when: datetime, wrong: int = 0) -> None:
        """Let a cook sit the quiz; *wrong* questions are answered by a wrong method, those about safety last.

        A quiz that decides ends by itself, with whichever answer decides it.
        """
        sitting = start_sitting(
            self.kitchen, cook=cook, technique=technique, seed=self.rng.getrandbits(31), now=when, key=self.key()
        )
        if isinstance(sitting, Refused):
            raise StoryProblem(sitting.reason)
        safety = [is_about_safety(question.family) for question in sitting.questions]
        slips = sorted(range(len(safety)), key=safety.__getitem__)[:wrong]
        for index, question in enumerate(sitting.questions):
            text = _typed(question, wrong=index in slips)
            when += timedelta(seconds=self.rng.randint(30, 90))
            answered = answer_question(self.kitchen, sitting=sitting.id, index=index, text=text, now=when)
            if isinstance(answered, Refused) or answered.problem:
                raise StoryProblem(answered.reason if isinstance(answered, Refused) else answered.problem or text)
            if answered.entry is not None:
                return
        self.must(finish_sitting(self.kitchen, sitting=sitting.id, now=when, key=self.key()))

    def answer_all(self, cook: str, technique: str, when: datetime, *, wrong: bool = False) -> bool:
        """Let a cook answer all that counts today in a technique; return whether all of it is known then.

        With *wrong* one sum is answered by a wrong method until it wants practice first, where the technique has one.
        """
        self._read_again(cook, technique, when)
        taught = self.kitchen.content.techniques[technique]
        sums = self._own_sums(taught) if wrong else []
        for skill in sums[:1] * 2:
            when = self._answer(cook, technique, skill, when, wrong=True)
        while asked := next_skill(self.kitchen, cook=cook, technique=taught, day=self._day(when)):
            when = self._answer(cook, technique, asked.id, when)
        return all(one.is_passed for one in standings_of(cook=cook, technique=taught, day=self._day(when)))

    def _own_sums(self, technique: Technique) -> list[str]:
        """Return the skills that are sums and that no other technique asks for."""
        others = [one for one in self.kitchen.content.techniques.values() if one.id != technique.id]
        shared = {skill.id for one in others for skill in one.knowledge}
        return [one.id for one in technique.knowledge if one.setting.family in NUMERIC and one.id not in shared]

    def refresh(self, cook: str, when: datetime) -> None:
        """Let a cook answer the refreshers that are due."""
        for technique, skill in refreshers_due(self.kitchen, cook=cook, day=self._day(when)):
            when = self._answer(cook, technique, skill, when)

    def practise(self, cook: str, technique: str, when: datetime) -> None:
        """Let a cook practise every skill of a technique that wants it first."""
        taught = self.kitchen.content.techniques[technique]
        for one in standings_of(cook=cook, technique=taught, day=self._day(when)):
            if one.skill.stage == "drill":
                seed = self.rng.getrandbits(31)
                text = _typed(alone(one.asked, seed, self.kitchen.content, "us"))
                tried = OneAlone(cook, technique, one.id, seed, text, "en", "us")
                done = practise_alone(self.kitchen, tried=tried, now=when, key=self.key())
                if isinstance(done, NotRight):
                    raise StoryProblem(f"{text} is not right: {done.judged}")
                self.must(done)

    def _answer(self, cook: str, technique: str, skill: str, when: datetime, *, wrong: bool = False) -> datetime:
        """Let a cook answer the next question of a skill; return when they have."""
        seed = self.rng.getrandbits(31)
        found = open_question(self.kitchen, cook=cook, technique=technique, skill=skill, seed=seed, now=when)
        if not isinstance(found, OpenQuestion):
            raise StoryProblem(found.reason if isinstance(found, Refused) else found.words)
        question = tell(found.drawn, context_for(found.skill, self.kitchen.content))
        when += timedelta(seconds=self.rng.randint(20, 60))
        given = Given(cook, skill, found.drawn.seed, _typed(question, wrong=wrong), "en", "us")
        done = answer(self.kitchen, given=given, now=when, key=self.key())
        if isinstance(done, AskedAgain):
            raise StoryProblem(done.problem)
        self.must(done)
        return when

    def _day(self, when: datetime) -> Snapshot:
        return self.kitchen.day(self.kitchen.today(when))

    def ask(self, cook: str, technique: str, when: datetime) -> None:
        """Let a cook ask to be watched, once they have read what an edition has changed since; asked once is enough."""
        self._read_again(cook, technique, when)
        day, taught = self._day(when), self.kitchen.content.techniques[technique]
        if asked_since(day.progress.record(cook).as_of(day.on), taught, day.on) is not None:
            return
        self.must(ask_to_be_watched(self.kitchen, cook=cook, technique=technique, now=when, key=self.key()))

    def watch(self, watch: Watch, when: datetime, missed: str | None = None, unsafe: bool = False) -> None:
        """Let an entitled assessor watch a practical and sign it; *missed* names a point not met."""
        self._read_again(watch.cook, watch.technique, when)
        technique = self.kitchen.content.techniques[watch.technique]
        parts = [part for part in technique.parts if missed is None or missed in part.points]
        for part in [part.id for part in parts[: 1 if missed else None]] or [""]:
            when = self._watch_part(replace(watch, part=part), when, missed, unsafe)

    def _watch_part(self, watch: Watch, when: datetime, missed: str | None, unsafe: bool) -> datetime:
        """Watch one part of a checklist, or all of one that is not divided, and sign; return when that was."""
        by, practical = self._open_practical(watch, when)
        technique = self.kitchen.content.techniques[watch.technique]
        case = self._case(technique, missed)
        if case:
            picked = pick_case(self.kitchen, by=by, practical=practical, case=case, now=when)
            if isinstance(picked, Refused):
                raise StoryProblem(picked.reason)
        for point in technique.points_in(case, watch.part):
            when += timedelta(seconds=self.rng.randint(20, 80))
            seen = see_point(
                self.kitchen, by=by, practical=practical, look=self._look(point, point.id == missed, unsafe), now=when
            )
            if isinstance(seen, Refused | AskBack):
                raise StoryProblem(seen.reason if isinstance(seen, Refused) else f"Which is it: {seen.ways}?")
        signing = Signing(practical=practical, proved_at=when)
        self.must(sign_practical(self.kitchen, by=by, signing=signing, now=when, key=self.key()))
        return when

    def _case(self, technique: Technique, missed: str | None) -> str:
        """Return which case is watched, one in which the point to be missed is asked; empty where there is none."""
        cases = [case.id for case in technique.cases]
        asked = [case for case in cases if missed is None or missed in {p.id for p in technique.points_in(case)}]
        return self.rng.choice(asked or cases) if cases else ""

    def _open_practical(self, watch: Watch, when: datetime) -> tuple[str, str]:
        """Return the first assessor who is let, and the practical's id."""
        reasons = []
        for by in self.rng.sample(self.assessors, len(self.assessors)):
            opened = start_practical(self.kitchen, by=by, watch=watch, now=when, key=self.key())
            if not isinstance(opened, Refused):
                return by, opened.id
            reasons.append(opened.reason)
        raise StoryProblem(f"Nobody could watch {watch}: {reasons}")

    def _look(self, point: Point, is_missed: bool, unsafe: bool) -> Look:
        """Return one point as an assessor would enter it."""
        if is_missed:
            outside = tuple(self._reading(line, inside=False) for _ in range(point.pieces) for line in point.lines)
            note = "Shown again, to be watched once more."
            said: tuple[str, ...] = ("under",) if point.judged in PICKED else ()
            return Look(point.id, "unsafe" if unsafe else "not yet", outside, note, said=said)
        readings = tuple(self._reading(line) for _ in range(point.pieces) for line in point.lines)
        said = (RIGHT,) if point.judged in PICKED else tuple(choice.id for choice in point.choices)
        return Look(point.id, "meets it", readings, said=said)

    def _reading(self, limit: Limit, inside: bool = True) -> str:
        """Return a reading in the limit's unit, well inside the line or just outside it."""
        low, high = limit.lowest, limit.highest
        unit = (low or high or limit.target).unit  # type: ignore[union-attr]
        bottom, top = low.amount if low else None, high.to(unit).amount if high else None
        if bottom is not None and top is not None:
            step = (top - bottom) / 8
            value = (bottom + top) / 2 + step * self.rng.randint(-2, 2) if inside else top + step
        else:
            value = self._with_one_end(bottom, top, inside=inside)
        return f"{number_text(value, 2)} {unit.symbol}"

    def _with_one_end(self, bottom: Fraction | None, top: Fraction | None, *, inside: bool) -> Fraction:
        """Return a number beside a line that has one end only, on its good side or on the other."""
        step = abs(bottom or top or Fraction(10)) / 20
        if bottom is not None:
            return bottom + step * self.rng.randint(0, 2) if inside else bottom - step
        end = top or Fraction(0)
        return end - step if inside else end + step

    def shift(self, cook: str, station: str, when: datetime, guests: int) -> None:
        """Let an assessor write down a supervised shift worked beside one of them."""
        local = when.astimezone(self.zone).date()
        refused = []
        for by in self.assessors:
            if by == cook:
                continue
            shift = SupervisedShift(cook, station, local, by, guests, "dinner")
            outcome = work_shift(self.kitchen, by=by, shift=shift, now=when, key=self.key())
            if isinstance(outcome, Saved):
                return
            refused.append(outcome.reason)
        raise StoryProblem(f"No shift for {cook} at {station}: {refused}")


def _typed(question: Question, *, wrong: bool = False) -> str:
    """Return the right answer to a question as a cook types it, or a wrong one: by a wrong method, where one shows."""
    if question.choices:
        return _wrong_choice(question) if wrong else question.key
    ways = question.wrong_methods
    value = ways[0].value if wrong and ways else question.answer.value * (7 if wrong else 1)
    return f"{number_text(value, 6)} {question.answer.unit}"


def _wrong_choice(question: Question) -> str:
    """Return a whole answer to a question with choices that is wrong."""
    keys = [choice.key for choice in question.choices]
    whole = {
        "reason": [f"{key} {why.key}" for key in keys for why in question.reasons],
        "names": [" ".join(reversed(question.key.split()))],
    }.get(question.answering, keys)
    return next(text for text in whole if grade(question, text).verdict not in ("right", "asked_again"))
