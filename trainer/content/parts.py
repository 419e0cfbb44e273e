"""The parts of a technique: hazards, steps, faults and the points of its checklist, and the words of each."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from math import ceil
from pathlib import Path
from typing import cast

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.kinds import Kind, Written
from trainer.content.limits import duration_text
from trainer.content.mapping_reader import ID, SHORT, MappingReader, nearest, shown
from trainer.content.nodes import Node, ScalarNode, SequenceNode
from trainer.content.words import Filler, check_alt_text
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


def line_name() -> Kind:
    """Return the name of a measured line, of this file or of the local code; which there are is checked later."""

    def read(node: Node, name: str, at: MappingReader) -> Written:
        return Written(node.line, name, node.value if isinstance(node, ScalarNode) else shown(node))

    schema = {"type": "string", "pattern": rf"^(code\.)?{ID.pattern}$"}
    return Kind("a line of the standard, or code.<id>", read, schema)


def line_names() -> Kind:
    """Return the name of a measured line, or a list of two and more."""
    one = line_name()

    def read(node: Node, name: str, at: MappingReader) -> Written | tuple[Written, ...]:
        if not isinstance(node, SequenceNode):
            found: Written = one.read(node, name, at)
            return found
        if len(node.items) < 2:
            hint = "Name one line, without the list."
            at.diagnostics.add(node.line, f"{name} is a list of fewer than two lines.", hint)
        return tuple(one.read(item, name, at) for item in node.items)

    schema = {"anyOf": [one.schema, kinds.list_of(one, 2).schema]}
    return Kind("a line of the standard, code.<id>, or a list of lines", read, schema)


class HazardBlock(Block):
    """What can hurt a person; its caution is in the words."""

    named_by = "id"

    id: str = key(kinds.own_id())
    form: str = key(kinds.one_of(FORMS), "The sign: a warning, what must not be, or what must be done.")
    mark: str = key(kinds.one_of(MARKS), "What the sign shows.")

    def hazard(self, caution: str) -> Hazard:
        """Return the record."""
        return Hazard(self.id, self.form, self.mark, caution)


class StepBlock(Block):
    """One thing to do, one screen."""

    named_by = "id"

    id: str = key(kinds.own_id())
    kind: str = key(kinds.one_of(KINDS), "What the hands do.")
    hazards: tuple[str, ...] = optional(kinds.names_of("hazards"), "Cautions that are shown above this step.")
    figure: Written | None = optional(kinds.placed_text(SHORT), "An .svg file in this folder.")
    lasts: Written | tuple[Written, ...] | None = key(
        line_names(), "How long the timer runs; of a list, a timer for each line.", when=("kind", ("time",))
    )


class StepWordsBlock(Block):
    """The words of one step."""

    do: Written | None = key(kinds.words(), "What to do.")
    cue: Written | None = optional(kinds.words(), "What it looks, feels, sounds or smells like when right.")
    why: Written | None = optional(kinds.words(), "Why it is done so.")
    figure: Written | None = optional(kinds.words(), "What the figure shows, in fifteen words or more.")


class FaultWords(Block):
    """What goes wrong."""

    shows: Written | None = key(kinds.words(), "How it shows.")
    cause: Written | None = key(kinds.words(), "Why it comes.")
    cure: Written | None = key(kinds.words(), "How to put it right.")

    def fault(self, id: str, words: Filler) -> Fault:
        """Return the record."""
        return Fault(id, words.fill(self.shows), words.fill(self.cause), words.fill(self.cure))


class PointBlock(Block):
    """One line of the checklist."""

    named_by = "id"

    id: str = key(kinds.own_id())
    judged: str = key(kinds.one_of(JUDGED), "How it is judged.")
    critical: bool = key(kinds.yes_no(), "Missed, it means not yet, whatever else was right.", default=False)
    limit: Written | None = key(line_name(), "What it is judged by.", when=("judged", JUDGED[1:]))
    pieces: int = key(kinds.whole(1, 100), "How many readings are taken.", default=1)
    pieces_inside: int = key(kinds.whole(1, 100), "How many of them must be inside; all, if left out.", default=0)

    @property
    def inside(self) -> int:
        """Return how many readings must be inside."""
        return self.pieces_inside or self.pieces

    def check(self) -> None:
        """Add a problem where more must be inside than are taken."""
        if self.inside > self.pieces:
            hint = "Ask for no more than are taken."
            self.at.add(f"{self.inside} pieces of {self.pieces} cannot be inside.", hint)


@dataclass(frozen=True, slots=True)
class StandardLines:
    """The measured lines that steps and points may name: those of the technique, and those of the local code.

    `faulty` are there and could not be read, which is told already.
    """

    known: Mapping[str, Limit]
    faulty: Collection[str]

    def named(self, name: Written, at: MappingReader) -> Limit | None:
        """Return the line of a name; one that is not there is a problem."""
        if name.text not in self.known and name.text not in self.faulty:
            at.unknown(name.line, name.key, name.text, self.known)
        return self.known.get(name.text)


def timers_of(step: StepBlock, lines: StandardLines, own: Collection[str]) -> tuple[Timer, ...]:
    """Return the timers of a step, without words: one for the line that `lasts` names, or one for each of a list.

    Each of a list is told in the sentence of its line, so it names *own* lines of the technique.
    """
    names = step.lasts if isinstance(step.lasts, tuple) else (step.lasts,) if step.lasts else ()
    found = []
    for name in names:
        seconds = _seconds(step, name, lines)
        if seconds is not None and isinstance(step.lasts, tuple) and name.text not in own:
            message = f"{name.text} has no sentence to tell its timer by."
            step.at.diagnostics.add(name.line, message, "Name lines of the standard.")
        elif seconds is not None:
            found.append(Timer(name.text, seconds, ""))
    return tuple(found)


def _seconds(step: StepBlock, name: Written, lines: StandardLines) -> int | None:
    """Return how long a timer runs: the target of the line it names, or its lowest value."""
    limit = lines.named(name, step.at)
    if limit is None:
        return None
    lasts, add = limit.target or limit.lowest, step.at.diagnostics.add
    if lasts is None:
        hint = "A timer runs to a target or at least to a lowest value: name such a line."
        add(name.line, f"{name.text} has a highest value alone, so no timer can run to it.", hint)
    elif lasts.unit.dimension != "duration" or not 1 <= lasts.base <= LONGEST_STEP:
        add(name.line, f"{step.at.name} lasts {lasts}.", "Name a line that is a time, from one second to two days.")
    else:
        return ceil(lasts.base)
    return None


def check_figure(step: StepBlock, folder: Path) -> None:
    """Add a problem where a step names a figure that is not in the technique's folder."""
    if step.figure is None or not step.figure.text:
        return
    name, add = step.figure.text, step.at.diagnostics.add
    if Path(name).name != name or not name.endswith(".svg"):
        add(step.figure.line, f"figure is {name!r}.", "Name an .svg file in this technique's own folder.")
    elif not (folder / name).is_file():
        there = {path.name for path in folder.glob("*.svg")}
        hint = nearest(name, there) if there else "Draw it, or take the key and its words out."
        add(step.figure.line, f"There is no figure {name} in {folder.name}.", hint)


