"""The numbers of a scene: drawn by the clock, or near a line of the standard or the code; and the one asked for."""

from __future__ import annotations

import re
from abc import abstractmethod
from collections.abc import Mapping
from fractions import Fraction

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.kinds import Kind, Written
from trainer.content.mapping_reader import SHORT, MappingReader, nearest, shown
from trainer.content.nodes import Node, ScalarNode
from trainer.content.parts import StandardLines, line_name
from trainer.kitchen.quiz.scenes import SceneDraw, SceneKey
from trainer.recipe_math.quantity import Quantity

NUMBER = r"-?\d+(?:/\d+)?"
RANGE = re.compile(rf"({NUMBER}) to ({NUMBER})(?: step ({NUMBER}))?")
CLOCK = re.compile(r"(\d{1,2}):(\d\d) to (\d{1,2}):(\d\d)")
CLOCK_STEP = 5
Span = tuple[Fraction, Fraction, Fraction]
NO_SPAN: Span = (Fraction(0), Fraction(0), Fraction(1))


def span() -> Kind:
    """Return a range of whole numbers or fractions, by ones where no step is named."""

    def read(node: Node, name: str, at: MappingReader) -> Span:
        found = RANGE.fullmatch(node.value) if isinstance(node, ScalarNode) else None
        lowest, highest, step = (Fraction(each or 1) for each in found.groups()) if found else NO_SPAN
        if found and lowest <= highest and step > 0:
            return lowest, highest, step
        at.diagnostics.add(node.line, f"{name} is {shown(node)}, not a range.", 'Write it like "4 to 20 step 2".')
        return NO_SPAN

    return Kind("4 to 20 step 2", read, {"type": "string"}, NO_SPAN)


def times_of_day() -> Kind:
    """Return a range of times of day, in minutes past midnight."""

    def read(node: Node, name: str, at: MappingReader) -> Span:
        found = CLOCK.fullmatch(node.value) if isinstance(node, ScalarNode) else None
        hour, minute, last_hour, last = map(int, found.groups()) if found else (1, 0, 0, 0)
        first, end = hour * 60 + minute, last_hour * 60 + last
        if found and first <= end < 1440 and max(minute, last) < 60:
            return Fraction(first), Fraction(end), Fraction(CLOCK_STEP)
        at.diagnostics.add(node.line, f"{name} is {shown(node)}, not times of day.", 'Write it like "9:00 to 20:00".')
        return NO_SPAN

    return Kind("9:00 to 20:00", read, {"type": "string"}, NO_SPAN)


def line_value(name: Written, lines: StandardLines, at: MappingReader) -> Quantity | None:
    """Return the one number of a line: its target, or the end it has."""
    limit = lines.named(name, at)
    return None if limit is None else limit.target or limit.highest or limit.lowest


class DrawBlock(Block):
    """A number of a scene that is drawn."""

    @abstractmethod
    def draw(self, id: str, lines: StandardLines, before: Mapping[str, SceneDraw]) -> SceneDraw | None:
        """Return the record; None, with a problem, where a line or a draw it names is not there."""


class ClockDraw(DrawBlock):
    """A time of day."""

    told_by = "between"

    between: Span = key(times_of_day(), "From when to when.")

    def draw(self, id: str, lines: StandardLines, before: Mapping[str, SceneDraw]) -> SceneDraw | None:
        """Return the record."""
        return SceneDraw(id, "clock", *self.between)


class AfterDraw(DrawBlock):
    """A time of day later than another one, by a share of a line."""

    told_by = "after"

    after: str = key(kinds.text(SHORT), "The draw it comes after.")
    line: Written | None = key(line_name(), "A line that is a time.")
    percent: Span = key(span(), "How much of the line has gone, in percent.")

    def draw(self, id: str, lines: StandardLines, before: Mapping[str, SceneDraw]) -> SceneDraw | None:
        """Return the record."""
        value = line_value(self.line, lines, self.at) if self.line else None
        if self.after not in before or before[self.after].how not in {"clock", "after"}:
            self.at.add(f"{id} comes after {self.after!r}, no time drawn above it.", nearest(self.after, before))
            return None
        if value is not None and value.unit.dimension != "duration":
            self.at.add(f"{id} is measured by a line that is no time.", "Name a line that is a time.")
            return None
        return None if value is None else SceneDraw(id, "after", *self.percent, value, self.after)


