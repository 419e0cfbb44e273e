"""A cook's record on paper: their own, or anybody's to a manager."""

from __future__ import annotations

from tests.web.hands import Hands
from tests.web.kitchen_people import clear
from trainer.actions.open_kitchen import Kitchen


def test_the_sheet_has_ten_items_a_line_a_technique_and_three_lines_to_sign(cleo: Hands, kitchen: Kitchen) -> None:
    """And the head of the book, which a manager can type to have the book checked."""
    clear(kitchen, "ana")
    page = cleo.open(cleo.open("/cooks/ana").link("Record on paper"))
    assert page.heading == "Training record of Ana Pardo"
    assert len(page.soup.select("ol.ten li")) == 10
    (row,) = page.soup.select(".record-out tbody tr")
    assert "DK, meets it (1)" in " ".join(row.get_text(" ").split())
    assert [p.get_text() for p in page.soup.select(".to-sign p")] == [
        "Cook: this is mine and it is right",
        "Manager",
        "Inspector, date",
    ]
    assert kitchen.file.book.head().short in page.work
    assert "DK: Dev Karim" in page.work


def test_a_cook_opens_their_own_and_nobody_elses(ana: Hands, bo: Hands) -> None:
    """An assessor neither; the refusal says who may."""
    assert ana.open(ana.open("/record").link("Record on paper")).heading == "Training record of Ana Pardo"
    for hands, cook in ((ana, "bo"), (bo, "ana")):
        page = hands.open(f"/cooks/{cook}/record")
        assert page.status == 403
        assert "Only a manager opens the record of somebody else." in page.work


def test_the_same_sheet_comes_as_a_pdf(ana: Hands, cleo: Hands, bo: Hands) -> None:
    """From one's own record, from the sheet, and from what a manager hands out; to nobody else."""
    links = [ana.open("/record").link("Record as PDF"), ana.open("/cooks/ana/record").link("Record as PDF")]
    links.append(cleo.open("/hand-out").link("Ana Pardo"))
    for hands, link in zip((ana, ana, cleo), links, strict=True):
        response = hands.client.get(link)
        assert response.data.startswith(b"%PDF-")
        assert response.headers["Content-Disposition"] == 'attachment; filename="ana-pardo.pdf"'
    assert bo.open("/cooks/ana/record.pdf").status == 403


def test_giving_it_to_somebody_is_written_down(ana: Hands, cleo: Hands, kitchen: Kitchen) -> None:
    """To whom and what for; without a name nothing is, and what was typed stays."""
    ana.open("/cooks/ana/record")
    page = ana.press("Write it down", {"What for": "a new job"})
    assert page.problems == ["Write to whom you give it."]
    assert page.field("What for")["value"] == "a new job"
    ana.press("Write it down", {"To whom": "The Anchor", "What for": "a new job"})
    (entry,) = kitchen.file.book.of_kind("record_given")
    assert (entry.cook, entry.by, entry.body["to"], entry.body["for"]) == ("ana", "ana", "The Anchor", "a new job")
    assert "To The Anchor, for a new job" in cleo.open("/book").work


def test_every_quiz_and_practical_is_added_only_on_request(cleo: Hands, kitchen: Kitchen) -> None:
    """The second list names who watched; without asking, the sheet has it not, but for the way to it."""
    clear(kitchen, "ana")
    page = cleo.open("/cooks/ana/record")
    assert page.soup.select(".every") == []
    page = cleo.open(page.link("Add every quiz, skill and practical"))
    lines = [" ".join(line.get_text(" ").split()) for line in page.soup.select(".every li")]
    assert any("practical: meets it, Dev Karim" in line for line in lines)
    assert len(lines) == sum(entry.kind in ("quiz_sat", "practical_watched") for entry in kitchen.file.book.since(0))
