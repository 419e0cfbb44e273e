"""A standard is published: what the kitchen asks from a day on, with a preview of whom it would cost what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused, Saved
from trainer.actions.people_on_record import ages_asked, deeds_for_new_ages
from trainer.actions.saving import append
from trainer.actions.teaching import Draft
from trainer.content.texts import changed_paths, paths_in
from trainer.kitchen.added_skills import with_added
from trainer.kitchen.book import LOCAL, NewEntry, canonical, digest_of
from trainer.kitchen.entitlement import A_MANAGER
from trainer.kitchen.rules import rules_of
from trainer.kitchen.spans import ONE_DAY, in_words
from trainer.kitchen.standard_cost import Cost, cost_of
from trainer.kitchen.standards import Standard
from trainer.kitchen.technique import Content, Technique
from trainer.messages import message

LOOK_AGAIN = message("Look at the preview again, then publish.")
NOTHING_NEW = Refused(message("The files are what is published already. There is nothing to publish."))


@dataclass(frozen=True, slots=True)
class Preview:
    """What publishing would do: the standard's number and first day, what it asks anew, what it costs, what changed.

    `paths` are the texts that differ from those in force; `is_words_only` says that no rule and no measured line does.
    """

    number: int
    since: date
    texts: str
    paths: tuple[str, ...]
    asks: tuple[Mapping[str, Any], ...]
    cost: Cost
    is_words_only: bool

    @property
    def digest(self) -> str:
        """Return the digest of all a person was shown before they published."""
        shown = {
            "number": self.number,
            "since": self.since.isoformat(),
            "texts": self.texts,
            "asks": list(self.asks),
            "cost": self.cost.counts,
            "losses": [[loss.cook, loss.station] for loss in self.cost.losses],
        }
        return digest_of(canonical(shown).encode())


@dataclass(frozen=True, slots=True)
class Publishing:
    """What is published: the files as they are, from which day (None: today), and what was seen of it before."""

    draft: Draft
    since: date | None = None
    previewed: str = ""


def preview(k: Kitchen, *, draft: Draft, since: date | None, now: datetime) -> Preview | Refused:
    """Return what publishing these files would do; refused where they cannot be published, or not from that day."""
    today = k.today(now)
    first, content = since or today, draft.content
    if first < today:
        words = message("{day} has gone by. A standard counts from today or a later day.", day=in_words(first))
        return Refused(words, "", "since")
    faults = [problem for problem in draft.problems if problem.leaves_out]
    if content is None or faults:
        words = message("The files have {count} problems; what they touch would be left out.", count=len(faults) or 1)
        return Refused(words, message("See all of them with: trainer content check. Mend them, then publish."))
    latest = k.progress().standards.latest
    paths = _changed(k, latest, draft)
    if latest and not paths:
        return NOTHING_NEW
    before = k.content
    return Preview(
        latest.number + 1 if latest else 1,
        first,
        draft.digest,
        paths,
        tuple(_asks(before, content, first)),
        _cost(k, draft, content, first, now),
        _measures(before) == _measures(content),
    )


def _changed(k: Kitchen, latest: Standard | None, draft: Draft) -> tuple[str, ...]:
    """Return the paths of the texts that differ from those of the latest standard."""
    manifest = (latest and k.file.book.paper(latest.texts)) or b"{}"
    return changed_paths(paths_in(manifest), paths_in(draft.texts.manifest))


def _asks(before: Content, after: Content, since: date) -> Iterator[dict[str, Any]]:
    """Yield what each technique with a new edition asks again of those who were signed off."""
    for technique in after.techniques.values():
        newest, known = technique.editions[-1], before.techniques.get(technique.id)
        if known is not None and newest.number > known.editions[-1].number:
            anew = "none" if newest.sign_offs_hold else "practical"
            yield {"technique": technique.id, "edition": newest.number, "anew": anew, "by": since.isoformat()}


def _cost(k: Kitchen, draft: Draft, content: Content, since: date, now: datetime) -> Cost:
    """Return the cost on the standard's first day: the book as it is against the book with one entry more."""
    progress = k.progress()
    number = progress.standards.latest.number + 1 if progress.standards.latest else 1
    body = body_of(draft, dated(k, content, since, now), number, since)
    proposed = k.file.book.as_next(_deed(LOCAL, body, now, "proposed"))
    return cost_of(k.people().values(), progress, progress.with_entries([proposed]), content, since)


