"""Enters what waited: once a second manager has confirmed it, or a day has passed for a manager who is alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import replace
from datetime import datetime

from trainer.actions import correcting, giving_codes, people_on_record, standing
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.two_people import NOT_WAITING, Second, no_second, until_of, waiting, waiting_for
from trainer.kitchen.proof import proof_in
from trainer.store.acting import acting_proof, prove
from trainer.store.drafts import Draft
from trainer.store.problems import KitchenProblem

ENTER: Mapping[str, Callable[[Kitchen, Draft, Second | None, datetime], Outcome]] = {
    "roles": standing.enter_roles,
    "void": correcting.enter_void,
    "age": people_on_record.enter_age,
    "code": giving_codes.enter_code,
}
"""What enters each act: the checks of the first time are made again, at the moment it counts from."""
SHOWN = frozenset({"code"})
"""What is shown to whoever enters it: it is never entered while nobody looks."""


def confirm(k: Kitchen, *, draft: str, second: Second, now: datetime) -> Outcome:
    """Return the saved entry after a second manager's word, and with it a first code, to be shown to them alone.

    The same draft confirmed again gives the entry, and no code.
    """
    with k.file.writing():
        there = k.file.book.find_key(draft)
        found = waiting_for(k, draft)
        if found is None:
            return Saved(there) if there is not None else NOT_WAITING
        return no_second(found, second, k.day(k.today(now))) or _entered(k, found, second, now)


def enter_due(k: Kitchen, now: datetime) -> tuple[Saved, ...]:
    """Return what was entered of all that has waited its day.

    What can no longer be entered stays, marked as held, until somebody puts it away: it is not tried at every page.
    """
    due = [one for one in waiting(k) if _is_due(one, now)]
    done = []
    for draft in due:
        with suppress(KitchenProblem), k.file.writing():
            if waiting_for(k, draft.id) is not None:  # another process may have been here
                outcome = _entered(k, draft, None, now)
                if isinstance(outcome, Saved):
                    done.append(outcome)
                else:
                    k.file.drafts.put(replace(draft, body={**draft.body, "held": True}))
    return tuple(done)


def _is_due(draft: Draft, now: datetime) -> bool:
    until = until_of(draft)
    return until is not None and until <= now and draft.about not in SHOWN and not draft.body.get("held")


def _entered(k: Kitchen, draft: Draft, second: Second | None, now: datetime) -> Outcome:
    """Return what came of it; the entry is the first's, and carries the proof they gave when they asked."""
    now_proved = acting_proof()
    prove(proof_in(draft.body))
    try:
        outcome = ENTER[draft.about](k, draft, second, now)
    finally:
        prove(now_proved)
    if not isinstance(outcome, Refused):
        k.file.drafts.delete(draft.id)
    return outcome
