"""The parts of a technique: hazards, steps, faults and the points of its checklist."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from math import ceil
from pathlib import Path
from typing import cast

from trainer.content.limits import duration_text
from trainer.content.nodes import Keyed, Many, Node, Text
from trainer.content.pair import Pair, ids_of, lines_of, listed, told_of
from trainer.content.schema import SHORT, Fields, nearest, shown, text_of
from trainer.content.words import Words, alt_text
from trainer.kitchen.technique import Fault, Hazard, Judged, Limit, Point, Step, StepKind, Timer

KINDS = ("do", "check", "weigh", "time", "tell", "stop")
FORMS = ("triangle", "barred", "disc")
MARKS = (
    "hot_surface", "sharp", "hands_in_machine", "electricity", "unplug", "chemical", "slippery", "flame", "germs",
    "wear_gloves", "wash_hands", "raw_egg", "allergen",
)  # fmt: skip
JUDGED = ("ticked", "weighed", "measured", "timed")
DIMENSIONS = {"weighed": "mass", "timed": "duration"}
LONGEST_STEP = 172_800


def hazards_of(pair: Pair) -> tuple[Hazard, ...]:
    """Return the hazards with their cautions."""
    entries = listed(pair.structure, "hazards", required=False)
    told = told_of(pair, "hazards", lines_of(entries), "hazard")
    found = []
    for key, fields in entries.items():
        form, mark = fields.one_of("form", FORMS), fields.one_of("mark", MARKS)
        found.append(Hazard(key, form, mark, pair.words.of(told.nodes.get(key), key)))
        fields.close()
    return tuple(found)


def steps_of(pair: Pair, hazards: Collection[str]) -> tuple[Step, ...]:
    """Return the steps, in order."""
    entries = listed(pair.structure, "steps")
    told = told_of(pair, "steps", lines_of(entries), "step")
    return tuple(_step(pair, key, fields, told.nodes.get(key), hazards) for key, fields in entries.items())


def _step(pair: Pair, key: str, fields: Fields, node: Node | None, hazards: Collection[str]) -> Step:
    """Return one step: what to do, and what right looks and feels like."""
    kind = fields.one_of("kind", KINDS)
    timers = _timers(pair, fields, required=kind == "time")
    seconds = timers[0].seconds if len(timers) == 1 else None
    figure = _figure(pair.folder, fields)
    named = fields.words("hazards", hazards, required=False)
    fields.close()
    inner = Fields.of(node, pair.words.sheet, key) if node else Fields(pair.words.sheet, pair.told.line, key)
    words = pair.words.with_own(
        {"seconds": duration_text(seconds or 0, pair.around.language)} if _is_one_timer(fields) else {}
    )
    step = Step(
        id=key,
        kind=cast(StepKind, kind),
        text=words.under(inner, "do", required=node is not None),
        cue=words.under(inner, "cue", required=False),
        why=words.under(inner, "why", required=False),
        figure=figure,
        figure_alt=alt_text(words, inner, "figure", expected=bool(figure) and node is not None),
        hazards=named,
        seconds=seconds,
        timers=timers if len(timers) > 1 else (),
    )
    inner.close()
    return step


def _is_one_timer(fields: Fields) -> bool:
    """Return whether a step names the one line its timer runs for; a list of lines has no single `{seconds}`."""
    return "lasts" in fields.nodes and not isinstance(fields.nodes["lasts"], Many)


def _timers(pair: Pair, fields: Fields, required: bool) -> tuple[Timer, ...]:
    """Return the timers of a step: one for the line that `lasts` names, or one for each line of a list."""
    node = fields.node("lasts", required)
    if not isinstance(node, Many):
        seconds = _seconds(pair, fields, node) if node is not None else None
        return (Timer("", seconds, ""),) if seconds is not None else ()
    if len(node.items) < 2:
        fields.sheet.note(node.line, "lasts is a list of fewer than two lines.", "Name one line, without the list.")
    found = (_timer(pair, fields, each) for each in node.items)
    return tuple(timer for timer in found if timer is not None)


def _timer(pair: Pair, fields: Fields, node: Node) -> Timer | None:
    """Return one of several timers, told in the sentence of its line; a line without a sentence is noted."""
    seconds, line = _seconds(pair, fields, node), node.value if isinstance(node, Text) else ""
    told = pair.told.nodes.get("standard")
    texts = {key.value: text for key, text in told.items} if isinstance(told, Keyed) else {}
    if seconds is None:
        return None
    if line not in texts:
        fields.sheet.note(node.line, f"{line} has no sentence to tell its timer by.", "Name lines of the standard.")
        return None
    return Timer(line, seconds, pair.words.of(texts[line], line))


def _seconds(pair: Pair, fields: Fields, node: Node) -> int | None:
    """Return how long a timer runs: the target of the line it names, or its lowest value."""
    key, limit = _line_named(pair, node)
    lasts = (limit.target or limit.lowest) if limit else None
    if limit is None:
        _note_unknown_line(pair, node, key, "lasts")
    elif lasts is None:
        mend = "A timer runs to a target or at least to a lowest value: name such a line."
        fields.sheet.note(node.line, f"{key} has a highest value alone, so no timer can run to it.", mend)
    elif lasts.unit.dimension != "duration" or not 1 <= lasts.base <= LONGEST_STEP:
        mend = "Name a line that is a time, from one second to two days."
        fields.sheet.note(node.line, f"{fields.name} lasts {lasts}.", mend)
    else:
        return ceil(lasts.base)
    return None


def _figure(folder: Path, fields: Fields) -> str:
    """Return the name of a figure that lies in the technique's folder; empty where there is none."""
    node = fields.node("figure", required=False)
    if node is None:
        return ""
    name = text_of(node, fields.sheet, "figure", SHORT)
    if name and (Path(name).name != name or not name.endswith(".svg")):
        fields.sheet.note(node.line, f"figure is {name!r}.", "Name an .svg file in this technique's own folder.")
    elif name and not (folder / name).is_file():
        there = {path.name for path in folder.glob("*.svg")}
        mend = nearest(name, there) if there else "Draw it, or take the key and its words out."
        fields.sheet.note(node.line, f"There is no figure {name} in {folder.name}.", mend)
    return name


