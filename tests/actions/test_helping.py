"""A cook asks to be shown a step: whom the button names, what an assessor answers, and what is taken back."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from tests.actions.crew import TODAY, Crew, refused, saved
from tests.printed import english
from trainer.actions.correcting import Correction, void_entry
from trainer.actions.helping import Wanted, ask_for_help, give_help, help_wanted, take_back, whom_to_ask
from trainer.actions.outcome import Outcome
from trainer.kitchen.book import Entry
from trainer.kitchen.technique import Step
from trainer.store.shifts import PlannedShift

SAUCE = "cold_sauces"


@pytest.fixture(autouse=True)
def taught(crew: Crew) -> None:
    """Let the sauce have a step."""
    content = crew.k.content
    sauce = replace(
        content.techniques[SAUCE], steps=(Step("whisk", "do", "Whisk it.", "", "", "", "", (), name="Whisk"),)
    )
    crew.k.content = replace(content, techniques={**content.techniques, SAUCE: sauce})


def asks(crew: Crew, cook: str = "ada", step: str = "whisk", whom: str = "") -> Outcome:
    """Ask to be shown a step of the sauce."""
    wanted = Wanted(SAUCE, step, whom=whom)
    return ask_for_help(crew.k, cook=cook, wanted=wanted, now=crew.now, key=crew.key())


def shows(crew: Crew, asked: Entry, by: str = "sous") -> Outcome:
    """Say that it was shown."""
    return give_help(crew.k, by=by, asked=asked.id, now=crew.now, key=crew.key())


def waiting(crew: Crew) -> list[str]:
    """Return who waits to be shown something today."""
    return [one.cook for one in help_wanted(crew.k, crew.k.today(crew.now))]


def named(crew: Crew, cook: str = "ada") -> str:
    """Return whom a cook's button names today."""
    return whom_to_ask(crew.k, cook=cook, technique=SAUCE, day=crew.k.day(TODAY))


def test_a_step_that_was_asked_for_waits_until_it_is_shown(crew: Crew) -> None:
    """The entry says the technique, the step and whom the button named; what answers it names the entry."""
    asked = saved(asks(crew, whom="sous"))
    assert (asked.kind, asked.cook, asked.by) == ("help_asked", "ada", "ada")
    assert asked.body == {"technique": SAUCE, "step": "whisk", "skill": "", "whom": "sous"}
    assert waiting(crew) == ["ada"]
    crew.later(minutes=5)
    given = saved(shows(crew, asked))
    assert (given.kind, given.cook, given.by, given.body) == ("help_given", "ada", "sous", {"asked": asked.id})
    assert waiting(crew) == []


def test_the_longest_wait_comes_first(crew: Crew) -> None:
    """In the order in which they asked, whoever joined first."""
    saved(asks(crew, "ben"))
    crew.later(minutes=1)
    saved(asks(crew, "ada"))
    assert waiting(crew) == ["ben", "ada"]


def test_the_same_step_is_asked_for_once(crew: Crew) -> None:
    """Until it is shown; then it may be asked for again."""
    asked = saved(asks(crew))
    assert english(refused(asks(crew)).reason) == "You have asked for this already. It is not seen yet."
    saved(shows(crew, asked))
    saved(asks(crew))


@pytest.mark.parametrize(("step", "skill"), [("no_such_step", ""), ("", "no_such_skill"), ("", ""), ("whisk", "skill")])
def test_what_is_not_there_is_not_asked_for(crew: Crew, step: str, skill: str) -> None:
    """A step and a skill belong to the technique, and it is one of the two."""
    wanted = Wanted(SAUCE, step, skill)
    told = refused(ask_for_help(crew.k, cook="ada", wanted=wanted, now=crew.now, key=crew.key()))
    assert english(told.reason) == "There is no such step or question here any more."


@pytest.mark.parametrize(
    ("by", "reason"),
    [("ben", "It takes an assessor."), ("mara", "It takes an assessor."), ("ada", "Somebody else does this with you")],
)
def test_only_another_who_assesses_shows_it(crew: Crew, by: str, reason: str) -> None:
    """No cook, no manager who is no assessor, and nobody for themselves."""
    asked = saved(asks(crew))
    assert english(refused(shows(crew, asked, by)).reason).startswith(reason)
    assert waiting(crew) == ["ada"]


def test_it_is_shown_once(crew: Crew) -> None:
    """The second assessor to press reads that it is done."""
    asked = saved(asks(crew))
    saved(shows(crew, asked))
    assert english(refused(shows(crew, asked, "nils")).reason) == "This was shown already, or taken back."


def test_whoever_asked_takes_it_back_until_it_is_shown(crew: Crew) -> None:
    """At once as a slip, which counts for no day; hours later from that day on; and nobody else's."""
    for hours in (0, 5):
        asked = saved(asks(crew))
        crew.later(hours=hours)
        refused(take_back(crew.k, cook="ben", asked=asked.id, now=crew.now, key=crew.key()))
        saved(take_back(crew.k, cook="ada", asked=asked.id, now=crew.now, key=crew.key()))
        assert waiting(crew) == []
    asked = saved(asks(crew))
    saved(shows(crew, asked))
    refused(take_back(crew.k, cook="ada", asked=asked.id, now=crew.now, key=crew.key()))


def test_nobody_takes_back_what_others_asked(crew: Crew) -> None:
    """A cook voids their own asking and no other cook's."""
    asked = saved(asks(crew))
    refused(void_entry(crew.k, by="ben", correction=Correction(asked.id, "No"), now=crew.now, key=crew.key()))


def test_the_button_names_who_is_on_before_the_mentor(crew: Crew) -> None:
    """Nobody; the mentor of a path; an assessor who is on today; of those on, the mentor."""
    assert not named(crew)
    until = (TODAY + timedelta(days=60)).isoformat()
    crew.write("path_opened", "ada", {"station": "cold_side", "by_day": until, "mentor": "nils"})
    assert named(crew) == "nils"
    crew.k.file.shifts.add([PlannedShift(TODAY, "dinner", "sous", "cold_side")])
    assert named(crew) == "sous"
    crew.k.file.shifts.add([PlannedShift(TODAY, "dinner", "nils", "cold_side")])
    assert named(crew) == "nils"


def test_nobody_is_named_to_themselves(crew: Crew) -> None:
    """An assessor who studies is told of another, or of nobody."""
    crew.k.file.shifts.add([PlannedShift(TODAY, "dinner", "sous", "cold_side")])
    assert not named(crew, "sous")