def step_of(block: StepBlock, timers: tuple[Timer, ...], told: StepWordsBlock | None, filler: Filler) -> Step:
    """Return one step; one timer is a time of its own, several carry their sentences."""
    seconds = timers[0].seconds if len(timers) == 1 else None
    is_single = block.lasts is not None and not isinstance(block.lasts, tuple)
    words = filler.with_own({"seconds": duration_text(seconds or 0, filler.language)} if is_single else {})
    figure = block.figure.text if block.figure else ""
    if told is not None:
        check_alt_text(told.figure, told, bool(figure))
    do, cue, why, alt = (words.fill(each) for each in (told.do, told.cue, told.why, told.figure)) if told else [""] * 4
    return Step(
        id=block.id,
        kind=cast(StepKind, block.kind),
        text=do,
        cue=cue,
        why=why,
        figure=figure,
        figure_alt=alt,
        hazards=block.hazards,
        seconds=seconds,
        timers=timers if len(timers) > 1 else (),
    )


def point_of(block: PointBlock, lines: StandardLines) -> Point:
    """Return one point of the checklist as it is typed, without its words."""
    judged = cast(Judged, block.judged)
    return Point(block.id, "", block.critical, judged, _limit_of(block, lines), block.pieces, block.inside)


def _limit_of(block: PointBlock, lines: StandardLines) -> Limit | None:
    """Return the line a point is judged by; one that cannot be met or missed is a problem."""
    if block.limit is None:
        return None
    name, add = block.limit, block.at.diagnostics.add
    if block.judged == "ticked":
        add(name.line, f"{block.id} is ticked, so it has no limit.", "Judge it weighed, measured or timed.")
        return lines.known.get(name.text)
    limit = lines.named(name, block.at)
    if limit is None:
        return None
    end, kind = limit.highest or limit.lowest, DIMENSIONS.get(block.judged)
    if end is None:
        hint = "Give the line a give_or_take, a lowest or a highest."
        add(name.line, f"{name.text} is a target alone: nothing can be inside or outside it.", hint)
    elif kind and end.unit.dimension != kind:
        message = f"{block.id} is {block.judged}, but {limit.id} is a {end.unit.dimension}."
        add(name.line, message, "Name another line, or judge the point another way.")
    return limit