def faults_of(pair: Pair) -> tuple[Fault, ...]:
    """Return the faults: how each shows, why it comes, how to put it right."""
    ids = ids_of(pair.structure, "faults", required=False)
    told = told_of(pair, "faults", ids, "fault")
    return tuple(_fault(pair.words, key, told.nodes[key]) for key in ids if key in told.nodes)


def _fault(words: Words, key: str, node: Node) -> Fault:
    """Return one fault."""
    fields = Fields.of(node, words.sheet, key)
    fault = Fault(key, *(words.under(fields, part) for part in ("shows", "cause", "cure")))
    fields.close()
    return fault


def points_of(pair: Pair) -> tuple[tuple[Point, int], ...]:
    """Return the points of the checklist as they are typed, in order, each with its line."""
    entries = listed(pair.structure, "checklist")
    told = told_of(pair, "checklist", lines_of(entries), "point")
    return tuple((_point(pair, key, fields, told.nodes.get(key)), fields.line) for key, fields in entries.items())


def _point(pair: Pair, key: str, fields: Fields, node: Node | None) -> Point:
    """Return one point; a measured one needs a line that can be met or missed."""
    judged, critical = fields.one_of("judged", JUDGED), fields.yes("critical", default=False)
    limit = _limit_named(pair, fields, judged)
    pieces = fields.whole("pieces", 1, 100, default=1)
    inside = fields.whole("pieces_inside", 1, 100, default=pieces)
    if inside > pieces:
        fields.sheet.note(
            fields.line, f"{inside} pieces of {pieces} cannot be inside.", "Ask for no more than are taken."
        )
    fields.close()
    words = pair.words.with_own({"pieces": str(pieces), "pieces_inside": str(inside)})
    return Point(key, words.of(node, key), critical, cast(Judged, judged), limit, pieces, inside)


def _limit_named(pair: Pair, fields: Fields, judged: str) -> Limit | None:
    """Return the line a point is judged by: one of the technique, or code.<id>."""
    node = fields.node("limit", required=judged not in ("", "ticked"))
    if node is None:
        return None
    key, limit = _line_named(pair, node)
    if judged == "ticked":
        fields.sheet.note(
            node.line, f"{fields.name} is ticked, so it has no limit.", "Judge it weighed, measured or timed."
        )
    elif limit is None:
        _note_unknown_line(pair, node, key, "limit")
    elif limit.lowest is None and limit.highest is None:
        mend = "Give the line a give_or_take, a lowest or a highest."
        fields.sheet.note(node.line, f"{key} is a target alone: nothing can be inside or outside it.", mend)
    else:
        _note_wrong_kind(limit, judged, fields, node.line)
    return limit


def _line_named(pair: Pair, node: Node) -> tuple[str, Limit | None]:
    """Return the name typed, and the line that goes by it: one of the technique, or code.<id>."""
    key = node.value if isinstance(node, Text) else shown(node)
    return key, _known_lines(pair).get(key)


def _note_unknown_line(pair: Pair, node: Node, key: str, name: str) -> None:
    """Note a line that is not there; one that is there and could not be read has had its problem told."""
    if key not in pair.words.faulty:
        mend = nearest(key, _known_lines(pair))
        pair.structure.sheet.note(node.line, f"{name} names {key!r}, which is not known.", mend)


def _known_lines(pair: Pair) -> Mapping[str, Limit]:
    """Return every line a step or a point may name."""
    return {**pair.standard, **{f"code.{key}": limit for key, limit in pair.around.code.items()}}


def _note_wrong_kind(limit: Limit, judged: str, fields: Fields, line: int) -> None:
    """Note a point weighed against a time, or the like."""
    end = limit.highest or limit.lowest
    kind = DIMENSIONS.get(judged)
    if end is not None and kind and end.unit.dimension != kind:
        problem = f"{fields.name} is {judged}, but {limit.id} is a {end.unit.dimension}."
        fields.sheet.note(line, problem, "Name another line, or judge the point another way.")
