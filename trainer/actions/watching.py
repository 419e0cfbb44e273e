"""Watching a cook work: the practical point by point, and the signature."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from trainer.actions.asking import Waiting, ask_to_be_watched, not_ready, waiting
from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.countersigning import countersigned, not_independent
from trainer.actions.entitling import with_entitlement
from trainer.actions.in_force import edition_in_force, outdated, overtaken, standard_number
from trainer.actions.open_kitchen import Kitchen, Units
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.practical_drafts import (
    Practical,
    Titles,
    case_kept,
    draft_of,
    find_practical,
    own_practical,
    points_kept,
    practicals_by,
    titles_kept,
    watched_by_others,
)
from trainer.actions.saving import (
    KEY_USED,
    append,
    denied_by,
    not_on_roster,
    saved_before,
    unusable_key,
    validate_text,
)
from trainer.actions.seen_before import counts_no_more, with_seen_before
from trainer.actions.two_people import Second
from trainer.actions.working import SupervisedShift, work_shift
from trainer.kitchen.book import NewEntry, moment_text
from trainer.kitchen.causes import CAUSES
from trainer.kitchen.entitlement import Entitlement, Snapshot, may_sign, may_sign_somewhere
from trainer.kitchen.measured import Typed
from trainer.kitchen.practical import (
    WORDS,
    AskBack,
    PointProblem,
    PointSeen,
    Seen,
    VerdictWord,
    is_too_soon,
    judge_point,
    with_answers,
)
from trainer.kitchen.requirements import parts_left
from trainer.kitchen.stopwatch import Stopwatch, with_how_timed
from trainer.kitchen.technique import PointChoice
from trainer.kitchen.verdicts import Verdict, coached_verdict, lowered
from trainer.kitchen.watched_points import WatchedPoint, look_taken, points_of
from trainer.messages import Message, Text, message

__all__ = [
    "Look",
    "Practical",
    "Signing",
    "SupervisedShift",
    "Waiting",
    "Watch",
    "ask_to_be_watched",
    "drop_practical",
    "find_practical",
    "outdated",
    "pick_case",
    "practicals_by",
    "see_point",
    "show_point",
    "sign_practical",
    "start_practical",
    "waiting",
    "watched_by_others",
    "work_shift",
]

PROOF_LASTS = timedelta(minutes=2)
STAYS_UNSAFE = Refused(message("You saw something unsafe here. That stays: sign the stop."), "", "tick")
SIGN_THE_STOP = Refused(
    message("You saw something unsafe, so this cannot be put away. Sign the stop."), "", "practical"
)
NOT_TAUGHT = Refused(message("This technique is not taught any more. Put the practical away."), "", "practical")
CASE_FIRST = Refused(message("Pick first what is watched here."), "", "case")
TOO_SOON = Refused(message("That was quick. Did you see it?"), "", "seen")


@dataclass(frozen=True, slots=True)
class Watch:
    """Whom to watch, at what, and at which station: where none is named, the first at which the assessor may sign.

    Of a checklist with parts one is watched at a time: where none is named, the first that is not signed.

    `read_in` is the language and the units the assessor reads in; None for the kitchen's own.
    """

    cook: str
    technique: str
    station: str = ""
    read_in: tuple[str, Units] | None = None
    part: str = ""


@dataclass(frozen=True, slots=True)
class Look:
    """One point as the assessor typed it: a word, or None to let the readings decide; readings in the order taken.

    `device` is the one whose page this comes from; empty where there was no page, as in a story that is played. `said`
    are the choices that were ticked or picked; `is_made_again`: the cook made one more. `done_at` is when it was seen,
    where that was without network and it is sent later; sent twice it is one look. `cause` is what was unsafe, of a
    stop.
    """

    point: str
    tick: Seen | None = None
    readings: tuple[str | Typed, ...] = ()
    note: str = ""
    device: str = ""
    said: tuple[str, ...] = ()
    is_made_again: bool = False
    done_at: datetime | None = None
    cause: str = ""


@dataclass(frozen=True, slots=True)
class PageSent:
    """A point's page as it is sent to a device: what it says of the point, and the language of that."""

    point: str
    device: str
    words: str
    language: str
    choices: tuple[PointChoice, ...] = ()


@dataclass(frozen=True, slots=True)
class Signing:
    """What is signed: `proved_at` is when the PIN was last given; `said` may lower the verdict, never lift it.

    `coached`: the assessor helped or prompted. `independence` is why somebody who trained the cook signs, `second` who
    signs with them: each where the kitchen asks for it.
    """

    practical: str
    proved_at: datetime | None
    note: str = ""
    said: VerdictWord | None = None
    coached: bool = False
    independence: str = ""
    second: Second | None = None


