"""A demo kitchen with work under way in every corner, and the pages each of its people can open there."""

from __future__ import annotations

import base64
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from tests.browser.engine import Served
from tests.browser.journeys import person_id, ready_to_show, typed
from trainer.actions import enrolling, studying, watching
from trainer.actions.answering import Given, answer
from trainer.actions.asking_skills import OpenQuestion, context_for, open_question
from trainer.actions.outcome import Saved
from trainer.actions.rechecking import offered_to
from trainer.actions.standing import TakenOff, take_off
from trainer.actions.teaching import Teaching
from trainer.actions.writing import begin_own_content
from trainer.content.shipped import shipped
from trainer.kitchen.book import THE_BOOK, Kind, NewEntry
from trainer.kitchen.progress import Person
from trainer.kitchen.quiz.families import NUMERIC
from trainer.kitchen.quiz.telling import tell
from trainer.kitchen.short_codes import short_code
from trainer.kitchen.technique import Technique
from trainer.store.drafts import Draft

BENCH_PAGES = (
    "/bench",
    "/bench/batch/durum_dough",
    "/bench/tonight?yolk_pasta=40&pastry_custard=25",
    "/bench/batch/durum_dough?portions=soon",
    "/bench/tempering",
    "/bench/cooling",
    "/bench/cooling?readings=0+135%0A60+100%0A120+71",
    "/bench/portions",
    "/bench/pans?old=straight&old_length=9&old_width=13&new=full&pans=3",
    "/bench/measures",
    "/bench/reduction",
    "/bench/dough",
    "/bench/holds?meat=ground&temperature=152",
    "/bench/portions?weights=6.4+6.6+7.2+6.5+6.1",
)
OPEN, FAILED, SHOWN, STOPPED = "knife_cuts", "egg_tempering", "pasta_nesting", "extruder_safety"


@dataclass(frozen=True, slots=True)
class Disputed:
    """An entry that leans on a void, the void, and a contest that is open."""

    leaning: str
    void: str
    contest: str


@dataclass(frozen=True, slots=True)
class Work:
    """What is under way or kept: ids to make addresses from."""

    hire: str
    sous: str
    manager: str
    right: str
    result: str
    practical: str
    kept: str
    stop: str
    faulty: str
    ready: str
    device: str
    entry: str
    path: str
    disputed: Disputed
    off: str
    drawn: str
    again: str


def settle(served: Served) -> Work:
    """Put work under way into the kitchen; return its ids."""
    hire, sous, manager = (person_id(served, role) for role in ("New hire", "Sous chef", "Manager"))
    techniques, book = served.kitchen.content.techniques, served.kitchen.file.book
    ready_to_show(served, hire, techniques[SHOWN])
    kept = next(e for e in reversed(book.since(0)) if e.kind == "practical_watched" and e.by == sous)
    enrolled = enrolling.enrol_device(served.kitchen, name="Pass tablet", by=manager, now=served.clock())
    assert isinstance(enrolled, enrolling.Enrolled)
    served.kitchen.file.devices.give_to(enrolled.device.id, hire)
    _gone(served, manager)
    served.kitchen.teaching = Teaching(served.kitchen.file, begin_own_content(served.kitchen))
    disputed = _disputed(served, hire, manager)
    return Work(
        hire=hire,
        sous=sous,
        manager=manager,
        right=_answered(served, hire, OPEN, wrong=0)[0],
        result=_answered(served, hire, FAILED, wrong=2)[-1],
        practical=_practical(served, sous, hire, techniques[SHOWN]),
        kept=kept.id,
        stop=_stop(served, sous, hire, techniques[STOPPED]),
        faulty=_import(served, manager, {}),
        ready=_import(served, manager, {"date_order": "dmy", "left_out": [14, 18]}),
        device=enrolled.device.id,
        entry=book.since(0)[-1].id,
        path=book.of_kind("path_opened")[-1].id,
        disputed=disputed,
        off=_off(served, hire, sous),
        drawn=offered_to(served.kitchen, sous, served.kitchen.day(served.kitchen.today(served.clock())))[0].line.entry,
        again=book.of_kind("rechecked")[-1].id,
    )


