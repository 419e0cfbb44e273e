"""A cook's own page: the station gone for, what is left, the path with what is next, today's questions, what waits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from flask import request, url_for

from trainer.actions.asking_skills import asked_today
from trainer.actions.own_home import FOR_OTHERS, Home, home_of, on_tonight_for
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.open_paths import PathStanding
from trainer.kitchen.spans import in_short
from trainer.kitchen.tasks import Task
from trainer.kitchen.technique import Technique
from trainer.kitchen.time_left import minutes_text
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, reading
from trainer.web.cook import tasks
from trainer.web.cook.front import step_url
from trainer.web.cook.news import NewsLine, news_lines
from trainer.web.cook.notice import notice_to_read
from trainer.web.filters import clock_time, local, weekday
from trainer.web.forms import PlainForm
from trainer.web.manager.board_view import short_names
from trainer.web.night.tonight import my_moves, my_places
from trainer.web.page import Page


@dataclass(frozen=True, slots=True)
class Mark:
    """One technique on the path: its shape, its name for who listens, and whether it is the next one."""

    title: str
    state: str
    is_next: bool


@dataclass(frozen=True, slots=True)
class Row:
    """One technique in a list: where it is, and a few words beside it."""

    title: str
    state: str
    url: str
    words: Text


@dataclass(frozen=True, slots=True)
class Ticket:
    """What is next, as it hangs from the path: its state, and what is to do with how long that takes.

    `rehearsal` goes through its points alone, where only the practical is left; None where it is not.
    """

    title: str
    state: str
    url: str
    line: Text
    rehearsal: tasks.NextAction | None


@dataclass(frozen=True, slots=True)
class QuestionsToday:
    """How many questions are asked today, how long they take, what for, and where they begin."""

    words: Text
    minutes: Text
    why: Text
    url: str


@dataclass(frozen=True, slots=True)
class OtherPath:
    """Another station the cook goes for, by when, and its page."""

    words: Text
    url: str


@dataclass(frozen=True, kw_only=True)
class HomePage(Page):
    """A cook's own page. `station` is empty where none is gone for: `begins` then says that none was ever held.

    `notice_url` leads to the notice on illness, while the reader has not read it.
    """

    template: ClassVar[str] = "cook/home.html"
    station: str
    by: Text
    wish: Text
    way_url: str
    begins: bool
    left: tuple[Text, ...]
    marks: tuple[Mark, ...]
    ticket: Ticket | None
    today: QuestionsToday | None
    notice_url: str
    waits: Text
    waiting: tuple[Row, ...]
    after: tuple[Row, ...]
    spike: tuple[tasks.DoneItem, ...]
    others: tuple[OtherPath, ...]
    lids: tuple[Row, ...]
    moved: tuple[Text, ...]
    places: tuple[Text, ...]
    asides: tuple[Text, ...]
    news: tuple[NewsLine, ...]
    act: tasks.NextAction
    to_listen: tuple[Text, ...]
    form: PlainForm


def home_page(form: PlainForm) -> HomePage:
    """Return the reader's own page as things stand."""
    k, me, words = guard.kitchen(), guard.person().id, reading.content()
    day = k.day(guard.today())
    home = home_of(k, cook=me, day=day, words=words, station=request.args.get("station", ""))
    shown = home.next or next(iter(home.waiting), None)
    ticket, act = _ticket(shown, home) if shown else None, _act(home)
    rest = [task for task in home.after if home.begins or task is not shown]
    return HomePage(
        title=message("My page"),
        station=words.stations[home.path.path.station].title if home.path else "",
        by=_by(home.path) if home.path else "",
        wish=_wish(home.path) if home.path else "",
        way_url=url_for("way.own", station=home.path.path.station) if home.path else "",
        begins=home.begins,
        left=_left(home) if home.path else (),
        marks=tuple(Mark(one.technique.title, one.state, one is shown) for one in home.tasks) if home.path else (),
        ticket=ticket,
        today=_today(home, day),
        notice_url=notice_to_read(),
        waits=_waits([task for task in home.waiting if task is not shown]),
        waiting=tuple(_waiting_row(task, day) for task in home.waiting),
        after=tuple(_row(task, _length(task, home)) for task in rest),
        spike=_signed(home, day) if home.path else (),
        others=tuple(_other(one) for one in home.others),
        lids=_lids(day),
        moved=my_moves(k, me, guard.today()),
        places=my_places(k, me, guard.today()),
        asides=tuple(aside.words for aside in tasks.asides()),
        news=news_lines(),
        act=act,
        to_listen=(ticket.title, ticket.line, act.words) if ticket and not home.begins else (act.words,),
        form=form,
    )


def _by(path: PathStanding) -> Text:
    return in_short(path.path.by_day, with_year=path.path.by_day.year != path.clearance.on.year)


def _wish(path: PathStanding) -> Text:
    """Return that nobody has agreed yet, where the cook opened the path; empty where somebody else did."""
    if path.path.by != path.cook:
        return ""
    return message("You said so on {day}. A sous chef or the manager agrees.", day=weekday(path.path.on))


def _left(home: Home) -> tuple[Text, ...]:
    """Return how many are signed, and what is left of all of it."""
    done = message("{signed} of {asked} signed.", signed=len(home.signed), asked=len(home.tasks))
    minutes = home.all_left.minutes(home.pace)
    parts: list[Text] = [message("{time} to read", time=minutes_text(minutes))] if minutes else []
    parts += [plural("{number} to show", "{number} to show", home.to_show)] if home.to_show else []
    beside = plural("{number} shift beside a cleared cook", "{number} shifts beside a cleared cook", home.shifts_left)
    parts += [beside] if home.shifts_left else []
    return (done, message("Left: {things}.", things=joined(parts, ", "))) if parts else (done,)


