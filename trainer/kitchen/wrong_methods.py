"""The wrong methods a cook's answers show, for the teacher: named from the second answer on, with what each means."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import takewhile
from typing import NamedTuple

from trainer.kitchen.quiz.sentences import QuestionWords
from trainer.kitchen.sitting_result import SittingResult
from trainer.kitchen.skills.fold import Happening
from trainer.messages import Text, joined, message

WRONG = frozenset({"wrong", "old_wrong"})


class Method(NamedTuple):
    """A wrong method of a family, by name."""

    family: str
    name: str


@dataclass(frozen=True, slots=True)
class ShownMethod:
    """A wrong method two or more answers showed, and in how many."""

    family: str
    name: str
    times: int

    def for_teacher(self, words: QuestionWords) -> Text:
        """Return what the method means and how often it showed, for the teacher."""
        shown = message("{times} answers showed it.", times=self.times)
        means = words.for_teacher(self.family, self.name)
        return joined([means, shown]) if means else shown


def methods_shown(sittings: Sequence[SittingResult]) -> tuple[ShownMethod, ...]:
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
    return tuple(ShownMethod(way.family, way.name, times) for way, times in shown.most_common() if times >= 2)


def methods_answered(answers: Iterable[Happening], skills: Collection[str]) -> tuple[ShownMethod, ...]:
    """Return the wrong methods that two or more answers showed in some skills, the most frequent first."""
    shown = Counter(Method(line.family, line.name) for line in answers if line.skill in skills and _shows(line))
    return tuple(ShownMethod(way.family, way.name, times) for way, times in shown.most_common() if times >= 2)


@dataclass(frozen=True, slots=True)
class AcrossCooks:
    """A wrong method two or more answers showed, and of which cooks."""

    family: str
    name: str
    times: int
    cooks: tuple[str, ...]


def methods_across(answers: Mapping[str, Iterable[Happening]]) -> tuple[AcrossCooks, ...]:
    """Return the wrong methods that two or more answers showed, of one cook or of several, by most cooks first.

    One answer alone may be a slip. These are plain counts: they are true however few the cooks are.
    """
    shown: dict[Method, list[str]] = {}
    for cook, happened in answers.items():
        for line in happened:
            if _shows(line):
                shown.setdefault(Method(line.family, line.name), []).append(cook)
    found = [
        AcrossCooks(way.family, way.name, len(cooks), tuple(dict.fromkeys(cooks)))
        for way, cooks in shown.items()
        if len(cooks) >= 2
    ]
    return tuple(sorted(found, key=lambda one: (-len(one.cooks), -one.times)))


def _shows(line: Happening) -> bool:
    """Return whether what happened is an answer that shows a method: a drill names the one it is against."""
    return bool(line.name) and line.act in WRONG
