"""The invented kitchen with work under way in every corner, told in a made-up language, and every page of it."""

from __future__ import annotations

import base64
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from types import MappingProxyType
from typing import Literal, cast

from tests.made_up_language import TAG, marked, taught
from tests.printed import all_english
from tests.web.bench.bench_content import BENCH
from tests.web.conftest import NOON
from tests.web.kitchen_people import ask, clear, sign, study, write
from tests.web.skills_at_work import (
    ASKED_BY_SKILL,
    SKILLS,
    Answers,
    cook_pages,
    manager_pages,
    put_questions_to_work,
    teacher_pages,
)
from tests.web.small_content import NESTS
from trainer.actions import enrolling, sitting, watching
from trainer.actions.open_kitchen import Kitchen
from trainer.actions.outcome import Saved
from trainer.kitchen.book import THE_BOOK, Kind, NewEntry, moment_text
from trainer.kitchen.practical import PointSeen
from trainer.kitchen.progress import Person
from trainer.kitchen.quiz.sequential_test import Plan
from trainer.kitchen.short_codes import short_code
from trainer.kitchen.technique import Content, QuestionSetting, Station, Technique
from trainer.kitchen.verdicts import reasons_in_words, verdict
from trainer.kitchen.watched_points import seen_points
from trainer.recipe_math.figures import number_text
from trainer.store.drafts import Draft
from trainer.store.kitchen_file import KitchenFile
from trainer.store.shifts import PlannedShift

SEED = 11
NOTE = marked("Neat hands")
GONE = marked("Gil Ruiz")
FILES = {
    "empty": "",
    "headed": "name,birth date,shoe\nEve Fox,2001-05-01,40\n",
    "faulty": "number,name,birth date,roles,started,language\n"
    "1,Eve Fox,soon,chef,,\n2,,1850-01-01,cuk,,English\n2,Dev Karim,2001-05-01,cook,2001-05-01,\n"
    f"{'3' * 30},Eve Fox,2031-01-01,cook,1999-01-01,\n5,Eve Fox,03/04/2001,cook,,\n6,{'x' * 200},,,,\n7,Eve,,,,,8\n",
    "ready": "number,name,birth date,roles,language\n1,Eve Fox,2001-05-01,cook,\n2,Dev Karim,2001-05-01,manager,es\n",
    "shifts": "date,sitting,name,station\n2026-11-03,dinner,Ana Pardo,saute\n2026-11-04,lunch,Bo Lind,Pasta room\n",
    "wrong shifts": "date,sitting,name,station\n,brunch,Eve Fox,bar\n2026-11-04,,Bo Lynd,Pasta rom\n"
    "2026-11-04,lunch,,\n",
}


def asking(name: str, families: Iterable[str], plan: Plan | None = None) -> Technique:
    """Return the nests under another name, asked about in other ways."""
    settings = (QuestionSetting(family, MappingProxyType({}), MappingProxyType({}), 1) for family in families)
    return replace(
        NESTS,
        id=name,
        title=f"The {name}",
        questions=tuple(settings),
        need_right=1,
        plan=plan,
    )


OWN: Content = replace(
    BENCH,
    techniques=MappingProxyType(
        {
            **BENCH.techniques,
            "cuts": asking("cuts", ("read_balance", "amount_to_buy", "mixed_units")),
            "stock": asking("stock", ("amount_to_buy", "mixed_units")),
            "sums": asking("sums", ("scale_by_yield", "amount_to_buy"), Plan()),
            "skills": ASKED_BY_SKILL,
        }
    ),
    stations=MappingProxyType(
        {**BENCH.stations, "grill": Station("grill", "Grill", ("cuts", "stock", "sums", "skills"), (), None, "", 1)}
    ),
    skills=SKILLS,
)
TOLD = taught(OWN)


def library(language: str, units: Literal["us", "metric"]) -> Content:
    """Return what the kitchen teaches: in brackets of its own in any language but English."""
    del units
    return OWN if language == "en" else TOLD


@dataclass(frozen=True, slots=True)
class Voids:
    """An entry that leans on a void, the void, a contest that is open, and an entry Ana may contest."""

    leaning: str
    void: str
    contest: str
    written: str


@dataclass(frozen=True, slots=True)
class Again:
    """A sign-off that Bo may look at again, and the entry of one Bo did, which did not hold."""

    drawn: str
    kept: str


@dataclass(frozen=True, slots=True)
class Work:
    """What is under way or kept: ids to make addresses from."""

    sitting: str
    whole: str
    deciding: str
    failed: Saved
    practical: str
    kept: str
    lowered: str
    files: tuple[str, ...]
    device: str
    saved: str
    stop: str
    voids: Voids
    path: str
    off: str
    again: Again
    answers: Answers