def _minutes(task: Task, home: Home) -> int:
    return home.left[task.technique.id].minutes(home.pace)


def _length(task: Task, home: Home) -> Text:
    """Return how long a technique takes yet; from which day it goes on, where it waits for one."""
    if task.act in ("wait for quiz", "wait for questions"):
        return task.words(guard.now())
    return minutes_text(_minutes(task, home))


def _ticket(task: Task, home: Home) -> Ticket:
    """Return what is next, with the step come to by its name, and the minutes left."""
    technique, step = task.technique, task.under_way.step
    if task.act == "read" and step:
        name = technique.steps[step - 1].title
        line: Text = message("Step {number} of {total}, {step}.", number=step, total=len(technique.steps), step=name)
    else:
        line = task.words(guard.now())
    if task.act not in FOR_OTHERS and (minutes := _minutes(task, home)):
        line = joined([line, message("{time}.", time=minutes_text(minutes))])
    return Ticket(technique.title, task.state, _url(technique), line, tasks.rehearsal_of(task))


def _today(home: Home, day: Snapshot) -> QuestionsToday | None:
    """Return the questions of today; None where none is asked."""
    found = asked_today(guard.kitchen(), cook=guard.person().id, day=day)
    if found.next is None:
        return None
    taught = reading.content().techniques.get(found.next[0])
    first = message("First: {title}.", title=taught.title) if taught else ""
    keeps = message("They keep {day}.", day=_by(home.path)) if home.path and home.path.state == "open" else ""
    if found.refreshers == found.at_most:
        keeps = message("They come again, so that it stays.")
    words = plural("{number} question today", "{number} questions today", found.at_most)
    minutes = minutes_text(max(1, round(found.at_most * home.pace / 60)))
    return QuestionsToday(words, minutes, joined(part for part in (keeps, first) if part), url_for("questions.today"))


def _waits(waiting: Sequence[Task]) -> Text:
    """Return what waits for others beside what is shown, in one line."""
    if not waiting:
        return ""
    titles = joined((task.technique.title for task in waiting), ", ")
    count = plural("{number} waits for others:", "{number} wait for others:", len(waiting))
    return joined([count, titles])


def _waiting_row(task: Task, day: Snapshot) -> Row:
    """Return what waits: since when, and who is on today that may watch it."""
    since, me = task.standing.asked_since, guard.person().id
    if task.act == "be released" or since is None:
        return _row(task, task.words(guard.now()))
    asked = message("Asked {day}, {time}.", day=weekday(local(since).date()), time=clock_time(since))
    called = short_names(person.name for person in day.people.values())
    on = [called[day.name(who)] for who in on_tonight_for(guard.kitchen(), me, task.technique.id, day)]
    who = plural("{names} is on today.", "{names} are on today.", len(on), names=joined(on, ", ")) if on else ""
    return _row(task, joined(part for part in (asked, who) if part))


def _row(task: Task, words: Text) -> Row:
    return Row(task.technique.title, task.state, _url(task.technique), words)


def _url(technique: Technique) -> str:
    return url_for("cook.technique", technique=technique.id)


def _signed(home: Home, day: Snapshot) -> tuple[tasks.DoneItem, ...]:
    """Return what is signed of the path, who signed it and when; the latest first."""
    found = []
    record = day.record(guard.person().id)
    for task in home.signed:
        line = next((one for one in reversed(record.watched) if _signs(one.technique, one.verdict, task)), None)
        words = message("signed {day}, {name}", day=weekday(line.on), name=day.name(line.by)) if line else ""
        found.append((line.seq if line else 0, tasks.DoneItem(line.entry if line else "", task.technique.title, words)))
    return tuple(item for _, item in sorted(found, key=lambda one: one[0], reverse=True))


def _signs(technique: str, verdict: str, task: Task) -> bool:
    return technique == task.technique.id and verdict == "meets it"


def _other(path: PathStanding) -> OtherPath:
    title = reading.content().stations[path.path.station].title
    words = message("{station}, ready by {day}", station=title, day=_by(path))
    return OtherPath(words, url_for("cook.rail", station=path.path.station))


def _lids(day: Snapshot) -> tuple[Row, ...]:
    """Return the stations the reader may run, and until when."""
    stations = reading.content().stations.values()
    ruled = ((one, day.rules.stations.get(one.id)) for one in stations)
    found = ((one, day.clearance(guard.person(), rule)) for one, rule in ruled if rule)
    return tuple(
        Row(
            one.title,
            cleared.state,
            url_for("sheets.station", station=one.id),
            message("until {until}", until=in_short(cleared.until, with_year=True)) if cleared.until else "",
        )
        for one, cleared in found
        if cleared.is_cleared
    )


def _act(home: Home) -> tasks.NextAction:
    """Return the one act at the foot: what comes next, never what waits for others."""
    task, learn = home.next, tasks.NextAction(message("I want to learn a station"), url_for("paths.learn"))
    if home.begins and not (task and task.under_way.step):
        return learn
    if task is not None:
        return _of(task)
    waiting = next((one for one in home.waiting if one.act == "wait to be watched"), None)
    if waiting is not None:
        return _of(waiting)
    return tasks.NextAction(message("See my record"), url_for("cook.record"))


def _of(task: Task) -> tasks.NextAction:
    """Return the act of a task; what is being read goes on at its step."""
    step = task.under_way.step
    if task.act == "read" and step:
        name = task.technique.steps[step - 1].title
        return tasks.NextAction(message("Go on: {step}", step=name), step_url(task.technique, step))
    card = tasks.card_of(task)
    return card.act or card.rehearsal or tasks.NextAction(task.technique.title, _url(task.technique))