def _gone(served: Served, by: str) -> None:
    """Let somebody have left long enough ago to be erased, by what the kitchen has set."""
    k, now = served.kitchen, served.clock()
    k.file.people.add(Person("gone", "Gil Ruiz", date(1980, 1, 1)))
    joined, left = date(2022, 5, 2), date(2023, 6, 1)
    k.file.book.append(NewEntry("cook_joined", now, "gone", by, {"roles": ["cook"]}, "gone-joined", joined))
    k.file.book.append(NewEntry("cook_left", now, "gone", by, {"reason": "Moved away."}, "gone-left", left))
    k.file.book.append(NewEntry("retention_set", now, THE_BOOK, by, {"years": 3}, "retention"))


def _disputed(served: Served, cook: str, by: str) -> Disputed:
    """Void an entry on which another leans, contest that one, and let a change of roles wait for a second person."""
    k, now = served.kitchen, served.clock()

    def written(kind: Kind, who: str, body: Mapping[str, object], key: str) -> str:
        return k.file.book.append(NewEntry(kind, now, cook, who, body, key)).id

    read = {"technique": "sanitizer", "edition": 1}
    first, leaning = (written("technique_read", cook, read, f"disputed-{one}") for one in "ab")
    body = {"entry": first, "counts": "never", "reason": "Another cook was meant.", "leaning": [leaning]}
    void = written("entry_voided", by, body, "disputed-void")
    contest = written("entry_contested", cook, {"entry": void, "words": "I read it that day."}, "disputed-contest")
    waits = {"args": {"roles": ["cook", "manager"]}, "until": ""}
    k.file.drafts.put(Draft("waits", "waiting_for_second", "roles", cook, by, waits, now))
    return Disputed(leaning, void, contest)


def _off(served: Served, cook: str, by: str) -> str:
    """Take a cook off a station, the words still to come; return the entry that did."""
    off = TakenOff(cook, ("saute",), "seen")
    done = take_off(served.kitchen, by=by, off=off, now=served.clock(), key="off")
    assert isinstance(done, Saved), done
    return done.entry.id


def _answered(served: Served, cook: str, technique: str, *, wrong: int) -> tuple[str, ...]:
    """Return the entries of answers to one skill of a technique: one right, or so many wrong in a row."""
    k, now = served.kitchen, served.clock()
    studying.acknowledge_reading(k, cook=cook, technique=technique, now=now, key=f"read-{technique}")
    skill = next(one for one in k.content.techniques[technique].knowledge if one.setting.family in NUMERIC)
    entries = []
    for number in range(max(wrong, 1)):
        found = open_question(k, cook=cook, technique=technique, skill=skill.id, seed=number, now=now)
        assert isinstance(found, OpenQuestion), found
        question = tell(found.drawn, context_for(skill, k.content))
        value = question.wrong_methods[0].value if wrong else question.answer.value
        given = Given(cook, skill.id, found.drawn.seed, f"{typed(value)} {question.answer.unit}", "en", "us")
        done = answer(k, given=given, now=now, key=f"answer-{technique}-{number}")
        assert isinstance(done, Saved), done
        entries.append(done.entry.id)
    return tuple(entries)


def _practical(served: Served, by: str, cook: str, technique: Technique) -> str:
    """Return a practical begun, its first point seen."""
    watch = watching.Watch(cook, technique.id, "pasta_room")
    begun = watching.start_practical(served.kitchen, by=by, watch=watch, now=served.clock(), key="practical")
    assert isinstance(begun, watching.Practical), begun
    look = watching.Look(technique.checklist[0].id, "meets it", (), "Asked before the power went on.")
    watching.see_point(served.kitchen, by=by, practical=begun.id, look=look, now=served.clock())
    return begun.id


def _stop(served: Served, by: str, cook: str, technique: Technique) -> str:
    """Return the entry of a practical stopped for something unsafe, which no manager has released yet."""
    ready_to_show(served, cook, technique)
    k, now = served.kitchen, served.clock()
    begun = watching.start_practical(k, by=by, watch=watching.Watch(cook, technique.id), now=now, key="stop")
    assert isinstance(begun, watching.Practical), begun
    look = watching.Look(technique.checklist[0].id, "unsafe", (), "A hand in the hopper with the power on.")
    watching.see_point(k, by=by, practical=begun.id, look=look, now=now)
    done = watching.sign_practical(k, by=by, signing=watching.Signing(begun.id, now), now=now, key="stop-signed")
    assert isinstance(done, Saved), done
    return done.entry.id


