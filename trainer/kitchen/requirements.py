"""What a station asks for, one requirement at a time: on which days it is met, and in words what is met or missing.

Every function takes a record as it stood on a day (`CookRecord.as_of`), so nothing recorded later is seen.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from trainer.kitchen.from_before import KNOWN, Part, known_days
from trainer.kitchen.off_station import off_since, reason_words
from trainer.kitchen.progress import Person
from trainer.kitchen.record import CookRecord, TechniqueRead, Watched, deciding
from trainer.kitchen.spans import ALWAYS, NO_END, ONE_DAY, Span, best_on, birthday, in_words, months_later
from trainer.kitchen.stops import Stop, is_after_every_stop, stops
from trainer.kitchen.technique import ChecklistPart, ContentName, Edition, Station, Technique
from trainer.messages import Text, joined, message

AGE_UNKNOWN = "age:unknown"
"""What is missing where no birth date is on record; of somebody too young it is `age`."""
RELEASE_FIRST = message("A manager releases the stop, with a reason; then the cook is watched anew.")


@dataclass(frozen=True, slots=True)
class Missing:
    """One thing that stands between a cook and a clearance: what it is, in words, and what to do next.

    `what` is the kind of thing, and behind a colon whose: `reading:fresh_pasta`, `certificate:first_aid`, `shifts`.
    Of a technique, `subject` is its title, and `gap` what it wants in a few words: several of one subject are told
    together.
    """

    what: str
    text: Text
    next_act: Text
    subject: ContentName | None = None
    gap: Text = ""


@dataclass(frozen=True, slots=True)
class Held:
    """One thing the station asks for that is there: in words, since when, until when, and the entries that prove it.

    Of a technique, `subject` is its title; what is `known` from before nobody here has seen.
    """

    what: str
    text: Text
    since: date | None
    until: date | None
    proof: tuple[str, ...]
    subject: ContentName | None = None
    known: bool = False


@dataclass(frozen=True, slots=True)
class Requirement:
    """The days one requirement is met, and what it is on the day asked: the span that holds it, or what is missing.

    `bars` says nobody who misses it may work at the station at all, `takes_off` that anyone who misses it is off the
    station; `quiet` that it is not worth a line when met. One that is met and yet `due` again says why; it turns so, or
    back, on days of `turns` besides those its spans begin and end on. What is `known` from before was never shown here;
    one that `is_asked` counts, and is asked of the cook all the same.
    """

    what: str
    spans: tuple[Span, ...]
    best: Span | None
    text: Text
    missing: Missing | None
    bars: bool = False
    quiet: bool = False
    subject: ContentName | None = None
    takes_off: bool = False
    due: Text = ""
    turns: tuple[date, ...] = ()
    known: bool = False
    is_asked: bool = False

    @property
    def held(self) -> Held | None:
        """Return the requirement as something held, or None where it is missing."""
        if self.best is None:
            return None
        since = None if self.best.since == ALWAYS else self.best.since
        return Held(self.what, self.text, since, last_day(self.best.until), self.best.proof, self.subject, self.known)


def last_day(until: date) -> date | None:
    """Return the last good day, None where there is no end."""
    return None if until == NO_END else until


def holds_until(technique: Technique, edition: int) -> date:
    """Return the last day a proof made on an edition counts: the day before an edition that asks for it again."""
    first, *_ = technique.editions
    again = [later for later in technique.editions if later.number > edition and not later.sign_offs_hold]
    return min((ALWAYS if later is first else later.since - ONE_DAY for later in again), default=NO_END)


def reading(record: CookRecord, technique: Technique, on: date) -> Requirement:
    """Return whether an edition that still holds is read."""
    lines = [line for line in record.read if line.technique == technique.id]
    spans = tuple(Span(x.on, holds_until(technique, x.edition), (x.entry,)) for x in lines)
    text = message("{technique}: read.", technique=technique.name)
    asked = with_known(of_technique("reading", technique, spans, on, text), "reading", record, technique, on)
    if asked.best:
        return asked
    return lacking(asked, _not_read(lines, technique.edition_on(on).number), message("The cook reads it and says so."))


def of_technique(kind: str, technique: Technique, spans: tuple[Span, ...], on: date, text: Text) -> Requirement:
    """Return one of the things a technique asks for, as far as it is there."""
    return Requirement(f"{kind}:{technique.id}", spans, best_on(spans, on), text, missing=None, subject=technique.name)


def with_known(asked: Requirement, part: Part, record: CookRecord, technique: Technique, on: date) -> Requirement:
    """Return one of the things a technique asks for, met also on the days it is known from before."""
    if not record.known_before:
        return asked

    def holds(day: date) -> date:
        return NO_END if part == "quiz" else holds_until(technique, technique.edition_on(day).number)

    known = list(known_days(record, technique, part, holds))
    found = replace(
        asked, spans=(*asked.spans, *(one.days for one in known)), turns=tuple(one.due_from for one in known)
    )
    there = [one for one in known if one.days.holds(on)]
    holding = max(there, key=lambda one: (on < one.due_from, one.days.until), default=None)
    if found.best or holding is None:
        return found
    due = holding.due if on >= holding.due_from else ""
    text = message("{technique}: {known}.", technique=technique.name, known=KNOWN)
    return replace(found, best=holding.days, text=text, known=True, due=due, is_asked=holding.is_asked)


def lacking(asked: Requirement, gap: Text, act: Text) -> Requirement:
    """Return what a technique asks for, with what is missing of it."""
    told = message("{subject}: {gap}.", subject=asked.subject or "", gap=gap)
    return replace(asked, missing=Missing(asked.what, told, act, asked.subject, gap))


def _not_read(lines: Sequence[TechniqueRead], edition: int) -> Text:
    if not lines:
        return message("edition {edition} not read", edition=edition)
    return message(
        "read in edition {earlier}; edition {edition} has to be read anew", earlier=lines[-1].edition, edition=edition
    )


def quiz(record: CookRecord, technique: Technique, on: date) -> Requirement:
    """Return whether the quiz is passed and not too long ago."""
    lines = [line for line in record.sat if line.technique == technique.id and line.passed]
    spans = tuple(Span(x.on, months_later(x.on, technique.quiz_months), (x.entry,)) for x in lines)
    text = message("{technique}: quiz passed.", technique=technique.name)
    asked = with_known(of_technique("quiz", technique, spans, on, text), "quiz", record, technique, on)
    if asked.best:
        return asked
    return lacking(asked, _not_passed(spans), message("The cook sits the quiz: {rule}.", rule=technique.quiz_rule))


def _not_passed(spans: Sequence[Span]) -> Text:
    if not spans:
        return message("quiz not passed")
    since, until = in_words(spans[-1].since), in_words(spans[-1].until)
    return message("quiz passed on {since}, good to {until}", since=since, until=until)


def practical(record: CookRecord, technique: Technique, on: date) -> Requirement:
    """Return whether a sign-off counts: *meets it*, in an edition that holds, not too old, no *stopped* since.

    A later *not yet* leaves an earlier sign-off as it was; *stopped* ends it for good. While the stop stands the cook
    is off the station; then a *meets it* counts that was begun after the stop had ended.
    An edition that lets the points pass no more that were missed in a sign-off ends it from its own day: the days
    before it stay as they were. Where the checklist has parts, it counts on the days all of them have in common.
    """
    stopped = stops(record, technique.id)
    parts = signed_parts(record, technique, on)
    spans = _in_common([part.spans for part in parts])
    text = message("{technique}: signed off.", technique=technique.name)
    asked = with_known(of_technique("practical", technique, spans, on, text), "practical", record, technique, on)
    if asked.best:
        return asked
    standing = [stop.line for stop in stopped if stop.end is None]
    if standing:
        return replace(asked, missing=_stopped(technique, standing), takes_off=True)
    gaps = [(part, _missed_too_much(technique, part.signed[-1:], part.spans[-1:], on)) for part in parts]
    if len(parts) == 1 and gaps[0][1]:
        act = message("The cook shows it again; an assessor cleared at the station watches.")
        return lacking(asked, gaps[0][1], act)
    act = message("The cook asks to be watched; an assessor cleared at the station watches and signs.")
    told = [(part, gap or _not_signed(part.lines, part.spans)) for part, gap in gaps if not best_on(part.spans, on)]
    return lacking(asked, told[0][1] if len(parts) == 1 else _parts_left(technique, told), act)


@dataclass(frozen=True, slots=True)
class SignedPart:
    """What the book has of one part of a checklist (None: of all of it): practicals, sign-offs, the days they count."""

    part: ChecklistPart | None
    lines: tuple[Watched, ...]
    signed: tuple[Watched, ...]
    spans: tuple[Span, ...]


def signed_parts(record: CookRecord, technique: Technique, on: date) -> tuple[SignedPart, ...]:
    """Return how far each part of a checklist is signed; a checklist without parts is one.

    A sign-off of the whole counts for every part, and one of a part for that part alone. All parts of another division
    of the checklist together are the whole.
    """
    lines, stopped = [line for line in record.watched if line.technique == technique.id], stops(record, technique.id)
    divided, found = _divided_otherwise(technique, lines, stopped, on), []
    for part in technique.parts or (None,):
        own = tuple(line for line in lines if line.shows(part.id if part else "") or line.verdict == "stopped")
        good = tuple(line for line in own if line.verdict == "meets it" and is_after_every_stop(line, stopped))
        spans = (_sign_off(technique, one, [later for later in lines if later.seq > one.seq], on) for one in good)
        found.append(SignedPart(part, own, good, (*divided, *spans)))
    return tuple(found)


def _divided_otherwise(
    technique: Technique, lines: Sequence[Watched], stopped: Sequence[Stop], on: date
) -> tuple[Span, ...]:
    """Return the days that all parts of another division of the checklist have in common."""
    good = [line for line in lines if line.verdict == "meets it" and is_after_every_stop(line, stopped)]
    spans = {x.entry: _sign_off(technique, x, [later for later in lines if later.seq > x.seq], on) for x in good}
    others = {line.division for line in good} - {(), tuple(part.id for part in technique.parts)}
    return tuple(
        span
        for division in sorted(others)
        for span in _in_common(
            [tuple(spans[x.entry] for x in good if (x.division, x.part) == (division, part)) for part in division]
        )
    )


def parts_left(record: CookRecord, technique: Technique, on: date) -> tuple[ChecklistPart, ...]:
    """Return the parts of a checklist that no sign-off covers on a day, in their order; none without parts."""
    parts = signed_parts(record, technique, on)
    return tuple(each.part for each in parts if each.part and best_on(each.spans, on) is None)


def _in_common(runs: Sequence[tuple[Span, ...]]) -> tuple[Span, ...]:
    """Return the days that one span of each run has in common, with the proofs of all; one run stays as it is."""
    first, *others = runs
    for other in others:
        both = [(one, each) for one in first for each in other]
        spans = (Span(max(a.since, b.since), min(a.until, b.until), (*a.proof, *b.proof)) for a, b in both)
        first = tuple(span for span in spans if span.since <= span.until)
    return first


def _parts_left(technique: Technique, left: Sequence[tuple[SignedPart, Text]]) -> Text:
    """Return which parts are signed and what is missing of the others."""
    told = [message("{part}: {gap}", part=technique.part_name(each.part), gap=gap) for each, gap in left if each.part]
    count = len(technique.parts)
    return message(
        "{signed} of {parts} parts signed; {left}", signed=count - len(told), parts=count, left=joined(told, "; ")
    )


def _sign_off(technique: Technique, line: Watched, later: Sequence[Watched], on: date) -> Span:
    """Return the days one sign-off counts, by the editions in force on a day."""
    ends = [months_later(line.on, technique.sign_off_months), holds_until(technique, line.edition)]
    ends += [stop.on - ONE_DAY for stop in later if stop.verdict == "stopped"]
    edition = _edition_without(technique, line, on)
    ends += [edition.since - ONE_DAY] if edition else []
    return Span(line.on, min(ends), (line.entry,))


def _edition_without(technique: Technique, line: Watched, on: date) -> Edition | None:
    """Return the first later edition, in force on a day, that asks for a point which was missed in a sign-off."""
    later = (each for each in technique.editions if each.number > line.edition and each.since <= on)
    return next((each for each in later if set(each.unless_missed) & set(line.missed)), None)


def _missed_too_much(technique: Technique, signed: Sequence[Watched], last: Sequence[Span], on: date) -> Text | None:
    """Return which points ended the last sign-off, in the checklist's words; None where something else ended it."""
    edition = _edition_without(technique, signed[0], on) if signed else None
    if edition is None or last[0].until != edition.since - ONE_DAY:
        return None
    words = technique.point_names
    missed = [words.get(point, point) for point in edition.unless_missed if point in signed[0].missed]
    return message(
        "sign-off of {since} counted to {until}; what was missed in it is now needed always: {points}",
        since=in_words(last[0].since),
        until=in_words(last[0].until),
        points=joined(missed, "; "),
    )


