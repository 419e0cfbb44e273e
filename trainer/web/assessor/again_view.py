"""What came of sign-offs looked at again, for a manager: counts, a share of enough of them, and what is to be done."""

from __future__ import annotations

from dataclasses import dataclass

from flask import url_for

from trainer.kitchen.agreement import FEWEST_PAIRS, ONE_IN, SURE_IN_10, Agreement
from trainer.kitchen.authority import ASSESSOR
from trainer.kitchen.entitlement import who_may_sign
from trainer.kitchen.rechecks import DAYS_COUNTED, LookedAgain, NotYet, looked_again, not_yet_open
from trainer.messages import Text, joined, message, plural
from trainer.recipe_math.figures import number_text
from trainer.web import guard, reading
from trainer.web.entry_words import Naming
from trainer.web.filters import weekday


@dataclass(frozen=True, slots=True)
class ToDecide:
    """A sign-off found not to hold, who could watch it again, and where a manager does what is to be done.

    `watch_href` is for an assessor who may sign it themselves; empty for others.
    """

    heading: Text
    words: Text
    who_can: Text
    found_href: str
    watch_href: str
    off_href: str
    void_href: str


@dataclass(frozen=True, slots=True)
class AgainWords:
    """How many sign-offs were looked at again, what that says, by whom they were signed, and what is to be decided.

    `who_looks` says who looks again, to a manager who may not.
    """

    counts: Text
    more: Text
    by_signer: tuple[Text, ...]
    who_looks: Text
    to_decide: tuple[ToDecide, ...]


def again_words() -> AgainWords | None:
    """Return what came of sign-offs looked at again; nothing for anyone but a manager."""
    if not guard.is_manager():
        return None
    k, today = guard.kitchen(), guard.today()
    found, naming = looked_again(k.progress(), today), Naming(k.people(), reading.content())
    signers = tuple(_of_signer(naming.person(who), of) for who, of in found.by_signer.items())
    to_decide = tuple(to_decide_of(one, naming) for one in not_yet_open(k.day(today)))
    return AgainWords(_counts(found), _more(found.all), signers, _who_looks(), to_decide)


def _who_looks() -> Text:
    """Return who looks again, to a manager who does not sign; "" to one who does."""
    words = message("Assessors look again, from “My desk”. Nobody looks at what they signed themselves.")
    return "" if ASSESSOR in guard.roles() else words


def not_yet_words() -> Text:
    """Return how many sign-offs found not to hold wait for a manager; "" for none."""
    number = len(not_yet_open(guard.kitchen().day(guard.today())))
    words = plural(
        "{number} sign-off looked at again did not hold.", "{number} sign-offs looked at again did not hold.", number
    )
    return words if number else ""


def _counts(found: LookedAgain) -> Text:
    return plural(
        "Looked at again: {again} of {number} sign-off of the last {days} days. The same: {same}.",
        "Looked at again: {again} of {number} sign-offs of the last {days} days. The same: {same}.",
        found.sign_offs,
        again=found.all.pairs,
        days=DAYS_COUNTED,
        same=found.all.same,
    )


def _more(found: Agreement) -> Text:
    """Return between which numbers of a hundred would not hold; of too few how many are wanting, and what for."""
    if not found.is_enough:
        left = plural(
            "{number} more is needed to say something.",
            "{number} more are needed to say something.",
            FEWEST_PAIRS - found.pairs,
        )
        why = message(
            "Where 1 sign-off in {one_in} does not hold, {enough} find one that does not in {sure} of 10 cases.",
            enough=FEWEST_PAIRS,
            sure=SURE_IN_10,
            one_in=ONE_IN,
        )
        return joined([left, why])
    low, high = (number_text(100 * end, 0) for end in (found.apart.low, found.apart.high))
    return message("Of 100 sign-offs, between {low} and {high} would not hold.", low=low, high=high)


def _of_signer(name: Text, found: Agreement) -> Text:
    return message(
        "Signed by {name}: {number} looked at again, the same: {same}.",
        name=name,
        number=found.pairs,
        same=found.same,
    )


def to_decide_of(one: NotYet, naming: Naming) -> ToDecide:
    """Return a sign-off found not to hold in words, with the ways on."""
    line, cook, day = one.sign_off.line, one.sign_off.cook, guard.kitchen().day(guard.today())
    stations = [station for station in day.rules.stations_asking_for(line.technique) if station.id == line.station]
    able = who_may_sign(cook, stations, day, line.technique)
    names = joined(map(naming.person, able), ", ")
    me = guard.person().id
    watch = url_for("assessor.practical.choose", cook=cook, technique=line.technique)
    return ToDecide(
        heading=message("{cook}: {what}", cook=naming.person(cook), what=naming.technique(line.technique)),
        words=message(
            "{name} signed it off on {day}. On {found_on} {other} found it not yet.",
            day=weekday(line.on),
            name=naming.person(line.by),
            found_on=weekday(one.found.on),
            other=naming.person(one.found.by),
        ),
        who_can=message("Have it watched again, by: {names}.", names=names)
        if able
        else message("Nobody can sign it today."),
        found_href=url_for("again.kept", entry=one.found.entry),
        watch_href=watch if me in able and ASSESSOR in guard.roles() else "",
        off_href=url_for("off.take", cook=cook, station=line.station),
        void_href=url_for("manager.book.void", entry=line.entry) if guard.is_manager() else "",
    )