def _import(served: Served, by: str, choices: Mapping[str, object]) -> str:
    """Return a roster file sent and not taken in."""
    data = base64.b64encode((shipped("demo_roster") / "roster.csv").read_bytes()).decode("ascii")
    name = f"import-{len(choices)}"
    body = {"file": data, "choices": dict(choices)}
    served.kitchen.file.drafts.put(Draft(name, "import", "roster.csv", "", by, body, served.clock()))
    return name


def pages_of(served: Served, work: Work) -> dict[str, tuple[str, ...]]:
    """Return the addresses each person is to look at: every page a person of these roles can open."""
    return {
        "nobody": ("/", "/device", "/names", f"/names/{work.sous}", f"/names/{work.manager}", "/no-such-page"),
        "New hire": (
            *_cook_pages(served),
            *_study_pages(served, work),
            *BENCH_PAGES,
            "/own-secret",
            "/board",
            *_own_pages(work),
        ),
        "Sous chef": (*_cook_pages(served), *_assessor_pages(served, work)),
        "Manager": tuple(_manager_pages(work)),
    }


def _cook_pages(served: Served) -> tuple[str, ...]:
    return (
        "/rail",
        "/record",
        "/paths",
        "/way/pasta_room",
        "/paths/learn",
        "/paths/new",
        f"/techniques/{SHOWN}",
        "/board/wall",
        "/unsent",
        "/unsent?about=signing",
    )


def _own_pages(work: Work) -> tuple[str, ...]:
    return ("/record/written", f"/record/written/{work.stop}", "/codes-given", "/clock", "/clocks")


def _study_pages(served: Served, work: Work) -> Iterator[str]:
    for technique in served.kitchen.content.techniques.values():
        yield f"/techniques/{technique.id}"
        yield f"/techniques/{technique.id}/after"
        yield f"/techniques/{technique.id}/steps"
        yield f"/techniques/{technique.id}/rehearse"
    steps = served.kitchen.content.techniques[SHOWN].steps
    drawn = next(number for number, step in enumerate(steps, 1) if step.figure and step.hazards)
    plain = next(number for number, step in enumerate(steps, 1) if not step.figure)
    yield from (f"/techniques/{SHOWN}/steps/{drawn}", f"/techniques/{SHOWN}/steps/{plain}")
    timed = next(
        number for number, step in enumerate(served.kitchen.content.techniques["safe_holding"].steps, 1) if step.seconds
    )
    yield from (f"/techniques/safe_holding/steps/{timed}", f"/techniques/{SHOWN}/sheet", f"/techniques/{OPEN}/sheet")
    asked = served.kitchen.content.techniques[SHOWN].questions[0].family
    yield from (f"/techniques/{SHOWN}/try/{asked}?seed=1", f"/techniques/{SHOWN}/try/{asked}?seed=1&answer=1")
    station = next(iter(served.kitchen.content.stations))
    yield from (
        f"/stations/{station}",
        f"/stations/{station}/card",
        "/go",
        "/go?code=none",
        "/language",
        "/this-phone",
        "/screen",
    )
    yield f"/go/{short_code('station', station)}"
    yield from (f"/techniques/{OPEN}/questions", "/techniques/safe_holding/questions", "/questions")
    for skill in ("decide_knife_cuts", "faults_knife_cuts"):
        yield f"/techniques/{OPEN}/questions?skill={skill}"
    yield from (f"/answers/{work.right}", f"/answers/{work.result}")
    practice = f"/techniques/{FAILED}/practice/{_skill_of(served, work.result)}"
    yield from (practice, f"{practice}?part=2", f"{practice}?part=3", f"{practice}/done")


def _skill_of(served: Served, entry: str) -> str:
    """Return the skill of an answer."""
    found = served.kitchen.file.book.find(entry)
    assert found is not None
    return str(found.body["skill"])


def _assessor_pages(served: Served, work: Work) -> Iterator[str]:
    yield from ("/off", "/swaps/2026-11-27/dinner", "/ready?at=2026-11-28:dinner")
    yield from (f"/off/taken/{work.off}", f"/off/{work.off}/words", "/knows/aloud")
    yield from ("/ready", "/shifts-worked/new", "/practicals/new", f"/practicals/{work.practical}")
    checklist = served.kitchen.content.techniques[SHOWN].checklist
    kinds = {(point.judged, point.pieces > 1): number for number, point in enumerate(checklist, 1)}
    yield from (f"/practicals/{work.practical}/{number}" for number in sorted({1, *kinds.values()}))
    yield from (f"/practicals/{work.practical}/{part}" for part in ("record", "drop", "hand-on", "stop"))
    yield from (f"/practicals/kept/{work.kept}", f"/practicals/kept/{work.kept}/undo")
    yield from ("/look-again", f"/look-again/{work.drawn}")
    yield from (f"/knows/{work.hire}", f"/knows/{work.hire}/{OPEN}/aloud")
    yield f"/knows/{work.hire}/{FAILED}/{_skill_of(served, work.result)}/practised"


