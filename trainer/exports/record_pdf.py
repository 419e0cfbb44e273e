"""A person's record as a typeset PDF: tagged for a reader that speaks, titled, in the reader's language and paper."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any, Final, Literal
from zoneinfo import ZoneInfo

from trainer.actions.record_sheet import RecordSheet
from trainer.actions.record_trainings import Training
from trainer.exports.spreadsheet import Say
from trainer.kitchen.names import plain
from trainer.kitchen.practical import WORDS
from trainer.kitchen.spans import in_short
from trainer.messages import Text, joined, message

LAYOUT = Path(__file__).with_name("record.typ")
PAPERS = {"us": "us-letter", "metric": "a4"}
"""The paper of a kitchen by the units that stand first: US Letter (ANSI Y14.1) or A4 (ISO 216)."""
STANDARD: Final = "ua-1"  # PDF/UA-1 (ISO 14289-1): tagged, with title and language
COLUMNS = (
    message("Technique, edition"),
    message("Read"),
    message("Questions passed (answers)"),
    message("Watched last, by, result (practicals)"),
    message("min"),
    message("Good to"),
)
TO_SIGN = (message("Cook: this is mine and it is right"), message("Manager"), message("Inspector, date"))
CHECK = message(
    "Check value of the book as this sheet was made. Type it where a manager verifies the book: it answers whether"
    " anything was changed up to there."
)


def record_pdf(
    sheet: RecordSheet, *, units: Literal["us", "metric"], language: str, say: Say, name_of: Callable[[str], str]
) -> bytes:
    """Return the sheet as PDF; `name_of` tells who a signer is. What stands on it goes in as data, never as layout."""
    import typst

    told = _told(sheet, say, name_of) | {"paper": PAPERS[units], "language": language}
    data = {"told": json.dumps(told, ensure_ascii=False)}
    at = sheet.at.replace(microsecond=0)
    return typst.compile(
        LAYOUT.read_bytes(),
        format="pdf",
        ignore_system_fonts=True,
        sys_inputs=data,
        pdf_standards=STANDARD,
        timestamp=at,
    )


def file_name(sheet: RecordSheet) -> str:
    """Return what a file with the record is called, without an ending: the name in plain letters, `maren-ito`."""
    return re.sub("[^a-z0-9]+", "-", plain(str(sheet.name))).strip("-") or "record"


def _told(sheet: RecordSheet, say: Say, name_of: Callable[[str], str]) -> dict[str, Any]:
    """Return all that is printed, in the reader's words."""
    at = sheet.at.astimezone(ZoneInfo(sheet.zone))
    when = joined([in_short(at.date(), with_year=True), f"{at:%H:%M}"], ", ")
    return {
        "kitchen": sheet.kitchen,
        "title": say(message("Training record of {name}", name=sheet.name)),
        "as_of": say(message("as the book stood on {when} ({zone})", when=when, zone=sheet.zone)),
        "items": [{"title": say(one.title), "text": say(joined(one.lines, "; "))} for one in sheet.items],
        "techniques": say(message("Techniques")),
        "columns": [say(words) for words in COLUMNS],
        "rows": [[say(cell) for cell in _row(sheet, one)] for one in sheet.trainings],
        "notes": [say(words) for words in _notes(sheet, name_of)],
        "to_sign": [say(words) for words in TO_SIGN],
        "head": sheet.head,
        "check": say(CHECK),
    }


def _row(sheet: RecordSheet, one: Training) -> tuple[Text, ...]:
    """Return the cells of one training, as they stand on the page that is printed."""
    questions: Text = ""
    if one.quizzes or one.answers:
        questions = _day(one.quiz) if one.quiz else message("not yet")
        questions = joined([questions, f"({one.answers})"]) if one.answers else questions
    watched: Text = ""
    if one.watched:
        verdict = joined([WORDS.get(one.watched.verdict, one.watched.verdict), f"({one.practicals})"])
        watched = joined([_day(one.watched.on), sheet.letter(one.watched.by), verdict], ", ")
    minutes = str(one.minutes) if one.minutes else ""
    return joined([one.title, str(one.edition)], ", "), _day(one.read), questions, watched, minutes, _day(one.good_to)


def _day(on: date | None) -> Text:
    return in_short(on, with_year=True) if on else ""


def _notes(sheet: RecordSheet, name_of: Callable[[str], str]) -> list[Text]:
    """Return with what was learnt, and who the letters stand for."""
    tools = list(dict.fromkeys(tool for one in sheet.trainings for tool in one.equipment))
    signed = [message("{letter}: {name}", letter=letter, name=name_of(who)) for who, letter in sheet.signers.items()]
    found: list[Text] = []
    if tools:
        found.append(message("Equipment learnt with: {tools}.", tools=joined(tools, ", ")))
    if signed:
        found.append(message("Watched and signed by: {signers}.", signers=joined(signed, ", ")))
    return found