def opened(file: KitchenFile) -> Kitchen:
    """Return the kitchen with all of that content, in two tellings."""
    return Kitchen(file, OWN, library)


def put_to_work(k: Kitchen) -> Work:
    """Put work under way into the kitchen; return its ids."""
    clear(k, "bo")
    study(k, "dev")
    sign(k, "dev", by="bo")
    ask(k, "ana")
    write(k, "watch_asked", "dev", {"technique": "sauce"}, days=1)
    for technique in ("cuts", "stock", "sums"):
        write(k, "technique_read", "ana", {"technique": technique, "edition": 2})
    kept, saved = _past(k)
    stop = _stops(k)
    enrolled = enrolling.enrol_device(k, name=marked("Office"), by="cleo", now=NOON)
    assert isinstance(enrolled, enrolling.Enrolled)
    k.file.devices.give_to(enrolled.device.id, "dev")
    k.file.shifts.add(
        [
            PlannedShift(k.today(NOON), "dinner", "ana", "pasta_room"),
            PlannedShift(k.today(NOON), "lunch", "bo", "pasta_room"),
        ]
    )
    path = _paths(k)
    _night(k)
    _gone(k)
    _help(k)
    return Work(
        sitting=_sitting(k, "cuts", answered=1),
        whole=_whole(k),
        deciding=_sitting(k, "sums", answered=2),
        failed=_failed(k),
        practical=_practical(k, "ana"),
        lowered=_lowered(k),
        kept=kept,
        files=tuple(_import(k, name, rows) for name, rows in FILES.items()),
        device=enrolled.device.id,
        saved=saved,
        stop=stop,
        voids=_voids(k),
        path=path,
        off=_off(k),
        again=_again(k),
        answers=put_questions_to_work(k),
    )


def _again(k: Kitchen) -> Again:
    """Let Dev sign somebody off twice, and Bo look at one of them again and find it not there yet."""
    k.file.people.add(Person("eli", marked("Eli"), date(1990, 1, 1)))
    write(k, "cook_joined", "eli", {"roles": ["cook"]}, by="cleo", days=30)
    first = sign(k, "eli")
    points = [{"point": "holds", "seen": "meets it", "readings": [], "note": NOTE}]
    body = {"technique": "sauce", "edition": 1, "station": "saute", "points": points, "verdict": "meets it"}
    other = write(k, "practical_watched", "eli", {**body, "reasons": [], "note": NOTE}, by="dev", days=9)
    found = {"practical": other.id, "found": "not yet", "points": ["holds"], "note": NOTE}
    return Again(first.id, write(k, "rechecked", "eli", found, by="bo", days=8).id)


def _off(k: Kitchen) -> str:
    """Take Dev off the sauté, with words written later; return the entry that did."""
    body = {"stations": ["saute"], "why": "seen", "reason": ""}
    entry = write(k, "stood_down", "dev", body, by="bo", days=2)
    write(k, "words_added", "dev", {"entry": entry.id, "words": NOTE}, by="bo", days=2)
    return entry.id


def _night(k: Kitchen) -> None:
    """Set the services, publish yesterday's plan, close its dinner with somebody where they should not be."""
    yesterday = NOON - timedelta(days=1)
    day, dinner = f"{yesterday.date()}", {"service": "dinner", "cook": "dev", "station": "pasta_room"}
    needs = [{"stations": ["pasta_room", "saute"], "hands": 1}]
    hours = {"weekday": 1, "service": "dinner", "opens": "17:00", "closes": "23:00", "guests": 1, "needs": needs}
    own = [{"day": day, "service": "lunch", "closed": True}, {"day": day, "service": "breakfast", "needs": []}]
    lines = [
        {"day": day, **dinner, "as": "runs"},
        {"day": day, **dinner, "cook": "ana", "as": "trails", "beside": "dev"},
    ]
    plan = {"from": day, "to": day, "plan": json.dumps({"lines": lines}), "replaces": []}
    stood = [{**one, "as": how} for one, how in ((dinner, "runs"), (dinner | {"cook": "ana"}, "trails"))]
    against = [{"cook": "dev", "station": "pasta_room", "state": "studying", "reason": NOTE}]
    against.append({"cook": "", "station": "", "state": "no service", "reason": NOTE})
    for kind, body in (
        ("services_set", {"since": day, "weekly": [hours], "days": own}),
        ("plan_published", {**plan, "despite": [{"day": day, **dinner, "reason": NOTE}]}),
        ("service_stood", {"service": "dinner", "as_planned": False, "stood": stood, "disparities": against}),
    ):
        more = {"guests": 64, "proof": None} if kind == "service_stood" else {}
        deed = NewEntry(cast("Kind", kind), NOON, THE_BOOK, "cleo", {**body, **more}, kind, yesterday.date())
        k.file.book.append(deed)


