"""A cook asks to be shown a step, or what a question asks for; an assessor says that it was shown."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from datetime import date, datetime

from trainer.actions.correcting import Correction, void_entry
from trainer.actions.covering import planned_on
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.practising import not_an_assessor
from trainer.actions.saving import not_on_roster, save
from trainer.actions.two_people import Waits
from trainer.kitchen.authority import ASSESSOR
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import Snapshot, may_sign_somewhere
from trainer.kitchen.help_requests import help_open_for, open_help
from trainer.kitchen.open_paths import paths_of
from trainer.kitchen.record import HelpAsked
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a cook wants to be shown: a step of a technique, or a question's skill; `whom` the button named."""

    technique: str
    step: str = ""
    skill: str = ""
    whom: str = ""


@dataclass(frozen=True, slots=True)
class CookAsks:
    """An asking nobody has answered, and whose it is."""

    cook: str
    asked: HelpAsked


def ask_for_help(k: Kitchen, *, cook: str, wanted: Wanted, now: datetime, key: str) -> Outcome:
    """Return the saved `help_asked`: it stands on every assessor's page until one of them has shown it."""
    deed = NewEntry("help_asked", now, cook, cook, asdict(wanted), key)
    return save(
        k, deed, lambda day: not_on_roster(cook, day) or _nothing_there(wanted, day) or _open(cook, wanted, day)
    )


def give_help(k: Kitchen, *, by: str, asked: str, now: datetime, key: str) -> Outcome:
    """Return the saved `help_given`: an assessor showed what was asked for."""
    entry = k.file.book.find(asked)
    if entry is None or entry.kind != "help_asked":
        return _NOBODY_ASKS
    deed = NewEntry("help_given", now, entry.cook, by, {"asked": asked}, key)
    return save(k, deed, lambda day: not_an_assessor(by, entry.cook, day) or _not_open(entry.cook, asked, day))


def take_back(k: Kitchen, *, cook: str, asked: str, now: datetime, key: str) -> Outcome | Waits:
    """Return the void of an asking by whoever asked, as long as nobody has answered it."""
    refused = _not_open(cook, asked, k.day(k.today(now)))
    if refused is not None and k.file.book.find_key(key) is None:
        return refused
    return void_entry(k, by=cook, correction=Correction(asked, ""), now=now, key=key)


def help_wanted(k: Kitchen, on: date) -> tuple[CookAsks, ...]:
    """Return everything that is asked for on a day, the longest wait first; what is taught no more is left out."""
    progress = k.progress()
    found = [
        CookAsks(cook, line)
        for cook in progress.cooks_on(on)
        for line in open_help(progress.record(cook).as_of(on))
        if line.technique in k.content.techniques
    ]
    return tuple(sorted(found, key=lambda one: one.asked.at))


def whom_to_ask(k: Kitchen, *, cook: str, technique: str, day: Snapshot) -> str:
    """Return the assessor a cook's button names: on today, the cook's mentor first, then who may sign; or the mentor.

    Empty where nobody is nearer than any other: every assessor reads it all the same.
    """
    mentors = [one.path.mentor for one in paths_of(cook, day)]
    mentors = [who for who in mentors if who != cook and ASSESSOR in day.roles(who)]
    here = dict.fromkeys(one.cook for one in planned_on(k, day.on))
    on = [who for who in here if who != cook and ASSESSOR in day.roles(who)]
    may_sign = (who for who in on if may_sign_somewhere(who, cook, technique, day).may) if len(on) > 1 else ()
    return next((who for who in (*(one for one in mentors if one in on), *may_sign, *on, *mentors)), "")


def _nothing_there(wanted: Wanted, day: Snapshot) -> Refused | None:
    technique = day.content.techniques.get(wanted.technique)
    steps = {step.id for step in technique.steps} if technique else set()
    skills = {skill.id for skill in technique.knowledge} if technique else set()
    if (wanted.step in steps and not wanted.skill) or (wanted.skill in skills and not wanted.step):
        return None
    return Refused(message("There is no such step or question here any more."), "", "technique")


def _open(cook: str, wanted: Wanted, day: Snapshot) -> Refused | None:
    there = help_open_for(day.record(cook), wanted.technique, step=wanted.step, skill=wanted.skill)
    return Refused(message("You have asked for this already. It is not seen yet."), "", "technique") if there else None


def _not_open(cook: str, asked: str, day: Snapshot) -> Refused | None:
    return None if any(line.entry == asked for line in open_help(day.record(cook))) else _NOBODY_ASKS


_NOBODY_ASKS = Refused(message("This was shown already, or taken back."))
