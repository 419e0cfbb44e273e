"""What the closed services say of who stood: at how many somebody was not cleared, and whether that is too many."""

from __future__ import annotations

from dataclasses import dataclass

from trainer.kitchen.not_cleared import DAYS_BACK, FEWEST_SERVICES, NotCleared, run_not_cleared
from trainer.messages import Text, joined, message, plural
from trainer.recipe_math.figures import number_text
from trainer.web import guard


@dataclass(frozen=True, slots=True)
class StoodWords:
    """How many services were run by somebody not cleared, and what follows; `is_alarm` above the house's limit."""

    counts: Text
    more: Text
    is_alarm: bool


def stood_words() -> StoodWords | None:
    """Return what closed services say of who stood, for a manager; nothing before one is closed."""
    if not guard.is_manager():
        return None
    today = guard.today()
    found = run_not_cleared(guard.kitchen().progress().nights.closings(today, today).values(), today)
    limit = guard.kitchen().file.settings.not_cleared_in_100
    return StoodWords(_counts(found), _more(found, limit), found.is_above(limit)) if found.services else None


def _counts(found: NotCleared) -> Text:
    return plural(
        "{number} service was closed in the last {days} days; run by somebody not cleared: {uncleared}.",
        "{number} services were closed in the last {days} days; run by somebody not cleared: {uncleared}.",
        found.services,
        days=DAYS_BACK,
        uncleared=found.number,
    )


def _more(found: NotCleared, limit: int) -> Text:
    """Return between which numbers of a hundred it would lie, and the house's limit; too few services say so."""
    if not found.is_enough:
        return message(
            "Too few to say more: {number} of {enough} services.", number=found.services, enough=FEWEST_SERVICES
        )
    low, high = (number_text(100 * end, 0) for end in (found.likely.low, found.likely.high))
    likely = message("Of 100 services, between {low} and {high} would be.", low=low, high=high)
    if found.is_above(limit):
        follows = message("That is above the house's limit of {limit} in 100: look at the plan.", limit=limit)
    else:
        follows = message("The house's limit is {limit} in 100.", limit=limit)
    return joined([likely, follows])
