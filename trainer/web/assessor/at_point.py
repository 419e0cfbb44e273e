"""The point on screen, and of several pieces the one whose readings are taken: its form, and what is typed in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from flask import request
from wtforms import RadioField, TextAreaField

from trainer.kitchen.measured import Typed
from trainer.kitchen.practical import PointSeen
from trainer.kitchen.watched_points import WatchedPoint, not_seen_yet
from trainer.messages import message
from trainer.web import reading
from trainer.web.assessor.in_hand import InHand
from trainer.web.assessor.practical_view import PointView, as_typed, point_view
from trainer.web.forms import KitchenForm, TextField

UNITS = ("unit", "unit_2")
"""The fields of the units: of a pair the second line has one of its own."""
MOST_DIGITS = 4


class PointForm(KitchenForm):
    """What was seen at one point; the readings of the piece on screen, and their unit, are fields added a point."""

    note = TextAreaField(message("Note"))

    @property
    def readings(self) -> list[TextField]:
        """Return the fields of the readings, in the sequence they are taken."""
        return [field for field in self if field.name.startswith("reading_")]


@dataclass(frozen=True, slots=True)
class AtPoint:
    """The point on screen, and of several pieces the one (0 is the first) whose readings are taken."""

    hand: InHand
    number: int
    view: PointView
    watched: WatchedPoint
    piece: int

    @property
    def places(self) -> range:
        """Return the places of the readings of this piece among all of the point."""
        each = len(self.watched.as_asked.lines) if self.view.labels else 0
        return range(self.piece * each, (self.piece + 1) * each)

    @property
    def is_last(self) -> bool:
        """Return whether all other pieces are read, so that the point can be judged."""
        so_far = self.watched.readings_so_far if self.view.labels else ()
        return all(text for place, text in enumerate(so_far) if place not in self.places)


def at_point(hand: InHand, number: int, asked: str) -> AtPoint:
    """Return the point on screen: the piece that is asked for, else the first that is not read, else the last."""
    point = hand.point(number)
    watched = hand.practical.point(point.id)
    if watched is None or (watched.pieces, len(watched.as_asked.lines)) != (point.pieces, len(point.lines)):
        watched = not_seen_yet(point, hand.technique.words_edition)  # the checklist has changed: nothing goes on
    each, so_far = max(1, len(point.lines)), watched.readings_so_far
    piece = so_far.index("") // each if "" in so_far else point.pieces - 1
    if asked.isascii() and asked.isdigit() and len(asked) < MOST_DIGITS and 1 <= int(asked) <= point.pieces:
        piece = int(asked) - 1
    return AtPoint(hand, number, point_view(point, reading.now().units), watched, piece if point.pieces > 1 else 0)


def typed_readings(at: AtPoint, form: PointForm) -> tuple[Typed, ...]:
    """Return every reading: of the piece on screen as keyed in, in the unit told beside it, of others as kept.

    With it goes what it was answered to have been.
    """
    units = [form[name].data for name in UNITS if name in form] or [""]
    found = [Typed(text, "", text) for text in at.watched.readings_so_far] if at.view.labels else []
    for place, field in zip(at.places, form.readings, strict=True):
        found[place] = Typed(field.data, units[place % len(units)], request.form.get(f"answer_{place + 1}", ""))
    return tuple(found)


def point_form(at: AtPoint, kept: PointSeen | None) -> PointForm:
    """Return the form of a point, one field a reading of the piece on screen with its unit, filled with what was kept.

    A piece that is not read yet has the unit of those that are.
    """
    view, so_far = at.view, at.watched.readings_so_far
    keyed = [line.units for line in view.pair] or ([view.units] if view.labels else [])
    fields: dict[str, Any] = {f"reading_{place + 1}": TextField(view.labels[place]) for place in at.places}
    names, values = list(fields), dict[str, Any]()
    for place, (name, keys) in enumerate(zip(UNITS, keyed, strict=False)):
        symbols = [key.symbol for key in keys]
        here = so_far[at.places.start + place] if at.places else ""
        unit, texts = as_typed([here] if here else [text for text in so_far[place :: len(keyed)] if text], symbols)
        values |= {names[place]: texts[0]} if here else {}
        fields[name] = RadioField(message("Unit"), choices={s: s for s in symbols}, validate_choice=False)
        values[name] = unit or symbols[0]
    made = type("PointForm", (PointForm,), fields)
    form: PointForm = made(note=kept.note if kept else "", **values)
    return form
