"""Acts that take two people: what frees waits for another manager, what bars counts at once.

Where nobody else could be the second, a few acts wait a day and the rest count at once: one manager and one tablet meet
no ceremony. OWASP ASVS 5.0.0, 2.3.5: high-value acts are protected by the approval of more than one person.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Literal

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.saving import validate_text
from trainer.kitchen.book import LOCAL, moment_text
from trainer.kitchen.entitlement import A_MANAGER, ANOTHER_MANAGER, Snapshot
from trainer.messages import message
from trainer.store.acting import acting_proof
from trainer.store.drafts import Draft
from trainer.store.identity import moment

Act = Literal["roles", "void", "age", "code"]
Need = Literal["nobody", "a second", "a day"]
DAY = timedelta(hours=24)
LATELY_DAYS = 14
"""For so many days after a manager was taken off, whoever is left alone is held to what two are held to."""
POWER = frozenset({"assessor", "manager"})
"""The roles that take two people to give."""
RECOVERY = "recovery"
"""In place of the second person: the kitchen's recovery sheet."""
NOT_WAITING = Refused(message("That waits no more: it was entered or put away."), "", "draft")


@dataclass(frozen=True, slots=True)
class Waits:
    """The act is kept and counts later: once another manager has confirmed it, or from `until` on for anyone alone."""

    draft: str
    until: datetime | None


@dataclass(frozen=True, slots=True)
class Second:
    """Another manager's word: who, how proved, and why.

    `local` is a command on the machine itself, `recovery` the recovery sheet.
    """

    by: str
    proof: Mapping[str, Any]
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """What the first asks for: an act about a person, what it takes, and whether it waits a day where they are alone.

    `key` is that of the form, and becomes the id of the draft and the key of the entry.
    """

    act: Act
    cook: str
    by: str
    args: Mapping[str, Any]
    key: str
    waits_alone: bool


def local_second(now: datetime) -> Second:
    """Return the word of whoever gives a command on the machine itself: it owns the kitchen's files."""
    return Second(LOCAL, {"how": LOCAL, "at": moment_text(now), "device": LOCAL, "secret_since": ""})


def seconds_for(k: Kitchen, by: str, cook: str, day: Snapshot) -> tuple[str, ...]:
    """Return the managers who could be the second: neither the first nor the person it is about, with a secret set.

    Anyone who was given a code and has not used it cannot prove themselves, and so keeps nobody waiting.
    """
    managers = (who for who in day.progress.cooks_on(day.on) if "manager" in day.roles(who))
    return tuple(who for who in managers if who not in (by, cook) and _can_prove(k, who))


def _can_prove(k: Kitchen, who: str) -> bool:
    kept = k.file.people.secret_of(who)
    return kept is not None and not kept.must_change


def need_of(k: Kitchen, asked: Asked, day: Snapshot) -> Need:
    """Return what an act that frees waits for."""
    if seconds_for(k, asked.by, asked.cook, day):
        return "a second"
    return "a day" if asked.waits_alone or lately_removed(k, asked.by, day) else "nobody"


def lately_removed(k: Kitchen, by: str, day: Snapshot) -> tuple[str, ...]:
    """Return who else managed the kitchen on one of the last days, does no more, and could have been the second.

    So nobody gets rid of the second person, and then does alone at once what takes two. Whoever was erased counts.
    """
    before = (day.on - timedelta(days=number) for number in range(1, LATELY_DAYS + 1))
    managed = {who: None for on in before for who in day.progress.cooks_on(on) if _manages(who, on, day)}
    return tuple(
        who
        for who in managed
        if who != by and "manager" not in day.roles(who) and (who in day.progress.erased or _can_prove(k, who))
    )


def _manages(who: str, on: date, day: Snapshot) -> bool:
    return "manager" in day.progress.roles(who, on)


def told_of(k: Kitchen, *, person: str) -> tuple[Draft, ...]:
    """Return what waits, asked for by a manager who was left alone when this person managed no more, oldest first."""
    return tuple(one for one in waiting(k) if person in one.body.get("told", ()))


def keep_waiting(k: Kitchen, asked: Asked, need: Need, now: datetime) -> Waits:
    """Return the act as it waits; asked for once more in the same words, it is the one that waits already."""
    same = next((one for one in waiting(k) if _is_same(one, asked)), None)
    if same is not None:
        return Waits(same.id, until_of(same))
    until = moment_text(now + DAY) if need == "a day" else ""
    proof = acting_proof()
    told = list(lately_removed(k, asked.by, k.day(k.today(now)))) if until else []
    body = {"args": dict(asked.args), "until": until, "proof": proof.body() if proof else None, "told": told}
    k.file.drafts.put(Draft(asked.key, "waiting_for_second", asked.act, asked.cook, asked.by, body, now))
    return Waits(asked.key, now + DAY if until else None)


def _is_same(draft: Draft, asked: Asked) -> bool:
    """Return whether a draft waits for the very thing that is asked."""
    kept = (draft.about, draft.cook, draft.by, dict(draft.body["args"]))
    return kept == (asked.act, asked.cook, asked.by, dict(asked.args))


def waiting(k: Kitchen) -> tuple[Draft, ...]:
    """Return all that waits, oldest first."""
    return k.file.drafts.list("waiting_for_second")


def waiting_for(k: Kitchen, draft: str) -> Draft | None:
    """Return what waits under an id, or None."""
    found = k.file.drafts.get(draft)
    return found if found is not None and found.kind == "waiting_for_second" else None


def until_of(draft: Draft) -> datetime | None:
    """Return from when an act that waits a day counts; None where it waits for a person."""
    return moment(draft.body["until"]) if draft.body["until"] else None


def said_by(second: Second | None, asked_at: datetime) -> dict[str, Any]:
    """Return what an entry keeps of the second word; of a day waited, when it was asked for."""
    if second is None:
        return {"second": None, "asked": moment_text(asked_at)}
    return {"second": {"by": second.by, "proof": dict(second.proof), "reason": second.reason.strip()}}


def no_second(draft: Draft, second: Second, day: Snapshot) -> Refused | None:
    """Return why a person cannot be the second: no manager, the first themselves, or the one it is about."""
    wrong = validate_text(second.reason, "reason", may_be_blank=True)
    if second.by in (LOCAL, RECOVERY) or wrong is not None:
        return wrong
    if "manager" not in day.roles(second.by):
        return Refused(message("{name} is no manager.", name=day.name(second.by)), A_MANAGER)
    if second.by == draft.by:
        return Refused(message("You asked for this yourself. It takes a second person."), ANOTHER_MANAGER)
    if second.by == draft.cook:
        return Refused(message("Nobody decides this about themselves."), ANOTHER_MANAGER)
    return None


def put_away(k: Kitchen, *, by: str, draft: str, now: datetime) -> Refused | None:
    """Return None after dropping what waits: any manager may, and nothing enters the book."""
    with k.file.writing():
        if waiting_for(k, draft) is None:
            return NOT_WAITING
        if "manager" not in k.progress().roles(by, k.today(now)):
            return Refused(message("Only a manager may do this."), A_MANAGER)
        k.file.drafts.delete(draft)
        return None
