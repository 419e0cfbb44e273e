"""Locks, codes, devices, the clock, copies put back: who was let in or kept out, newest first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from flask import Blueprint, Response, url_for

from trainer.kitchen.security import SECURITY
from trainer.messages import Text, message
from trainer.web import guard, reading
from trainer.web.entry_words import EntryTold, Naming, told
from trainer.web.filters import moment
from trainer.web.page import Page, show

pages = Blueprint("security", __name__)
MOST = 200


@dataclass(frozen=True, kw_only=True)
class SecurityPage(Page):
    """The newest entries about who may come in."""

    template: ClassVar[str] = "manager/security.html"
    entries: tuple[EntryTold, ...]
    most: int
    sheet: Text
    back: str


@pages.get("/book/door")
@guard.needs("manager")
def newest() -> Response:
    """Show what happened at the door, newest first."""
    k = guard.kitchen()
    naming = Naming(k.people(), reading.content())
    return show(
        SecurityPage(
            title=message("At the door"),
            entries=tuple(told(entry, naming) for entry in k.file.book.newest_of(SECURITY, MOST)),
            most=MOST,
            sheet=_sheet_told(),
            back=url_for("manager.devices.enrolled"),
        )
    )


def _sheet_told() -> Text:
    """Return when the recovery sheet that is good was made, or that there is none, and how a new one is made."""
    kept = guard.kitchen().file.recovery_sheets.current()
    if kept is None:
        return message("There is no recovery sheet. On the machine itself, trainer recover --new-sheet prints one.")
    made = moment(kept.made_at)
    return message(
        "The recovery sheet that is good was made {made}. Lost, or seen by others? On the machine itself, "
        "trainer recover --new-sheet prints a new one and ends it.",
        made=made,
    )