def start_practical(k: Kitchen, *, by: str, watch: Watch, now: datetime, key: str) -> Practical | Refused:
    """Return the assessor's open practical of this cook and technique, or a new one; `key` becomes its id.

    A request is not needed; reading and quiz in date are, no stop that stands, and the right to sign at that station.
    """
    with k.file.writing():
        day = k.day(k.today(now))
        refusal = refused_by_clock(k, now) or not_ready(watch.cook, watch.technique, day)
        right = _right_to_sign(by, watch, day)
        if refusal is not None or not right.may:
            return refusal or Refused(right.reason, right.who_can)
        where = replace(watch, station=watch.station or right.station, part=_part(k, by, watch, day))
        return _resumed(k, by, where, day) or _begun(k, by, where, now, key)


def _right_to_sign(by: str, watch: Watch, day: Snapshot) -> Entitlement:
    """Return whether this assessor may sign what they are to watch: at the station named, or at one of all."""
    if watch.station:
        return may_sign(by, watch.cook, watch.technique, watch.station, day)
    return may_sign_somewhere(by, watch.cook, watch.technique, day)


def _part(k: Kitchen, by: str, watch: Watch, day: Snapshot) -> str:
    """Return the part of a checklist to watch: the one named, or begun by this assessor, or the first left to watch."""
    technique = k.content.techniques[watch.technique]
    if watch.part or not technique.parts:
        return watch.part
    for begun in practicals_by(k, by):
        if (begun.cook, begun.technique) == (watch.cook, watch.technique) and begun.part:
            return begun.part
    left = [part.id for part in parts_left(day.progress.record(watch.cook).as_of(day.on), technique, day.on)]
    taken = {one.part for one in watched_by_others(k, by=by, cook=watch.cook, technique=watch.technique)}
    names = [part for part in left if part not in taken] or left or [part.id for part in technique.parts]
    return names[0]


def _resumed(k: Kitchen, by: str, watch: Watch, day: Snapshot) -> Practical | None:
    """Return the assessor's open practical of this cook, technique and station, where it may still be gone on with."""
    wanted = (watch.cook, watch.technique, watch.station, watch.part)
    for found in practicals_by(k, by):
        if (found.cook, found.technique, found.station, found.part) == wanted and outdated(k, found, day) is None:
            return found
    return None


def _begun(k: Kitchen, by: str, watch: Watch, now: datetime, key: str) -> Practical | Refused:
    unusable = unusable_key(k, key)
    if unusable is not None:
        return unusable
    read = k.content_for(*watch.read_in) if watch.read_in else k.content
    technique, day, (after, _) = read.techniques[watch.technique], k.day(k.today(now)), k.file.book.end()
    begun = Practical(
        id=key,
        by=by,
        cook=watch.cook,
        technique=technique.id,
        edition=edition_in_force(k, technique.id, day),
        station=watch.station,
        started=now,
        titles=Titles(technique.title, read.stations[watch.station].title, technique.words_edition),
        points=with_seen_before(k, watch.cook, points_of(technique, part=watch.part), day),
        need=technique.needed_in(watch.part),
        cases=technique.cases,
        part=watch.part,
        parts=tuple(PointChoice(part.id, part.title) for part in technique.parts),
        standard=standard_number(day),
        after=after,
    )
    k.file.drafts.put(draft_of(begun))
    return begun


def pick_case(  # noqa: PLR0913 - who, what, and what is picked
    k: Kitchen, *, by: str, practical: str, case: str, now: datetime, part: str = ""
) -> Practical | Refused:
    """Return the practical with its case, and its part, picked and the points of these; refused once one was looked at.

    Without a *part* it stays the one it is.
    """
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused):
            return found
        part, technique = part or found.part, k.content.techniques.get(found.technique)
        refusal = _not_to_be_picked(found, case, part) or outdated(k, found, k.day(k.today(now)))
        if technique is None or refusal is not None:
            return refusal or NOT_TAUGHT
        read = {point.id: point for point in found.points}
        asked = with_seen_before(k, found.cook, points_of(technique, case, part), k.day(k.today(now)))
        points = tuple(read.get(point.id, point) for point in asked)
        picked = replace(found, case=case, part=part, points=points, need=technique.needed_in(part))
        k.file.drafts.put(draft_of(picked))
        return picked


def _not_to_be_picked(found: Practical, case: str, part: str) -> Refused | None:
    """Return why a case and a part cannot be picked."""
    if found.cases and not case:
        return CASE_FIRST
    for picked, known, field in ((case, found.cases, "case"), (part, found.parts, "part")):
        if picked and picked not in {each.id for each in known}:
            there = ", ".join(each.text for each in known)
            return Refused(message("“{case}” is none of: {known}.", case=picked, known=there), "", field)
    is_begun = found.seen or any(point.gathered for point in found.points)
    if is_begun and (case, part) != (found.case, found.part):
        return Refused(message("A point was watched already. Put this away, and begin anew."), "", "case")
    return None


