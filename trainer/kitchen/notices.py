"""Notices of the house that everybody reads: the text, its edition, and who has read it by a day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from trainer.kitchen.record import CookRecord, NoticeRead
from trainer.messages import Text, message


@dataclass(frozen=True, slots=True)
class Part:
    """A heading of a notice, and the things under it."""

    heading: Text
    things: tuple[Text, ...]


@dataclass(frozen=True, slots=True)
class Notice:
    """A notice in one edition of its text; another text is another edition, to be read anew."""

    id: str
    edition: int
    title: Text
    lead: Text
    parts: tuple[Part, ...]
    source: Text

    @property
    def texts(self) -> tuple[Text, ...]:
        """Return everything that is read, from top to bottom."""
        inner = (text for part in self.parts for text in (part.heading, *part.things))
        return (self.title, self.lead, *inner, self.source)


HEALTH_REPORTING = Notice(
    "health_reporting",
    1,
    message("Ill? Tell the person in charge"),
    message("What you carry can make guests ill. Tell it before you work, and at once if it starts at work."),
    (
        Part(
            message("Tell it if you have"),
            (
                message("vomiting"),
                message("diarrhea"),
                message("yellow skin or eyes (jaundice)"),
                message("a sore throat with fever"),
                message("a boil or an infected wound that is open or drains, even under a bandage"),
            ),
        ),
        Part(
            message("Tell it if a doctor says you have"),
            (
                message("norovirus"),
                message("hepatitis A"),
                message("Shigella"),
                message("E. coli that makes Shiga toxin (STEC)"),
                message("typhoid fever (Salmonella Typhi)"),
                message("Salmonella of any other kind"),
            ),
        ),
        Part(
            message("Tell these too"),
            (
                message("You had typhoid fever in the last 3 months, and no antibiotics for it from a doctor."),
                message("You ate or made food that made people ill, or ate what somebody ill had made."),
                message("Somebody you live with has one of these illnesses."),
                message("You, or somebody you live with, were where people fell ill with one of them."),
                message("Say when that was: up to 2 days ago for norovirus, 3 for Shigella and STEC."),
                message("For typhoid fever it is 14 days, for hepatitis A 30."),
            ),
        ),
        Part(
            message("What happens then"),
            (
                message("Say when it began. The person in charge says if you stay away from food or go home."),
                message("Come back to food only when they say so."),
                message("This program keeps that you read this, never what you have."),
            ),
        ),
    ),
    message("By FDA Food Code 2022, 2-201.11(A). Your local code may ask for more, and decides."),
)
NOTICES: dict[str, Notice] = {HEALTH_REPORTING.id: HEALTH_REPORTING}


def notice_title(notice: str) -> Text:
    """Return the title of a notice; its id where this program does not have it."""
    found = NOTICES.get(notice)
    return found.title if found else notice


def read_of(record: CookRecord, notice: str, edition: int) -> NoticeRead | None:
    """Return the first time an edition of a notice, or a later one, was read in a record; None where it was not."""
    return next((one for one in record.notices if one.notice == notice and one.edition >= edition), None)


def edition_known(records: Iterable[CookRecord], notice: str, on: date) -> int:
    """Return the edition that was in use by the end of a day: the newest one anybody had read, and the first before.

    The book alone says it, so that a text changed later makes nobody's past reading old.
    """
    kept = (record.as_of(on).notices for record in records)
    return max((line.edition for lines in kept for line in lines if line.notice == notice), default=1)