def _help(k: Kitchen) -> None:
    """Let Ana ask Bo for a step and for what a question asks, and Dev for a step that was shown since."""
    wanted = {"technique": "nests", "step": "weigh", "skill": "", "whom": "bo"}
    write(k, "help_asked", "ana", wanted, days=0.1)
    write(k, "help_asked", "ana", {"technique": "skills", "step": "", "skill": "scale", "whom": ""}, days=0.1)
    asked = write(k, "help_asked", "dev", wanted, days=0.1)
    write(k, "help_given", "dev", {"asked": asked.id}, by="bo", days=0.1)


def _gone(k: Kitchen) -> None:
    """Let somebody have left long enough ago to be erased, by what the kitchen has set."""
    k.file.people.add(Person("gone", GONE, date(1980, 1, 1)))
    for kind, body, left in (("cook_joined", {"roles": ["cook"]}, 1600), ("cook_left", {"reason": NOTE}, 1500)):
        happened = NOON.date() - timedelta(days=left)
        k.file.book.append(NewEntry(cast("Kind", kind), NOON, "gone", "cleo", body, f"gone-{kind}", happened))
    k.file.book.append(NewEntry("retention_set", NOON, THE_BOOK, "cleo", {"years": 3}, "retention"))


def _stops(k: Kitchen) -> str:
    """Stop Dev at the sauce twice, and release the first; return the stop that stands."""
    technique, seen = OWN.techniques["sauce"], PointSeen("holds", "unsafe", (), NOTE)
    points = [{"point": seen.point, "seen": seen.seen, "readings": [], "note": seen.note}]
    points_seen = seen_points(technique, (seen,))
    reasons = all_english(reasons_in_words(verdict(technique, (seen,)), points_seen))
    begun = moment_text(NOON - timedelta(days=1))
    body = {"technique": "sauce", "edition": 1, "station": "saute", "points": points, "verdict": "stopped"}
    body |= {"reasons": reasons, "note": NOTE, "started": begun, "happened": "2026-11-01"}
    first = write(k, "practical_watched", "dev", body, by="bo", days=0.9)
    write(k, "stop_released", "dev", {"stop": first.id, "reason": NOTE}, by="cleo", days=0.8)
    kept = {"technique": "sauce", "minutes": 5, "what": NOTE}
    k.file.book.append(NewEntry("technique_taught", NOON, "dev", "bo", kept, "taught"))
    taught = {"stop": first.id, "taught": {"by": "bo", "what": NOTE, "minutes": 20}, "retry_from": "2026-11-02"}
    write(k, "stop_released", "dev", taught, by="cleo", days=0.75)
    return write(k, "practical_watched", "dev", body, by="bo", days=0.7).id


def _waits(k: Kitchen) -> None:
    """Let three changes of roles wait, for a second, for a day, and held since it cannot be entered; and two codes."""
    args = {"roles": ["cook", "manager"]}
    for name, more in (
        ("waits", {"until": ""}),
        ("alone", {"until": "2027-01-01T12:00:00.000Z"}),
        ("held", {"until": "", "held": True}),
    ):
        body = {"args": args, **more}
        k.file.drafts.put(Draft(name, "waiting_for_second", "roles", "ana", "cleo", body, NOON - timedelta(hours=1)))
    for name, until in (("code", ""), ("due", "2026-11-03T16:00:00.000Z")):
        body = {"args": {}, "until": until}
        k.file.drafts.put(Draft(name, "waiting_for_second", "code", "bo", "cleo", body, NOON - timedelta(days=1)))


def _paths(k: Kitchen) -> str:
    """Let Ana go for the sauté of her own will, Dev late for the pasta room with Bo, and drop a path; return Ana's."""
    ana = write(k, "path_opened", "ana", {"station": "saute", "by_day": "2026-12-15", "mentor": ""}, days=0.9)
    late = {"station": "pasta_room", "by_day": "2026-11-01", "mentor": "bo"}
    write(k, "path_opened", "dev", late, by="bo", days=0.9)
    dropped = write(k, "path_opened", "bo", {**late, "station": "saute", "mentor": ""}, days=0.9)
    write(k, "path_closed", "bo", {"path": dropped.id, "outcome": "dropped", "reason": NOTE}, days=0.9)
    return ana.id


