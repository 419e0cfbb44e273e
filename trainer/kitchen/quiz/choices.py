"""Choices put in some order and given their short keys, 1 for the first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from random import Random

from trainer.kitchen.quiz.question import Choice


def in_order(choices: Iterable[Choice]) -> tuple[Choice, ...]:
    """Return the choices as they come, each with its key."""
    return tuple(replace(choice, key=str(place)) for place, choice in enumerate(choices, 1))


def mixed_up(rng: Random, right: Choice, wrong: Sequence[Choice]) -> tuple[Choice, ...]:
    """Return the right choice somewhere among the wrong ones, each with its key."""
    choices = [right, *wrong]
    rng.shuffle(choices)
    return in_order(choices)
