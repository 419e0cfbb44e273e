"""What is missing on an inspector's sheet, in words, the gravest first, each with what to do next."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from trainer.actions.inspecting import InspectionSheet, PersonOnSheet
from trainer.kitchen.spans import in_short
from trainer.messages import Text, joined, message, plural


@dataclass(frozen=True, slots=True)
class Gap:
    """One thing that is missing: what kind, in words, what to do, and whom it is about."""

    what: str
    words: Text
    act: Text
    cooks: tuple[str, ...] = ()


def gaps(sheet: InspectionSheet) -> tuple[Gap, ...]:
    """Return everything that is missing, so that it is read before the rest."""
    return tuple(
        gap
        for part in (_charge, _manager_paper, _papers, _not_cleared, _notice, _allergens, _plan)
        for gap in part(sheet)
    )


def _names(people: Iterable[PersonOnSheet]) -> Text:
    return joined([one.name for one in people], ", ")


def _ids(people: Iterable[PersonOnSheet]) -> tuple[str, ...]:
    return tuple(one.cook for one in people)


def _charge(sheet: InspectionSheet) -> Iterator[Gap]:
    if sheet.charge is None:
        words = message("Nobody is named in charge on {day}.", day=in_short(sheet.on, with_year=True))
        yield Gap("in_charge", words, message("A manager names the person in charge in the plan."))


def _manager_paper(sheet: InspectionSheet) -> Iterator[Gap]:
    charge = sheet.charge
    if charge is None or charge.manager_paper.standing.counts:
        return
    standing = charge.manager_paper.standing
    words = message("{name} is in charge, with no food protection manager certificate on record.", name=charge.name)
    if standing.state == "ended" and standing.until:
        words = message(
            "{name} is in charge, and the food protection manager certificate ended on {day}.",
            name=charge.name,
            day=in_short(standing.until, with_year=True),
        )
    holders = [one for one in sheet.people if one is not charge and one.manager_paper.standing.counts]
    act = message("A manager writes it down from the paper.")
    if holders:
        act = plural(
            "A manager writes it down from the paper. On too, with one: {names}.",
            "A manager writes it down from the paper. On too, each with one: {names}.",
            len(holders),
            names=_names(holders),
        )
    yield Gap("manager_certificate", words, act, (charge.cook,))


def _papers(sheet: InspectionSheet) -> Iterator[Gap]:
    """Yield each kind of paper that somebody lacks, or that only grace or the first days hold up."""
    for paper in {one.standing.asked.id: one for person in sheet.people for one in person.papers}.values():

        def those(states: Iterable[str], wanted: str = paper.standing.asked.id) -> list[PersonOnSheet]:
            return [
                one
                for one in sheet.people
                if any(p.standing.asked.id == wanted and p.standing.state in states for p in one.papers)
            ]

        yield from _paper_gap(paper.title, paper.standing.asked.id, those)


def _paper_gap(title: Text, paper: str, those: Callable[[Iterable[str]], list[PersonOnSheet]]) -> Iterator[Gap]:
    lacking, soon = those(("none", "ended")), those(("on grace", "to be shown"))
    if lacking:
        words = message("{certificate} missing or ended: {names}.", certificate=title, names=_names(lacking))
        yield Gap(f"certificate:{paper}", words, message("Each shows a valid one to a manager."), _ids(lacking))
    if soon:
        words = message("{certificate} still to be shown: {names}.", certificate=title, names=_names(soon))
        yield Gap(f"certificate:{paper}", words, message("It counts for now; the table says to which day."), _ids(soon))


def _not_cleared(sheet: InspectionSheet) -> Iterator[Gap]:
    """Yield who runs a station without being cleared there; who trails beside somebody is no gap."""
    for one in sheet.people:
        against = [place.station for place in one.places if place.runs and not place.is_cleared]
        if against:
            words = message(
                "{name} runs {station} and is not cleared there.",
                name=one.name,
                station=joined(map(sheet.station, against), ", "),
            )
            act = message("Swap with somebody cleared, or let them work beside one.")
            yield Gap("clearance", words, act, (one.cook,))


def _notice(sheet: InspectionSheet) -> Iterator[Gap]:
    unread = [one for one in sheet.people if one.notice is None]
    if unread:
        words = message("Notice on illness not read: {names}.", names=_names(unread))
        yield Gap("notice", words, message("Each opens it on their own page and says so."), _ids(unread))


def _allergens(sheet: InspectionSheet) -> Iterator[Gap]:
    if not sheet.allergens_taught:
        words = message("No technique on allergens was taught.")
        yield Gap("allergens", words, message("A manager publishes one named “allergens” in the standard."))
        return
    lacking = [one for one in sheet.people if one.works and one.allergens is None]
    if lacking:
        words = message("Allergens not signed off: {names}.", names=_names(lacking))
        act = message("A sous chef watches each at it and signs.")
        yield Gap("allergens", words, act, _ids(lacking))


def _plan(sheet: InspectionSheet) -> Iterator[Gap]:
    if sheet.service is None:
        words = message("No service is planned on this day: everybody on the roster is listed.")
        yield Gap("plan", words, message("A manager publishes the plan."))