def _voids(k: Kitchen) -> Voids:
    """Void an entry for no day, on which two others lean; one of these stands. Contest one, decide another."""
    read = {"technique": "stock", "edition": 1}
    first, second, third = (write(k, "technique_read", "dev", read, days=3) for _ in "abc")
    body = {"entry": first.id, "counts": "never", "reason": NOTE, "leaning": [second.id, third.id]}
    void = write(k, "entry_voided", "dev", body, by="cleo", days=2)

    def written(kind: Kind, cook: str, by: str, body: Mapping[str, object]) -> str:
        deed = NewEntry(kind, NOON - timedelta(days=1), cook, by, body, f"{kind}-{cook}")
        return k.file.book.append(deed).id

    written("entry_upheld", "dev", "cleo", {"entry": third.id, "void": void.id, "reason": NOTE})
    decided = written("entry_contested", "dev", "dev", {"entry": void.id, "words": NOTE})
    written("contest_decided", "dev", "cleo", {"contest": decided, "outcome": "wrong", "alone": True, "reason": NOTE})
    contest = written("entry_contested", "ana", "ana", {"entry": second.id, "words": NOTE})
    written("founder_stands", "cleo", "cleo", {"stations": ["saute"], "until": "2026-12-01", "words": NOTE})
    args = {"entry": second.id, "counts": "never", "reason": NOTE}
    k.file.drafts.put(Draft("void", "waiting_for_second", "void", "dev", "cleo", {"args": args, "until": ""}, NOON))
    return Voids(second.id, void.id, contest, k.file.book.of_kind("shift_worked")[0].id)


def _authorities(k: Kitchen) -> None:
    """Give Bo an authority for one technique that ends soon, and end one for a station, with the reason on paper."""
    days = {"from": "2026-11-01", "until": "2026-11-20"}
    body = {"scope": {"techniques": ["nests"]}, **days, "may": ["sign"]}
    write(k, "authority_given", "bo", body, by="cleo", days=2)
    body = {"scope": {"stations": ["pasta_room"]}, **days, "may": ["sign", "beside", "recheck"]}
    given = write(k, "authority_given", "bo", body, by="cleo", days=2)
    ended = {"authority": given.id, "reason": NOTE}
    at = NOON - timedelta(days=1)
    k.file.book.append(NewEntry("authority_ended", at, "bo", "cleo", ended, "ended"))


def _past(k: Kitchen) -> tuple[str, str]:
    """Write an entry of every other kind; return the practical kept and the cook's own last entry."""
    points = [
        {"point": "guard_on", "seen": "meets it", "readings": [], "note": NOTE},
        {"point": "weights", "seen": "not yet", "readings": ["4.5", "4.4", "5.6", "5.5", "4.7"], "note": ""},
        {"point": "tray", "seen": "not yet", "readings": [], "note": ""},
    ]
    body = {"technique": "nests", "edition": 2, "station": "pasta_room", "points": points, "verdict": "not yet"}
    reasons = [
        "Critical: Nests weigh the same, not yet (read: 4.5; 4.4; 5.6; 5.5; 4.7)",
        "0 of 1 scored points met, 1 needed.",
        "Scored: The tray is floured, not yet",
    ]
    seen = write(k, "practical_watched", "dev", {**body, "reasons": reasons, "note": NOTE}, by="bo", days=5)
    worked = {"station": "pasta_room", "worked_on": "2026-10-30", "beside": "bo", "guests": 40, "sitting": "dinner"}
    write(k, "shift_worked", "ana", worked, by="bo", days=4)
    paper = {"certificate": "food_handler", "number": "17", "issued": "2025-01-01", "expires": "2026-11-20"}
    write(k, "certificate_shown", "dev", paper, by="cleo", days=4)
    cell = {"cook": "dev", "station": "saute", "techniques": ["sauce"], "until": "2026-11-30", "asked": []}
    write(k, "known_before", "dev", {"cells": [cell], "basis": NOTE}, by="cleo", days=4)
    write(k, "station_opened", "bo", {"station": "saute", "until": "2026-12-01", "reason": NOTE}, by="cleo", days=3)
    write(k, "stood_down", "dev", {"station": "saute", "reason": NOTE}, by="cleo", days=3)
    write(k, "stood_down", "bo", {"station": "saute", "reason": NOTE}, by="cleo", days=3)
    write(k, "restored", "bo", {"station": "saute", "reason": NOTE}, by="cleo", days=2)
    write(k, "cook_changed", "bo", {"roles": ["cook", "assessor"]}, by="cleo", days=2)
    _authorities(k)
    _waits(k)
    study(k, "dev", "sauce", days=3)
    void = write(k, "technique_read", "dev", {"technique": "cuts", "edition": 1}, days=2)
    write(k, "entry_voided", "dev", {"entry": void.id, "reason": NOTE}, by="cleo", days=1)
    return seen.id, write(k, "technique_read", "ana", {"technique": "sauce", "edition": 1}, days=1).id