class NearDraw(DrawBlock):
    """A reading so much above a line, or below it where negative, in the line's own unit."""

    told_by = "near"

    near: Written | None = key(line_name(), "The line.")
    by: Span = key(span(), "How far from it.")

    def draw(self, id: str, lines: StandardLines, before: Mapping[str, SceneDraw]) -> SceneDraw | None:
        """Return the record."""
        value = line_value(self.near, lines, self.at) if self.near else None
        return None if value is None else SceneDraw(id, "near", *self.by, value)


class TimesDraw(DrawBlock):
    """So many times a line."""

    told_by = "times"

    times: Written | None = key(line_name(), "The line.")
    by: Span = key(span(), "How many times.")

    def draw(self, id: str, lines: StandardLines, before: Mapping[str, SceneDraw]) -> SceneDraw | None:
        """Return the record."""
        value = line_value(self.times, lines, self.at) if self.times else None
        return None if value is None else SceneDraw(id, "times", *self.by, value)


DRAW_SHAPES = (ClockDraw, AfterDraw, NearDraw, TimesDraw)


class KeyBlock(Block):
    """The number a scene asks for."""

    @abstractmethod
    def key_of(self, lines: StandardLines, draws: Mapping[str, SceneDraw]) -> SceneKey | None:
        """Return the record; None, with a problem, where a line or a draw it names is not there."""

    def known(self, names: tuple[str, ...], draws: Mapping[str, SceneDraw]) -> bool:
        """Return whether all these draws are there; each that is not is a problem."""
        for name in (name for name in names if name not in draws):
            self.at.add(f"The key names {name!r}, which is not drawn.", nearest(name, draws))
        return all(name in draws for name in names)


class LeftKey(KeyBlock):
    """What is left of a line that is a time."""

    told_by = "left"

    left: Written | None = key(line_name(), "The line.")
    since: str = key(kinds.text(SHORT), "The draw from which it counts.")
    now: str = key(kinds.text(SHORT), "The draw up to which it has gone.")
    instead: Written | None = optional(line_name(), "A line that is often taken in its place.")

    def key_of(self, lines: StandardLines, draws: Mapping[str, SceneDraw]) -> SceneKey | None:
        """Return the record, in minutes."""
        value = line_value(self.left, lines, self.at) if self.left else None
        other = line_value(self.instead, lines, self.at) if self.instead else None
        known = self.known((self.since, self.now), draws)
        return SceneKey("left", value, (self.since, self.now), "min", other) if known and value else None


class SumKey(KeyBlock):
    """A line on top of what is drawn, in seconds."""

    told_by = "sum"

    line: Written | None = key(line_name(), "The line, a time.", name="sum")
    on: str = key(kinds.text(SHORT), "The draw it comes on top of.")
    instead: Written | None = optional(line_name(), "A line that is often taken in its place.")

    def key_of(self, lines: StandardLines, draws: Mapping[str, SceneDraw]) -> SceneKey | None:
        """Return the record."""
        value = line_value(self.line, lines, self.at) if self.line else None
        other = line_value(self.instead, lines, self.at) if self.instead else None
        return SceneKey("sum", value, (self.on,), "s", other) if self.known((self.on,), draws) and value else None


class PartsKey(KeyBlock):
    """How often a line goes into what is drawn."""

    told_by = "parts"

    parts: Written | None = key(line_name(), "The line.")
    of: str = key(kinds.text(SHORT), "The draw it goes into.")
    instead: Written | None = optional(line_name(), "A line that is often taken in its place.")

    def key_of(self, lines: StandardLines, draws: Mapping[str, SceneDraw]) -> SceneKey | None:
        """Return the record, a count."""
        value = line_value(self.parts, lines, self.at) if self.parts else None
        other = line_value(self.instead, lines, self.at) if self.instead else None
        return SceneKey("parts", value, (self.of,), "each", other) if self.known((self.of,), draws) and value else None


KEY_SHAPES = (LeftKey, SumKey, PartsKey)