def _stopped(technique: Technique, standing: Sequence[Watched]) -> Missing:
    """Return what stands between a cook and every station that asks for a technique at which they were stopped."""
    words = joined(stop_in_words(technique, stop) for stop in standing)
    return Missing(f"stopped:{technique.id}", words, RELEASE_FIRST)


def stop_in_words(technique: Technique, stop: Watched) -> Text:
    """Return a stop in one sentence: at what, on which day, and the points at which something unsafe was seen."""
    texts = technique.point_names
    points, day = joined((texts.get(point, point) for point in stop.unsafe), "”, “"), in_words(stop.on)
    if not stop.unsafe:
        return message("{technique}: stopped for safety on {day}.", technique=technique.name, day=day)
    return message(
        "{technique}: stopped for safety on {day} at “{points}”.", technique=technique.name, day=day, points=points
    )


def _not_signed(lines: Sequence[Watched], spans: Sequence[Span]) -> Text:
    if not lines:
        return message("no sign-off")
    last = lines[-1]
    if last.verdict == "stopped":
        return message("stopped for safety on {day}, to be watched anew", day=in_words(last.on))
    if last.verdict == "meets it" and not spans:
        return message("the sign-off of {day} was begun before a stop was released", day=in_words(last.on))
    if not spans:
        return message("not yet, watched on {day}", day=in_words(last.on))
    if spans[-1].until < spans[-1].since:
        return message("the sign-off no longer counts")
    since, until = in_words(spans[-1].since), in_words(spans[-1].until)
    return message("sign-off of {since} counted to {until}", since=since, until=until)


