"""The first hour on screen: what comes next in a new kitchen, in order, with a mark at what is done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, url_for

from trainer.actions.first_hour import FirstStep, What, first_hour, is_under_way
from trainer.messages import Text, joined, message, plural
from trainer.web import guard
from trainer.web.page import Page, show

pages = Blueprint("first_hour", __name__)
ENDPOINTS: Mapping[What, str] = {
    "people": "manager.by_hand.new",
    "device": "manager.devices.invite",
    "assessor": "manager.people",
    "signers": "manager.authority.could_sign",
    "known": "manager.known_before.said",
    "services": "services.services",
    "plan": "plan.plan",
    "clearance": "board.tonight",
}
MINUTES: Mapping[What, int] = {
    "people": 10,
    "device": 5,
    "assessor": 2,
    "signers": 5,
    "known": 10,
    "services": 5,
    "plan": 5,
    "clearance": 0,
}
"""About how long each takes with a dozen people: the house's own estimate, by presses counted in a browser."""
HEADINGS: Mapping[What, Text] = {
    "people": message("People on the roster"),
    "device": message("A tablet or phone for everybody"),
    "assessor": message("Somebody who assesses"),
    "signers": message("Who may sign at which station"),
    "known": message("Known from before"),
    "services": message("Services of the week"),
    "plan": message("The first plan"),
    "clearance": message("The first clearance"),
}
HINTS: Mapping[What, Text] = {
    "people": message("By hand, one at a time, or all from a file. Each then gets a first code on their own page."),
    "device": message("Invite it here; type the code on it."),
    "assessor": message("Change roles on the person's own page. Who assesses may not sign for themselves."),
    "signers": message("Where nobody is cleared yet, open the station for an assessor: on their page, Open a station."),
    "known": message("For cooks who could do it before. It runs out, and is never shown as watched."),
    "services": message("Which services there are, and the hands each needs."),
    "plan": message("Who stands where: by hand or from a shift file, then published."),
    "clearance": message("A cook reads, answers, and shows it; an assessor watches and signs."),
}


@dataclass(frozen=True, slots=True)
class StepLine:
    """One step in words: its place, whether it is done or next, how far it is, and where it is done."""

    number: int
    heading: Text
    is_done: bool
    is_next: bool
    state: Text
    hint: Text
    minutes: Text
    href: str


@dataclass(frozen=True, slots=True)
class FirstHour:
    """The steps, and in one sentence how many are done."""

    told: Text
    steps: tuple[StepLine, ...]


@dataclass(frozen=True, kw_only=True)
class FirstHourPage(Page):
    """The whole list."""

    template: ClassVar[str] = "manager/first_hour.html"
    hour: FirstHour
    file_url: str
    settings_url: str


@pages.get("/first-hour")
@guard.needs("manager")
def shown() -> Response:
    """Show what comes next, and what is done."""
    return show(
        FirstHourPage(
            title=message("The first hour"),
            hour=hour_of(first_hour(guard.kitchen(), guard.today())),
            file_url=url_for("manager.roster.upload"),
            settings_url=url_for("manager.kitchen_settings.settings"),
        )
    )


def hour_under_way() -> FirstHour | None:
    """Return the steps for a manager whose kitchen has cleared nobody yet and published no plan; else None."""
    k, today = guard.kitchen(), guard.today()
    return hour_of(first_hour(k, today)) if guard.is_manager() and is_under_way(k, today) else None


def hour_of(steps: tuple[FirstStep, ...]) -> FirstHour:
    """Return the steps in words; the next is the first that is not done and may not wait."""
    done = sum(one.is_done for one in steps)
    following = next((one.what for one in steps if not one.is_done and not one.may_wait), None)
    told = plural("{done} of {number} step is done.", "{done} of {number} steps are done.", len(steps), done=done)
    more = [message("Next: {what}.", what=HEADINGS[following])] if following else []
    lines = tuple(_line(place, one, following) for place, one in enumerate(steps, 1))
    return FirstHour(joined([told, *more]), lines)


def _line(place: int, one: FirstStep, following: What | None) -> StepLine:
    minutes = MINUTES[one.what]
    return StepLine(
        place,
        HEADINGS[one.what],
        one.is_done,
        one.what == following,
        _state(one),
        HINTS[one.what],
        plural("about {number} minute", "about {number} minutes", minutes) if minutes and not one.is_done else "",
        url_for(ENDPOINTS[one.what]),
    )


def _state(one: FirstStep) -> Text:
    if one.of:
        return message("{number} of {of}", number=one.number, of=one.of)
    if one.is_done:
        return message("Done: {number}", number=one.number)
    return message("Not yet; it may wait") if one.may_wait else message("Not yet")