def _sitting(k: Kitchen, technique: str, *, answered: int) -> str:
    """Return Ana's sitting begun, the first so many questions answered by a wrong method where there is one."""
    begun = sitting.start_sitting(k, cook="ana", technique=technique, seed=SEED, now=NOON, key=f"sitting-{technique}")
    assert isinstance(begun, sitting.Sitting), begun
    for index, question in enumerate(begun.questions[:answered]):
        value = next((slip.value for slip in question.wrong_methods if slip.value >= 0), question.answer.value)
        text = number_text(value, 3)
        told = sitting.answer_question(k, sitting=begun.id, index=index, text=text, now=NOON, read_in=(TAG, "us"))
        assert isinstance(told, sitting.Answered), told
        assert not told.problem, told
    return begun.id


def _whole(k: Kitchen) -> str:
    """Return a sitting of Ana's with every answer given."""
    return _sitting(k, "nests", answered=3)


def _failed(k: Kitchen) -> Saved:
    """Return Ana's sitting failed by wrong methods, one question of it voided since."""
    begun = _sitting(k, "stock", answered=2)
    done = sitting.finish_sitting(k, sitting=begun, now=NOON, key="failed")
    assert isinstance(done, Saved), done
    asked = done.entry.body["questions"][1]
    body = {"family": asked["family"], "seed": asked["seed"], "entry": done.entry.id, "reason": NOTE}
    write(k, "question_voided", "ana", body, by="cleo", days=-0.0005)
    return done


def _practical(k: Kitchen, cook: str) -> str:
    """Return Bo's practical of a cook, begun, with a point that is unsafe and one that falls short."""
    begun = _begun(k, cook)
    for look in (
        watching.Look("guard_on", "unsafe", (), NOTE),
        watching.Look("weights", None, ("4.5", "4.4", "5.6", "5.5", "4.7"), ""),
    ):
        _see(k, begun, look)
    return begun


def _lowered(k: Kitchen) -> str:
    """Return Bo's practical of Dev, every point of which is met; one like it was signed as not yet before."""
    for note in (NOTE, ""):
        begun = _begun(k, "dev")
        for point in NESTS.checklist:
            readings = ("4.5", "4.5", "4.5", "4.5", "4.5") if point.limit else ()
            _see(k, begun, watching.Look(point.id, "meets it", readings, ""))
        if note:
            signing = watching.Signing(begun, NOON, note, "not yet")
            signed = watching.sign_practical(k, by="bo", signing=signing, now=NOON, key="lowered")
            assert isinstance(signed, Saved), signed
    return begun


def _begun(k: Kitchen, cook: str) -> str:
    watch = watching.Watch(cook, "nests", "pasta_room", read_in=(TAG, "us"))
    key = f"practical-{cook}-{k.file.book.end()[0]}"
    begun = watching.start_practical(k, by="bo", watch=watch, now=NOON, key=key)
    assert isinstance(begun, watching.Practical), begun
    return begun.id


def _see(k: Kitchen, practical: str, look: watching.Look) -> None:
    seen = watching.see_point(k, by="bo", practical=practical, look=look, now=NOON)
    assert isinstance(seen, PointSeen), seen


def _import(k: Kitchen, name: str, rows: str) -> str:
    """Return a file sent by the manager and not taken in."""
    data = base64.b64encode(rows.encode()).decode("ascii")
    body: Mapping[str, object] = {"file": data, "choices": {}}
    k.file.drafts.put(Draft(f"import-{name}", "import", marked(f"{name}.csv"), "", "cleo", body, NOON))
    return f"import-{name}"


def pages_of(work: Work) -> dict[str, tuple[str, ...]]:
    """Return the addresses to look at: of a person unknown, of a tablet, of the cook, the assessor and the manager."""
    return {
        "stranger": ("/", "/device", "/nowhere"),
        "tablet": (
            "/device",
            "/names",
            "/names?q=00",
            "/names/bo",
            "/names/bo?unsent=1",
            "/names/cleo",
            "/board/wall",
        ),
        "ana": (
            *_cook_pages(work),
            *_quiz_pages(work),
            *cook_pages(work.answers),
            *_bench_pages(),
            "/own-secret",
            "/language",
            "/this-phone",
            "/screen",
        ),
        "bo": (
            "/rail",
            "/record",
            "/paths",
            "/most-wrong",
            "/way/pasta_room/ana",
            "/paths/new?cook=ana&station=saute",
            *_assessor_pages(work),
            *teacher_pages(),
        ),
        "cleo": (*_board_pages(), *_night_pages(), *_people_pages(work), *_house_pages(work), *manager_pages()),
    }