def show_point(k: Kitchen, *, by: str, practical: str, page: PageSent, now: datetime) -> None:
    """Keep what a point's page says, and when it is first sent to a device; sent again the same it changes nothing.

    Every page of a point is sent through here, so that nobody gives a verdict on what nobody can have seen, and the
    record has the words that were read.
    """
    with k.file.writing():
        found = own_practical(k, by, practical)
        point = found.point(page.point) if isinstance(found, Practical) else None
        if isinstance(found, Refused) or point is None:
            return
        sent = found.shown.get(page.point, {})
        read = replace(point, words=page.words, language=page.language, choices=page.choices)
        if page.device in sent and read == point:
            return
        kept = found.with_point(read)
        shown = {**found.shown, page.point: {page.device: now, **sent}}
        k.file.drafts.put(draft_of(replace(kept, shown=shown)))


def see_point(k: Kitchen, *, by: str, practical: str, look: Look, now: datetime) -> PointSeen | Refused | AskBack:
    """Return the point as judged, after keeping it; a point may be seen again until the practical is signed.

    The look before stays beside it, with its time. A reading no kitchen could show is asked back, and that it was is
    kept until it is answered. A verdict sooner than a look takes after the page was first sent to its device is
    refused, and one of somebody who may not sign here today; a stop never is. *Unsafe* stays: what was seen then is not
    unseen.
    """
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused):
            return found
        point = found.point(look.point)
        if point is None:
            return Refused(message("There is no point “{point}” on this checklist.", point=look.point), "", "point")
        judged = not_to_be_seen(k, found, look, now) or _judged(k, point, look)
        at = now if look.done_at is None else min(max(look.done_at, found.started), now)
        is_there = look.done_at is not None and any(each.at == at for each in point.looks)
        if not isinstance(judged, Refused) and not is_there:
            attempt = point.attempts + 1 if look.is_made_again and point.may_be_made_again else point.attempts
            if isinstance(judged, PointSeen) and look.device:
                judged = with_how_timed(point.as_asked, judged, found.watches.get(point.id, ()))
            k.file.drafts.put(draft_of(_with_look(k, found, point, judged, at, max(1, attempt))))
        return judged


def not_to_be_seen(k: Kitchen, found: Practical, look: Look, now: datetime) -> Refused | None:
    """Return what stands in the way of a look at a point; nothing ever does of a stop."""
    if look.tick == "unsafe":
        return None
    if look.point in found.unsafe:
        return STAYS_UNSAFE
    if found.needs_case:
        return CASE_FIRST
    if _has_just_stopped(found.watches.get(look.point, ()), now):
        return TOO_SOON
    if look.device and is_too_soon(found.shown.get(look.point, {}).get(look.device), now):
        return TOO_SOON
    day = k.day(k.today(now))
    right = may_sign(found.by, found.cook, found.technique, found.station, day)
    return outdated(k, found, day) or denied_by(right)


def _has_just_stopped(watches: Iterable[Stopwatch], now: datetime) -> bool:
    """Return whether a stopwatch was stopped by a tap this may be the second of."""
    return any(one.stopped is not None and is_too_soon(one.stopped, now) for one in watches)


def _with_look(  # noqa: PLR0913, PLR0917 - a look has so much
    k: Kitchen, found: Practical, point: WatchedPoint, judged: PointSeen | AskBack, now: datetime, attempt: int
) -> Practical:
    """Return the practical with one more look at a point, or with one more reading of it asked back."""
    before = found.asked.get(point.id, ())
    if isinstance(judged, AskBack):
        return with_asked(found, judged, point.id)
    left = {name: asks for name, asks in found.asked.items() if name != point.id}
    seen, mark = with_answers(judged, before), k.file.settings.decimal_mark
    look = look_taken(point.as_asked, seen, by=found.by, at=now, decimal_mark=mark, attempt=attempt)
    return replace(found.with_point(replace(point, looks=(*point.looks, look), gathered=())), asked=left)


def with_asked(found: Practical, asked: AskBack, point: str) -> Practical:
    """Return the practical with one more reading of a point that was asked back."""
    return replace(found, asked={**found.asked, point: (*found.asked.get(point, ()), asked)})


def _judged(k: Kitchen, point: WatchedPoint, look: Look) -> PointSeen | Refused | AskBack:
    """Return a point as typed, judged; or the value and the rule it breaks; or the reading to be asked back."""
    wrong = validate_text(look.note, "note", may_be_blank=True)
    if wrong is not None:
        return wrong
    note, mark = look.note.strip(), k.file.settings.decimal_mark
    seen = judge_point(point.as_asked, look.readings, look.tick, note, mark, look.said)
    if isinstance(seen, PointSeen) and seen.seen == "unsafe":
        return replace(seen, cause=look.cause if look.cause in CAUSES else "")
    return refused_point(seen) if isinstance(seen, PointProblem) else seen


