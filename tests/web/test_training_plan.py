"""The training plan on its page: a cook who has to wait, a path that is late, acts that say that they work."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, timedelta

import pytest

from tests.web.conftest import NOON, Clock
from tests.web.hands import Hands, Seen
from tests.web.kitchen_people import clear, write
from tests.web.skill_content import BUYING, COOLING, SKILL_CONTENT
from tests.web.test_night import plan
from trainer.actions.answering import Given, answer
from trainer.actions.asking_skills import OpenQuestion, context_for, open_question
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.actions.paths import NewPath, start_path
from trainer.actions.training import RingAdvised, TrainingPlan
from trainer.actions.training_waits import Wait, wait_of
from trainer.kitchen.book import NewEntry
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.requirements import Missing
from trainer.kitchen.rings import Ring
from trainer.kitchen.technique import AskedSkill
from trainer.recipe_math.figures import number_text
from trainer.web.night import training

TODAY = NOON.date()
ANA_ALONE = "/training-plan?out=dev:pasta_room&out=cleo:pasta_room&weekly=600"


@pytest.fixture
def planned(kitchen: Kitchen) -> Kitchen:
    """Return the kitchen with Bo, who is cleared, and Ana, who is not, planned for tonight: Ana is to be trained."""
    clear(kitchen, "bo")
    plan(kitchen, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "pasta_room"))
    return kitchen


def ends_a_round(k: Kitchen, asked: AskedSkill, now: datetime) -> None:
    """Let Ana answer a skill wrongly twice and practise it the same day: it goes on tomorrow (the house's own wait)."""
    for number in range(2):
        found = open_question(k, cook="ana", technique="nests", skill=asked.id, seed=5 + number, now=now)
        assert isinstance(found, OpenQuestion), found
        value = tell(found.drawn, context_for(found.skill, k.content)).answer.value
        given = Given("ana", asked.id, found.drawn.seed, number_text(value * 7, 3), "en", "us")
        assert isinstance(answer(k, given=given, now=now, key=f"{asked.id}-{number}"), Saved)
    body = {"skill": asked.id, "family": asked.setting.family, "base": asked.base, "months": asked.months, "name": ""}
    k.file.book.append(
        NewEntry("drill_done", now, "ana", "ana", {**body, "technique": "nests", "seeds": [1]}, asked.id)
    )


def by_day(seen: Seen) -> date:
    """Return the day the button of the only line fills in."""
    (field,) = seen.soup.select("input[name=by_day]")
    return date.fromisoformat(str(field["value"]))


def test_who_waits_with_every_skill_is_planned_from_the_day_one_opens(
    planned: Kitchen, cleo: Hands, clock: Clock
) -> None:
    """With one skill open nothing waits; with both the line says from when, and its path is ready a day later."""
    planned.content = SKILL_CONTENT
    write(planned, "technique_read", "ana", {"technique": "nests", "edition": 2})
    ends_a_round(planned, BUYING, clock())
    missing = [Missing("quiz:nests", "", "")]
    assert wait_of("ana", missing, planned.day(TODAY)) == Wait(TODAY, TODAY)
    seen = cleo.open(ANA_ALONE)
    assert "before that nothing of it can be asked" not in seen.work
    first = by_day(seen)
    ends_a_round(planned, COOLING, clock())
    tomorrow = TODAY + timedelta(days=1)
    assert wait_of("ana", missing, planned.day(TODAY)) == Wait(tomorrow, tomorrow)
    seen = cleo.open(ANA_ALONE)
    assert "From Wed 4 Nov 2026: before that nothing of it can be asked or watched." in seen.work
    assert by_day(seen) == first + timedelta(days=1)


def test_an_accepted_line_says_how_late_its_path_is(
    planned: Kitchen, sign_in: Callable[[str], Hands], clock: Clock
) -> None:
    """On its day it is not late; three days after it is, by three days."""
    path = NewPath("ana", "pasta_room", TODAY, "bo")
    start_path(planned, by="cleo", path=path, now=clock(), key="path")
    seen = sign_in("cleo").open(ANA_ALONE)
    assert "Accepted: the path is open, ready by Tue 3 Nov 2026." in seen.work
    assert " late" not in seen.work
    clock.pass_by(days=3)
    plan(planned, ("dinner", "bo", "pasta_room"), ("dinner", "ana", "pasta_room"), on=TODAY + timedelta(days=3))
    seen = sign_in("cleo").open(ANA_ALONE)
    assert "Accepted: the path is open, ready by Tue 3 Nov 2026. It is 3 days late." in seen.work


@pytest.mark.parametrize("address", [ANA_ALONE, "/services", "/services/one-day"])
def test_a_long_act_says_that_it_works(planned: Kitchen, cleo: Hands, address: str) -> None:
    """Every button that works the plan out, or shows or saves a change of the services."""
    assert planned
    buttons = cleo.open(address).soup.select("main button:not([type=button]), .bar button")
    assert buttons
    assert {button.get("data-working") for button in buttons} == {"Working: do not press again"}


def test_a_ring_of_second_stations_is_told_with_what_it_brings(
    planned: Kitchen, cleo: Hands, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Who learns which station, how long it takes, and places filled of a hundred: 78 of 98 is 79, not 80."""
    ring = RingAdvised((("ana", "pasta_room", 90),), Ring((), hands=98, now=78, filled=96, at_most=97))
    monkeypatch.setattr(training, "training_plan", lambda *_: TrainingPlan((), (), 0, ring))
    told = cleo.open("/training-plan").work
    assert "Ana Pardo learns Pasta room: 1 h 30 min" in told
    assert "79 of 100 places can be filled today, 97 with the ring, and 98 if everybody learned everything" in told
    monkeypatch.setattr(training, "training_plan", lambda *_: TrainingPlan((), (), 0))
    assert "ring" not in cleo.open("/training-plan").work