def _cook_pages(work: Work) -> Iterable[str]:
    yield from (
        "/rail",
        "/unsent",
        "/unsent?about=network",
        "/unsent?about=signing",
        f"/rail?saved={work.saved}",
        "/record",
        "/go",
        "/go?code=⟪none⟫",
        "/go/⟪none⟫",
        "/nowhere",
        "/board",
    )
    yield from ("/record/written", f"/record/written/{work.voids.written}")
    yield from ("/way/pasta_room", "/way/saute", "/way/⟪none⟫")
    yield from ("/paths", "/paths/learn", "/paths/new", f"/paths/{work.path}/close", "/news/⟪none⟫")
    yield f"/go/{short_code('station', 'pasta_room')}"
    for technique in OWN.techniques:
        yield from (
            f"/techniques/{technique}",
            f"/techniques/{technique}/after",
            f"/techniques/{technique}/sheet",
            f"/techniques/{technique}/steps",
        )
        yield from (f"/techniques/{technique}/steps/{number}" for number in (1, 2, 3))
    for station in OWN.stations:
        yield from (f"/stations/{station}", f"/stations/{station}/card")


def _quiz_pages(work: Work) -> Iterable[str]:
    yield from (f"/techniques/{technique}/quiz" for technique in OWN.techniques)
    yield from (f"/sittings/{work.sitting}", f"/sittings/{work.sitting}/1", f"/sittings/{work.sitting}/hand-in")
    yield from (f"/sittings/{work.whole}/3", f"/sittings/{work.whole}/hand-in", f"/sittings/{work.deciding}")
    yield from (f"/sittings/{work.deciding}/3", f"/results/{work.failed.entry.id}")
    for family in ("amount_to_buy", "mixed_units"):
        yield f"/techniques/stock/try/{family}"
        yield f"/techniques/stock/try/{family}?seed={SEED}&answer=1"
    slips = [asked for asked in work.failed.entry.body["questions"] if asked["method"]]
    yield from (f"/techniques/stock/drills/{slip['family']}/{slip['method']}" for slip in slips)


def _bench_pages() -> Iterable[str]:
    yield "/bench"
    yield from ("/bench/tonight", "/bench/tonight?plate=40&card=100&carton=9", "/bench/tonight?card=⟪soon⟫&plate=0")
    for recipe in OWN.recipes:
        yield from (f"/bench/batch/{recipe}", f"/bench/batch/{recipe}?portions=40")
    yield from ("/bench/batch/⟪none⟫", "/bench/batch/card?guests=80&share=45", "/bench/batch/card?guests=80")
    yield from (
        "/bench/batch/card?portions=4&guests=3",
        "/bench/batch/card?portions=⟪soon⟫&share=200",
        "/bench/batch/card?guests=0",
    )
    yield from ("/bench/batch/card?portions=0", f"/bench/batch/card?portions={'9' * 30}")
    yield from (
        "/bench/tempering",
        f"/bench/tempering?{_egg()}",
        f"/bench/tempering?{_egg(base='whole', ladle='1+lb')}",
    )
    yield from (
        f"/bench/tempering?{_egg(hot='30+F')}",
        f"/bench/tempering?{_egg(hot='900+F')}",
        f"/bench/tempering?{_egg(until='30+F')}",
    )
    yield from (
        f"/bench/tempering?{_egg(temperature='160+F')}",
        f"/bench/tempering?{_egg(ladle='0.01+oz')}",
        f"/bench/tempering?{_egg(pot='1+oz')}",
    )
    yield from (
        f"/bench/tempering?{_egg(ladle='')}",
        f"/bench/tempering?{_egg(ladle='4+F')}",
        f"/bench/tempering?{_egg(ladle='0+oz')}",
    )
    yield f"/bench/tempering?{_egg(hot='⟪warm⟫')}"
    yield "/bench/cooling"
    for readings in (
        "0+135|60+100|120+71",
        "0+135|60+100|120+69|300+50",
        "0+135|200+71",
        "0+130",
        "0+140",
        "0+135|100+70|200+40",
        "23:50+136+F|0:20+100+F|0:40+110+F|48:00+90",
        "23:50+136+F|0:20+100+F|1:20+80+F|2:20+90+F",
        "0+135|60+134|120+60",
        "12:00+135+F|20+100",
        "30+135|20+100|5+9000|7+4+oz|⟪soon⟫|9",
        "0+200",
    ):
        lines = readings.replace("|", "%0A")
        yield from (f"/bench/cooling?start={start}&readings={lines}&around=40" for start in ("hot", "room"))
        yield f"/bench/cooling?readings={lines}"
    yield from ("/bench/cooling?readings=0+135&around=200", "/bench/cooling?readings=0+135%0A60+140&around=40")
    yield from ("/bench/cooling?readings=0+80%0A60+60&around=100", "/bench/cooling?readings=0+80%0A60+120&around=100")
    yield f"/bench/cooling?readings={'1+60%0A' * 210}&around=4+oz"
    yield f"/bench/cooling?readings={'1' * 4100}"
    for pan in ("depth=2+in&cover=covered&stirring=stirred", "depth=5+cm&cover=open&stirring=left", "depth=⟪deep⟫"):
        yield f"/bench/cooling?readings=0+136%0A30+100&around=36&{pan}"
    yield "/bench/cooling?readings=0+136%0A5+135&around=36"
    yield from _more_sums()
    yield "/bench/portions"
    for weights in (
        "6.4+6.6+7.2+6.5+5.1",
        "6.5+6.5",
        "6.5",
        "6.0+6.1",
        "0+oz%0A4+F",
        "7.4%0A7.6%0A7.4",
        "6+" * 210,
        "",
    ):
        yield f"/bench/portions?target=6.5&tolerance=0.4&weights={weights}"
    yield from ("/bench/portions?target=6.5&tolerance=9&weights=6+6", "/bench/portions?target=&tolerance=⟪x⟫&weights=6")