def shifts(record: CookRecord, station: Station, on: date) -> Requirement:
    """Return whether enough supervised shifts are worked at the station; they count in any order."""
    lines = sorted((x for x in record.shifts if x.station == station.id), key=lambda x: x.on)
    need, worked = station.supervised_shifts, len(lines)
    text = message("Supervised shifts: {worked} of {need} worked.", worked=worked, need=need)
    if worked >= need:
        spans = (Span(lines[need - 1].on, NO_END, tuple(x.entry for x in lines[:need])),)
        return Requirement("shifts", spans, best_on(spans, on), text, None)
    act = message("The cook works {left} more beside a cleared cook; an assessor writes them down.", left=need - worked)
    return Requirement("shifts", (), None, text, Missing("shifts", text, act))


def age(person: Person, record: CookRecord, station: Station, on: date) -> Requirement:
    """Return whether a person is old enough for a station that asks for an age, as the book says; unknown is not.

    Where the book never said anything of a person's age, `person.born` decides.
    """
    years = station.minimum_age or 0
    text = message("{years} years old or more.", years=years)
    span = _old_enough(person, record, years)
    if span is None:
        words = message(
            "Age: no birth date on record, and the station asks for {years} years ({reason}).",
            years=years,
            reason=station.reason_for_age,
        )
        missing = Missing(AGE_UNKNOWN, words, message("A manager sees a proof of age and enters the birth date."))
        return Requirement("age", (), None, text, missing, bars=True)
    if span.since <= on:
        return Requirement("age", (span,), span, text, None, bars=True)
    words = message(
        "Age: not {years} before {day} ({reason}).",
        years=years,
        day=in_words(span.since),
        reason=station.reason_for_age,
    )
    return Requirement(
        "age", (span,), None, text, Missing("age", words, message("Nobody can lift this; wait.")), bars=True
    )


