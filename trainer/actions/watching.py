"""Watching a cook work: the request, the practical point by point, the signature, and the supervised shift."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from trainer.actions.clock_watch import refused_by_clock
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Outcome, Refused
from trainer.actions.practical_drafts import (
    Practical,
    draft_of,
    find_practical,
    own_practical,
    points_kept,
    practicals_by,
    watched_by_others,
)
from trainer.actions.saving import (
    append,
    denied_by,
    not_on_roster,
    save,
    saved_before,
    unusable_key,
    validate_text,
)
from trainer.actions.working import SupervisedShift, work_shift
from trainer.kitchen.book import NewEntry, moment_text
from trainer.kitchen.clearance import TechniqueStanding, open_requests, technique_standing
from trainer.kitchen.entitlement import Entitlement, Snapshot, may_sign, may_sign_somewhere
from trainer.kitchen.measured import Typed
from trainer.kitchen.practical import (
    WORDS,
    AskBack,
    PointProblem,
    PointSeen,
    Seen,
    Verdict,
    VerdictWord,
    is_too_soon,
    judge_point,
    lowered,
    verdict,
    with_answers,
)
from trainer.kitchen.record import Watched
from trainer.kitchen.spans import in_words
from trainer.kitchen.technique import Technique
from trainer.messages import Message, Text, joined, message, translate

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
    "other_edition",
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
TOO_SOON = Refused(message("That was quick. Did you see it?"), "", "seen")


@dataclass(frozen=True, slots=True)
class Waiting:
    """A cook who asked to be watched and has not been yet."""

    entry: str
    cook: str
    technique: str
    since: datetime


@dataclass(frozen=True, slots=True)
class Watch:
    """Whom to watch, at what, and at which station: where none is named, the first at which the assessor may sign."""

    cook: str
    technique: str
    station: str = ""


@dataclass(frozen=True, slots=True)
class Look:
    """One point as the assessor typed it: a word, or None to let the readings decide; readings in the order taken.

    `device` is the one whose page this comes from; empty where there was no page, as in a story that is played.
    """

    point: str
    tick: Seen | None = None
    readings: tuple[str | Typed, ...] = ()
    note: str = ""
    device: str = ""


@dataclass(frozen=True, slots=True)
class Signing:
    """What is signed: `proved_at` is when the PIN was last given; `said` may lower the verdict, never lift it."""

    practical: str
    proved_at: datetime | None
    note: str = ""
    said: VerdictWord | None = None


def ask_to_be_watched(k: Kitchen, *, cook: str, technique: str, now: datetime, key: str) -> Outcome:
    """Return the saved `watch_asked`: the cook has read, passed the quiz, and waits for an assessor."""
    deed = NewEntry("watch_asked", now, cook, cook, {"technique": technique}, key)

    def refusal(day: Snapshot) -> Refused | None:
        return _not_ready(cook, technique, day) or _asked_already(cook, technique, day)

    return save(k, deed, refusal)


def _not_ready(cook: str, technique: str, day: Snapshot) -> Refused | None:
    """Return why a cook may not be watched yet: reading and quiz come before the practical."""
    taught = day.content.techniques.get(technique)
    if taught is None:
        return Refused(message("There is no technique “{technique}”.", technique=technique), "", "technique")
    standing = technique_standing(cook, technique=taught, progress=day.progress, on=day.on)
    lacking = [r.missing.text for r in (standing.reading, standing.quiz) if r is not None and r.missing]
    first = Refused(joined(lacking), message("The cook reads and sits the quiz first."), "cook") if lacking else None
    return not_on_roster(cook, day) or _stopped(standing) or first


def _stopped(standing: TechniqueStanding) -> Refused | None:
    """Return the refusal while a stop for safety stands: only a manager ends it."""
    missing = standing.practical.missing
    return Refused(missing.text, missing.next_act, "cook") if standing.is_stopped and missing else None


def _asked_already(cook: str, technique: str, day: Snapshot) -> Refused | None:
    requests = open_requests(day.progress.record(cook).as_of(day.on))
    if any(line.technique == technique for line in requests):
        return Refused(message("You have asked already and are waiting."), "", "technique")
    return None


def waiting(k: Kitchen, on: date) -> tuple[Waiting, ...]:
    """Return the open requests of a day, longest wait first; a later practical of the technique answers one.

    A cook whose reading or quiz has run out since they asked is not ready to show, and not listed until it is fixed.
    """
    progress, taught = k.progress(), k.content.techniques
    found = [
        (line.at, line.seq, Waiting(line.entry, cook, line.technique, line.at))
        for cook in progress.cooks_on(on)
        for line in open_requests(progress.record(cook).as_of(on))
        if line.technique in taught and technique_standing(cook, taught[line.technique], progress, on).may_be_watched
    ]
    return tuple(request for _, _, request in sorted(found, key=lambda item: item[:2]))


def start_practical(k: Kitchen, *, by: str, watch: Watch, now: datetime, key: str) -> Practical | Refused:
    """Return the assessor's open practical of this cook and technique, or a new one; `key` becomes its id.

    A request is not needed; reading and quiz in date are, no stop that stands, and the right to sign at that station.
    """
    with k.file.writing():
        day = k.day(k.today(now))
        refusal = refused_by_clock(k, now) or _not_ready(watch.cook, watch.technique, day)
        right = _right_to_sign(by, watch, day)
        if refusal is not None or not right.may:
            return refusal or Refused(right.reason, right.who_can)
        where = replace(watch, station=watch.station or right.station)
        return _resumed(k, by, where, day.on) or _begun(k, by, where, now, key)


def _right_to_sign(by: str, watch: Watch, day: Snapshot) -> Entitlement:
    """Return whether this assessor may sign what they are to watch: at the station named, or at one of all."""
    if watch.station:
        return may_sign(by, watch.cook, watch.technique, watch.station, day)
    return may_sign_somewhere(by, watch.cook, watch.technique, day)


def _resumed(k: Kitchen, by: str, watch: Watch, on: date) -> Practical | None:
    """Return the assessor's open practical of this cook, technique and station, if the checklist is still the same."""
    edition = k.content.techniques[watch.technique].edition_on(on).number
    wanted = (watch.cook, watch.technique, watch.station, edition)
    for found in practicals_by(k, by):
        if (found.cook, found.technique, found.station, found.edition) == wanted:
            return found
    return None


