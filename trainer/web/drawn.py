"""What a step shows: one drawing, a strip of frames, or too little, right and too far, each with its words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from trainer.kitchen.drawing_numbers import numbered
from trainer.kitchen.motion import Side, StripFrame, Triple
from trainer.kitchen.technique import Limit, Step, Technique
from trainer.messages import Text, message
from trainer.web import reading

NOTHING = Markup("")
ReadSvg = Callable[[str], str]
"""Returns the text of a drawing by its file's name; empty where there is none, or no page may show it."""
SIDE_WORDS: dict[Side, Text] = {
    "under": message("Too little"),
    "right": message("Just right"),
    "over": message("Too far"),
}


@dataclass(frozen=True, slots=True)
class Frame:
    """One drawing of several: its words in bold, and those below. The thick frame is around what is right."""

    svg: Markup
    lead: Text
    lines: tuple[Text, ...]
    is_right: bool = False


@dataclass(frozen=True, slots=True)
class StepDrawing:
    """What a step shows: a drawing by itself, or frames in a row. `alt` tells all of it."""

    alt: str
    single: Markup = NOTHING
    frames: tuple[Frame, ...] = ()

    def __bool__(self) -> bool:
        """Return whether there is anything to see."""
        return bool(self.single or self.frames)


def numbers_on(technique: Technique, code: Mapping[str, Limit], read: ReadSvg) -> ReadSvg:
    """Return what reads a technique's drawings with the numbers of its lines on them, in the reader's units."""
    lines = {limit.id: limit for limit in technique.standard}
    lines |= {f"code.{id}": limit for id, limit in code.items()}

    def printed(text: Text) -> str:
        return str(escape(reading.said(text)))

    return lambda name: numbered(read(name), lines, reading.now().units, printed)


def drawn(step: Step, read: ReadSvg) -> StepDrawing:
    """Return what a step shows; the kitchen's own content, in which `figure_files` lets nothing run."""
    if step.strip:
        return StepDrawing(step.figure_alt, frames=_strip(step.strip, read))
    if step.triple is not None:
        return StepDrawing(step.figure_alt, frames=triple_frames(step.triple, read))
    return StepDrawing(step.figure_alt, single=_svg(step.figure, read) if step.figure else NOTHING)


def triple_frames(triple: Triple, read: ReadSvg) -> tuple[Frame, ...]:
    """Return too little, right and too far: look, number in the reader's units, and what to do then."""
    units = reading.now().units
    return tuple(
        Frame(
            svg=_svg(picture.figure, read),
            lead=SIDE_WORDS[side],
            lines=tuple(line for line in (picture.look, triple.number(side, units), picture.act) if line),
            is_right=side == "right",
        )
        for side, picture in triple.pictures
    )


def _strip(strip: tuple[StripFrame, ...], read: ReadSvg) -> tuple[Frame, ...]:
    return tuple(
        Frame(_svg(frame.figure, read), f"{number} {frame.word}", (frame.more,) if frame.more else ())
        for number, frame in enumerate(strip, 1)
    )


def _svg(name: str, read: ReadSvg) -> Markup:
    return Markup(read(name))  # noqa: S704 - lines and areas alone: trainer/content/figure_files.py