def _writing_pages() -> Iterator[str]:
    """Yield the pages of the room for writing: the list, a technique, its parts, an entry of each kind."""
    own = f"/writing/{SHOWN}"
    yield from ("/writing", own, f"{own}/whole", f"{own}/look", f"{own}/steps", f"{own}/checklist", f"{own}/stations")
    yield from (f"{own}/{part}/new" for part in ("steps", "standard", "editions", "hazards", "faults"))
    yield from (
        f"{own}/steps/catch",
        f"{own}/steps/catch/out",
        f"{own}/steps/catch/photograph",
        f"{own}/standard/tray",
        f"{own}/checklist/guard_on",
        f"{own}/skills/decide_{SHOWN}",
    )


def _manager_pages(work: Work) -> Iterator[str]:
    yield from (
        "/board",
        "/board?on=2025-06-10",
        "/board?on=30+February",
        "/board?show=path&q=a&on=2026-12-05",
        "/lapses?days=60&by=station",
        "/board/wall",
    )
    yield from (f"/board/{work.hire}/pasta_room", f"/board/{work.sous}/saute")
    yield from ("/cooks", f"/cooks/{work.hire}", f"/cooks/{work.sous}", "/stations", "/standard", "/devices")
    yield from _writing_pages()
    disputed = work.disputed
    yield from (f"/contests/{disputed.contest}", f"/book/{disputed.leaning}/stands/{disputed.void}")
    yield from ("/second/waits", "/second/recovery", "/recovery", "/devices/invite", "/devices/own-phones", "/clock")
    yield from (
        "/left",
        "/left?years=3",
        "/left?years=three",
        "/left/erase",
        "/hand-out",
        "/calendar",
        "/health-notice",
        "/inspection",
    )
    yield from ("/nights", f"/nights?ill={work.sous}", "/training-plan", f"/training-plan?out={work.hire}:saute")
    yield from (f"/way/pasta_room/{work.hire}", "/most-wrong", f"/look-again/kept/{work.again}")
    yield from ("/paths", f"/paths/new?cook={work.hire}", f"/paths/{work.path}/close")
    yield from ("/contests", "/own-word", "/known-before", f"/cooks/{work.sous}/authority/new")
    yield from ("/first-hour", "/settings", "/standard/limits", "/standard/limits/hot_holding")
    yield from ("/open-places", "/cooks/new", f"/cooks/{work.hire}/change", f"/cooks/{work.sous}/leaves")
    yield from ("/plan?since=2026-12-07&until=2026-12-20", "/plan/2026-11-30/dinner")
    yield from (
        "/plan",
        "/plan?since=soon",
        "/services",
        "/services/one-day",
        "/services/names",
        "/services/names?service=dinner",
        "/services/close",
        "/services/2026-11-27/dinner/close",
    )
    yield from ("/second", "/authority", "/signers?on=2026-05-03")
    acts = (
        "age",
        "erase",
        "record",
        "roles",
        "certificates/new",
        "put-back",
        "leaves",
        "first-code",
        "try-again",
    )
    yield from (f"/cooks/{work.hire}/{act}" for act in acts)
    yield from ("/off", f"/off/{work.hire}")
    yield f"/cooks/{work.hire}/stops/{work.stop}/release"
    yield from (f"/knows/{work.hire}", f"/knows/{work.hire}/waits/tempering_heat/lift")
    yield from (f"/cooks/{work.sous}/grant", f"/devices/{work.device}/revoke", f"/devices/{work.device}/share")
    yield from (
        "/book",
        f"/book?cook={work.hire}",
        "/book/verify",
        "/book/kept",
        "/book/lost",
        "/book/door",
        f"/book/{work.entry}/void",
    )
    yield f"/book/{work.result}/questions/void"
    yield from ("/roster", f"/roster/{work.faulty}", f"/roster/{work.ready}", "/own-secret")
