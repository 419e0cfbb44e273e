"""What cooks know from before, on screen: one form for many of them, one entry a cook and station."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from flask import Blueprint, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import HiddenField, TextAreaField
from wtforms.fields.choices import SelectChoice

from trainer.actions import knowing
from trainer.actions.outcome import Outcome, Refused
from trainer.kitchen.book import Entry, canonical, digest_of
from trainer.kitchen.entitlement import Snapshot
from trainer.kitchen.roles import works_a_station
from trainer.messages import Text, joined, message, plural
from trainer.web import guard, proving, reading
from trainer.web.filters import weekday
from trainer.web.manager.acts import ActPage, TicksField
from trainer.web.page import go, show
from trainer.web.proving import LatelyForm, secret_field
from trainer.web.typed_fields import DayField, NeedsText, WholeField

pages = Blueprint("known_before", __name__)
BETWEEN = " "
MINUTES_A_WEEK = 60
"""For how long each assessor watches in a week, until the manager says otherwise: the house's own number."""


class KnownForm(LatelyForm):
    """Who knows which station or technique, to which day, and how the manager knows.

    Cooks and what they know are ticked apart, and become `cells`: a cook with a station, or with a single technique of
    one. These stay ticked, to be taken out one by one.
    """

    cooks = TicksField(message("These cooks"), choices=[])
    stations = TicksField(message("know all of these stations"), choices=[])
    techniques = TicksField(message("or these techniques alone"), choices=[])
    cells = TicksField(message("Who knows what"), choices=[])
    basis = TextAreaField(
        message("How you know"), [NeedsText(message("Write how you know. It stays in the book."), 500)]
    )
    weekly = WholeField(
        message("Minutes a week for watching"),
        description=message("All who assess together. The days are spread so that no week takes more."),
    )
    until_of_safety = DayField(
        message("Good to, with questions about safety"),
        description=message(
            "Year, month, day. The last of them; the others come before. Empty: 92 days from today, the longest."
        ),
    )
    until = DayField(
        message("Good to, without any"),
        description=message(
            "Year, month, day. The last of them; the others come before. Empty: 365 days from today, the longest."
        ),
    )
    seen = HiddenField()
    secret = secret_field()


@dataclass(frozen=True, kw_only=True)
class KnownPage(ActPage):
    """The form, and once it is filled the last days it gives and whose time they take, to be seen before the proof."""

    template: ClassVar[str] = "manager/known_before.html"
    days: tuple[Text, ...]
    load: tuple[Text, ...]
    passed_over: Text
    ticked: tuple[str, ...]


@pages.route("/known-before", methods=["GET", "POST"])
@guard.needs("manager")
def said() -> AnyResponse:
    """Say who knows what from before, for as many as are ticked."""
    form = KnownForm()
    if request.method == "GET":
        form.weekly.data = str(MINUTES_A_WEEK * max(len(knowing.assessors_of(_day())), 1))
    passed_over = _gathered(form)
    is_right = form.is_sent_right()
    there = _kept_before(form) if request.method == "POST" else None
    if there is not None:
        return go("board.tonight", saved=there.id)
    days = _days(form) if is_right else {}
    is_seen = bool(days) and form.seen.data == _mark(days)
    if is_seen and proving.is_proved(form):
        outcome = _kept(form)
        if not isinstance(outcome, Refused):
            return go("board.tonight", saved=outcome.entry.id)
        form.refuse(outcome)
    form.seen.data = _mark(days) if days else ""
    if not days:
        del form.secret
    else:
        proving.leave_out(form)
    heading = message("Known from before")
    lead = message(
        "For cooks who could do it before this book began. It stands for reading, questions and practical, is shown as "
        "known, not watched, and runs out. Age, papers and supervised shifts are asked all the same, and questions "
        "about safety from the first day."
    )
    return show(
        KnownPage(
            days=_lines(days),
            load=_load(days),
            passed_over=passed_over,
            ticked=tuple(form.cells.data or ()),
            title=heading,
            heading=heading,
            lead=lead,
            own_url=request.path,
            back=url_for("manager.people"),
            back_words=message("Back, and change nothing"),
            words=message("Write it down") if days else message("Show the days"),
            form=form,
        )
    )


def _gathered(form: KnownForm) -> Text:
    """Put the lists on the form, and every ticked cook with every ticked station and technique among its cells.

    Return how many of these were passed over, since nothing is left to say of them; nobody says it of themselves.
    """
    day, content, me = _day(), reading.content(), guard.person().id
    cooks = {c: name for c, name in day.cooks_by_name().items() if c != me and works_a_station(day.roles(c))}
    form.cooks.choices = [SelectChoice(cook, name) for cook, name in cooks.items()]
    form.stations.choices = [SelectChoice(name, station.title) for name, station in content.stations.items()]
    asked = {
        name: station for station in reversed(list(content.stations)) for name in content.stations[station].techniques
    }
    form.techniques.choices = [
        SelectChoice(name, technique.title) for name, technique in content.techniques.items() if name in asked
    ]
    wanted = list(_product(form, asked))
    left = [cell for cell in wanted if _is_left(cell)]
    cells = dict.fromkeys([*(form.cells.data or ()), *left])
    form.cells.choices = [SelectChoice(cell, words) for cell, words in _cells(cooks, cells).items()]
    if wanted:
        form.cells.data = [cell for cell in cells if cell in {choice.value for choice in form.cells.choices}]
        form.cooks.data, form.stations.data, form.techniques.data = [], [], []
    number = len(wanted) - len(left)
    return (
        plural(
            "{number} was passed over: nothing is left to say there.",
            "{number} were passed over: nothing is left to say there.",
            number,
        )
        if number
        else ""
    )