def _more_sums() -> Iterable[str]:
    """Yield the pages for pans, measures, doughs and tables: as they open, worked out, and refused."""
    yield from ("/bench/pans", "/bench/measures", "/bench/dough", "/bench/holds")
    yield "/bench/pans?old=straight&old_length=9&old_width=13&new=full&pans=3"
    yield from ("/bench/pans?old=round&old_length=9&new=round&new_length=9", "/bench/pans?old=round&new=1%2F2&pans=0")
    yield "/bench/pans?old=⟪x⟫&new=full&old_length=4+oz"
    yield from ("/bench/measures?food=flour&amount=1+cup", "/bench/measures?food=salt&amount=5+F")
    yield "/bench/measures?food=⟪x⟫&amount="
    yield from ("/bench/reduction", "/bench/reduction?before=4+kg&after=1+kg&salt=0.2&wanted=0.1")
    yield from (
        "/bench/reduction?before=4+kg&after=1+kg&salt=0.2&wanted=0.8",
        "/bench/reduction?before=1+kg&after=4+kg",
    )
    yield "/bench/reduction?before=⟪x⟫&after="
    yield "/bench/dough?flour=1+kg&hydration=65&salt=2&yeast=1&egg=50+g&wanted=76&flour_at=70&room_at=72&friction=26"
    yield from ("/bench/dough?flour=1+kg&hydration=30&egg=450+g", "/bench/dough?flour=⟪x⟫&hydration=65")
    yield "/bench/dough?flour=1+kg&hydration=65&wanted=60&flour_at=90&room_at=90&early_at=90&friction=30"
    for meat in ("roast", "ground", "poultry", "poultry+in+plants"):
        yield from (f"/bench/holds?meat={meat}&temperature={typed}" for typed in ("150", "170", "4+oz"))


def _egg(**changes: str) -> str:
    typed = {
        "base": "yolks",
        "amount": "4.5+oz",
        "temperature": "41+F",
        "liquid": "water",
        "hot": "203+F",
        "pot": "8+oz",
        "ladle": "2+fl+oz",
        "until": "125+F",
    }
    return "&".join(f"{name}={value}" for name, value in {**typed, **changes}.items())


def _assessor_pages(work: Work) -> Iterable[str]:
    yield from ("/ready", "/shifts-worked/new", "/practicals/new", f"/practicals/{work.practical}")
    yield from ("/practicals/new?cook=ana&technique=nests", "/practicals/new?cook=dev&technique=cuts")
    yield from (f"/practicals/{work.practical}/{number}" for number in (1, 2, 3))
    yield from (f"/practicals/{work.practical}/{part}" for part in ("record", "drop", "hand-on", "stop"))
    yield f"/practicals/kept/{work.kept}/undo"
    yield from (f"/practicals/kept/{work.kept}", f"/practicals/{work.lowered}/record")
    yield from (f"/ready?at={NOON.date()}:dinner", "/ready?at=⟪soon⟫", f"/swaps/{NOON.date()}/dinner")
    yield from ("/off", "/off/dev", "/off/ana?station=saute", f"/off/taken/{work.off}", f"/off/{work.off}/words")
    yield f"/practicals/{work.lowered}/stop"
    yield from ("/look-again", f"/look-again/{work.again.drawn}", f"/look-again/kept/{work.again.kept}")


