"""Papers from outside: until when one counts, and whether a cook holds one that does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from trainer.kitchen.record import CookRecord
from trainer.kitchen.requirements import Missing, Requirement, on_roster
from trainer.kitchen.spans import NO_END, ONE_DAY, Span, best_on, days_later, in_words, months_later, union
from trainer.kitchen.technique import CertificateAsked, Content
from trainer.messages import Text, message

FOOD_PROTECTION_MANAGER = CertificateAsked("food_protection_manager", "Certified food protection manager", bars=False)
"""A paper no station asks for: the person in charge holds it (FDA Food Code 2022, 2-102.12)."""
HOUSE_PAPERS = {FOOD_PROTECTION_MANAGER.id: message("Certified food protection manager")}
"""What may be shown though no station asks for it."""
PaperState = Literal["good", "on grace", "to be shown", "ended", "none"]


@dataclass(frozen=True, slots=True)
class PaperStanding:
    """A cook's best paper of one kind on a day: its last day (None: no end), and to which day it counts beyond that.

    `entry` is where it was shown; "" of one nobody showed.
    """

    asked: CertificateAsked
    state: PaperState
    entry: str = ""
    until: date | None = None
    counts_to: date | None = None

    @property
    def counts(self) -> bool:
        """Return whether it counts on the day."""
        return self.state in ("good", "on grace", "to be shown")


def certificate_title(content: Content, certificate: str) -> Text:
    """Return a certificate's title as a station asks for it, or as the house does; its id where nobody does."""
    asked = (one for station in content.stations.values() for one in station.certificates if one.id == certificate)
    found = next(asked, None)
    return found.title if found else HOUSE_PAPERS.get(certificate, certificate)


def own_end(asked: CertificateAsked, issued: date, expires: date | None) -> date:
    """Return the last day of a paper itself, without grace: the one it names, or sooner where the station says so."""
    longest = months_later(issued, 12 * asked.most_years) if asked.most_years else NO_END
    return min(expires or NO_END, longest)


def certificate(record: CookRecord, asked: CertificateAsked, on: date) -> Requirement:
    """Return whether a certificate counts: from the day it was shown to its end, and the days of grace after it.

    Papers that overlap, or follow each other from one day to the next, are one run of days. Only on grace, or in the
    first days of who joins, it is due again.
    """
    lines = [line for line in record.shown if line.certificate == asked.id]
    papers = [Span(max(x.issued, x.on), own_end(asked, x.issued, x.expires), (x.entry,)) for x in lines]
    counted = _with_grace(papers, asked.grace_days)
    spans = (*counted, *_first_days(record, asked, on))
    what, best = f"certificate:{asked.id}", best_on(spans, on)
    if best is None:
        act = message("The cook shows a valid one to a manager, who writes it down.")
        missing = Missing(what, _not_held(asked, papers, counted, on), act)
        return Requirement(what, spans, None, "", missing, bars=asked.bars)
    run = _whole_run(spans, best)
    bounded = asked.grace_days or asked.within_days
    turns = tuple(paper.until + ONE_DAY for paper in papers if paper.until < NO_END) if bounded else ()
    if not bounded or any(paper.holds(on) for paper in papers):
        text = message("{certificate}: shown.", certificate=asked.name)
        return Requirement(what, spans, run, text, None, bars=asked.bars, turns=turns)
    words = _due(asked, papers, spans, best)
    return Requirement(what, spans, run, words, None, bars=asked.bars, due=words, turns=turns)


def paper_standing(record: CookRecord, asked: CertificateAsked, on: date) -> PaperStanding:
    """Return how a cook stands with one kind of paper on a day: by the one with the latest end."""
    lines = [line for line in record.shown if line.certificate == asked.id and max(line.issued, line.on) <= on]
    best = max(lines, key=lambda line: own_end(asked, line.issued, line.expires), default=None)
    end = own_end(asked, best.issued, best.expires) if best else None
    entry, until = (best.entry if best else ""), (end if end and end < NO_END else None)
    if end and end >= on:
        return PaperStanding(asked, "good", entry, until)
    met = certificate(record, asked, on).best
    if met is None:
        return PaperStanding(asked, "ended" if best else "none", entry, until)
    is_grace = end is not None and days_later(end, asked.grace_days) >= on
    return PaperStanding(asked, "on grace" if is_grace else "to be shown", entry, until, met.until)


def _first_days(record: CookRecord, asked: CertificateAsked, on: date) -> tuple[Span, ...]:
    """Return the days on which who joined still has time to show a paper; none where no such time is given."""
    if not asked.within_days:
        return ()
    runs = on_roster(record, on).spans
    return tuple(Span(run.since, min(run.until, days_later(run.since, asked.within_days)), run.proof) for run in runs)


def _due(asked: CertificateAsked, papers: Sequence[Span], spans: Sequence[Span], best: Span) -> Text:
    """Return what is told of a paper that counts by grace alone, or is still to be shown."""
    until, place = in_words(best.until), spans.index(best)
    if place >= len(papers):
        return message("{certificate}: to be shown by {until}.", certificate=asked.name, until=until)
    ended = in_words(papers[place].until)
    return message("{certificate}: ended on {day}, counts to {until}.", certificate=asked.name, day=ended, until=until)


def _with_grace(papers: Sequence[Span], grace_days: int) -> tuple[Span, ...]:
    """Return the days papers count, with the days of grace after their end."""
    if not grace_days:
        return tuple(papers)
    return tuple(Span(paper.since, days_later(paper.until, grace_days), paper.proof) for paper in papers)


def _whole_run(spans: Sequence[Span], best: Span) -> Span:
    """Return the span with the end of the run of days it lies in, and the proof of what goes on after it."""
    if all(span.until <= best.until for span in spans):
        return best
    until = next(run.until for run in union(spans) if run.holds(best.until))
    later = sorted((span for span in spans if best.until < span.until <= until), key=lambda span: span.until)
    return Span(best.since, until, (*best.proof, *(entry for span in later for entry in span.proof)))


def _not_held(asked: CertificateAsked, papers: Sequence[Span], spans: Sequence[Span], on: date) -> Text:
    if not spans or spans[-1].until >= on:
        return message("{certificate}: none shown.", certificate=asked.name)
    ended, counted = in_words(papers[-1].until), in_words(spans[-1].until)
    if papers[-1].until == spans[-1].until:
        return message("{certificate}: ended on {day}.", certificate=asked.name, day=ended)
    return message(
        "{certificate}: ended on {day}, counted to {until}.", certificate=asked.name, day=ended, until=counted
    )
