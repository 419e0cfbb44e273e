"""Papers from outside: a manager sees a certificate and writes it down."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from trainer.actions.open_kitchen import OpenKitchen
from trainer.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class Paper:
    """A certificate as shown; `expires` None means the paper names no end."""

    cook: str
    certificate: str
    number: str
    issued: date
    expires: date | None


def show_certificate(k: OpenKitchen, *, by: str, paper: Paper, now: datetime, key: str) -> Outcome:
    """Return the saved `certificate_shown`."""
    raise NotImplementedError
