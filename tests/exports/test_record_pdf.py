"""A record as PDF, read back by a general library: tagged, titled, in its language, on the kitchen's paper."""

from __future__ import annotations

from datetime import UTC, date, datetime
from io import BytesIO

import pytest
from pdfminer.high_level import extract_text
from pdfminer.pdfdocument import PDFDocument
from pdfminer.pdfpage import PDFPage
from pdfminer.pdfparser import PDFParser
from pdfminer.pdftypes import resolve1

from trainer.actions.record_sheet import Item, RecordSheet
from trainer.actions.record_trainings import Training
from trainer.exports.record_pdf import file_name, record_pdf
from trainer.messages import message, translate
from trainer.store.catalogues import translations

HOSTILE = "#panic() *Łucja* $x$ `Đặng` <b> @home //"
"""A name with every sign that means something to the typesetter: all of it is printed, and none of it does anything."""


def sheet(name: str = "Łucja Çelikoğlu") -> RecordSheet:
    """Return a record with one training."""
    training = Training(
        technique="fish", title="Fish", edition=2, read=date(2026, 1, 5), quiz=None, quizzes=0, answers=3,
        watched=None, practicals=0, minutes=0, good_to=None, equipment=("thin probe",), is_signed=False, entries=(),
    )  # fmt: skip
    items = (Item(message("Name"), (name,)), Item(message("Certificates"), (message("None shown yet."),)))
    at = datetime(2026, 11, 3, 17, 0, tzinfo=UTC)
    return RecordSheet(
        "Quernstone", "America/New_York", at, at.date(), "lucja", name, items, (training,), {},
        "1093-7K2M-QX4F-9T0B-ZR6H-43", (),
    )  # fmt: skip


def made(one: RecordSheet, units: str = "us", language: str = "en") -> bytes:
    """Return it as PDF."""
    return record_pdf(
        one,
        units=units,  # type: ignore[arg-type]
        language=language,
        say=lambda words: translate(words, translations(language)),
        name_of=str,
    )


@pytest.mark.parametrize(("units", "size"), [("us", (612, 792)), ("metric", (595.28, 841.89))])
def test_the_paper_is_the_kitchens(units: str, size: tuple[float, float]) -> None:
    """Letter 8 1/2 by 11 in (ANSI/ASME Y14.1), A4 210 by 297 mm (ISO 216), in points of 1/72 in."""
    (page,) = PDFPage.get_pages(BytesIO(made(sheet(), units)))
    assert page.mediabox[2:] == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize("language", ["en", "es"])
def test_it_is_tagged_titled_and_says_its_language(language: str) -> None:
    """ISO 32000-1:2008, 14.7.2, 14.8 and 14.9.2; PDF/UA-1 (ISO 14289-1), 7.1 and 7.2 (from memory)."""
    catalog = PDFDocument(PDFParser(BytesIO(made(sheet(), language=language)))).catalog
    assert resolve1(catalog["Lang"]).decode() == language
    assert resolve1(catalog["MarkInfo"])["Marked"] is True
    assert resolve1(catalog["ViewerPreferences"])["DisplayDocTitle"] is True
    assert resolve1(catalog["StructTreeRoot"])["Type"].name == "StructTreeRoot"
    metadata = resolve1(catalog["Metadata"]).get_data().decode()
    assert "<pdfuaid:part>1</pdfuaid:part>" in metadata
    assert "Łucja Çelikoğlu" in metadata


def test_every_item_row_and_check_value_is_printed() -> None:
    """And the day and hour of the kitchen's own clock."""
    text = " ".join(extract_text(BytesIO(made(sheet()))).split())
    for words in (
        "Quernstone",
        "Training record of Łucja Çelikoğlu",
        "3 Nov 2026, 12:00",
        "None shown yet.",
        "Fish, 2",
    ):
        assert words in text
    for words in ("5 Jan 2026", "Equipment learnt with: thin probe.", "1093-7K2M-QX4F-9T0B-ZR6H-43", "Inspector, date"):
        assert words in text


def test_a_name_is_text_and_no_layout() -> None:
    """It goes in as data."""
    assert HOSTILE in " ".join(extract_text(BytesIO(made(sheet(HOSTILE)))).split())


def test_a_file_is_named_in_plain_letters() -> None:
    """So that any system takes it."""
    assert [file_name(sheet(name)) for name in ("Łucja  Çelikoğlu-O'Neill", "名前")] == [
        "lucja-celikoglu-o-neill",
        "record",
    ]