def dated(k: Kitchen, content: Content, since: date, now: datetime) -> Content:
    """Return content with the day of each skill that is asked for beside those of the standard it follows."""
    standards = k.progress().standards
    followed = standards.in_force(since - ONE_DAY, known=k.today(now))
    return with_added(content, followed.content if followed else None, since)


def _measures(content: Content) -> object:
    """Return what is asked and measured in all of the content, without its words."""
    return rules_of(content), {name: _measured(technique) for name, technique in content.techniques.items()}


def _measured(technique: Technique) -> object:
    points = [replace(p, text="", choices=tuple(replace(c, text="") for c in p.choices)) for p in technique.checklist]
    return (
        technique.standard,
        points,
        technique.scored_needed,
        [case.id for case in technique.cases],
        technique.questions,
    )


def body_of(draft: Draft, content: Content, number: int, since: date) -> dict[str, Any]:
    """Return what a `standard_published` says of the standard itself."""
    return {
        "number": number,
        "since": since.isoformat(),
        "rules": rules_of(content),
        "texts": draft.digest,
        "parent": "",
        "asks": [],
        "cost": {},
        "previewed": "",
    }


def _deed(by: str, body: Mapping[str, Any], now: datetime, key: str, papers: tuple[bytes, ...] = ()) -> NewEntry:
    return NewEntry("standard_published", now, by, by, body, key, papers=papers)


def papers_of(draft: Draft) -> tuple[bytes, ...]:
    """Return the texts a standard keeps beside the book: the list of them, and each."""
    return (draft.texts.manifest, *draft.texts.by_path.values())


def publish(k: Kitchen, *, by: str, publishing: Publishing, now: datetime, key: str) -> Outcome:
    """Return the saved `standard_published`; refused where what was previewed is not what the files are now.

    A manager publishes, or whoever gives the command on the machine itself. `previewed` is the digest of the preview
    that was looked at; without one, nothing was.
    """
    with k.file.writing():
        there = k.file.book.find_key(key)
        if there is not None:
            return Saved(there)
        found = _not_a_manager(k, by, now) or preview(k, draft=publishing.draft, since=publishing.since, now=now)
        if isinstance(found, Refused):
            return found
        if publishing.previewed and publishing.previewed != found.digest:
            return Refused(message("Something has changed since the preview: the files, or the record."), LOOK_AGAIN)
        content = publishing.draft.content
        if content is None:
            raise LookupError("files that cannot be used were previewed")
        body = body_of(publishing.draft, dated(k, content, found.since, now), found.number, found.since)
        shown = {"asks": list(found.asks), "cost": dict(found.cost.counts), "previewed": publishing.previewed}
        outcome = append(k, _deed(by, {**body, **shown}, now, key, papers_of(publishing.draft)))
        if isinstance(outcome, Saved):
            _work_out_new_ages(k, content, outcome.entry.at)
    k.progress()  # so that from here on this process teaches what it published
    return outcome


def _work_out_new_ages(k: Kitchen, content: Content, at: datetime) -> None:
    """Write down from when everybody is as old as a standard asks, where it asks for years nobody asked for before."""
    years = {station.minimum_age for station in content.stations.values() if station.minimum_age}
    for deed in deeds_for_new_ages(k, years - ages_asked(k), at):
        k.file.book.append(deed)


def _not_a_manager(k: Kitchen, by: str, now: datetime) -> Refused | None:
    """Return the refusal of anyone who may not publish."""
    if by == LOCAL or "manager" in k.day(k.today(now)).roles(by):
        return None
    return Refused(message("A manager publishes a standard."), A_MANAGER)


def publish_first(k: Kitchen, *, draft: Draft, by: str, now: datetime, key: str) -> Outcome:
    """Return the saved first standard of a new kitchen: the files as they are, with what they leave out."""
    return append(k, first_standard(k, draft=draft, by=by, now=now, key=key))


def first_standard(k: Kitchen, *, draft: Draft, by: str, now: datetime, key: str) -> NewEntry:
    """Return what a kitchen's first standard will be in the book."""
    if draft.content is None:
        raise LookupError("files that cannot be used were published")
    body = body_of(draft, draft.content, 1, k.file.book.day_at(now))
    return _deed(by, body, now, key, papers_of(draft))
