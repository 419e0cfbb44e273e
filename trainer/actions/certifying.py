"""Papers from outside: a manager sees a certificate and writes it down."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.kitchen.book import NewEntry
from trainer.kitchen.certificates import FOOD_PROTECTION_MANAGER, HOUSE_PAPERS, own_end
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.spans import ONE_DAY, in_words
from trainer.messages import message


@dataclass(frozen=True, slots=True)
class Paper:
    """A certificate as shown; `expires` None means the paper names no end."""

    cook: str
    certificate: str
    number: str
    issued: date
    expires: date | None


def show_certificate(k: Kitchen, *, by: str, paper: Paper, now: datetime, key: str) -> Outcome:
    """Return the saved `certificate_shown`. It counts from today, whenever it was issued."""
    body = {
        "certificate": paper.certificate,
        "number": paper.number.strip(),
        "issued": paper.issued.isoformat(),
        "expires": paper.expires.isoformat() if paper.expires else None,
    }
    deed = NewEntry("certificate_shown", now, paper.cook, by, body, key)
    return save(k, deed, lambda day: _refusal(by, paper, day))


def _refusal(by: str, paper: Paper, day: Snapshot) -> Refused | None:
    return (
        denied_by(may_manage(by, paper.cook, day))
        or not_on_roster(paper.cook, day)
        or _unknown(paper, day)
        or validate_text(paper.number, "number")
        or _wrong_days(paper, day)
    )


def _unknown(paper: Paper, day: Snapshot) -> Refused | None:
    asked = {c.id for station in day.content.stations.values() for c in station.certificates}
    if paper.certificate in asked or paper.certificate in HOUSE_PAPERS:
        return None
    return Refused(
        message("No station asks for a certificate “{certificate}”.", certificate=paper.certificate), "", "certificate"
    )


def _wrong_days(paper: Paper, day: Snapshot) -> Refused | None:
    """Return what is wrong with the days on the paper; a renewal may be shown before the one it follows has ended."""
    today = day.on
    if paper.issued > today and not _follows(paper, day):
        return Refused(
            message("It is issued on {issued}, which is still to come.", issued=in_words(paper.issued)), "", "issued"
        )
    if paper.expires is not None and paper.expires < paper.issued:
        return Refused(message("It ends before it is issued."), "", "expires")
    if paper.expires is not None and paper.expires < today:
        return Refused(
            message("It ended on {expires}: a new one is needed.", expires=in_words(paper.expires)), "", "expires"
        )
    return _too_old(paper, day)


def _follows(paper: Paper, day: Snapshot) -> bool:
    """Return whether a paper to come takes over from one that is in date, at the latest on the day after its end."""
    shown = day.progress.record(paper.cook).as_of(day.on).shown
    ends = [line.expires for line in shown if line.certificate == paper.certificate and line.issued <= day.on]
    return any(end is not None and day.on <= end and paper.issued <= end + ONE_DAY for end in ends)


def _too_old(paper: Paper, day: Snapshot) -> Refused | None:
    """Return the refusal of a paper that no station counts any more, so long ago was it issued."""
    asked = [c for station in day.content.stations.values() for c in station.certificates if c.id == paper.certificate]
    longest = max(asked or [FOOD_PROTECTION_MANAGER], key=lambda one: own_end(one, paper.issued, paper.expires))
    if own_end(longest, paper.issued, paper.expires) >= day.on:
        return None
    words = message(
        "It was issued on {issued} and counts for {years} years at the most: a new one is needed.",
        issued=in_words(paper.issued),
        years=longest.most_years,
    )
    return Refused(words, "", "issued")