def _old_enough(person: Person, record: CookRecord, years: int) -> Span | None:
    """Return the days a person is so many years old, by the last entry about it; None where that cannot be said."""
    if record.ages:
        said = record.ages[-1]
        since = said.reached_from(years)
        return None if since is None else Span(since, NO_END, (said.entry,))
    return None if person.born is None else Span(birthday(person.born, years), NO_END)


def no_such_station() -> Requirement:
    """Return that the standard of a day has no such station, so nobody is cleared there."""
    words = message("The standard in force that day has no such station.")
    missing = Missing("standard", words, message("A manager publishes a standard with the station."))
    return Requirement("standard", (), None, "", missing)


def on_roster(record: CookRecord, on: date) -> Requirement:
    """Return the days a person belongs to the kitchen: from joining to the day before leaving."""
    decisive = deciding(record.roster)
    ends = [line.on - ONE_DAY for line in decisive[1:]] + [NO_END]
    lines = zip(decisive, ends[: len(decisive)], strict=True)
    spans = tuple(Span(line.on, until, (line.entry,)) for line, until in lines if not line.left)
    best = best_on(spans, on)
    missing = (
        None if best else Missing("roster", _off_roster(record), message("A manager puts the cook on the roster."))
    )
    return Requirement("roster", spans, best, message("On the roster."), missing, quiet=True)


