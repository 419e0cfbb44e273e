"""Papers from outside: until when one counts, and whether a cook holds one that does."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from trainer.kitchen.record import CookRecord
from trainer.kitchen.requirements import Missing, Requirement
from trainer.kitchen.spans import NO_END, ONE_DAY, Span, best_on, days_later, in_words, months_later, union
from trainer.kitchen.technique import CertificateAsked
from trainer.messages import Text, message


def own_end(asked: CertificateAsked, issued: date, expires: date | None) -> date:
    """Return the last day of a paper itself, without grace: the one it names, or sooner where the station says so."""
    longest = months_later(issued, 12 * asked.most_years) if asked.most_years else NO_END
    return min(expires or NO_END, longest)


def certificate(record: CookRecord, asked: CertificateAsked, on: date) -> Requirement:
    """Return whether a certificate counts: from the day it was shown to its end, and the days of grace after it.

    Papers that overlap, or follow each other from one day to the next, are one run of days. Only on grace it is due
    again.
    """
    lines = [line for line in record.shown if line.certificate == asked.id]
    papers = [Span(max(x.issued, x.on), own_end(asked, x.issued, x.expires), (x.entry,)) for x in lines]
    spans = _with_grace(papers, asked.grace_days)
    what, best = f"certificate:{asked.id}", best_on(spans, on)
    if best is None:
        act = message("The cook shows a valid one to a manager, who writes it down.")
        missing = Missing(what, _not_held(asked, papers, spans, on), act)
        return Requirement(what, spans, None, "", missing, bars=asked.bars)
    run = _whole_run(spans, best)
    turns = tuple(paper.until + ONE_DAY for paper in papers if paper.until < NO_END) if asked.grace_days else ()
    if not asked.grace_days or any(paper.holds(on) for paper in papers):
        text = message("{certificate}: shown.", certificate=asked.name)
        return Requirement(what, spans, run, text, None, bars=asked.bars, turns=turns)
    ended, until = in_words(papers[spans.index(best)].until), in_words(best.until)
    words = message("{certificate}: ended on {day}, counts to {until}.", certificate=asked.name, day=ended, until=until)
    return Requirement(what, spans, run, words, None, bars=asked.bars, due=words, turns=turns)


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
