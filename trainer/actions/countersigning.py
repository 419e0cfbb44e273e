"""What a signature takes of somebody who trained the cook, as the kitchen has set it: nothing, a reason, or a second.

Only a *meets it* takes anything: what bars a cook waits for nobody. A second signature is another's who may sign there
and has not trained the cook either; with fewer than three who can sign, a reason is asked for in its place.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Refused
from trainer.actions.practical_drafts import Practical
from trainer.actions.saving import validate_text
from trainer.kitchen.entitlement import Snapshot, may_sign, signers
from trainer.kitchen.independence import taught_by
from trainer.kitchen.verdicts import Verdict
from trainer.messages import joined, message

if TYPE_CHECKING:
    from trainer.actions.two_people import Second
    from trainer.actions.watching import Signing

Asks = Literal["nothing", "reason", "second"]
LEAST_FOR_STRICT = 3


def can_sign(day: Snapshot) -> frozenset[str]:
    """Return all who can sign at some station on a day."""
    return frozenset(one.cook for station in day.rules.stations.values() for one in signers(station, day))


def asks_of(k: Kitchen, found: Practical, day: Snapshot) -> Asks:
    """Return what a *meets it* takes of whoever has this practical in hand, beside their own proof."""
    setting = k.file.settings.independence
    if setting == "shown" or not _trained(found.by, found, day):
        return "nothing"
    return "second" if setting == "strict" and len(can_sign(day)) >= LEAST_FOR_STRICT else "reason"


def second_signers(found: Practical, day: Snapshot) -> tuple[str, ...]:
    """Return who may be the second to sign: entitled there, another than the signer, and no trainer of the cook."""
    return tuple(who for who in sorted(can_sign(day)) if who != found.by and _is_independent(who, found, day))


def _is_independent(who: str, found: Practical, day: Snapshot) -> bool:
    return may_sign(who, found.cook, found.technique, found.station, day).may and not _trained(who, found, day)


def _trained(who: str, found: Practical, day: Snapshot) -> bool:
    record = day.progress.record(found.cook).as_of(day.on)
    return bool(taught_by(who, record, found.technique, found.station))


def not_independent(k: Kitchen, found: Practical, signing: Signing, day: Snapshot) -> Refused | None:
    """Return what a *meets it* still lacks of what the kitchen asks of a trainer who signs; None where nothing."""
    asks = asks_of(k, found, day)
    if asks == "reason":
        return _no_reason(signing.independence)
    return _no_second(found, signing.second, day) if asks == "second" else None


def _no_reason(reason: str) -> Refused | None:
    if not reason.strip():
        return Refused(message("You trained this cook. Write why you sign all the same."), "", "independence")
    wrong = validate_text(reason, "reason")
    return Refused(wrong.reason, wrong.who_can, "independence") if wrong else None


def _no_second(found: Practical, second: Second | None, day: Snapshot) -> Refused | None:
    able = second_signers(found, day)
    names = joined((day.name(who) for who in able), ", ")
    who_can = (
        message("Who can: {names}.", names=names)
        if able
        else message("Nobody today: a manager can change the setting on the machine itself.")
    )
    if second is None:
        words = message("You trained this cook. A second assessor signs with you.")
        return Refused(words, who_can, "second")
    if second.by not in able:
        words = message("{name} cannot be the second to sign this.", name=day.name(second.by))
        return Refused(words, who_can, "second")
    return None


def countersigned(k: Kitchen, found: Practical, signing: Signing, said: Verdict, day: Snapshot) -> dict[str, Any]:
    """Return what the entry of a *meets it* keeps of it: the reason, or the second signer with their proof."""
    asks = asks_of(k, found, day) if said.word == "meets it" else "nothing"
    if asks == "reason":
        return {"independence": {"asked": "reason", "reason": signing.independence.strip()}}
    if asks == "second" and signing.second is not None:
        return {"second": {"by": signing.second.by, "proof": dict(signing.second.proof), "reason": ""}}
    return {}