def _off_roster(record: CookRecord) -> Text:
    if not record.roster:
        return message("Not on the roster.")
    return message("Left the kitchen on {day}.", day=in_words(record.roster[-1].on))


def _off_words(record: CookRecord, station: Station) -> Text:
    """Return since when and why a person is off a station they are off."""
    found = off_since(record, station.id)
    if found is None:
        return ""
    reason = reason_words(found.line, found.words)
    return message("Stood down on {day}: {reason}", day=in_words(found.line.on), reason=reason)


def not_stood_down(record: CookRecord, station: Station, on: date) -> Requirement:
    """Return the days a person is not stood down from the station; on a day with both, the later line decides."""
    lines = [line for line in record.stood_down if line.is_at(station.id)]
    spans, since = [], ALWAYS
    for line in deciding(lines):
        if line.restored:
            since = line.on if since == NO_END else since
        elif since != NO_END:
            spans.append(Span(since, line.on - ONE_DAY))
            since = NO_END
    if since != NO_END:
        spans.append(Span(since, NO_END))
    best = best_on(spans, on)
    missing = None
    if best is None:
        words = _off_words(record, station)
        missing = Missing("stood down", words, message("A manager puts the cook back when the reason is gone."))
    return Requirement(
        "stood down", tuple(spans), best, message("Not stood down."), missing, quiet=True, takes_off=True
    )
