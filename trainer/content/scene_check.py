"""What makes a bank of scenes good enough to ask: enough of them, of several kinds, short, and nothing that tells.

This is told by the check alone; what is told leaves nothing out.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from trainer.kitchen.quiz.scenes import Scene, luck_of_bank
from trainer.kitchen.technique import Technique

FEWEST_SCENES, FEWEST_KINDS = 12, 3
MOST_SEEN, MOST_CHOSEN = 20, 9
MOST_LUCK = Fraction(1, 4)
MOST_LONGEST, MUCH_LONGER = Fraction(1, 3), Fraction(3, 2)
"""The right choice is the longest of its scene in no more than a third of the scenes, and never so much longer."""
FEWEST_LETTERS = 24
"""A choice shorter than this is not told by its length."""

Told = tuple[str, str, str]
"""The scene's id, or nothing for the whole bank; what is wrong; how to fix it."""


def bank_problems(technique: Technique) -> tuple[Told, ...]:
    """Return what is wrong with the scenes of a technique; nothing where it has none."""
    scenes = technique.scenes
    if not scenes:
        return ()
    return (*_of_bank(scenes), *(told for scene in scenes for told in _of_scene(scene)))


def _of_bank(scenes: tuple[Scene, ...]) -> Iterator[Told]:
    """Yield what is wrong with the bank as a whole."""
    kinds = {scene.kind for scene in scenes}
    if len(scenes) < FEWEST_SCENES:
        yield "", f"There are {len(scenes)} scenes.", f"Write {FEWEST_SCENES} or more: none comes again for 60 days."
    if len(kinds) < FEWEST_KINDS:
        yield "", f"The scenes are of {len(kinds)} kinds.", f"Ask in {FEWEST_KINDS} kinds or more."
    luck = luck_of_bank(scenes)
    if luck > MOST_LUCK:
        percent = round(luck * 100)
        yield "", f"A guess is right in {percent} of 100 of these scenes.", "Give six choices, or ask for all that fit."
    chosen = [scene for scene in scenes if len(scene.right) == 1 and scene.kind not in {"mark_all", "which_ready"}]
    longest = [scene for scene in chosen if _is_longest(scene)]
    if len(longest) > MOST_LONGEST * len(chosen):
        named = ", ".join(scene.id for scene in longest)
        yield "", f"The right choice is the longest one in {named}.", "Shorten it, or say more in a wrong one."
    for text, count in Counter(_asked(scene) for scene in scenes).items():
        if count > 1:
            yield "", f"{count} scenes read alike: {text[:60]}", "Say in each what tells it from the other."


def _of_scene(scene: Scene) -> Iterator[Told]:
    """Yield what is wrong with one scene."""
    count = _words(scene.seen)
    if count > MOST_SEEN:
        yield scene.id, f"{scene.id} is seen in {count} words.", f"Keep it within {MOST_SEEN}."
    for choice in (*scene.choices, *scene.reasons):
        if _words(choice.text) > MOST_CHOSEN and scene.kind != "which_limit":
            yield scene.id, f"{choice.id} of {scene.id} has {_words(choice.text)} words.", f"Keep to {MOST_CHOSEN}."
    right, others = _lengths(scene)
    is_told = scene.kind not in {"mark_all", "which_ready", "which_limit"} and right >= FEWEST_LETTERS
    if is_told and others and right > MUCH_LONGER * max(others):
        yield scene.id, f"The right choice of {scene.id} is much the longest.", "Shorten it."


def _words(text: str) -> int:
    """Return how many words a cook reads; a limit in both systems of measures counts as one."""
    return len(re.sub(r"\d[\d/. ]*(?:°[FC]|\w+) ?\([^)]*\)", "limit", text).split())


def _asked(scene: Scene) -> str:
    """Return what a cook reads of a scene, its drawing named; with numbers that are drawn it is always another."""
    return scene.seen + (f" {scene.id}" if scene.figure or scene.draws or scene.pictures else "")


def _lengths(scene: Scene) -> tuple[int, list[int]]:
    """Return how long the right choice is, and how long the others are."""
    right = max((len(choice.text) for choice in scene.choices if choice.is_right), default=0)
    return right, [len(choice.text) for choice in scene.choices if not choice.is_right]


def _is_longest(scene: Scene) -> bool:
    right, others = _lengths(scene)
    return bool(others) and right > max(others)
