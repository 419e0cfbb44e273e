"""Which pages a phone keeps for whoever is signed in: their own, within a budget, each by its version."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import Any

from flask import current_app, url_for

import trainer
from trainer.actions import studying, watching
from trainer.actions.asking_skills import questions_of_today, standings_of
from trainer.actions.next_tasks import tasks_to_do
from trainer.actions.watching import Practical
from trainer.kitchen.clearance import is_read
from trainer.kitchen.open_paths import paths_of
from trainer.kitchen.technique import Technique
from trainer.web import guard, reading
from trainer.web.assessor.in_hand import InHand
from trainer.web.cook.front import step_url
from trainer.web.cook.screen import style_url
from trainer.web.night.tonight import my_moves, my_places
from trainer.web.photographs import photograph_url

MOST_PAGES = 200
MOST_BYTES = 15_000_000
MOST_WITHOUT_PATH = 6
"""How many techniques are kept of who goes for no station."""

KeptPage = dict[str, Any]
"""A page to keep: `url`, `version`; `from`, the address it is fetched from; `step` where to have been there counts."""


def pages_to_keep() -> list[KeptPage]:
    """Return the pages to keep, what is needed soonest first."""
    found = [*_waiting_pages()]
    if "assessor" in guard.roles() and guard.remembered() is None:
        found += _practical_pages()
    if "cook" in guard.roles():
        found += _own_pages()
        for technique in _techniques():
            more = list(_technique_pages(technique))
            if len(found) + len(more) <= MOST_PAGES:
                found += more
        there = {page["url"] for page in found}
        practice = [page for one in _techniques() if _front(one) in there for page in _practice_pages(one)]
        found += practice[: max(0, MOST_PAGES - len(found))]
    return found


def parts_to_keep() -> list[str]:
    """Return the addresses of what pages are drawn with."""
    static = Path(current_app.static_folder or "")
    named = current_app.jinja_env.globals["static_url"]
    fonts = [url_for("static", filename=f"fonts/{one.name}") for one in sorted(static.glob("fonts/*.woff2"))]
    names = ("base.css", "assessor.css", "trainer.js", "clocks.js", "kept.js", "lid.svg")
    return [*(named(name) for name in names), *fonts, *filter(None, [style_url()])]  # type: ignore[operator]


def version_of(parts: Iterable[object]) -> str:
    """Return a short digest of what a page hangs on."""
    return hashlib.sha256("|".join(map(str, parts)).encode()).hexdigest()[:16]


def _waiting_pages() -> Iterator[KeptPage]:
    """Yield the page that lists what waits, in place of every page that needs the network."""
    asked = _questions()
    version = version_of((_base(), "questions", *(url for _, url in asked), *_practice_due()))
    own = url_for("offline.unsent")
    yield {"url": own, "version": version}
    yield {"url": url_for("offline.unsent", about="network"), "version": version}
    if "cook" in guard.roles():
        yield {"url": url_for("questions.today"), "version": version, "from": own}
        for technique in dict.fromkeys(technique for technique, _ in asked):
            yield {"url": url_for("questions.ask", technique=technique), "version": version, "from": own}


def _own_pages() -> Iterator[KeptPage]:
    """Yield the cook's start, their record, the questions they may answer today, and the practice that is due."""
    home, version = url_for("cook.rail"), version_of((_base(), _own()))
    tonight = version_of((version, *_places_today()))
    yield {"url": home, "version": tonight}
    yield {"url": "/", "version": tonight, "from": home}
    yield {"url": url_for("cook.record"), "version": version}
    for _, url in _questions():
        yield {"url": url, "version": version}
    for technique, skill, parts in _practice_due():
        for part in parts:
            url = url_for("practice.practise", technique=technique, skill=skill, part=part)
            yield {"url": url, "version": version}


def _places_today() -> tuple[str, ...]:
    """Return where the cook stands today: a plan made anew makes their start anew."""
    k, me, today = guard.kitchen(), guard.person().id, guard.today()
    return tuple(str(reading.said(one)) for one in (*my_places(k, me, today), *my_moves(k, me, today)))


def practice_links() -> list[tuple[str, str]]:
    """Return the title and address of each practice that is due, and of the first question to try of a technique."""
    if "cook" not in guard.roles():
        return []
    content, kept = reading.content(), {page["url"] for page in pages_to_keep()}
    due = {
        skill: (content.skills[skill].title, url_for("practice.practise", technique=technique, skill=skill))
        for technique, skill, _ in reversed(_practice_due())
    }
    tries = [(one.title, _try_urls(one)) for one in _techniques()]
    return [*due.values(), *((title, found[0]) for title, found in tries if found and found[0] in kept)]


def _practice_due() -> list[tuple[str, str, tuple[int | None, ...]]]:
    """Return the technique and the skill of each practice that is due, with its parts: none alone beside a person."""
    if "cook" not in guard.roles():
        return []
    me, day = guard.person().id, guard.kitchen().day(guard.today())
    found: list[tuple[str, str, tuple[int | None, ...]]] = []
    for technique in _techniques():
        for one in standings_of(cook=me, technique=technique, day=day):
            if one.skill.stage == "drill" and is_read(me, technique, day.progress, day.on):
                found.append((technique.id, one.id, (None, 2) if one.skill.by_person else (None, 2, 3)))
    return found


