"""What a technique gives to its questions: its steps in order, its faults, its scenes. And a stand-in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from trainer.kitchen.quiz.practice_scenes import PRACTICE_SCENES
from trainer.kitchen.quiz.scenes import Scene
from trainer.kitchen.technique import Fault, Technique


class StepWords(NamedTuple):
    """A step of a technique, by id, in words."""

    id: str
    text: str


@dataclass(frozen=True, slots=True)
class Material:
    """The words of one technique that questions are made from."""

    title: str
    steps: tuple[StepWords, ...]
    faults: tuple[Fault, ...]
    scenes: tuple[Scene, ...] = ()


def material_of(technique: Technique) -> Material:
    """Return what a technique gives to its questions."""
    steps = tuple(StepWords(step.id, step.text) for step in technique.steps)
    return Material(technique.title, steps, technique.faults, technique.scenes)


PRACTICE = Material(
    "Boiled pasta",
    (
        StepWords("boil", "Bring a wide pot of water to a full boil."),
        StepWords("salt", "Salt the water."),
        StepWords("drop", "Drop the strands in and stir them apart."),
        StepWords("taste", "Taste a strand when the time is nearly up."),
        StepWords("save", "Save a ladle of the water."),
        StepWords("drain", "Drain the strands."),
        StepWords("toss", "Toss them in the hot sauce."),
        StepWords("plate", "Plate at once."),
    ),
    (
        Fault("clumped", "Strands hang together in lumps.", "They were not stirred in the first half minute.",
              "Stir as soon as they are in, down to the bottom of the pot."),
        Fault("raw_middle", "A cut strand shows a white core.", "It left the pot too early.",
              "Taste before you drain, and give it the seconds it lacks."),
        Fault("soft", "Strands are limp and break when tossed.", "They boiled too long.",
              "Start the next batch; drain a little before they are done."),
        Fault("bland", "The sauce is well seasoned, the pasta is flat.", "The water had no salt.",
              "Salt the water before the strands go in."),
        Fault("dry_sauce", "The sauce sits on top and slides off.", "It was not tossed with water from the pot.",
              "Toss in the pan with a splash of the saved water."),
        Fault("cold_plate", "The plate is lukewarm at the table.", "It stood between tossing and plating.",
              "Time the toss so that the plate leaves at once."),
    ),
    PRACTICE_SCENES,
)  # fmt: skip
"""Common practice, for a family that is tried out with no technique named."""
