"""Papers from outside: a manager sees a certificate and writes it down."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.saving import denied_by, not_on_roster, save, validate_text
from trainer.kitchen.book import NewEntry
from trainer.kitchen.entitlement import Snapshot, may_manage
from trainer.kitchen.spans import in_words
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
        or _wrong_days(paper, day.on)
    )


def _unknown(paper: Paper, day: Snapshot) -> Refused | None:
    asked = {c.id for station in day.content.stations.values() for c in station.certificates}
    if paper.certificate in asked:
        return None
    return Refused(
        message("No station asks for a certificate “{certificate}”.", certificate=paper.certificate), "", "certificate"
    )


def _wrong_days(paper: Paper, today: date) -> Refused | None:
    """Return what is wrong with the days on the paper."""
    if paper.issued > today:
        return Refused(
            message("It is issued on {issued}, which is still to come.", issued=in_words(paper.issued)), "", "issued"
        )
    if paper.expires is not None and paper.expires < paper.issued:
        return Refused(message("It ends before it is issued."), "", "expires")
    if paper.expires is not None and paper.expires < today:
        return Refused(
            message("It ended on {expires}: a new one is needed.", expires=in_words(paper.expires)), "", "expires"
        )
    return None
