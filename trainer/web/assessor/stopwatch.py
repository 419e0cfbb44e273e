"""Stopwatches at a point: pressed among what is typed there, which stays; or stopped from the band of any page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import cast

from flask import Blueprint, abort, redirect, request
from werkzeug.wrappers import Response as AnyResponse

from trainer.actions.outcome import Refused
from trainer.actions.practical_drafts import Practical
from trainer.actions.stopwatches import Act, Press, in_use, press_watch
from trainer.kitchen.measured import Typed
from trainer.kitchen.reading_units import line_end
from trainer.kitchen.stopwatch import Stopwatch, is_same_time, is_timed
from trainer.kitchen.technique import Point
from trainer.web import guard
from trainer.web.assessor.in_hand import in_hand
from trainer.web.forms import KitchenForm, PlainForm
from trainer.web.offline import late
from trainer.web.page import own_path

pages = Blueprint("stopwatch", __name__)
READING = "reading_"
ACTS = ("start", "stop")
LONG = 600  # seconds


@dataclass(frozen=True, slots=True)
class WatchView:
    """The stopwatch of one reading: since when it runs, or what it showed; whether its field says the same.

    Where it neither runs nor shows, it is to be started; `is_by_hand`: something else is typed, or was to be.
    `is_long`: other points are watched meanwhile, or the time is read off a label, so the keys are there at once.
    """

    number: int
    since: datetime | None
    shown: str
    is_filled: bool
    is_by_hand: bool
    is_long: bool
    now: datetime

    @property
    def since_ms(self) -> int:
        """Return the moment it was started, as a browser counts."""
        return int(self.since.timestamp() * 1000) if self.since else 0

    @property
    def now_ms(self) -> int:
        """Return the moment of this page, as a browser counts."""
        return int(self.now.timestamp() * 1000)


@pages.post("/practicals/<practical>/<int:number>/watch")
@guard.needs("assessor")
def stop(practical: str, number: int) -> AnyResponse:
    """Stop a stopwatch from the band; then go back to the page that was open."""
    point, reading = in_hand(practical).point(number), request.form.get("clock", "")
    if not reading.isdecimal():
        abort(404)
    if PlainForm().is_sent_right():
        _press(practical, Press(point.id, int(reading), "stop"))
    return redirect(own_path(request.form.get("then", "")), 303)


def pressed(practical: Practical, point: Point, form: KitchenForm) -> Practical | None:
    """Return the practical after the stopwatch that was pressed on a point's page; None where none was.

    What it showed when it was stopped stands in its field, and all else that was typed stays.
    """
    act, _, number = request.form.get("watch", "").partition(" ")
    if act not in ACTS or f"{READING}{number}" not in form:
        return None
    found = _press(practical.id, Press(point.id, int(number) - 1, cast(Act, act)))
    if isinstance(found, Refused):
        form.refuse(found)
        return practical
    watch = _watch_at(found, point, int(number) - 1)
    _fill(form, point, int(number) - 1, watch.shown if watch else "")
    return found


def fill_in(practical: Practical, point: Point, form: KitchenForm) -> None:
    """Put what every stopwatch showed that was stopped, and not judged by yet, into its field."""
    for place in timed_places(point, form):
        watch = _watch_at(practical, point, place)
        if watch is not None and watch.shown:
            _fill(form, point, place, watch.shown)


def watch_views(practical: Practical, point: Point, form: KitchenForm) -> Mapping[str, WatchView]:
    """Return the stopwatch of every reading on the page that is timed, by the name of its field."""
    return {f"{READING}{place + 1}": _view(practical, point, form, place) for place in timed_places(point, form)}


def timed_places(point: Point, form: KitchenForm) -> tuple[int, ...]:
    """Return which readings of the page are timed; 0 is the first of the point."""
    names = (field.name for field in form if field.name.startswith(READING))
    places = (int(name.removeprefix(READING)) - 1 for name in names)
    return tuple(place for place in places if is_timed(point, place))


def _view(practical: Practical, point: Point, form: KitchenForm, place: int) -> WatchView:
    watch, text = _watch_at(practical, point, place), form[f"{READING}{place + 1}"].data or ""
    shown = watch.shown if watch else ""
    typed = Typed(text, form[_unit_of(point)].data or "")
    is_filled = bool(shown and text) and is_same_time(point, place, typed, Typed(shown))
    since = watch.started if watch and watch.stopped is None else None
    is_by_hand = not is_filled and bool(text or form.problems())
    return WatchView(place + 1, since, shown, is_filled, is_by_hand, _is_long(point, place), guard.now())


def _is_long(point: Point, place: int) -> bool:
    """Return whether a time is longer than anybody stands and looks at a watch."""
    end = line_end(point.line_of(place))
    return end is not None and end.base >= LONG


def _watch_at(practical: Practical, point: Point, place: int) -> Stopwatch | None:
    """Return the stopwatch of a reading while it is of use."""
    watched = practical.point(point.id)
    found = (one for one in practical.watches.get(point.id, ()) if one.reading == place)
    return next((one for one in found if watched is not None and in_use(watched, one, guard.now())), None)


def _fill(form: KitchenForm, point: Point, place: int, shown: str) -> None:
    """Put a time into its field: a bare number where it is in the unit that is told beside it, or can be."""
    unit, parts = form[_unit_of(point)], shown.split(" ")
    is_bare = len(parts) == len(("number", "unit"))
    if is_bare and len(timed_places(point, form)) == 1 and parts[1] in unit.choices:
        unit.data = parts[1]
    form[f"{READING}{place + 1}"].data = parts[0] if is_bare and unit.data == parts[1] else shown


def _unit_of(point: Point) -> str:
    """Return the name of the field of the unit a time is told in: of a pair the second line has its own."""
    return "unit_2" if point.then is not None else "unit"


def _press(practical: str, press: Press) -> Practical | Refused:
    return press_watch(
        guard.kitchen(), by=guard.person().id, practical=practical, press=press, now=late.done_at() or guard.now()
    )