def question_links() -> list[tuple[str, str]]:
    """Return the title and address of each question that can be answered without network."""
    skills = reading.content().skills
    return [(skills[url.rsplit("=", 1)[-1]].title, url) for _, url in _questions() if url.rsplit("=", 1)[-1] in skills]


def _questions() -> list[tuple[str, str]]:
    """Return the technique and address of each question asked today."""
    k, me = guard.kitchen(), guard.person().id
    if "cook" not in guard.roles():
        return []
    asked = questions_of_today(k, cook=me, day=k.day(guard.today()))
    return [(technique, url_for("questions.ask", technique=technique, skill=skill)) for technique, skill in asked]


def _techniques() -> list[Technique]:
    """Return the techniques of the cook's paths, those to read first; without a path, the next ones to do."""
    k, content, me, day = guard.kitchen(), reading.content(), guard.person().id, guard.kitchen().day(guard.today())
    going = [content.stations.get(one.path.station) for one in paths_of(me, day)]
    names = dict.fromkeys(name for station in going if station for name in station.techniques)
    if not names:
        to_do = tasks_to_do(k, cook=me, on=day.on, content=content)
        names = dict.fromkeys(task.technique.id for task in to_do[:MOST_WITHOUT_PATH])
    found = [content.techniques[name] for name in names if name in content.techniques]
    return sorted(found, key=lambda one: is_read(me, one, day.progress, day.on))


def _technique_pages(technique: Technique) -> Iterator[KeptPage]:
    """Yield a technique's first page, its steps by name, each step with its photograph, and what comes after them."""
    cook = guard.person().id
    been = sorted(studying.steps_been(guard.kitchen(), cook=cook, technique=technique))
    fixed, own = version_of((_base(),)), version_of((_base(), _own(), been))
    yield {"url": _front(technique), "version": own}
    yield {"url": url_for("cook.step_list", technique=technique.id), "version": own}
    for number, step in enumerate(technique.steps, 1):
        yield {"url": step_url(technique, number), "version": fixed, "step": True}
        if photograph := photograph_url(technique.id, step):
            yield {"url": photograph, "version": fixed}
    yield {"url": url_for("cook.after", technique=technique.id), "version": own}


def _front(technique: Technique) -> str:
    return url_for("cook.technique", technique=technique.id)


def _try_urls(technique: Technique) -> list[str]:
    families = dict.fromkeys(each.family for each in technique.questions)
    return [url_for("study.try_one", technique=technique.id, family=family) for family in families]


def _practice_pages(technique: Technique) -> Iterator[KeptPage]:
    """Yield a technique's points to go through alone, and one question to try of each kind, another one each day."""
    if technique.checklist:
        yield {"url": url_for("rehearsing.rehearse", technique=technique.id), "version": version_of((_base(), _own()))}
    for url in _try_urls(technique):
        yield {"url": url, "version": version_of((_base(), guard.today()))}


def _practical_pages() -> Iterator[KeptPage]:
    """Yield the points of every practical under way; its record is signed, and that needs the network."""
    k, me = guard.kitchen(), guard.person().id
    yield {"url": url_for("offline.unsent", about="stopped"), "version": version_of((_base(), "stopped"))}
    for one in watching.practicals_by(k, me):
        technique = reading.content().techniques.get(one.technique)
        if technique is None:
            continue
        so_far = tuple(point.gathered for point in one.points)
        version = version_of((_base(), one.id, one.case, one.part, len(one.done), so_far))
        yield {"url": url_for("assessor.practical.resume", practical=one.id), "version": version}
        signing = url_for("offline.unsent", about="signing")
        yield {"url": url_for("assessor.signing.record", practical=one.id), "version": version, "from": signing}
        if not one.unsafe:
            yield from _stop_pages(one)
        for number, point in enumerate(() if one.needs_case else InHand(one, technique).points, 1):
            for piece in (None, *range(1, point.pieces + 1 if point.pieces > 1 else 1)):
                url = url_for("assessor.practical.point", practical=one.id, number=number, piece=piece)
                yield {"url": url, "version": version}


def _stop_pages(one: Practical) -> Iterator[KeptPage]:
    """Yield the pages that ask once more whether it was unsafe, and what: of the practical, and of each point."""
    version = version_of((_base(), one.id, one.case, one.part, "stop"))
    for point in (None, *(each.id for each in one.points)):
        yield {"url": url_for("assessor.stopping.stop", practical=one.id, point=point), "version": version}


def _base() -> str:
    """Return what every page hangs on: the program, what is taught, and how it is read."""
    k, now = guard.kitchen(), reading.now()
    return version_of((_program(), k.texts_on(guard.today()), now.language, now.units, now.currency, style_url()))


def _own() -> str:
    """Return what the pages about oneself hang on: how much is written of oneself, and the day."""
    record = guard.kitchen().progress().record(guard.person().id)
    counts = (len(value) for each in fields(record) if isinstance(value := getattr(record, each.name), tuple))
    return version_of((guard.today(), *counts))


@cache
def _program() -> str:
    """Return what tells this program from a newer one."""
    package = Path(trainer.__file__).parent
    files = sorted(path for path in package.rglob("*") if path.suffix in {".py", ".html", ".svg", ".css", ".js", ".po"})
    return version_of(f"{path}:{path.stat().st_size}:{path.stat().st_mtime_ns}" for path in files)
