"""Random histories of stops, releases and sign-offs against a machine of three facts, kept apart from the program."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from random import Random

import pytest

from tests.kitchen.kitchen_for_tests import Scribe
from trainer.kitchen.book import moment_text
from trainer.kitchen.clearance import technique_standing

BEGIN = datetime(2026, 3, 2, 8, tzinfo=UTC)
FIRST_DAY = date(2026, 3, 2)


@dataclass
class Machine:
    """What must be true of one cook at one technique: off the station, what counts, and from when it may be shown."""

    off: bool = False
    counts: bool = False
    ever: bool = False
    since: date = FIRST_DAY
    over_since: datetime = BEGIN - timedelta(days=9)
    again_from: date = FIRST_DAY

    def stop(self, at: datetime) -> None:
        """Something unsafe: off at once, and what counted counts no more; a day is what it was at its end."""
        self.ever = self.ever or (self.counts and self.since < at.date())
        self.off, self.counts = True, False

    def release(self, at: datetime) -> None:
        """A manager releases all stops that stand: back to be watched, from the next day on."""
        if self.off:
            self.off, self.over_since = False, at
            self.again_from = max(self.again_from, at.date() + timedelta(days=1))

    def sign(self, begun: datetime, at: datetime) -> None:
        """A sign-off counts where no stop stands and it was begun after the last one was over."""
        if not self.off and begun >= self.over_since:
            self.counts, self.since = True, self.since if self.counts else at.date()

    @property
    def state(self) -> str:
        """Return what the board must say."""
        if self.off:
            return "stood down"
        return "cleared" if self.counts else "lapsed" if self.ever else "ready to show"


@pytest.mark.parametrize("seed", range(60))
def test_a_random_history_says_what_the_machine_says(seed: int) -> None:
    """After every act: the state at both stations that ask for it, and whether the cook may be watched."""
    rng, scribe, machine, at = Random(seed), Scribe(), Machine(), BEGIN  # noqa: S311 - a repeatable history
    scribe.joins("ada", BEGIN.date())
    scribe.reads("ada", "cold_sauces", BEGIN)
    scribe.shows("ada", "first_aid", BEGIN.date(), BEGIN.date(), None)
    standing: list[str] = []
    for _ in range(14):
        at += timedelta(hours=rng.choice([1, 5, 20, 30]))
        act = rng.choice(["stop", "release", "sign", "sign", "sign late"])
        if act == "stop":
            standing.append(scribe.watched("ada", "cold_sauces", at, "stopped", started=moment_text(at)))
            machine.stop(at)
        elif act == "release":
            _release_all(scribe, standing, at)
            machine.release(at)
        else:
            begun = at - timedelta(hours=rng.choice([3, 40])) if act == "sign late" else at
            scribe.watched("ada", "cold_sauces", at, started=moment_text(begun))
            machine.sign(begun, at)
        _compare(scribe, machine, at.date())


def _release_all(scribe: Scribe, standing: list[str], at: datetime) -> None:
    """Release every stop that stands, the retry from the next day on."""
    first = (at.date() + timedelta(days=1)).isoformat()
    taught = {"by": "mara", "what": "", "minutes": 5}
    for stop in standing:
        scribe.write("stop_released", "ada", at, {"stop": stop, "taught": taught, "retry_from": first})
    standing.clear()


def _compare(scribe: Scribe, machine: Machine, on: date) -> None:
    assert {scribe.clearance("ada", station, on).state for station in ("cold_side", "grill")} == {machine.state}
    technique = scribe.content.techniques["cold_sauces"]
    found = technique_standing("ada", technique, scribe.progress(), on)
    assert found.may_be_watched == (not machine.off and on >= machine.again_from)