def refused_point(problem: PointProblem) -> Refused:
    """Return a point's problem as a refusal; its field is `tick`, or `reading_1` for the first reading and so on."""
    field = "tick" if problem.reading is None else f"reading_{problem.reading + 1}"
    if not problem.value or _names(problem.rule, problem.value):
        return Refused(problem.rule, "", field)
    value = WORDS.get(problem.value, problem.value)
    return Refused(message("“{value}”: {rule}", value=value, rule=problem.rule), "", field)


def _names(rule: Text, value: str) -> bool:
    """Return whether a rule names the value it was broken by itself."""
    return isinstance(rule, Message) and value in rule.values.values()


def drop_practical(k: Kitchen, *, by: str, practical: str) -> Refused | None:
    """Return None after putting an unsigned practical away; nothing enters the book. A stop is signed, not put away."""
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused):
            return found
        if found.unsafe:
            return SIGN_THE_STOP
        k.file.drafts.delete(practical)
        return None


def sign_practical(k: Kitchen, *, by: str, signing: Signing, now: datetime, key: str) -> Outcome:
    """Return the saved `practical_watched`, with the verdict and every reason.

    The right to sign is asked for again at this moment. Reading and quiz must still be there for a *meets it*; what was
    seen to fall short is written down in any case. Of several practicals of one cook and technique the first to be
    signed counts; but a stop is always written down.
    """
    with k.file.writing():
        before = saved_before(k, key, "practical_watched", by)
        if before is not None:
            return before if find_practical(k, signing.practical) is None else KEY_USED
        now = k.moment(now)
        found = own_practical(k, by, signing.practical)
        if isinstance(found, Refused):
            return found
        seen = coached_verdict(found.verdict) if signing.coached or found.coached else found.verdict
        said = lowered(seen, signing.said, signing.note)
        if not isinstance(said, Verdict):
            return Refused(said, "", "said")
        refusal = _not_to_be_signed(k, found, signing, said, now)
        more = countersigned(k, found, signing, said, k.day(k.today(now)))
        deed = NewEntry("practical_watched", now, found.cook, by, {**_body(found, said, signing), **more}, key)
        return refusal or _signed(k, found, deed)


def _not_to_be_signed(k: Kitchen, found: Practical, signing: Signing, said: Verdict, now: datetime) -> Refused | None:
    """Return what stands in the way of this signature at this moment; of a stop, only what was not proved or typed."""
    day = k.day(k.today(now))
    wrong_note = validate_text(signing.note, "note", may_be_blank=True)
    if said.word == "stopped":
        return _not_proved(signing.proved_at, now) or wrong_note
    return (
        refused_by_clock(k, now)
        or _not_proved(signing.proved_at, now)
        or overtaken(k, found, day)
        or outdated(k, found, day)
        or denied_by(may_sign(found.by, found.cook, found.technique, found.station, day))
        or not_on_roster(found.cook, day)
        or (CASE_FIRST if found.needs_case else None)
        or counts_no_more(k, found, day)
        or (_frees_nobody(k, found, signing, day) if said.word == "meets it" else None)
        or wrong_note
    )


def _frees_nobody(k: Kitchen, found: Practical, signing: Signing, day: Snapshot) -> Refused | None:
    """Return what a *meets it* lacks: reading, quiz, or what the kitchen asks of a signer who trained the cook."""
    return not_ready(found.cook, found.technique, day) or not_independent(k, found, signing, day)


def _not_proved(proved_at: datetime | None, now: datetime) -> Refused | None:
    """Return the refusal of a signature whose writer has not given their PIN within the last two minutes."""
    if proved_at is not None and timedelta(0) <= now - proved_at <= PROOF_LASTS:
        return None
    return Refused(message("Enter your PIN again."), "", "secret")


def _body(found: Practical, said: Verdict, signing: Signing) -> dict[str, Any]:
    """Return what the book keeps: all that its page shows, so that nothing is asked of the content again."""
    return {
        "technique": found.technique,
        "edition": found.edition,
        "standard": found.standard,
        "station": found.station,
        **titles_kept(found.titles),
        **case_kept(found),
        "coached": signing.coached or found.coached,
        "started": moment_text(found.started),
        "points": points_kept(found),
        "verdict": said.word,
        "reasons": [reason.kept() for reason in said.reasons],
        "note": signing.note.strip(),
    }


def _signed(k: Kitchen, found: Practical, deed: NewEntry) -> Outcome:
    """Write the practical down and put its draft away."""
    outcome = append(k, with_entitlement(k, deed))
    if not isinstance(outcome, Refused):
        k.file.drafts.delete(found.id)
    return outcome