def _begun(k: Kitchen, by: str, watch: Watch, now: datetime, key: str) -> Practical | Refused:
    unusable = unusable_key(k, key)
    if unusable is not None:
        return unusable
    technique = k.content.techniques[watch.technique]
    edition = technique.edition_on(k.today(now)).number
    nothing_seen = verdict(technique, ())
    after, _ = k.file.book.end()
    begun = Practical(key, by, watch.cook, technique.id, edition, watch.station, {}, nothing_seen, now, after)
    k.file.drafts.put(draft_of(begun))
    return begun


def show_point(k: Kitchen, *, by: str, practical: str, look: Look, now: datetime) -> None:
    """Keep when a point's page is first sent to a device; that it is sent again changes nothing.

    Every page of a point is sent through here, so that nobody gives a verdict on what nobody can have seen.
    """
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused) or look.device in found.shown.get(look.point, {}):
            return
        devices = {**found.shown.get(look.point, {}), look.device: now}
        k.file.drafts.put(draft_of(replace(found, shown={**found.shown, look.point: devices})))


def see_point(k: Kitchen, *, by: str, practical: str, look: Look, now: datetime) -> PointSeen | Refused | AskBack:
    """Return the point as judged, after keeping it; a point may be seen again until the practical is signed.

    A reading no kitchen could show is asked back, and that it was is kept until it is answered. A verdict sooner than
    a look takes after the page was first sent to its device is refused; a stop never is. *Unsafe* stays: what was seen
    then is not unseen. `now` dates nothing else: the practical is dated when it is signed.
    """
    with k.file.writing():
        found = own_practical(k, by, practical)
        if isinstance(found, Refused):
            return found
        if look.point in found.unsafe and look.tick != "unsafe":
            return STAYS_UNSAFE
        if look.device and look.tick != "unsafe" and is_too_soon(found.shown.get(look.point, {}).get(look.device), now):
            return TOO_SOON
        judged = _judged(k, k.content.techniques[found.technique], look)
        if not isinstance(judged, Refused):
            k.file.drafts.put(draft_of(_with_look(found, look.point, judged)))
        return judged


def _with_look(found: Practical, point: str, judged: PointSeen | AskBack) -> Practical:
    """Return the practical with a point seen, or with one more reading of it asked back."""
    before = found.asked.get(point, ())
    if isinstance(judged, AskBack):
        return replace(found, asked={**found.asked, point: (*before, judged)})
    left = {name: asks for name, asks in found.asked.items() if name != point}
    answered = with_answers(judged, before)
    if point in found.seen:  # seen again: what was asked back before stays in the record
        answered = replace(answered, asked=(*found.seen[point].asked, *answered.asked))
    return replace(found, seen={**found.seen, point: answered}, asked=left)


