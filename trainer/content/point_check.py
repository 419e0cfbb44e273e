"""What a typed checklist may not say: refused, each with the point, the value and the rule.

A checklist of the former kind is not asked for any of it: a kitchen's own files did not change when the program got
newer (`law` tells what the code asks of those).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.content.limits import asks_no_less, has_ends, is_same_kind, limit_text
from trainer.content.nodes import Diagnostics
from trainer.content.points import PointStructure
from trainer.kitchen.technique import Instrument, Limit, Point
from trainer.recipe_math.quantity import TEMPERATURE, TEMPERATURE_DIFFERENCE, Quantity

MOST_POINTS = 16
"""So many points one person can watch at one time; the house's own rule."""
A_QUARTER = 4
TWICE = 2


@dataclass(frozen=True, slots=True)
class PartAsked:
    """A part of a checklist as its file has it: its points, how many craft points are needed, and the line."""

    id: str
    points: tuple[str, ...]
    craft_needed: int
    line: int


@dataclass(frozen=True, slots=True)
class Checklist:
    """A typed checklist to be checked, with the code and the instruments of the house.

    `line` is where the checklist begins. A list that is not divided is one part of all points, without an id.
    """

    id: str
    points: Sequence[PointStructure]
    cases: Sequence[str]
    parts: Sequence[PartAsked]
    code: Mapping[str, Limit]
    instruments: Mapping[str, Instrument]
    line: int

    @property
    def all_cases(self) -> Sequence[str]:
        """Return the cases; one without a name where there are none."""
        return self.cases or ("",)

    def asked(self, case: str, part: PartAsked | None = None) -> list[Point]:
        """Return the points that are asked in a case, of one part or of all."""
        points = [each.point for each in self.points]
        names = {point.id for point in points} if part is None else set(part.points)
        return [p for p in points if p.id in names and (not p.cases or not case or case in p.cases)]


def check_checklist(found: Checklist, diagnostics: Diagnostics) -> None:
    """Add a problem for everything a typed checklist may not say."""
    for each in found.points:
        line = each.at.line
        for message, hint in (
            *_type_missing(each.point),
            *_law_as_something_else(each.point, found.code),
            *_laxer_than_law(each.point),
            *_without_seconds(each.point, found),
            *_instruments(each.point, found.instruments),
        ):
            diagnostics.add(line, message, hint)
    for at, message, hint in (*_parts(found), *_counts(found), *_two_lines(found)):
        diagnostics.add(at, message, hint)


def _type_missing(point: Point) -> Iterator[tuple[str, str]]:
    if not point.type:
        yield f"{point.id} has no type, and others have one.", "Write `type: law`, `result` or `craft`."


def _law_as_something_else(point: Point, code: Mapping[str, Limit]) -> Iterator[tuple[str, str]]:
    """Yield the problem of a limit of the code that can be missed, or is no law."""
    for line in point.lines:
        published = code.get(line.id)
        if published is None or not is_same_kind(line, published) or not has_ends(published):
            continue
        if point.type and point.type != "law":
            yield f"{point.id} is judged by {line.id}, a limit of the code, and is {point.type}.", "Write `type: law`."
        if point.pieces_inside < point.pieces:
            missed = point.pieces - point.pieces_inside
            yield f"{point.id} lets {missed} of {point.pieces} pieces miss {line.id}.", "Take pieces_inside out."


def _laxer_than_law(point: Point) -> Iterator[tuple[str, str]]:
    """Yield the problem of a line of the house that is laxer than the line of the code beside it."""
    if point.law is None or (point.limit is not None and _is_as_true(point.limit, point.law)):
        return
    if point.limit is None or not is_same_kind(point.limit, point.law):
        yield f"{point.id} has {point.law.id} beside a line of another kind.", "Name the limit it stands beside."
    elif not asks_no_less(point.limit, point.law):
        told = f"{limit_text(point.limit)}, laxer than {point.law.id} ({limit_text(point.law)})"
        yield f"{point.id} is judged by {told}.", "Write a line as strict as the code, or stricter."


def _is_as_true(line: Limit, law: Limit) -> bool:
    """Return whether a band of degrees lets a tool stray no further than the code does: within 2 °F, say."""
    band, end = _width(line), law.highest
    if band is None or end is None or end.unit.dimension != TEMPERATURE_DIFFERENCE:
        return False
    return line.lowest is not None and line.lowest.unit.dimension == TEMPERATURE and band <= end.base * TWICE


def _without_seconds(point: Point, found: Checklist) -> Iterator[tuple[str, str]]:
    """Yield the problem of a heat that the code asks for with its seconds, and is judged without them in some case."""
    for line in point.lines:
        seconds = f"{line.id}_time"
        if line.id not in found.code or seconds not in found.code or not has_ends(found.code[seconds]):
            continue
        cases = point.cases or found.all_cases
        judged = [each.point for each in found.points if seconds in {limit.id for limit in each.point.lines}]
        if not all(any(not p.cases or case in p.cases for p in judged) for case in cases):
            time = limit_text(found.code[seconds])
            hint = f"Judge it as a pair: `judged: pair, limit: [code.{line.id}, code.{seconds}]`."
            yield f"{point.id} is judged by {line.id} without its time ({time}).", hint


