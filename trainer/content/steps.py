"""The steps of a technique: what the hands do, how it is drawn, and in which groups they stand."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from math import ceil
from pathlib import Path
from typing import cast

from trainer.content import kinds
from trainer.content.declarations import Block, key, optional
from trainer.content.figure_files import read_drawing, warn_of_refused
from trainer.content.kinds import Table, Written
from trainer.content.limits import duration_text
from trainer.content.mapping_reader import SHORT, nearest
from trainer.content.parts import StandardLines, line_name, line_names
from trainer.content.photo_files import ENDING, check_photograph
from trainer.content.words import Filler, check_alt_text, words_for
from trainer.kitchen.drawing_numbers import unknown_in
from trainer.kitchen.motion import SIDES, StepGroup, StripFrame, Triple, TriplePicture
from trainer.kitchen.technique import NAME_LETTERS, Limit, Step, StepKind, Timer

KINDS = ("do", "check", "weigh", "time", "tell", "stop")
LONGEST_STEP = 172_800
FEWEST_FRAMES, MOST_FRAMES = 2, 5
MOST_GROUPS = 5
MORE_WORDS = 3
DRAWN = ("figure", "strip", "triple")


def drawing() -> kinds.Kind:
    """Return the name of a drawing."""
    return kinds.placed_text(SHORT)


def words_by_line() -> kinds.Kind:
    """Return words for measured lines, of this file or of the local code."""
    named = kinds.words_by_id()
    schema = {**named.schema, "propertyNames": line_name().schema}
    return replace(named, written="under each line: words", schema=schema)


class TripleBlock(Block):
    """Too little, right and too far, each an .svg file in this folder."""

    under: Written | None = key(drawing(), "Too little.")
    right: Written | None = key(drawing(), "Right.")
    over: Written | None = key(drawing(), "Too far.")
    line: Written | None = optional(line_name(), "The line whose ends stand below the drawings.")

    @property
    def files(self) -> dict[str, Written]:
        """Return the names of the three files that are named, by the side they are on."""
        found = {side: getattr(self, side) for side in SIDES}
        return {side: name for side, name in found.items() if name is not None}


class StepBlock(Block):
    """One thing to do, one screen."""

    named_by = "id"

    id: str = key(kinds.own_id())
    kind: str = key(kinds.one_of(KINDS), "What the hands do.")
    group: Written | None = optional(
        kinds.placed_text(SHORT), f"A group of steps that begins here; {MOST_GROUPS} at the most, named in the words."
    )
    hazards: tuple[str, ...] = optional(kinds.names_of("hazards"), "Cautions that are shown above this step.")
    figure: Written | None = optional(drawing(), "An .svg file in this folder.")
    strip: tuple[Written, ...] = optional(
        kinds.list_of(drawing(), FEWEST_FRAMES),
        f"In place of a figure, {FEWEST_FRAMES} to {MOST_FRAMES} .svg files: one movement, drawn in frames.",
    )
    triple: TripleBlock | None = optional(
        kinds.nested(TripleBlock), "In place of a figure, three: too little, right, too far."
    )
    photograph: Written | None = optional(
        kinds.placed_text(SHORT), f"A photograph of the kitchen's own in this folder, beside the drawing: {ENDING}."
    )
    lasts: Written | tuple[Written, ...] | None = key(
        line_names(), "How long the timer runs; of a list, a timer for each line.", when=("kind", ("time",))
    )

    def check(self) -> None:
        """Add a problem where a step is drawn in two ways, or a strip is too short or too long."""
        ways = [way for way in DRAWN if way in self.at.nodes]
        if len(ways) > 1:
            self.at.add(f"{self.id} has {' and '.join(ways)}.", "One view holds one of them: keep one.")
        frames = len(self.strip)
        if "strip" in self.at.nodes and not FEWEST_FRAMES <= frames <= MOST_FRAMES:
            hint = f"Draw {FEWEST_FRAMES} to {MOST_FRAMES}; more movements are more steps."
            self.at.diagnostics.add(self.at.lines["strip"], f"The strip of {self.id} has {frames} frames.", hint)

    @property
    def drawings(self) -> tuple[Written, ...]:
        """Return the names of all its drawings."""
        one = (self.figure,) if self.figure else ()
        return (*one, *self.strip, *(self.triple.files.values() if self.triple else ()))


class FrameWords(Block):
    """The words of one frame of a strip."""

    called = "a frame"

    word: Written | None = key(kinds.words(SHORT), "A number in braces, or a word or two.")
    more: Written | None = optional(kinds.words(SHORT), f"Up to {MORE_WORDS} words more.")

    def frame(self, figure: str, words: Filler) -> StripFrame:
        """Return the record; too many words are a problem."""
        for each, most in ((self.word, MORE_WORDS - 1), (self.more, MORE_WORDS)):
            check_label(each, most, self)
        return StripFrame(figure, words.fill(self.word), words.fill(self.more))


class PictureWords(Block):
    """The words of one of three drawings."""

    look: Written | None = key(kinds.words(SHORT), f"What it looks like, in {MORE_WORDS} words or fewer.")
    act: Written | None = key(kinds.words(SHORT), f"What to do then, in {MORE_WORDS} words or fewer.")

    def picture(self, figure: str, words: Filler) -> TriplePicture:
        """Return the record; too many words are a problem."""
        for each in (self.look, self.act):
            check_label(each, MORE_WORDS, self)
        return TriplePicture(figure, words.fill(self.look), words.fill(self.act))


class TripleWords(Block):
    """The words of three drawings; their numbers are those of the line the triple names."""

    under: PictureWords | None = key(kinds.nested(PictureWords), "Too little.")
    right: PictureWords | None = key(kinds.nested(PictureWords), "Right.")
    over: PictureWords | None = key(kinds.nested(PictureWords), "Too far.")


class StepWordsBlock(Block):
    """The words of one step."""

    name: Written | None = optional(kinds.words(SHORT), f"Its name, in up to {NAME_LETTERS} letters.")
    do: Written | None = key(kinds.words(), "What to do.")
    cue: Written | None = optional(kinds.words(), "What it looks, feels, sounds or smells like when right.")
    why: Written | None = optional(kinds.words(), "Why it is done so.")
    figure: Written | None = optional(
        kinds.words(), "What the figure, the strip or the triple shows, in fifteen words or more."
    )
    photograph: Written | None = optional(kinds.words(), "What the photograph shows, in fifteen words or more.")
    strip: tuple[FrameWords, ...] = optional(
        kinds.list_of(kinds.nested(FrameWords)), "The words of each frame of the strip."
    )
    triple: TripleWords | None = optional(kinds.nested(TripleWords), "The words of each of the three drawings.")

    def check(self) -> None:
        """Add a problem for a name that is longer than a line of a phone."""
        if self.name is not None and len(self.name.text) > NAME_LETTERS:
            message = f"The name of {self.at.name} has {len(self.name.text)} letters."
            self.at.diagnostics.add(self.name.line, message, f"Say it in {NAME_LETTERS} or fewer.")


def check_label(written: Written | None, most: int, at: Block) -> None:
    """Add a problem where the words on a drawing are too many; a number in braces counts as one."""
    count = len(kinds.BRACE.sub("1", written.text).split()) if written else 0
    if written is not None and count > most:
        message = f"{written.key} has {count} words on a drawing."
        at.at.diagnostics.add(written.line, message, f"Say it in {most} or fewer.")


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


def check_drawings(step: StepBlock, folder: Path, lines: StandardLines) -> None:
    """Add a problem where a step names a drawing that is not in the technique's folder, or that no page shows.

    So is a number on one that no line has.
    """
    if step.photograph is not None and step.photograph.text:
        check_photograph(step.photograph.line, step.photograph.text, folder, step.at.diagnostics)
    for name in (each for each in step.drawings if each.text):
        add = step.at.diagnostics.add
        if Path(name.text).name != name.text or not name.text.endswith(".svg"):
            add(name.line, f"{name.key} is {name.text!r}.", "Name an .svg file in this technique's own folder.")
        elif not (folder / name.text).is_file():
            there = {path.name for path in folder.glob("*.svg")}
            hint = nearest(name.text, there) if there else "Draw it, or take the key and its words out."
            add(name.line, f"There is no figure {name.text} in {folder.name}.", hint)
        else:
            warn_of_refused(name.line, folder / name.text, step.at.diagnostics)
            for number in unknown_in(read_drawing(folder / name.text), lines.known):
                hint = "Name a line of the standard, or code.<id>; .lowest, .highest or .target of it."
                step.at.diagnostics.warn(name.line, f"{name.text} names {number}, which no line has.", hint)


def check_groups(steps: Mapping[str, StepBlock]) -> None:
    """Add a problem where groups are too many, begin twice, or leave the first steps out."""
    begun: set[str] = set()
    for step in steps.values():
        if step.group is None:
            continue
        name, add = step.group.text, step.at.diagnostics.add
        if name in begun:
            add(step.group.line, f"The group {name} begins twice.", "Give each group its own id.")
        elif step.at.check_id(name, step.group.line):
            begun.add(name)
    first = next(iter(steps.values()), None)
    if begun and first is not None and first.group is None:
        first.at.add(f"{first.id} stands in no group.", "Let a group begin at the first step.")
    if len(begun) > MOST_GROUPS and first is not None:
        first.at.add(f"The steps stand in {len(begun)} groups.", f"Make it {MOST_GROUPS} or fewer.")


def groups_of(
    steps: Mapping[str, StepBlock], words: Table[Written] | None, at: Block, filler: Filler
) -> tuple[StepGroup, ...]:
    """Return the groups with their names and the numbers of their steps."""
    begins = [(step.group.text, number) for number, step in enumerate(steps.values(), 1) if step.group]
    names = words_for([id for id, _ in begins], words, "groups", "group", at)
    ends = [*(number - 1 for _, number in begins[1:]), len(steps)]
    return tuple(
        StepGroup(id, filler.fill(names.get(id)) or id, first, last)
        for (id, first), last in zip(begins, ends, strict=False)
    )


@dataclass(frozen=True, slots=True)
class StepStructure:
    """A step with all that does not hang on words: its timers, and the line whose numbers its triple shows."""

    block: StepBlock
    timers: tuple[Timer, ...]
    line: Limit | None


def step_structure(block: StepBlock, lines: StandardLines, own: Collection[str]) -> StepStructure:
    """Return a step, its lines found; *own* are the lines of the technique itself."""
    named = block.triple.line if block.triple else None
    line = lines.named(named, block.at) if named else None
    if named and line and line.lowest is None and line.highest is None:
        hint = "Name one with a lowest or a highest: its ends stand below the drawings."
        block.at.diagnostics.add(named.line, f"{named.text} is a target alone.", hint)
    return StepStructure(block, timers_of(block, lines, own), line)


def step_of(found: StepStructure, timers: tuple[Timer, ...], told: StepWordsBlock | None, filler: Filler) -> Step:
    """Return one step in words; one timer is a time of its own, several carry their sentences."""
    block = found.block
    seconds = timers[0].seconds if len(timers) == 1 else None
    is_single = block.lasts is not None and not isinstance(block.lasts, tuple)
    words = filler.with_own({"seconds": duration_text(seconds or 0, filler.language)} if is_single else {})
    texts = (told.do, told.cue, told.why, told.figure, told.name) if told else (None,) * 5
    do, cue, why, alt, name = (words.fill(each) for each in texts)
    if told is not None:
        check_alt_text(told.figure, told, bool(block.drawings))
        check_alt_text(told.photograph, told, block.photograph is not None, "photograph")
    return Step(
        id=block.id,
        kind=cast(StepKind, block.kind),
        text=do,
        cue=cue,
        why=why,
        figure=block.figure.text if block.figure else "",
        figure_alt=alt,
        hazards=block.hazards,
        seconds=seconds,
        timers=timers if len(timers) > 1 else (),
        name=name,
        strip=tuple(_frames(block, told, words.for_labels())) if told else (),
        triple=_triple(found, told, words.for_labels()) if told else None,
        photograph=block.photograph.text if block.photograph else "",
        photograph_alt=words.fill(told.photograph) if told else "",
    )


def _frames(block: StepBlock, told: StepWordsBlock, labels: Filler) -> Iterator[StripFrame]:
    """Yield the frames of a strip; each has its words, and there are no words without a frame."""
    if len(told.strip) != len(block.strip):
        line = told.at.lines.get("strip", told.at.line)
        message = f"strip of {told.at.name} tells {len(told.strip)} of {len(block.strip)} frames."
        told.at.diagnostics.add(line, message, "Say each in their order, or take it out.")
    for name, words in zip(block.strip, told.strip, strict=False):
        yield words.frame(name.text, labels)


def _triple(found: StepStructure, told: StepWordsBlock, labels: Filler) -> Triple | None:
    """Return the three drawings with their words; None where there are none, or some are missing, which is told."""
    block, words = found.block.triple, told.triple
    if block is None:
        if words is not None:
            message = f"{told.at.name} has words for a triple it does not show."
            words.at.add(message, "Name its files, or take them out.")
        return None
    if words is None:
        told.at.missing("triple")
        return None
    pictures = {
        side: getattr(words, side).picture(name.text, labels)
        for side, name in block.files.items()
        if getattr(words, side) is not None
    }
    return Triple(**pictures, line=found.line) if len(pictures) == len(SIDES) else None