def _board_pages() -> Iterable[str]:
    before = date.fromordinal(NOON.toordinal()) - timedelta(days=100)
    yield from ("/board", "/board?on=2026-10-01", f"/board?on={before}", "/board?on=⟪soon⟫", "/board?on=2027-01-01")
    yield from ("/board?show=on&show=path&station=saute", "/board?q=zz", "/board?on=2028-01-01")
    yield from (f"/board/{cook}/{station}" for cook in ("ana", "bo", "dev") for station in OWN.stations)


def _night_pages() -> Iterable[str]:
    today = NOON.date()
    yield from ("/plan", f"/plan?since={today}&until={today}", "/plan?since=⟪soon⟫", "/services", "/services/close")
    week_on = (NOON + timedelta(days=7)).date()
    yield from ("/first-hour", "/settings", "/services?service=dinner&weekday=2")
    yield from ("/services/names", "/services/names?service=dinner")
    yield from ("/standard/limits", "/standard/limits/⟪soon⟫")
    yield from ("/services/one-day", f"/services/one-day?service=dinner&day={week_on}")
    yield from ("/open-places", "/cooks/new", "/cooks/new?again=gone", "/cooks/ana/change")
    yield from (f"/plan?since={week_on}&until={week_on}&taken=2", f"/plan/{today}/dinner")
    yield from (f"/services/{today - timedelta(days=1)}/{service}/close" for service in ("lunch", "dinner"))


def _people_pages(work: Work) -> Iterable[str]:
    yield from ("/cooks", "/devices", "/stations", "/standard", "/own-secret", "/clock", "/clocks", "/cooks/nobody")
    yield from ("/codes-given", "/devices/invite", "/devices/own-phones", "/book/door")
    yield from ("/authority", "/signers", "/signers?on=2026-10-20", "/signers?on=⟪soon⟫", "/cooks/bo/authority/new")
    yield from (
        "/second",
        "/second/recovery",
        "/recovery",
        "/second/waits",
        "/second/alone",
        "/second/held",
        "/second/void",
        "/second/code",
        "/second/due",
        "/left",
        "/left?years=3",
        "/left?years=never",
        "/left?years=⟪soon⟫",
        "/left/erase",
        "/hand-out",
        "/nights",
        "/nights?ill=ana",
        "/lapses",
        "/lapses?days=90&by=technique",
        "/lapses?days=⟪soon⟫&by=station",
        "/training-plan",
        "/training-plan?out=ana:saute",
        "/calendar",
        "/health-notice",
        "/inspection",
        "/inspection?on=2026-10-01",
        "/inspection?on=⟪soon⟫",
        "/contests",
        "/own-word",
        "/known-before",
        "/paths",
        "/most-wrong",
        "/look-again",
        f"/look-again/kept/{work.again.kept}",
        "/way/saute/ana",
        "/way/pasta_room/bo",
        "/way/pasta_room/nobody",
        "/paths/new",
        "/paths/nothing/close",
    )
    acts = (
        "",
        "/age",
        "/erase",
        "/record",
        "/roles",
        "/certificates/new",
        "/put-back",
        "/grant",
        "/leaves",
        "/first-code",
        "/try-again",
    )
    yield from (f"/cooks/{cook}{act}" for cook in ("ana", "bo", "dev", "cleo") for act in acts)
    yield from ("/cooks/ana/techniques/stock/lift-wait", "/cooks/dev/techniques/nests/lift-wait")
    yield f"/cooks/dev/stops/{work.stop}/release"
    yield from (f"/contests/{work.voids.contest}", f"/book/{work.voids.leaning}/stands/{work.voids.void}")


def _house_pages(work: Work) -> Iterable[str]:
    yield from ("/book", "/book?cook=ana", "/book?before=3", "/book/verify", "/book/kept", "/book/lost")
    yield f"/book/{work.saved}/void"
    yield from (f"/book/{work.failed.entry.id}/void", f"/book/{work.failed.entry.id}/questions/void")
    yield from (f"/writing{path}" for path in ("", "/nests", "/nests/whole", "/nests/look"))
    yield from (f"/writing/nests/{path}" for path in ("steps", "stations", "skills/x"))
    yield from (f"/writing/nests/steps/{path}" for path in ("new", "roll", "roll/out", "roll/photograph"))
    yield from ("/photographs/nests/roll.photo.jpg", "/writing/nests/photographs/roll.photo.jpg")
    yield from ("/roster", f"/devices/{work.device}/revoke", f"/devices/{work.device}/share", "/roster/nothing")
    yield from (f"/roster/{file}" for file in work.files)
