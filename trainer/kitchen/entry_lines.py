"""An entry of the book as a line of a cook's record: under which name it stands, and what is read from its body."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date, datetime
from functools import cache
from sys import intern
from typing import Any

from trainer.kitchen.ages import JOINING
from trainer.kitchen.book import Entry
from trainer.kitchen.quiz.rescoring import key_of
from trainer.kitchen.record import (
    AgeSeen,
    AuthorityEnded,
    AuthorityGiven,
    CertificateShown,
    FounderStands,
    HelpAsked,
    HelpGiven,
    KnownBefore,
    KnownTechnique,
    Noted,
    NoticeRead,
    OnRoster,
    Opened,
    PathClosed,
    PathOpened,
    Rechecked,
    ShiftWorked,
    StoodDown,
    StopReleased,
    TechniqueRead,
    TechniqueTaught,
    WaitLifted,
    Watched,
    WatchRequest,
    WordsAdded,
)
from trainer.kitchen.sitting_result import QuestionVoided, SittingResult
from trainer.kitchen.skills.fold import Act, Happening
from trainer.kitchen.skills.rule import Terms


def _roster(entry: Entry, on: date) -> OnRoster:
    return OnRoster(entry.id, on, frozenset(entry.body["roles"]), left=False, edition=entry.edition)


def _left(entry: Entry, on: date) -> OnRoster:
    return OnRoster(entry.id, on, frozenset(), left=True, reason=entry.body["reason"])


def _read(entry: Entry, on: date) -> TechniqueRead:
    return TechniqueRead(entry.id, on, entry.body["technique"], entry.body["edition"])


def _notice(entry: Entry, on: date) -> NoticeRead:
    return NoticeRead(entry.id, on, entry.body["notice"], entry.body["edition"])


def _sat(entry: Entry, on: date) -> SittingResult:
    b = entry.body
    return SittingResult(entry.id, on, b["technique"], b["edition"], b["right"], b["asked"], b["need"], b["passed"], b)


def _question_voided(entry: Entry, on: date) -> QuestionVoided:
    return QuestionVoided(entry.id, on, key_of(entry.body), entry.body["reason"])


def _wait_lifted(entry: Entry, on: date) -> WaitLifted:
    b = entry.body
    return WaitLifted(entry.id, on, b["technique"], b["entry"], b["reason"])


_ACTS: Mapping[str, Act] = {
    "right": "right",
    "rounded_early": "rounded_early",
    "method": "wrong",
    "slip": "wrong",
    "copied": "wrong",
    "unknown": "wrong",
}


def _answered(entry: Entry, on: date) -> Happening:
    b = entry.body
    name = "" if b["verdict"] == "copied" else b["name"]
    skill, family = intern(b["skill"]), intern(b["family"])
    act, stem = _ACTS[b["verdict"]], b.get("stem", "")
    return Happening(on, skill, act, _terms(b["base"], b["months"]), intern(name), entry.id, family, b["seed"], stem)


@cache
def _terms(base: int, months: int) -> Terms:
    """Return what a skill asks for; one for all answers under the same terms."""
    return Terms(base, months)


def _drill(entry: Entry, on: date) -> Happening:
    b = entry.body
    by_person = entry.kind == "drill_given"
    act: Act = "drill_by_person" if by_person else "drill"
    return Happening(on, b["skill"], act, _terms(b["base"], b["months"]), b["name"], entry.id, b["family"])


def _skill_wait_lifted(entry: Entry, on: date) -> Happening:
    b = entry.body
    return Happening(on, b["skill"], "wait_lifted", _terms(b["base"], b["months"]), "", entry.id, b["family"])


def _asked(entry: Entry, on: date) -> WatchRequest:
    return WatchRequest(entry.id, entry.at, on, entry.body["technique"], entry.seq)


def _watched(entry: Entry, on: date) -> Watched:
    b = entry.body
    technique, edition, station, verdict = b["technique"], b["edition"], b["station"], b["verdict"]
    started = datetime.fromisoformat(b["started"]) if "started" in b else None
    seen = {point["point"]: _words_seen(point) for point in b.get("points") or ()}
    unsafe = tuple(point for point, words in seen.items() if "unsafe" in words)
    missed = tuple(point for point, words in seen.items() if words and (point in unsafe or words[-1] != "meets it"))
    day, by, part = _happened(entry, on), entry.by, b.get("part", [""])[0]
    watched = Watched(
        entry.id, entry.at, day, technique, edition, station, verdict, by, entry.seq, started, unsafe, missed, part
    )
    return replace(watched, division=tuple(b["divided"])) if "divided" in b else watched


def _words_seen(point: Mapping[str, Any]) -> tuple[Any, ...]:
    """Return what was said of a point at each look; older entries have one, with the point itself."""
    return tuple(look["seen"] for look in point["looks"]) if "looks" in point else (point.get("seen"),)


def _rechecked(entry: Entry, on: date) -> Rechecked:
    b = entry.body
    return Rechecked(entry.id, on, b["practical"], b["found"], entry.by, tuple(b["points"]), entry.seq)


def _released(entry: Entry, on: date) -> StopReleased:
    b = entry.body
    retry_from = date.fromisoformat(b["retry_from"]) if "retry_from" in b else None
    return StopReleased(entry.id, entry.at, on, b["stop"], entry.seq, b.get("reason", ""), retry_from)


def _happened(entry: Entry, on: date) -> date:
    """Return the day an entry counts from: the day it says it happened, where its clock had to be a later one.

    Older programs kept that day in the body.
    """
    told = entry.body.get("happened")
    return min(on, date.fromisoformat(told) if told else entry.happened)


def keeps_away(entry: Entry) -> bool:
    """Return whether an entry takes a cook off a station: a stop, or a standing down.

    It is known from the day it happened: it is written on a later one only where the clock before had run ahead.
    """
    return entry.kind == "stood_down" or (entry.kind == "practical_watched" and entry.body["verdict"] == "stopped")


def _shift(entry: Entry, on: date) -> ShiftWorked:
    b = entry.body
    return ShiftWorked(
        entry.id, on, b["station"], date.fromisoformat(b["worked_on"]), b["beside"], b.get("sitting", "")
    )


def _shown(entry: Entry, on: date) -> CertificateShown:
    b = entry.body
    expires = date.fromisoformat(b["expires"]) if b["expires"] else None
    return CertificateShown(entry.id, on, b["certificate"], date.fromisoformat(b["issued"]), expires)


def _known_before(entry: Entry, on: date) -> KnownBefore:
    cells = entry.body["cells"]
    techniques = tuple(
        KnownTechnique(name, date.fromisoformat(cell["until"]), name in cell["asked"])
        for cell in cells
        for name in cell["techniques"]
    )
    return KnownBefore(entry.id, on, entry.seq, techniques)


def _stood(entry: Entry, on: date) -> StoodDown:
    b, happened = entry.body, _happened(entry, on)
    told = b["stations"] if "stations" in b else [b["station"]]
    stations = () if told == "all" else tuple(told)
    restored, why = entry.kind == "restored", b.get("why", "")
    return StoodDown(entry.id, happened, stations, b["reason"], restored, why, entry.by, entry.at)


def _words(entry: Entry, on: date) -> WordsAdded:
    return WordsAdded(entry.id, on, entry.body["entry"], entry.body["words"])


def _opened(entry: Entry, on: date) -> Opened:
    return Opened(entry.id, on, entry.body["station"], date.fromisoformat(entry.body["until"]))


def _age(entry: Entry, on: date) -> AgeSeen:
    b = entry.body
    bars = tuple((bar["years"], _reached(bar["from"])) for bar in b["bars"])
    return AgeSeen(entry.id, date.min if b.get("not_kept_before") else on, bars)


def _reached(told: str) -> date:
    return date.min if told == JOINING else date.fromisoformat(told)


def _authority_given(entry: Entry, on: date) -> AuthorityGiven:
    b = entry.body
    since, until = date.fromisoformat(b["from"]), date.fromisoformat(b["until"])
    return AuthorityGiven(entry.id, on, b["scope"], since, until, tuple(b["may"]))


def _taught(entry: Entry, on: date) -> TechniqueTaught:
    return TechniqueTaught(entry.id, on, entry.body["technique"], entry.by, entry.body["minutes"])


def _help_asked(entry: Entry, on: date) -> HelpAsked:
    b = entry.body
    return HelpAsked(entry.id, entry.at, on, b["technique"], b["step"], b["skill"], b["whom"])


def _help_given(entry: Entry, on: date) -> HelpGiven:
    return HelpGiven(entry.id, on, entry.body["asked"])


def _founder(entry: Entry, on: date) -> FounderStands:
    b = entry.body
    return FounderStands(entry.id, on, tuple(b["stations"]), date.fromisoformat(b["until"]))


def _path_opened(entry: Entry, on: date) -> PathOpened:
    b = entry.body
    return PathOpened(entry.id, on, b["station"], date.fromisoformat(b["by_day"]), b["mentor"], entry.by)


def _path_closed(entry: Entry, on: date) -> PathClosed:
    return PathClosed(entry.id, on, entry.body["path"], entry.body["outcome"], entry.body["reason"])


def _authority_ended(entry: Entry, on: date) -> AuthorityEnded:
    return AuthorityEnded(entry.id, on, entry.body["authority"])


def _noted(entry: Entry, on: date) -> Noted:
    return Noted(entry.id, on, entry.kind)


_MAKE: Mapping[str, tuple[str, Callable[[Entry, date], Any]]] = {
    "kitchen_set": ("noted", _noted),
    "cook_joined": ("roster", _roster),
    "cook_changed": ("roster", _roster),
    "cook_left": ("roster", _left),
    "technique_read": ("read", _read),
    "notice_read": ("notices", _notice),
    "quiz_sat": ("sat", _sat),
    "answered": ("skills", _answered),
    "drill_done": ("skills", _drill),
    "drill_given": ("skills", _drill),
    "watch_asked": ("asked", _asked),
    "help_asked": ("help_asked", _help_asked),
    "help_given": ("help_given", _help_given),
    "practical_watched": ("watched", _watched),
    "rechecked": ("rechecked", _rechecked),
    "shift_worked": ("shifts", _shift),
    "certificate_shown": ("shown", _shown),
    "known_before": ("known_before", _known_before),
    "path_opened": ("paths", _path_opened),
    "path_closed": ("paths_closed", _path_closed),
    "station_opened": ("opened", _opened),
    "stood_down": ("stood_down", _stood),
    "restored": ("stood_down", _stood),
    "words_added": ("words", _words),
    "question_voided": ("questions_voided", _question_voided),
    "wait_lifted": ("waits_lifted", _wait_lifted),
    "stop_released": ("released", _released),
    "roster_taken_in": ("noted", _noted),
    "device_enrolled": ("noted", _noted),
    "device_revoked": ("noted", _noted),
    "phone_made_own": ("noted", _noted),
    "phone_shared": ("noted", _noted),
    "first_code_given": ("noted", _noted),
    "secret_changed": ("noted", _noted),
    "recovery_used": ("noted", _noted),
    "locked_out": ("noted", _noted),
    "person_named": ("noted", _noted),
    "person_erased": ("noted", _noted),
    "paper_dropped": ("noted", _noted),
    "record_given": ("noted", _noted),
    "retention_set": ("noted", _noted),
    "services_set": ("noted", _noted),
    "plan_published": ("noted", _noted),
    "service_stood": ("noted", _noted),
    "age_seen": ("ages", _age),
    "technique_taught": ("taught", _taught),
    "founder_stands": ("founder", _founder),
    "entry_upheld": ("noted", _noted),
    "entry_contested": ("noted", _noted),
    "contest_decided": ("noted", _noted),
    "authority_given": ("authority_given", _authority_given),
    "authority_ended": ("authority_ended", _authority_ended),
    "book_restored": ("noted", _noted),
    "day_closed": ("noted", _noted),
    "head_witnessed": ("noted", _noted),
    "clock_confirmed": ("noted", _noted),
    "clock_corrected": ("noted", _noted),
    "standard_published": ("noted", _noted),
    "book_upgraded": ("noted", _noted),
}


def line_maker(entry: Entry) -> tuple[str, Callable[[Entry, date], Any]]:
    """Return under which name an entry's line stands, and what makes it; a change that gives no roles is only noted."""
    if entry.kind == "cook_changed" and "roles" not in entry.body:
        return "noted", _noted
    if entry.kind == "wait_lifted" and "skill" in entry.body:
        return "skills", _skill_wait_lifted
    return _MAKE[entry.kind]