def _instruments(point: Point, known: Mapping[str, Instrument]) -> Iterator[tuple[str, str]]:
    """Yield the problems of instruments that cannot tell whether a reading is inside a line."""
    for line in point.lines:
        for tool in (known[id] for id in point.tools if id in known):
            if tool.steps and _measures(tool.steps[0], line) and not any(line.admits(step) for step in tool.steps):
                yield f"{point.id}: {tool.id} shows nothing inside {limit_text(line)}.", "Take another instrument."
            yield from _too_coarse(point.id, tool, line)


def _too_coarse(point: str, tool: Instrument, line: Limit) -> Iterator[tuple[str, str]]:
    """Yield the problems of an instrument whose steps, or whose error, are too large for a line closed at both ends."""
    band, told = _width(line), limit_text(line)
    if band is None:
        return
    if tool.step is not None and _measures(tool.step, line) and tool.step.base * A_QUARTER > band:
        hint = "Take an instrument with finer steps, or give the line more room."
        yield f"{point}: the step of {tool.id}, {_degrees(tool.step)}, is over a quarter of {told}.", hint
    if tool.true_within is not None and _measures(tool.true_within, line) and tool.true_within.base * TWICE > band:
        hint = "Give the line at least twice as much room, or take a truer instrument."
        yield (
            f"{point}: {tool.id} is true within {_degrees(tool.true_within)}, and {told} is narrower than twice that.",
            hint,
        )


def _degrees(quantity: Quantity) -> str:
    """Return a step or an error as an instrument's label says it: 2 °F."""
    return str(quantity).removesuffix(" difference")


def _width(line: Limit) -> Fraction | None:
    """Return the room of a line that is closed at both ends, in the base unit of a difference."""
    if line.lowest is None or line.highest is None:
        return None
    return line.highest.base - line.lowest.base


def _measures(shown: Quantity, line: Limit) -> bool:
    """Return whether an instrument shows what a line is about; steps of degrees are differences."""
    end = line.highest or line.lowest
    dimension = TEMPERATURE if shown.unit.dimension == TEMPERATURE_DIFFERENCE else shown.unit.dimension
    return end is not None and end.unit.dimension == dimension


def _parts(found: Checklist) -> Iterator[tuple[int, str, str]]:
    """Yield what is wrong with the parts: one too long, a point in none or in two."""
    for part in found.parts:
        longest = max(len(found.asked(case, part)) for case in found.all_cases)
        if longest > MOST_POINTS:
            hint = "Divide it, under `parts`: each part is watched and signed by itself."
            name = f"The part {part.id}" if part.id else found.id
            line = part.line if part.id else found.line
            yield line, f"{name} has {longest} points, more than {MOST_POINTS} to watch at one time.", hint
    for each in found.points:
        there = [part.id for part in found.parts if each.point.id in part.points]
        if len(there) != 1:
            where = f"in {' and '.join(there)}" if there else "in no part"
            yield each.at.line, f"{each.point.id} stands {where}.", "Name it in one part."


def _counts(found: Checklist) -> Iterator[tuple[int, str, str]]:
    """Yield the cases without a result, and the parts whose craft cannot be met in some case."""
    for case in found.all_cases:
        named = f" in the case {case}" if case else ""
        if not any(point.type == "result" for point in found.asked(case)):
            hint = "Add a point of type result: the dish, or what comes of the work."
            yield found.line, f"{found.id} has no result{named}.", hint
        for part in found.parts:
            crafts = sum(point.type == "craft" for point in found.asked(case, part))
            if part.craft_needed > crafts:
                hint = f"Ask for {crafts} or fewer, or add craft points."
                what = f"{part.id or found.id} needs {part.craft_needed} craft points, but {crafts} are asked{named}."
                yield part.line, what, hint


def _two_lines(found: Checklist) -> Iterator[tuple[int, str, str]]:
    """Yield the points that judge one quantity by another line than a point before does."""
    for each, other in _pairs(found.points):
        if not _meet(each.point, other.point):
            continue
        for line in each.point.lines:
            twin = next((one for one in other.point.lines if one.id == line.id and _ends(one) != _ends(line)), None)
            if twin is not None:
                message = (
                    f"{line.id} is judged as {limit_text(line)} here and as {limit_text(twin)} at {other.point.id}."
                )
                yield each.at.line, message, "One quantity has one line: name the same at both."


def _pairs(points: Sequence[PointStructure]) -> Iterable[tuple[PointStructure, PointStructure]]:
    return ((each, other) for place, each in enumerate(points) for other in points[:place])


def _meet(one: Point, other: Point) -> bool:
    """Return whether two points are asked in one case."""
    return not one.cases or not other.cases or bool(set(one.cases) & set(other.cases))


def _ends(line: Limit) -> tuple[object, object]:
    return line.lowest, line.highest
