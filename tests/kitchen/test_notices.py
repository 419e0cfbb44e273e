"""Notices of the house: what the one on illness names, and that its text does not change without its edition."""

from __future__ import annotations

import hashlib
from datetime import date

from tests.printed import english
from trainer.kitchen.notices import HEALTH_REPORTING, edition_known, read_of
from trainer.kitchen.record import CookRecord, NoticeRead

SYMPTOMS = ("vomiting", "diarrhea", "jaundice", "sore throat with fever", "open or drains")
ILLNESSES = ("norovirus", "hepatitis A", "Shigella", "Shiga toxin", "typhoid fever", "Salmonella of any other kind")
EXPOSED = ("2 days ago for norovirus", "3 for Shigella and STEC", "typhoid fever it is 14 days", "hepatitis A 30")
EDITIONS = {1: "15c75f4f95b505a9b9bb5f3955c31eaf29851f91526a6adde24310d5bb2b1732"}
"""The text of each edition, by SHA-256: a changed word is a new edition, which everybody reads."""


def test_the_notice_names_what_the_code_names() -> None:
    """Five symptoms, six diagnoses, typhoid in 3 months, exposure: 2-201.11(A)(1)-(5).

    Read in Virginia's adoption, 12VAC5-421-80 (A)(1)-(5), whose numbering it is; the days of (4) and (5), 48 hours,
    3, 14 and 30 days, are the FDA Food Code's 2022 (from memory).
    """
    said = " / ".join(english(text) for text in HEALTH_REPORTING.texts)
    for words in (*SYMPTOMS, *ILLNESSES, "in the last 3 months", *EXPOSED):
        assert words in said
    assert "FDA Food Code 2022, 2-201.11(A)" in said
    assert "local code" in said


def test_a_changed_text_is_a_new_edition() -> None:
    """Who read the old words has not read the new ones."""
    said = "\n".join(english(text) for text in HEALTH_REPORTING.texts)
    assert hashlib.sha256(said.encode()).hexdigest() == EDITIONS[HEALTH_REPORTING.edition]


def test_a_reading_runs_out_with_its_edition() -> None:
    """A later edition counts for an earlier one, and an earlier one for none."""
    record = CookRecord("ada", notices=(NoticeRead("one", date(2026, 3, 2), "health_reporting", 1),))
    assert read_of(record, "health_reporting", 1) == record.notices[0]
    assert read_of(record, "health_reporting", 2) is None
    assert read_of(record, "allergens", 1) is None


def test_a_past_day_knows_the_editions_of_its_book_alone() -> None:
    """Before anybody read the second, the first was in use."""
    read = tuple(NoticeRead(str(n), date(2026, n, 2), "health_reporting", n) for n in (1, 2))
    records = (CookRecord("ada", notices=read), CookRecord("ben"))
    days = [date(2025, 1, 1), date(2026, 1, 31), date(2026, 2, 2)]
    assert [edition_known(records, "health_reporting", day) for day in days] == [1, 1, 2]
