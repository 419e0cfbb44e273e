"""The inspector's sheet in words and as JSON: each cell of its table, and a line each for a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from trainer.actions.inspecting import InspectionSheet, PaperOnSheet, PersonOnSheet
from trainer.actions.inspection_gaps import gaps
from trainer.kitchen.book import moment_text
from trainer.kitchen.spans import in_short
from trainer.messages import Text, joined, message, plural, translate

FORMAT = 1
NONE = message("none")


def _day(on: date) -> Text:
    return in_short(on, with_year=True)


def heading(sheet: InspectionSheet) -> Text:
    """Return which service of which day it is, and whether those listed stood there or are planned."""
    if sheet.service is None:
        return message("{day}, everybody on the roster", day=_day(sheet.on))
    words = {"service": sheet.service.heading, "day": _day(sheet.on)}
    return message("{service}, {day}, as it stood", **words) if sheet.stood else message("{service}, {day}", **words)


def charge_words(sheet: InspectionSheet) -> Text:
    """Return who is in charge and with which certificate."""
    if sheet.charge is None:
        return message("nobody named")
    return joined([sheet.charge.name, paper_words(sheet.charge.manager_paper)], ": ")


def paper_words(paper: PaperOnSheet) -> Text:
    """Return a paper: what, its number, until when, and to which day grace or the first days hold it up."""
    found = paper.standing
    name: Text = joined([paper.title, paper.number], " ") if paper.number else paper.title
    if found.state == "none":
        return message("{certificate}: none shown", certificate=paper.title)
    if found.state == "to be shown" and found.counts_to:
        return message("{certificate}: to be shown by {day}", certificate=paper.title, day=_day(found.counts_to))
    if found.until is None:
        return message("{certificate}, no end", certificate=name)
    if found.state == "good":
        return message("{certificate}, to {day}", certificate=name, day=_day(found.until))
    if found.state == "on grace" and found.counts_to:
        ends = {"day": _day(found.until), "last": _day(found.counts_to)}
        return message("{certificate}, ended {day}, counts to {last}", certificate=name, **ends)
    return message("{certificate}, ended {day}", certificate=name, day=_day(found.until))


def papers_words(person: PersonOnSheet) -> Text:
    """Return every paper of a person."""
    return joined(map(paper_words, person.shown), "; ") if person.shown else NONE


def places_words(sheet: InspectionSheet, person: PersonOnSheet) -> Text:
    """Return where a person stands, and whether they are cleared there."""
    found: list[Text] = [message("in charge")] if person.in_charge else []
    for place in person.places:
        title = sheet.station(place.station)
        found.append(title if place.is_cleared else message("{station}, not cleared", station=title))
    return joined(found, "; ")


def cleared_words(sheet: InspectionSheet, person: PersonOnSheet) -> Text:
    """Return the stations a person is cleared for."""
    return joined(map(sheet.station, person.cleared), ", ") if person.cleared else NONE


def notice_words(person: PersonOnSheet) -> Text:
    """Return when a person read the notice on illness."""
    return _day(person.notice.on) if person.notice else message("not read")


def allergens_words(person: PersonOnSheet) -> Text:
    """Return when a person was signed off for allergens, or to which day it is known from before."""
    training = person.allergens
    if training is None:
        return message("not signed") if person.works else message("works no station")
    if training.signed is not None:
        return message("signed {day}", day=_day(training.signed.on))
    return message("known from before, to {day}", day=_day(training.until)) if training.until else message("known")


def as_lines(sheet: InspectionSheet) -> Iterator[Text]:
    """Yield the sheet for a terminal: what is missing first."""
    yield joined([sheet.kitchen, heading(sheet)], ": ")
    found = gaps(sheet)
    yield plural("{number} thing is missing", "{number} things are missing", len(found)) if found else _COMPLETE
    for gap in found:
        yield joined(["  ", gap.words, " ", gap.act], "")
    yield message("In charge: {name}.", name=charge_words(sheet))
    for one in sheet.people:
        yield joined([one.name, places_words(sheet, one)], ": ")
        yield message("  cleared for {stations}", stations=cleared_words(sheet, one))
        yield message("  papers: {papers}", papers=papers_words(one))
        yield message(
            "  notice on illness: {notice}; allergens: {allergens}",
            notice=notice_words(one),
            allergens=allergens_words(one),
        )
    yield message("Check value {head}", head=sheet.head)


_COMPLETE = message("Nothing is missing.")


def as_data(sheet: InspectionSheet) -> dict[str, Any]:
    """Return the sheet as JSON, in English: days as YYYY-MM-DD, names beside ids."""
    return {
        "format": FORMAT,
        "kitchen": sheet.kitchen,
        "zone": sheet.zone,
        "at": moment_text(sheet.at),
        "day": sheet.on.isoformat(),
        "service": sheet.service.id if sheet.service else None,
        "people_are": "stood" if sheet.stood else "planned" if sheet.service else "roster",
        "in_charge": sheet.charge.cook if sheet.charge else None,
        "missing": [
            {"what": one.what, "words": translate(one.words), "next": translate(one.act), "cooks": list(one.cooks)}
            for one in gaps(sheet)
        ],
        "people": [_person(one) for one in sheet.people],
        "stations": [
            {"id": name, "title": sheet.station(name), "cleared": [one.cook for one in sheet.cleared_at(name)]}
            for name in sheet.stations
        ],
        "notice_edition": sheet.notice_edition,
        "head": sheet.head,
    }


def _person(one: PersonOnSheet) -> dict[str, Any]:
    training = one.allergens
    return {
        "id": one.cook,
        "name": str(one.name),
        "in_charge": one.in_charge,
        "at": [{"station": place.station, "runs": place.runs, "cleared": place.is_cleared} for place in one.places],
        "cleared": list(one.cleared),
        "manager_certificate": _paper(one.manager_paper),
        "certificates": [_paper(paper) for paper in one.papers],
        "notice_read": one.notice.on.isoformat() if one.notice else None,
        "allergens": {
            "signed": _iso(training.signed.on if training.signed else None),
            "by": training.signed.by if training.signed else None,
            "until": _iso(training.until),
        }
        if training
        else None,
    }


def _paper(paper: PaperOnSheet) -> dict[str, Any]:
    found = paper.standing
    return {
        "certificate": found.asked.id,
        "title": translate(paper.title),
        "state": found.state,
        "number": str(paper.number),
        "until": _iso(found.until),
        "counts_to": _iso(found.counts_to),
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None