def _judged(k: Kitchen, technique: Technique, look: Look) -> PointSeen | Refused | AskBack:
    """Return a point as typed, judged; or the value and the rule it breaks; or the reading to be asked back."""
    point = next((p for p in technique.checklist if p.id == look.point), None)
    if point is None:
        return Refused(message("There is no point “{point}” on this checklist.", point=look.point), "", "point")
    wrong = validate_text(look.note, "note", may_be_blank=True)
    if wrong is not None:
        return wrong
    seen = judge_point(point, look.readings, look.tick, look.note.strip(), k.file.settings.decimal_mark)
    return _refused(seen) if isinstance(seen, PointProblem) else seen


def _refused(problem: PointProblem) -> Refused:
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
            return before
        now = k.moment(now)
        found = own_practical(k, by, signing.practical)
        if isinstance(found, Refused):
            return found
        said = lowered(found.verdict, signing.said, signing.note)
        if not isinstance(said, Verdict):
            return Refused(said, "", "said")
        refusal = _not_to_be_signed(k, found, signing, said, now)
        return refusal or _signed(
            k, found, said, NewEntry("practical_watched", now, found.cook, by, {}, key), signing.note
        )


def _not_to_be_signed(k: Kitchen, found: Practical, signing: Signing, said: Verdict, now: datetime) -> Refused | None:
    """Return what stands in the way of this signature at this moment; of a stop, only what was not proved or typed."""
    day = k.day(k.today(now))
    wrong_note = validate_text(signing.note, "note", may_be_blank=True)
    if said.word == "stopped":
        return _not_proved(signing.proved_at, now) or wrong_note
    return (
        refused_by_clock(k, now)
        or _not_proved(signing.proved_at, now)
        or _overtaken(k, found, day)
        or denied_by(may_sign(found.by, found.cook, found.technique, found.station, day))
        or not_on_roster(found.cook, day)
        or other_edition(found, day)
        or (_not_ready(found.cook, found.technique, day) if said.word == "meets it" else None)
        or wrong_note
    )


def _overtaken(k: Kitchen, found: Practical, day: Snapshot) -> Refused | None:
    """Return the refusal of a practical during which another of the same cook and technique was signed."""
    lines = day.progress.record(found.cook).as_of(day.on).watched
    since = [line for line in lines if line.technique == found.technique and _is_since(line, found)]
    if not since:
        return None
    first = next((line for line in since if line.verdict == "stopped"), since[0])
    at = first.at.astimezone(ZoneInfo(k.file.settings.timezone))
    words = message(
        "{name} signed a practical of {cook} in this technique on {day} at {time}: {verdict}.",
        name=day.name(first.by),
        cook=day.name(found.cook),
        day=in_words(at.date()),
        time=f"{at:%H:%M}",
        verdict=WORDS.get(first.verdict, first.verdict),
    )
    return Refused(words, message("You had begun yours before that, so it cannot be signed: put it away."), "practical")


def _is_since(line: Watched, found: Practical) -> bool:
    """Return whether a practical was signed after another was begun."""
    return line.seq > found.after if found.after is not None else line.at > found.started


def _not_proved(proved_at: datetime | None, now: datetime) -> Refused | None:
    """Return the refusal of a signature whose writer has not given their PIN within the last two minutes."""
    if proved_at is not None and timedelta(0) <= now - proved_at <= PROOF_LASTS:
        return None
    return Refused(message("Enter your PIN again."), "", "secret")


def other_edition(found: Practical, day: Snapshot) -> Refused | None:
    """Return the refusal of a checklist that another edition has replaced meanwhile: a signature names its edition."""
    current = day.content.techniques[found.technique].edition_on(day.on).number
    if found.edition == current:
        return None
    return Refused(
        message(
            "You watched edition {edition}; edition {current} is in force. Watch it anew.",
            edition=found.edition,
            current=current,
        )
    )


def _signed(k: Kitchen, found: Practical, said: Verdict, deed: NewEntry, note: str) -> Outcome:
    """Write the practical down and put its draft away."""
    body = {
        "technique": found.technique,
        "edition": found.edition,
        "station": found.station,
        "started": moment_text(found.started),
        "points": points_kept(found),
        "verdict": said.word,
        "reasons": [translate(reason) for reason in said.reasons],
        "note": note.strip(),
    }
    outcome = append(k, replace(deed, body=body))
    if not isinstance(outcome, Refused):
        k.file.drafts.delete(found.id)
    return outcome
