"""The wrong methods a cook's answers show, for the teacher: named from the second answer on, with what each means."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import takewhile
from typing import NamedTuple

from trainer.kitchen.quiz.families import teacher_sentence
from trainer.kitchen.sat import Sat
from trainer.recipe_math.saying import Saying, joined, say


class Method(NamedTuple):
    """A wrong method of a family, by name."""

    family: str
    name: str


@dataclass(frozen=True, slots=True)
class ShownMethod:
    """A wrong method two or more answers showed, in how many, and what it means, said to the teacher."""

    family: str
    name: str
    times: int
    tells: str

    @property
    def words(self) -> Saying:
        """Return the method and how often it showed, for the teacher."""
        shown = say("{times} answers showed it.", times=self.times)
        return joined([self.tells, shown]) if self.tells else shown


def methods_shown(sittings: Sequence[Sat]) -> tuple[ShownMethod, ...]:
    """Return the wrong methods in two or more answers of one technique's sittings, the most frequent first.

    One such answer may be a slip (VanLehn 1982: stable bugs and unstable slips). The sittings since the last pass
    count; after a pass, the one that passed.
    """
    since_pass = list(takewhile(lambda line: not line.passed, reversed(sittings)))
    counted = list(reversed(since_pass)) or sittings[-1:]
    shown = Counter(
        Method(asked["family"], asked["method"])
        for sat in counted
        for asked in sat.kept["questions"]
        if asked["method"] and not asked["right"]
    )
    return tuple(
        ShownMethod(way.family, way.name, times, teacher_sentence(way.family, way.name))
        for way, times in shown.most_common()
        if times >= 2
    )