def _product(form: KnownForm, station_of: dict[str, str]) -> Iterator[str]:
    """Yield every ticked cook with every ticked station, then with every ticked technique that no such station has."""
    stations = form.stations.data or []
    whole = {name for one in stations if one in reading.content().stations for name in _techniques(one)}
    for cook in form.cooks.data or []:
        yield from (BETWEEN.join((cook, station)) for station in stations)
        for name in form.techniques.data or []:
            if name in station_of and name not in whole:
                yield BETWEEN.join((cook, station_of[name], name))


def _day() -> Snapshot:
    return guard.kitchen().day(guard.today())


def _techniques(station: str) -> tuple[str, ...]:
    return tuple(reading.content().stations[station].techniques)


def _is_left(cell: str) -> bool:
    """Return whether something is left to say of a cell."""
    cook, station, *technique = cell.split(BETWEEN)
    day = _day()
    if station not in day.rules.stations or cook not in day.people:
        return False
    left = knowing.left_to_say(cook, station, day)
    return technique[0] in left if technique else bool(left)


def _cells(cooks: dict[str, str], ticked: dict[str, None]) -> dict[str, Text]:
    """Return in words every cook at every station with something to say, and the single techniques that are ticked."""
    content = reading.content()
    found: dict[str, Text] = {}
    for cell in (*(BETWEEN.join((cook, name)) for cook in cooks for name in content.stations), *ticked):
        cook, station, *technique = (*cell.split(BETWEEN)[:3], "")[:3] if cell.count(BETWEEN) else ("", "", "")
        what = technique[0] if technique else ""
        if cook not in cooks or station not in content.stations or not _is_left(cell):
            continue
        title = content.techniques[what].title if what in content.techniques else content.stations[station].title
        found[cell] = message("{name}: {station}", name=cooks[cook], station=title)
    return found


def _kept_before(form: KnownForm) -> Entry | None:
    """Return the first entry of a form that was sent before, and is sent once more."""
    first = next(iter(_wanted(form).places), None)
    return guard.kitchen().file.book.find_key(knowing.key_of(str(form.key.data), first)) if first else None


def _days(form: KnownForm) -> knowing.Days:
    """Return to which day each technique would be known; nothing where it was refused, with the refusal on the form."""
    k, by, now = guard.kitchen(), guard.person().id, guard.now()
    found = knowing.days_of(k, by=by, knowing=_wanted(form), now=now)
    if isinstance(found, Refused):
        form.refuse(found)
        return {}
    return found


def _mark(days: knowing.Days) -> str:
    """Return what stands for the days a manager was shown, so that no others are written."""
    return digest_of(canonical({f"{cook} {name}": day.isoformat() for (cook, name), day in days.items()}).encode())


def _load(days: knowing.Days) -> tuple[Text, ...]:
    """Return whose time the practicals take, and how much of it in a week."""
    if not days:
        return ()
    load, people = knowing.load_of(guard.kitchen(), days, guard.today()), guard.kitchen().people()
    if not load.assessors:
        return (message("Nobody assesses yet: give somebody the role before the first day, or it runs out unwatched."),)
    names = joined([people[cook].name for cook in load.assessors], ", ")
    spread = plural(
        "Spread over {number} week, at most {fullest} minutes a week of the time of {names}.",
        "Spread over {number} weeks, at most {fullest} minutes a week of the time of {names}.",
        load.weeks,
        fullest=load.fullest,
        names=names,
    )
    return (spread, plural("{number} minute in all.", "{number} minutes in all.", load.total))


def _lines(days: knowing.Days) -> tuple[Text, ...]:
    """Return who is to be watched at what by which day, soonest first."""
    people, techniques = guard.kitchen().people(), reading.content().techniques
    return tuple(
        message(
            "{day}: {name}, {technique}",
            day=weekday(day),
            name=people[cook].name if cook in people else cook,
            technique=techniques[name].title if name in techniques else name,
        )
        for (cook, name), day in days.items()
    )


def _wanted(form: KnownForm) -> knowing.Knowing:
    """Return what the form says."""
    until, of_safety = knowing.latest_days(guard.today())
    told = [tuple(cell.split(BETWEEN)) for cell in form.cells.data or ()]
    whole = tuple((one[0], one[1]) for one in told if len(one) == 2)
    single = tuple((one[0], one[1], one[2]) for one in told if len(one) == 3)
    found = knowing.Knowing(whole, form.until.day or until, form.until_of_safety.day or of_safety, form.basis.data)
    return replace(found, single=single, weekly=form.weekly.number)


def _kept(form: KnownForm) -> Outcome:
    """Return what came of the form."""
    k, by = guard.kitchen(), guard.person().id
    return knowing.know_from_before(k, by=by, knowing=_wanted(form), now=guard.now(), key=form.key.data)
