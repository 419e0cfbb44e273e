"""One skill of one cook: its row of right answers, its rounds, its wait, its passes. It changes answer by answer."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date
from typing import Literal

from trainer.kitchen.skills.rule import (
    CONFIRM_DAYS,
    CONFIRM_RIGHT,
    COUNTED_A_DAY,
    MOST_ADDED,
    REFRESHER_APART,
    REFRESHERS,
    ROUNDS_ALONE,
    WAITS,
    WRONG_ENDS,
    Terms,
)
from trainer.kitchen.spans import ONE_DAY, days_later

State = Literal["open", "passed", "confirm", "drill", "wait", "expired"]
Outcome = Literal[
    "right",
    "wrong",
    "practice",
    "not counted",
    "asked again",
    "carried",
    "passed",
    "refreshed",
    "renewed",
    "confirmed",
    "drill due",
    "drill done",
    "person needed",
    "waived",
]
"""How one answer, or one act about a skill, counted."""

TWICE_EARLY = "rounds_too_early"
"""The name of a wrong answer that is the second of its round to be rounded too early."""


@dataclass(frozen=True, slots=True)
class Pass:
    """Days on which a skill is passed, both ends counted, with the entries of its last row.

    `lost_from` is the day it was lost by wrong answers, None where it only ran out or still holds; `term` the last day
    it would have been good without that.
    """

    since: date
    until: date
    proof: tuple[str, ...]
    term: date
    lost_from: date | None = None


@dataclass(slots=True)
class Skill:
    """Where one cook stands in one skill. Days come in order; `settle` brings it up to a day before anything else."""

    terms: Terms
    stage: Literal["open", "passed", "confirm", "drill"] = "open"
    run: int = 0
    wrong: int = 0
    rounds: int = 0
    kept: int = 0
    round_wrong: int = 0
    round_early: int = 0
    is_expired: bool = False
    opens: date | None = None
    ended_on: date = date.min
    drill: str = ""
    drilled: set[str] = field(default_factory=set)
    last_named: str = ""
    counted_on: date = date.min
    counted: int = 0
    due: date | None = None
    good_until: date | None = None
    confirm_from: date = date.min
    row: list[str] = field(default_factory=list)
    passes: list[Pass] = field(default_factory=list)

    @property
    def need(self) -> int:
        """Return how many right in a row pass it now."""
        return self.terms.need(self.wrong)

    @property
    def by_person(self) -> bool:
        """Return whether the drill that is due is given by a person: from the third round on, or for a name again."""
        return self.stage == "drill" and (self.rounds > ROUNDS_ALONE or self.drill in self.drilled)

    def state(self, on: date) -> State:
        """Return the state on a day to which it is settled."""
        if self.stage == "open" and self.opens is not None and on < self.opens:
            return "wait"
        return "expired" if self.stage == "open" and self.is_expired else self.stage

    def settle(self, on: date) -> None:
        """Bring it to the beginning of a day: a pass that ran out, or was not confirmed in time, ends."""
        if self._is_unconfirmed(on):
            self._lose(self.confirm_until + ONE_DAY)
            self.stage = "open"
        elif self._has_run_out(on):
            self.stage, self.is_expired = "open", True
            self.run, self.kept = min(self.kept, self.terms.base - 1), 0
            self.row, self.due, self.good_until = [], None, None

    def settled(self, on: date) -> Skill:
        """Return the skill as it stands on a day: itself, or settled as another where a pass ends before it."""
        if not (self._is_unconfirmed(on) or self._has_run_out(on)):
            return self
        found = replace(self)
        found.settle(on)
        return found

    def _is_unconfirmed(self, on: date) -> bool:
        is_held = self.stage == "confirm" and self.good_until is not None
        return is_held and on > self.confirm_until and self.confirm_until < (self.good_until or date.max)

    def _has_run_out(self, on: date) -> bool:
        return self.stage in ("passed", "confirm") and self.good_until is not None and on > self.good_until

    @property
    def confirm_until(self) -> date:
        """Return the last day on which a skill that was lost by a wrong refresher may be brought back."""
        return days_later(self.confirm_from, CONFIRM_DAYS - 1)

    def takes(self, on: date) -> bool:
        """Return whether an answer of that day would count."""
        if self.stage == "drill" or self.state(on) == "wait":
            return False
        if self.stage == "confirm" and on == self.confirm_from:
            return False
        if self.stage == "passed" and on < days_later(self.counted_on, REFRESHER_APART):
            return False
        return self.counted_on != on or self.counted < COUNTED_A_DAY

    def counts_more(self, on: date) -> int:
        """Return how many more answers of that day would count."""
        if not self.takes(on):
            return 0
        return COUNTED_A_DAY - (self.counted if self.counted_on == on else 0)

    def right(self, on: date, entry: str) -> Outcome:
        """Take a counted right answer."""
        self._count(on)
        if self.stage == "passed":
            return self._refreshed(on, entry)
        self.run += 1
        self.row.append(entry)
        if self.stage == "confirm":
            return self._confirmed(on) if self.run >= CONFIRM_RIGHT else "right"
        self.is_expired = False
        if self.run < self.need:
            return "right"
        self._pass(on)
        return "passed"

    def early(self, on: date) -> bool:
        """Take an answer rounded too early; return whether it counts as wrong, as the second of a round does."""
        self.round_early += 1
        return self.round_early >= 2

    def miss(self, on: date, name: str) -> Outcome:
        """Take a counted wrong answer; *name* is the wrong method that showed, or nothing."""
        self._count(on)
        self.run, self.row, self.is_expired = 0, [], False
        self.wrong += 1
        self.round_wrong += 1
        self.last_named = name or self.last_named
        if self.stage == "passed":
            self.stage, self.kept, self.confirm_from, self.due = "confirm", 0, on, None
        if self.round_wrong < WRONG_ENDS:
            return "wrong"
        self.end_round(on, self.last_named)
        return "drill due"

    def end_round(self, on: date, drill: str) -> None:
        """End the round: practice first, for one wrong method or, where none was named, for the family."""
        if self.stage in ("passed", "confirm"):
            self._lose(on)
        self.stage, self.run, self.row, self.is_expired = "drill", 0, [], False
        self.rounds += 1
        self.ended_on, self.drill = on, drill
        self.round_wrong, self.round_early, self.last_named = 0, 0, ""

    def drill_done(self, on: date) -> None:
        """Open the skill again: after the wait, and never on the day of the drill."""
        self.stage, self.opens = "open", self.opens_after_drill(on)
        self.drilled |= {self.drill} - {""}
        self.drill = ""

    def opens_after_drill(self, on: date) -> date:
        """Return the day from which answers count again, with the drill that is due done on a day."""
        wait = days_later(self.ended_on, WAITS[min(self.rounds, len(WAITS)) - 1])
        return max(wait, on + ONE_DAY)

    def lift_wait(self, on: date) -> None:
        """Open the skill today where it only waits."""
        if self.opens is not None and self.opens > on:
            self.opens = on

    def carry(self, is_right: bool) -> None:
        """Take an answer of an earlier kind of quiz: it moves the row, ends no round, and passes nothing."""
        if self.stage != "open":
            return
        if is_right:
            self.run = min(self.run + 1, self.terms.base - 1)
        else:
            self.run, self.wrong = 0, min(self.wrong + 1, MOST_ADDED)

    def _count(self, on: date) -> None:
        self.counted = self.counted + 1 if self.counted_on == on else 1
        self.counted_on = on

    def _pass(self, on: date) -> None:
        self.stage, self.good_until = "passed", self.terms.last_day(on)
        self.due = days_later(on, self.terms.gap(0, renewed=False))
        self.passes.append(Pass(on, self.good_until, tuple(self.row), self.good_until))
        self.run = self.wrong = self.rounds = self.kept = self.round_wrong = self.round_early = 0
        self.row, self.drilled, self.last_named, self.opens = [], set(), "", None

    def _refreshed(self, on: date, entry: str) -> Outcome:
        self.kept += 1
        self.row.append(entry)
        renewed = self.kept == REFRESHERS
        if renewed:
            self.good_until = self.terms.last_day(on)
            self.passes.append(Pass(on, self.good_until, tuple(self.row), self.good_until))
            self.kept, self.row = 0, []
        self.due = days_later(on, self.terms.gap(self.kept, renewed))
        return "renewed" if renewed else "refreshed"

    def _confirmed(self, on: date) -> Outcome:
        self.stage = "passed"
        self.due = days_later(on, self.terms.gap(0, renewed=False))
        self.run = self.wrong = self.rounds = self.kept = self.round_wrong = self.round_early = 0
        self.row, self.drilled, self.last_named = [], set(), ""
        return "confirmed"

    def _lose(self, lost_from: date) -> None:
        """End every pass that holds, the day before; those that ended by themselves earlier stay as they are."""
        self.passes = [_cut(held, lost_from) for held in self.passes]
        self.due, self.good_until = None, None


def _cut(held: Pass, lost_from: date) -> Pass:
    """Return a pass that is lost from a day on, where it would have held that day."""
    if held.until < lost_from:
        return held
    return Pass(held.since, lost_from - ONE_DAY, held.proof, held.term, lost_from)
