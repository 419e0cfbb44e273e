"""How many skills a technique may ask for, and a station: enough to know, few enough to be asked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import combinations

from trainer.kitchen.technique import AskedSkill, Technique
from trainer.messages import Text, message

FEWEST, MOST = 3, 9
FEW, MOST_ROW_OF_FEW, MOST_ROW = 6, 20, 30
"""The right answers in a row of all skills together: at most 20 for up to six skills, 30 for more."""
MOST_A_TECHNIQUE = Fraction(4)
"""Different skills a technique, on the average of a station."""


def bound_problems(technique: Technique, asked_by: Mapping[str, int]) -> Iterator[tuple[Text, Text]]:
    """Yield what is wrong with the skills a technique asks for, each with how to fix it.

    *asked_by* says how many techniques ask for each skill.
    """
    skills = technique.knowledge
    if not FEWEST <= len(skills) <= MOST:
        yield (
            message("{technique} asks for {count} skills.", technique=technique.id, count=len(skills)),
            message("Ask for {fewest} to {most}.", fewest=FEWEST, most=MOST),
        )
    if not any(is_own_craft(skill, technique, asked_by) for skill in skills):
        yield (
            message("{technique} asks for no skill of its own craft.", technique=technique.id),
            message("Add one that is made of its own words, or that no other technique asks for."),
        )
    for one, other in alike(skills):
        yield (
            message(
                "{technique} asks for {one} and {other}, which are one skill.",
                technique=technique.id,
                one=one.id,
                other=other.id,
            ),
            message("Keep one of them."),
        )
    row, most = row_of(skills), MOST_ROW_OF_FEW if len(skills) <= FEW else MOST_ROW
    if row > most:
        yield (
            message(
                "The skills of {technique} ask for {row} right answers in a row, one after the other.",
                technique=technique.id,
                row=row,
            ),
            message("Ask for {most} at the most: fewer skills, or more choices in their questions.", most=most),
        )


def alike(skills: Sequence[AskedSkill]) -> Iterator[tuple[AskedSkill, AskedSkill]]:
    """Yield each two skills of which one is said to ask the same as the other, or both the same as a third."""
    for one, other in combinations(skills, 2):
        if (one.same_as or one.id) == (other.same_as or other.id):
            yield one, other


def row_of(skills: Sequence[AskedSkill]) -> int:
    """Return how many right answers pass all of some skills at first."""
    return sum(skill.base for skill in skills)


def is_own_craft(skill: AskedSkill, technique: Technique, asked_by: Mapping[str, int]) -> bool:
    """Return whether a skill is of the technique's own craft: of its own words, or asked for by no other."""
    return skill.of == technique.id or (not skill.of and asked_by.get(skill.id, 0) <= 1)
